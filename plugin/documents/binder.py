"""Several reports bound to one: verdicts first, then each report; conventions and cautions once."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape
from itertools import pairwise
from pathlib import Path

from ..core.errors import UndercourseError
from ..core.text import translate
from .report import MARKS, page


@dataclass(frozen=True)
class Bound:
    """The parts of a report that has been read back; HTML, escaped when it was written.

    Parameters
    ----------
    title, about, verdict, body
        Its parts.
    """

    title: str
    about: str
    verdict: str
    body: str

    @property
    def flagged(self) -> bool:
        """Whether its verdict says that something may be wrong."""
        return 'class="verdict flagged"' in self.verdict


def read_report(path: str | Path) -> Bound:
    """Read a report back.

    Raises
    ------
    UndercourseError
        The file cannot be read, or is no report of ours.
    """
    try:
        text = Path(path).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        message = translate("Report", "“{path}” cannot be read: {why}.")
        raise UndercourseError(message.format(path=path, why=error)) from error
    title, found = _between(text, "<h1>", "</h1>"), [text.find(mark) for mark in MARKS.values()]
    if title is None or min(found) < 0 or found != sorted(found):
        raise UndercourseError(
            translate(
                "Report",
                "“{path}” is no report of Undercourse: choose the HTML files that its algorithms wrote.",
            ).format(path=path)
        )
    names = list(MARKS)
    parts = {one: str(_between(text, MARKS[one], MARKS[other])) for one, other in pairwise(names)}
    return Bound(title, parts["about"], parts["verdict"], parts["body"])


def bind(title: str, reports: Sequence[Bound], today: date | None = None) -> str:
    """Return one page of several reports.

    Parameters
    ----------
    title
        What the whole is.
    reports
        The reports in order.
    today
        The date it bears; that of today when left out.
    """
    day = (today or date.today()).isoformat()
    flagged = sum(one.flagged for one in reports)
    facts = [
        (translate("Report", "Reports"), str(len(reports))),
        (translate("Report", "To be looked at"), str(flagged)),
        (translate("Report", "Date"), day),
    ]
    about = "".join(f"<dt>{escape(k)}</dt><dd>{escape(v)}</dd>\n" for k, v in facts)
    verdicts = "".join(
        f'<h2><a href="#report-{n}">{one.title}</a></h2>\n{one.verdict}'
        for n, one in enumerate(reports, 1)
    )
    bodies = "".join(
        f'<section class="bound" id="report-{n}"><h1>{one.title}</h1>\n{one.about}{one.body}'
        "</section>\n"
        for n, one in enumerate(reports, 1)
    )
    head = f"<h1>{escape(title)}</h1>\n<dl class=about>{about}</dl>\n"
    return page(title, head + verdicts + bodies)


def _between(text: str, start: str, stop: str) -> str | None:
    begin = text.find(start)
    end = text.find(stop, begin + len(start))
    return None if begin < 0 or end < 0 else text[begin + len(start) : end]
