"""What the tree promises as a whole: its top level, its arrows, its sizes, its words."""

import ast
import configparser
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.commands import ROOT

TOP_LEVEL = {
    "CHANGELOG.md",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "i18n",
    "metadata.txt",
    "plugin",
    "pyproject.toml",
    "sample_project",
    "tests",
}
MADE = {"build", "__pycache__"}
LONGEST_MODULE = 400

PLUGIN = ROOT / "plugin"
MODULES = sorted(PLUGIN.rglob("*.py"))
TEXTS = {".py", ".sh", ".md", ".txt", ".toml", ".ts", ".model3", ".qgs", ".qml", ".csv", ".xml"}


def texts():
    """Yield every text file of the tree that people have written."""
    own = [ROOT / name for name in sorted(TOP_LEVEL)] + [ROOT / ".ci"]
    for top in own:
        for path in [top] if top.is_file() else sorted(top.rglob("*")):
            if path.suffix in TEXTS and "out" not in path.relative_to(ROOT).parts:
                yield path
    yield ROOT / ".ci" / "run"


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def test_top_level_is_exactly_this():
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert found - MADE == TOP_LEVEL


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_modules_stay_short(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST_MODULE


def imported(path: Path):
    """Yield the absolute module names that a file imports."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            yield node.module


def test_imports_inside_the_plugin_are_relative():
    """The installed folder is called undercourse, so that ``import plugin`` would fail there."""
    wrong = [
        name_of(path)
        for path in MODULES
        if any(module.split(".")[0] in {"plugin", "undercourse"} for module in imported(path))
    ]
    assert wrong == []


def test_no_optional_library_is_imported_with_a_module():
    """Scipy and matplotlib fail to load in some QGIS bundles."""
    wrong = [
        (name_of(path), node.lineno)
        for path in MODULES
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.Import | ast.ImportFrom)
        and re.search(r"\b(scipy|matplotlib|numba)\b", ast.unparse(node))
    ]
    assert wrong == []


def test_core_runs_without_qgis():
    """Import all of core where qgis, GDAL's bindings and Qt cannot be imported."""
    modules = [
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        for path in sorted((PLUGIN / "core").rglob("*.py"))
    ]
    program = (
        "import importlib, sys\n"
        "for name in ('qgis', 'osgeo', 'PyQt5', 'PyQt6', 'scipy', 'matplotlib'):\n"
        "    sys.modules[name] = None\n"
        f"for name in {modules!r}:\n"
        "    importlib.import_module(name)\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr


def test_import_contract():
    run = subprocess.run(
        [str(Path(sys.executable).parent / "lint-imports"), "--no-cache"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout


def metadata() -> configparser.SectionProxy:
    parser = configparser.ConfigParser()
    parser.read(ROOT / "metadata.txt", encoding="utf-8")
    return parser["general"]


def test_metadata_is_what_qgis_needs():
    found = metadata()
    needed = "name version description about author email repository tracker"
    assert [key for key in needed.split() if not found.get(key)] == []
    assert found["qgisMinimumVersion"] == "3.40"
    assert found["qgisMaximumVersion"] == "4.99"
    assert found["hasProcessingProvider"] == "yes"
    assert (PLUGIN / found["icon"]).is_file()


def test_version_stands_in_the_metadata_alone():
    version = metadata()["version"]
    assert re.fullmatch(r"\d+\.\d+\.\d+", version)
    for path in [ROOT / "pyproject.toml", *MODULES]:
        assert f'"{version}"' not in path.read_text(encoding="utf-8"), name_of(path)


def test_no_path_of_a_machine_and_no_address_of_a_registry():
    folders = ("work", "root", "tmp", "home")
    hosts = ("pypi org", "files pythonhosted org", "deb debian org", "archive ubuntu com")
    words = [f"/{folder}/[a-z]" for folder in folders]
    words += [r"\.".join(host.split()) for host in hosts]
    pattern = re.compile("|".join(words))
    wrong = [
        f"{name_of(path)}: {hit.group()}"
        for path in texts()
        for hit in pattern.finditer(path.read_text(encoding="utf-8", errors="replace"))
    ]
    assert wrong == []


def test_readme_opens_with_one_paragraph_then_the_two_commands():
    blocks = (ROOT / "README.md").read_text(encoding="utf-8").split("\n\n")
    assert blocks[0] == "# Undercourse"
    assert blocks[1].startswith("Undercourse is a QGIS plugin for")
    assert "bash sample_project/run.sh" in blocks[2]
    assert "bash tests/run.sh" in blocks[2]


def test_files_that_the_readme_shows_exist():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    targets = re.findall(r"\]\(([^):]+)\)", text)
    assert targets
    assert [name for name in targets if not (ROOT / name).exists()] == []


def test_every_algorithm_is_named_where_people_look():
    from plugin.provider import ALGORITHMS

    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    for name, _ in ALGORITHMS:
        assert f"`undercourse:{name}`" in readme
        assert (PLUGIN / "algorithms" / f"{name}.py").is_file()
