"""Widenings, batters, square thickness and carrying on of the raster depth surface, in QGIS."""

import contextlib
import json
import shutil
from pathlib import Path

import numpy as np
import pytest
import shapely
from osgeo import gdal
from qgis.core import QgsProcessingContext, QgsProcessingException, QgsRasterLayer, QgsVectorLayer

from plugin.layers import raster_strips
from tests.commands import link_plugin, qgis_process

from .raster_cases import LEFT, TOP, Log, hills, layer_of, pixels, raster, saved

SAMPLE = Path(__file__).parents[2] / "sample_project" / "data"
FIELDS = "&".join(
    f"field={name}" for name in ("depth:string", "widen:string", "batter:string", "rule:string")
)
PIT = shapely.box(LEFT + 40.1, TOP - 60.1, LEFT + 70.1, TOP - 30.1)
BESIDE = shapely.box(LEFT + 70.1, TOP - 60.1, LEFT + 90.1, TOP - 30.1)


def dug(*rows):
    return layer_of(FIELDS, *(row + (None,) * (5 - len(row)) for row in rows))


@pytest.fixture
def run(provider, tmp_path):
    import processing

    def call(design, layer, feedback=None, algorithm="depth_raster", **parameters):
        given = {"DESIGN": design, "ZONES": layer, **parameters}
        if algorithm == "depth_raster":
            given.setdefault("OUTPUT", str(tmp_path / "depth.tif"))
        return processing.run(
            f"undercourse:{algorithm}", given, context=QgsProcessingContext(), feedback=feedback
        )

    return call


def centres(z):
    row, column = np.mgrid[: z.shape[0], : z.shape[1]]
    return LEFT + 0.5 * (column + 0.5), TOP - 0.5 * (row + 0.5)


def level(value=100.0):
    return np.full((200, 300), value, dtype=np.float32)


def away(z, box):
    x, y = centres(z)
    west, south, east, north = box.bounds
    return np.maximum.reduce([west - x, x - east, south - y, y - north]).clip(0)


def test_a_pit_is_widened_and_battered(run, tmp_path):
    z = level()
    log = Log()
    results = run(
        raster(tmp_path / "d.tif", z), dug((PIT, "2 ft")), log, WIDEN="18 in", BATTER="1.5:1"
    )
    low = pixels(results["OUTPUT"])
    distance = (away(z, PIT) - 1.5).clip(0)
    assert np.abs(low - np.minimum(100.0, 98.0 + distance / 1.5)).max() < 1e-4
    side = (distance > 0) & (distance < 3.0)
    assert results["BATTER_PIXELS"] == side.sum()
    assert results["AREA_BATTER"] == side.sum() * 0.25
    assert results["PIXEL_COUNT"] == (distance == 0).sum()
    assert results["FLAG_COUNT"] == results["CARRIED_PIXELS"] == 0
    assert f"Batters: {side.sum()} pixels" in log.told
    notes = gdal.Open(results["OUTPUT"]).GetMetadata()
    assert notes["BATTERS"] == "1.5:1"
    assert "bilinearly" in notes["BATTER_RULE"]
    assert notes["BOTTOMS_CARRIED_ON"].startswith("1.500 usft")
    assert notes["CORNERS"].startswith("mitred")
    assert notes["PAST_THE_DESIGN"] == "no result without data"


def test_each_zone_may_have_its_own(run, tmp_path):
    z = level()
    layer = dug((PIT, "2", "0", "2:1"), (BESIDE, "1", "3", None))
    results = run(raster(tmp_path / "d.tif", z), layer, BATTER_RULE="design", CORNERS="round")
    low = pixels(results["OUTPUT"])
    x, y = centres(z)
    points = shapely.points(x, y)
    pit = shapely.distance(points, PIT)
    wide = shapely.box(*(BESIDE.bounds + np.array([-3, -3, 3, 3]))).intersection(
        BESIDE.buffer(3, quad_segs=256)
    )
    expected = np.where(shapely.intersects(points, wide), 99.0, 100.0)
    expected = np.minimum(expected, np.minimum(100.0, 98.0 + pit / 2))
    near = shapely.distance(points, wide.boundary) < 0.01
    assert np.abs(low - expected)[~near].max() < 1e-4


def test_square_to_the_slope(run, tmp_path):
    x, _ = centres(level())
    z = (100 + (x - LEFT) / 2).astype(np.float64)
    design = raster(tmp_path / "d.tif", z)
    results = run(design, dug((PIT, "0.3 m")), THICKNESS="square")
    inside = away(z, PIT) == 0
    plumb = 0.3 * 3937 / 1200 * np.sqrt(1.25)  # 2:1, secant 1.11803
    assert np.allclose((z - pixels(results["OUTPUT"]))[inside], plumb, rtol=1e-9)
    notes = gdal.Open(results["OUTPUT"]).GetMetadata()
    assert "sqrt(1 + g^2)" in notes["SQUARE_RULE"] and "Horn" in notes["SQUARE_RULE"]
    assert notes["SQUARE_DEPTHS"].startswith("0.984 usft")
    assert "DEPTHS" not in notes
    # Heights in metres on a plan in feet: the slope is steeper than the numbers.
    results = run(design, dug((PIT, "0.3 m")), THICKNESS="square", VERTICAL_UNIT="metre")
    slope = 0.5 * 3937 / 1200
    plumb = 0.3 * np.sqrt(1 + slope**2)
    assert np.allclose((z - pixels(results["OUTPUT"]))[inside], plumb, rtol=1e-9)


def test_the_design_is_carried_on(run, tmp_path):
    x, y = centres(level())
    full = (100 + (x - LEFT) / 10 - (y - TOP) / 20).astype(np.float64)
    z = full.copy()
    z[:, 120:] = -9999
    design = raster(tmp_path / "d.tif", z)
    layer = dug((PIT, "2", None, "1:1"))
    log = Log()
    results = run(design, layer, log, BEYOND="carry")
    low = pixels(results["OUTPUT"])
    expected = pixels(
        run(raster(tmp_path / "f.tif", full), layer, OUTPUT=str(tmp_path / "depth_f.tif"))["OUTPUT"]
    )
    there = low != -9999
    assert np.abs(low - expected)[there].max() < 1e-9
    assert np.array_equal(there, (z != -9999) | (expected < full))
    assert results["CARRIED_PIXELS"] == (there & (z == -9999)).sum()
    assert any("was carried on onto" in line for line in log.told)
    assert "128 rows" in gdal.Open(results["OUTPUT"]).GetMetadata()["PAST_THE_DESIGN"]
    stopped = pixels(run(design, layer)["OUTPUT"])
    assert np.array_equal(stopped == -9999, z == -9999)


@pytest.mark.parametrize("rule", ["level", "design"])
@pytest.mark.parametrize("options", [(), ("TILED=YES", "BLOCKXSIZE=64", "BLOCKYSIZE=64")])
def test_tiles_strips_panels_and_threads_do_not_matter(run, tmp_path, rule, options, monkeypatch):
    z = hills()
    z[:, 150:] = -9999
    layer = dug(
        (PIT.buffer(3).difference(PIT.centroid.buffer(7)), "2", "1", "1.5"),
        (shapely.box(LEFT + 71, TOP - 90, LEFT + 90, TOP - 70), "1", None, "2", "square"),
    )
    how = {"BATTER_RULE": rule, "BEYOND": "carry", "THICKNESS_FIELD": "rule"}
    first = run(raster(tmp_path / "a.tif", z), layer, **how)
    expected = pixels(first["OUTPUT"])
    assert first["BATTER_PIXELS"] > 1000 and first["CARRIED_PIXELS"] > 1000
    monkeypatch.setattr(raster_strips, "_STRIP_BYTES", 30_000)
    monkeypatch.setattr(raster_strips, "_PANEL", 130)
    real = raster_strips.stream

    def stream(source, target, work, progress, halo, workers):
        real(source, target, work, progress, halo, workers + 2)

    monkeypatch.setattr("plugin.algorithms.depth_raster.stream", stream)
    design = raster(tmp_path / "b.tif", z, options=options)
    other = run(design, layer, OUTPUT=str(tmp_path / "depth_b.tif"), **how)
    assert pixels(other["OUTPUT"]).tobytes() == expected.tobytes()
    assert {**other, "OUTPUT": 0} == {**first, "OUTPUT": 0}


def test_a_raster_cut_in_two_joins_bit_for_bit(run, tmp_path):
    """Parts with as much overlap as sides reach give the very pixels of the whole."""
    z = hills()
    layer = dug((PIT, "2", "1", "1.5"))
    whole = pixels(run(raster(tmp_path / "d.tif", z), layer, BATTER_RULE="level")["OUTPUT"])
    parts = []
    for name, first, last, keep in (("a", 0, 140, slice(0, 100)), ("b", 60, 200, slice(40, 140))):
        place = (LEFT, 0.5, 0, TOP - 0.5 * first, 0, -0.5)
        part = raster(tmp_path / f"{name}.tif", z[first:last].copy(), transform=place)
        output = str(tmp_path / f"depth_{name}.tif")
        parts.append(pixels(run(part, layer, BATTER_RULE="level", OUTPUT=output)["OUTPUT"])[keep])
    assert (whole != z).sum() > 2000
    off = np.abs(np.vstack(parts) - whole)
    # Distances are counted from another corner: a last bit may differ.
    assert off.max() <= np.spacing(np.float32(550))
    assert (off > 0).mean() < 1e-3


def test_cancel_while_feet_are_looked_for_leaves_nothing(run, tmp_path):
    log = Log(cancel_at=6)
    layer = dug((PIT, "2", "1", "1.5"))
    with contextlib.suppress(QgsProcessingException):  # whether it raises is QGIS's affair
        run(raster(tmp_path / "d.tif", hills()), layer, log)
    assert log.isCanceled()
    assert not [path for path in tmp_path.iterdir() if not path.name.startswith("d.tif")]


def test_what_may_be_wrong_is_said_and_counted(run, tmp_path):
    x, _ = centres(level())
    z = (100 + 0.9 * (x - LEFT)).astype(np.float32)
    log = Log()
    results = run(
        raster(tmp_path / "d.tif", z, pixel=0.05), dug((narrow(), "2")), log, BATTER="1.5"
    )
    assert results["BATTER_PIXELS"] > 0
    z = level()
    z[:, 40:] = -9999
    results = run(raster(tmp_path / "e.tif", z), dug((BESIDE, "2")), log, BEYOND="carry")
    assert results["CARRIED_PIXELS"] > 0
    assert results["FLAG_COUNT"] > 0
    assert any("more than 128 pixels from any data" in line for line in log.warnings)


def narrow():
    return shapely.box(LEFT + 2, TOP - 9, LEFT + 3, TOP - 1)


@pytest.mark.parametrize(
    ("given", "part"),
    [
        ({"BATTER": "flat"}, "flat"),
        ({"WIDEN": "-1 ft"}, "outward"),
        ({"SNAP": "3 ft"}, "is not between 0 and"),
        ({"BATTER_RULE": "slope"}, "“slope” is not one of: level, design"),
    ],
)
def test_values_that_cannot_be_are_refused(run, tmp_path, given, part):
    with pytest.raises(QgsProcessingException, match=part):
        run(raster(tmp_path / "d.tif", level()), dug((PIT, "2")), **given)
    assert not [path for path in tmp_path.iterdir() if not path.name.startswith("d.tif")]


@pytest.mark.skipif(shutil.which("qgis_process") is None, reason="qgis_process is not here")
def test_the_sample_agrees_with_its_tin_through_qgis_process(tmp_path):
    """The same parameters on TIN and raster; the TIN laid on the raster's grid."""
    profile = link_plugin(tmp_path / "profile")
    mesh, zones = (
        str(SAMPLE / "pellworth_design.ply"),
        f"{SAMPLE / 'pellworth.gpkg'}|layername=zones",
    )
    how = ["DEPTH_FIELD=depth", "PRIORITY_FIELD=priority", "BATTER_RULE=design"]

    def process(name, *given):
        done = qgis_process(profile, "--json", "run", f"undercourse:{name}", "--", *given)
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)["results"]

    design, dug_tin = tmp_path / "design.tif", tmp_path / "depth.ply"
    truth, low = tmp_path / "truth.tif", tmp_path / "depth.tif"
    process("tin_to_raster", f"DESIGN={mesh}", "PIXEL=0.5", f"OUTPUT={design}")
    process("depth_tin", f"DESIGN={mesh}", f"ZONES={zones}", *how, f"TIN={dug_tin}")
    process("tin_to_raster", f"DESIGN={dug_tin}", f"TEMPLATE={design}", f"OUTPUT={truth}")
    results = process("depth_raster", f"DESIGN={design}", f"ZONES={zones}", *how, f"OUTPUT={low}")
    a, b, z = pixels(low), pixels(truth), pixels(design)
    there = z != -9999
    assert np.array_equal(a != -9999, there) and np.array_equal(b != -9999, there)
    off = np.abs(a.astype(float) - b)[there]
    assert results["BATTER_PIXELS"] > 1000
    # Rounding once more than it, the move of borders (1e-4 m), the steps (0.001 ft) apart.
    assert (off > 4e-4).sum() < 40
    assert np.quantile(off, 0.999) <= 2 * np.spacing(np.float32(500))


def test_layers_open_as_they_are(run, tmp_path):
    output = run(raster(tmp_path / "d.tif", level()), dug((PIT, "2")), BATTER="1")["OUTPUT"]
    assert QgsRasterLayer(output).isValid()
    assert QgsVectorLayer(f"{SAMPLE / 'pellworth.gpkg'}|layername=zones").featureCount() == 11


def test_saved_zones_give_what_zones_in_memory_give(run, tmp_path):
    design = raster(tmp_path / "d.tif", hills())
    layer = dug((PIT, "2", "1", "1.5"))
    one = pixels(run(design, layer)["OUTPUT"])
    other = run(design, saved(layer, tmp_path / "z.gpkg"), OUTPUT=str(tmp_path / "o.tif"))
    assert np.array_equal(one, pixels(other["OUTPUT"]))
