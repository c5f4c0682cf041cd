"""Take pictures of Desktop with the plugin: every dialog, the toolbox, and a project if given.

Run with the environment's Python: ``python tests/gui/shots.py FOLDER [PROJECT]``. Needs
``xvfb-run``; the profile is made in a temporary folder.
"""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.commands import LIBRARIES, link_plugin

SETTINGS = """processing=true
[app]
[core]
[qgis]
showTips=false
checkVersion=false
[locale]
overrideFlag=true
userLocale={locale}
"""


def main() -> int:
    """Start Desktop on a display of its own and wait until it has taken its pictures."""
    folder = Path(sys.argv[1]).resolve()
    folder.mkdir(parents=True, exist_ok=True)
    project = str(Path(sys.argv[2]).resolve()) if len(sys.argv) > 2 else ""
    with tempfile.TemporaryDirectory() as temporary:
        profile = link_plugin(Path(temporary))
        ini = profile / "profiles" / "default" / "QGIS" / "QGIS3.ini"
        locale = os.environ.get("SHOTS_LOCALE", "en_US")
        ini.write_text(ini.read_text() + SETTINGS.format(locale=locale))
        runtime = profile / "runtime"
        runtime.mkdir(mode=0o700)
        command = ["xvfb-run", "-a", "-s", "-screen 0 1500x1000x24", "qgis", "--nologo"]
        command += ["--noversioncheck", "--code", str(Path(__file__).with_name("shots_inside.py"))]
        environment = os.environ | {
            "QGIS_CUSTOM_CONFIG_PATH": str(profile),
            "XDG_RUNTIME_DIR": str(runtime),
            "PYTHONPATH": LIBRARIES,
            "PYTHONDONTWRITEBYTECODE": "1",
            "GDAL_PAM_ENABLED": "NO",  # no statistics beside the sample's rasters
            "SHOTS_FOLDER": str(folder),
            "SHOTS_PROJECT": project,
        }
        environment.pop("QT_QPA_PLATFORM", None)
        return subprocess.run(command, env=environment, check=False, timeout=300).returncode


if __name__ == "__main__":
    sys.exit(main())
