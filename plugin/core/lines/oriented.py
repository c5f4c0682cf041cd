"""Lines turned the way a rule says and, where asked for, joined.

Joining comes first, so that a rule looks at whole lines: a chain of pieces is run as its longest
piece runs, and then turned as one. The result is the same however the lines were drawn, but for
the direction of what is flagged.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..findings import Finding
from ..progress import Progress, part, silent
from ..text import translate
from .bundle import Lines
from .join import Run, fork_findings, level_links, ring_start, run_of
from .links import Chain, chains, link
from .orient import Basis, Directions, Rule, main_direction, orient


@dataclass(frozen=True)
class Pieces:
    """The lines as read.

    Parameters
    ----------
    lines
        The bundle.
    coordinates
        The same lines, row for row: x, y[, z[, m]].
    ids
        What people know each line by.
    groups
        Group of each line (its name); only lines of one group touch. None: all are of one group.
    arcs
        True for ends that belong to an arc, (2 k,) bool; None where there are no arcs.
    """

    lines: Lines
    coordinates: Sequence[np.ndarray]
    ids: Sequence[int]
    groups: Sequence[object] | None = None
    arcs: np.ndarray | None = None


@dataclass(frozen=True)
class Joining:
    """How pieces are tied and joined.

    Parameters
    ----------
    join
        Whether pieces that touch become one line.
    tolerance
        Plan distance within which ends touch.
    height
        Greatest difference of heights at a joint, in the unit of heights.
    snap
        Vertices nearer than this are one.
    """

    join: bool = False
    tolerance: float = 0.003
    height: float = 0.006
    snap: float = 1e-4


@dataclass(frozen=True)
class Oriented:
    """What comes out.

    Parameters
    ----------
    chains
        Lines of which each row of the result is made, in the order and the direction of the
        result: one line alone unless pieces were joined.
    runs
        The rows as coordinates.
    lines
        The rows as a bundle.
    directions
        What was found about each row; ``turn`` is relative to its longest piece.
    findings
        Places where pieces were not joined, or no direction could be handed on.
    """

    chains: list[Chain]
    runs: list[Run]
    lines: Lines
    directions: Directions
    findings: list[Finding]

    @property
    def turned(self) -> int:
        """Return how many of the lines as read were turned round."""
        return sum(int((~chain.forward).sum()) for chain in self.chains)


def orient_lines(
    pieces: Pieces, rule: Rule, basis: Basis, joining: Joining, progress: Progress = silent
) -> Oriented:
    """Give lines one direction, and join them where asked for."""
    lines, findings = pieces.lines, []
    if not joining.join:
        links = None
        if rule is Rule.LONGEST:
            links = link(lines, joining.tolerance, pieces.groups)
            findings = fork_findings(links, pieces.ids)
        found = orient(lines, rule, basis, links, part(progress, 0.0, 0.8))
        progress(0.8)
        one = [
            Chain(np.array([k]), np.array([turn >= 0]), False)
            for k, turn in enumerate(found.turn.tolist())
        ]
        return _oriented(pieces, one, found, findings, joining.snap)
    links = link(lines, joining.tolerance, pieces.groups)
    findings = fork_findings(links, pieces.ids)
    links, steps, pairs = level_links(lines, pieces.coordinates, links, joining.height, pieces.ids)
    progress(0.3)
    rows, sure = [], []
    for chain in chains(links):
        whole = _welded(lines, chain)
        main, clear = main_direction(lines, whole)
        rows.append(main)
        sure.append(clear)
    runs = [run_of(pieces.coordinates, chain, pieces.arcs) for chain in rows]
    joined = Lines.from_arrays([run.coordinates for run in runs], joining.snap)
    progress(0.5)
    if rule is Rule.LONGEST:
        found = _as_joined(joined, sure)
    else:
        found = orient(joined, rule, basis, None, part(progress, 0.5, 0.8))
    progress(0.8)
    _tell_pieces(found, rows)
    _tell_steps(found, rows, pairs, steps)
    final = [
        ring_start(lines, chain.reversed() if turn < 0 else chain)
        for chain, turn in zip(rows, found.turn.tolist(), strict=True)
    ]
    return _oriented(pieces, final, found, [*findings, *steps], joining.snap)


def _welded(lines: Lines, chain: Chain) -> Chain:
    """Return a ring that is one line as a closed chain, so that its ends become one point."""
    if len(chain.lines) == 1 and lines.closed[chain.lines[0]]:
        return Chain(chain.lines, chain.forward, True)
    return chain


def _oriented(
    pieces: Pieces, rows: list[Chain], found: Directions, findings: list[Finding], snap: float
) -> Oriented:
    runs = [run_of(pieces.coordinates, chain, pieces.arcs) for chain in rows]
    bundle = Lines.from_arrays([run.coordinates for run in runs], snap)
    return Oriented(rows, runs, bundle, found, findings)


def _as_joined(joined: Lines, sure: list[bool]) -> Directions:
    """Return directions of chains that were already run as their longest piece runs."""
    count = len(joined)
    middle = joined.xy[(joined.first[:-1] + joined.first[1:]) // 2]
    why = translate("Core", "Equally long pieces run against each other, so that none sets the direction: the joined line runs as the greater part of its length did; look at it, and turn it by hand.")  # fmt: skip # noqa: E501
    return Directions(
        np.array(sure, np.int64),
        np.ones(count),
        ["" if clear else "even" for clear in sure],
        ["" if clear else why for clear in sure],
        middle,
    )


def _tell_pieces(found: Directions, rows: list[Chain]) -> None:
    """Say of flagged lines whose pieces ran both ways what direction they were given."""
    more = translate("Core", "It was joined in the direction of its longest piece.")
    for n, chain in enumerate(rows):
        if found.code[n] and found.code[n] != "even" and not chain.forward.all():
            found.why[n] = f"{found.why[n]} {more}"


def _tell_steps(
    found: Directions, rows: list[Chain], pairs: np.ndarray, steps: list[Finding]
) -> None:
    """Flag the lines that end at a step, unless they are flagged for their direction."""
    row_of = {int(k): n for n, chain in enumerate(rows) for k in chain.lines}
    for step, pair in zip(steps, pairs.tolist(), strict=True):
        for line in pair:
            n = row_of[line]
            if not found.code[n]:
                found.code[n], found.why[n] = step.code, step.why
