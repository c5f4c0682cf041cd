"""The raster depth surface of 12,000 x 12,000 pixels beside a plain copy and gdal's tools.

Run: python -m tests.benchmarks.bench_raster [pixels along a side]

A float32 raster in tiles of 256 with 50 zones of 160 corners over four fifths of it. Each row
prints the seconds, and the ratio to ``gdal_translate`` copying the design with the same creation
options in the same process: the least of some runs that take turns. Memory is the growth of the
peak in a process of its own. The raster is smooth with noise in the last digits, as measured
ground is.
"""

import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import shapely
from osgeo import gdal

from plugin.core.depth.grid import Lowering
from plugin.core.depth.manner import BatterRule, Manner
from plugin.core.depth.zones import Outside, Zones
from plugin.core.progress import silent
from plugin.layers.raster_strips import float_type, stream
from plugin.layers.rasters import RasterSource, RasterTarget, small_cache

gdal.UseExceptions()

OPTIONS = {
    "plain tiles": ("TILED=YES", "BIGTIFF=IF_SAFER"),
    "ZSTD": ("TILED=YES", "COMPRESS=ZSTD", "ZSTD_LEVEL=1", "PREDICTOR=3", "NUM_THREADS=ALL_CPUS"),
    "usual": (*RasterTarget.OPTIONS, "PREDICTOR=3"),
}
ZONES = 50
CORNERS = 160
RUNS = 5


def make_design(path, size):
    options = ["TILED=YES", "BIGTIFF=IF_SAFER"]
    dataset = gdal.GetDriverByName("GTiff").Create(
        str(path), size, size, 1, gdal.GDT_Float32, options
    )
    dataset.SetGeoTransform((500_000, 0.25, 0, 6_000_000, 0, -0.25))
    dataset.GetRasterBand(1).SetNoDataValue(-9999)
    random = np.random.default_rng(0)
    x = np.arange(size) / size
    for row in range(0, size, 256):
        y = (row + np.arange(min(256, size - row))) / size
        z = 200 + 20 * np.sin(9 * x) + 10 * np.cos(7 * y)[:, None]
        z += random.normal(0, 0.003, z.shape)
        dataset.GetRasterBand(1).WriteArray(z.astype(np.float32), 0, row)


def make_zones(size):
    """Rings of 160 corners, one in each cell of a grid over the raster."""
    random = np.random.default_rng(1)
    across, side = 10, size * 0.25
    shapes = []
    for number in range(ZONES):
        column, row = number % across, number // across
        turn = np.linspace(0, 2 * np.pi, CORNERS, endpoint=False)
        reach = np.minimum(1 / np.maximum(np.abs(np.cos(turn)), np.abs(np.sin(turn))), 1.35)
        reach = reach * random.uniform(0.88, 0.98, CORNERS)
        ring = np.column_stack([np.cos(turn) / across, np.sin(turn) / 5]) * reach[:, None] / 2
        middle = ((column + 0.5) / across, -(row + 0.5) / 5)
        shapes.append(shapely.Polygon((ring + middle) * side + (500_000, 6_000_000)))
    return Zones(
        np.array(shapes, dtype=object), np.linspace(0.1, 2.0, ZONES), np.arange(1, ZONES + 1)
    )


def dug(zones, square, batter):
    """The zones with thickness square to the slope, and batters of 1.5:1."""
    nothing = np.zeros(len(zones))
    return replace(
        zones,
        depths=nothing if square else zones.depths,
        squares=zones.depths if square else nothing,
        batters=nothing + 1.5 * batter,
    )


def ours(design, path, zones, options, rule=BatterRule.DESIGN):
    source = RasterSource.from_path(str(design))
    kind = float_type(source)
    work = Lowering(zones, source.grid, Outside.KEEP, 0.0, source.nodata, kind, Manner(rule=rule))
    if zones.batters.any():
        with small_cache(), source.opened():
            work.survey(source.read)
    workers = 2 if work.is_laborious else 1
    target = RasterTarget(path, source, kind, None, options)
    stream(source, target, work.window, silent, work.halo, workers)
    return work.tally


def copied(design, path, options):
    gdal.Translate(str(path), str(design), creationOptions=list(options))


def with_tools(folder, design, size, options):
    """gdal_rasterize, then gdal_calc; return the seconds of each."""
    burnt, result = folder / "burnt.tif", folder / "calculated.tif"
    extent = ("500000", str(6_000_000 - size * 0.25), str(500_000 + size * 0.25), "6000000")
    start = time.perf_counter()
    subprocess.run(
        ["gdal_rasterize", "-q", "-a", "depth", "-ot", "Float64", "-co", "TILED=YES", "-te",
         *extent, "-ts", str(size), str(size), str(folder / "zones.geojson"), str(burnt)],
        check=True,
    )  # fmt: skip
    middle = time.perf_counter()
    subprocess.run(
        ["gdal_calc.py", "--quiet", "--overwrite", "-A", str(design), "-B", str(burnt),
         "--calc=A-B", "--type=Float32", "--NoDataValue=-9999", f"--outfile={result}",
         *(f"--co={option}" for option in options)],
        check=True,
    )  # fmt: skip
    return middle - start, time.perf_counter() - middle, result


def alternately(runs, path):
    """Return the least seconds of each of some runs that take turns."""
    seconds = [[] for _ in runs]
    for _ in range(RUNS):
        for run, taken in zip(runs, seconds, strict=True):
            path.unlink(missing_ok=True)  # freeing a large file takes as long as writing it
            start = time.perf_counter()
            run(path)
            taken.append(time.perf_counter() - start)
    return [min(taken) for taken in seconds]


def same(one, other):
    a, b = gdal.Open(str(one)), gdal.Open(str(other))
    return all(
        np.array_equal(
            a.ReadAsArray(0, row, a.RasterXSize, min(256, a.RasterYSize - row)),
            b.ReadAsArray(0, row, a.RasterXSize, min(256, a.RasterYSize - row)),
        )
        for row in range(0, a.RasterYSize, 256)
    )


def write_zones(path, zones):
    features = ",".join(
        f'{{"type":"Feature","properties":{{"depth":{float(depth)!r}}},"geometry":'
        f"{shapely.to_geojson(shape)}}}"
        for shape, depth in zip(zones.polygons, zones.depths, strict=True)
    )
    # Coordinates are those of the raster; neither file names a CRS that would move them.
    path.write_text(
        f'{{"type":"FeatureCollection","crs":{{"type":"name","properties":'
        f'{{"name":"EPSG:3067"}}}},"features":[{features}]}}'
    )


def peak_memory(design, folder, size, square, batter, rule="design"):
    """Run ours in a process of its own and return by how much its peak grows, in MB."""
    code = (
        "from pathlib import Path\nfrom tests.benchmarks import bench_raster as b\n"
        "def peak():\n"
        "    lines = Path('/proc/self/status').read_text().splitlines()\n"
        "    return next(int(line.split()[1]) for line in lines if line.startswith('VmHWM'))\n"
        f"zones = b.dug(b.make_zones({size}), {square}, {batter})\nbefore = peak()\n"
        f"b.ours({str(design)!r}, {str(folder / 'memory.tif')!r}, zones,"
        f" b.OPTIONS['plain tiles'], b.BatterRule({rule!r}))\n"
        "print((peak() - before) / 1024)"
    )
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    return float(done.stdout)


KINDS = (
    ("plain", False, False, "design"),
    ("square", True, False, "design"),
    ("batter by design", False, True, "design"),
    ("square, batter by design", True, True, "design"),
    ("batter by level", False, True, "level"),
    ("square, batter by level", True, True, "level"),
)


def main():
    size = int(sys.argv[1]) if len(sys.argv) > 1 else 12_000
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        design = folder / "design.tif"
        make_design(design, size)
        zones = make_zones(size)
        write_zones(folder / "zones.geojson", zones)
        print(f"{size} x {size} float32, {ZONES} zones of {CORNERS} corners")
        path = folder / "run.tif"
        for label, options in OPTIONS.items():
            copy, mine = alternately(
                [
                    lambda to, options=options: copied(design, to, options),
                    lambda to, options=options: ours(design, to, zones, options),
                ],
                path,
            )
            print(
                f"  plain, {label:12s} copy {copy:5.2f} s  ours {mine:5.2f} s  {mine / copy:4.2f}"
            )
        options = OPTIONS["plain tiles"]
        runs = [lambda to: copied(design, to, options)]
        for _, square, batter, rule in KINDS:
            given = dug(zones, square, batter)
            runs.append(
                lambda to, given=given, rule=rule: ours(
                    design, to, given, options, BatterRule(rule)
                )
            )
        copy, *mine = alternately(runs, path)
        for (label, square, batter, rule), seconds in zip(KINDS, mine, strict=True):
            memory = peak_memory(design, folder, size, square, batter, rule)
            print(f"  {label:25s} {seconds:5.2f} s  {seconds / copy:4.2f} x copy  {memory:4.0f} MB")
        tally = ours(design, folder / "ours.tif", zones, options)
        burn, calculate, result = with_tools(folder, design, size, options)
        plain = mine[0]
        print(
            f"  gdal_rasterize {burn:.2f} s + gdal_calc {calculate:.2f} s:"
            f" ours is {calculate / plain:.1f} times as fast as gdal_calc alone,"
            f" {(burn + calculate) / plain:.1f} times as fast as both;"
            f" same pixels: {same(folder / 'ours.tif', result)};"
            f" {tally.pixels.sum() / size**2:.0%} of them lowered"
        )


if __name__ == "__main__":
    main()
