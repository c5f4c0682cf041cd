"""Figures and rows of a depth surface, as its algorithm hands them out."""

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray
from qgis.core import QgsGeometry

from ..core.depth.patchwork import Part
from ..core.depth.surface import DepthSurface
from ..core.depth.zones import Outside, Zones
from ..core.text import translate
from ..layers.polygons import tin_features

Floats = NDArray[np.float64]

COLUMNS = (
    ("zone", int),
    ("name", str),
    ("depth", float),
    ("depth_min", float),
    ("depth_max", float),
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
        "AREA_BOTTOM": float(quantities.bottom_areas[:-1].sum()),
        "AREA_BATTER": float(quantities.batter_areas.sum()),
        "AREA_CARRIED": surface.carried_area,
        "VOLUME_BELOW": float(quantities.cuts.sum()),
        "VOLUME_ABOVE": float(quantities.fills.sum()),
        "LARGEST_MOVE": surface.largest_move,
        "LEAST_RUN": surface.least_run if np.isfinite(surface.least_run) else None,
        "LARGEST_RESIDUAL": surface.largest_residual,
        "FLAG_COUNT": len(surface.findings),
    }


def depths_of_faces(surface: DepthSurface, zones: Zones, outside: Outside, depth: float) -> Floats:
    """Return mean, least and greatest plumb depth of each face, (m, 3) float.

    Bottoms that lie plumb below the design have the depth of their zone to the last digit.
    """
    corners = surface.depths[surface.tin.faces]
    depths = np.column_stack((corners.mean(axis=1), corners.min(axis=1), corners.max(axis=1)))
    elsewhere = depth if outside is Outside.USE_DEPTH else 0.0
    plumb = np.append(zones.squares, 0.0)[surface.zone] == 0
    flat = plumb & np.isin(surface.part, (Part.BOTTOM, Part.DESIGN))
    depths[flat] = np.append(zones.depths, elsewhere)[surface.zone[flat], None]
    return depths


def face_rows(
    surface: DepthSurface, zones: Zones, names: Sequence[str], depths: Floats
) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield geometry and attributes of each face, in the order of `COLUMNS`."""
    reasons = _reasons()
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
        yield (
            geometry,
            [ids[zone], called[zone], *depth, words[part], parent + 1, flag or None, why],
        )


def _reasons() -> dict[str, str]:
    """Return the sentence of each flag of a face."""
    return {
        "narrow_step": translate(
            "DepthTin",
            "The step had to run less than asked for, because the face of the design is small.",
        ),
        "unsure": translate(
            "DepthTin",
            "Zone borders contradict each other here: check the depth, and whether faces of the design overlap.",
        ),
        "carried": translate(
            "DepthTin",
            "There is no design here: its slope was carried on from the edge.",
        ),
        "off_thickness": translate(
            "DepthTin",
            "The thickness square to the slope is not kept at a corner of this face: more planes meet there than one point can serve, or faces would have folded over.",
        ),
    }
