"""What has to be said of an extension."""

import numpy as np
import shapely
from numpy.typing import NDArray

from ...findings import Finding
from ...text import translate
from ...tolerance import Tolerance
from ..weld import hang_together
from .border import Border
from .conflicts import Conflicts
from .pieces import Pieces
from .planes import Strips

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]


def remarks(
    border: Border,
    strips: Strips,
    conflicts: Conflicts,
    pieces: Pieces,
    wanted: Mask,
    stranded: Mask,
    xy: Floats,
    apart: Floats,
    distance: float,
    origin: Floats,
    tolerance: Tolerance,
    z_scale: float,
) -> list[Finding]:
    """Return the findings; places count from ``origin`` in the arguments, not in the findings."""
    found = _narrow(border, conflicts, pieces, distance, origin)
    worst = int(apart.argmax()) if len(apart) else 0
    count = int((apart * z_scale > tolerance.chord).sum())
    if count:
        x, y = (xy[worst] + origin).tolist()
        text = translate(
            "Core",
            "At {count} corners the planes beside each other do not meet and were blended; they are farthest apart at {x:.2f}, {y:.2f}, by {apart:.3f}.",
        )
        found.append(
            Finding(
                "disagree", text.format(count=count, x=x, y=y, apart=float(apart[worst])), (x, y)
            )
        )
    found += _edges(
        border,
        wanted & strips.unfit,
        origin,
        "no_slope",
        translate(
            "Core",
            "{count} border faces stand upright, are steeper than 10 to 1 or too thin to have a slope, the first at {x:.2f}, {y:.2f}: beyond them the extension is level.",
        ),
    )
    found += _edges(
        border,
        stranded,
        origin,
        "no_room",
        translate(
            "Core",
            "There is no room beyond {count} edges of the border, the first at {x:.2f}, {y:.2f}: they were not carried on.",
        ),
    )
    return found


def _edges(border: Border, which: Mask, origin: Floats, code: str, text: str) -> list[Finding]:
    rows = np.flatnonzero(which)
    if len(rows) == 0:
        return []
    x, y = (0.5 * (border.start[rows[0], :2] + border.stop[rows[0], :2]) + origin).tolist()
    return [Finding(code, text.format(count=len(rows), x=x, y=y), (x, y))]


def _narrow(
    border: Border, conflicts: Conflicts, pieces: Pieces, distance: float, origin: Floats
) -> list[Finding]:
    """Return one finding for each place where borders face each other too near."""
    apart, wall = ~conflicts.joined, ~conflicts.beside
    one = np.concatenate([pieces.edge[conflicts.one[apart]], pieces.edge[conflicts.blocked[wall]]])
    other = np.concatenate([pieces.edge[conflicts.other[apart]], conflicts.edge[wall]])
    if len(one) == 0:
        return []
    lines = border.lines
    link = shapely.shortest_line(lines[one], lines[other])
    width = shapely.length(link)
    # Borders that touch in a vertex have nothing between them.
    real = width > 0.0
    one, other, link, width = one[real], other[real], link[real], width[real]
    place = hang_together(len(border), one, other)[one]
    order = np.lexsort((width, place))
    first = order[np.unique(place[order], return_index=True)[1]]
    middle = shapely.get_coordinates(
        shapely.line_interpolate_point(link[first], 0.5, normalized=True)
    )
    text = translate(
        "Core",
        "At {x:.2f}, {y:.2f} borders are only {width:.3f} apart, less than twice the distance of {distance:.3f}: the extension stops short of the middle between them.",
    )
    found = []
    for (x, y), wide in zip((middle + origin).tolist(), width[first].tolist(), strict=True):
        if wide < 2.0 * distance:
            why = text.format(x=x, y=y, width=wide, distance=distance)
            found.append(Finding("narrow", why, (x, y)))
    return found
