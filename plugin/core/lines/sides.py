"""Which side of a line a rule means, and what speaks for it.

A rule never guesses: when the votes along a line do not carry one side, the line is flagged with
a code and a sentence, and the caller shows both candidates.
"""

from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np

from ..text import translate
from . import votes
from .bundle import Lines
from .reference import Reference
from .votes import Places, Reason, Sample, Votes

DEFAULT_SHARE = 0.9
CONTRARY_SHARE = 0.02
"""Share of a line's length that may vote for the other side. More is a side that changes."""


class Rule(StrEnum):
    """How a side is chosen."""

    RIGHT = "right"
    LEFT = "left"
    TOWARD = "toward"
    AWAY = "away"
    INSIDE = "inside"
    OUTSIDE = "outside"
    UPHILL = "uphill"
    DOWNHILL = "downhill"
    STEEPER = "steeper"
    FLATTER = "flatter"
    COMPASS = "compass"


NEEDS_REFERENCE = frozenset({Rule.TOWARD, Rule.AWAY, Rule.INSIDE, Rule.OUTSIDE})
NEEDS_SURFACE = frozenset({Rule.UPHILL, Rule.DOWNHILL, Rule.STEEPER, Rule.FLATTER})
_OPPOSITE = frozenset({Rule.AWAY, Rule.OUTSIDE, Rule.DOWNHILL, Rule.FLATTER})


@dataclass(frozen=True)
class Basis:
    """What the rules look at.

    Parameters
    ----------
    reference
        For toward, away, inside and outside.
    sample
        Elevations of a surface, for uphill, downhill, steeper and flatter.
    bearing
        For compass: the bearing that the side faces.
    min_share
        Share of a line's length that must vote for the side.
    z_scale
        Plan units in one unit of the surface's heights.
    """

    reference: Reference | None = None
    sample: Sample | None = None
    bearing: float = 0.0
    min_share: float = DEFAULT_SHARE
    z_scale: float = 1.0


@dataclass(frozen=True)
class Verdicts:
    """The side of each line.

    Parameters
    ----------
    side
        +1 right, -1 left: the side with more votes; 0 when there is none, (k,) int.
    share
        Share of the length that votes for it, (k,) float.
    code
        Empty where the side is settled, else a short word, k of them.
    why
        A sentence for each code.
    station
        Station of the weakest place: where the first contrary or missing vote stands, or else
        where the least speaks for the side, (k,) float.
    place
        Plan position of that, (k, 2) float.
    """

    side: np.ndarray
    share: np.ndarray
    code: list[str]
    why: list[str]
    station: np.ndarray
    place: np.ndarray


def judge(lines: Lines, rules: list[Rule], distance: np.ndarray, basis: Basis) -> Verdicts:
    """Apply a rule to each line.

    Parameters
    ----------
    lines
        The bundle.
    rules
        Rule of each line.
    distance
        Offset of each line without sign, (k,) float, > 0.
    basis
        What the rules look at.

    Raises
    ------
    ValueError
        The basis lacks what a rule needs.
    """
    count = len(lines)
    side, share = np.zeros(count, np.int64), np.ones(count)
    station, place = np.zeros(count), lines.xy[lines.first[:-1]].copy()
    result = Verdicts(side, share, [""] * count, [""] * count, station, place)
    for rule in sorted(set(rules)):
        which = np.array([k for k, r in enumerate(rules) if r is rule], np.int64)
        if rule in (Rule.RIGHT, Rule.LEFT):
            side[which] = 1 if rule is Rule.RIGHT else -1
            continue
        some = lines.take(which)
        at = votes.places(some)
        cast = cast_votes(rule, some, at, distance[which], basis)
        tally = _Tally.of(some, at, cast, -1 if rule in _OPPOSITE else 1)
        _settle(result, which, rule, some, tally, basis)
    return result


def cast_votes(rule: Rule, lines: Lines, at: Places, distance: np.ndarray, basis: Basis) -> Votes:
    """Return the votes of a rule at places along lines, before the opposite rules are turned.

    Raises
    ------
    ValueError
        The basis lacks what the rule needs.
    """
    if rule in NEEDS_REFERENCE and not basis.reference:
        raise ValueError("the rule needs a reference")
    if rule in NEEDS_SURFACE and basis.sample is None:
        raise ValueError("the rule needs a surface")
    if rule in (Rule.TOWARD, Rule.AWAY):
        assert basis.reference is not None
        return votes.toward(lines, at, basis.reference)
    if rule in (Rule.INSIDE, Rule.OUTSIDE):
        assert basis.reference is not None
        return votes.inside(at, basis.reference, distance)
    if rule is Rule.COMPASS:
        return votes.compass(at, basis.bearing)
    assert basis.sample is not None
    ask = votes.uphill if rule in (Rule.UPHILL, Rule.DOWNHILL) else votes.steeper
    return ask(at, basis.sample, distance, basis.z_scale)


@dataclass
class _Tally:
    """Votes counted by length, line by line."""

    side: np.ndarray
    share: np.ndarray
    contrary: np.ndarray
    reason: np.ndarray  # most frequent reason not to vote
    missing: np.ndarray  # share that gives that reason
    station: np.ndarray
    place: np.ndarray = field(default_factory=lambda: np.empty((0, 2)))

    @classmethod
    def of(cls, lines: Lines, at: Places, cast: Votes, sense: int) -> "_Tally":
        count = len(lines)
        total = np.bincount(at.line, minlength=count)
        vote = sense * cast.vote
        right = np.bincount(at.line, vote > 0, count) / total
        left = np.bincount(at.line, vote < 0, count) / total
        side = np.sign(right - left).astype(np.int64)
        reasons = np.zeros((count, len(Reason)))
        np.add.at(reasons, (at.line, cast.reason), 1.0)
        reasons[:, Reason.NONE] = 0.0
        reason = reasons.argmax(1)
        # The weakest place: contrary votes first, then missing ones, then the least strength.
        rank = cast.strength * vote * np.where(side == 0, 1, side)[at.line]
        order = np.lexsort((at.station, rank, at.line))
        weakest = order[np.cumsum(total) - total]
        return cls(
            side,
            np.maximum(right, left),
            np.minimum(right, left),
            reason,
            reasons.max(1) / total,
            at.station[weakest],
            at.xy[weakest],
        )


def _settle(
    result: Verdicts, which: np.ndarray, rule: Rule, lines: Lines, tally: _Tally, basis: Basis
) -> None:
    result.side[which], result.share[which] = tally.side, tally.share
    result.station[which], result.place[which] = tally.station, tally.place
    crossed = np.zeros(len(which), bool)
    where = np.full((len(which), 2), np.nan)
    if rule in (Rule.TOWARD, Rule.AWAY) and basis.reference is not None:
        crossed, where = basis.reference.crossed_by(lines.geometries)
    allowed = min(CONTRARY_SHARE, max(1.0 - basis.min_share, 0.0))
    for n, k in enumerate(which):
        changes = tally.contrary[n] > allowed
        weak = tally.share[n] < basis.min_share - 1e-12
        if not (changes or weak or crossed[n]):
            continue
        if crossed[n]:
            result.code[k] = "crosses"
            if np.isfinite(where[n]).all():
                result.place[k] = tally.place[n] = where[n]
        elif changes:
            result.code[k] = "turns" if rule is Rule.COMPASS else "swaps"
        else:
            result.code[k] = Reason(tally.reason[n]).name.lower()
        result.why[k] = sentence(result.code[k], tally, n)


def sentence(code: str, tally: _Tally, n: int) -> str:
    """Return what the user reads about a flagged line."""
    texts = {
        "crosses": translate("Core", "The reference crosses the line at {x:.2f}, {y:.2f}, so it lies on both sides: split the line there or say right or left."),  # noqa: E501
        "swaps": translate("Core", "The side changes along the line ({share:.0%} of its length says {side}, {contrary:.0%} the other): split the line near {x:.2f}, {y:.2f} or say right or left."),  # noqa: E501
        "turns": translate("Core", "The line turns so far that no one side faces that way ({share:.0%} of its length says {side}, {contrary:.0%} the other): split it or say right or left."),  # noqa: E501
        "touches": translate("Core", "The reference touches, covers or overlaps {missing:.0%} of the line: choose another reference, or inside or outside, or say right or left."),  # noqa: E501
        "tie": translate("Core", "References on both sides are about equally near along {missing:.0%} of the line: choose one reference or say right or left."),  # noqa: E501
        "beyond": translate("Core", "The reference lies beyond an open end of the line, where it has no side, for {missing:.0%} of the length: extend the line or say right or left."),  # noqa: E501
        "both_inside": translate("Core", "Both candidates lie inside the reference areas along {missing:.0%} of the line: it is not at their border, so say right or left."),  # noqa: E501
        "both_outside": translate("Core", "Neither candidate lies inside a reference area along {missing:.0%} of the line: check the offset and the areas, or say right or left."),  # noqa: E501
        "flat": translate("Core", "The surface is flat across {missing:.0%} of the line, so no side is uphill: say right or left."),  # noqa: E501
        "valley": translate("Core", "The surface rises on both sides along {missing:.0%} of the line: say right or left."),  # noqa: E501
        "ridge": translate("Core", "The surface falls on both sides along {missing:.0%} of the line: say right or left."),  # noqa: E501
        "even": translate("Core", "The surface is equally steep on both sides along {missing:.0%} of the line: say right or left."),  # noqa: E501
        "no_surface": translate("Core", "The surface is missing on a side of {missing:.0%} of the line: extend it or say right or left."),  # noqa: E501
        "along_wind": translate("Core", "The line runs along that wind for {missing:.0%} of its length, so neither side faces it: choose another wind or say right or left."),  # noqa: E501
    }  # fmt: skip
    right = tally.side[n] >= 0
    return texts[code].format(
        share=tally.share[n],
        contrary=tally.contrary[n],
        missing=tally.missing[n],
        side=translate("Core", "right") if right else translate("Core", "left"),
        x=tally.place[n, 0],
        y=tally.place[n, 1],
    )
