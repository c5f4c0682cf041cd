"""Stations: where along a line a point lies, and what the line is like there.

A station is the plan distance from the first vertex. Looking up is vectorised over many points
that may belong to different lines of one bundle.
"""

import numpy as np
import shapely

from .bundle import Lines


def locate(lines: Lines, which: np.ndarray, station: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Find the segment that holds each station.

    Parameters
    ----------
    lines
        The bundle.
    which
        Line of each point, (p,) int.
    station
        Station of each point, (p,) float; clamped to the line.

    Returns
    -------
    segment : (p,) int
        Index into the segments of the bundle; at a vertex the segment that starts there (the
        last segment at the end of the line).
    along : (p,) float
        Distance from the start of that segment.
    """
    which = np.asarray(which, np.int64)
    station = np.clip(station, 0.0, lines.lengths[which])
    # Stations of all lines on one rising axis: one binary search serves every line.
    reach = float(lines.lengths.max(initial=0.0)) + 1.0
    start = lines.segments
    key = lines.segment_owner * reach + lines.stations[start]
    segment = np.searchsorted(key, which * reach + station, side="right") - 1
    segment = np.clip(segment, lines.first_segment[which], lines.first_segment[which + 1] - 1)
    along = station - lines.stations[start[segment]]
    # The shared axis costs digits with many long lines: settle on exact stations.
    back = (along < 0) & (segment > lines.first_segment[which])
    segment = segment - back
    along = station - lines.stations[start[segment]]
    return segment, np.clip(along, 0.0, lines.segment_lengths[segment])


def point_at(lines: Lines, which: np.ndarray, station: np.ndarray) -> np.ndarray:
    """Return the plan position at each station, (p, 2) float."""
    segment, along = locate(lines, which, station)
    start = lines.xy[lines.segments[segment]]
    return start + along[:, None] * lines.segment_directions[segment]


def elevation_at(lines: Lines, which: np.ndarray, station: np.ndarray) -> np.ndarray:
    """Return the elevation at each station, interpolated between vertices, (p,) float."""
    segment, along = locate(lines, which, station)
    a = lines.segments[segment]
    share = along / lines.segment_lengths[segment]
    # At a vertex the vertex's own elevation, bit for bit.
    z = lines.z[a] + share * (lines.z[a + 1] - lines.z[a])
    z = np.where(along == 0.0, lines.z[a], z)
    return np.where(share >= 1.0, lines.z[a + 1], z)


def project(lines: Lines, which: np.ndarray, xy: np.ndarray) -> np.ndarray:
    """Return the station of the point of each line that is nearest to each given point.

    Parameters
    ----------
    lines
        The bundle.
    which
        Line of each point, (p,) int.
    xy
        The points, (p, 2) float.

    Returns
    -------
    (p,) float
    """
    if not len(which):
        return np.empty(0)
    return shapely.line_locate_point(lines.geometries[which], shapely.points(xy))


def cut(lines: Lines, k: int, start: float, stop: float) -> tuple[np.ndarray, np.ndarray]:
    """Return the stretch of line ``k`` between two stations.

    Returns
    -------
    xy : (m, 2) float
    z : (m,) float
    """
    rows = lines.line(k)
    own = lines.stations[rows]
    inside = (own > start) & (own < stop)
    ends, line = np.array([start, stop]), np.array([k, k])
    tips = point_at(lines, line, ends)
    heights = elevation_at(lines, line, ends)
    xy = np.vstack([tips[:1], lines.xy[rows][inside], tips[1:]])
    return xy, np.concatenate([heights[:1], lines.z[rows][inside], heights[1:]])
