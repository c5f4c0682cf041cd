<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="fr" sourcelanguage="en">
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
        <source>The unit of the CRS is unknown: choose a CRS in metres or feet.</source>
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
        <source>{crs} counts in degrees or from the centre of the Earth: reproject the data to a projected CRS in metres or feet.</source>
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
</TS>
