"""Findings about a design as rows with attributes, and the figures of a run."""

from collections.abc import Iterator
from typing import Any

import numpy as np
from qgis.core import QgsGeometry

from ..core.measure.issues import CODES, Issue, Issues, Weight, code_title, what_to_do
from ..layers.lines import point_geometry
from ..layers.polygons import polygon_geometry

COLUMNS = (
    ("number", int),
    ("flag", str),
    ("what", str),
    ("weight", str),
    ("why", str),
    ("what_to_do", str),
    ("feature", int),
    ("area", float),
    ("volume", float),
    ("height", float),
    ("level", float),
)

Row = tuple[QgsGeometry, list[Any]]


def attributes(number: int, issue: Issue) -> list[Any]:
    """Return the attributes of an issue, in the order of `COLUMNS`."""
    return [
        number,
        issue.code,
        code_title(issue.code),
        str(issue.weight),
        issue.why,
        what_to_do(issue.code, issue.weight),
        issue.feature,
        issue.area,
        issue.volume,
        issue.height,
        issue.level,
    ]


def points(listed: list[Issue]) -> Iterator[Row]:
    """Yield a point and attributes for each issue."""
    for number, issue in enumerate(listed, 1):
        place = QgsGeometry() if issue.place is None else point_geometry(np.array(issue.place))
        yield place, attributes(number, issue)


def areas(listed: list[Issue]) -> Iterator[Row]:
    """Yield the extent and attributes of each issue that has one."""
    for number, issue in enumerate(listed, 1):
        if issue.extent is not None and not issue.extent.is_empty:
            yield polygon_geometry(issue.extent), attributes(number, issue)


def figures(issues: Issues, unzoned: float) -> dict[str, Any]:
    """Return the numeric results; notes are counted for codes that are nothing else."""
    errors = issues.of_weight(Weight.ERROR)
    checks = issues.of_weight(Weight.CHECK)
    numbers: dict[str, Any] = {
        "COUNT": errors + checks,
        "ERROR_COUNT": errors,
        "CHECK_COUNT": checks,
        "NOTE_COUNT": issues.of_weight(Weight.NOTE),
        "POND_AREA": _sum(issues, "pond", "area"),
        "POND_VOLUME": _sum(issues, "pond", "volume"),
        "HOLE_AREA": _sum(issues, "hole", "area"),
        "UNZONED_AREA": unzoned,
    }
    for code in CODES:
        found = issues.count(code, Weight.ERROR, Weight.CHECK)
        note_only = code in ("feet", "unused_vertex")
        numbers[f"{code.upper()}_COUNT"] = issues.count(code) if note_only else found
    return numbers


def _sum(issues: Issues, code: str, amount: str) -> float:
    return sum(
        getattr(one, amount)
        for one in issues.found
        if one.code == code and one.weight is not Weight.NOTE
    )
