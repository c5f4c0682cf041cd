"""Why a cross section is to be looked at."""

from typing import TYPE_CHECKING

import numpy as np

from ..core.measure.section_lines import LEAST_SQUARE
from ..core.text import translate
from ..core.units import describe_length

if TYPE_CHECKING:
    from .section_rows import Cut


def flag_of(cut: "Cut", s: int) -> tuple[str, str]:
    """Return the flags and the sentences on a section, empty where all is well."""
    found = [one for one in (_crosses(cut, s), _sharp(cut, s), *_surfaces(cut, s)) if one]
    return ", ".join(code for code, _ in found), " ".join(why for _, why in found)


def _crosses(cut: "Cut", s: int) -> tuple[str, str] | None:
    others, offsets, theirs = cut.meetings.of(s)
    if not len(others):
        return None
    nearest = int(np.argmin(np.abs(offsets)))
    offset = float(offsets[nearest])
    side = translate("CrossSections", "right") if offset > 0 else translate("CrossSections", "left")
    # On the inside of a bend both are met on the same side of the line.
    if offset * theirs[nearest] > 0:
        why = translate(
            "CrossSections",
            "Crosses the section at {station}, {offset} to the {side}, on the inside of a bend: the ground beyond belongs to both, and volumes by end areas count it twice.",
        )
    else:
        why = translate(
            "CrossSections",
            "Crosses the section at {station}, {offset} to the {side}, where the line comes near itself again: some ground belongs to both, and volumes by end areas count it twice.",
        )
    why = why.format(
        station=cut.station_text(int(others[nearest])),
        offset=describe_length(abs(offset), cut.job.plan),
        side=side,
    )
    return "crosses", why


def _sharp(cut: "Cut", s: int) -> tuple[str, str] | None:
    if cut.sections.square[s] > LEAST_SQUARE:
        return None
    why = translate(
        "CrossSections",
        "The line turns sharply here: the section on the bisector says little about the ground beside either leg.",
    )
    return "sharp_turn", why


def _surfaces(cut: "Cut", s: int) -> list[tuple[str, str]]:
    """Return what is missing of the surfaces."""
    found = []
    missing = [
        name
        for name, profiles in zip(cut.names, cut.profiles, strict=True)
        if profiles.rows(s).stop == profiles.rows(s).start
    ]
    if missing:
        why = translate("CrossSections", "Not on this section: {names}.").format(
            names=", ".join(f"“{name}”" for name in missing)
        )
        found.append(("no_surface", why))
    if cut.quantities is None:
        return found
    areas = cut.quantities.areas
    if areas.covered[s] == 0.0 and not missing:
        why = translate(
            "CrossSections",
            "The two surfaces do not lie over one another here, so that there is no area.",
        )
        found.append(("apart", why))
    if areas.gaps[s] > 0.0:
        why = translate(
            "CrossSections",
            "One of the two surfaces is missing over {width} in between: the areas are without it.",
        ).format(width=describe_length(float(areas.gaps[s]), cut.job.plan))
        found.append(("gap", why))
    return found
