"""HTML reports with one look: verdict first, tables, figures, conventions, cautions.

No script and no remote content; every text is escaped; the page prints well in grey.
"""

import os
from collections.abc import Iterable, Sequence
from datetime import date
from html import escape
from pathlib import Path

from ..core.findings import Finding
from ..core.text import translate
from .cautions import cautions, conventions

_STYLE = """
:root { --ink: #22303c; --quiet: #5d6b76; --line: #c9d0d6; --wash: #f3f1ec; --mark: #9a6a00; }
* { box-sizing: border-box; }
body { font: 15px/1.45 "Source Sans 3", "DejaVu Sans", Verdana, sans-serif; color: var(--ink);
  background: #fff; margin: 0 auto; padding: 2rem 1.5rem 3rem; max-width: 62rem; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.12rem; margin: 2rem 0 .5rem; padding-bottom: .2rem;
  border-bottom: 2px solid var(--ink); break-after: avoid; }
a { color: var(--ink); }
p { margin: .4rem 0; max-width: 46rem; }
.about { color: var(--quiet); margin: 0 0 1rem; }
.verdict { border: 1px solid var(--ink); border-left-width: .6rem; background: var(--wash);
  padding: .7rem 1rem; margin: 1rem 0; font-size: 1.05rem; }
.verdict.flagged { border-color: var(--mark); border-style: dashed; border-left-style: solid; }
.verdict p { margin: .15rem 0; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; margin: .5rem 0 1rem; font-variant-numeric: tabular-nums; }
caption { text-align: left; color: var(--quiet); padding-bottom: .3rem; }
th, td { padding: .3rem .7rem; border-bottom: 1px solid var(--line); text-align: left;
  vertical-align: top; }
th { border-bottom: 1.5px solid var(--ink); vertical-align: bottom; }
th.s { min-width: 17rem; }
td.n, th.n { text-align: right; }
td.n { white-space: nowrap; }
section.bound { break-before: page; border-top: 3px double var(--ink); margin-top: 2.5rem;
  padding-top: .5rem; }
section.bound > h1 { font-size: 1.35rem; }
figure { margin: .8rem 0 1.2rem; break-inside: avoid; display: inline-block;
  vertical-align: top; margin-right: 1rem; }
figcaption { color: var(--quiet); max-width: 34rem; }
figure svg { max-width: 100%; height: auto; border: 1px solid var(--line); }
.cautions { border: 2px solid var(--ink); padding: .5rem 1.2rem 1rem; margin-top: 2rem;
  break-inside: avoid; }
.cautions h2 { border: 0; margin-top: .5rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2rem 1rem; margin: .5rem 0; }
dt { font-weight: 600; } dd { margin: 0; }
@media print { body { font-size: 10.5pt; padding: 0; max-width: none; }
  table { font-size: 8.5pt; } th, td { padding: .2rem .35rem; } th.s { min-width: 12rem; }
  .scroll { overflow: visible; } thead { display: table-header-group; } tr { break-inside: avoid; } }
"""


MARKS = {name: f"<!-- report: {name} -->" for name in ("about", "verdict", "body", "end")}
"""Stand between the parts of a report, so that `binder` finds them: texts cannot hold them."""


class Report:
    """A report under construction; every method returns the report itself.

    Parameters
    ----------
    title
        What the report is, in a few words.
    about
        Pairs (matter, text): layers compared, CRS, units and so on. The date is added.
    """

    def __init__(self, title: str, about: Iterable[tuple[str, str]] = ()) -> None:
        self._title = title
        self._about = list(about)
        self._verdict: list[str] = []
        self._flagged = False
        self._body: list[str] = []

    def verdict(self, *sentences: str, flagged: bool = False) -> "Report":
        """Set the sentences that open the report; ``flagged`` when something may be wrong."""
        self._verdict.extend(sentences)
        self._flagged = self._flagged or flagged
        return self

    def heading(self, text: str) -> "Report":
        """Start a section."""
        self._body.append(f"<h2>{escape(text)}</h2>")
        return self

    def paragraph(self, text: str) -> "Report":
        """Add a paragraph."""
        self._body.append(f"<p>{escape(text)}</p>")
        return self

    def table(
        self,
        head: Sequence[str],
        rows: Iterable[Sequence[object]],
        caption: str = "",
        numeric: Iterable[int] = (),
        sentences: Iterable[int] = (),
    ) -> "Report":
        """Add a table; ``numeric`` columns are right-aligned, ``sentences`` get room to be read."""
        marks = dict.fromkeys(sentences, " class=s") | dict.fromkeys(numeric, " class=n")

        def cells(tag: str, values: Sequence[object]) -> str:
            scope = ' scope="col"' if tag == "th" else ""
            return "".join(
                f"<{tag}{scope}{marks.get(k, '')}>{escape(str(value))}</{tag}>"
                for k, value in enumerate(values)
            )

        body = "".join(f"<tr>{cells('td', row)}</tr>\n" for row in rows)
        title = f"<caption>{escape(caption)}</caption>" if caption else ""
        self._body.append(
            f'<div class="scroll"><table>{title}<thead><tr>{cells("th", head)}</tr></thead>\n'
            f"<tbody>\n{body}</tbody></table></div>"
        )
        return self

    def findings(self, found: Sequence[Finding]) -> "Report":
        """Add a section with what is to be looked at; none when there is nothing."""
        if not found:
            return self
        self.heading(translate("Report", "To be looked at"))
        head = (
            translate("Report", "Flag"),
            translate("Report", "Zone"),
            translate("Report", "Why"),
        )
        rows = [(one.code, "" if one.feature is None else one.feature, one.why) for one in found]
        return self.table(head, rows, sentences=(2,))

    def bullets(self, items: Iterable[str]) -> "Report":
        """Add a list."""
        self._body.append("<ul>" + "".join(f"<li>{escape(i)}</li>\n" for i in items) + "</ul>")
        return self

    def svg(self, markup: str, caption: str = "") -> "Report":
        """Add a figure: an ``<svg>`` element that the caller drew (its texts already escaped)."""
        text = f"<figcaption>{escape(caption)}</figcaption>" if caption else ""
        self._body.append(f"<figure>{markup}{text}</figure>")
        return self

    def html(self, today: date | None = None) -> str:
        """Return the whole page."""
        day = (today or date.today()).isoformat()
        facts = [*self._about, (translate("Report", "Date"), day)]
        about = "".join(f"<dt>{escape(k)}</dt><dd>{escape(v)}</dd>\n" for k, v in facts)
        verdict = "".join(f"<p>{escape(text)}</p>" for text in self._verdict)
        if verdict:
            state = " flagged" if self._flagged else ""
            verdict = f'<div class="verdict{state}">{verdict}</div>\n'
        body = "\n".join(self._body)
        return page(
            self._title,
            f"<h1>{escape(self._title)}</h1>\n{MARKS['about']}<dl class=about>{about}</dl>\n"
            f"{MARKS['verdict']}{verdict}{MARKS['body']}{body}\n{MARKS['end']}",
        )

    def write(self, path: str | Path, today: date | None = None) -> None:
        """Write the page; nothing half-written is left under the final name."""
        write_page(path, self.html(today))


def page(title: str, content: str) -> str:
    """Return a whole page: its content, and below it the conventions and cautions."""
    rules = "".join(f"<dt>{escape(k)}</dt><dd>{escape(v)}</dd>\n" for k, v in conventions())
    care = "".join(f"<li>{escape(text)}</li>\n" for text in cautions())
    return (
        '<!DOCTYPE html>\n<html><head><meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{_STYLE}</style></head>\n<body>\n{content}\n"
        f"<h2>{escape(translate('Report', 'Conventions'))}</h2>\n<dl>{rules}</dl>\n"
        f'<section class="cautions"><h2>{escape(translate("Report", "Before you dig"))}</h2>'
        f"\n<ul>{care}</ul></section>\n</body></html>\n"
    )


def write_page(path: str | Path, text: str) -> None:
    """Write a page; nothing half-written is left under the final name."""
    target = Path(path)
    part = target.with_name(target.name + ".part")
    try:
        part.write_text(text, encoding="utf-8")
        os.replace(part, target)
    finally:
        part.unlink(missing_ok=True)
