"""Slope breaks and patches over a width, as a user finds them in QGIS."""

import numpy as np
import pytest
from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingException, QgsProcessingUtils

from plugin.core.tin import Tin
from plugin.layers.meshes import write_ply
from tests.algorithms.test_slope_breaks import FEET, rows, run, street_mesh
from tests.core.breaks_sites import LENGTH, WIDTH, planted

__all__ = ["run"]  # the fixture


def patches(made):
    found = made["PATCHES"]
    return (
        QgsProcessingUtils.mapLayerFromString(found, made["context"])
        if isinstance(found, str)
        else found
    )


def site_mesh(folder, noise):
    site = planted(noise, 1)
    path = folder / "site.ply"
    tin = Tin.from_arrays(site.vertices + np.array([1_500_000, 600_000, 0]), site.faces)
    write_ply(str(path), tin, QgsCoordinateReferenceSystem(FEET))
    return str(path)


def test_noise_gives_confetti_face_by_face_and_whole_lines_over_a_width(run, tmp_path):
    mesh = site_mesh(tmp_path, 0.03)
    raw = run(mesh, MIN_CHANGE=2)
    wide = run(mesh, MIN_CHANGE=2, KEEP_CHANGE=1.5, TOLERANCE="8 ft", GAP="3 ft", MIN_LENGTH="8 ft")
    assert raw["COUNT"] > 20 * wide["COUNT"]
    assert wide["COUNT"] <= 12
    assert 0 < wide["LARGEST_MOVE"] <= 8
    assert sum(row["length"] > 0.99 * LENGTH for row in rows(wide["BREAKS"])) == 3
    assert all(0 <= row["confidence"] <= 100 for row in rows(wide["BREAKS"]))


def test_patches_cover_the_design_with_grade_and_fall(run, tmp_path):
    made = run(site_mesh(tmp_path, 0.0), TOLERANCE="8", KEEP_CHANGE=1.5, PATCHES="TEMPORARY_OUTPUT")
    found = sorted(rows(patches(made)), key=lambda row: -row["area"])
    assert len(found) == made["PATCH_COUNT"]
    assert sum(row["area"] for row in found) == pytest.approx(WIDTH * LENGTH)
    lawn = found[0]
    # 7 % to the east and 1 % to the north: downhill is west by south.
    assert lawn["grade"] == pytest.approx(100 * np.hypot(0.07, 0.01), abs=1e-6)
    assert lawn["fall_bearing"] == pytest.approx(
        np.degrees(np.arctan2(-0.07, -0.01)) % 360, abs=1e-4
    )
    assert lawn["residual"] == pytest.approx(0.0, abs=1e-6)


def test_patches_without_a_width_are_the_flat_parts(run, tmp_path):
    made = run(street_mesh(tmp_path), PATCHES="TEMPORARY_OUTPUT")
    # Lane, gutter, top of curb, strip and lawn; the curb face is upright.
    grades = sorted({round(row["grade"], 2) for row in rows(patches(made))})
    assert len(grades) >= 4
    assert made["LARGEST_MOVE"] == 0


def test_a_threshold_to_continue_above_zero_only(run, tmp_path):
    with pytest.raises(QgsProcessingException):
        run(street_mesh(tmp_path), KEEP_CHANGE=0)
