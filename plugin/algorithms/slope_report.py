"""What the report of a search for slope breaks says."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely

from ..core.breaks import (
    BREAK_KINDS,
    KINDS,
    WALL_GRADE,
    BreakLines,
    Found,
    Kind,
    Measure,
    Patches,
    Search,
)
from ..core.breaks.outlines import outlines
from ..core.breaks.walls import Walls
from ..core.lines.direction import bearing_of, wind_of
from ..core.lines.words import wind_word
from ..core.text import translate
from ..core.units import LinearUnit, describe_length
from ..documents.breaks_plan import MOST_PATCHES, BreaksPlan
from ..documents.breaks_report import (
    LARGEST,
    MOST_ROWS,
    BreaksStory,
    KnownSection,
    LineEntry,
    breaks_report,
)
from ..documents.report import Report
from ..layers.crs import JobUnits, describe_crs
from ..layers.surfaces import Surface
from .slope_known import BOTH, MISSING, NO_BREAK, Comparison
from .slope_rows import flag_of, in_plan, kind_labels

MOST_NUMBERED = 40
"""So many of the longest lines have their numbers in the plan."""


@dataclass(frozen=True)
class Run:
    """One search: what was asked, and what was found.

    Parameters
    ----------
    design, units, search
        What was asked.
    found, bounds, patches, results
        What came out: lines, those that bound walls, patches (None where they were not asked
        for), figures.
    comparison, known_name
        How drawn lines compare and the name of their layer; None and empty where none were given.
    """

    design: Surface
    units: JobUnits
    search: Search
    found: Found
    bounds: Walls
    patches: Patches | None
    results: dict[str, Any]
    comparison: Comparison | None
    known_name: str


def report_of(run: Run) -> Report:
    """Return the report of a run."""
    lines = run.found.lines
    order = np.lexsort((np.arange(len(lines)), -lines.length)).tolist()
    flagged = [n for n in order if lines.wall[n] > 0 or lines.doubtful[n]]
    story = BreaksStory(
        verdict=_verdict(run),
        clean=not run.results["FLAGGED"] and not run.results["UNMEASURED"] and len(lines) > 0,
        kinds=_kinds(run),
        walls=bool((lines.wall > 0).any()),
        lines=[_entry(run, n) for n in order[:MOST_ROWS]],
        line_count=len(lines),
        flagged=[_flagged(run, n) for n in flagged[:MOST_ROWS]],
        flagged_count=len(flagged),
        patches=_patches(run),
        patch_count=0 if run.patches is None else int((~run.patches.wall).sum()),
        patch_sentence=_patch_sentence(run),
        plan=_plan(run, order) if len(lines) else None,
        known=None if run.comparison is None else _known(run, run.comparison),
    )
    return breaks_report(_about(run), story)


def _about(run: Run) -> list[tuple[str, str]]:
    search, plan = run.search, run.units.plan
    about = [
        (translate("SlopeBreaks", "Design"), run.design.name),
        (translate("SlopeBreaks", "CRS"), describe_crs(run.design.crs)),
        (translate("SlopeBreaks", "Plan unit"), f"{plan.name} ({plan.symbol})"),
        (
            translate("SlopeBreaks", "Unit of heights"),
            f"{run.units.vertical.name} ({run.units.vertical.symbol})",
        ),
        (translate("SlopeBreaks", "Smallest slope change"), _threshold(search.minimum, search)),
        (
            translate("SlopeBreaks", "Change that continues a line"),
            _threshold(search.least, search),
        ),
        (
            translate("SlopeBreaks", "Width over which slopes are taken"),
            describe_length(search.support, plan)
            if search.support > 0
            else translate("SlopeBreaks", "none: face by face"),
        ),
        (
            translate("SlopeBreaks", "Smoothing passes, face by face"),
            str(search.smoothing) if search.smoothing > 0 else translate("SlopeBreaks", "none"),
        ),
        (
            translate("SlopeBreaks", "Longest gap to bridge"),
            describe_length(search.gap, plan)
            if search.gap > 0
            else translate("SlopeBreaks", "none"),
        ),
        (
            translate("SlopeBreaks", "Shortest line"),
            describe_length(search.min_length, plan)
            if search.min_length > 0
            else translate("SlopeBreaks", "all are kept"),
        ),
    ]
    if run.comparison is not None:
        known = run.comparison.known
        about.append((translate("SlopeBreaks", "Breaklines already drawn"), run.known_name))
        about.append(
            (
                translate("SlopeBreaks", "Drawn lines match within"),
                translate("SlopeBreaks", "{distance} and {angle:g} degrees").format(
                    distance=describe_length(known.distance, plan), angle=known.angle
                ),
            )
        )
    return about


def _threshold(value: float, search: Search) -> str:
    if search.measure is Measure.GRADE:
        return f"{100 * value:g} %"
    return translate("SlopeBreaks", "{angle:g} degrees").format(angle=np.degrees(value))


def _verdict(run: Run) -> list[str]:
    lines, plan, results = run.found.lines, run.units.plan, run.results
    rim = lines.of_kind(Kind.EDGE)
    said = [
        translate(
            "SlopeBreaks",
            "{count} slope breaks, {length} in all, where the slope changes by {change} or more.",
        ).format(
            count=int((~rim).sum()),
            length=in_plan(float(lines.length[~rim].sum()), plan),
            change=_threshold(run.search.minimum, run.search),
        )
    ]
    if run.comparison is not None:
        said.append(run.comparison.sentence(plan))
    if results["FLAGGED"]:
        said.append(
            translate("SlopeBreaks", "{count} lines are flagged, see below.").format(
                count=results["FLAGGED"]
            )
        )
    if results["UNMEASURED"]:
        x, y, _ = lines.skipped[0]
        said.append(
            translate(
                "SlopeBreaks",
                "{count} edges cannot be measured, the first at {x:.3f}, {y:.3f}: breaks may be missing there.",
            ).format(count=results["UNMEASURED"], x=x, y=y)
        )
    if results["LARGEST_MOVE"] > 0:
        said.append(
            translate(
                "SlopeBreaks", "Zig-zags were straightened: no vertex moved more than {move}."
            ).format(move=describe_length(results["LARGEST_MOVE"], plan))
        )
    return said


def _asked(run: Run) -> list[Kind]:
    return [kind for kind in KINDS if kind in run.search.kinds]


def _kinds(run: Run) -> list[tuple[str, ...]]:
    lines, rows = run.found.lines, []
    for kind in _asked(run):
        own = lines.of_kind(kind)
        # Beside a wall the change is that of a face without width: it would drown all others.
        plain = own & np.isfinite(lines.change.mean) & (lines.wall == 0)
        weight = lines.length[plain]
        mean = (lines.change.mean[plain] * weight).sum() / max(weight.sum(), 1e-300)
        known = kind in BREAK_KINDS and weight.sum() > 0
        rows.append(
            (
                kind_labels()[str(kind)],
                str(int(own.sum())),
                in_plan(float(lines.length[own].sum()), run.units.plan),
                _percent(mean) if known else "",
                _percent(lines.change.high[plain].max()) if known else "",
            )
        )
    return rows


def _kind(lines: BreakLines, n: int) -> str:
    return kind_labels()[str(KINDS[lines.kind[n]])]


def _percent(value: float) -> str:
    return "" if not np.isfinite(value) else f"{100 * value:.1f} %"


def _side(grade: float) -> str:
    if abs(grade) > WALL_GRADE:
        return translate("SlopeBreaks", "wall")
    return "" if not np.isfinite(grade) else f"{100 * grade + 0.0:+.1f} %"


def _entry(run: Run, n: int) -> LineEntry:
    lines, change = run.found.lines, run.found.lines.change
    size = ""
    if run.bounds.pair[n] >= 0:
        # Beside a wall its height says more than the grade of a face without width.
        height = f"{run.bounds.height[n]:.2f} {run.units.vertical.symbol}"
        size = translate("SlopeBreaks", "wall of {height}").format(height=height)
    elif np.isfinite(change.mean[n]):
        mean, low, high = (100 * values[n] for values in (change.mean, change.low, change.high))
        size = f"{mean:.1f} % ({low:.1f} - {high:.1f})"
    return LineEntry(
        number=n + 1,
        kind=_kind(lines, n),
        length=in_plan(float(lines.length[n]), run.units.plan),
        change=size,
        grades=", ".join(
            _side(side.mean[n]) or "…" for side in (lines.grade_left, lines.grade_right)
        ),
        elevations=f"{lines.z_start[n]:.2f} - {lines.z_end[n]:.2f}",
        drawn="" if run.comparison is None else f"{100 * run.comparison.shares[n]:.0f} %",
    )


def _flagged(run: Run, n: int) -> tuple[str, ...]:
    flag, why = flag_of(run.found.lines, run.bounds, n, run.units)
    return str(n + 1), _kind(run.found.lines, n), flag or "", why or ""


def _patches(run: Run) -> list[tuple[str, ...]]:
    if run.patches is None:
        return []
    fits, areas = run.patches.fits, run.patches.areas(run.design.data)
    grade = np.hypot(fits.gradients[:, 0], fits.gradients[:, 1])
    flat = np.flatnonzero(~run.patches.wall)
    rows = []
    for n in flat[np.argsort(-areas[flat], kind="stable")][:LARGEST].tolist():
        bearing = float(bearing_of(-fits.gradients[n]))
        falls = f"{wind_word(int(wind_of(bearing)))} ({bearing:.0f}°)" if grade[n] > 1e-9 else ""
        rows.append(
            (
                _percent(float(grade[n])),
                falls,
                _area(float(areas[n]), run.units.plan),
                describe_length(float(fits.residual[n]) / run.search.z_scale, run.units.vertical),
            )
        )
    return rows


def _area(area: float, plan: LinearUnit) -> str:
    return translate("SlopeBreaks", "{area:,.1f} sq {unit}").format(area=area, unit=plan.symbol)


def _patch_sentence(run: Run) -> str:
    if run.patches is None:
        return ""
    areas = run.patches.areas(run.design.data)
    return translate(
        "SlopeBreaks",
        "{count} patches cover {area} of the design ({share:.1f} %). How far off its plane a patch is, is the root mean square of the heights.",
    ).format(
        count=int((~run.patches.wall).sum()),
        area=_area(float(areas[~run.patches.wall].sum()), run.units.plan),
        share=100 * float(areas[~run.patches.wall].sum()) / max(float(areas.sum()), 1e-300),
    )


def _plan(run: Run, order: Sequence[int]) -> BreaksPlan:
    lines = run.found.lines
    numbers = np.zeros(len(lines), np.int64)
    numbers[order[:MOST_NUMBERED]] = np.array(order[:MOST_NUMBERED]) + 1
    shapes: Sequence[shapely.Geometry | None] = ()
    grades: Sequence[float] = ()
    if run.patches is not None and len(run.patches) <= MOST_PATCHES:
        gradients = run.patches.fits.gradients
        shapes = list(outlines(run.design.data, run.patches, run.found.points))
        grades = np.hypot(gradients[:, 0], gradients[:, 1]).tolist()
    return BreaksPlan(
        [lines.line(n)[:, :2] for n in order],
        [str(KINDS[lines.kind[n]]) for n in order],
        {str(kind): kind_labels()[str(kind)] for kind in _asked(run)},
        numbers[order].tolist(),
        run.units.plan,
        shapes,
        grades,
        translate("SlopeBreaks", "Plan of the slope breaks, north up"),
    )


def state_labels() -> dict[str, str]:
    """Return what people read for the states of a comparison."""
    return {
        BOTH: translate("SlopeBreaks", "a break that is drawn"),
        MISSING: translate("SlopeBreaks", "a break that is not drawn"),
        NO_BREAK: translate("SlopeBreaks", "drawn, but no break"),
    }


def _known(run: Run, comparison: Comparison) -> KnownSection:
    plan, lines, drawn = run.units.plan, run.found.lines, comparison.known.drawn
    length, share = lines.length, comparison.shares
    kinds = []
    for kind in _asked(run):
        own = lines.of_kind(kind)
        whole, part = float(length[own].sum()), float((length * share)[own].sum())
        kinds.append(
            (
                kind_labels()[str(kind)],
                in_plan(whole, plan),
                in_plan(part, plan),
                in_plan(whole - part, plan),
                f"{100 * part / whole:.1f} %" if whole > 0 else "",
            )
        )
    bare = drawn.lines.lengths * (1.0 - comparison.drawn.share)
    worst = [n for n in np.argsort(-bare, kind="stable").tolist() if bare[n] >= 0.005]
    pieces = list(comparison.pieces())
    return KnownSection(
        sentences=(
            comparison.sentence(plan),
            translate(
                "SlopeBreaks",
                "A break counts as drawn where a drawn line runs beside it within {distance} and {angle:g} degrees, and no other break lies clearly nearer to that line.",
            ).format(
                distance=describe_length(comparison.known.distance, plan),
                angle=comparison.known.angle,
            ),
        ),
        kinds=kinds,
        lines=[
            (
                drawn.names[n],
                in_plan(float(drawn.lines.lengths[n]), plan),
                in_plan(float(bare[n]), plan),
                f"{100 * comparison.drawn.share[n]:.1f} %",
            )
            for n in worst
        ],
        plan=BreaksPlan(
            [piece.xyz[:, :2] for piece in pieces],
            [piece.state for piece in pieces],
            state_labels(),
            (),
            plan,
            (),
            (),
            translate("SlopeBreaks", "Plan of breaks and drawn lines, north up"),
        ),
    )
