"""Breaklines, boundaries, contours and data points of a surface."""

import math

import numpy as np

from ...text import translate
from .model import LineRecord, PointRecord
from .node import Node
from .notes import Notes
from .numbers import attribute_number, read_numbers
from .points import Registry

BREAKLINE_TYPES = frozenset({"standard", "wall", "proximity", "nondestructive"})
BOUNDARY_TYPES = frozenset({"outer", "void", "island"})
POINT_LISTS = {"PntList2D": 2, "PntList3D": 3}

LINE_ELEMENTS = {"Breakline": "breakline", "Boundary": "boundary", "Contour": "contour"}
_TYPES = {"Breakline": ("brkType", BREAKLINE_TYPES), "Boundary": ("bndType", BOUNDARY_TYPES)}


def read_lines(node: Node, surface: str, notes: Notes) -> list[LineRecord]:
    """Return the lines of a ``Breakline``, ``Boundary`` or ``Contour``, one for each point list.

    A boundary is closed if the file leaves it open. A contour takes its height from ``elev``.

    Raises
    ------
    ExchangeError
        A point list cannot be read, or holds too few points for a line.
    """
    kind = LINE_ELEMENTS[node.tag]
    kind_type = _known_type(node, notes)
    code, description = feature_code(node)
    height = attribute_number(node, "elev") if node.tag == "Contour" else None
    lists = [child for child in node.children if child.tag in POINT_LISTS]
    if not lists:
        raise node.place.error(
            translate("Core", "this line holds no point list (PntList2D or PntList3D): add it.")
        )
    records = []
    for child in lists:
        coordinates = read_point_list(child, notes)
        if height is not None and math.isfinite(height) and np.isnan(coordinates[:, 2]).all():
            coordinates[:, 2] = height
        if kind == "boundary" and (coordinates[0, :2] != coordinates[-1, :2]).any():
            coordinates = np.vstack((coordinates, coordinates[:1]))
        if len(coordinates) < 2:
            raise child.place.error(
                translate("Core", "a line needs two points, but here is one: remove the line.")
            )
        records.append(
            LineRecord(
                kind,
                node.get("name"),
                kind_type,
                code,
                description or node.get("desc"),
                surface,
                coordinates,
                node.place.line,
            )
        )
    return records


def read_point_list(node: Node, notes: Notes) -> np.ndarray:
    """Return the points of a ``PntList2D`` or ``PntList3D``, (n, 3); z is NaN for the former.

    Raises
    ------
    ExchangeError
        The numbers do not make up whole points, or there are none.
    """
    dimension = POINT_LISTS[node.tag]
    numbers, commas = read_numbers(node.text, node.place, dimension)
    if not numbers or len(numbers) % dimension:
        raise node.place.error(
            translate(
                "Core",
                "{count} numbers do not make up points of {dimension} each: correct the list.",
            ).format(count=len(numbers), dimension=dimension)
        )
    if commas:
        notes.add(
            "commas",
            node.place.say(
                translate(
                    "Core",
                    "commas stand between the coordinates, where LandXML has blanks; they are read as separators.",
                )
            ),
        )
    values = np.array(numbers).reshape(-1, dimension)
    result = np.full((len(values), 3), np.nan)
    result[:, 0], result[:, 1] = values[:, 1], values[:, 0]
    if dimension == 3:
        result[:, 2] = values[:, 2]
    return result


def feature_code(node: Node) -> tuple[str, str]:
    """Return code and description from the ``Feature`` properties of an element.

    National profiles put them there, under labels that end in ``Coding`` and ``CodingDesc``.
    """
    code = description = ""
    for feature in (child for child in node.children if child.tag == "Feature"):
        for found in feature.walk():
            label = found.get("label").lower()
            if found.tag != "Property":
                continue
            if label.endswith(("coding", "code")):
                code = code or found.get("value")
            elif label.endswith("desc"):
                description = description or found.get("value")
    return code or node.get("code"), description


def read_data_points(
    node: Node, surface: str, registry: Registry, notes: Notes
) -> list[PointRecord]:
    """Return the points of a ``DataPoints`` element.

    Raises
    ------
    ExchangeError
        A list or point cannot be read.
    """
    code, description = feature_code(node)
    records = []
    for child in node.children:
        if child.tag in POINT_LISTS:
            for x, y, z in read_point_list(child, notes).tolist():
                records.append(
                    PointRecord("data", surface, code, description, (x, y, z), child.place.line)
                )
        elif child.tag in {"P", "CgPoint", "Point"}:
            xyz = registry.position(child)
            records.append(
                PointRecord(
                    "data", child.get("name") or surface, code, description, xyz, child.place.line
                )
            )
    return records


def _known_type(node: Node, notes: Notes) -> str:
    if node.tag not in _TYPES:
        return ""
    attribute, known = _TYPES[node.tag]
    word = node.get(attribute)
    if word and word.lower() not in known:
        notes.add(
            "unknown_type",
            node.place.say(
                translate(
                    "Core",
                    "{attribute}='{word}' is none of LandXML's ({known}); the line is read with that type.",
                ).format(attribute=attribute, word=word, known=", ".join(sorted(known)))
            ),
        )
    return word
