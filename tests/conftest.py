"""Fixtures that several folders share."""

import pytest


@pytest.fixture(scope="module")
def provider(qgis_app, qgis_processing):
    """The provider of the plugin, registered as Desktop does it."""
    from plugin.plugin import UndercoursePlugin

    whole = UndercoursePlugin(None)
    whole.initProcessing()
    assert whole.provider is not None
    yield whole.provider
    whole.unload()


@pytest.fixture(scope="module")
def probes(qgis_app, qgis_processing):
    """A provider with one algorithm that uses every part of the base."""
    from qgis.core import QgsApplication

    from tests.algorithms.probe import ProbeProvider

    made = ProbeProvider()
    QgsApplication.processingRegistry().addProvider(made)
    yield made
    QgsApplication.processingRegistry().removeProvider(made)
