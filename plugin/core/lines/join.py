"""Pieces that touch end to end made into one line.

What goes on in what is decided by `links`: two ends that meet, or the clearly straightest pair
where more meet. Ends whose heights differ by more than a tolerance are not joined. At a joint both
ends move to the middle between them; where one end belongs to an arc, which has to stay as it is,
the other end moves there; and between two arcs a short straight piece fills the gap. Every vertex
keeps its own height and M, and a joint has the M of the piece that ends there.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..findings import Finding
from ..text import translate
from .bundle import Lines
from .links import Chain, Links, end_places

SAME_M = 1e-6
"""M of two ends that differ by less are the same."""


@dataclass(frozen=True)
class Joint:
    """The place where one piece of a chain goes on in the next.

    Parameters
    ----------
    points
        One row, or two where a short straight piece fills a gap between arcs, (1 | 2, d) float.
    moved
        How far an end moved in plan.
    jump
        True when the pieces do not agree on M there.
    """

    points: np.ndarray
    moved: float
    jump: bool


@dataclass(frozen=True)
class Run:
    """A chain as one line.

    Parameters
    ----------
    coordinates
        Its vertices in the order of the chain, (n, d) float.
    joints
        One joint between each two pieces, and on a closed chain one more, from the last to the
        first.
    """

    coordinates: np.ndarray
    joints: tuple[Joint, ...]

    @property
    def moved(self) -> float:
        """Return the largest move of an end."""
        return max((joint.moved for joint in self.joints), default=0.0)

    @property
    def jumps(self) -> int:
        """Return at how many joints M jumps."""
        return sum(joint.jump for joint in self.joints)


def level_links(
    lines: Lines,
    coordinates: Sequence[np.ndarray],
    links: Links,
    tolerance: float,
    ids: Sequence[int],
) -> tuple[Links, list[Finding], np.ndarray]:
    """Undo the links between ends whose heights do not agree.

    Parameters
    ----------
    lines, coordinates
        The bundle, and the same lines as read: x, y[, z[, m]].
    links
        What goes on in what in plan.
    tolerance
        Greatest difference of heights.
    ids
        What people know each line by.

    Returns
    -------
    links : Links
    steps : list of Finding
        One for each place with a step.
    pairs : (steps, 2) int
        Numbers of the lines that meet there.
    """
    height = np.array(
        [xyz[n, 2] if xyz.shape[1] > 2 else np.nan for xyz in coordinates for n in (0, -1)]
    )
    ends = np.flatnonzero(links.mate > np.arange(len(links.mate)))
    one, other = height[ends], height[links.mate[ends]]
    bare = np.isnan(one) & np.isnan(other)
    apart = ends[~bare & ~(np.abs(one - other) <= tolerance)]
    place = end_places(lines)
    missing = translate("Core", "none")
    found = []
    for end in apart.tolist():
        mate = int(links.mate[end])
        x, y = place[end].tolist()
        low, high = (missing if np.isnan(z) else f"{z:.3f}" for z in (height[end], height[mate]))
        why = translate("Core", "Lines {one} and {other} meet at {x:.2f}, {y:.2f} with different heights ({low} and {high}), so they were not joined: mend a height, or allow for a greater difference.")  # fmt: skip # noqa: E501
        sentence = why.format(one=ids[end // 2], other=ids[mate // 2], x=x, y=y, low=low, high=high)
        found.append(Finding("step", sentence, (x, y), int(ids[end // 2])))
    return links.without(apart), found, np.column_stack([apart, links.mate[apart]]) // 2


def fork_findings(links: Links, ids: Sequence[int]) -> list[Finding]:
    """Say where lines meet and none clearly goes on."""
    found = []
    for fork in links.forks:
        x, y = fork.place
        why = translate("Core", "Lines {ids} meet at {x:.2f}, {y:.2f} and none of them clearly goes on in another, so each ends there.")  # fmt: skip # noqa: E501
        named = ", ".join(str(ids[k]) for k in fork.lines)
        found.append(Finding("fork", why.format(ids=named, x=x, y=y), fork.place))
    return found


def run_of(coordinates: Sequence[np.ndarray], chain: Chain, arcs: np.ndarray | None = None) -> Run:
    """Return a chain as one line.

    Parameters
    ----------
    coordinates
        All lines as read: (n, 2) x y, (n, 3) x y z or (n, 4) x y z m.
    chain
        The lines to be joined; a closed line by itself is welded where it closes.
    arcs
        True for ends (``2 k``, ``2 k + 1``) that belong to an arc and have to stay, (2 k,) bool.
    """
    rows, fixed = [], []
    for k, ahead in zip(chain.lines.tolist(), chain.forward.tolist(), strict=True):
        own = np.asarray(coordinates[k], float)
        rows.append(own if ahead else own[::-1])
        held = (False, False) if arcs is None else (bool(arcs[2 * k]), bool(arcs[2 * k + 1]))
        fixed.append(held if ahead else held[::-1])
    width = max(row.shape[1] for row in rows)
    rows = [_wide(row, width) for row in rows]
    following = list(range(1, len(rows))) + ([0] if chain.closed else [])
    joints = tuple(
        _joint(rows[n][-1], rows[m][0], fixed[n][1], fixed[m][0]) for n, m in enumerate(following)
    )
    if not joints:
        return Run(rows[0], ())
    parts = []
    for n, row in enumerate(rows):
        first = 1 if n or chain.closed else 0
        last = len(row) - (1 if n < len(joints) else 0)
        parts.append(row[first:last])
        if n < len(joints):
            parts.append(joints[n].points)
    if chain.closed:
        # The ring starts where its last joint ends; only there M counts anew.
        start = joints[-1].points[-1:].copy()
        start[:, 3:] = rows[0][:1, 3:]
        parts.insert(0, start)
    return Run(np.concatenate(parts), joints)


def ring_start(lines: Lines, chain: Chain) -> Chain:
    """Return a closed chain started with its longest line, whatever the order of the bundle."""
    if not chain.closed or len(chain.lines) == 1:
        return chain
    length = lines.lengths[chain.lines]
    longest = np.flatnonzero(length >= length.max() * (1.0 - 1e-6))
    ends = 2 * chain.lines[longest] + ~chain.forward[longest]
    x, y = end_places(lines)[ends].T
    return chain.starting_with(int(longest[np.lexsort((y, x))[0]]))


def _joint(before: np.ndarray, after: np.ndarray, stays: bool, waits: bool) -> Joint:
    """Return the joint of the end of one piece and the start of the next."""
    gap = float(np.hypot(*(after[:2] - before[:2])))
    jump = bool(len(before) > 3 and np.abs(after[3] - before[3]) > SAME_M)
    if gap and stays and waits:
        return Joint(np.stack([before, after]), 0.0, jump)
    if stays or waits:
        point, moved = (before if stays else after).copy(), gap
    else:
        point, moved = 0.5 * (before + after), 0.5 * gap
    if len(point) > 3:
        point[3] = after[3] if np.isnan(before[3]) else before[3]
    return Joint(point[None], moved, jump)


def _wide(row: np.ndarray, width: int) -> np.ndarray:
    missing = np.full((len(row), width - row.shape[1]), np.nan)
    return np.column_stack([row, missing]) if missing.shape[1] else row
