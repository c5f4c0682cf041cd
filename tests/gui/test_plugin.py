"""The plugin starts, says what is missing, speaks the user's language and leaves no trace."""

import shutil
import subprocess

import pytest
from qgis.core import QgsApplication
from qgis.PyQt.QtCore import QCoreApplication

from plugin import environment, plugin
from plugin.core.text import translate

TS = """<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS><TS version="2.1" language="xx"><context><name>Base</name><message>
<source>Guidelines</source><translation>Suivantes</translation></message></context></TS>
"""


class Bar:
    def __init__(self):
        self.messages = []

    def pushMessage(self, *message):
        self.messages.append(message)


class Interface:
    """The one thing the plugin asks of Desktop."""

    def __init__(self):
        self.bar = Bar()

    def messageBar(self):
        return self.bar


def registered():
    return QgsApplication.processingRegistry().providerById("undercourse")


@pytest.fixture
def nothing_registered(qgis_app, qgis_processing):
    """QGIS takes one provider of an id; the one of other tests is gone at the end of a module."""
    assert registered() is None


def test_missing_library_is_told_in_the_message_bar(nothing_registered, monkeypatch):
    monkeypatch.setattr(environment, "problem", lambda *_: "shapely is too old: get 2.1.")
    host = Interface()
    whole = plugin.UndercoursePlugin(host)
    whole.initGui()
    try:
        ((_, sentence, _, seconds),) = host.bar.messages
        assert sentence == "shapely is too old: get 2.1."
        assert seconds == 0  # until it is clicked away
        assert registered().warningMessage() == "shapely is too old: get 2.1."
        allowed, why = registered().algorithm("guidelines").canExecute()
        assert not allowed
        assert why == "shapely is too old: get 2.1."
    finally:
        whole.unload()
    assert registered() is None


def test_start_and_end(nothing_registered):
    host = Interface()
    whole = plugin.UndercoursePlugin(host)
    whole.initGui()
    assert host.bar.messages == []
    assert registered() is whole.provider
    assert not registered().icon().isNull()
    whole.unload()
    assert registered() is None
    whole.unload()


def test_a_second_copy_stands_back(nothing_registered):
    first, second = plugin.UndercoursePlugin(None), plugin.UndercoursePlugin(None)
    first.initProcessing()
    second.initProcessing()
    assert second.provider is None
    assert registered() is first.provider
    second.unload()
    first.unload()


def test_language_of_the_user(nothing_registered, tmp_path, monkeypatch):
    (tmp_path / "undercourse_xx.ts").write_text(TS, encoding="utf-8")
    # Debian's own lrelease is a switch that fails where no Qt is chosen.
    tool = shutil.which("lrelease", path="/usr/lib/qt5/bin") or shutil.which("lrelease")
    subprocess.run([tool, str(tmp_path / "undercourse_xx.ts")], check=True, capture_output=True)
    monkeypatch.setattr(plugin, "_I18N", tmp_path)
    monkeypatch.setattr(QgsApplication.instance(), "locale", lambda: "xx_YY", raising=False)
    whole = plugin.UndercoursePlugin(None)
    whole.initProcessing()
    assert translate("Base", "Guidelines") == "Suivantes"
    assert translate("Base", "Not translated") == "Not translated"
    whole.unload()
    assert translate("Base", "Guidelines") == "Guidelines"
    assert QCoreApplication.translate("Base", "Guidelines") == "Guidelines"
