<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="fr" sourcelanguage="en">
<context>
    <name>Base</name>
    <message>
        <source>As in the CRS of the design</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Before digging</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Conventions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth surfaces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Design intake</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Guidelines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>HTML page</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Inputs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>International feet (0.3048 m)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Metres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PLY mesh</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Results</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Slope breaks</source>
        <translation>Ruptures de pente</translation>
    </message>
    <message>
        <source>The model {path} cannot be loaded.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is not enough memory for a design of this size: cut it into parts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>US survey feet (1200/3937 m)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Undercourse: depth surfaces, guidelines and slope breaks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Unit of heights</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Unit of the heights of the design, and of depths written without a unit. Leave it unless heights are in another unit than plan coordinates.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{label}: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{label}: “{value}” cannot be opened, check the path and the layer name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{label}: “{value}” cannot be written, check that its folder exists.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{path}” cannot be read or written: {why}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{value}” is not one of: {words}.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Core</name>
    <message>
        <source>&apos;{text}&apos; can be run to rise or rise to run: write it as n:1 (run to rise), as 1 in n, or in percent.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; cannot be read as a grade: write 3 %, 3:1 (run to rise), 1:48 or 1 in 20 (rise to run).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; cannot be read as a length: {advice}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; holds no proper fraction: write it like 2 1/2 or as a decimal.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a station in this job&apos;s unit ({unit}): write it like {example}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}...&apos; is too long for one number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{word}&apos; is not a known unit of length: write m, mm, cm, ft, in, usft (US survey foot) or ift (international foot).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A corner of face {face} has no usable coordinates: repair the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A length is missing: write for example 0.2 ft, 2.4 in or 60 mm.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A surface needs three coordinates a vertex and three corners a face.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A unit of {metres} metres is no unit of length: set the job&apos;s unit.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Face {face} names the same vertex twice: remove it from the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Face {face} points at a vertex that does not exist: repair the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line {number} has a vertex without finite coordinates: mend or remove it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line {number} has no length: remove it or draw it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The smallest slope change must be above 0 and, as an angle, below 180 degrees.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface has no faces.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a comma between two digits can be a decimal sign, write 1.5 or separate by &apos;; &apos;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a comma is ambiguous, write a decimal point (0.2).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a fraction needs its unit, write 2 1/2 in or 2 1/2 ft.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>before inches the feet are whole, and inches are less than 12.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it gives more than 1000 lengths, take a larger step.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it has to be a finite number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>only feet and inches can be combined (2&apos;-6&quot;).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>only some of its lengths carry a unit, write it after each.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>say which number is feet and which is inches (2&apos;-6&quot;).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the step of a range has to be greater than zero.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is no number in it, write for example 0.2 ft.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write a number and its unit, for example 0.2 ft.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write a range with its step, like 1..5 step 1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write one number and its unit, for example 0.2 ft, 2.4 in, 2 1/2 in, 2&apos;-6&quot; or 60 mm.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{word}&apos; is not a finite number: correct it or export again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{word}&apos; is not a point id (a positive whole number): correct the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A part of {count} faces shares no edge with the largest part of the surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Face {face} is thinner in plan than two points can be told apart.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Face {face} rises more than 10 to 1: check that a wall is meant.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Face {face} stands upright: it is kept, but has no slope and no plan area.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Faces {one} and {other} lie over one another in plan: remove one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>More than two faces share the edge between vertices {one} and {other}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Polygon {id} crosses itself: repair it before it can be a surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Polygon {id} has corners without height: a surface needs polygons with Z.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Polygon {id} is not plane (a corner lies {off} off): split it into triangles.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Polygon {id} stands upright or has no area: split it into triangles.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The corners of face {face} lie on one line: it has no area; remove it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There are no zones: give at least one polygon with a depth.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Vertex {vertex} belongs to no face.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Vertex {vertex} lies on the side of a face without being its corner: a crack.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Vertices {one} and {other} lie in one place: faces there may not be joined.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zone {zone} has no depth: fill in the depth field or give a depth for all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zone {zone} has no geometry: draw it or delete it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zone {zone} is not a polygon but a {kind}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zone {zone} is not a valid polygon ({reason}): mend its outline, then run again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zones {first} and {second} overlap by {area} square units near {x}, {y}: trim one of them, or give a priority field (the lower number wins).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zones {first} and {second} overlap near {x}, {y} and have the same priority {priority}: give one of them a lower number to let it win.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zones {first} and {second} overlap near {x}, {y} and one of them has no priority: fill in the priority field (the lower number wins).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a chain needs the names of two or more points: add them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a document type declaration is not allowed in LandXML, as it can hide harmful entities: remove it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a face of a TIN needs three point ids, but holds {count}: correct the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a line needs two points, but here is one: remove the line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a point is northing, easting and perhaps elevation, but here are {count} numbers: correct the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a reference to another file is not followed: remove it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a spiral needs its length: add it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a spiral of this length and these radii ends {gap} from the End point; it is stretched to it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a station equation needs staInternal and staAhead: add them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all its faces are vertical or lie on one line or in one point, so there is no surface to work with: export it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an entity declaration is not allowed in LandXML: remove it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>commas stand between the coordinates, where LandXML has blanks; they are read as separators.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>face {ids} names a point that the surface does not hold ({count} such faces): correct the file, or have such faces left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its faces come in {count} lists, which are read as one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its radii are too small for its length: correct them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>linearUnit=&apos;{word}&apos; is not a unit of LandXML (meter, foot, USSurveyFoot, ...): correct it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no arc of radius {radius} joins a start and an end that are {span} apart: correct its points or radius.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>pntRef=&apos;{name}&apos; may be the point of line {first} or of line {second}: give them different names.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>pntRef=&apos;{name}&apos; names no point of this file that has coordinates: add it or export again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>point id {id} was already given to another place in line {line}: correct the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>point {id} needs northing, easting and elevation, but holds {count} numbers: correct the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>rot=&apos;{word}&apos; must be cw or ccw: add it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>spirals of type &apos;{type}&apos; are not read ({known} are): export the alignment with one of these, or leave out the alignments.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the PI lies {gap} beside the direction in which the spiral starts: check rot, the radii and the PI.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the centre is {first} from the start and {last} from the end, so this is no arc: correct its points.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the centre is {first} from the start and {last} from the end; the arc runs through both.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the commas may be decimal commas or separators, and LandXML wants decimal points and blanks: export the file again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the file declares length={declared}, but the elements add up to {computed}: check that none is missing.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the file declares {attribute}={declared}, but the visible faces have {area}: check that the surface is complete.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the file declares {name}={declared}, but the points give {computed}: check rot and the points.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the point &apos;{name}&apos; it refers to has no elevation: give it one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the spiral ends where it starts: correct its points.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the {tag} point is missing: add it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this alignment has no lines, curves or spirals and is left out: export it with its geometry.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this arc has neither a Center nor a radius: add one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this element of a line&apos;s geometry is not known, and without it there would be a gap: export the line as lines, curves and spirals.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this element starts {gap} away from the end of the one before; the line is given in parts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this is not a LandXML file: choose one that starts with LandXML.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this line holds no point list (PntList2D or PntList3D): add it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this point has neither coordinates nor a pntRef: correct the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this point has no id: correct the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this surface has a second definition, and it is not clear which one counts: keep one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>two different linear units are given ({units}): keep one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{attribute}=&apos;{word}&apos; is none of LandXML&apos;s ({known}); the line is read with that type.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} faces are nearly vertical (over {percent} percent): check whether they are walls or wrong points.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} faces are vertical or without area; they are kept, and have no slope.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} faces name a point twice, have no area and are left out; this is the first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} faces name points that the surface does not hold and are left out, so the surface has holes there; the first is {ids}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} numbers do not make up points of {dimension} each: correct the list.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} points are given twice, at the same place; this is the first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} points of surface &apos;{name}&apos; are in none of its faces, so they are not in the surface; they are given as points.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} such places in all; the first {listed} are listed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} cannot be read ({reason}): check the path.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} does not say its linear unit: make sure which one it is.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} holds no surface called &apos;{name}&apos;; it holds: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} holds {count} surfaces called &apos;{name}&apos; (lines {lines}): rename them in the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} holds {count} surfaces; say which one to read by its name: {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is in a character encoding that cannot be read ({reason}): save it as UTF-8.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, column {column}: this is not well-formed XML ({reason}); the file may be cut short: export it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}, {path}: {what}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {count} lines have points without elevation, and are given none; this is the first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: {count} lines have the elevation 0 throughout, which may stand for &apos;not given&apos;; this is the first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is missing: give it, INF for straight.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}=&apos;{word}&apos; is not a number: correct it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: surface &apos;{name}&apos; holds no visible faces: export it with its triangles, or leave out the TIN and the faces.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: surface &apos;{name}&apos; is a grid surface, and only TIN surfaces are read: export it as a TIN, or leave out the TIN and the faces.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Environment</name>
    <message>
        <source>Undercourse cannot work in this QGIS because {found}: {remedy}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Undercourse needs Python 3.11 or newer, and this QGIS runs on {found}: {remedy}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>close QGIS, open Terminal, run: {python} -m pip install --upgrade {wanted} {keep} and start QGIS again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>close QGIS, open the OSGeo4W Shell from its start menu folder, run: python -m pip install --upgrade {wanted} {keep} and start QGIS again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>close QGIS, run: sudo apt install python3-shapely and, where that is still older than 2.1, run: {build} and start QGIS again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>install QGIS 3.40 or newer from its current disk image</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>install QGIS 3.40 or newer with its current installer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>numpy cannot be loaded ({why})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shapely cannot be loaded ({why})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shapely is version {found} and 2.1 is needed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shapely {found} does not work together with it ({why})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>use Debian 12, Ubuntu 24.04 or newer with QGIS 3.40 or newer</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Gui</name>
    <message>
        <source>Choose…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>[Not selected]</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in the unit of the design</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>… {count} in all</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Layers</name>
    <message>
        <source>A geometry collection mixes points, lines and polygons: split it into one kind per feature.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Feature {id} has no value in the field “{field}”: fill it in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Feature {id}, field “{field}”: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Feature {id}, field “{field}”: “{value}” is not a number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Geometry kind {code} cannot be read: convert it to a simple kind.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The design has no coordinate reference system: set its projected CRS in the layer properties.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The vertical unit “{word}” is unknown: use one of {words}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no CRS</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the file takes no features</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{layer}” has no field “{field}”: its fields are {fields}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{name}” cannot be written: {why}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{name}” is in {other} and the design in {crs}: bring both into one CRS first, since a surface is never reprojected here.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All heights of “{name}” are 0: they may have been lost when the layer was made.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Corners of neighbouring faces were joined; the largest move was {move}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The mesh “{name}” has no faces: choose a triangulated surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The mesh “{name}” is being edited: save or discard the edits first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The raster “{name}” cannot be opened: {why}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The raster “{name}” comes from a service ({kind}): save it as a GeoTIFF first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The raster “{name}” has no band {band}: it has {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The raster “{name}” holds complex numbers, not heights.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a face points at a vertex that is not there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a mesh layer, a polygon layer with heights, or a raster layer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a mesh layer, or a polygon layer with heights (triangles or planar faces)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a raster layer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>has no heights (Z) in its polygons</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>holds no faces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is a raster</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is no surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is not a polygon layer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is not a raster</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it has no PLY header</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it holds something else than vertices and triangles</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is cut short, or its faces are not triangles</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not a binary PLY file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not a line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not a point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not a polygon.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its faces are not triangles with x, y, z</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one of its rings has fewer than three corners.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the line has no length.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{crs} is not a projected CRS: reproject the data to one in metres or feet.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{name}” is in {own} and was moved to {crs} in plan; its heights were left as they are.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{name}” {what}, and this tool needs {wanted}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{name}”, feature {id}: a corner has no height; give it its Z or remove the face.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{name}”, feature {id}: a face has fewer than three corners; remove it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{name}”, feature {id}: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{name}”: {count} features have no geometry and were left out: {ids}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{path}” cannot be read as a TIN: {why}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{path}” cannot be written: {why}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The file declares a length of {declared}, and the elements have {length}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The file gives no elevation for some of its points.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The file leaves gaps between its elements.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{back} back = {ahead} ahead</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is in {unit} and {crs} in {other}, which would move its points by up to {move} {symbol}: find out which is true, then choose to convert or to keep the numbers.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is in {unit} by its own words; its numbers are taken as {other} as you asked for.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is in {unit}; plan coordinates are multiplied by {plan} and heights by {vertical} to be in the units of {crs}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} states no EPSG code that is known (its coordinate system is called “{name}”, code “{code}”): choose the CRS.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} states {stated}, and is read as {crs} as you asked for.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} ({size})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its outline is not valid ({why}): repair it with “Fix geometries”.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ReadLandXml</name>
    <message>
        <source>A surface has a hole where a face is left out: look at it before use.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Alignment “{name}”: {lines} lines, {arcs} arcs, {spirals} spirals; length {length} {symbol}; starts at station {station}; {profiles} vertical profiles, which are not read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Alignments</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Alignments of {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Alignments with true arcs and the station as M, drawn up-station. Vertical profiles are counted and not read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Arcs of alignments stay true arcs; spirals become dense points within a millimetre. M is the station without station equations, so that it always grows; the equations stand in a field. Directions (dir) in the file are never used, since files disagree on their zero and sense.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Area on the slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Boundaries</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Breaklines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Breaklines, boundaries and contours of the surface, and plan features, in their direction in the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>CRS</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>CRS: “{value}” is not known, choose it from the list.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Convert from the file&apos;s unit to that of the CRS</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Coordinate-geometry points, data points, and points of the surface that no face uses.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Existing ground and finished grade may be on different height datums even in one file: compare a known point of both before depths are taken between them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Faces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Faces that name missing points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Files of LandXML 1.0 to 2.0 and of national profiles are read. Points are northing, easting, elevation in the file and x = easting, y = northing here. Faces marked invisible are not part of the surface. Nothing is repaired in silence: what may be wrong is a warning and is counted, and what cannot be read is refused with its element and line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>If the file&apos;s unit is not that of the CRS</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Invisible faces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keep the numbers: the file states a wrong unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>LandXML file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>LandXML files</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Leave them out and count them</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length of the alignments</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines of all kinds</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines: {breaklines} breaklines, {boundaries} boundaries, {contours} contours, {features} plan features.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mesh of the visible faces, exact to the last digit.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name of the surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not read: {count} x {element}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One triangle a feature, with its areas and grade (percent).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plan area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Points of the surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Points of {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Projected CRS of the coordinates. Leave it blank to take the EPSG code that the file states. Coordinates are never reprojected.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Read LandXML</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reads the surface, its lines, the alignments and the points of a LandXML file, and lists what the file holds.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Single points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Single points: {count}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stop and say so</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stop and say where</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface as TIN</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface “{name}” ({kind}): not read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surface “{name}”: {points} points, {faces} faces, {hidden} invisible faces; plan area {plan} {symbol}², on the slope {sloped} {symbol}².</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Surfaces in the file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The file. It is not changed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The international foot (0.3048 m) and the US survey foot (1200/3937 m) count as different: at 2,000,000 ft the wrong one moves a point by 4 ft. Find out which is true before choosing.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Things that may be wrong</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Visible faces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Which surface to read, by its name in the file. Leave it blank if there is only one; if there are several, the message lists their names.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>landxml,xml,import,design,surface,tin,breaklines,alignment,station</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>without faces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}: LandXML {version}, namespace {namespace}; unit {unit}; coordinate system {name}, EPSG {code}, heights {vertical}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{label}: the file holds none, the layer is empty.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: faces</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: lines</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Report</name>
    <message>
        <source>Before you dig</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Conventions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Date</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depths are plumb: measured vertically, as a machine works.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Have underground utilities located and marked before any digging.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Left or right of a line, looking from its first to its last vertex. Signed offset: + is right, - is left.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Local codes, the contract documents and the licensed professional in charge take precedence over this document.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No data</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Outside the design there is no result; nothing is filled in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Positive is below the design; a minus sign raises.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Protect excavations against cave-in: a competent person inspects them before anyone enters and whenever conditions change.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Side</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Thickness</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Verify on a known point, in height and in plan, before automatics are engaged, and again whenever a file, a blade or a base station changes.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>SlopeBreaks</name>
    <message>
        <source>Angle between the faces, degrees</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Breaks whose slope changes by less are left out. In percent of grade: 2 % beside 7 % in the same direction is a change of 5, +2 % beside -2 % a change of 4. In degrees where the change is measured as an angle.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Design</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Difference in grade, percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Direction of the lines: at a top and a toe the uphill side is on the left and the lower side on the right. Ridges and valleys run downhill; those that are level or closed have their lower side on the right, and where both sides are alike they start at their western end or run counter-clockwise.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Finds the lines along which the slope of a design changes: crowns, flowlines, tops and toes of slope, with the grade on both sides.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Grades of the sides are in percent, square to the line and going away from it: + rises, - falls. Left and right look from the first to the last vertex. Means are weighted by length.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It ends at an edge that cannot be measured, because more than two faces meet there, faces lie over each other or a face has no area: the line may go on.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Kinds</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Kinds of breaks to keep. The lines of one kind are the same whatever other kinds are kept.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Kinds: a ridge falls away on both sides (a crown), a valley rises on both sides (a flowline), a top of slope falls away on one side only, a toe of slope rises on one side only. A side within 0.1 % of level neither rises nor falls, so the rim of a level platform is a top and the rim of a level floor a toe.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length of all lines (CRS unit)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines shorter than this in plan are left out, after edges have been joined. With a unit, or in the unit of the CRS: 5 ft, 1.5 m. 0 keeps all.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines with heights and the fields: kind; change, change_min, change_max (size of the slope change, percent: mean, smallest, largest); grade_left, grade_right and their least and greatest values (percent, + rises away from the line); angle (degrees, mean); length (in plan, CRS unit); z_start, z_end; fall (z_start less z_end, + falls along the line); flag and why for lines to look at. Figures beside an upright face are empty.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No slope break was found: lower the smallest slope change or the shortest line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Number of edges that cannot be measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Number of flagged lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Number of lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ridge, crown</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shortest line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Slope breaks</source>
        <translation>Ruptures de pente</translation>
    </message>
    <message>
        <source>Slope change measured as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Smallest slope change (percent)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The slope change is measured at every edge between two faces, square to the edge: it is the grade on one side less the grade on the other, walking straight across (the algebraic difference in grade). Edges of one kind are joined to one line up to the next junction, which is a point where the number of breaks that meet is not two.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The surface whose breaks are wanted: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Toe of slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Top of slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Valley, flowline</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the smallest slope change is given in. The angle is the one between the normals of the two faces, as mesh programs measure it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>break,breakline,crease,grade break,ridge,crown,valley,flowline,top of slope,toe of slope,kerb,curb,TIN,mesh</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} edges cannot be measured, the first at {x:.3f}, {y:.3f}: more than two faces meet there, faces lie over each other, or a face has no area; breaks may be missing there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{kind}: length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{kind}: lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{kind}: {count} lines, {length}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{part} of {whole} lie beside a face steeper than {limit:.0f} %: a wall, a kerb face or a step, whose grade says little.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} lines are flagged: read their fields “flag” and “why”.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Styles</name>
    <message>
        <source>Ridge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Toe of slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Top of slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Valley</source>
        <translation type="unfinished"></translation>
    </message>
</context>
</TS>
