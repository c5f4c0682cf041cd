"""Binding reports, as a user does it in QGIS."""

import pytest
from qgis.core import QgsProcessingException

from plugin.documents.report import Report


@pytest.fixture
def run(provider):
    import processing

    return lambda **given: processing.run("undercourse:bind_reports", given)


def test_one_report_of_two(run, tmp_path):
    one, two, whole = (str(tmp_path / name) for name in ("1.html", "2.html", "whole.html"))
    Report("Depth").verdict("Too deep.", flagged=True).write(one)
    Report("Grades").verdict("All pass.").write(two)
    made = run(REPORTS=[two, one], TITLE="Drop-off loop, stage 2", HTML=whole)
    assert made["FLAGGED_COUNT"] == 1
    text = (tmp_path / "whole.html").read_text()
    assert text.index("Drop-off loop, stage 2") < text.index("All pass.") < text.index("Too deep.")


def test_a_foreign_page_is_refused_and_nothing_is_written(run, tmp_path):
    other, whole = tmp_path / "other.html", tmp_path / "whole.html"
    other.write_text("<h1>hello</h1>")
    with pytest.raises(QgsProcessingException, match="is no report of Undercourse"):
        run(REPORTS=[str(other)], TITLE="x", HTML=str(whole))
    assert not whole.exists()
