"""How a surface is carried on."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray


class Rule(StrEnum):
    """Which slope a strip has beyond the edge it begins at."""

    CARRY = "carry"
    GRADE = "grade"
    LEVEL = "level"


@dataclass(frozen=True, eq=False)
class Pick:
    """Lines that say which edges are carried on.

    Parameters
    ----------
    lines : (k,) shapely LineString
        Lines in plan.
    distance : float
        An edge runs along a line when no point of it lies farther off.
    """

    lines: NDArray[np.object_]
    distance: float
