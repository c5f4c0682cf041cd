"""What makes a surface unfit to be compared."""

from ..findings import Finding
from ..text import translate
from ..tin import Tin
from ..tin.health import MOST_OF_A_KIND, examine
from ..tolerance import Tolerance


def overlaps_of(tin: Tin, name: str, tolerance: Tolerance) -> list[Finding]:
    """Return a finding where faces lie over one another, so that ground counts twice.

    Parameters
    ----------
    tin : Tin
        The surface.
    name : str
        What it is called.
    tolerance : Tolerance
        Tolerances in plan units.
    """
    sentence = translate(
        "Core",
        "“{name}” has {count} pairs of faces that lie over one another in plan, the first near {x:.3f}, {y:.3f}: areas and volumes count twice there; repair it first.",
    )
    found = examine(tin, tolerance, {"overlap": sentence})
    some = [finding for finding in found if finding.code == "overlap"]
    if not some:
        return []
    count = len(some) if len(some) <= MOST_OF_A_KIND else f"{MOST_OF_A_KIND}+"
    x, y = some[0].place or (0.0, 0.0)
    return [Finding("overlap", sentence.format(name=name, count=count, x=x, y=y), some[0].place)]
