"""The zip that people install holds the whole plugin, is the same each time, and works."""

import importlib.util
import json
import xml.etree.ElementTree as ET
import zipfile
from pathlib import Path

import pytest

from tests.commands import ROOT, enable, plugin_folder, qgis_process


@pytest.fixture(scope="module")
def packaging():
    """Return the packaging script as a module."""
    spec = importlib.util.spec_from_file_location("packaging_script", ROOT / ".ci" / "package.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def archive(packaging, tmp_path_factory) -> Path:
    return packaging.package(tmp_path_factory.mktemp("first"))


def test_same_bytes_each_time(packaging, archive, tmp_path):
    (ROOT / "metadata.txt").touch()
    assert packaging.package(tmp_path).read_bytes() == archive.read_bytes()


def test_holds_everything_under_one_folder(archive, packaging):
    names = zipfile.ZipFile(archive).namelist()
    assert archive.name == f"undercourse-{packaging.version()}.zip"
    assert names == sorted(names)
    assert all(name.startswith("undercourse/") for name in names)
    for wanted in ("metadata.txt", "LICENSE", "__init__.py", "i18n/undercourse_fr.qm"):
        assert f"undercourse/{wanted}" in names
    modules = {path.relative_to(ROOT / "plugin") for path in (ROOT / "plugin").rglob("*.py")}
    assert {f"undercourse/{path.as_posix()}" for path in modules} <= set(names)
    assert not [name for name in names if "__pycache__" in name or name.endswith(".pyc")]


@pytest.fixture
def install(archive, tmp_path):
    """Install the zip in a fresh profile, with these settings."""

    def into(settings: str = "") -> Path:
        profile = enable(tmp_path / "profile", settings)
        zipfile.ZipFile(archive).extractall(plugin_folder(profile).parent)
        return profile

    return into


def test_installed_zip_runs_through_qgis_process(install, tmp_path):
    design = tmp_path / "design.geojson"
    design.write_text(json.dumps(folded_plane()))
    result = tmp_path / "breaks.gpkg"
    run = qgis_process(
        install(),
        *("--json", "run", "undercourse:slope_breaks", "--"),
        *(f"DESIGN={design}", "MIN_CHANGE=5", f"BREAKS={result}"),
    )
    assert run.returncode == 0, run.stderr
    results = json.loads(run.stdout)["results"]
    assert Path(results["BREAKS"].split("|")[0]) == result
    assert result.exists()
    assert results["COUNT"] == 1


def test_installed_zip_speaks_french(install):
    """One word of the help, from the compiled translation in the zip to the user's screen."""
    french = ET.parse(ROOT / "i18n" / "undercourse_fr.ts")
    words = {
        message.findtext("source"): message.findtext("translation")
        for message in french.iter("message")
    }
    run = qgis_process(
        install("[locale]\nuserLocale=fr\noverrideFlag=true\n"),
        *("help", "undercourse:slope_breaks"),
    )
    assert words["Slope breaks"] not in {"", "Slope breaks"}
    assert run.stdout.startswith(words["Slope breaks"]), run.stdout[:200]


def folded_plane() -> dict:
    """Return two pairs of triangles as GeoJSON: level west of x = 0, rising 10 % east of it."""
    corners = [(-10, 0, 5), (0, 0, 5), (10, 0, 6), (-10, 10, 5), (0, 10, 5), (10, 10, 6)]
    faces = [(0, 1, 3), (1, 4, 3), (1, 2, 4), (2, 5, 4)]
    east, north = 500000, 5200000
    return {
        "type": "FeatureCollection",
        "crs": {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::32617"}},
        "features": [
            {
                "type": "Feature",
                "properties": {},
                "geometry": {
                    "type": "Polygon",
                    "coordinates": [
                        [
                            [east + corners[k][0], north + corners[k][1], corners[k][2]]
                            for k in (*face, face[0])
                        ]
                    ],
                },
            }
            for face in faces
        ],
    }
