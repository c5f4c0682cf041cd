"""Guidelines and flagged lines as rows with attributes, before anything is written."""

from collections.abc import Iterator
from typing import Any

import numpy as np

from ..core.lines.direction import Heading, headings, sense, sides_seen
from ..core.lines.guide import Guidelines
from ..core.lines.requests import Requests
from ..core.lines.sides import Rule
from ..core.lines.words import Ways, faces, sentence, short_label, ways
from ..core.text import translate
from ..core.units import LinearUnit, describe_length, format_station
from ..layers.crs import JobUnits
from .guideline_shapes import Heights, Shape
from .guideline_tapers import ends_of, taper_text
from .line_inputs import NamedLines

GUIDELINE_COLUMNS = (
    ("source_id", int),
    ("part", int),
    ("name", str),
    ("side_line", str),
    ("signed_offset", float),
    ("signed_offset_end", float),
    ("offset", str),
    ("label", str),
    ("rule", str),
    ("compass_side", str),
    ("travel", str),
    ("side_driver", str),
    ("travel_back", str),
    ("side_driver_back", str),
    ("travel_bearing", float),
    ("evidence", float),
    ("weakest_station", float),
    ("weakest_x", float),
    ("weakest_y", float),
    ("length", float),
    ("station_from", float),
    ("station_to", float),
    ("z_from", str),
    ("flag", str),
    ("why", str),
    ("sentence", str),
)
LENGTH_COLUMN = next(n for n, (name, _) in enumerate(GUIDELINE_COLUMNS) if name == "length")
FLAGGED_COLUMNS = (
    ("source_id", int),
    ("part", int),
    ("name", str),
    ("kind", str),
    ("side", str),
    ("signed_offset", float),
    ("rule", str),
    ("evidence", float),
    ("station_from", float),
    ("station_to", float),
    ("weakest_x", float),
    ("weakest_y", float),
    ("flag", str),
    ("why", str),
)

SETTLED = frozenset({"lost", "tight_bend", "unproved"})
"""Flags of requests whose side is settled: only a stretch of them has no guideline."""

Row = tuple[np.ndarray, list[Any]]


class Rows:
    """Turns what was laid into attributes."""

    def __init__(
        self,
        sources: NamedLines,
        requests: Requests,
        laid: Guidelines,
        travel: np.ndarray,
        heights: Heights,
        units: JobUnits,
        parts: frozenset[int] = frozenset(),
    ) -> None:
        self.parts = parts
        self.sources = sources
        self.requests = requests
        self.laid = laid
        self.travel = travel
        self.heights = heights
        self.unit: LinearUnit = units.plan
        self.vertical: LinearUnit = units.vertical
        lines = sources.lines
        self.ways: Ways = ways(lines)
        self.heading: Heading = headings(lines)
        self.ring = sense(lines)
        every = np.ones(len(lines), np.int64)
        self._right, self._left = sides_seen(lines, every), sides_seen(lines, -every)

    def guidelines(self, found: list[Shape]) -> list[Row]:
        """Return the good stretches of guidelines, as plan or space lines."""
        return [(s.coordinates, self._guideline(s)) for s in found if s.good]

    def gathered(self, found: list[Shape], rows: list[Row]) -> list[tuple[list[Shape], list[Any]]]:
        """Return rows with the pieces of one line, offset and side in one.

        Lengths are added up; stations run from the first piece to the last; flags are kept.
        """
        names = [name for name, _ in GUIDELINE_COLUMNS]
        flag, why, stop = names.index("flag"), names.index("why"), names.index("station_to")
        made: dict[int, tuple[list[Shape], list[Any]]] = {}
        for shape, (_, attributes) in zip([s for s in found if s.good], rows, strict=True):
            request = int(self.laid.pieces.source[shape.piece])
            if request not in made:
                made[request] = [shape], list(attributes)
                continue
            parts, whole = made[request]
            parts.append(shape)
            whole[LENGTH_COLUMN] += attributes[LENGTH_COLUMN]
            whole[stop] = attributes[stop]
            for column in (flag, why):
                whole[column] = whole[column] or attributes[column]
        return list(made.values())

    def flagged(self, found: list[Shape]) -> list[Row]:
        """Return what did not become a guideline, as plan lines."""
        rows = list(self._undecided())
        for shape in found:
            if shape.good:
                continue
            request = int(self.laid.pieces.source[shape.piece])
            if self.heights.kind == "line":
                code = "no_height"
                why = translate(
                    "Guidelines",
                    "The line has vertices without a height, so this guideline has none: give them their Z, or take heights from a surface or none.",
                )  # noqa: E501
            else:
                code = "no_surface"
                why = translate(
                    "Guidelines",
                    "There is no surface under this stretch of the guideline: extend the surface, or take no heights.",
                )  # noqa: E501
            side = 1 if self.laid.pieces.offsets[shape.piece] > 0 else -1
            span = (shape.start, shape.stop)
            place = shape.coordinates[0]
            rows.append(
                (
                    shape.coordinates[:, :2],
                    self._flagged(request, "guideline", side, span, place, (code, why)),
                )
            )
        return rows

    def driver(self, line: int, side: int) -> tuple[int, str, str]:
        """Return the side the driver sees (0 = unknown), and the ways there and back."""
        there, back = self.ways.along[line], self.ways.against[line]
        way = int(self.travel[line])
        return (side * way, there, back) if way >= 0 else (-side, back, there)

    def compass_side(self, line: int, side: int) -> str:
        """Return where the side lies, in words."""
        seen = self._right if side > 0 else self._left
        return faces(int(seen.wind[line]), int(self.ring[line]), side)

    def bearing(self, line: int) -> float:
        """Return the bearing driven first."""
        ahead = float(self.heading.bearing[line])
        return ahead if self.travel[line] >= 0 else (ahead + 180.0) % 360.0

    def sentence(self, line: int, signed: float, changing: str = "") -> str:
        """Return the sentence for the foreman; ``changing`` says an offset that changes."""
        side = 1 if signed > 0 else -1
        seen, there, back = self.driver(line, side)
        offset = changing or signed
        return sentence(self.sources.names[line], seen or side, offset, self.unit, there, back)

    def _guideline(self, shape: Shape) -> list[Any]:
        pieces = self.laid.pieces
        request = int(pieces.source[shape.piece])
        line = int(self.requests.line[request])
        signed = float(pieces.offsets[shape.piece])
        side = 1 if signed > 0 else -1
        seen, there, back = self.driver(line, side)
        flag, why = self._caution(line, request)
        taper, end, changing = self.requests.taper(request), None, ""
        offset, label = (
            describe_length(abs(signed), self.unit),
            short_label(side, signed, self.unit),
        )
        if taper is not None:
            length = float(self.sources.lines.lengths[line])
            end = side * ends_of(taper, length)[1]
            changing = taper_text(taper, length, self.unit)
            offset, label = changing, f"{label.split()[0]} {changing}"
        weakest = self.laid.verdicts
        told = str(self.requests.rules[request]) not in (Rule.RIGHT, Rule.LEFT)
        run = shape.coordinates[1:, :2] - shape.coordinates[:-1, :2]
        return [
            int(self.sources.table.ids[line]),
            int(self.sources.table.parts[line]),
            self.sources.names[line],
            word(side),
            signed,
            end,
            offset,
            label,
            str(self.requests.rules[request]),
            self.compass_side(line, side),
            there,
            word(seen),
            back,
            word(-seen),
            self.bearing(line),
            100.0 * float(self.laid.verdicts.share[request]),
            self.requests.station(request, float(weakest.station[request])) if told else None,
            *(weakest.place[request].tolist() if told else (None, None)),
            float(np.hypot(run[:, 0], run[:, 1]).sum()),
            self.requests.station(request, shape.start),
            self.requests.station(request, shape.stop),
            self.heights.kind,
            flag,
            why,
            self.sentence(line, signed, changing),
        ]

    def _caution(self, line: int, request: int) -> tuple[str | None, str | None]:
        flags, reasons = [], []
        if line in self.parts:
            flags.append("split")
            reasons.append(
                translate(
                    "Guidelines",
                    "The side changes along the line, which was split there: this is the part from station {start} to {stop}.",
                ).format(
                    start=format_station(self.requests.station(request, 0.0), self.unit),
                    stop=format_station(
                        self.requests.station(request, float(self.sources.lines.lengths[line])),
                        self.unit,
                    ),
                )
            )
        if not self.travel[line]:
            flags.append("travel_unclear")
            reasons.append(
                translate(
                    "Guidelines",
                    "The line turns too far or runs square to the bearing of travel, so the driver's side is not given for that bearing: the sentence says it for the line's own direction.",
                )
            )
        return ", ".join(flags) or None, " ".join(reasons) or None

    def _undecided(self) -> Iterator[Row]:
        for item in self.laid.flagged:
            settled = item.code in SETTLED
            for side, xy in item.shapes:
                kind = "stretch" if settled else "candidate" if side else "source"
                at = xy[0] if settled else self.laid.verdicts.place[item.request]
                known = self._side(item.request) if settled else side
                span, told = (item.start, item.stop), (item.code, item.why)
                yield xy, self._flagged(item.request, kind, known, span, at, told)

    def _side(self, request: int) -> int:
        return int(self.laid.verdicts.side[request])

    def _flagged(
        self,
        request: int,
        kind: str,
        side: int,
        span: tuple[float, float],
        place: np.ndarray,
        told: tuple[str, str],
    ) -> list[Any]:
        line = int(self.requests.line[request])
        distance = float(self.requests.distance[request])
        stations = [self.requests.station(request, along) for along in span]
        return [
            int(self.sources.table.ids[line]),
            int(self.sources.table.parts[line]),
            self.sources.names[line],
            kind,
            word(side),
            side * distance if side else None,
            str(self.requests.rules[request]),
            100.0 * float(self.laid.verdicts.share[request]),
            *stations,
            float(place[0]),
            float(place[1]),
            *told,
        ]


def word(side: int) -> str | None:
    """Return the word that scripts read: right, left or nothing."""
    return {1: "right", -1: "left"}.get(int(np.sign(side)))
