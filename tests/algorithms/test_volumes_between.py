"""Cut and fill as a reviewer asks for them, in QGIS and through ``qgis_process``."""

import json

import numpy as np
import pytest
import shapely
from qgis.core import (
    NULL,
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsVectorLayer,
)

from plugin.core.tin import Tin
from plugin.layers.meshes import read_ply, write_ply
from tests.algorithms.raster_cases import raster
from tests.algorithms.test_depth_tin import FEET, METRES, ORIGIN, Log, box, saved, zones
from tests.commands import link_plugin, qgis_process

ALGORITHM = "undercourse:volumes_between"
SQUARE = np.array([(0, 0), (100, 0), (100, 80), (0, 80)], float)


def surface(folder, name, z, crs=FEET):
    """Two triangles over 100 x 80 with these heights at the corners."""
    path = folder / f"{name}.ply"
    tin = Tin.from_arrays(np.column_stack((SQUARE + ORIGIN, z)), [(0, 1, 2), (0, 2, 3)])
    write_ply(path, tin, QgsCoordinateReferenceSystem(crs))
    return str(path)


def tilted(folder):
    """East of x = 40 the ground lies above: (x - 40) / 20."""
    ground = surface(folder, "ground", (8.0, 13.0, 13.0, 8.0))
    return ground, surface(folder, "subgrade", (10.0,) * 4)


def rising(x, y):
    return 8 + x / 20 + 0 * y


def northward(x, y):
    return 10 + y / 80 + 0 * x


def heights_of(z, folder, name, pixel=0.5, shift=0.0, kind="float64"):
    """A raster of 100 x 80 from a function of x and y."""
    columns, rows = round(100 / pixel), round(80 / pixel)
    x = (np.arange(columns) + 0.5) * pixel + shift
    y = 80 - (np.arange(rows) + 0.5) * pixel
    place = (ORIGIN[0] + shift, pixel, 0, ORIGIN[1] + 80, 0, -pixel)
    values = z(*np.meshgrid(x, y)).astype(kind)
    return raster(folder / f"{name}.tif", values, pixel=pixel, transform=place)


@pytest.fixture
def run(provider):
    import processing

    def call(upper, lower, feedback=None, **parameters):
        given = {"UPPER": upper, "LOWER": lower, **parameters}
        given.setdefault("CELLS", "TEMPORARY_OUTPUT")
        given.setdefault("SUMMARY", "TEMPORARY_OUTPUT")
        context = QgsProcessingContext()
        results = processing.run(ALGORITHM, given, context=context, feedback=feedback)
        for name in ("CELLS", "SUMMARY"):
            if isinstance(results.get(name), str):
                results[name] = QgsProcessingUtils.mapLayerFromString(results[name], context)
        results["context"] = context
        return results

    return call


def rows(layer):
    names = [field.name() for field in layer.fields()]
    return [dict(zip(names, f.attributes(), strict=True)) for f in layer.getFeatures()]


def test_cut_and_fill_of_two_planes_in_all_units(run, tmp_path):
    """A wedge of 60 x 3 / 2 above and one of 40 x 2 / 2 below, 80 long."""
    found = run(*tilted(tmp_path))
    assert (found["CUT"], found["FILL"], found["NET"]) == pytest.approx((7200, 3200, 4000))
    assert (found["CUT_AREA"], found["FILL_AREA"]) == pytest.approx((4800, 3200))
    assert found["CUT_YD3"] == pytest.approx(7200 / 27)
    assert found["CUT_M3"] == pytest.approx(7200 * (1200 / 3937) ** 3)
    cells = rows(found["CELLS"])
    assert [cell["kind"] for cell in cells] == ["fill", "cut"]
    assert [cell["volume"] for cell in cells] == pytest.approx([-3200, 7200])
    assert [f.geometry().area() for f in found["CELLS"].getFeatures()] == pytest.approx(
        [3200, 4800], rel=1e-6
    )
    (total,) = rows(found["SUMMARY"])
    assert (total["row"], total["zone"]) == ("total", NULL)
    assert (total["diff_min"], total["diff_mean"], total["diff_max"]) == pytest.approx(
        (-2.0, 0.5, 3.0)
    )


def test_exchanged_surfaces_exchange_cut_and_fill(run, tmp_path):
    ground, subgrade = tilted(tmp_path)
    layer = zones((box(20, 10, 60, 70), "0", 0, 1), (box(60, 10, 90, 70), "0", 0, 1))
    there, back = run(ground, subgrade, ZONES=layer), run(subgrade, ground, ZONES=layer)
    assert (there["CUT"], there["FILL"]) == pytest.approx((back["FILL"], back["CUT"]))
    assert there["NET"] == pytest.approx(-back["NET"])


def test_zones_add_up_and_what_lies_outside_is_told(run, tmp_path):
    layer = zones((box(0, 0, 40, 80), "0", 0, 1), (box(40, 0, 90, 80), "0", 0, 1))
    found = run(*tilted(tmp_path), ZONES=layer)
    table = rows(found["SUMMARY"])
    assert [row["row"] for row in table] == ["zone", "zone", "total", "outside"]
    assert [row["zone"] for row in table[:2]] == ["zone <1>", "zone <2>"]
    assert table[0]["fill_yd3"] == pytest.approx(3200 / 27)
    assert table[0]["cut_yd3"] == pytest.approx(0, abs=1e-9)
    assert table[1]["cut_yd3"] == pytest.approx(80 * 50**2 / 40 / 27)
    assert table[2]["net_yd3"] == pytest.approx(table[0]["net_yd3"] + table[1]["net_yd3"])
    assert table[3]["cut_yd3"] == pytest.approx(80 * 10 * 2.75 / 27)
    assert found["CUT"] + table[3]["cut_yd3"] * 27 == pytest.approx(7200)


def test_the_share_without_data_is_flagged(run, tmp_path):
    log = Log()
    layer = zones((box(60, 0, 140, 80), "0", 0, 1))
    found = run(*tilted(tmp_path), log, ZONES=layer, HTML=str(tmp_path / "page.html"))
    assert found["NO_DATA_SHARE"] == pytest.approx(50)
    row = rows(found["SUMMARY"])[0]
    assert (row["flag"], row["area_no_data"]) == ("no_data", pytest.approx(3200))
    assert "50.0 % of the area of the zones" in (tmp_path / "page.html").read_text()


def test_a_raster_over_a_tin_is_prisms_over_its_pixels(run, tmp_path):
    _, subgrade = tilted(tmp_path)
    ground = heights_of(rising, tmp_path, "ground")
    found = run(ground, subgrade)
    # Whole pixels on either side of x = 40, the difference at their centres: exact for planes.
    assert (found["CUT"], found["FILL"]) == pytest.approx((7200, 3200))
    back = run(subgrade, ground)
    assert (back["CUT"], back["FILL"]) == (found["FILL"], found["CUT"])
    kinds = {cell["kind"]: cell["area"] for cell in rows(found["CELLS"])}
    assert kinds == pytest.approx({"cut": 4800, "fill": 3200})
    shapes = {f["kind"]: f.geometry().area() for f in found["CELLS"].getFeatures()}
    assert shapes == pytest.approx(kinds)


@pytest.mark.parametrize(("pixel", "shift"), [(0.5, 0.0), (0.8, 0.0), (0.5, 0.2)])
def test_rasters_that_fit_and_rasters_that_do_not(run, tmp_path, pixel, shift):
    ground = heights_of(rising, tmp_path, "ground")
    other = heights_of(northward, tmp_path, "made", pixel, shift)
    found, back = run(ground, other), run(other, ground)
    assert found["NET"] == pytest.approx(-back["NET"], abs=1e-6)
    # (x - 40) / 20 - y / 80 over the ground they share: 0.5 - 0.5 in the mean over 100 x 80.
    wide = 100 - shift
    exact = 80 * (((100 - 40) ** 2 - (shift - 40) ** 2) / 40) - wide * 80 / 2
    assert found["AREA"] == pytest.approx(80 * wide, rel=5e-3)
    assert found["NET"] == pytest.approx(exact, abs=120)


def test_missing_pixels_are_in_no_volume(run, tmp_path):
    def holed(x, y):
        return np.where((x > 60) & (y > 40), -9999.0, 8 + x / 20)

    _, subgrade = tilted(tmp_path)
    layer = zones((box(60, 20, 90, 60), "0", 0, 1))
    found = run(heights_of(holed, tmp_path, "ground"), subgrade, ZONES=layer)
    assert found["NO_DATA_SHARE"] == pytest.approx(50)
    assert found["CUT"] == pytest.approx(20 * (50**2 - 20**2) / 40)


def test_bands_of_difference(run, tmp_path):
    found = run(*tilted(tmp_path), BANDS="1 ft")
    cells = rows(found["CELLS"])
    assert [(c["kind"], c["diff_from"], c["diff_to"]) for c in cells] == [
        ("fill", -2, -1), ("fill", -1, 0), ("cut", 0, 1), ("cut", 1, 2), ("cut", 2, 3),
    ]  # fmt: skip
    assert [c["area"] for c in cells] == pytest.approx([1600.0] * 5)
    assert sum(c["volume"] for c in cells) == pytest.approx(4000)


@pytest.mark.parametrize(
    ("shows", "heights"),
    [("difference", (-2, 0, 3)), ("higher", (10, 10, 13)), ("lower", (8, 10, 10))],
)
def test_a_surface_made_of_both(run, tmp_path, shows, heights):
    path = tmp_path / "made.ply"
    found = run(*tilted(tmp_path), SHOWS=shows, SURFACE=str(path))
    assert found["SURFACE"] == str(path)
    made = read_ply(path)
    tin = Tin.from_arrays(made.vertices, made.faces)
    z, _ = tin.sample(np.array([(0, 40), (40, 40), (100, 40)]) + ORIGIN)
    assert z == pytest.approx(heights)
    assert tin.plan_area == pytest.approx(8000)


def test_a_surface_is_made_of_tins_only(run, tmp_path):
    ground = heights_of(rising, tmp_path, "ground")
    with pytest.raises(QgsProcessingException, match="“ground” is a raster"):
        run(ground, tilted(tmp_path)[1], SURFACE=str(tmp_path / "made.ply"))


def test_loose_and_compacted(run, tmp_path):
    found = run(*tilted(tmp_path), LOOSE=1.25, COMPACTED=0.8)
    (total,) = rows(found["SUMMARY"])
    assert total["cut_loose_yd3"] == pytest.approx(9000 / 27)
    assert total["fill_bank_yd3"] == pytest.approx(4000 / 27)
    assert total["balance_bank_yd3"] == pytest.approx(3200 / 27)


def test_the_report_says_cut_with_the_names_of_the_layers(run, tmp_path):
    page = tmp_path / "volumes.html"
    layer = zones((box(0, 0, 40, 80), "0", 0, 1))
    run(*tilted(tmp_path), ZONES=layer, HTML=str(page), LOOSE=1.25)
    text = page.read_text()
    assert "CUT is where “ground” lies above “subgrade”" in text
    assert "FILL is where “ground” lies below “subgrade”" in text
    assert "118.52 yd³ (90.61 m³)" in text  # 3200 ft³ of survey feet
    assert "zone &lt;1&gt;" in text and "zone <1>" not in text
    assert "<svg" in text and "Have underground utilities" in text and "<script" not in text


def test_a_mistake_is_one_sentence(run, tmp_path):
    ground, subgrade = tilted(tmp_path)
    twice = zones((box(0, 0, 40, 80), "0", 0, 1), (box(20, 0, 60, 80), "0", 0, 2))
    with pytest.raises(QgsProcessingException, match="Zones 1 and 2 overlap by 1600"):
        run(ground, subgrade, ZONES=twice)
    settled = run(ground, subgrade, ZONES=twice, PRIORITY_FIELD="priority")
    assert [row["area"] for row in rows(settled["SUMMARY"])[:2]] == pytest.approx([3200, 1600])
    with pytest.raises(QgsProcessingException, match="choose an interval"):
        run(ground, subgrade, BANDS="0.001 ft")
    with pytest.raises(QgsProcessingException, match="greater than 0"):
        run(ground, subgrade, BANDS="0")
    metric = surface(tmp_path, "metric", (1.0,) * 4, METRES)
    with pytest.raises(QgsProcessingException, match="metric"):
        run(ground, metric)


def test_surfaces_apart_are_warned_of(run, tmp_path):
    ground, _ = tilted(tmp_path)
    path = tmp_path / "far.ply"
    plan = SQUARE + ORIGIN + (500.0, 0.0)
    far = Tin.from_arrays(np.column_stack((plan, np.ones(4))), [(0, 1, 2), (0, 2, 3)])
    write_ply(path, far, QgsCoordinateReferenceSystem(FEET))
    log = Log()
    found = run(ground, str(path), log)
    assert found["CUT"] == 0 and found["AREA"] == 0
    assert any("share no ground" in text for text in log.warnings)


def test_faces_over_one_another_are_told(run, tmp_path):
    path = tmp_path / "doubled.ply"
    plan = np.vstack((SQUARE, SQUARE[:3] * 0.5 + 10)) + ORIGIN
    twice = Tin.from_arrays(
        np.column_stack((plan, np.full(7, 11.0))), [(0, 1, 2), (0, 2, 3), (4, 5, 6)]
    )
    write_ply(path, twice, QgsCoordinateReferenceSystem(FEET))
    log = Log()
    run(str(path), tilted(tmp_path)[1], log)
    assert any("“doubled” has" in text and "count twice" in text for text in log.warnings)


def test_the_command_line_runs_it(tmp_path):
    profile = link_plugin(tmp_path / "qgis")
    ground, subgrade = tilted(tmp_path)
    layer = saved(zones((box(0, 0, 40, 80), "0", 0, 1)), tmp_path)
    cells = tmp_path / "cells.gpkg"
    words = [f"UPPER={ground}", f"LOWER={subgrade}", f"ZONES={layer}", f"CELLS={cells}"]
    words += [f"SUMMARY={tmp_path / 'table.gpkg'}", f"HTML={tmp_path / 'page.html'}"]
    done = qgis_process(profile, "--json", "run", ALGORITHM, "--", *words)
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    assert results["FILL"] == pytest.approx(3200)
    found = QgsVectorLayer(str(cells), "cells")
    # The zone, and what lies outside it.
    assert [(f["zone"], f["kind"]) for f in found.getFeatures()] == [
        ("zone <1>", "fill"), (NULL, "cut"),
    ]  # fmt: skip
    (first, _) = found.getFeatures()
    shape = shapely.from_wkt(first.geometry().asWkt(6))
    assert shape.symmetric_difference(box(0, 0, 40, 80)).area < 1e-3
