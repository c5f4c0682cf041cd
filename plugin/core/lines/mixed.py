"""Lines of one name that run in different directions: there "right" is more than one side."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..findings import Finding
from ..text import translate
from .bundle import Lines
from .direction import clockwise, headings, turn
from .heading_votes import Track, up_station
from .links import Chain, chains, link
from .orient import MIN_TOLD
from .stations import point_at

OPPOSITE = 135.0
"""Lines are opposed when their bearings differ by more than this."""
CLEARLY = 0.9
"""Share of what tells a direction that must say so."""


@dataclass(frozen=True)
class Against:
    """Lines that run against most of their name.

    Parameters
    ----------
    lines
        The lines, (a,) int.
    places
        Where it shows: where they touch a line that runs the other way, or else their middle,
        (a, 2) float.
    """

    lines: np.ndarray
    places: np.ndarray


def mixed_directions(lines: Lines, names: Sequence[str], tolerance: float) -> list[Finding]:
    """Say which names are carried by lines that run in different directions.

    Lines that touch end to end are compared there, rings by the way round, and others by their
    bearings, or, where these do not tell, by the stations of the one along the other.

    Parameters
    ----------
    lines
        The bundle.
    names
        Name of each line.
    tolerance
        Plan distance within which ends touch.

    Returns
    -------
    list of Finding
        One for each name, with code ``runs_against``, the first such place, and the number of that
        line in the bundle as feature.
    """
    groups: dict[str, list[int]] = {}
    for k, name in enumerate(names):
        groups.setdefault(name, []).append(k)
    found = []
    for name, group in groups.items():
        if len(group) < 2:
            continue
        some = np.array(group)
        opposed = against(lines.take(some), tolerance)
        if not len(opposed.lines):
            continue
        x, y = opposed.places[0]
        why = translate("Core", "The lines called “{name}” run in different directions ({count} of {total} run against the others, the first near {x:.2f}, {y:.2f}), so right and left are not one side of them: give them one direction first, or choose a side that looks at the ground.")  # fmt: skip # noqa: E501
        sentence = why.format(name=name, count=len(opposed.lines), total=len(group), x=x, y=y)
        found.append(
            Finding("runs_against", sentence, (float(x), float(y)), int(some[opposed.lines[0]]))
        )
    return found


def against(lines: Lines, tolerance: float) -> Against:
    """Return the lines of a bundle that run against most of its length."""
    sign = np.zeros(len(lines), np.int64)
    place = point_at(lines, np.arange(len(lines)), lines.lengths / 2.0)
    rows = sorted(
        chains(link(lines, tolerance)), key=lambda chain: -float(lines.lengths[chain.lines].sum())
    )
    relation = _relations(lines, rows)
    told = np.zeros(len(lines), bool)
    for chain, way in zip(rows, relation, strict=True):
        own = np.where(chain.forward, 1, -1)
        # Nothing ties a chain without a relation to the rest: it can only be at odds with itself.
        balance = (own * lines.lengths[chain.lines]).sum()
        sign[chain.lines] = own * (way or (1 if balance >= 0 else -1))
        told[chain.lines] = way != 0
        _show_joints(lines, chain, place)
    most = (sign * lines.lengths)[told].sum()
    sign[told] *= 1 if most >= 0 else -1
    opposed = np.flatnonzero(sign < 0)
    return Against(opposed, place[opposed])


def _relations(lines: Lines, rows: list[Chain]) -> list[int]:
    """Return +1 or -1 for a chain that runs as the first one or against it, 0 for not known."""
    relation = [1] + [0] * (len(rows) - 1)
    heading, around = headings(lines), clockwise(lines)
    alone = np.where(heading.wind >= 0, heading.bearing, np.nan)
    bearing = np.array(
        [alone[c.lines[0]] if len(c.lines) == 1 else _bearing(lines, c) for c in rows]
    )
    rings = [
        int(around[c.lines[0]]) if len(c.lines) == 1 else _ring(lines, c) if c.closed else 0
        for c in rows
    ]
    angle = turn(bearing, bearing[0])
    open_still = []
    for n in range(1, len(rows)):
        if rings[0] and rings[n]:
            relation[n] = rings[0] * rings[n]
        elif angle[n] > OPPOSITE or angle[n] < 180.0 - OPPOSITE:
            relation[n] = -1 if angle[n] > OPPOSITE else 1
        else:
            open_still.append(n)
    if open_still:
        beside = _beside(lines, rows[0], [rows[n] for n in open_still])
        for n, way in zip(open_still, beside.tolist(), strict=True):
            relation[n] = way
    return relation


def _beside(lines: Lines, first: Chain, rest: list[Chain]) -> np.ndarray:
    """Return +1 or -1 for chains that run as another one beside them or against it, 0 for none."""
    owner = np.repeat(np.arange(len(rest)), [len(chain.lines) for chain in rest])
    cast = up_station(_run(lines, rest), Track(_run(lines, [first])))
    at, count = owner[cast.line], len(rest)
    total = np.bincount(at, cast.length, count)
    ahead = np.bincount(at, cast.length * (cast.vote > 0), count) / total
    back = np.bincount(at, cast.length * (cast.vote < 0), count) / total
    told = ahead + back
    clear = (told >= MIN_TOLD) & (np.maximum(ahead, back) >= CLEARLY * told)
    return np.where(clear, np.where(ahead > back, 1, -1), 0)


def _run(lines: Lines, rows: list[Chain]) -> Lines:
    """Return the lines of chains, each run as its chain does."""
    which = np.concatenate([chain.lines for chain in rows])
    forward = np.concatenate([chain.forward for chain in rows])
    some, back = lines.take(which), lines.take(which).reversed()
    both = Lines(
        np.concatenate([some.xy, back.xy]),
        np.concatenate([some.z, back.z]),
        np.concatenate([some.first, some.first[-1] + back.first[1:]]),
        np.concatenate([some.closed, back.closed]),
    )
    return both.take(np.arange(len(which)) + np.where(forward, 0, len(which)))


def _bearing(lines: Lines, chain: Chain) -> float:
    """Return the bearing of a chain from its start to its end; NaN where no wind holds."""
    run = _run(lines, [chain])
    keep = np.concatenate([[True], (np.diff(run.xy, axis=0) != 0.0).any(1)])
    ends = np.array([0, int(keep.sum())])
    whole = Lines(run.xy[keep], run.z[keep], ends, np.array([chain.closed]))
    heading = headings(whole)
    return float(heading.bearing[0]) if heading.wind[0] >= 0 else np.nan


def _ring(lines: Lines, chain: Chain) -> int:
    """Return +1 for a ring of several lines that runs clockwise, -1 for the other way."""
    flat = _run(lines, [chain]).xy
    p, q = flat - flat[0], np.roll(flat - flat[0], -1, axis=0)
    return -int(np.sign((p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]).sum()))


def _show_joints(lines: Lines, chain: Chain, place: np.ndarray) -> None:
    """Put the place of lines beside one that runs against them where the two touch."""
    for a, b, one, other in zip(
        chain.lines[:-1], chain.lines[1:], chain.forward[:-1], chain.forward[1:], strict=True
    ):
        if one != other:
            rows = lines.line(int(a))
            place[a] = place[b] = lines.xy[rows.stop - 1 if one else rows.start]
