"""A missing, old or broken library reaches the user as one sentence, wherever he looks."""

import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest

from plugin import environment
from tests.commands import LIBRARIES, link_plugin, qgis_process

REMEDIES = {
    "linux": "sudo apt install python3-shapely",
    "win32": "OSGeo4W Shell",
    "darwin": "/Applications/QGIS.app/Contents/MacOS/bin/python3 -m pip install",
}


@pytest.fixture
def shapely_is(monkeypatch) -> Iterator:
    """Put a stand-in module in shapely's place; None makes its import fail."""

    def put(version: str | None, **functions) -> None:
        module = None
        if version is not None:
            module = ModuleType("shapely")
            module.__version__ = version
            module.__dict__.update(functions)
        monkeypatch.setitem(sys.modules, "shapely", module)

    return put


def test_this_environment_is_fit():
    assert environment.problem() is None


@pytest.mark.parametrize("platform", REMEDIES)
def test_missing_shapely_is_told_with_the_remedy_of_the_system(shapely_is, platform):
    shapely_is(None)
    sentence = environment.problem(platform)
    assert "shapely cannot be loaded" in sentence
    assert REMEDIES[platform] in sentence
    assert '"shapely>=2.1"' in sentence
    assert sentence.endswith("start QGIS again.")
    assert "\n" not in sentence


@pytest.mark.parametrize("version", ["1.8.5", "2.0.7", "2.0.7.post1", "garbage"])
def test_old_shapely_is_told_with_its_version(shapely_is, version):
    shapely_is(version)
    assert f"shapely is version {version} and 2.1 is needed" in environment.problem()


@pytest.mark.parametrize("version", ["2.1", "2.1.0rc1", "2.10.1", "3.0"])
def test_newer_versions_are_not_called_old(shapely_is, version):
    shapely_is(version)
    assert "is needed" not in environment.problem()


def test_shapely_that_cannot_write_wkb_is_told(shapely_is):
    def to_wkb(geometry):
        message = "output dimension must be 2 or 3"
        raise ValueError(message)

    shapely_is("2.1.2", linestrings=lambda xyz: xyz, to_wkb=to_wkb)
    sentence = environment.problem()
    assert "shapely 2.1.2 does not work together" in sentence
    assert "output dimension must be 2 or 3" in sentence


def test_missing_numpy_is_told(monkeypatch):
    monkeypatch.setitem(sys.modules, "numpy", None)
    assert "numpy cannot be loaded" in environment.problem()


@pytest.mark.parametrize(("platform", "remedy"), [("linux", "Debian 12"), ("win32", "installer")])
def test_old_python_is_told(monkeypatch, platform, remedy):
    monkeypatch.setattr(environment.sys, "version_info", (3, 9, 2))
    sentence = environment.problem(platform)
    assert "Python 3.11 or newer, and this QGIS runs on 3.9" in sentence
    assert remedy in sentence


@pytest.mark.parametrize(
    ("content", "told"),
    [
        ('__version__ = "1.8.5"', "shapely is version 1.8.5 and 2.1 is needed"),
        ("raise ModuleNotFoundError(\"No module named 'shapely'\")", "shapely cannot be loaded"),
    ],
)
def test_qgis_process_answers_with_the_sentence(tmp_path: Path, content, told):
    """The whole way: the plugin loads, lists its algorithms, and each says what is wrong."""
    fake = tmp_path / "libraries" / "shapely"
    fake.mkdir(parents=True)
    (fake / "__init__.py").write_text(content)
    profile = link_plugin(tmp_path / "profile")
    libraries = f"{fake.parent}:{LIBRARIES}"

    listed = qgis_process(profile, "list", libraries=libraries)
    assert "undercourse" in listed.stdout.lower()
    for name in ("depth_tin", "slope_breaks"):
        run = qgis_process(profile, "run", f"undercourse:{name}", "--", libraries=libraries)
        assert run.returncode == 1
        assert told in run.stderr
        assert "start QGIS again." in run.stderr
        assert "Traceback" not in run.stderr


def test_message_bar_shows_the_sentence(qgis_iface, monkeypatch):
    from qgis.core import Qgis

    from plugin.plugin import UndercoursePlugin

    monkeypatch.setattr(environment, "problem", lambda: "Something is missing: get it.")
    plugin = UndercoursePlugin(qgis_iface)
    plugin.initGui()
    try:
        shown = qgis_iface.messageBar().get_messages(Qgis.MessageLevel.Critical)
        assert any("Something is missing: get it." in text for text in shown)
    finally:
        plugin.unload()


def test_toolbox_shows_the_sentence_at_every_algorithm(qgis_app):
    from plugin.provider import ALGORITHMS
    from plugin.unfit import UnfitProvider

    provider = UnfitProvider("Something is missing: get it.")
    provider.refreshAlgorithms()
    assert {a.name() for a in provider.algorithms()} == {name for name, _ in ALGORITHMS}
    assert {a.canExecute() for a in provider.algorithms()} == {
        (False, "Something is missing: get it.")
    }
