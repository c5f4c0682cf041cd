"""Runs inside Desktop (see `shots`): opens each dialog, grabs it, and leaves."""

import os
import traceback
from pathlib import Path

import processing
from qgis.core import QgsApplication, QgsProject
from qgis.PyQt.QtCore import QEventLoop, QTimer
from qgis.PyQt.QtWidgets import QDialog, QScrollArea
from qgis.utils import iface

FOLDER = Path(os.environ["SHOTS_FOLDER"])


def wait(milliseconds):
    loop = QEventLoop()
    QTimer.singleShot(milliseconds, loop.quit)
    loop.exec()


def shoot(widget, name):
    wait(600)
    widget.grab().save(str(FOLDER / f"{name}.png"))


def dialogs():
    registry = QgsApplication.processingRegistry()
    for algorithm in registry.providerById("undercourse").algorithms():
        dialog = processing.createAlgorithmDialog(algorithm.id(), {})
        dialog.resize(1000, 780)
        dialog.show()
        shoot(dialog, algorithm.name())
        bar = dialog.findChild(QScrollArea).verticalScrollBar()
        if bar.maximum() > 0:
            bar.setValue(bar.maximum())
            shoot(dialog, f"{algorithm.name()}_end")
        dialog.close()


def everything():
    try:
        project = os.environ.get("SHOTS_PROJECT")
        if project:
            QgsProject.instance().read(project)
            wait(4000)
        for stray in iface.mainWindow().findChildren(QDialog):
            if stray.isVisible():
                stray.close()
        iface.mainWindow().resize(1480, 960)
        iface.mainWindow().move(0, 0)
        shoot(iface.mainWindow(), "desktop")
        dialogs()
    except Exception:  # noqa: BLE001 - nobody sees a console here
        (FOLDER / "failure.txt").write_text(traceback.format_exc())
        os._exit(1)
    os._exit(0)


QTimer.singleShot(3000, everything)
