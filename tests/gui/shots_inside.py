"""Runs inside Desktop (see `shots`): opens each dialog, grabs it, and leaves."""

import os
import traceback
from pathlib import Path

import processing
from qgis.core import QgsApplication, QgsProject
from qgis.PyQt.QtCore import QEventLoop, QTimer
from qgis.PyQt.QtWidgets import QDialog, QGroupBox, QScrollArea
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
        for group in dialog.findChildren(QGroupBox, "grpAdvanced"):
            # Made in C++ by a form, which Python knows as a plain group box.
            group.setProperty("collapsed", False)
        wait(300)
        bars = [area.verticalScrollBar() for area in dialog.findChildren(QScrollArea)]
        for bar in bars:
            bar.setValue(bar.maximum())
        if any(bar.maximum() > 0 for bar in bars):
            shoot(dialog, f"{algorithm.name()}_end")
        dialog.close()


def runs():
    """Yield what is run on the sample: algorithm, parameters by layer name, what to look at."""
    layers = {layer.name(): layer.id() for layer in QgsProject.instance().mapLayers().values()}
    grade, zones = layers["Finished grade (mesh)"], layers["Zones"]
    by_zone = {"ZONES": zones, "DEPTH_FIELD": "depth", "PRIORITY_FIELD": "priority"}
    yield "slope_breaks", {"DESIGN": grade, "MIN_LENGTH": "1 ft"}
    yield (
        "guidelines",
        {
            "LINES": layers["Back of curb"],
            "REFERENCE": layers["Lane centreline"],
            "SURFACE": grade,
            "SIDE": "away",
            "Z_FROM": "surface",
            "OFFSETS": "9 in; 1.5 ft",
        },
    )
    yield "depth_tin", {"DESIGN": grade, **by_zone}
    yield "depth_raster", {"DESIGN": layers["Finished grade, shaded"], **by_zone}


def results():
    """Run on the sample project through the dialogs and grab what arrives on the map."""
    for name, parameters in runs():
        before = set(QgsProject.instance().mapLayers())
        dialog = processing.createAlgorithmDialog(f"undercourse:{name}", parameters)
        dialog.resize(1000, 780)
        dialog.show()
        shoot(dialog, f"{name}_filled")
        dialog.runAlgorithm()
        for _ in range(60):
            wait(500)
            if set(QgsProject.instance().mapLayers()) - before:
                break
        wait(1500)
        shoot(dialog, f"{name}_log")
        dialog.close()
        tree = QgsProject.instance().layerTreeRoot()
        for node in tree.findLayers():
            node.setItemVisibilityChecked(node.layerId() not in before)
        wait(2500)
        shoot(iface.mainWindow(), f"{name}_result")


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
        if project:
            results()
    except Exception:  # noqa: BLE001 - nobody sees a console here
        (FOLDER / "failure.txt").write_text(traceback.format_exc())
        os._exit(1)
    os._exit(0)


QTimer.singleShot(3000, everything)
