"""An algorithm that uses every part of the base, in a provider of its own, for tests."""

from qgis.core import (
    Qgis,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingProvider,
)

from plugin.algorithms.base import UndercourseAlgorithm
from plugin.core.errors import UndercourseError
from plugin.layers.fields import fields
from plugin.layers.meshes import write_ply
from plugin.layers.polygons import tin_features


class Probe(UndercourseAlgorithm):
    """Copies a surface and says what it was told."""

    name_id = "probe"
    group_id = "depth_surfaces"

    def title(self):
        return "Probe"

    def summary(self):
        return "Copies a surface."

    def description(self):
        return ["It copies <every> face."]

    def initAlgorithm(self, configuration=None):
        self.add(self.surface("DESIGN", "Design", ("tin",)), "What is copied.")
        self.add(QgsProcessingParameterFeatureSource("ZONES", "Zones", [], None, True), "Not used.")
        words = {"right": "Right of the line", "left": "Left of the line"}
        self.add(self.choice("SIDE", "Side", words, "left"), "+ is right, - is left.")
        self.add(self.choice("MAYBE", "Maybe", words, None, optional=True))
        self.add(self.choice("KINDS", "Kinds", words, ["left", "right"], multiple=True))
        self.add(self.length("DEPTH", "Depth", "0.2 ft"), "Positive is below the design.")
        self.add(self.length("EXTRA", "Extra depth", optional=True))
        self.add(self.length("OFFSETS", "Offsets", "1; 2", many=True, plan=True))
        self.add(self.vertical_unit(), advanced=True)
        self.add(self.mesh_output("TIN", "TIN"))
        self.add(QgsProcessingParameterFeatureSink("FACES", "Faces", optional=True))

    def check(self, parameters, context):
        depth = self.text(parameters, "DEPTH", context)
        return "Depth: 13 brings bad luck." if depth == "13" else None

    def read(self, parameters, context, feedback):
        self.design = self.layer_surface(parameters, "DESIGN", context, feedback)
        self.zones = self.source(parameters, "ZONES", context)

    def work(self, parameters, context, feedback):
        units = self.units(self.design, parameters, context)
        depth = self.length_value(parameters, "DEPTH", context, units.vertical)
        if depth == 99:
            raise UndercourseError("Depth 99 is too deep: take less.")
        if depth == 98:
            raise OSError(28, "No space left on device", "faces.gpkg")
        progress = self.progress(feedback, 0.0, 0.5)
        progress(0.5)
        tin, crs = self.design.data, self.design.crs
        path = self.file(parameters, "TIN", context)
        sink = self.sink(
            parameters, "FACES", context, fields(("face", int)), Qgis.WkbType.PolygonZ, crs
        )
        write_ply(path, tin, crs)
        self.load_mesh(parameters, "TIN", context, path, "Copy")
        if sink is not None:
            with sink:
                sink.add_many((shape, (k,)) for k, shape in enumerate(tin_features(tin)))
            self.named_output(context, sink.id, "Copied faces")
        return {
            "TIN": path,
            "FACES": sink and sink.id,
            "side": self.word(parameters, "SIDE", context),
            "maybe": self.word(parameters, "MAYBE", context),
            "kinds": self.words(parameters, "KINDS", context),
            "depth": depth,
            "extra": self.length_value(parameters, "EXTRA", context, units.vertical),
            "offsets": self.length_values(parameters, "OFFSETS", context, units.plan),
        }


class ProbeProvider(QgsProcessingProvider):
    """Holds the probe."""

    def id(self):
        return "probes"

    def name(self):
        return "Probes"

    def loadAlgorithms(self):
        self.addAlgorithm(Probe())
