"""The whole depth surface over 1,000,000 triangles and 50 zones, in core and from the command line.

Run: python -m tests.benchmarks.bench_depth [squares along a side] [--core]

The surface and zones are those of `bench_cut`. In core: the plain cut by the zones, then the
depth surface with upright sides, batters on 25 zones, bottoms carried on, and thicknesses square
to the slope, each beside the plain cut (ratio). Then one `qgis_process` run of depth_tin on the
same data, everything from start-up to the written mesh, beside the core; with `--core` it is left
out. Memory is the growth of the peak in a process of its own.
"""

import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np
import shapely
from osgeo import ogr, osr

from plugin.core.depth.manner import Manner
from plugin.core.depth.surface import depth_surface
from plugin.core.depth.zones import Zones
from plugin.core.tin import Tin
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance
from plugin.layers.ply import write_arrays
from tests.commands import link_plugin, qgis_process

from .bench_breaks import best, peak  # noqa: F401 - peak is called in the other process
from .bench_cut import ZONES, blobs, sheet

WAYS = ("upright", "batter", "widen", "square", "all")


def zones_dug(shapes, way):
    half = np.arange(ZONES) % 2 == 0
    depths = np.linspace(0.2, 0.9, ZONES)
    squares = np.where(half & (way in ("square", "all")), depths, 0.0)
    return Zones(
        shapes,
        depths - squares,
        np.arange(1, ZONES + 1),
        squares=squares,
        widths=np.where(half & (way in ("widen", "all")), 1.0, 0.0),
        batters=np.where(half & (way in ("batter", "all")), 1.5, 0.0),
    )


def cut(vertices, faces, shapes):
    return len(cut_tin(Tin.from_arrays(vertices, faces), shapes, Tolerance()).zone)


def dug(vertices, faces, zones):
    return len(depth_surface(Tin.from_arrays(vertices, faces), zones, manner=Manner()).zone)


def peak_growth(size, way):
    code = (
        "from tests.benchmarks.bench_depth import *;"
        f"v, f = sheet({size}, True); z = zones_dug(blobs({size}), '{way}');"
        "open('/proc/self/clear_refs', 'w').write('5');"
        "print(peak()); dug(v, f, z); print(peak())"
    )
    out = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    before, after = map(float, out.stdout.split())
    return after - before


def write_zones(path, zones):
    crs = osr.SpatialReference()
    crs.ImportFromEPSG(25833)
    store = ogr.GetDriverByName("GPKG").CreateDataSource(str(path))
    layer = store.CreateLayer("zones", crs, ogr.wkbPolygon)
    for name in ("depth", "widen", "batter"):
        layer.CreateField(ogr.FieldDefn(name, ogr.OFTReal))
    values = zip(zones.polygons, zones.depths, zones.widths, zones.batters, strict=True)
    for shape, depth, width, batter in values:
        feature = ogr.Feature(layer.GetLayerDefn())
        for name, value in (("depth", depth), ("widen", width), ("batter", batter)):
            feature[name] = float(value)
        feature.SetGeometry(ogr.CreateGeometryFromWkt(shapely.to_wkt(shape, rounding_precision=9)))
        layer.CreateFeature(feature)
    return crs.ExportToWkt()


def from_command_line(vertices, faces, zones):
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        wkt = write_zones(place / "zones.gpkg", zones)
        write_arrays(place / "design.ply", vertices, faces, wkt, None)
        profile = link_plugin(place / "profile")
        words = [
            f"DESIGN={place / 'design.ply'}",
            f"ZONES={place / 'zones.gpkg'}",
            f"TIN={place / 'depth.ply'}",
        ]
        qgis_process(profile, "help", "undercourse:depth_tin")  # compiles and caches
        start = time.perf_counter()
        done = qgis_process(profile, "run", "undercourse:depth_tin", "--", *words)
        seconds = time.perf_counter() - start
        if done.returncode:
            raise RuntimeError(done.stderr)
        return seconds


def main():
    sizes = [int(word) for word in sys.argv[1:] if word.isdigit()]
    size = sizes[0] if sizes else 708
    shapes = blobs(size)
    print(f"{2 * size * size:,} triangles, {ZONES} zones")
    for mixed in (False, True):
        vertices, faces = sheet(size, mixed)
        print("shuffled" if mixed else "row order")
        plain, count = best(cut, vertices, faces, shapes)
        print(f"  cut       {plain:6.2f} s  {count:,} faces")
        core = {}
        for way in WAYS:
            core[way], count = best(dug, vertices, faces, zones_dug(shapes, way), runs=2)
            print(f"  {way:9} {core[way]:6.2f} s  {count:,} faces   x {core[way] / plain:.2f}")
        if "--core" not in sys.argv and not mixed:
            for way in ("upright", "batter"):
                whole = from_command_line(vertices, faces, zones_dug(shapes, way))
                allowed = 2 * core[way] + 2
                print(f"  qgis_process, {way}: {whole:.2f} s; 2 x core + 2 s is {allowed:.2f} s")
    for way in ("upright", "all"):
        print(f"peak of {way} grows by {peak_growth(size, way):.0f} MB")


if __name__ == "__main__":
    main()
