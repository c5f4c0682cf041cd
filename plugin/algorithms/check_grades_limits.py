"""The limits of grades that zones are judged by, from parameters, fields and a rule file."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from qgis.core import QgsProcessingContext, QgsProcessingFeedback

from ..core.errors import LengthTextError, UndercourseError
from ..core.measure.grade_check import EVERYWHERE
from ..core.measure.grade_rules import Measure, Rule, parse_limits, read_rules
from ..core.measure.grades import Limit
from ..core.text import translate
from ..core.units import parse_grade
from ..layers.tables import texts_of
from .base import UndercourseAlgorithm
from .parameters import about

SHIPPED = Path(__file__).parent.parent / "rules" / "grades.csv"


@dataclass(frozen=True)
class Zoned:
    """Features with a limit each: where they come from, their ids and names."""

    source: Any
    ids: Sequence[int]
    names: Sequence[str]


class Limits:
    """Reads limits; ``own`` and ``used`` say afterwards which rules were used.

    Parameters
    ----------
    algorithm, parameters, context
        Of the run.
    """

    def __init__(
        self,
        algorithm: UndercourseAlgorithm,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
    ) -> None:
        self._algorithm, self._parameters, self._context = algorithm, parameters, context
        self.rules = _rules(self._text("RULES"))
        self.measure = Measure(algorithm.word(parameters, "ALONG", context))
        self.used: dict[str, Rule] = {}

    def _text(self, name: str) -> str:
        return self._algorithm.text(self._parameters, name, self._context)

    def of_zones(self, zones: Zoned | None, feedback: QgsProcessingFeedback) -> list[Limit]:
        """Return the limits of each zone, or of the whole surface without any.

        Raises
        ------
        UndercourseError
            A limit or the name of a rule cannot be read, or there is no limit at all.
        """
        for_all, least, most = self._text("RULE"), self._text("MIN_GRADE"), self._text("MAX_GRADE")
        if zones is None:
            limits = self._limits(0, for_all, least, most)
            if not limits:
                raise UndercourseError(_no_limit())
            return limits
        columns = [
            texts_of(zones.source, self._text(name), zones.ids)
            for name in ("RULE_FIELD", "MIN_FIELD", "MAX_FIELD")
        ]
        limits, without = [], []
        for zone, (rule, low, high) in enumerate(zip(*columns, strict=True)):
            given = bool(low or high)
            try:
                found = self._limits(
                    zone,
                    rule or ("" if given else for_all),
                    low or least,
                    high or most,
                )
            except UndercourseError as error:
                raise UndercourseError(
                    translate("CheckGrades", "Zone {zone}: {why}").format(
                        zone=zones.ids[zone], why=error
                    )
                ) from error
            limits += found
            if not found:
                without.append(zones.names[zone])
        if not limits:
            raise UndercourseError(_no_limit())
        if without:
            feedback.pushWarning(
                translate(
                    "CheckGrades", "{count} zones have no limit and are not checked: {names}."
                ).format(count=len(without), names=", ".join(without[:10]))
            )
        return limits

    def of_gutters(self) -> Limit:
        """Return the greatest change of grade that holds along all gutters."""
        most = self._text("MAX_CHANGE")
        if most:
            low, high = parse_limits("", most)
            return Limit(EVERYWHERE, Measure.BREAK, low, high, "", most)
        for rule in self.rules.values():
            if rule.measure is Measure.BREAK:
                return self._limit(EVERYWHERE, rule)
        raise UndercourseError(
            translate(
                "CheckGrades",
                "The rule file holds no rule with the measure break: give the greatest change of grade at a gutter.",
            )
        )

    def _limits(self, zone: int, rule: str, least: str, most: str) -> list[Limit]:
        names = [name.strip() for name in rule.replace(";", ",").split(",") if name.strip()]
        if names:
            return [self._limit(zone, self._rule(name)) for name in names]
        if not (least or most):
            return []
        low, high = parse_limits(least, most)
        written = " - ".join(text for text in (least, most) if text)
        return [Limit(zone, self.measure, low, high, "", written)]

    def _rule(self, name: str) -> Rule:
        if name not in self.rules:
            raise UndercourseError(
                translate(
                    "CheckGrades", "There is no rule “{name}”: the rules are {names}."
                ).format(name=name, names=", ".join(self.rules))
            )
        return self.rules[name]

    def _limit(self, zone: int, rule: Rule) -> Limit:
        self.used[rule.name] = rule
        return Limit(zone, rule.measure, rule.low, rule.high, rule.name, rule.written)


def fault_of_limits(
    algorithm: UndercourseAlgorithm, parameters: dict[str, Any], context: QgsProcessingContext
) -> str | None:
    """Return what is wrong with the limits for all, as far as the parameters tell it, or None."""
    texts = {name: algorithm.text(parameters, name, context) for name in ("MIN_GRADE", "MAX_GRADE")}
    for name, text in (
        *texts.items(),
        ("MAX_CHANGE", algorithm.text(parameters, "MAX_CHANGE", context)),
        ("NEAR", algorithm.text(parameters, "NEAR", context)),
    ):
        try:
            if text and parse_grade(text) < 0:
                parse_limits("", text)
        except LengthTextError as error:
            return about(algorithm.parameterDefinition(name), str(error))
    if any(texts.values()):
        try:
            parse_limits(*texts.values())
        except LengthTextError as error:
            return about(algorithm.parameterDefinition("MIN_GRADE"), str(error))
    return None


def _rules(path: str) -> dict[str, Rule]:
    file = Path(path) if path else SHIPPED
    try:
        text = file.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise UndercourseError(
            translate(
                "CheckGrades", "The rule file “{file}” is not UTF-8: save it as such."
            ).format(file=file)
        ) from error
    return read_rules(text, file.name)


def _no_limit() -> str:
    return translate(
        "CheckGrades",
        "There is no limit: give a least or a greatest grade, a field with one, or a rule.",
    )
