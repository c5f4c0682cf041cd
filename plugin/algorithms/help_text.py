"""The help page of an algorithm, put together from what its parameters say of themselves."""

from html import escape
from typing import TYPE_CHECKING

from qgis.core import QgsProcessingParameterDefinition

from ..core.text import translate
from ..documents.cautions import cautions, conventions
from .parameters import choice_labels

if TYPE_CHECKING:
    from .base import UndercourseAlgorithm


def group_title(group_id: str) -> str:
    """Return what people see for a group of algorithms."""
    titles = {
        "design_intake": translate("Base", "Design intake"),
        "depth_surfaces": translate("Base", "Depth surfaces"),
        "guidelines": translate("Base", "Guidelines"),
        "slope_breaks": translate("Base", "Slope breaks"),
        "checks": translate("Base", "Checks and quantities"),
    }
    return titles.get(group_id, group_id)


def page(algorithm: "UndercourseAlgorithm") -> str:
    """Return the HTML that the dialog shows beside the parameters."""
    inputs, results = [], []
    for parameter in algorithm.parameterDefinitions():
        (results if parameter.isDestination() else inputs).append(_entry(parameter))
    parts = [f"<p>{escape(text)}</p>" for text in algorithm.description()]
    parts += [_section(translate("Base", "Inputs"), inputs)]
    parts += [_section(translate("Base", "Results"), results)]
    rules = [f"<b>{escape(matter)}</b>: {escape(rule)}" for matter, rule in conventions()]
    parts += [_section(translate("Base", "Conventions"), rules)]
    parts += [_section(translate("Base", "Before digging"), [escape(text) for text in cautions()])]
    return "".join(parts)


def _section(title: str, entries: list[str]) -> str:
    if not entries:
        return ""
    return f"<h3>{escape(title)}</h3>" + "".join(f"<p>{entry}</p>" for entry in entries)


def _entry(parameter: QgsProcessingParameterDefinition) -> str:
    entry = f"<b>{escape(parameter.description())}</b>"
    if parameter.help():
        entry += f": {escape(parameter.help())}"
    choices = choice_labels(parameter)
    if choices:
        words = "; ".join(
            f"<i>{escape(label)}</i> ({escape(word)})" for word, label in choices.items()
        )
        entry += f"<br>{words}"
    return entry
