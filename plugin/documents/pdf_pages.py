"""Drawings on the pages of a PDF file."""

from collections.abc import Sequence
from pathlib import Path

from qgis.PyQt.QtCore import QMarginsF, QPointF, QSizeF, Qt
from qgis.PyQt.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontMetricsF,
    QPageLayout,
    QPageSize,
    QPainter,
    QPdfWriter,
    QPen,
    QPolygonF,
)

from ..core.errors import UndercourseError
from ..core.progress import Progress, silent
from ..core.text import translate
from ..layers.ply import replacing
from .drawing import FONTS, Area, Drawing, Label, Shape

LETTER, A4 = (612.0, 792.0), (595.276, 841.89)
"""Width and height of a page upright, points."""
_DOTS = 1200
_POINT = _DOTS / 72.0


def write_pdf(
    path: str | Path, title: str, pages: Sequence[Drawing], progress: Progress = silent
) -> None:
    """Write drawings as the pages of a file; an older file stays until the new one is complete.

    Raises
    ------
    UndercourseError
        The file cannot be written.
    """
    with replacing(path) as partial:
        writer = QPdfWriter(str(partial))
        writer.setResolution(_DOTS)
        writer.setTitle(title)
        writer.setCreator("Undercourse")
        _set_page(writer, pages[0])
        painter = QPainter()
        if not painter.begin(writer):
            raise UndercourseError(
                translate("Report", "“{path}” cannot be written.").format(path=path)
            )
        try:
            for number, page in enumerate(pages):
                progress(number / len(pages))
                if number:
                    _set_page(writer, page)
                    writer.newPage()
                for shape in page.shapes:
                    _paint(painter, shape)
        finally:
            painter.end()


def _set_page(writer: QPdfWriter, page: Drawing) -> None:
    size = QPageSize(QSizeF(page.width, page.height), QPageSize.Unit.Point)
    upright = QPageLayout.Orientation.Portrait
    writer.setPageLayout(QPageLayout(size, upright, QMarginsF(0, 0, 0, 0)))


def _paint(painter: QPainter, shape: Shape) -> None:
    if isinstance(shape, Label):
        _write(painter, shape)
        return
    points = QPolygonF([QPointF(x * _POINT, y * _POINT) for x, y in shape.points])
    if isinstance(shape, Area):
        painter.setBrush(QBrush(QColor(shape.fill)))
        pen = QPen(Qt.PenStyle.NoPen)
        if shape.edge:
            pen = QPen(QColor(shape.edge), 0.4 * _POINT)
        painter.setPen(pen)
        painter.drawPolygon(points)
        return
    pen = QPen(QColor(shape.colour), shape.width * _POINT)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if shape.dash:
        # In widths of the pen.
        pen.setDashPattern([length / shape.width for length in shape.dash])
    painter.setBrush(QBrush(Qt.BrushStyle.NoBrush))
    painter.setPen(pen)
    painter.drawPolyline(points)


def _write(painter: QPainter, label: Label) -> None:
    font = QFont()
    font.setFamilies(list(FONTS))
    font.setStyleHint(QFont.StyleHint.SansSerif)
    font.setPixelSize(max(round(label.size * _POINT), 1))
    font.setBold(label.bold)
    painter.setFont(font)
    painter.setPen(QPen(QColor(label.colour)))
    width = QFontMetricsF(font, painter.device()).horizontalAdvance(label.text)
    shift = {"start": 0.0, "middle": -width / 2.0, "end": -width}[label.anchor]
    painter.save()
    painter.translate(label.x * _POINT, label.y * _POINT)
    if label.upward:
        painter.rotate(-90.0)
    painter.drawText(QPointF(shift, 0.0), label.text)
    painter.restore()
