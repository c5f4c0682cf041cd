"""All tolerances of a run, in one place, in the units of the job's plan coordinates."""

from dataclasses import dataclass

SNAP_METRES = 1e-4
"""Two plan positions nearer than this are one point. Far above the rounding of state-plane-size
doubles (1e-9), far below what can be staked."""

MOST_JOIN_METRES = 0.05
"""Zones farther apart than this are meant to be apart: a joint or a curb's batter is no slip."""


@dataclass(frozen=True)
class Tolerance:
    """The tolerances of one run.

    Parameters
    ----------
    snap
        Plan distance within which a border point moves onto a vertex or an edge.
    chord
        Largest distance between a true arc and the chords that stand for it.
    step
        Plan run of the face that stands for a vertical step.
    join
        Borders of neighbouring zones nearer than this are meant to be one.
    plane
        Allowed vertical distance from a plane, as a share of the extent.
    """

    snap: float = SNAP_METRES
    chord: float = 1e-3
    step: float = 1e-3
    plane: float = 1e-9
    join: float = SNAP_METRES

    @property
    def node_grid(self) -> float:
        """Grid on which borders are noded; coarser than ``snap`` so that snapping settles."""
        return 2.5 * self.snap

    @property
    def hairline(self) -> float:
        """Width of what rounding leaves between borders that are meant to be one."""
        return 0.01 * self.snap

    @classmethod
    def for_unit(cls, metres: float, **changes: float) -> "Tolerance":
        """Return the tolerances for a plan unit of that many metres.

        ``snap`` and ``join`` are the same length on the ground in every unit; ``step`` is
        0.001 of the unit itself and ``chord`` 1 mm (0.003 ft).
        """
        snap = SNAP_METRES / metres
        values = {"snap": snap, "join": snap, "chord": 1e-3 / metres, "step": 1e-3}
        return cls(**{**values, **changes})
