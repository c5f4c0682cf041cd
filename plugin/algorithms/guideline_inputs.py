"""What the guidelines algorithm reads of each line: its offsets and its side."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from ..core.errors import LengthTextError, UndercourseError
from ..core.lines.sides import Rule
from ..core.text import translate
from ..core.units import LinearUnit, parse_lengths
from ..layers.tables import column_texts, is_blank


def offsets_of(
    values: Sequence[Any] | None, ids: np.ndarray, default: list[float], unit: LinearUnit, name: str
) -> list[list[float]]:
    """Return the offsets of each line: its own where it has some, else those of the run."""
    if values is None:
        return [default] * len(ids)
    result = []
    for value, identifier in zip(values, ids, strict=True):
        if is_blank(value):
            own = default
        else:
            try:
                own = parse_lengths(value if isinstance(value, str) else float(value), unit)
            except LengthTextError as error:
                raise _field_error(identifier, name, str(error)) from error
        problem = offsets_problem(own)
        if problem:
            raise _field_error(identifier, name, problem)
        result.append(own)
    return result


def offsets_problem(offsets: list[float]) -> str | None:
    """Say what keeps offsets from being used, or None."""
    if not offsets:
        return translate("Guidelines", "there is no offset, write one such as 1 ft.")
    if min(offsets) < 0:
        return translate(
            "Guidelines",
            "offsets are written without a minus sign, since the side is said by the parameter “Side” (right, left, toward ...).",
        )
    if min(offsets) == 0 or not np.isfinite(offsets).all():
        return translate("Guidelines", "an offset of 0 has no side, write one greater than 0.")
    return None


def rules_of(
    values: Sequence[Any] | None,
    ids: np.ndarray,
    default: Rule,
    name: str,
    expressed: Mapping[int, Any] | None = None,
) -> list[Rule]:
    """Return the rule of each line: its own where it has one, else that of the run.

    Parameters
    ----------
    values, ids, name
        Values of the field with sides (None = no field), feature of each line, name of the field.
    default
        Rule of the run.
    expressed
        What an expression gives for features; it goes before the field.
    """
    texts = [""] * len(ids) if values is None else column_texts(values)
    rules = []
    for text, identifier in zip(texts, ids.tolist(), strict=True):
        own = str((expressed or {}).get(identifier, text)).strip()
        word = own.lower()
        if word and word not in set(Rule):
            told = translate("Guidelines", "“{word}” is not one of: {words}.").format(
                word=own, words=", ".join(Rule)
            )
            if expressed and identifier in expressed:
                why = translate("Guidelines", "Expression for sides, feature {id}: {why}")
                raise UndercourseError(why.format(id=identifier, why=told))
            raise _field_error(identifier, name, told)
        rules.append(Rule(word) if word else default)
    return rules


def _field_error(identifier: int, name: str, why: str) -> UndercourseError:
    return UndercourseError(
        translate("Guidelines", "Feature {id}, field “{field}”: {why}").format(
            id=identifier, field=name, why=why
        )
    )
