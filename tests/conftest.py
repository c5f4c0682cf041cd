"""Fixtures that several folders share."""

import os

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


@pytest.fixture(scope="session")
def provider(qgis_app, qgis_processing):
    """The provider of the plugin, registered as Desktop does it."""
    from qgis.core import QgsApplication

    from plugin.plugin import UndercoursePlugin

    found = QgsApplication.processingRegistry().providerById("undercourse")
    if found is not None:
        yield found
        return
    whole = UndercoursePlugin(None)
    whole.initProcessing()
    yield whole.provider
    whole.unload()
