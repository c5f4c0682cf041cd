"""What a cut has to say about the borders it was given."""

import numpy as np

from ...findings import Finding
from ...text import translate
from ..mesh import Tin
from .result import CutTin


def of_cut(ground: Tin, cut: CutTin) -> list[Finding]:
    """Return the findings of a cut: ``gap`` slits were closed, ``unsure`` it may be wrong there.

    Parameters
    ----------
    ground : Tin
        The surface that was cut.
    cut : CutTin
        What came of it.
    """
    found = []
    if cut.closed_gaps:
        why = translate(
            "Core",
            "{count} slits between zones, at most {width:.2g} wide, were given to a zone beside them: let the zones share their borders.",
        ).format(count=cut.closed_gaps, width=cut.widest_gap)
        found.append(Finding("gap", why))
    unsure = np.concatenate((cut.loose, cut.parent[cut.doubtful]))
    if len(unsure):
        x, y = ground.vertices[ground.faces[unsure[0]], :2].mean(axis=0).tolist()
        why = translate(
            "Core",
            "In {count} faces of the design, the first near {x:.3f}, {y:.3f}, zone borders contradict each other: check the result there, and whether faces of the design overlap.",
        ).format(count=len(unsure), x=x, y=y)
        found.append(Finding("unsure", why, (x, y)))
    return found
