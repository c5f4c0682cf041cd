"""The set-up of a machine: what it says where it cannot go on, and the profile that it links."""

import subprocess
from pathlib import Path

import pytest

from tests.commands import ROOT

NO_QGIS = "qgis_version() { :; }; update_lists() { :; }; install_packages() { :; }; "


def shell(code: str) -> subprocess.CompletedProcess[str]:
    """Run code after the set-up's functions have been defined."""
    script = f'set -euo pipefail\nsource "{ROOT}/.ci/setup.sh"\nLOG=/dev/null\n{code}'
    return subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=False)


@pytest.mark.parametrize(
    ("version", "fits"),
    [
        ("3.40", True),
        ("3.40.6", True),
        ("3.44.15", True),
        ("4.0.1", True),
        ("3.4.8", False),
        ("3.34.4", False),
        ("3.22.16", False),
        ("0", False),
    ],
)
def test_versions_are_compared_by_number(version, fits):
    assert (shell(f"at_least {version} 3.40").returncode == 0) is fits


def test_qgis_of_this_machine_is_found():
    assert shell("qgis_version").stdout.split(".")[0] in {"3", "4"}


def test_too_old_qgis_is_told_in_one_sentence():
    run = shell("qgis_version() { printf 3.22.16; }; install_system_packages run")
    assert run.returncode == 1
    assert run.stderr.count("\n") == 1
    assert "QGIS 3.22.16 is installed and Undercourse needs 3.40 or newer" in run.stderr


def test_a_system_that_offers_only_an_old_qgis_is_told_in_one_sentence(tmp_path):
    (tmp_path / "os-release").write_text("ID=ubuntu\nVERSION_CODENAME=noble\n")
    run = shell(
        f"OS_RELEASE='{tmp_path}/os-release'; candidate() {{ printf 3.34.4; }}; "
        f"{NO_QGIS} install_system_packages run"
    )
    assert run.returncode == 1
    assert run.stderr.count("\n") == 1
    assert "offer QGIS 3.34.4 and Undercourse needs 3.40 or newer" in run.stderr


def test_without_root_and_sudo_it_says_so(tmp_path):
    run = shell(f"id() {{ echo 1000; }}; PATH='{tmp_path}'; as_root touch '{tmp_path}/made'")
    assert run.returncode == 1
    assert "run this as root or install sudo" in run.stderr
    assert not (tmp_path / "made").exists()


def test_a_failed_command_shows_the_end_of_its_output(tmp_path):
    run = shell(
        f"LOG='{tmp_path}/log'; logged 'it went wrong' bash -c 'echo the reason; exit 3'; echo on"
    )
    assert run.returncode == 1
    assert "the reason" in run.stderr
    assert "it went wrong" in run.stderr
    assert run.stdout == ""


def test_profile_links_the_tree_and_drops_what_has_gone(tmp_path):
    profile = tmp_path / "with a space"
    code = f"PROFILE='{profile}'; link_profile"
    assert shell(code).returncode == 0
    folder = profile / "profiles" / "default" / "python" / "plugins" / "undercourse"
    linked = {item.name: item.resolve() for item in folder.iterdir()}
    assert linked["metadata.txt"] == ROOT / "metadata.txt"
    assert linked["__init__.py"] == ROOT / "plugin" / "__init__.py"
    assert linked["core"] == ROOT / "plugin" / "core"
    assert linked["i18n"] == ROOT / "i18n"
    assert "__pycache__" not in linked
    (folder / "gone.py").symlink_to(tmp_path / "nowhere.py")
    assert shell(code).returncode == 0
    assert not (folder / "gone.py").is_symlink()
    assert Path(profile / "runtime").stat().st_mode & 0o777 == 0o700
