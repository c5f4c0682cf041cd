"""Guidelines from lines: side judged, parallel laid, distance and side proved, losses listed.

One *request* is one line at one distance on the side that one rule means. Requests whose side is
settled become guidelines; the others become two candidates each, and a reason.
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, TypeVar

import numpy as np

from ..progress import Progress, part, silent
from ..runs import batches
from ..text import translate
from ..units import METRE, LinearUnit
from .bundle import Lines
from .corners import JoinStyle
from .feet import with_feet
from .lost import lost_stretches
from .parallel import CHUNK_VERTICES, Parallels, joined, parallels, slack_of
from .prove import Proof, prove
from .requests import Flagged, Requests
from .sides import Basis, Verdicts, judge
from .taper import lay_taper

DISTANCE_ERROR = 1e-6
"""Largest error of a guideline's distance, in plan units."""


@dataclass(frozen=True)
class Guidelines:
    """What came of the requests.

    Parameters
    ----------
    verdicts
        Side and evidence of each request.
    pieces
        The guidelines; ``pieces.source`` and the lines of ``pieces.lost`` count requests,
        ``pieces.parent`` the segments of the requests' lines.
    proof
        What was measured on each piece.
    flagged
        Requests without a settled side, and stretches lost to tight bends.
    lost
        How many stretches were lost.
    """

    verdicts: Verdicts
    pieces: Parallels
    proof: Proof
    flagged: list[Flagged]
    lost: int


def lay(
    requests: Requests,
    basis: Basis,
    style: JoinStyle | None = None,
    unit: LinearUnit = METRE,
    progress: Progress = silent,
) -> Guidelines:
    """Lay the guidelines of all requests.

    Parameters
    ----------
    requests
        What is wanted.
    basis
        What the rules look at.
    style
        How corners are joined.
    unit
        Plan unit, for the sentences.
    progress
        Told the share done.
    """
    style = style or JoinStyle()
    count = len(requests.line)
    # Some at a time, from the verdict to the proof: of all the work only the results are kept.
    parts, pieces = [], []
    size = requests.lines.counts[np.asarray(requests.line, np.int64)]
    for begin, end in batches(size, CHUNK_VERTICES):
        share = part(progress, begin / count, end / count)
        found = _lay(requests.part(begin, end), basis, style, unit, share)
        found = _numbered(found, begin)
        pieces.append(found.pieces)
        parts.append((found.verdicts, found.proof, found.flagged, found.lost))
        del found
    if not parts:
        return _lay(requests, basis, style, unit, progress)
    verdicts, proofs, flagged, lost = zip(*parts, strict=True)
    return Guidelines(
        _end_to_end(verdicts),
        joined(pieces),
        _end_to_end(proofs),
        [item for own in flagged for item in own],
        sum(lost),
    )


Packed = TypeVar("Packed", Verdicts, Proof)


def _end_to_end(parts: Sequence[Packed]) -> Packed:
    """Return results whose fields are arrays or lists one after the other."""
    whole: dict[str, Any] = {}
    for field in fields(parts[0]):
        values = [getattr(p, field.name) for p in parts]
        array = isinstance(values[0], np.ndarray)
        whole[field.name] = np.concatenate(values) if array else [x for v in values for x in v]
    return type(parts[0])(**whole)


def _numbered(found: Guidelines, base: int) -> Guidelines:
    """Return the result of some requests with their numbers among all requests."""
    pieces = replace(
        found.pieces,
        source=found.pieces.source + base,
        lost=[replace(item, line=item.line + base) for item in found.pieces.lost],
    )
    flagged = [replace(item, request=item.request + base) for item in found.flagged]
    return replace(found, pieces=pieces, flagged=flagged)


def _lay(
    requests: Requests, basis: Basis, style: JoinStyle, unit: LinearUnit, progress: Progress
) -> Guidelines:
    """Lay the guidelines of some requests, numbered among these."""
    asked = requests.lines.take(requests.line)
    progress(0.0)
    verdicts = judge(asked, requests.rules, requests.distance, basis)
    settled = np.array([not code for code in verdicts.code], bool)
    plain = np.array([requests.taper(n) is None for n in range(len(requests.line))], bool)
    good, open_ = np.flatnonzero(settled & plain), np.flatnonzero(~settled)
    signed = verdicts.side * requests.distance
    sources = asked.take(good)
    laid = parallels(sources, signed[good], style, part(progress, 0.2, 0.7))
    proof = prove(sources, laid, thorough=False)
    progress(0.85)
    tolerance = np.maximum(DISTANCE_ERROR, 4 * slack_of(asked)[good[laid.source]])
    holds = proof.holds(laid.offsets, tolerance)
    flagged = _candidates(asked, open_, requests.distance, verdicts, style)
    flagged += _unproved(laid, good, ~holds)
    lost = lost_stretches(requests, asked, laid, good, signed, (style.chord, unit))
    laid = with_feet(sources, requests.arcs_beside(good), laid, style.chord)
    pieces = _traced(requests, sources, laid, good).take(np.flatnonzero(holds))
    proof = Proof(proof.nearer[holds], proof.error[holds], proof.side[holds])
    if not plain.all():
        which = np.flatnonzero(settled & ~plain)
        pieces, proof, more = _with_tapers(requests, asked, verdicts, which, style, pieces, proof)
        flagged += more
    progress(1.0)
    order = sorted(flagged + lost, key=lambda item: (item.request, item.start))
    return Guidelines(verdicts, pieces, proof, order, len(lost))


def _with_tapers(
    requests: Requests,
    asked: Lines,
    verdicts: Verdicts,
    which: np.ndarray,
    style: JoinStyle,
    pieces: Parallels,
    proof: Proof,
) -> tuple[Parallels, Proof, list[Flagged]]:
    """Return pieces and proof with the tapered requests among them, and those that do not fit."""
    parts, proofs, flagged = [pieces], [proof], []
    for n in which.tolist():
        taper = requests.taper(n)
        assert taper is not None
        one, side = asked.take(np.array([n])), int(verdicts.side[n])
        slack = float(slack_of(one)[0])
        made = lay_taper(one, taper, side, style, slack)
        tolerance = max(DISTANCE_ERROR, 4.0 * slack)
        if made is None or not made[1].holds(made[0].offsets, tolerance).all():
            why = translate("Core", "The line bends too tightly for its taper: lay it in parts, or with a constant offset.")  # noqa: E501  # fmt: skip
            source = [(0, asked.xy[asked.line(n)])]
            flagged.append(Flagged(n, "taper", why, 0.0, float(one.lengths[0]), source))
            continue
        shift = int(requests.lines.first_segment[requests.line[n]])
        laid = with_feet(one, requests.arcs_beside(np.array([n])), made[0], style.chord)
        parent = np.where(laid.parent >= 0, laid.parent + shift, -1)
        parts.append(replace(laid, source=np.array([n]), parent=parent))
        proofs.append(made[1])
    whole = joined(parts)
    order = np.argsort(whole.source, kind="stable")
    told = _end_to_end(proofs)
    return (
        whole.take(order),
        Proof(told.nearer[order], told.error[order], told.side[order]),
        flagged,
    )


def _traced(requests: Requests, sources: Lines, laid: Parallels, good: np.ndarray) -> Parallels:
    """Return parallels traced to their requests, and to the segments of the requests' lines."""
    line = np.asarray(requests.line, np.int64)[good]
    shift = requests.lines.first_segment[line] - sources.first_segment[:-1]
    parent = laid.parent + shift[laid.source][laid.lines.owner]
    return replace(
        laid,
        source=good[laid.source],
        parent=np.where(laid.parent >= 0, parent, -1),
        lost=[replace(item, line=int(good[item.line])) for item in laid.lost],
    )


def _candidates(
    asked: Lines, which: np.ndarray, distance: np.ndarray, verdicts: Verdicts, style: JoinStyle
) -> list[Flagged]:
    """Return both candidates of each request whose side is open; the source where there is none."""
    both = np.concatenate([which, which])
    signed = np.concatenate([distance[which], -distance[which]])
    drawn = parallels(asked.take(both), signed, style)
    shapes: dict[int, list[tuple[int, np.ndarray]]] = {int(r): [] for r in which}
    for n, source in enumerate(drawn.source):
        request, side = int(both[source]), 1 if drawn.offsets[n] > 0 else -1
        shapes[request].append((side, drawn.lines.xy[drawn.lines.line(n)]))
    result = []
    for request, found in shapes.items():
        length = float(asked.lengths[request])
        drawing = found or [(0, asked.xy[asked.line(request)])]
        code, why = verdicts.code[request], verdicts.why[request]
        result.append(Flagged(request, code, why, 0.0, length, drawing))
    return result


def _unproved(laid: Parallels, good: np.ndarray, failed: np.ndarray) -> list[Flagged]:
    """Return pieces that did not pass the proof; none is known, and none may pass unseen."""
    result = []
    for n in np.flatnonzero(failed):
        rows = laid.lines.line(int(n))
        why = translate(
            "Core",
            "The distance or the side of this piece could not be proved: check it by hand, and report the line.",
        )  # noqa: E501
        side = 1 if laid.offsets[n] > 0 else -1
        start, stop = float(laid.station[rows][0]), float(laid.station[rows][-1])
        request = int(good[laid.source[n]])
        result.append(Flagged(request, "unproved", why, start, stop, [(side, laid.lines.xy[rows])]))
    return result
