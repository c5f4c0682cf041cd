"""Runs the LandXML reader on texts, for tests."""

from qgis.core import QgsProcessingContext, QgsProcessingFeedback, QgsVectorLayer

from tests.core.landxml_texts import POINTS, alignment, surface

ALGORITHM = "undercourse:read_landxml"
METRES = "EPSG:3875"
FEET = '<Units><Imperial linearUnit="foot"/></Units>'
SURVEY_FEET = '<Units><Imperial linearUnit="USSurveyFoot"/></Units>'
FAR = POINTS.replace("0 0 10", "500000 2000000 10").replace("100 0 13", "500100 2000000 13")
FAR = FAR.replace("0 100 11", "500000 2000100 11").replace("100 100 12", "500100 2000100 12")
SOURCE = (
    '<SourceData><Breaklines><Breakline brkType="standard" name="B1" desc="crown">'
    "<PntList3D>0 0 10 100 100 12</PntList3D></Breakline><Breakline>"
    "<PntList2D>0 0 50 50</PntList2D></Breakline></Breaklines>"
    '<Boundaries><Boundary bndType="outer"><PntList3D>0 0 10 0 100 11 100 100 12</PntList3D>'
    "</Boundary></Boundaries></SourceData>"
)
ROUTE = (
    "<Line><Start>0 0</Start><End>0 50</End></Line>"
    '<Curve rot="ccw"><Start>0 50</Start><Center>30 50</Center><End>30 80</End></Curve>'
)
EVERYTHING = (
    surface(source=SOURCE)
    + alignment(
        ROUTE,
        'staStart="1000" length="97.12"',
        '<StaEquation staInternal="1050" staBack="1050" staAhead="2000"/>',
    )
    + '<CgPoints><CgPoint name="7" code="BM">5 6 7</CgPoint><CgPoint name="8">1 2</CgPoint></CgPoints>'
)


class Log(QgsProcessingFeedback):
    def __init__(self):
        super().__init__(False)
        self.warnings, self.infos = [], []

    def pushWarning(self, warning):
        self.warnings.append(warning)

    def pushInfo(self, info):
        self.infos.append(info)


def read_text(folder, text, feedback=None, **parameters):
    """Write a text to a file and run the algorithm on it; the provider must be there."""
    import processing

    path = folder / "design.xml"
    path.write_text(text)
    return processing.run(
        ALGORITHM,
        {"INPUT": str(path), **parameters},
        context=QgsProcessingContext(),
        feedback=feedback or Log(),
    )


def all_outputs(folder):
    return {
        "TIN": str(folder / "design.ply"),
        **{
            name: str(folder / f"{name.lower()}.gpkg")
            for name in ("FACES", "LINES", "ALIGNMENTS", "POINTS")
        },
    }


def features(path):
    layer = QgsVectorLayer(path, "result")
    assert layer.isValid()
    return layer, list(layer.getFeatures())
