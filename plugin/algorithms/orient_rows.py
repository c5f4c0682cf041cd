"""Oriented lines as rows with attributes, before anything is written."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from qgis.core import NULL, QgsField, QgsFields

from ..core.lines.orient import Rule
from ..core.lines.oriented import Oriented
from ..core.lines.words import ways
from ..core.units import LinearUnit
from ..layers.fields import fields
from .line_inputs import NamedLines

COLUMNS = (
    ("source_id", int),
    ("part", int),
    ("pieces", int),
    ("source_ids", str),
    ("flipped", bool),
    ("pieces_turned", int),
    ("rule", str),
    ("runs", str),
    ("evidence", float),
    ("length", float),
    ("flag", str),
    ("why", str),
)


class Rows:
    """Turns what was decided into attributes.

    Parameters
    ----------
    sources, source_fields
        The lines as read, and the fields of their layer.
    done
        What was decided.
    rule, joined
        How it was decided.
    unit
        Plan unit.
    references
        Lines by which the others were turned, for the plan of the report.
    """

    def __init__(
        self,
        sources: NamedLines,
        source_fields: QgsFields,
        done: Oriented,
        rule: Rule,
        joined: bool,
        unit: LinearUnit,
        references: Sequence[np.ndarray] = (),
    ) -> None:
        self.sources = sources
        self.done = done
        self.rule = rule
        self.joined = joined
        self.unit = unit
        self.references = references
        self.fields = _all_fields(source_fields)
        self.runs: list[str] = ways(done.lines).along
        # The longest piece gives a joined line its name and its id.
        self.main = [
            int(chain.lines[np.argmax(sources.lines.lengths[chain.lines])]) for chain in done.chains
        ]

    def __len__(self) -> int:
        return len(self.main)

    def name(self, row: int) -> str:
        """Return what people call a row."""
        return self.sources.names[self.main[row]]

    def turned(self, row: int) -> int:
        """Return how many pieces of a row were turned round."""
        return int((~self.done.chains[row].forward).sum())

    def numbers(self) -> dict[str, Any]:
        """Return the results that are numbers."""
        sizes = [len(chain.lines) for chain in self.done.chains]
        return {
            "LINE_COUNT": len(self.sources.lines),
            "FLIPPED_COUNT": self.done.turned,
            "FLAGGED_COUNT": sum(bool(code) for code in self.done.directions.code),
            "JOINED_COUNT": sum(size for size in sizes if size > 1),
            "JOINED_LINES": sum(size > 1 for size in sizes),
            "NOT_JOINED_COUNT": len(self.done.findings) if self.joined else 0,
            "LARGEST_MOVE": max((run.moved for run in self.done.runs), default=0.0),
        }

    def attributes(self, row: int) -> list[Any]:
        """Return the attributes of a row: those of its source, then what was done."""
        chain, found = self.done.chains[row], self.done.directions
        table, main = self.sources.table, self.main[row]
        own = [_common([values[k] for k in chain.lines]) for values in table.columns.values()]
        listed = ", ".join(
            f"{'' if ahead else '-'}{table.ids[k]}"
            for k, ahead in zip(chain.lines, chain.forward, strict=True)
        )
        turned = self.turned(row)
        return [
            *own,
            int(table.ids[main]),
            int(table.parts[main]),
            len(chain.lines),
            listed,
            turned > 0,
            turned,
            str(self.rule),
            self.runs[row],
            100.0 * float(found.share[row]),
            float(self.done.lines.lengths[row]),
            found.code[row] or None,
            found.why[row] or None,
        ]


def _all_fields(source: QgsFields) -> QgsFields:
    """Return the fields of the source, renamed where they clash, and the own ones."""
    own = {name for name, _ in COLUMNS}
    taken = {field.name().lower() for field in source} | own
    result = QgsFields()
    for field in source:
        name = field.name()
        if name.lower() in own:
            name += "_in"
            while name.lower() in taken:
                name += "_in"
            taken.add(name.lower())
        renamed = QgsField(field)
        renamed.setName(name)
        result.append(renamed)
    for field in fields(*COLUMNS):
        result.append(field)
    return result


def _common(values: Sequence[Any]) -> Any:
    """Return the value that all pieces have; nothing where they differ."""
    first = values[0]
    return first if all(value == first for value in values[1:]) else NULL
