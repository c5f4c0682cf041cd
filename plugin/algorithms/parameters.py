"""Parameters that several algorithms share, so that each looks and reads the same everywhere."""

from collections.abc import Mapping, Sequence

from qgis.core import (
    Qgis,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterEnum,
    QgsProcessingParameterField,
    QgsProcessingParameterFileDestination,
    QgsProcessingParameterMapLayer,
    QgsProcessingParameterString,
)

from ..core.text import translate

# The installed package is called differently, and algorithms never import gui.
_GUI = __name__.rsplit(".", 2)[0] + ".gui"
CHOICE_WIDGET = f"{_GUI}.choice_widget.ChoiceWrapper"
LENGTH_WIDGET = f"{_GUI}.length_widget.LengthWrapper"

VERTICAL_UNIT = "VERTICAL_UNIT"
_SOURCE_TYPES = {
    "tin": (Qgis.ProcessingSourceType.Mesh, Qgis.ProcessingSourceType.VectorPolygon),
    "raster": (Qgis.ProcessingSourceType.Raster,),
}


def surface(
    name: str,
    label: str,
    kinds: Sequence[str] = ("tin", "raster"),
    *,
    optional: bool = False,
) -> QgsProcessingParameterDefinition:
    """Return a parameter that takes a mesh, a polygon layer with Z, or a raster."""
    types = [kind for word in kinds for kind in _SOURCE_TYPES[word]]
    return QgsProcessingParameterMapLayer(name, label, None, optional, types)


def choice(
    name: str,
    label: str,
    words: Mapping[str, str],
    default: str | Sequence[str] | None,
    *,
    multiple: bool = False,
    optional: bool = False,
) -> QgsProcessingParameterDefinition:
    """Return a choice whose value is a word; dialogs show the translated label of each."""
    parameter = QgsProcessingParameterEnum(
        name, label, list(words), multiple, default, optional, usesStaticStrings=True
    )
    labels = [label[:1].upper() + label[1:] for label in words.values()]
    widget = {"class": CHOICE_WIDGET, "labels": labels}
    parameter.setMetadata({"widget_wrapper": widget})
    return parameter


def length(
    name: str,
    label: str,
    default: str | None = None,
    *,
    optional: bool = False,
    many: bool = False,
    plan: bool = False,
) -> QgsProcessingParameterDefinition:
    """Return a length (or a list of lengths) as text, with or without a unit.

    ``plan`` says that it is measured in plan, where the dialog repeats it in the plan's unit.
    Not a distance parameter: that one converts wrongly in US survey feet and takes no inches.
    """
    parameter = QgsProcessingParameterString(name, label, default, False, optional)
    parameter.setMetadata({"widget_wrapper": {"class": LENGTH_WIDGET, "many": many, "plan": plan}})
    return parameter


def is_length(parameter: QgsProcessingParameterDefinition) -> bool:
    """Tell whether a parameter was made by `length`."""
    return _widget(parameter).get("class") == LENGTH_WIDGET


def takes_many(parameter: QgsProcessingParameterDefinition) -> bool:
    """Tell whether a length parameter takes a list."""
    return bool(_widget(parameter).get("many"))


def about(parameter: QgsProcessingParameterDefinition, why: str) -> str:
    """Return a sentence about the value of a parameter."""
    return translate("Base", "{label}: {why}").format(label=parameter.description(), why=why)


def choice_labels(parameter: QgsProcessingParameterDefinition) -> dict[str, str]:
    """Return the label of each word of a choice; nothing for other parameters."""
    if not isinstance(parameter, QgsProcessingParameterEnum):
        return {}
    labels = _widget(parameter).get("labels", parameter.options())
    return dict(zip(parameter.options(), labels, strict=True))


def _widget(parameter: QgsProcessingParameterDefinition) -> dict:
    return parameter.metadata().get("widget_wrapper") or {}


def vertical_unit() -> QgsProcessingParameterDefinition:
    """Return the choice of the unit of heights and of lengths without a unit."""
    parameter = choice(
        VERTICAL_UNIT,
        translate("Base", "Unit of heights"),
        {
            "same": translate("Base", "As in the CRS of the design"),
            "metre": translate("Base", "Metres"),
            "foot": translate("Base", "International feet (0.3048 m)"),
            "us_survey_foot": translate("Base", "US survey feet (1200/3937 m)"),
        },
        "same",
    )
    parameter.setHelp(
        translate(
            "Base",
            "Unit of the heights of the design, and of depths written without a unit. Leave it unless heights are in another unit than plan coordinates.",
        )
    )
    return parameter


def name_field(name: str, label: str, layer: str) -> QgsProcessingParameterDefinition:
    """Return the choice of the field with what people call the features of parameter ``layer``."""
    parameter = QgsProcessingParameterField(name, label, None, layer, optional=True)
    parameter.setHelp(
        translate(
            "Base",
            "Left blank, a field called “name” is used if there is one, else the feature id.",
        )
    )
    return parameter


def mesh_output(
    name: str, label: str, *, optional: bool = False
) -> QgsProcessingParameterDefinition:
    """Return a destination for a TIN as mesh file; dialogs fill it in even where it is optional."""
    return QgsProcessingParameterFileDestination(
        name, label, translate("Base", "PLY mesh") + " (*.ply)", None, optional, True
    )


def html_output(name: str, label: str) -> QgsProcessingParameterDefinition:
    """Return an optional destination for a report."""
    return QgsProcessingParameterFileDestination(
        name, label, translate("Base", "HTML page") + " (*.html)", None, True
    )
