"""The site as LandXML 1.2: surfaces, alignment with profile, control and check points."""

import itertools
import math
from xml.sax.saxutils import quoteattr

import numpy as np

from . import figures as f

_HEAD = """<?xml version="1.0" encoding="UTF-8"?>
<LandXML xmlns="http://www.landxml.org/schema/LandXML-1.2" version="1.2" date="2026-03-02" \
time="09:00:00" language="English" readOnly="false">
  <Units>
    <Imperial linearUnit="USSurveyFoot" areaUnit="squareFoot" volumeUnit="cubicFeet" \
temperatureUnit="fahrenheit" pressureUnit="inHG" angularUnit="decimal degrees" \
directionUnit="decimal degrees"/>
  </Units>
  <CoordinateSystem name="NAD83(2011) / Texas South Central (ftUS)" epsgCode="{epsg}"/>
  <Project name="Pellworth drop-off loop" desc="Invented sample site; its place on the map means nothing"/>
  <Application name="Pellworth sample script" version="1"/>
"""


def _point(p):
    """Return northing, easting and, where there is one, elevation."""
    return " ".join(f"{value:.6f}" for value in (p[1], p[0], *p[2:]))


def _points(points):
    return " ".join(_point(p) for p in points)


def _alignment():
    """Return the alignment: three lines, two arcs to the left, and the profile of the crown."""
    marks = np.cumsum([0, f.LEG, f.ARC, f.FRONT, f.ARC, f.LEG])
    ends = [_point(p) for p in f.place(marks, 0.0)]
    centres = f.ground([(f.WIDTH - f.RADIUS, f.LEG), (f.RADIUS, f.LEG)])
    centres = dict(zip((1, 3), map(_point, centres), strict=True))
    yield (
        f'  <Alignments>\n    <Alignment name="Lane centreline" length="{f.LENGTH:.6f}" '
        f'staStart="{f.START_STATION:.6f}" desc="Crown of the lane, in driving direction">\n'
        "      <CoordGeom>\n"
    )
    for k, (a, b) in enumerate(itertools.pairwise(ends)):
        start, length = f.START_STATION + marks[k], marks[k + 1] - marks[k]
        common = f'staStart="{start:.6f}" length="{length:.6f}"'
        if k in centres:
            chord = 2 * f.RADIUS * math.sin(f.ARC / f.RADIUS / 2)
            yield (
                f'        <Curve rot="ccw" crvType="arc" {common} radius="{f.RADIUS:.6f}" '
                f'chord="{chord:.6f}"><Start>{a}</Start><Center>{centres[k]}</Center>'
                f"<End>{b}</End></Curve>\n"
            )
        else:
            yield f"        <Line {common}><Start>{a}</Start><End>{b}</End></Line>\n"
    yield '      </CoordGeom>\n      <Profile>\n        <ProfAlign name="Crown">\n'
    for station, height in f.PROFILE:
        yield f"          <PVI>{f.START_STATION + station:.6f} {height:.6f}</PVI>\n"
    yield "        </ProfAlign>\n      </Profile>\n    </Alignment>\n  </Alignments>\n"


def _surface(name, description, vertices, faces, outline, lines):
    yield (
        f"    <Surface name={quoteattr(name)} desc={quoteattr(description)}>\n"
        "      <SourceData>\n        <Boundaries>\n"
        '          <Boundary bndType="outer" edgeTrim="false" name="Border"><PntList3D>'
        f"{_points([*outline, outline[0]])}</PntList3D></Boundary>\n        </Boundaries>\n"
    )
    if lines:
        yield "        <Breaklines>\n"
        for line in lines:
            points = [*line.points, line.points[0]] if line.closed else line.points
            label = f"{line.name}, {line.side}" if line.side else line.name
            yield (
                f'          <Breakline brkType="standard" name={quoteattr(label)}><PntList3D>'
                f"{_points(points)}</PntList3D></Breakline>\n"
            )
        yield "        </Breaklines>\n"
    corner = vertices[faces]
    a, b = corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0]
    normal = np.cross(a, b)
    yield (
        f'      </SourceData>\n      <Definition surfType="TIN" '
        f'area2DSurf="{normal[:, 2].sum() / 2:.4f}" '
        f'area3DSurf="{np.linalg.norm(normal, axis=1).sum() / 2:.4f}" '
        f'elevMax="{vertices[:, 2].max():.6f}" elevMin="{vertices[:, 2].min():.6f}">\n'
        "        <Pnts>\n"
    )
    for number, p in enumerate(vertices, 1):
        yield f'          <P id="{number}">{_point(p)}</P>\n'
    yield "        </Pnts>\n        <Faces>\n"
    for face in faces + 1:
        yield f"          <F>{face[0]} {face[1]} {face[2]}</F>\n"
    yield "        </Faces>\n      </Definition>\n    </Surface>\n"


def _cg_points(points):
    yield "  <CgPoints>\n"
    for each in points:
        yield (
            f"    <CgPoint name={quoteattr(each.name)} code={quoteattr(each.code)} "
            f"desc={quoteattr(each.note)}>{_point(each.position)}</CgPoint>\n"
        )
    yield "  </CgPoints>\n"


def write_landxml(path, site, ground, points):
    """Write the finished surface, the existing ground, the alignment and the points."""
    description = "Finished grade; heights to the top of lane, curb, walk and soil"
    with path.open("w", encoding="utf-8", newline="\n") as file:
        file.write(_HEAD.format(epsg=f.EPSG))
        file.writelines(_alignment())
        file.writelines(_cg_points(points))
        file.write("  <Surfaces>\n")
        finished = (site.vertices, site.faces, site.outline, site.lines)
        file.writelines(_surface("Finished grade", description, *finished))
        file.writelines(_surface("Existing ground", "Before the work", *ground, ()))
        file.write("  </Surfaces>\n</LandXML>\n")
