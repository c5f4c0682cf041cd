"""Surfaces and zones as cross sections take them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingFeatureSource,
    QgsProcessingFeedback,
)

from ..core.errors import UndercourseError
from ..core.text import translate
from ..core.units import LinearUnit
from ..layers.crs import require_same_crs
from ..layers.polygons import read_polygons
from ..layers.surfaces import Surface, read_surface
from ..layers.tables import column_texts, usual_field
from .base import UndercourseAlgorithm


@dataclass(frozen=True)
class Stack:
    """The surfaces of a run.

    Parameters
    ----------
    surfaces
        In the order of the plots.
    names
        What they are called, each name once.
    upper, lower
        Numbers of the two between which areas are measured; None where there is one surface.
    """

    surfaces: list[Surface]
    names: list[str]
    upper: int | None
    lower: int | None


def read_stack(
    algorithm: UndercourseAlgorithm,
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
    crs: QgsCoordinateReferenceSystem,
    ids: tuple[str, str, str],
) -> Stack:
    """Read the surfaces, and tell which are the upper and the lower one.

    Parameters
    ----------
    algorithm, parameters, context, feedback
        Of the run.
    crs
        CRS of the lines.
    ids
        Parameters of all surfaces, of the upper and of the lower one.

    Raises
    ------
    UndercourseError
        A layer holds no surface or is in another CRS, or upper and lower are the same.
    """
    layers = algorithm.parameterAsLayerList(parameters, ids[0], context)
    chosen: list[int | None] = []
    for name in ids[1:]:
        layer = algorithm.parameterAsLayer(parameters, name, context)
        if layer is None:
            if not algorithm.is_blank(parameters, name):
                raise algorithm.cannot_open(parameters, name)
            chosen.append(None)
            continue
        known = [k for k, one in enumerate(layers) if _same(one, layer)]
        if not known:
            layers.append(layer)
        chosen.append(known[0] if known else len(layers) - 1)
    surfaces = []
    for layer in layers:
        require_same_crs(crs, layer.crs(), layer.name())
        surfaces.append(Surface(layer.name(), layer.crs(), read_surface(layer, feedback)))
    upper, lower = chosen
    others = range(len(surfaces))
    if upper is None:
        upper = next((k for k in others if k != lower), None)
    if lower is None:
        lower = next((k for k in others if k != upper), None)
    if upper == lower and len(surfaces) > 1:
        raise UndercourseError(
            translate(
                "CrossSections",
                "The upper and the lower surface are the same layer: choose two, or leave one of them blank.",
            )
        )
    return Stack(surfaces, _distinct([one.name for one in surfaces]), upper, lower)


def _same(one: Any, other: Any) -> bool:
    return one.id() == other.id() or (one.source() and one.source() == other.source())


def _distinct(names: Sequence[str]) -> list[str]:
    """Return names with a number behind those that come again."""
    found: list[str] = []
    for name in names:
        number, whole = 2, name
        while whole in found:
            whole, number = f"{name} {number}", number + 1
        found.append(whole)
    return found


@dataclass(frozen=True)
class NamedZones:
    """Zones, and what they are called."""

    polygons: np.ndarray
    names: list[str]


def read_named_zones(
    source: QgsProcessingFeatureSource | None,
    field: str,
    crs: QgsCoordinateReferenceSystem,
    unit: LinearUnit,
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
) -> NamedZones | None:
    """Read zones in the CRS of the job; None where there are none."""
    if source is None:
        return None
    name = field or usual_field(source, "name")
    table = read_polygons(
        source,
        [name] if name else [],
        crs=crs,
        context=context,
        feedback=feedback,
        chord=1e-3 / unit.metres,
        name=translate("CrossSections", "Zones"),
    )
    if not len(table):
        return None
    given = column_texts(table.columns[name]) if name else [""] * len(table)
    other = translate("CrossSections", "zone {id}")
    names = [text or other.format(id=one) for text, one in zip(given, table.ids, strict=True)]
    return NamedZones(table.polygons, names)
