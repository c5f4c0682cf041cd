"""Write sample_project/data/ from the stated figures of the Pellworth loop.

Run with the environment of run.sh. The files are kept in the repository; the same figures give
the same files (rasters and GeoPackages: with the same GDAL).
"""

import math
import os
import sys
from pathlib import Path

import numpy as np
from osgeo import gdal, ogr, osr

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))

from plugin.layers.ply import write_arrays  # noqa: E402
from sample_project.pellworth import figures as f  # noqa: E402
from sample_project.pellworth.landxml import write_landxml  # noqa: E402
from sample_project.pellworth.points import existing_ground, points  # noqa: E402
from sample_project.pellworth.schedule import write_schedule  # noqa: E402
from sample_project.pellworth.surface import build  # noqa: E402

NODATA = -9999.0
FIXED_TIME = "2026-03-02T09:00:00.000Z"
UNIT_STATION = 100.0

gdal.UseExceptions()
ogr.UseExceptions()


def reference_system():
    system = osr.SpatialReference()
    system.ImportFromEPSG(f.EPSG)
    system.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    return system


def station_text(distance):
    """Return the station as it is staked, 12+50.00."""
    hundreds, rest = divmod(f.START_STATION + distance, UNIT_STATION)
    return f"{hundreds:.0f}+{rest:05.2f}"


def line_string(points, *, closed=False):
    line = ogr.Geometry(ogr.wkbLineString25D)
    for p in [*points, points[0]] if closed else points:
        line.AddPoint(*(float(value) for value in p))
    return line


def polygon(rings):
    shape = ogr.Geometry(ogr.wkbPolygon)
    for ring in rings:
        border = ogr.Geometry(ogr.wkbLinearRing)
        for p in [*ring, ring[0]]:
            border.AddPoint_2D(float(p[0]), float(p[1]))
        shape.AddGeometry(border)
    return shape


def point(position):
    shape = ogr.Geometry(ogr.wkbPoint25D)
    shape.AddPoint(*position)
    return shape


def add_layer(source, name, kind, fields, rows):
    """Add a layer: fields are (name, type), rows are (geometry, values)."""
    layer = source.CreateLayer(name, reference_system(), kind)
    for title, type_of in fields:
        layer.CreateField(ogr.FieldDefn(title, type_of))
    for geometry, values in rows:
        feature = ogr.Feature(layer.GetLayerDefn())
        feature.SetGeometry(geometry)
        for (title, _), value in zip(fields, values, strict=True):
            if not (isinstance(value, float) and math.isnan(value)):
                feature.SetField(title, value)
        layer.CreateFeature(feature)


def write_geopackage(path, site, marks):
    path.unlink(missing_ok=True)
    gdal.SetConfigOption("OGR_CURRENT_DATE", FIXED_TIME)
    source = ogr.GetDriverByName("GPKG").CreateDataSource(str(path))
    text, whole, real = ogr.OFTString, ogr.OFTInteger, ogr.OFTReal
    zones = [
        (polygon(z.rings), (z.name, z.section, z.depth, z.widen, z.batter, z.priority, z.rule))
        for z in site.zones
    ]
    fields = [("name", text), ("section", text), ("depth", text)]
    fields += [("widen", text), ("batter", text), ("priority", whole), ("rule", text)]
    add_layer(source, "zones", ogr.wkbPolygon, fields, zones)

    found = {(line.name, line.side): line.points for line in site.lines}
    island, school = "island side", "school side"
    # As drawn by different hands: some run up-station, some down. No rule may depend on it.
    layers = {
        "lane_centreline": [("Lane centreline", "", found["crown", "left"])],
        "back_of_curb": [
            ("Back of curb", island, found["back of curb", "left"]),
            ("Back of curb", school, found["back of curb", "right"][::-1]),
        ],
        "planting_strip_break": [
            ("Planting-strip break", island, found["strip break", "left"][::-1]),
            ("Planting-strip break", school, found["walk front", "right"]),
        ],
        "walk_edge": [
            ("Front edge of walk", school, found["walk front", "right"]),
            ("Back edge of walk", school, found["walk back", "right"]),
        ],
    }
    for name, lines in layers.items():
        rows = [
            (line_string(xyz), (f"{title}, {side}" if side else title, side))
            for title, side, xyz in lines
        ]
        add_layer(source, name, ogr.wkbLineString25D, [("name", text), ("side", text)], rows)

    fields = [("name", text), ("height", real), ("station", text), ("offset", real)]
    fields.append(("note", text))
    for code in ("control", "check"):
        rows = []
        for each in (mark for mark in marks if mark.code == code):
            station = "" if math.isnan(each.station) else station_text(each.station)
            values = (each.name, each.position[2], station, each.offset, each.note)
            rows.append((point(each.position), values))
        add_layer(source, f"{code}_points", ogr.wkbPoint25D, fields, rows)
    del source


def _centres(low, high, count):
    """Return the pixels whose centres lie between two distances from the first edge."""
    return np.arange(max(math.ceil(low - 0.5), 0), min(math.floor(high - 0.5), count - 1) + 1)


def heights_at_pixels(site, left, top, columns, rows):
    """Evaluate the design at the centre of every pixel of one foot, face by face."""
    grid = np.full((rows, columns), NODATA, np.float32)
    for corner in site.vertices[site.faces]:
        low, high = corner[:, :2].min(axis=0), corner[:, :2].max(axis=0)
        c = _centres(low[0] - left, high[0] - left, columns)
        r = _centres(top - high[1], top - low[1], rows)
        if not len(c) or not len(r):
            continue
        x, y = left + c[None, :] + 0.5, top - r[:, None] - 0.5
        (ax, ay), (bx, by) = corner[1:, :2] - corner[0, :2]
        px, py, det = x - corner[0, 0], y - corner[0, 1], ax * by - ay * bx
        s, t = (px * by - py * bx) / det, (ax * py - ay * px) / det
        inside = (s >= 0) & (t >= 0) & (s + t <= 1)
        z = corner[0, 2] + s * (corner[1, 2] - corner[0, 2]) + t * (corner[2, 2] - corner[0, 2])
        window = grid[r[0] : r[-1] + 1, c[0] : c[-1] + 1]
        np.copyto(window, z.astype(np.float32), where=inside)
    return grid


def write_raster(path, site):
    low, high = site.vertices[:, :2].min(axis=0), site.vertices[:, :2].max(axis=0)
    left, top = np.floor(low[0]), np.ceil(high[1])
    columns, rows = int(np.ceil(high[0]) - left), int(top - np.floor(low[1]))
    path.unlink(missing_ok=True)
    options = ["COMPRESS=DEFLATE", "PREDICTOR=3", "TILED=YES", "BLOCKXSIZE=128", "BLOCKYSIZE=128"]
    driver = gdal.GetDriverByName("GTiff")
    target = driver.Create(str(path), columns, rows, 1, gdal.GDT_Float32, options)
    target.SetGeoTransform((left, 1.0, 0.0, top, 0.0, -1.0))
    target.SetProjection(reference_system().ExportToWkt())
    band = target.GetRasterBand(1)
    band.SetNoDataValue(NODATA)
    band.WriteArray(heights_at_pixels(site, left, top, columns, rows))
    band.SetDescription("Finished grade, US survey feet")
    target = None


def main():
    data = Path(os.environ.get("PELLWORTH_DATA", HERE / "data"))
    data.mkdir(parents=True, exist_ok=True)
    site, ground = build(), existing_ground()
    marks = points(site)
    write_landxml(data / "pellworth.xml", site, ground, marks)
    write_geopackage(data / "pellworth.gpkg", site, marks)
    write_schedule(data / "schedule.csv")
    write_raster(data / "pellworth_design.tif", site)
    wkt = reference_system().ExportToWkt(["FORMAT=WKT2_2019"])
    write_arrays(data / "pellworth_design.ply", site.vertices, site.faces, wkt)
    print(f"{data}: {len(site.vertices)} vertices, {len(site.faces)} faces")


if __name__ == "__main__":
    main()
