"""Figures and rows of a depth surface, as its algorithm hands them out."""

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from qgis.core import QgsGeometry

from ..core.depth.patchwork import Part
from ..core.depth.surface import DepthSurface
from ..core.depth.zones import Outside, Zones
from ..core.text import translate
from ..layers.polygons import tin_features

COLUMNS = (
    ("zone", int),
    ("name", str),
    ("depth", float),
    ("part", str),
    ("parent", int),
    ("flag", str),
    ("why", str),
)


def figures(surface: DepthSurface, zones: int) -> dict[str, Any]:
    """Return the numeric results, in plan units."""
    quantities = surface.quantities
    return {
        "ZONE_COUNT": zones,
        "FACE_COUNT": len(surface.zone),
        "PLAN_AREA": float(quantities.plan_areas[:-1].sum()),
        "SLOPED_AREA": float(quantities.sloped_areas[:-1].sum()),
        "VOLUME_BELOW": float(quantities.cuts.sum()),
        "VOLUME_ABOVE": float(quantities.fills.sum()),
        "LARGEST_MOVE": surface.largest_move,
        "LEAST_RUN": surface.least_run if np.isfinite(surface.least_run) else None,
        "FLAG_COUNT": len(surface.findings),
    }


def depth_of_faces(
    surface: DepthSurface, zones: Zones, outside: Outside, depth: float
) -> np.ndarray:
    """Return the depth of each face: of its zone, or the mean of its corners on a step."""
    elsewhere = depth if outside is Outside.USE_DEPTH else 0.0
    depths = np.append(zones.depths, elsewhere)[surface.zone]
    step = surface.part == Part.STEP
    depths[step] = surface.depths[surface.tin.faces[step]].mean(axis=1)
    return depths


def face_rows(
    surface: DepthSurface, zones: Zones, names: Sequence[str], depths: np.ndarray
) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield geometry and attributes of each face, in the order of `COLUMNS`."""
    reasons = {
        "narrow_step": translate(
            "DepthTin",
            "The step had to run less than asked for, because the face of the design is small.",
        ),
        "unsure": translate(
            "DepthTin",
            "Zone borders contradict each other here: check the depth, and whether faces of the design overlap.",
        ),
    }
    ids = [int(identifier) for identifier in zones.ids] + [None]
    called = [name or None for name in names] + [None]
    words = {int(part): part.name.lower() for part in Part}
    columns = zip(
        tin_features(surface.tin),
        surface.zone.tolist(),
        depths.tolist(),
        surface.part.tolist(),
        surface.parent.tolist(),
        surface.flags.tolist(),
        strict=True,
    )
    for geometry, zone, depth, part, parent, flag in columns:
        why = reasons.get(flag)
        yield geometry, [ids[zone], called[zone], depth, words[part], parent + 1, flag or None, why]
