"""What there is to say about a check of grades, beside its verdicts."""

from collections.abc import Sequence

import numpy as np

from ..findings import Finding
from ..text import translate
from .fail_areas import Area
from .grades import FIRST_FAIL, Figures, Limit
from .gutter_breaks import GutterBreaks


def of_parts(
    limit: Limit, found: Figures, zone_area: float, covered: float, slack: float
) -> list[Finding]:
    """Return what of a zone was not checked, or not for certain.

    Parameters
    ----------
    limit : Limit
        The limit.
    found : Figures
        What was found.
    zone_area, covered : float
        Plan area of the zone, and of it on the surface.
    slack : float
        By how much these may differ for the width of borders.
    """
    said = []

    def say(code: str, why: str) -> None:
        said.append(Finding(code, why, found.place, limit.zone))

    if zone_area - covered > slack:
        say(
            "no_data",
            translate(
                "Core",
                "{area:,.2f} square units of the zone ({share:.2g} %) lie where the surface has no grade: nothing is known there.",
            ).format(area=zone_area - covered, share=100.0 * (zone_area - covered) / zone_area),
        )
    if covered - zone_area > slack:
        say(
            "overlap",
            translate(
                "Core",
                "The surface covers {area:,.2f} square units of the zone twice: mend the faces that lie over one another.",
            ).format(area=covered - zone_area),
        )
    if found.upright:
        say(
            "upright",
            translate(
                "Core",
                "{count} faces stand upright and have no grade: they were not judged.",
            ).format(count=found.upright),
        )
    if found.far > 0:
        say(
            "far",
            translate(
                "Core",
                "{area:,.2f} square units were not checked because no line is near enough: draw one there, or allow a greater distance.",
            ).format(area=found.far),
        )
    if found.beyond > 0:
        say(
            "beyond",
            translate(
                "Core",
                "{area:,.2f} square units lie past the end of the nearest line, where its last direction was taken: carry the line on if that is not meant.",
            ).format(area=found.beyond),
        )
    if found.doubtful > 0:
        say(
            "doubtful",
            translate(
                "Core",
                "For {area:,.2f} square units the verdict hangs on which place of the lines is meant, because the lines turn beside a face or two lines are about as near: look at them one by one.",
            ).format(area=found.doubtful),
        )
    return said


def of_thin(limit: Limit, areas: Sequence[Area]) -> list[Finding]:
    """Return what to say about areas that fail but are too narrow to count."""
    thin = [one for one in areas if one.thin and one.code >= FIRST_FAIL]
    if not thin:
        return []
    total = sum(one.area for one in thin)
    why = translate(
        "Core",
        "{count} areas that fail are too narrow to count ({area:,.3g} square units in all), the largest near {x:.3f}, {y:.3f}: see whether the border of the zone runs beside the line it is meant to follow.",
    )
    x, y = thin[0].place
    why = why.format(count=len(thin), area=total, x=x, y=y)
    return [Finding("thin", why, thin[0].place, limit.zone)]


def of_breaks(breaks: GutterBreaks, enough: float) -> list[Finding]:
    """Return what to say about gutters that do not follow edges of the surface."""
    loose = np.flatnonzero(breaks.followed < enough)
    if not len(loose):
        return []
    why = translate(
        "Core",
        "{count} gutter lines do not follow edges of the surface all along (of line {line} {share:.0f} %): there the surface has no break below the line, or the line lies beside it.",
    )
    first = int(loose[0])
    share = 100.0 * float(breaks.followed[first])
    return [Finding("off_edges", why.format(count=len(loose), line=first + 1, share=share))]
