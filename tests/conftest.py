"""Fixtures that several folders share, and how hypothesis draws its cases."""

import os

import pytest
from hypothesis import settings

# The same cases in every run, so that a change is judged by what it changes. To look for new ones:
# HYPOTHESIS_PROFILE=explore; the long runs in tests/benchmarks look much further.
settings.register_profile("settled", derandomize=True, database=None, deadline=None)
settings.register_profile("explore", deadline=None, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "settled"))


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
