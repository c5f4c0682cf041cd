"""Breaks beside lines that are drawn already: rows, figures and sentences."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from qgis.core import QgsGeometry

from ..core.breaks import KINDS, BreakLines
from ..core.breaks.known import Stretches, bundled, compare
from ..core.lines.bundle import Lines
from ..core.lines.stations import cut
from ..core.progress import Progress
from ..core.text import translate
from ..core.units import LinearUnit
from ..layers.lines import line_geometry
from .line_inputs import NamedLines
from .slope_rows import in_plan

BOTH, MISSING, NO_BREAK = "both", "missing", "no_break"
COMPARISON_COLUMNS = (
    ("state", str),
    ("line", int),
    ("kind", str),
    ("drawn_id", int),
    ("drawn_name", str),
    ("drawn_share", float),
    ("from_dist", float),
    ("to_dist", float),
    ("length", float),
)


@dataclass(frozen=True)
class Known:
    """Drawn lines, and how near and how parallel a break must be to be one of them."""

    drawn: NamedLines
    distance: float
    angle: float


@dataclass(frozen=True)
class Piece:
    """A stretch of one state.

    Parameters
    ----------
    state
        One of `BOTH`, `MISSING`, `NO_BREAK`.
    line, drawn
        Row of the break and of the drawn line, -1 for none.
    xyz : (n, 3) float
        Its course: that of the break, and of the drawn line where there is no break.
    start, stop
        Distances along that line.
    """

    state: str
    line: int
    drawn: int
    xyz: np.ndarray
    start: float
    stop: float


class Comparison:
    """The breaks and the drawn lines, stretch by stretch."""

    def __init__(self, lines: BreakLines, known: Known, progress: Progress) -> None:
        self.lines, self.known = lines, known
        self.breaks, self.rows = bundled(lines)
        self.found, self.drawn = compare(
            self.breaks, known.drawn.lines, known.distance, known.angle, progress
        )

    @cached_property
    def shares(self) -> np.ndarray:
        """Share of each break that is drawn, (n,) float."""
        shares = np.zeros(len(self.lines))
        shares[self.rows] = self.found.share
        return shares

    def figures(self) -> dict[str, float]:
        """Return the numeric results."""
        return {
            "EXPLAINED_LENGTH": self.found.total(matched=True),
            "MISSING_LENGTH": self.found.total(matched=False),
            "NO_BREAK_LENGTH": self.drawn.total(matched=False),
        }

    def pieces(self) -> Iterator[Piece]:
        """Yield the stretches: those of breaks, then drawn lines that are none."""
        for n in range(len(self.found)):
            state = BOTH if self.found.matched[n] else MISSING
            line, drawn = int(self.rows[self.found.line[n]]), int(self.found.partner[n])
            yield self._piece(state, line, drawn, self.breaks, self.found, n)
        for n in np.flatnonzero(~self.drawn.matched).tolist():
            own = int(self.drawn.line[n])
            yield self._piece(NO_BREAK, -1, own, self.known.drawn.lines, self.drawn, n)

    @staticmethod
    def _piece(
        state: str, line: int, drawn: int, lines: Lines, stretches: Stretches, n: int
    ) -> Piece:
        start, stop = float(stretches.start[n]), float(stretches.stop[n])
        xy, z = cut(lines, int(stretches.line[n]), start, stop)
        return Piece(state, line, drawn, np.column_stack((xy, z)), start, stop)

    def features(self) -> Iterator[tuple[QgsGeometry, list[Any]]]:
        """Yield geometry and attributes in the order of `COMPARISON_COLUMNS`."""
        width = 3 if self.known.drawn.has_z else 2
        for piece in self.pieces():
            known = piece.drawn >= 0
            yield (
                line_geometry(piece.xyz[:, :width]),
                [
                    piece.state,
                    piece.line + 1 if piece.line >= 0 else None,
                    str(KINDS[self.lines.kind[piece.line]]) if piece.line >= 0 else None,
                    int(self.known.drawn.table.ids[piece.drawn]) if known else None,
                    self.known.drawn.names[piece.drawn] if known else None,
                    100.0 * float(self.drawn.share[piece.drawn]) if known else None,
                    piece.start,
                    piece.stop,
                    piece.stop - piece.start,
                ],
            )

    def sentence(self, plan: LinearUnit) -> str:
        """Return what was found, in words."""
        figures = self.figures()
        breaks, drawn = (
            float(self.breaks.lengths.sum()),
            float(self.known.drawn.lines.lengths.sum()),
        )
        return translate(
            "SlopeBreaks",
            "Of {breaks} of breaks {explained} ({share:.1f} %) are drawn and {missing} are not; of {drawn} drawn {bare} ({bare_share:.1f} %) are no break.",
        ).format(
            breaks=in_plan(breaks, plan),
            explained=in_plan(figures["EXPLAINED_LENGTH"], plan),
            share=100.0 * figures["EXPLAINED_LENGTH"] / breaks if breaks else 0.0,
            missing=in_plan(figures["MISSING_LENGTH"], plan),
            drawn=in_plan(drawn, plan),
            bare=in_plan(figures["NO_BREAK_LENGTH"], plan),
            bare_share=100.0 * figures["NO_BREAK_LENGTH"] / drawn,
        )
