"""Lines split where the side that their rule means changes along them."""

from dataclasses import dataclass, replace

import numpy as np

from ..core.lines.bundle import Lines
from ..core.lines.requests import Requests
from ..core.lines.sides import Basis, Rule, judge
from ..core.lines.stationing import Stationing
from ..core.lines.swap import parted, swaps
from ..core.lines.taper import Taper
from ..core.progress import Progress, silent
from .line_inputs import NamedLines

CHANGES = frozenset({"swaps", "crosses", "turns"})
"""Codes of lines whose side is known along them, but not one side all along."""


@dataclass(frozen=True)
class Split:
    """Lines with parts in place of those that were split.

    Parameters
    ----------
    sources, requests
        The lines, and what is wanted of them, each part for itself.
    parts
        Rows that are parts of a line that was split.
    """

    sources: NamedLines
    requests: Requests
    parts: frozenset[int]


def split_at_changes(
    sources: NamedLines, requests: Requests, basis: Basis, snap: float, progress: Progress = silent
) -> Split:
    """Split the lines whose side changes; the others stay as they are.

    Parameters
    ----------
    sources, requests
        The lines, and what is wanted of them.
    basis
        What the rules look at.
    snap
        Parts shorter than this are none.
    progress
        Told the share done.
    """
    lines = requests.lines
    judged = judge(lines.take(requests.line), requests.rules, requests.distance, basis)
    open_ = [n for n, code in enumerate(judged.code) if code in CHANGES]
    places: dict[int, np.ndarray] = {}
    for done, n in enumerate(open_):
        progress(done / len(open_))
        k, rule = int(requests.line[n]), Rule(requests.rules[n])
        (own,) = swaps(lines.take(np.array([k])), rule, requests.distance[[n]], basis)
        places[k] = _apart(np.union1d(places.get(k, np.empty(0)), own), snap)
    if not any(len(own) for own in places.values()):
        return Split(sources, requests, frozenset())
    return _rebuilt(sources, requests, places, snap)


def _apart(places: np.ndarray, snap: float) -> np.ndarray:
    return places[np.diff(places, prepend=-np.inf) > 4.0 * snap]


def _rebuilt(
    sources: NamedLines, requests: Requests, places: dict[int, np.ndarray], snap: float
) -> Split:
    """Return everything with each split line's parts in its place."""
    lines, table = requests.lines, sources.table
    origin: list[int] = []
    coordinates: list[np.ndarray] = []
    start: list[float] = []
    split: list[int] = []
    begins: list[float] = []
    for k in range(len(lines)):
        own = places.get(k, np.empty(0))
        if not len(own):
            origin.append(k)
            coordinates.append(table.coordinates[k])
            begins.append(0.0)
            start.append(float(requests.stations.start[k]))
            continue
        for begin, xyz in parted(lines, k, own):
            split.append(len(origin))
            origin.append(k)
            coordinates.append(xyz)
            begins.append(begin)
            start.append(float(requests.stations.station(k, begin)))
    index = np.array(origin, np.int64)
    parts = Lines.from_arrays(coordinates, snap)
    arcs = sources.arcs.of_parts(lines, parts, index, np.array(begins))
    parts = arcs.ends_on(parts)
    again = replace(
        table,
        ids=table.ids[index],
        parts=table.parts[index],
        coordinates=coordinates,
        closed=parts.closed,
        columns={name: [values[k] for k in origin] for name, values in table.columns.items()},
    )
    named = replace(
        sources,
        table=again,
        lines=parts,
        names=[sources.names[k] for k in origin],
        arcs=arcs,
    )
    rows_of: dict[int, list[int]] = {}
    for row, k in enumerate(origin):
        rows_of.setdefault(k, []).append(row)
    asked = [(row, n) for n, k in enumerate(requests.line.tolist()) for row in rows_of[k]]
    wanted = replace(
        requests,
        lines=parts,
        line=np.array([row for row, _ in asked], np.int64),
        distance=np.array([requests.distance[n] for _, n in asked]),
        rules=[requests.rules[n] for _, n in asked],
        tapers=[_moved(requests.taper(n), begins[row]) for row, n in asked],
        stationing=Stationing.of(parts, np.array(start), named.arcs),
        arcs=named.arcs,
    )
    return Split(named, wanted, frozenset(split))


def _moved(taper: Taper | None, begin: float) -> Taper | None:
    """Return a taper counted from another place of its line."""
    return None if taper is None else Taper(taper.distance - begin, taper.offset)
