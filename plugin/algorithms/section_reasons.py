"""Volumes of cross sections by each method, and why they differ."""

import numpy as np

from ..core.text import translate
from ..documents.section_report import Method
from ..documents.volumes_report import both, square
from .section_rows import Cut

SAME = 1e-3
"""Volumes that differ by a smaller share than this agree."""
BENDS = np.radians(2.0)
"""A line that turns by less than this in all is straight."""


class Reasons:
    """The volumes of a run, and the sentences on their differences.

    Parameters
    ----------
    cut
        The sections.
    numbers
        The figures of the run, by output.
    """

    def __init__(self, cut: Cut, numbers: dict[str, float]) -> None:
        self.cut, self.numbers = cut, numbers

    def methods(self) -> list[Method]:
        """Return the volumes by each method."""
        numbers = self.numbers
        names = {
            "AVERAGE": translate("CrossSections", "Average end areas"),
            "PRISMOIDAL": translate("CrossSections", "Prismoidal formula"),
            "EXACT": translate("CrossSections", "Exact, between the surfaces"),
        }
        return [
            Method(name, numbers[f"CUT_{kind}"], numbers[f"FILL_{kind}"])
            for kind, name in names.items()
            if f"CUT_{kind}" in numbers
        ]

    def reasons(self) -> list[str]:
        """Say how the methods differ, and why."""
        numbers = self.numbers
        if "CUT_AVERAGE" not in numbers:
            return []
        said = [
            translate(
                "CrossSections",
                "Average end areas: distance along the line times the mean of the areas at both ends. Prismoidal formula: distance times (first area + 4 times the area of a true section half way + last area) / 6.",
            )
        ]
        if "CUT_EXACT" not in numbers:
            return [
                *said,
                translate(
                    "CrossSections",
                    "There is no exact volume to compare with, since it needs two TINs.",
                ),
            ]
        said.append(
            translate(
                "CrossSections",
                "The exact volume is that of every pair of faces over one another on the ground between the first and the last section of each line, as far to either side as the sections reach; ground counts once.",
            )
        )
        twice = self.cut.quantities.twice if self.cut.quantities is not None else 0.0
        if twice > 0.0:
            said.append(
                translate(
                    "CrossSections",
                    "About {area} of ground lie beside two stretches of the line: end areas count it twice, the exact volume once.",
                ).format(area=both(twice, self.cut.job.plan, square))
            )
        for kind, name in (
            ("CUT", translate("CrossSections", "Cut")),
            ("FILL", translate("CrossSections", "Fill")),
        ):
            said.append(self._difference(kind, name))
        return said

    def _difference(self, kind: str, name: str) -> str:
        numbers = self.numbers
        average, prismoidal, exact = (
            numbers[f"{kind}_{how}"] for how in ("AVERAGE", "PRISMOIDAL", "EXACT")
        )
        size = max(numbers["CUT_EXACT"], numbers["FILL_EXACT"])
        if abs(average - exact) <= SAME * max(exact, SAME * size):
            return translate(
                "CrossSections", "{name}: average end areas and the exact volume agree."
            ).format(name=name)
        text = translate(
            "CrossSections", "{name}: average end areas give {volume} more than the exact volume"
        ) if average > exact else translate(
            "CrossSections", "{name}: average end areas give {volume} less than the exact volume"
        )  # fmt: skip
        text = text.format(name=name, volume=both(abs(average - exact), self.cut.job.plan))
        if exact > 0:
            text += f" ({100 * abs(average - exact) / exact:.2g} %)"
        return f"{text}: {self._why(average, prismoidal, exact)}"

    def _why(self, average: float, prismoidal: float, exact: float) -> str:
        crossing = any("crosses" in flag for flag, _ in self.cut.flags)
        if crossing:
            return translate(
                "CrossSections",
                "sections cross each other on the inside of bends, where they count ground twice, and outside of bends they leave ground out.",
            )
        spread = abs(average - prismoidal)
        if self._bends() and spread < abs(prismoidal - exact):
            return translate(
                "CrossSections",
                "the line bends, and end areas count the distance along it, though ground beside it goes a longer or a shorter way round.",
            )
        return translate(
            "CrossSections",
            "areas do not change in proportion to the distance from one section to the next; with a shorter interval the two come together.",
        )

    def _bends(self) -> bool:
        lines = self.cut.sources.lines
        a, b = lines.segment_directions[:-1], lines.segment_directions[1:]
        turned = np.abs(np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], (a * b).sum(axis=1)))
        inner = lines.segment_owner[1:] == lines.segment_owner[:-1]
        return bool(turned[inner].sum() > BENDS)
