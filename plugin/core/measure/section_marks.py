"""Where lines cross sections, and which zones sections pass through."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..lines.bundle import Lines
from .section_lines import Sections

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Crossings:
    """Lines that cross sections, sorted by section and offset.

    Parameters
    ----------
    section, line : (c,) int
        The section, and the line that crosses it.
    offset : (c,) float
        Where, right + of the line of the section.
    z : (c,) float
        Height of the crossing line there, NaN where it has none.
    """

    section: Ints
    line: Ints
    offset: Floats
    z: Floats


def crossings(sections: Sections, lines: Lines, snap: float = 1e-4) -> Crossings:
    """Return where lines cross sections.

    Parameters
    ----------
    sections : Sections
        The sections.
    lines : Lines
        The lines that may cross them; one that runs along a section does not.
    snap : float
        Crossings of one line nearer than this to each other are one.
    """
    origin = lines.xy.min(axis=0)
    a = lines.segments
    ends = np.stack((lines.xy[a], lines.xy[a + 1]), axis=1) - origin
    tree = shapely.STRtree(shapely.linestrings(ends))
    section, segment = tree.query(sections.geometries(origin), predicate="dwithin", distance=snap)
    along, step = sections.right[section], lines.segment_directions[segment]
    gap = lines.xy[a[segment]] - sections.foot[section]
    cross = along[:, 0] * step[:, 1] - along[:, 1] * step[:, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        offset = (gap[:, 0] * step[:, 1] - gap[:, 1] * step[:, 0]) / cross
        run = (gap[:, 0] * along[:, 1] - gap[:, 1] * along[:, 0]) / cross
    size = lines.segment_lengths[segment]
    hit = (np.abs(cross) > 1e-9) & (run >= -snap) & (run <= size + snap)
    hit &= (offset >= -sections.left_reach[section] - snap) & (
        offset <= sections.right_reach[section] + snap
    )
    some = np.flatnonzero(hit)
    section, segment, offset = section[some], segment[some], offset[some]
    share = np.clip(run[some] / size[some], 0.0, 1.0)
    first = a[segment]
    z = lines.z[first] + share * (lines.z[first + 1] - lines.z[first])
    line = lines.segment_owner[segment]
    order = np.lexsort((offset, line, section))
    section, line, offset, z = section[order], line[order], offset[order], z[order]
    fresh = np.ones(len(order), bool)
    fresh[1:] = (section[1:] != section[:-1]) | (line[1:] != line[:-1]) | (np.diff(offset) > snap)
    kept = np.flatnonzero(fresh)
    kept = kept[np.lexsort((offset[kept], section[kept]))]
    return Crossings(section[kept], line[kept], offset[kept], z[kept])


@dataclass(frozen=True, eq=False)
class Stretches:
    """Stretches of sections that lie in zones, sorted by section and offset.

    Parameters
    ----------
    section, zone : (c,) int
        The section, and the zone.
    start, stop : (c,) float
        Offsets of its ends.
    """

    section: Ints
    zone: Ints
    start: Floats
    stop: Floats


def stretches_in(
    sections: Sections, polygons: Sequence[shapely.Geometry], lines: Lines, snap: float = 1e-4
) -> Stretches:
    """Return which stretches of sections lie in which zones.

    Parameters
    ----------
    sections : Sections
        The sections.
    polygons : (z,) shapely polygons
        The zones in plan.
    lines : Lines
        The lines of the sections. Zones often end where the line does: a section at an open end
        looks just inside of it, or rounding would tell which zones it passes through.
    snap : float
        Stretches shorter than this do not count.
    """
    origin = sections.foot[0] if len(sections) else np.zeros(2)
    zones = shapely.transform(np.asarray(polygons, object), lambda xy: xy - origin)
    shapes = sections.moved(_inward(sections, lines, snap)).geometries(origin)
    section, zone = shapely.STRtree(zones).query(shapes, predicate="intersects")
    shared = shapely.intersection(shapes[section], zones[zone])
    pieces, row = shapely.get_parts(shared, return_index=True)
    lines = shapely.get_dimensions(pieces) == 1
    pieces, row = pieces[lines], row[lines]
    xy, piece = shapely.get_coordinates(pieces, return_index=True)
    section, zone = section[row], zone[row]
    offset = sections.offsets(section[piece], xy + origin)
    start, stop = np.full(len(pieces), np.inf), np.full(len(pieces), -np.inf)
    np.minimum.at(start, piece, offset)
    np.maximum.at(stop, piece, offset)
    kept = np.flatnonzero(stop - start > snap)
    kept = kept[np.lexsort((stop[kept], start[kept], section[kept]))]
    return Stretches(section[kept], zone[kept], start[kept], stop[kept])


def _inward(sections: Sections, lines: Lines, snap: float) -> Floats:
    """Return the move of each section that takes those at open ends off them, (s, 2) float."""
    opens = ~lines.closed[sections.line]
    begins = opens & (sections.distance <= snap)
    ends = opens & (sections.distance >= lines.lengths[sections.line] - snap)
    size: Floats = np.where(begins, 2.0 * snap, np.where(ends, -2.0 * snap, 0.0))
    ahead: Floats = np.column_stack((-sections.right[:, 1], sections.right[:, 0]))
    return size[:, None] * ahead


@dataclass(frozen=True, eq=False)
class Borders:
    """Places where sections pass from one zone into another, sorted by section and offset.

    Parameters
    ----------
    section : (b,) int
        The section.
    offset : (b,) float
        The place.
    before, after : (b,) int
        Zone left and right of it, -1 outside all.
    """

    section: Ints
    offset: Floats
    before: Ints
    after: Ints


def borders_of(stretches: Stretches, sections: Sections, snap: float = 1e-4) -> Borders:
    """Return the borders between stretches; where a section begins or ends there is none."""
    count = len(stretches.section)
    section = np.tile(stretches.section, 2)
    offset = np.concatenate((stretches.start, stretches.stop))
    zone = np.tile(stretches.zone, 2)
    opens = np.repeat((True, False), count)
    inner = offset > -sections.left_reach[section] + snap
    inner &= offset < sections.right_reach[section] - snap
    order = np.lexsort((offset, section))
    order = order[inner[order]]
    section, offset, zone, opens = section[order], offset[order], zone[order], opens[order]
    fresh = np.ones(len(order), bool)
    fresh[1:] = (section[1:] != section[:-1]) | (np.diff(offset) > snap)
    group = np.cumsum(fresh) - 1
    before, after = np.full(int(fresh.sum()), -1), np.full(int(fresh.sum()), -1)
    before[group[~opens]] = zone[~opens]
    after[group[opens]] = zone[opens]
    return Borders(section[fresh], offset[fresh], before, after)
