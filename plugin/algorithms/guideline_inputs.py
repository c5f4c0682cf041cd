"""What the guidelines algorithm reads of each line: its offsets and its side."""

from collections.abc import Sequence
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


def rules_of(values: Sequence[Any] | None, ids: np.ndarray, default: Rule, name: str) -> list[Rule]:
    """Return the rule of each line: its own where it has one, else that of the run."""
    if values is None:
        return [default] * len(ids)
    rules = []
    for text, identifier in zip(column_texts(values), ids, strict=True):
        word = text.lower()
        if word and word not in set(Rule):
            raise _field_error(
                identifier,
                name,
                translate("Guidelines", "“{word}” is not one of: {words}.").format(
                    word=text, words=", ".join(Rule)
                ),
            )
        rules.append(Rule(word) if word else default)
    return rules


def _field_error(identifier: int, name: str, why: str) -> UndercourseError:
    return UndercourseError(
        translate("Guidelines", "Feature {id}, field “{field}”: {why}").format(
            id=identifier, field=name, why=why
        )
    )
