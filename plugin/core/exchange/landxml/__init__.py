"""Reading LandXML, an open standard for land survey and civil engineering data.

`read_landxml` reads surfaces, breaklines, boundaries, contours, plan features, alignments and
points of files of version 1.0 to 2.0 and of national profiles. The file is streamed and never
held in memory.

What real files do that the schema does not foresee, and what becomes of it:

========================================  =======================================================
deviation                                 what the reader does
========================================  =======================================================
any namespace or prefix                   read: elements are known by their local names
any declared encoding                     read as declared; one Python does not know is refused
document type, entities, external files   refused
not well-formed, cut short                refused, with line and column
no Units                                  read, reported; the caller must know the unit
unknown or two linear units               refused
elevationUnit                             not looked at: elevations are in the linear unit
commas between coordinates                read where they can only be separators, reported;
                                          refused where they may be decimal commas
NaN, infinity, other words for numbers    refused
P without three numbers                   refused
P with pntRef                             read: the elevation must be there
P id missing, negative, not a number      refused; 0, gaps and any start are read
P id given twice                          read and reported when both are the same place, else
                                          refused with both lines
F with other than three ids               refused
F naming a missing point                  refused, or left out and reported when so wished
F naming a point twice                    left out, reported
F with i="1"                              hidden: not in the surface, counted
F with n or b                             not looked at: they follow from the faces
several Faces lists                       read as one, reported
second Definition                         refused
grid surface                              not read; refused when it is the one that is wanted
all points in one place or on a line      refused
vertical and nearly vertical faces        read, reported
points in no face                         given as points, reported
declared area or length differs           read, reported
unknown breakline or boundary type        read with that type, reported
open boundary                             closed
line without elevations                   read without, reported; all 0: read, reported
pntRef                                    resolved after reading, so it may point ahead;
                                          leading nowhere or to two places: refused
Curve without Center                      read from radius and rot; the shorter arc unless the
                                          length says otherwise
Curve without radius                      read from its points
Curve without rot                         refused
centre not midway, radius or length       read, reported; refused when over 1 percent of the
that does not fit                         radius
Spiral of another law than the five known refused
gap between elements                      to a millimetre closed; beyond it given in parts, reported
alignment without CoordGeom               left out, reported
dir                                       never used: files disagree on its zero and sense
Parcels, pipes, roadways, cross sections  not read; counted
========================================  =======================================================
"""

from .model import (
    AlignmentRecord,
    LandXmlFile,
    LineRecord,
    Part,
    PointRecord,
    Segment,
    StationEquation,
    SurfaceRecord,
)
from .read import read_landxml
from .surfaces import no_tin_reason

__all__ = [
    "AlignmentRecord",
    "LandXmlFile",
    "LineRecord",
    "Part",
    "PointRecord",
    "Segment",
    "StationEquation",
    "SurfaceRecord",
    "no_tin_reason",
    "read_landxml",
]
