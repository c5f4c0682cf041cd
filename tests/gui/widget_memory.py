"""Make and drop the shared widgets many times; run with PYTHONMALLOC=debug by its test."""

import gc
import os
import sys

from qgis.core import QgsApplication, QgsProcessingContext

from plugin.algorithms import parameters
from plugin.gui.choice_widget import ChoiceWrapper
from plugin.gui.length_widget import LengthWrapper


def main():
    from qgis.PyQt.QtWidgets import QVBoxLayout, QWidget

    context = QgsProcessingContext()
    unit = parameters.vertical_unit()
    depth = parameters.length("DEPTH", "Depth", "0.2 ft")
    for _ in range(15):
        panel = QWidget()
        layout = QVBoxLayout(panel)
        made = [ChoiceWrapper(unit, None, labels=unit.options()), LengthWrapper(depth, None)]
        for wrapper in made:
            layout.addWidget(wrapper.createWrappedWidget(context))
        gc.collect()
        for wrapper in made:
            wrapper.postInitialize(made)
        assert [wrapper.parameterValue() for wrapper in made] == ["same", "0.2 ft"]
        del panel, layout, wrapper
        gc.collect()
        del made
        gc.collect()


application = QgsApplication([], True)
application.initQgis()
main()
sys.stdout.write("sound\n")
sys.stdout.flush()
os._exit(0)
