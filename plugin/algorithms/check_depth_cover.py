"""The cover over lines with heights, from a line layer to outcomes."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingFeedback,
)

from ..core.lines.bundle import Lines
from ..core.lines.drape import draped
from ..core.measure.cover import cover_over
from ..core.measure.depth import SLACK_METRES
from ..core.progress import Progress
from ..core.tolerance import Tolerance
from ..documents.depth_check_words import LineOutcome
from ..layers.crs import JobUnits
from ..layers.lines import LineTable, read_lines
from ..layers.sampling import sampler
from ..layers.surfaces import Surface
from ..layers.tables import column_texts, usual_field
from .drape_lines import bends_of

if TYPE_CHECKING:
    from .check_depth import CheckDepth


@dataclass(frozen=True)
class CoverLines:
    """Lines that need cover: name of the layer, the lines, their names, the cover asked for."""

    layer: str
    table: LineTable
    names: list[str]
    asked: float


def read_cover_lines(
    algorithm: "CheckDepth",
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
    crs: QgsCoordinateReferenceSystem,
    job: JobUnits,
    asked: float,
) -> CoverLines | None:
    """Read the lines; None where none are given."""
    source = algorithm.source(parameters, algorithm.LINES, context)
    if source is None:
        return None
    name = usual_field(source, "name")
    table = read_lines(
        source,
        [name] if name else [],
        crs=crs,
        context=context,
        feedback=feedback,
        chord=1e-3 / job.plan.metres,
    )
    texts = column_texts(table.columns[name]) if name else [""] * len(table)
    names = [text or str(one) for text, one in zip(texts, table.ids.tolist(), strict=True)]
    return CoverLines(source.sourceName(), table, names, asked)


def check_cover(
    given: CoverLines, design: Surface, job: JobUnits, progress: Progress
) -> list[LineOutcome]:
    """Return the least cover over each line, exact where the design is a TIN."""
    snap = Tolerance.for_unit(job.plan.metres).snap
    lines = Lines.from_arrays(given.table.coordinates, snap)
    places = bends_of(lines, design.data, snap)
    progress(0.5)
    surface, origin, along = draped(lines, places, sampler(design.data))
    cover = cover_over(lines, origin, along, surface, given.asked)
    slack = SLACK_METRES / job.vertical.metres
    return [
        LineOutcome(
            name,
            int(given.table.ids[k]),
            float(given.asked),
            float(cover.least[k]),
            float(cover.station[k]),
            cover.xyz[k],
            float(cover.length[k]),
            float(cover.lacking[k]),
            float(cover.unknown[k]),
            slack,
        )
        for k, name in enumerate(given.names)
    ]
