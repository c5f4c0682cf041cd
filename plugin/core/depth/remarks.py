"""What a depth surface has to say about its input and about itself."""

import numpy as np
import shapely
from numpy.typing import NDArray

from ..findings import Finding
from ..text import translate
from ..tin import Tin
from ..tin.cut import CutTin
from ..tin.cut.remarks import of_cut
from ..tolerance import Tolerance
from .steps import Standing
from .zones import Zones, snapped

Floats = NDArray[np.float64]

Place = tuple[float, float]


def remarks(
    tin: Tin,
    ground: Tin,
    cut: CutTin,
    zones: Zones,
    stood: Standing,
    origin: Floats,
    tolerance: Tolerance,
) -> list[Finding]:
    """Return the findings of a run.

    Their codes: ``covered`` another zone takes all of it; ``off_design`` and ``beyond`` a zone
    lies wholly or partly off the design; ``snapped`` borders of neighbours were drawn together;
    ``gap`` slits between zones were closed;
    ``narrow_step`` steps had to be narrower than asked for; ``crowded_edge`` and ``upright``
    are about the design itself; ``unsure`` the cut may be wrong there.
    """
    areas = np.bincount(cut.zone + 1, cut.tin.plan_areas, len(zones) + 1)[1:].astype(np.float64)
    found = snapped(zones) + _of_zones(zones, areas, tolerance)
    if len(stood.narrow):
        x, y = stood.narrow[0] + origin
        found.append(
            Finding(
                "narrow_step",
                translate(
                    "Core",
                    "At {count} short stretches, the first near {x:.3f}, {y:.3f}, the step between depths had to run less than {run:g} in plan (least {least:.2g}), because faces of the design are small there.",
                ).format(
                    count=len(stood.narrow),
                    x=x,
                    y=y,
                    run=tolerance.step,
                    least=stood.least_run,
                ),
                (float(x), float(y)),
            )
        )
    return found + _of_design(tin) + of_cut(ground, cut)


def carried_on(surface: Tin, carried: NDArray[np.bool_], distance: float) -> list[Finding]:
    """Return what is to be said of a surface that runs past the edge of the design."""
    if not carried.any():
        return []
    first = _middle(surface.vertices[surface.faces[carried.argmax()]])
    why = translate(
        "Core",
        "The design was carried on with its slope by up to {distance:.4g} past its edge, below {area:.4g} square units of the result, first near {x:.3f}, {y:.3f}: check that its slope does go on there.",
    ).format(
        distance=distance,
        area=surface.plan_areas[carried].sum(),
        x=first[0],
        y=first[1],
    )
    return [Finding("carried", why, first)]


def _of_zones(zones: Zones, areas: Floats, tolerance: Tolerance) -> list[Finding]:
    found = []
    for row, (polygon, identifier) in enumerate(zip(zones.polygons, zones.ids, strict=True)):
        if polygon.is_empty:
            why = translate(
                "Core",
                "Zone {zone} has no effect: zones with a lower priority number, or deeper ones whose bottoms carry on, take all of it.",
            ).format(zone=identifier)
            found.append(Finding("covered", why, None, int(identifier)))
            continue
        on = areas[row]
        off = polygon.area - on
        if on > 0.0 and off <= polygon.length * tolerance.node_grid:
            continue
        spot = shapely.point_on_surface(polygon)
        place = (spot.x, spot.y)
        if on <= 0.0:
            why = translate(
                "Core",
                "Zone {zone} lies wholly off the design: nothing was lowered for it.",
            ).format(zone=identifier)
            found.append(Finding("off_design", why, place, int(identifier)))
        else:
            why = translate(
                "Core",
                "Zone {zone} runs past the design: {off:.4g} of its {area:.4g} square units have no design and no result.",
            ).format(zone=identifier, off=off, area=polygon.area)
            found.append(Finding("beyond", why, place, int(identifier)))
    return found


def _of_design(tin: Tin) -> list[Finding]:
    found = []
    edges = tin.edges
    if len(edges.nonmanifold):
        place = _middle(tin.vertices[edges.ends[edges.nonmanifold[0]]])
        why = translate(
            "Core",
            "At {count} edges of the design, the first near {x:.3f}, {y:.3f}, more than two faces meet: the surface is not single there, check the design.",
        ).format(count=len(edges.nonmanifold), x=place[0], y=place[1])
        found.append(Finding("crowded_edge", why, place))
    upright = np.flatnonzero(tin.without_plan_area)
    if len(upright):
        place = _middle(tin.vertices[tin.faces[upright[0]]])
        why = translate(
            "Core",
            "{count} faces of the design, the first near {x:.3f}, {y:.3f}, are upright or have no area: they were kept, and belong to the zone of a neighbour.",
        ).format(count=len(upright), x=place[0], y=place[1])
        found.append(Finding("upright", why, place))
    return found


def _middle(corners: Floats) -> Place:
    x, y = corners[:, :2].mean(axis=0)
    return float(x), float(y)
