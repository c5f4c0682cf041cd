"""Tables as CSV files: UTF-8, a header, numbers with a dot, complete or not there at all."""

import csv
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from ..core.errors import UndercourseError
from ..core.progress import Progress, silent
from ..core.text import translate
from .ply import replacing
from .sinks import plain


def with_units(names: Iterable[str], units: Mapping[str, str]) -> list[str]:
    """Return the names of columns, those of numbers with their unit behind."""
    return [f"{name}_{units[name]}" if name in units else name for name in names]


def write_csv(
    path: str | Path,
    head: Sequence[str],
    rows: Iterable[Sequence[Any]],
    total: int = 0,
    progress: Progress = silent,
) -> None:
    """Write a table; an older file stays until the new one is complete.

    Parameters
    ----------
    path
        The file.
    head
        Names of the columns; those of numbers name their unit.
    rows
        Values; what is missing (None, NaN) becomes an empty cell.
    total
        Number of rows, for the progress.
    progress
        Told the share done.

    Raises
    ------
    UndercourseError
        The file cannot be written.
    """
    try:
        with replacing(path) as partial, partial.open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(head)
            for number, row in enumerate(rows):
                if total and number % 1000 == 0:
                    progress(number / total)
                writer.writerow([_cell(value) for value in row])
    except OSError as error:
        raise UndercourseError(
            translate("Layers", "“{name}” cannot be written: {why}.").format(
                name=path, why=error.strerror or error
            )
        ) from error


def _cell(value: Any) -> Any:
    value = plain(value)
    if isinstance(value, float):
        return f"{round(value, 6) + 0.0:.6f}".rstrip("0").rstrip(".")  # no -0
    return "" if not isinstance(value, (str, int)) else value
