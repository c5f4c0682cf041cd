"""Whether a guideline lies where it should, from what was measured on it."""

from dataclasses import dataclass

import numpy as np

from ..text import translate
from ..units import LinearUnit, format_station
from .bundle import Lines
from .check import Measured
from .match import Match
from .stationing import Stationing
from .words import loud_side, plain_length

PASS, FAIL, UNCLEAR = "pass", "fail", "unclear"


@dataclass(frozen=True)
class Asked:
    """What each guideline should be.

    Parameters
    ----------
    line : (g,) int
        Line it belongs to, -1 where none is known.
    side : (g,) int
        Right +1, left -1, 0 where it is not known.
    distance : (g,) float
        Distance it should keep, NaN where only the side is checked.
    tolerance
        Largest error of the distance, plan units.
    corner
        Farthest that the tip of a corner may reach out, in distances (a mitre limit). A tip cut
        square there ends a little farther out: at the most at the root of 1 and its square.
    """

    line: np.ndarray
    side: np.ndarray
    distance: np.ndarray
    tolerance: float
    corner: float


@dataclass(frozen=True)
class Names:
    """How places and lines are called in sentences."""

    lines: list[str]
    stationing: Stationing
    unit: LinearUnit


@dataclass(frozen=True)
class Judgement:
    """What is wrong with a guideline, or cannot be known of it.

    Parameters
    ----------
    flag, why
        Short word and sentence; empty for a guideline that passes.
    start, stop
        Distances along its line that this is about.
    place
        Where to look, (2,) float.
    """

    result: str
    flag: str
    why: str
    start: float
    stop: float
    place: np.ndarray


def verdicts(
    guidelines: Lines, asked: Asked, found: Measured, match: Match, names: Names
) -> list[Judgement]:
    """Return one judgement for each guideline.

    Parameters
    ----------
    guidelines
        What was laid.
    asked
        What it should be.
    found
        What was measured, against ``asked.line`` (line 0 where that is -1).
    match
        The line that fits each guideline best.
    names
        For the sentences.
    """
    result = []
    cuts = found.cuts
    first = np.searchsorted(cuts.owner, np.arange(len(guidelines) + 1))
    for g in range(len(guidelines)):
        rows = slice(int(first[g]), int(first[g + 1]))
        result.append(_one(guidelines, asked, found, match, names, g, rows))
    return result


def _one(
    guidelines: Lines,
    asked: Asked,
    found: Measured,
    match: Match,
    names: Names,
    g: int,
    rows: slice,
) -> Judgement:
    line, side, distance = int(asked.line[g]), int(asked.side[g]), float(asked.distance[g])
    middle = guidelines.xy[guidelines.line(g)].mean(axis=0)
    if line < 0:
        why = translate("Core", "No line is near enough to have it laid from: check the lines, or name its line in a field.")  # noqa: E501  # fmt: skip
        return Judgement(UNCLEAR, "no_line", why, np.nan, np.nan, middle)
    whole = float(found.cuts.length[rows].sum())
    wrong = found.cuts.side[rows] == -side
    share = float(found.cuts.length[rows][wrong].sum()) / whole if side else 0.0
    low, high, corner = found.low[g], found.high[g], found.farthest_corner[g]
    off = _off(low, high, found.nearest[g], distance)
    place, start, stop = _worst(found, rows, distance, wrong)
    spot = (place, start, stop)
    name = names.lines[line]
    tells = {"name": name, "from": _station(names, line, start), "to": _station(names, line, stop)}
    tells |= {"low": _length(low, names), "high": _length(high, names)}
    tells |= {"asked": _length(distance, names), "share": f"{share:.0%}"}
    tells |= {"side": loud_side(side or 1), "wrong": loud_side(-(side or 1))}
    best = int(match.line[g])
    if off > asked.tolerance and best not in (-1, line) and match.misfit[g] <= asked.tolerance:
        tells["other"] = names.lines[best]
        why = translate("Core", "It fits '{other}' and not '{name}', from which it lies {low} to {high} away: it was laid from the wrong line, or carries the wrong name.")  # noqa: E501  # fmt: skip
        return _made(FAIL, "wrong_line", why, tells, spot)
    if side and share >= 1.0 - 1e-9:
        why = translate("Core", "All of it lies to the {wrong} of '{name}', where the {side} is asked: it was laid on the wrong side.")  # noqa: E501  # fmt: skip
        return _made(FAIL, "wrong_side", why, tells, spot)
    if side and share * whole > asked.tolerance:
        why = translate("Core", "{share} of its length lies to the {wrong} of '{name}', where the {side} is asked, between stations {from} and {to}: it changes sides.")  # noqa: E501  # fmt: skip
        return _made(FAIL, "swaps", why, tells, spot)
    both = min(found.right[g], found.left[g]) * whole
    if not side and both > asked.tolerance:
        why = translate("Core", "It lies on both sides of '{name}': it changes sides near station {from}.")  # noqa: E501  # fmt: skip
        return _made(FAIL, "swaps", why, tells, spot)
    if off > asked.tolerance:
        why = translate("Core", "It lies {low} to {high} from '{name}', where {asked} is asked; the worst place is at station {from}.")  # noqa: E501  # fmt: skip
        return _made(FAIL, "distance", why, tells, spot)
    if np.isfinite(distance) and corner > np.hypot(1.0, asked.corner) * distance + asked.tolerance:
        spot = _tip(found, rows)
        tells |= {"high": _length(corner, names), "from": _station(names, line, spot[1])}
        why = translate("Core", "At a corner near station {from} it reaches {high} from '{name}', farther than the corner limit allows at {asked}.")  # noqa: E501  # fmt: skip
        return _made(FAIL, "corner", why, tells, spot)
    if found.unclear[g] * whole > max(asked.tolerance, 1e-9 * whole):
        tells["share"] = f"{found.unclear[g]:.0%}"
        why = translate("Core", "{share} of its length lies beyond the ends of '{name}' or on it, where it has no side: extend the line, or look at that part.")  # noqa: E501  # fmt: skip
        return _made(UNCLEAR, "beyond", why, tells, spot)
    if not match.clear[g] and best >= 0:
        tells["other"] = names.lines[int(match.other[g]) if best == line else best]
        why = translate("Core", "It fits '{other}' about as well as '{name}': name its line in a field.")  # noqa: E501  # fmt: skip
        return _made(UNCLEAR, "two_lines", why, tells, spot)
    return Judgement(PASS, "", "", start, stop, place)


def _made(
    result: str,
    flag: str,
    why: str,
    tells: dict[str, str],
    spot: tuple[np.ndarray, float, float],
) -> Judgement:
    return Judgement(result, flag, why.format(**tells), spot[1], spot[2], spot[0])


def _off(low: float, high: float, nearest: float, distance: float) -> float:
    """Return the largest error of the distance; corners count only where they come too near."""
    if not np.isfinite(distance):
        return 0.0
    errors = [distance - nearest]
    if np.isfinite(low):
        errors += [abs(low - distance), abs(high - distance)]
    return max(errors)


def _worst(
    found: Measured, rows: slice, distance: float, wrong: np.ndarray
) -> tuple[np.ndarray, float, float]:
    """Return the worst place, and the distances along the line between which it goes wrong."""
    cuts = found.cuts
    station = cuts.station[rows]
    if wrong.any():
        own = station[wrong]
        return cuts.middle[rows][wrong][0], float(own.min()), float(own.max())
    away = cuts.distance[rows, 1]
    wanted = distance if np.isfinite(distance) else float(np.median(away))
    error = np.where(cuts.corner[rows], wanted - away, np.abs(away - wanted))
    worst = int(np.argmax(error))
    return cuts.middle[rows][worst], float(station[worst]), float(station[worst])


def _tip(found: Measured, rows: slice) -> tuple[np.ndarray, float, float]:
    """Return the tip that reaches farthest, and the station of its corner, twice."""
    cuts = found.cuts
    away = np.column_stack((cuts.distance[rows, 0], cuts.distance[rows, 2]))
    away[~cuts.corner[rows]] = -np.inf
    worst, end = np.unravel_index(int(away.argmax()), away.shape)
    station = float(cuts.station[rows][worst])
    return (cuts.stop if end else cuts.start)[rows][worst], station, station


def _station(names: Names, line: int, distance: float) -> str:
    return format_station(float(names.stationing.station(line, distance)), names.unit)


def _length(value: float, names: Names) -> str:
    return plain_length(float(value), names.unit) if np.isfinite(value) else "-"
