"""Which lines are to be turned round so that all of them run one way, and which way that is.

A rule is tried on stretches of every line (`heading_votes`). A line is turned, or stays, only where
at least half of its length tells a direction and the stated share of that agrees; where it does
not, the line stays as it is drawn and is flagged with the reason and a place to look at.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from ..progress import Progress, silent
from ..text import translate
from . import heading_votes as votes
from .bundle import Lines
from .heading_votes import Reason, Sample, Stretches, Track
from .links import Chain, Links, chains
from .loops import loops
from .stations import point_at

DEFAULT_SHARE = 0.8
"""Share of what tells a direction that must agree."""
MIN_TOLD = 0.5
"""Share of a line's length that must tell a direction at all."""
ALIKE = 1e-6
"""Pieces whose lengths differ by less than this share are equally long."""


class Rule(StrEnum):
    """What gives a line its direction."""

    UP_STATION = "up_station"
    BEARING = "bearing"
    CLOCKWISE = "clockwise"
    ANTICLOCKWISE = "anticlockwise"
    DOWNHILL = "downhill"
    UPHILL = "uphill"
    LONGEST = "longest"


@dataclass(frozen=True)
class Basis:
    """What the rules look at; each needs its own part of it.

    Parameters
    ----------
    track
        References, for `Rule.UP_STATION`.
    bearing
        Degrees clockwise from grid north, for `Rule.BEARING`.
    sample
        Heights of a surface, for down- and uphill; None takes those of the lines.
    z_scale
        Plan units in one unit of height.
    min_share
        Least share of what tells a direction that must agree.
    """

    track: Track | None = None
    bearing: float = 0.0
    sample: Sample | None = None
    z_scale: float = 1.0
    min_share: float = DEFAULT_SHARE


@dataclass(frozen=True)
class Directions:
    """What is to be done with each line.

    Parameters
    ----------
    turn
        +1 stays, -1 is turned round, 0 is not known, so that it stays and is flagged, (k,) int.
    share
        Share of the length (the area, for rings that go round) that says so, (k,) float.
    code
        Empty where the direction is known, else a short word, k of them.
    why
        A sentence for each code.
    place
        Plan position of the weakest place; the middle where there is none, (k, 2) float.
    """

    turn: np.ndarray
    share: np.ndarray
    code: list[str]
    why: list[str]
    place: np.ndarray


def orient(
    lines: Lines,
    rule: Rule,
    basis: Basis,
    links: Links | None = None,
    progress: Progress = silent,
) -> Directions:
    """Decide for each line whether it is to be turned round.

    Parameters
    ----------
    lines
        The bundle.
    rule
        The rule for all lines.
    basis
        What the rule looks at.
    links
        What goes on in what, for `Rule.LONGEST`.
    progress
        Called with the share done.

    Raises
    ------
    ValueError
        The rule lacks what it needs.
    """
    if rule is Rule.LONGEST:
        if links is None:
            raise ValueError("the rule needs links")
        return _longest(lines, links)
    if rule in (Rule.CLOCKWISE, Rule.ANTICLOCKWISE):
        return _round(lines, 1 if rule is Rule.CLOCKWISE else -1, basis.min_share)
    if rule is Rule.UP_STATION:
        if basis.track is None:
            raise ValueError("the rule needs a reference")
        return _counted(lines, votes.up_station(lines, basis.track, progress), rule, basis)
    if rule is Rule.BEARING:
        return _counted(lines, votes.bearing(lines, basis.bearing), rule, basis, none=lines.closed)
    cast = votes.downhill(lines, basis.sample, basis.z_scale)
    fall = votes.total_fall(lines, basis.sample)
    return _counted(lines, cast, rule, basis, none=lines.closed, fall=fall)


def main_direction(lines: Lines, chain: Chain) -> tuple[Chain, bool]:
    """Return a chain run as its longest line does, and whether that leaves no doubt.

    Where equally long lines run against each other it is in doubt: then the chain is returned in
    the direction in which more of its length runs.
    """
    length = lines.lengths[chain.lines]
    longest = length >= length.max() * (1.0 - ALIKE)
    ways = chain.forward[longest]
    if ways.all() or not ways.any():
        return (chain if ways[0] else chain.reversed()), True
    ahead = float((np.where(chain.forward, 1.0, -1.0) * length).sum())
    return (chain if ahead >= 0.0 else chain.reversed()), False


def _longest(lines: Lines, links: Links) -> Directions:
    """Give all lines of a chain the direction of its longest one."""
    result = _unknown(lines)
    for found in chains(links):
        chain, sure = main_direction(lines, found)
        length = lines.lengths[chain.lines]
        share = float(length[chain.forward].sum() / length.sum())
        result.share[chain.lines] = share
        if sure:
            result.turn[chain.lines] = np.where(chain.forward, 1, -1)
            continue
        for k in chain.lines.tolist():
            result.code[k] = "even"
            result.why[k] = _sentence("even", share=share, place=result.place[k])
    return result


def _round(lines: Lines, wanted: int, min_share: float) -> Directions:
    result = _unknown(lines)
    around = loops(lines)
    result.share[:] = around.share
    clear = (around.sense != 0) & (around.share >= min_share - 1e-9)
    result.turn[:] = np.where(clear, around.sense * wanted, 0)
    for k in np.flatnonzero(~clear).tolist():
        code = "crosses" if lines.closed[k] or around.sense[k] else "no_loop"
        result.code[k] = code
        result.why[k] = _sentence(
            code, share=result.share[k], turned=abs(around.turned[k]), place=result.place[k]
        )
    return result


def _counted(
    lines: Lines,
    cast: Stretches,
    rule: Rule,
    basis: Basis,
    *,
    none: np.ndarray | None = None,
    fall: np.ndarray | None = None,
) -> Directions:
    """Count votes by length; lines that are ``none`` have no direction of that kind."""
    count = len(lines)
    sense = -1 if rule is Rule.UPHILL else 1
    vote = sense * cast.vote
    total = np.bincount(cast.line, cast.length, count)
    ahead = np.bincount(cast.line, cast.length * (vote > 0), count) / total
    back = np.bincount(cast.line, cast.length * (vote < 0), count) / total
    missing = np.zeros((count, len(Reason)))
    np.add.at(missing, (cast.line, cast.reason), cast.length)
    missing[:, Reason.NONE] = 0.0
    reason, gone = missing.argmax(1), missing.max(1) / total
    turn = np.where(ahead > back, 1, -1)
    share, contrary = np.maximum(ahead, back), np.minimum(ahead, back)
    told = ahead + back
    result = _unknown(lines)
    result.share[:] = share
    ring = np.zeros(count, bool) if none is None else none
    few = told < MIN_TOLD - 1e-9
    mixed = share < basis.min_share * told - 1e-9
    if fall is not None:
        # Both ends must say the same as most of the length between them.
        mixed |= np.isfinite(fall) & (np.sign(fall) * sense != turn)
    unknown = ring | few | mixed
    result.turn[:] = np.where(unknown, 0, turn)
    result.place[:] = _weakest(lines, cast, vote * turn[cast.line], result.place)
    for k in np.flatnonzero(unknown).tolist():
        if ring[k]:
            code = "closed"
        elif few[k]:
            code = Reason(reason[k]).name.lower() if gone[k] > contrary[k] else "mixed"
        else:
            code = "mixed"
        result.code[k] = code
        if code == "mixed":
            result.place[k] = _swap(lines, k, cast, vote)
        kind = rule if code in ("mixed", "square", "closed") else ""
        result.why[k] = _sentence(
            f"{code} {kind}".strip(),
            share=share[k],
            contrary=contrary[k],
            missing=gone[k],
            place=result.place[k],
        )
    return result


def _weakest(
    lines: Lines, cast: Stretches, agreeing: np.ndarray, otherwise: np.ndarray
) -> np.ndarray:
    """Return a place of each line that votes against the rest, or else does not vote.

    Of several the most westerly (then southerly) one, which does not depend on how the line is
    drawn.
    """
    west = np.full(len(lines), np.inf)
    south = np.full(len(lines), np.inf)
    np.minimum.at(west, cast.line, cast.middle[:, 0])
    np.minimum.at(south, cast.line, cast.middle[:, 1])
    # Rounded, so that the last digit of either way of drawing does not choose.
    x = np.round((cast.middle[:, 0] - west[cast.line]) / lines.lengths[cast.line], 6)
    y = np.round((cast.middle[:, 1] - south[cast.line]) / lines.lengths[cast.line], 6)
    order = np.lexsort((y, x, agreeing, cast.line))
    head = order[np.searchsorted(cast.line[order], np.arange(len(lines)))]
    weak = agreeing[head] < 1
    return np.where(weak[:, None], cast.middle[head], otherwise)


def _swap(lines: Lines, k: int, cast: Stretches, vote: np.ndarray) -> np.ndarray:
    """Return the place where a line best falls into a part one way and a part the other way."""
    own = np.flatnonzero(cast.line == k)
    total = np.cumsum(cast.length[own])
    signed = np.cumsum(cast.length[own] * vote[own])
    apart = np.abs(2.0 * signed - signed[-1])[:-1]
    if not len(apart):
        return point_at(lines, np.array([k]), lines.lengths[[k]] / 2.0)[0]
    best = np.flatnonzero(apart >= apart.max() - 1e-6 * total[-1])
    places = point_at(lines, np.full(len(best), k), total[best])
    # Of places that are as good, one that does not depend on how the line is drawn.
    x, y = np.round((places - places.min(0)) / total[-1], 6).T
    return places[np.lexsort((y, x))[0]]


def _unknown(lines: Lines) -> Directions:
    """Return directions of which nothing is known yet, each with the line's middle as place."""
    count = len(lines)
    which = np.arange(count)
    middle = point_at(lines, which, lines.lengths / 2.0)
    turn, share = np.zeros(count, np.int64), np.zeros(count)
    return Directions(turn, share, [""] * count, [""] * count, middle)


def _sentence(code: str, *, place: np.ndarray, **values: float) -> str:
    """Return what the user reads about a flagged line."""
    texts = {
        "mixed up_station": translate("Core", "The line runs up-station for {share:.0%} of its length and down-station for {contrary:.0%}: split it near {x:.2f}, {y:.2f}, or turn it by hand."),  # noqa: E501
        "square up_station": translate("Core", "The line runs square to the reference for {missing:.0%} of its length, so that neither way is up-station: turn it by a bearing, or by hand."),  # noqa: E501
        "beyond": translate("Core", "The line lies beyond the ends of the reference for {missing:.0%} of its length: extend the reference, or turn the line by a bearing."),  # noqa: E501
        "tie": translate("Core", "References that run in different directions are about equally near along {missing:.0%} of the line: choose one reference, or turn the line by hand."),  # noqa: E501
        "mixed bearing": translate("Core", "The line turns so far that {share:.0%} of its length runs one way and {contrary:.0%} the other: split it near {x:.2f}, {y:.2f}, or turn it by hand."),  # noqa: E501
        "square bearing": translate("Core", "The line runs square to the bearing for {missing:.0%} of its length: choose another bearing, or turn it by hand."),  # noqa: E501
        "closed bearing": translate("Core", "The line is closed, so that it has no bearing: turn it clockwise or anticlockwise."),  # noqa: E501
        "no_loop": translate("Core", "The line is open and does not clearly go round (it turns by {turned:.0f}° in all): turn it by a bearing, or by hand."),  # noqa: E501
        "crosses": translate("Core", "The line crosses itself or doubles back, so that it goes round both ways ({share:.0%} one way): split it, or turn it by hand."),  # noqa: E501
        "mixed downhill": translate("Core", "The line falls and rises ({share:.0%} of its length one way, {contrary:.0%} the other): split it near {x:.2f}, {y:.2f}, or turn it by hand."),  # noqa: E501
        "level": translate("Core", "The line is level for {missing:.0%} of its length: turn it by a bearing, or by hand."),  # noqa: E501
        "no_surface": translate("Core", "There is no surface under {missing:.0%} of the line: extend the surface, or turn the line by hand."),  # noqa: E501
        "no_height": translate("Core", "There are no heights along {missing:.0%} of the line: choose a surface, or turn the line by hand."),  # noqa: E501
        "closed downhill": translate("Core", "The line is closed, so that it ends at the height where it starts: turn it clockwise or anticlockwise."),  # noqa: E501
        "even": translate("Core", "Equally long pieces of this chain run against each other, so that none sets the direction: turn one of them by hand."),  # noqa: E501
    }  # fmt: skip
    same = {"mixed uphill": "mixed downhill", "closed uphill": "closed downhill"}
    text = texts[same.get(code, code)]
    return text.format(x=float(place[0]), y=float(place[1]), **values)
