"""Runs the real ``qgis_process`` with the plugin in a profile of its own."""

import os
import subprocess
import sysconfig
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LIBRARIES = sysconfig.get_path("purelib")


def link_plugin(profile: Path) -> Path:
    """Link the plugin of this tree into a new profile, item by item, and enable it."""
    folder = plugin_folder(profile)
    folder.mkdir(parents=True)
    items = [*(ROOT / "plugin").iterdir(), ROOT / "metadata.txt", ROOT / "i18n"]
    for item in items:
        if item.name != "__pycache__":
            (folder / item.name).symlink_to(item)
    return enable(profile)


def plugin_folder(profile: Path) -> Path:
    return profile / "profiles" / "default" / "python" / "plugins" / "undercourse"


def enable(profile: Path, settings: str = "") -> Path:
    """Enable the plugin in the settings of a profile and return the profile."""
    ini = profile / "profiles" / "default" / "QGIS" / "QGIS3.ini"
    ini.parent.mkdir(parents=True)
    ini.write_text(f"[PythonPlugins]\nundercourse=true\n{settings}")
    return profile


def qgis_process(
    profile: Path, *arguments: str, libraries: str = LIBRARIES, **environment: str
) -> subprocess.CompletedProcess[str]:
    """Run ``qgis_process``; ``libraries`` is searched before the system's Python packages."""
    runtime = profile / "runtime"
    runtime.mkdir(mode=0o700, exist_ok=True)
    return subprocess.run(
        ["qgis_process", *arguments],
        env=os.environ
        | {
            "QT_QPA_PLATFORM": "offscreen",
            "QGIS_CUSTOM_CONFIG_PATH": str(profile),
            "XDG_RUNTIME_DIR": str(runtime),
            "PYTHONPATH": libraries,
            "PYTHONDONTWRITEBYTECODE": "1",
        }
        | environment,
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
