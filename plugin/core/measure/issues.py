"""What a check of a design finds: what is wrong, where, how much, and what to do about it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from enum import StrEnum

import shapely

from ..text import translate
from ..units import LinearUnit, describe_length

MOST_OF_A_CODE = 1000
"""So many issues of one code are listed; all are counted."""


class Weight(StrEnum):
    """How much an issue weighs."""

    ERROR = "error"
    CHECK = "check"
    NOTE = "note"


@dataclass(frozen=True, eq=False)
class Issue:
    """One thing found.

    Parameters
    ----------
    code : str
        Short lower-case word for filters and styles; never translated.
    why : str
        One sentence: what is found.
    place : (float, float) or None
        In plan; None where the whole design is meant.
    weight : Weight
        ``error`` is wrong, ``check`` may be meant, ``note`` is to be known.
    extent : shapely Polygon or MultiPolygon, optional
        What it covers in plan.
    feature : int, optional
        Zone, face or vertex it is about.
    area, volume, height, level : float, optional
        Plan area and volume in plan units; how deep or high it is, and the height of the water,
        in units of height.
    """

    code: str
    why: str
    place: tuple[float, float] | None
    weight: Weight = Weight.CHECK
    extent: shapely.Geometry | None = None
    feature: int | None = None
    area: float | None = None
    volume: float | None = None
    height: float | None = None
    level: float | None = None


@dataclass(eq=False)
class Issues:
    """Issues as they are found, the numbers of all of them, and where lists were cut short."""

    found: list[Issue] = field(default_factory=list)
    counts: dict[tuple[Weight, str], int] = field(default_factory=dict)

    def add(self, issues: Iterable[Issue], code: str, weight: Weight, total: int) -> None:
        """Take issues of one code and weight; ``total`` counts those not worth listing too."""
        key = (weight, code)
        room = MOST_OF_A_CODE - self.counts.get(key, 0)
        if total:
            self.counts[key] = self.counts.get(key, 0) + total
        for _, issue in zip(range(room), issues, strict=False):
            self.found.append(issue)

    def take(self, issues: Iterable[Issue]) -> None:
        """Take issues one by one, whatever their code."""
        for issue in issues:
            self.add([issue], issue.code, issue.weight, 1)

    def count(self, code: str, *weights: Weight) -> int:
        """Return how many there are of a code, of some weights or of all."""
        wanted = weights or tuple(Weight)
        return sum(self.counts.get((weight, code), 0) for weight in wanted)

    def of_weight(self, *weights: Weight) -> int:
        """Return how many there are of some weights."""
        return sum(n for (weight, _), n in self.counts.items() if weight in weights)

    def in_order(self) -> Iterator[Issue]:
        """Yield the issues, the weightiest first, then by code in the order of `CODES`."""
        place = {code: number for number, code in enumerate(CODES)}
        weights = list(Weight)
        yield from sorted(self.found, key=lambda one: (weights.index(one.weight), place[one.code]))


CODES = (
    "outside_crs",
    "plan_unit",
    "axes",
    "height_unit",
    "no_heights",
    "overlap",
    "crowded_edge",
    "crack",
    "duplicate_vertex",
    "two_heights",
    "spike",
    "hole",
    "piece",
    "skinny_rim",
    "sliver",
    "no_area",
    "upright",
    "steep",
    "pond",
    "zone_overlap",
    "zone_gap",
    "no_zone",
    "zone_beyond",
    "unused_vertex",
    "feet",
)
"""All codes, in the order in which they are worth looking at."""


def code_title(code: str) -> str:
    """Return what a code stands for, in the user's language."""
    return {
        "outside_crs": translate("Core", "Outside the area of the CRS"),
        "plan_unit": translate("Core", "Plan in another unit"),
        "axes": translate("Core", "Easting and northing swapped"),
        "height_unit": translate("Core", "Heights in another unit"),
        "no_heights": translate("Core", "No heights"),
        "overlap": translate("Core", "Faces over one another"),
        "crowded_edge": translate("Core", "Edge of more than two faces"),
        "crack": translate("Core", "Crack"),
        "duplicate_vertex": translate("Core", "Two points in one place"),
        "two_heights": translate("Core", "Two heights in one place"),
        "spike": translate("Core", "Spike"),
        "hole": translate("Core", "Hole"),
        "piece": translate("Core", "Isolated piece"),
        "skinny_rim": translate("Core", "Long skinny face at the edge"),
        "sliver": translate("Core", "Sliver face"),
        "no_area": translate("Core", "Face without area"),
        "upright": translate("Core", "Upright face"),
        "steep": translate("Core", "Steep face"),
        "pond": translate("Core", "Pond"),
        "zone_overlap": translate("Core", "Zones overlap"),
        "zone_gap": translate("Core", "Gap between zones"),
        "no_zone": translate("Core", "Ground without a zone"),
        "zone_beyond": translate("Core", "Zone beyond the design"),
        "unused_vertex": translate("Core", "Point without a face"),
        "feet": translate("Core", "Which foot"),
    }[code]


def what_to_do(code: str, weight: Weight) -> str:
    """Return what to do about an issue, one sentence."""
    if weight is Weight.NOTE and code in ("pond", "zone_overlap"):
        return translate("Core", "Nothing, if that is what is meant.")
    if weight is Weight.NOTE and code == "sliver":
        return translate("Core", "Nothing: it is too small to matter; other programs may drop it.")
    return {
        "outside_crs": translate(
            "Core",
            "Find out which CRS the designer worked in, set it for the layer, and check a known point before anything is staked.",
        ),
        "plan_unit": translate(
            "Core",
            "Ask in which unit the file was written and read it again in that unit, then check the distance between two known points.",
        ),
        "axes": translate("Core", "Read the file again with easting and northing exchanged."),
        "height_unit": translate(
            "Core",
            "Compare a height with a benchmark; where the unit is another one, set “Unit of heights” or convert the heights.",
        ),
        "no_heights": translate(
            "Core", "Go back to the file with the heights: they were lost on the way."
        ),
        "overlap": translate(
            "Core",
            "Remove the faces that do not belong to this surface: a depth or a volume counts them twice.",
        ),
        "crowded_edge": translate(
            "Core", "Keep the two faces of the surface and remove the others."
        ),
        "crack": translate(
            "Core",
            "Split the long face at the vertex, or triangulate again with the points of both sides.",
        ),
        "duplicate_vertex": translate("Core", "Keep one of the points and join the faces there."),
        "two_heights": translate(
            "Core",
            "Find out which height is right and remove the other; where a wall is meant, set its foot off by some millimetres.",
        ),
        "spike": translate(
            "Core", "Compare the height with the plan; correct the point or remove it."
        ),
        "hole": translate(
            "Core",
            "Close it if the ground goes on there; leave it if nothing is to be built from this surface there.",
        ),
        "piece": translate(
            "Core", "Join it to the rest, or take it out if it belongs to another job."
        ),
        "skinny_rim": translate(
            "Core", "Cut it off: give the surface an outline, or delete the face."
        ),
        "sliver": translate("Core", "Remove one of the points that lie so close together."),
        "no_area": translate("Core", "Remove the face."),
        "upright": translate(
            "Core",
            "Leave it if a wall is meant; a machine cannot follow it, so set its foot off by some millimetres.",
        ),
        "steep": translate("Core", "Check that a wall or a curb is meant."),
        "pond": translate(
            "Core",
            "Give the low point an outlet (a grade, an inlet, a drain) or say that water is meant to stand there.",
        ),
        "zone_overlap": translate(
            "Core", "Trim one of the zones, or say by a priority which of them wins."
        ),
        "zone_gap": translate("Core", "Let the zones share their border."),
        "no_zone": translate("Core", "Draw a zone there if one is meant."),
        "zone_beyond": translate(
            "Core", "Trim the zone to the design, or extend the design that far."
        ),
        "unused_vertex": translate(
            "Core", "Nothing, if the point was left out on purpose; else triangulate again with it."
        ),
        "feet": translate(
            "Core", "Ask the designer which foot it is and check one known point before staking."
        ),
    }[code]


def point_on(shape: shapely.Geometry) -> tuple[float, float]:
    """Return a place on a shape."""
    spot = shapely.point_on_surface(shape)
    return float(spot.x), float(spot.y)


@dataclass(frozen=True)
class JobScale:
    """Units of a job, to say amounts in.

    Parameters
    ----------
    plan, vertical : LinearUnit
        Units of plan coordinates and of heights.
    """

    plan: LinearUnit
    vertical: LinearUnit

    @property
    def z_scale(self) -> float:
        """Plan units in one unit of height."""
        return self.vertical.to(self.plan)

    def length(self, value: float) -> str:
        """Say a plan length."""
        return f"{value:,.2f} {self.plan.symbol}"

    def depth(self, value: float) -> str:
        """Say a difference in height: in feet and inches, or in metres and millimetres."""
        return describe_length(value, self.vertical)

    def height(self, value: float) -> str:
        """Say a height above datum."""
        return f"{value:.{2 if self.vertical.is_feet else 3}f} {self.vertical.symbol}"

    def area(self, value: float) -> str:
        """Say a plan area."""
        return f"{value:,.{1 if abs(value) >= 10 else 4}f} {self.plan.symbol}²"

    def volume(self, value: float) -> str:
        """Say a volume; in cubic yards as well where the job is in feet."""
        text = f"{value:,.{1 if abs(value) >= 10 else 4}f} {self.plan.symbol}³"
        return text + (f" ({value / 27:,.2f} yd³)" if self.plan.is_feet else "")
