"""The sample's project file opens clean, and its job does only what has to be done."""

import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import numpy as np
import pytest

from plugin.layers.ply import read_ply, write_arrays
from sample_project.pellworth.steps import Step, StepError, run_steps

from .commands import LIBRARIES, link_plugin

ROOT = Path(__file__).resolve().parent.parent
PROJECT = ROOT / "sample_project" / "pellworth.qgz"
THEMES = {"Design", "Zones and depths", "Lines to hold"}

SCRIPT = """
import pathlib, sys
source, target, log = map(pathlib.Path, sys.argv[1:])
if source.read_text() == "bad":
    sys.exit("the input is bad")
if source.read_text() != "silent":
    target.write_text(source.read_text().upper())
log.write_text(log.read_text() + "x")
"""


@pytest.fixture
def job(tmp_path):
    """A job of one step; call it to run, and see how often the step was really done."""
    script, source, target, log = (tmp_path / n for n in ("s.py", "in.txt", "out.txt", "log.txt"))
    script.write_text(SCRIPT)
    source.write_text("one")
    log.write_text("")
    step = Step(
        "shout", script, {"file": source}, {"made": target}, [str(source), str(target), str(log)]
    )

    def run():
        run_steps([step], tmp_path / "done", tmp_path)
        return len(log.read_text())

    run.source, run.target = source, target
    return run


def test_step_is_done_once(job, capsys):
    assert (job(), job()) == (1, 1)
    assert job.target.read_text() == "ONE"
    assert "up to date" in capsys.readouterr().out


def test_step_is_done_again_when_its_input_changes(job):
    job()
    job.source.write_text("two")
    assert job() == 2
    assert job.target.read_text() == "TWO"


def test_step_is_done_again_when_its_result_is_gone(job):
    job()
    job.target.unlink()
    assert job() == 2


def test_failed_step_tells_why_and_leaves_nothing(job):
    job()
    job.source.write_text("bad")
    with pytest.raises(StepError, match="the input is bad"):
        job()
    assert not job.target.exists()


def test_step_that_makes_nothing_has_failed(job):
    job.source.write_text("silent")
    with pytest.raises(StepError, match=r"did not write .*out\.txt"):
        job()


def test_unknown_algorithm_stops_the_job(tmp_path, monkeypatch):
    fake = tmp_path / "qgis_process"
    fake.write_text(f"#!{sys.executable}\nimport sys\nsys.exit('Algorithm {{}} not found!')\n")
    fake.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    step = Step("nothing", "undercourse:nothing", {}, {"made": tmp_path / "made"})
    with pytest.raises(StepError, match="not found"):
        run_steps([step], tmp_path / "done", tmp_path)


# --- the project file -------------------------------------------------------------------------


def test_project_names_no_machine_and_no_result():
    with zipfile.ZipFile(PROJECT) as packed:
        text = packed.read("pellworth.qgs").decode("utf-8")
    sources = re.findall(r"<datasource>([^<]+)</datasource>", text)
    assert len(sources) == 9
    assert all(source.startswith("./data/") for source in sources)
    for word in (str(ROOT), "/home/", "/root", "/tmp/", "saveDateTime", "./out"):
        assert word not in text, word


def test_project_opens_whole(qgis_new_project):
    from qgis.core import Qgis, QgsProject

    project = QgsProject.instance()
    assert project.read(str(PROJECT))
    layers = project.mapLayers()
    assert len(layers) == 9
    assert all(layer.isValid() for layer in layers.values())
    assert project.crs().authid() == "EPSG:6588"
    assert project.distanceUnits() == Qgis.DistanceUnit.FeetUSSurvey
    # QGIS gives new ids to layers whose id is short: the tree then loses them.
    assert all(node.layer() is not None for node in project.layerTreeRoot().findLayers())
    assert all(len(identity) >= 10 for identity in layers)
    themes = project.mapThemeCollection()
    assert set(themes.mapThemes()) == THEMES
    for theme in THEMES:
        assert len(themes.mapThemeVisibleLayers(theme)) >= 2, theme


# --- the whole job ----------------------------------------------------------------------------


@pytest.fixture(scope="module")
def main_job(tmp_path_factory):
    """Run the main job through ``qgis_process`` into a folder of its own."""
    folder = tmp_path_factory.mktemp("job")
    profile = link_plugin(folder / "qgis")
    (profile / "runtime").mkdir(mode=0o700)

    def run():
        environment = {
            "QT_QPA_PLATFORM": "offscreen",
            "QGIS_CUSTOM_CONFIG_PATH": str(profile),
            "XDG_RUNTIME_DIR": str(profile / "runtime"),
            "PYTHONPATH": LIBRARIES,
            "PELLWORTH_OUT": str(folder / "out"),
        }
        return subprocess.run(
            [sys.executable, str(ROOT / "sample_project" / "main_job.py")],
            env=os.environ | environment,
            capture_output=True,
            text=True,
            check=False,
            timeout=300,
        )

    run.out = folder / "out"
    return run


def test_main_job_makes_what_it_says(main_job):
    first = main_job()
    assert first.returncode == 0, first.stderr
    assert "62,538.48 sq ft" in first.stdout
    assert "1.250 usft (15.0 in)" in first.stdout
    assert first.stdout.count("flagged 0") >= 2
    assert "459.8 sq ft of sides 1.5:1; 32.7 sq ft past the plan's edge" in first.stdout
    assert "3 surfaces, 1,461.4 cu yd" in first.stdout
    assert (main_job.out / "courses" / "interface_3.ply").is_file()
    assert (main_job.out / "pellworth_overview.png").stat().st_size > 100_000
    second = main_job()
    assert second.returncode == 0, second.stderr
    assert "done in" not in second.stdout
    assert second.stdout.count("up to date") == first.stdout.count("done in")


def test_main_job_fails_when_a_figure_is_off(main_job):
    """A depth surface that lies 0.01 ft too high is told, and is no success."""
    if not (main_job.out / "depth.ply").exists():
        main_job()
    path = main_job.out / "depth.ply"
    surface = read_ply(path)
    raised = np.add(surface.vertices, [0.0, 0.0, 0.01])
    write_arrays(path, raised, surface.faces, surface.crs_wkt, surface.face_values)
    done = main_job()
    path.unlink()
    assert done.returncode != 0
    assert "depth.ply: largest difference from the stated depth, ft: 0.01" in done.stderr
