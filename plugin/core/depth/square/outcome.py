"""What measuring a thickness square to the faces has to say about itself."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...findings import Finding
from ...text import translate

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class SquareOutcome:
    """How well the faces of a patchwork keep their distance from the design.

    Distances are in units of height, moves in plan units.

    Parameters
    ----------
    largest_residual : float
        Greatest difference between the thickness wanted and the distance, at right angles, from
        the plane of a face at one of its corners.
    missed : int
        Points where it is more than the tolerance ``allowed``.
    allowed : float
        That tolerance.
    worst : tuple of float or None
        Plan position of the greatest residual.
    largest_move : float
        Greatest plan move of a point.
    trimmed : int
        Faces of the patchwork that the thickness leaves nothing of.
    held : int
        Those of them whose plan move was cut short, because faces would have turned over.
    held_at : (k, 2) float
        Where they are.
    missed_at : (j, 2) float
        Where the residual is more than allowed.
    flags : (m,) str
        For each face of the result ``folded``, ``mitre_residual`` or nothing.
    """

    largest_residual: float
    missed: int
    allowed: float
    worst: tuple[float, float] | None
    largest_move: float
    trimmed: int
    held: int
    held_at: Floats
    missed_at: Floats
    flags: NDArray[np.str_]

    def findings(self, origin: Floats | None = None) -> list[Finding]:
        """Return the findings, places counted from the origin given.

        Parameters
        ----------
        origin : (2,) float or None
            Where the points of the patchwork count from.
        """
        shift = np.zeros(2) if origin is None else np.asarray(origin, dtype=np.float64)
        found = []
        if self.missed and self.worst is not None:
            place = float(self.worst[0] + shift[0]), float(self.worst[1] + shift[1])
            why = translate(
                "Core",
                "At {count} points no single place keeps the thickness below all faces (more than three planes meet there, or the border of a zone holds the point): it is off by up to {residual:.4g}, most near {x:.3f}, {y:.3f}; check the thickness there.",
            ).format(count=self.missed, residual=self.largest_residual, x=place[0], y=place[1])
            found.append(Finding("mitre_residual", why, place))
        if self.held:
            place = float(self.held_at[0, 0] + shift[0]), float(self.held_at[0, 1] + shift[1])
            why = translate(
                "Core",
                "At {count} points, the first near {x:.3f}, {y:.3f}, faces would have folded over one another at this thickness: the points were held back and the thickness is not kept there, check it.",
            ).format(count=self.held, x=place[0], y=place[1])
            found.append(Finding("folded", why, place))
        return found


def untouched(faces: int) -> SquareOutcome:
    """Return the outcome where nothing was to be moved."""
    none = np.empty((0, 2))
    return SquareOutcome(0.0, 0, 0.0, None, 0.0, 0, 0, none, none, np.full(faces, "", dtype="<U14"))
