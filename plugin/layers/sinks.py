"""Results written feature by feature, with every failure noticed."""

from collections.abc import Iterable, Sequence
from pathlib import Path
from types import TracebackType
from typing import Any, Self

import numpy as np
from qgis.core import NULL, QgsFeature, QgsFeatureSink, QgsFields, QgsGeometry

from ..core.errors import UndercourseError
from ..core.progress import Progress, silent
from ..core.text import translate

_BATCH = 2000


class Sink:
    """A feature sink of a run: ``with`` it, add, and it is flushed and closed.

    Parameters
    ----------
    sink
        The host's sink; it is let go at the end, which closes the file.
    identifier
        What the host calls the destination; it goes in the results of the run.
    fields
        Fields in the order in which attributes are given.
    name
        What the user calls the output.
    """

    def __init__(self, sink: QgsFeatureSink, identifier: str, fields: QgsFields, name: str) -> None:
        self._sink: QgsFeatureSink | None = sink
        self.id = identifier
        self.fields = fields
        self.count = 0
        self._name = name
        self._waiting: list[QgsFeature] = []

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        try:
            if kind is None:
                self.close()
        except UndercourseError:
            self._discard()
            raise
        if kind is not None:
            self._discard()

    def _discard(self) -> None:
        """Leave no half-written file behind; tables of a database are left alone."""
        self._waiting.clear()
        self._sink = None
        path = Path(self.id)
        if path.is_file():
            kin = (".shx", ".dbf", ".prj", ".cpg", ".qpj") if path.suffix == ".shp" else ()
            for file in (path, *(path.with_suffix(suffix) for suffix in kin)):
                file.unlink(missing_ok=True)

    def add(self, geometry: QgsGeometry | None, attributes: Sequence[Any] = ()) -> None:
        """Add one feature; None, NaN and numpy scalars are turned into what fields take."""
        feature = QgsFeature(self.fields)
        if geometry is not None:
            feature.setGeometry(geometry)
        feature.setAttributes([plain(value) for value in attributes])
        self._waiting.append(feature)
        self.count += 1
        if len(self._waiting) >= _BATCH:
            self._write()

    def add_many(
        self,
        rows: Iterable[tuple[QgsGeometry | None, Sequence[Any]]],
        total: int = 0,
        progress: Progress = silent,
    ) -> None:
        """Add rows of (geometry, attributes); ``total`` serves the progress."""
        for number, (geometry, attributes) in enumerate(rows):
            if total and number % 500 == 0:
                progress(number / total)
            self.add(geometry, attributes)

    def close(self) -> None:
        """Write what waits and finish the file."""
        self._write()
        # `finalize` came with QGIS 3.42.
        if self._sink is not None and hasattr(self._sink, "finalize"):
            self._sink.finalize()
        self._sink = None

    def _write(self) -> None:
        if not self._waiting or self._sink is None:
            return
        if not self._sink.addFeatures(self._waiting, QgsFeatureSink.Flag.FastInsert):
            raise UndercourseError(
                translate("Layers", "“{name}” cannot be written: {why}.").format(
                    name=self._name,
                    why=self._sink.lastError() or translate("Layers", "the file takes no features"),
                )
            )
        self._waiting = []


def plain(value: Any) -> Any:
    """Return a value as attributes hold it: no numpy scalar, no NaN."""
    if isinstance(value, np.generic):
        value = value.item()
    if value is None or (isinstance(value, float) and not np.isfinite(value)):
        return NULL
    return value
