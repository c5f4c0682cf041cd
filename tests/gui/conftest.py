"""A host that Processing's dialogs accept, without a main window."""

import pytest


@pytest.fixture
def dialogs(qgis_iface, qgis_processing, monkeypatch):
    """Return a function that opens the dialog of an algorithm by id."""
    import processing
    from qgis.gui import QgsBrowserGuiModel

    model = QgsBrowserGuiModel()
    monkeypatch.setattr(qgis_iface, "browserModel", lambda: model, raising=False)
    opened = []

    def make(identifier, parameters=None):
        dialog = processing.createAlgorithmDialog(identifier, parameters or {})
        opened.append(dialog)
        dialog.resize(1000, 760)
        dialog.show()
        return dialog

    yield make
    for dialog in opened:
        dialog.close()
        dialog.deleteLater()
