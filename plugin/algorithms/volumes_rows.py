"""Volumes as rows of layers and tables, as numbers and in the log."""

from collections.abc import Iterator
from typing import Any

import numpy as np
import shapely
from qgis.core import QgsGeometry

from ..core.measure.classes import Classes, Sums
from ..core.text import translate
from ..core.tin.overlay import Figures
from ..core.units import METRE
from ..documents.volumes_report import Parts
from ..layers.polygons import polygon_geometry

CELL_COLUMNS = (
    ("zone_id", int),
    ("zone", str),
    ("kind", str),
    ("diff_from", float),
    ("diff_to", float),
    ("area", float),
    ("volume", float),
    ("volume_yd3", float),
    ("volume_m3", float),
)
SUMMARY_COLUMNS = (
    ("row", str),
    ("zone_id", int),
    ("zone", str),
    ("area", float),
    ("area_zone", float),
    ("area_no_data", float),
    ("no_data_share", float),
    ("area_cut", float),
    ("area_fill", float),
    ("area_level", float),
    ("diff_min", float),
    ("diff_mean", float),
    ("diff_max", float),
    ("cut_yd3", float),
    ("fill_yd3", float),
    ("net_yd3", float),
    ("cut_m3", float),
    ("fill_m3", float),
    ("net_m3", float),
    ("cut_loose_yd3", float),
    ("fill_bank_yd3", float),
    ("balance_bank_yd3", float),
    ("cut_loose_m3", float),
    ("fill_bank_m3", float),
    ("balance_bank_m3", float),
    ("flag", str),
    ("why", str),
)
KINDS = ("fill", "cut", "level")
"""Words of the classes by sign."""


def cubic_factors(parts: Parts) -> tuple[float, float]:
    """Return cubic yards and cubic metres in one cubic plan unit."""
    plan = parts.units.plan
    return plan.to(plan.foot) ** 3 / 27.0, plan.to(METRE) ** 3


def numbers(parts: Parts) -> dict[str, float]:
    """Return the numbers of the run, areas and volumes in plan units unless named otherwise."""
    total, share = parts.volumes.total, parts.volumes.missing_share
    yards, metres = cubic_factors(parts)
    cut, fill = float(total.cut[0]), float(total.fill[0])
    level = float(total.area_level[0])
    return {
        "CUT": cut,
        "FILL": fill,
        "NET": cut - fill,
        "CUT_YD3": cut * yards,
        "FILL_YD3": fill * yards,
        "CUT_M3": cut * metres,
        "FILL_M3": fill * metres,
        "AREA": float(total.area[0]),
        "CUT_AREA": float(total.area_above[0]),
        "FILL_AREA": float(total.area_below[0]),
        "LEVEL_AREA": level if level > 1e-9 * float(total.area[0]) else 0.0,
        "NO_DATA_SHARE": 100 * share if np.isfinite(share) else 0.0,
    }


def number_labels() -> dict[str, str]:
    """Return what the numbers are called."""
    return {
        "CUT": translate("VolumesBetween", "Cut, cubic plan units"),
        "FILL": translate("VolumesBetween", "Fill, cubic plan units"),
        "NET": translate("VolumesBetween", "Cut less fill, cubic plan units"),
        "CUT_YD3": translate("VolumesBetween", "Cut, yd³"),
        "FILL_YD3": translate("VolumesBetween", "Fill, yd³"),
        "CUT_M3": translate("VolumesBetween", "Cut, m³"),
        "FILL_M3": translate("VolumesBetween", "Fill, m³"),
        "AREA": translate("VolumesBetween", "Area that both surfaces cover, square plan units"),
        "CUT_AREA": translate("VolumesBetween", "Area of cut, square plan units"),
        "FILL_AREA": translate("VolumesBetween", "Area of fill, square plan units"),
        "LEVEL_AREA": translate("VolumesBetween", "Area without difference, square plan units"),
        "NO_DATA_SHARE": translate("VolumesBetween", "Share of the zones without data, percent"),
    }


def cell_rows(
    parts: Parts, ids: list[int], sums: Sums, shapes: np.ndarray, classes: Classes
) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield geometry and attributes of each zone and class, in the order of `CELL_COLUMNS`."""
    yards, metres = cubic_factors(parts)
    names = parts.names.of_zones
    limits = np.concatenate(([-np.inf], classes.edges, [np.inf]))
    for row, number in zip(*np.nonzero(sums.area > 0), strict=True):
        shape = shapes[row, number]
        if shape is None:
            continue
        zone = row < len(names)
        volume = float(sums.volume[row, number]) * parts.z_scale
        if classes.level:
            kind = KINDS[number]
            low, high = float(sums.least[row, number]), float(sums.most[row, number])
        else:
            low, high = float(limits[number]), float(limits[number + 1])
            kind = KINDS[1 if low >= -classes.slack else 0]
        yield (
            polygon_geometry(shapely.multipolygons(shapely.get_parts(shape))),
            [
                ids[row] if zone else None,
                names[row] if zone else None,
                kind,
                low,
                high,
                float(sums.area[row, number]),
                volume,
                volume * yards,
                volume * metres,
            ],
        )


def summary_rows(parts: Parts, ids: list[int]) -> Iterator[tuple[None, list[Any]]]:
    """Yield the attributes of each zone, the total, and what lies outside the zones."""
    volumes, names = parts.volumes, parts.names.of_zones
    zones = len(names)
    each = np.arange(zones + 1)
    for row in range(zones):
        only = volumes.figures.gathered(np.where(each == row, 0, -1), 1)
        whole, missing = float(volumes.zone_areas[row]), float(volumes.missing[row])
        yield None, ["zone", ids[row], names[row], *_figures(parts, only, whole, missing)]
    whole = float(volumes.zone_areas.sum()) if zones else None
    missing = float(volumes.missing.sum()) if zones else None
    yield None, ["total", None, None, *_figures(parts, volumes.total, whole, missing)]
    rest = volumes.figures.gathered(np.where(each == zones, 0, -1), 1)
    if zones and rest.area[0] > 0:
        yield None, ["outside", None, None, *_figures(parts, rest, None, None)]


def _figures(parts: Parts, one: Figures, whole: float | None, missing: float | None) -> list[Any]:
    area, net = float(one.area[0]), float(one.net[0])
    cut, fill = float(one.cut[0]), float(one.fill[0])
    factors = parts.factors
    soil = factors.loose_of_cut(cut), factors.bank_for_fill(fill), factors.balance(cut, fill)
    volumes = []
    for factor in cubic_factors(parts):
        volumes += [cut * factor, fill * factor, net * factor]
    for factor in cubic_factors(parts):
        volumes += [float(value) * factor for value in soil]
    share = missing / whole if whole else None
    flag = why = None
    if share:
        flag = "no_data"
        why = translate(
            "VolumesBetween",
            "{share:.1f} % lacks one of the surfaces and is not in the figures.",
        ).format(share=100 * share)
    return [
        area,
        whole,
        missing,
        None if share is None else 100 * share,
        float(one.area_above[0]),
        float(one.area_below[0]),
        float(one.area_level[0]),
        float(one.least[0]) if area else None,
        net / area / parts.z_scale if area else None,
        float(one.most[0]) if area else None,
        *volumes,
        flag,
        why,
    ]
