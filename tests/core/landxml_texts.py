"""LandXML texts for tests, made from small pieces."""

from pathlib import Path

from plugin.core.exchange.landxml import read_landxml

NAMESPACE = "http://www.landxml.org/schema/LandXML-1.2"

POINTS = """<P id="1">0 0 10</P>
<P id="2">0 100 11</P>
<P id="3">100 100 12</P>
<P id="4">100 0 13</P>"""
"""A square of 100 by 100, northing easting elevation."""

FACES = """<F>1 2 3</F>
<F>1 3 4</F>"""

METRES = '<Units><Metric linearUnit="meter" areaUnit="squareMeter"/></Units>'


def landxml(body: str, units: str = METRES, root: str = "", system: str = "") -> str:
    """Return a whole file; its body starts on line 3."""
    start = root or f'<LandXML xmlns="{NAMESPACE}" version="1.2">'
    end = "</" + start[1:].split()[0].rstrip(">") + ">"
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{start}{units}{system}\n{body}\n{end}\n'


def surface(
    points: str = POINTS, faces: str = FACES, name: str = "FG", source: str = "", more: str = ""
) -> str:
    """Return a ``Surfaces`` element with one TIN; points start on its second line."""
    return (
        f'<Surfaces><Surface name="{name}">{source}<Definition surfType="TIN"{more}><Pnts>\n'
        f"{points}\n</Pnts><Faces>\n{faces}\n</Faces></Definition></Surface></Surfaces>"
    )


def alignment(elements: str, attributes: str = "", more: str = "") -> str:
    """Return an ``Alignments`` element with one alignment; elements start on its second line."""
    return (
        f'<Alignments><Alignment name="CL" {attributes}><CoordGeom>\n{elements}\n'
        f"</CoordGeom>{more}</Alignment></Alignments>"
    )


def read(folder: Path, text: str | bytes, name: str = "design.xml", **options):
    """Write a text to a file and read it."""
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_landxml(path, **options)


def codes(file) -> list[str]:
    """Return the codes of what may be wrong."""
    return [finding.code for finding in file.findings]
