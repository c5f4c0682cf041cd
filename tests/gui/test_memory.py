"""QGIS takes over widgets that Python made: nothing may be used after it was freed."""

import os
import subprocess
import sys

from tests.commands import ROOT


def test_widgets_come_and_go_without_harm():
    """In a process of its own, where Python overwrites memory that it frees."""
    run = subprocess.run(
        [sys.executable, "-m", "tests.gui.widget_memory"],
        cwd=ROOT,
        env=os.environ | {"PYTHONMALLOC": "debug", "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.stdout.strip() == "sound", run.stderr[-2000:]
