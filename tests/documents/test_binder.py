"""Reports bound to one: verdicts first, everything once, nothing foreign taken in."""

from datetime import date

import pytest

from plugin.core.errors import UndercourseError
from plugin.documents.binder import bind, read_report
from plugin.documents.cautions import cautions
from plugin.documents.report import Report

DAY = date(2024, 3, 1)


@pytest.fixture
def pair(tmp_path):
    paths = tmp_path / "one.html", tmp_path / "two.html"
    nasty = Report("Depth <b>", [("Design", "a & b")]).verdict("Too deep.", flagged=True)
    nasty.table(["zone"], [["<!-- report: end -->"]]).write(paths[0], DAY)
    Report("Grades").verdict("All pass.").heading("Zones").paragraph("Four.").write(paths[1], DAY)
    return paths


def test_all_verdicts_come_before_the_first_table_and_cautions_once(pair):
    reports = [read_report(path) for path in pair]
    assert [one.flagged for one in reports] == [True, False]
    page = bind("Review & all", reports, DAY)
    order = [
        page.index(t) for t in ("Review &amp; all", "Too deep.", "All pass.", "<table", "Four.")
    ]
    assert order == sorted(order)
    assert page.count("Too deep.") == 1
    for caution in cautions():
        assert page.count(caution) == 1
    assert "Depth &lt;b&gt;" in page and "&lt;!-- report: end --&gt;" in page
    assert page.count("<html>") == page.count("</body>") == 1
    assert "<script" not in page and "http" not in page


def test_each_report_can_be_reached_from_its_verdict(pair):
    page = bind("Review", [read_report(path) for path in pair], DAY)
    for n in (1, 2):
        assert f'href="#report-{n}"' in page and f'id="report-{n}"' in page


@pytest.mark.parametrize("text", ["", "<h1>x</h1>", "<html><body>hello</body></html>"])
def test_a_page_from_elsewhere_is_refused(tmp_path, text):
    path = tmp_path / "other.html"
    path.write_text(text)
    with pytest.raises(UndercourseError, match=r"other\.html” is no report of Undercourse"):
        read_report(path)


def test_a_file_that_is_not_there_is_named(tmp_path):
    with pytest.raises(UndercourseError, match=r"missing\.html” cannot be read"):
        read_report(tmp_path / "missing.html")
