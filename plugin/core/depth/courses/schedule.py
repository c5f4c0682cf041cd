"""The schedule: which courses make up each section, from the top down.

Columns: ``section``, ``order``, ``course``, ``thickness``; optional ``widen``, ``batter``,
``rule`` (or ``thickness_rule``), ``swell``, ``density``, ``note``. Rows are counted from 1 below
the names of the columns, in every message.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, NoReturn

from ...errors import ScheduleError, UndercourseError
from ...findings import Finding
from ...text import translate
from ...units import LinearUnit, parse_batter, parse_length
from ..manner import ThicknessRule
from .amounts import parse_density, parse_swell

NEEDED = ("section", "order", "course", "thickness")
OPTIONAL = ("widen", "batter", "rule", "thickness_rule", "swell", "density", "note")


@dataclass(frozen=True)
class Course:
    """One course of a section.

    Parameters
    ----------
    order
        1 is the uppermost.
    name
        What people call it.
    thickness
        In vertical units, greater than 0.
    rule
        Measured plumb, or square (at right angles) to the design.
    widen
        How far its underside carries on past the edge of the zone, in plan units.
    batter
        Run per rise of the sides of its underside; 0 is upright.
    swell
        Loose volume over volume in place, or None.
    density
        Tonnes per cubic metre in place, or None.
    note
        As written.
    row
        Row of the schedule, from 1.
    """

    order: int
    name: str
    thickness: float
    rule: ThicknessRule = ThicknessRule.PLUMB
    widen: float = 0.0
    batter: float = 0.0
    swell: float | None = None
    density: float | None = None
    note: str = ""
    row: int = 0


@dataclass(frozen=True)
class Section:
    """A section: its name and its courses from the top down."""

    name: str
    courses: tuple[Course, ...]

    def depth(self, count: int) -> tuple[float, float]:
        """Return how deep the underside of the first ``count`` courses lies.

        Returns
        -------
        plumb, square
            Sums of the thicknesses by their rule; a section with fewer courses gives all of them.
        """
        sums = dict.fromkeys(ThicknessRule, 0.0)
        for course in self.courses[:count]:
            sums[course.rule] += course.thickness
        return sums[ThicknessRule.PLUMB], sums[ThicknessRule.SQUARE]


@dataclass(frozen=True)
class Schedule:
    """The sections, in the order in which the schedule names them first."""

    sections: tuple[Section, ...]
    findings: list[Finding] = field(default_factory=list)

    @property
    def most_courses(self) -> int:
        """Number of courses of the section that has most."""
        return max(len(section.courses) for section in self.sections)

    def of_zones(self, names: Sequence[str], ids: Sequence[int]) -> list[Section]:
        """Return the section of each zone.

        Parameters
        ----------
        names
            Name of the section of each zone; case and spaces around do not matter.
        ids
            Feature ids of the zones, for the message.

        Raises
        ------
        ScheduleError
            A zone names no section, or one that the schedule lacks.
        """
        known = {_key(section.name): section for section in self.sections}
        found = []
        for name, zone in zip(names, ids, strict=True):
            if not name.strip():
                raise ScheduleError(
                    translate(
                        "Core", "Zone {zone} names no section: fill in its section field."
                    ).format(zone=zone)
                )
            if _key(name) not in known:
                raise ScheduleError(
                    translate(
                        "Core",
                        "Zone {zone} is of the section “{section}”, which the schedule lacks: add rows for it, or name one of: {sections}.",
                    ).format(
                        zone=zone,
                        section=name.strip(),
                        sections=", ".join(section.name for section in self.sections),
                    )
                )
            found.append(known[_key(name)])
        return found

    def unused(self, sections: Sequence[Section]) -> list[Finding]:
        """Return what there is to say about sections that no zone has."""
        used = {section.name for section in sections}
        left = [section.name for section in self.sections if section.name not in used]
        if not left:
            return []
        why = translate(
            "Core",
            "No zone is of these sections of the schedule: {sections}. Check that no zone is missing.",
        ).format(sections=", ".join(left))
        return [Finding("unused_section", why)]


def _key(name: str) -> str:
    return " ".join(name.split()).casefold()


def read_schedule(
    rows: Sequence[Mapping[str, Any]], vertical: LinearUnit, plan: LinearUnit
) -> Schedule:
    """Read a schedule.

    Parameters
    ----------
    rows
        Values by column name, in the order of the table; None or blank where there is nothing.
        Rows without any value count but are passed over.
    vertical, plan
        Units of the job: thicknesses without a unit are in the first, widenings in the second.

    Raises
    ------
    ScheduleError
        A column or a value is missing or cannot be read, or the orders of a section are not
        1, 2, 3, ...; the row and the section are named.
    """
    named = _headed([{_key(column): value for column, value in row.items()} for row in rows])
    findings = _check_columns(named)
    courses: dict[str, list[Course]] = {}
    names: dict[str, str] = {}
    for number, row in enumerate(named, 1):
        texts = {column: _text(value) for column, value in row.items()}
        if not any(texts.values()):
            continue
        section = texts["section"]
        if not section:
            raise ScheduleError(
                translate(
                    "Core", "Row {row} of the schedule names no section: fill in the section."
                ).format(row=number)
            )
        names.setdefault(_key(section), section)
        courses.setdefault(_key(section), []).append(
            _Row(number, section, texts).course(vertical, plan)
        )
    if not courses:
        raise ScheduleError(
            translate("Core", "The schedule has no rows: give one row for each course.")
        )
    return Schedule(
        tuple(Section(names[key], _in_order(names[key], found)) for key, found in courses.items()),
        findings,
    )


def _text(value: Any) -> str:
    """Return a value as text; a whole number without its ``.0``."""
    if value is None or (isinstance(value, float) and math.isnan(value)):
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value).strip()


def _headed(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Take the names of columns from the first row where a sheet has them there.

    Sheets whose cells are all text are read so: nothing tells their first row from the others.
    """
    if not rows or set(NEEDED) & rows[0].keys():
        return rows
    names = {column: _key(_text(value)) for column, value in rows[0].items()}
    if not set(NEEDED) <= set(names.values()):
        return rows
    return [
        {names[column]: value for column, value in row.items() if names[column]} for row in rows[1:]
    ]


def _check_columns(rows: Sequence[Mapping[str, Any]]) -> list[Finding]:
    """Refuse a table without the columns needed; report columns that nothing is read from."""
    has = list(dict.fromkeys(column for row in rows for column in row))
    missing = [column for column in NEEDED if column not in has]
    if rows and missing:
        raise ScheduleError(
            translate(
                "Core",
                "The schedule has no column “{column}”: it needs {needed}, and has {has}.",
            ).format(column=missing[0], needed=", ".join(NEEDED), has=", ".join(has))
        )
    unread = [column for column in has if column not in NEEDED + OPTIONAL + ("fid", "id")]
    if not unread:
        return []
    why = translate(
        "Core",
        "Nothing is read from these columns of the schedule: {columns}. Known ones are {known}.",
    ).format(columns=", ".join(unread), known=", ".join(NEEDED + OPTIONAL))
    return [Finding("unread_column", why)]


@dataclass(frozen=True)
class _Row:
    """One row with its texts by column."""

    number: int
    section: str
    texts: dict[str, str]

    def course(self, vertical: LinearUnit, plan: LinearUnit) -> Course:
        order = self._order()
        thickness = self._read("thickness", lambda text: parse_length(text, vertical))
        if thickness is None:
            self.refuse(translate("Core", "the thickness is missing, fill it in."))
        if thickness <= 0:
            self.refuse(
                translate("Core", "the thickness “{value}” is not greater than zero.").format(
                    value=self.texts["thickness"]
                )
            )
        widen = self._read("widen", lambda text: parse_length(text, plan)) or 0.0
        if widen < 0:
            self.refuse(
                translate(
                    "Core",
                    "the widening “{value}” is negative: a course may be narrower than the one below it, but not than its zone.",
                ).format(value=self.texts["widen"])
            )
        return Course(
            order,
            self.texts["course"] or translate("Core", "course {order}").format(order=order),
            thickness,
            self._rule(),
            widen,
            self._read("batter", parse_batter) or 0.0,
            self._read("swell", parse_swell),
            self._read("density", parse_density),
            self.texts.get("note", ""),
            self.number,
        )

    def _order(self) -> int:
        text = self.texts["order"]
        if not text:
            self.refuse(
                translate("Core", "the order is missing, number the courses 1, 2, 3 downwards.")
            )
        if not text.isdecimal() or int(text) < 1:
            self.refuse(
                translate(
                    "Core",
                    "the order “{value}” is no whole number from 1, number the courses 1, 2, 3 downwards.",
                ).format(value=text)
            )
        return int(text)

    def _rule(self) -> ThicknessRule:
        text = self.texts.get("rule") or self.texts.get("thickness_rule") or ThicknessRule.PLUMB
        if text.casefold() not in list(ThicknessRule):
            self.refuse(
                translate(
                    "Core",
                    "the thickness rule “{value}” is not known: write plumb (vertical) or square (at right angles to the design).",
                ).format(value=text)
            )
        return ThicknessRule(text.casefold())

    def _read(self, column: str, read: Callable[[str], float]) -> float | None:
        text = self.texts.get(column, "")
        if not text:
            return None
        try:
            return read(text)
        except UndercourseError as error:
            self.refuse(translate("Core", "{column}: {why}").format(column=column, why=str(error)))

    def refuse(self, why: str) -> NoReturn:
        raise ScheduleError(
            translate("Core", "Row {row} of the schedule (section “{section}”): {why}").format(
                row=self.number, section=self.section, why=why
            )
        )


def _in_order(section: str, courses: list[Course]) -> tuple[Course, ...]:
    """Return the courses from the top down; refuse an order given twice or left out."""
    ordered = sorted(courses, key=lambda course: (course.order, course.row))
    for expected, course in enumerate(ordered, 1):
        if course.order < expected:
            first = ordered[expected - 2]
            raise ScheduleError(
                translate(
                    "Core",
                    "Rows {first} and {second} of the schedule (section “{section}”) have the same order {order}: number the courses 1, 2, 3 downwards.",
                ).format(first=first.row, second=course.row, section=section, order=course.order)
            )
        if course.order > expected:
            raise ScheduleError(
                translate(
                    "Core",
                    "Row {row} of the schedule (section “{section}”) has the order {order}, but no row has {missing}: number the courses 1, 2, 3 downwards without a gap.",
                ).format(row=course.row, section=section, order=course.order, missing=expected)
            )
    return tuple(ordered)
