"""Points, breaklines and boundary as `build_tin` reads them."""

from functools import reduce

import numpy as np
import shapely
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingFeatureSource,
    QgsProcessingFeedback,
)

from ..core.errors import LineError, UndercourseError
from ..core.text import translate
from ..core.tin.build import Boundary, Breaklines, Points
from ..layers.geometry import read_parts
from ..layers.lines import read_lines, read_points
from ..layers.tables import column_numbers
from ..layers.vectors import Reading


class BuildInputs:
    """Reads the layers of a run into one CRS.

    Parameters
    ----------
    crs
        CRS of the surface.
    chord
        Largest distance between a true arc and the chords that stand for it.
    context, feedback
        Of the run.
    """

    def __init__(
        self,
        crs: QgsCoordinateReferenceSystem,
        chord: float,
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.chord = chord
        self.feedback = feedback
        self._how = {"crs": crs, "context": context, "feedback": feedback}

    def points(
        self, source: QgsProcessingFeatureSource | None, height_field: str, label: str
    ) -> Points:
        """Read the points, their heights from the field if one is named."""
        if source is None:
            return Points()
        names = [height_field] if height_field else []
        table = read_points(source, names, name=label, **self._how)
        xyz = table.coordinates
        if height_field:
            z = column_numbers(table.columns[height_field], table.ids, height_field, np.nan)
        elif xyz.shape[1] < 3:
            raise UndercourseError(
                translate(
                    "BuildTin",
                    "{label}: the points have no heights, choose the field that holds them or a layer of points with Z.",
                ).format(label=label)
            )
        else:
            z = xyz[:, 2]
        if len(z) and not z[np.isfinite(z)].any():
            self._warn_zero(label)
        return Points(np.column_stack((xyz[:, :2], z)), table.ids)

    def breaklines(self, source: QgsProcessingFeatureSource | None, label: str) -> Breaklines:
        """Read the breaklines; heights that are missing, or 0 in the whole layer, are NaN."""
        if source is None:
            return Breaklines()
        table = read_lines(source, chord=self.chord, name=label, **self._how)
        lines = []
        for row, given in enumerate(table.coordinates):
            if not np.isfinite(given[:, :2]).all():
                raise LineError(
                    translate(
                        "BuildTin",
                        "{label}, feature {id}: the line has no finite coordinates, draw it again.",
                    ).format(label=label, id=table.ids[row])
                )
            lines.append(_with_z(given))
        return Breaklines(self._unless_all_zero(lines, label), table.ids)

    def boundary(self, source: QgsProcessingFeatureSource | None, label: str) -> Boundary | None:
        """Read polygons, or closed lines of which those within others are holes."""
        if source is None:
            return None
        reading = Reading(source, (), name=label, judged=True, **self._how)
        shapes, rings, ids = [], [], []
        is_line = False
        for feature in reading.features():
            parts = read_parts(feature.geometry(), self.chord)
            is_line = parts.kind == "line"
            if parts.kind not in {"line", "polygon"}:
                raise reading.refuse(
                    feature.id(), translate("BuildTin", "it is neither a polygon nor a line.")
                )
            for part in parts.rings:
                closed = [self._closed(reading, feature.id(), ring) for ring in part]
                shape = shapely.Polygon(closed[0][:, :2], [ring[:, :2] for ring in closed[1:]])
                if not shape.is_valid:
                    raise reading.refuse(
                        feature.id(),
                        translate(
                            "BuildTin",
                            "its outline crosses or touches itself, repair it.",
                        ),
                    )
                shapes.append(shape)
                rings += [_with_z(ring) if parts.has_z else _flat(ring) for ring in closed]
                ids += [feature.id()] * len(closed)
        reading.finish()
        if not shapes:
            raise UndercourseError(
                translate("BuildTin", "{label}: there is no outline in it.").format(label=label)
            )
        united = (
            reduce(shapely.symmetric_difference, sorted(shapes, key=lambda s: (-s.area, *s.bounds)))
            if is_line
            else shapely.union_all(shapes)
        )
        rings = self._unless_all_zero(rings, label)
        bare = [not np.isfinite(ring[:, 2]).all() for ring in rings]
        if all(bare):
            return Boundary(united)
        if any(bare):
            raise LineError(
                translate(
                    "BuildTin",
                    "{label}, feature {id}: some heights are missing; give all corners of the boundary a height, or none.",
                ).format(label=label, id=ids[bare.index(True)])
            )
        return Boundary(united, rings, np.array(ids, dtype=np.int64))

    def _closed(self, reading: Reading, feature: int, ring: np.ndarray) -> np.ndarray:
        if not np.isfinite(ring[:, :2]).all():
            raise reading.refuse(
                feature, translate("BuildTin", "it has no finite coordinates, draw it again.")
            )
        if len(ring) < 4 or not np.array_equal(ring[0, :2], ring[-1, :2]):
            raise reading.refuse(
                feature,
                translate("BuildTin", "a boundary must be closed: end the line where it starts."),
            )
        return ring

    def _unless_all_zero(self, lines: list[np.ndarray], label: str) -> list[np.ndarray]:
        """Take heights that are all 0 for missing, and say so."""
        heights = np.concatenate([np.empty(0), *(line[:, 2] for line in lines)])
        known = heights[np.isfinite(heights)]
        if not len(known) or known.any():
            return lines
        self._warn_zero(label)
        return [_flat(line) for line in lines]

    def _warn_zero(self, label: str) -> None:
        self.feedback.pushWarning(
            translate(
                "BuildTin",
                "{label}: all heights are 0, they may have been lost when the layer was made. Those of lines and boundaries count as missing.",
            ).format(label=label)
        )


def _with_z(line: np.ndarray) -> np.ndarray:
    return line[:, :3] if line.shape[1] > 2 else _flat(line)


def _flat(line: np.ndarray) -> np.ndarray:
    return np.column_stack((line[:, :2], np.full(len(line), np.nan)))
