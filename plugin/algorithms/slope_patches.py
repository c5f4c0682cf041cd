"""Patches of one slope as features."""

from collections.abc import Iterator
from typing import Any

import numpy as np
import shapely
from qgis.core import QgsGeometry

from ..core.breaks import Patches
from ..core.breaks.outlines import outlines
from ..core.lines.direction import bearing_of
from ..core.tin import Tin
from ..layers.polygons import polygon_geometry

PATCH_COLUMNS = (
    ("patch", int),
    ("grade", float),
    ("fall_bearing", float),
    ("area", float),
    ("residual", float),
    ("faces", int),
)


def patch_rows(
    tin: Tin, patches: Patches, points: np.ndarray, z_scale: float
) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield geometry and attributes of each patch, in the order of `PATCH_COLUMNS`."""
    gradients, areas = patches.fits.gradients, patches.areas(tin)
    grade = np.hypot(gradients[:, 0], gradients[:, 1])
    # Downhill is against the gradient; a level patch falls nowhere.
    bearing = np.where(grade > 1e-9, bearing_of(-gradients), np.nan)
    faces = np.bincount(patches.of_face, minlength=len(patches))
    for n, shape in enumerate(outlines(tin, patches, points)):
        if shape is None:
            continue
        parts = shape if shape.geom_type == "MultiPolygon" else shapely.multipolygons([shape])
        yield (
            polygon_geometry(parts),
            [
                n,
                100.0 * float(grade[n]),
                float(bearing[n]),
                float(areas[n]),
                float(patches.fits.residual[n]) / z_scale,
                int(faces[n]),
            ],
        )
