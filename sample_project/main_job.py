"""The main job on the sample: from one design to what a crew needs. Started by run.sh.

Every step is a call of ``qgis_process`` on the real plugin. A step is skipped when its results
are there and nothing that it depends on (inputs, settings, the plugin itself) has changed. The
job ends with a table of what was made, and fails when a key figure is not the stated one.
"""

import os
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))

from sample_project.pellworth import summary  # noqa: E402
from sample_project.pellworth.steps import Step, StepError, run_steps  # noqa: E402

DATA, OUT = HERE / "data", Path(os.environ.get("PELLWORTH_OUT", HERE / "out"))
DESIGN = DATA / "pellworth.xml"
STORE = DATA / "pellworth.gpkg"


def layer(name):
    return f"{STORE}|layername={name}"


def steps():
    """Return the steps of the job, in order."""
    mesh = OUT / "design.ply"
    depth_by_zone = {
        "ZONES": layer("zones"),
        "DEPTH_FIELD": "depth",
        "PRIORITY_FIELD": "priority",
    }
    as_dug = {
        **depth_by_zone,
        "WIDEN_FIELD": "widen",
        "BATTER_FIELD": "batter",
        "BEYOND": "carry",
    }
    to_hold = {"REFERENCE": layer("lane_centreline"), "SURFACE": mesh, "Z_FROM": "surface"}
    return [
        Step(
            "design",
            "undercourse:read_landxml",
            {"INPUT": DESIGN, "SURFACE": "Finished grade"},
            {
                "TIN": mesh,
                "LINES": OUT / "design_lines.gpkg",
                "ALIGNMENTS": OUT / "alignment.gpkg",
                "POINTS": OUT / "points.gpkg",
            },
        ),
        Step(
            "depth_tin",
            "undercourse:depth_tin",
            {"DESIGN": mesh, **as_dug},
            {
                "TIN": OUT / "depth.ply",
                "FACES": OUT / "depth_faces.gpkg",
                "HTML": OUT / "depth.html",
            },
        ),
        Step(
            "depth_raster",
            "undercourse:depth_raster",
            {"DESIGN": DATA / "pellworth_design.tif", **as_dug, "BEYOND": "stop"},
            {"OUTPUT": OUT / "depth.tif"},
        ),
        Step(
            "depth_pixels",
            "undercourse:tin_to_raster",
            {"DESIGN": OUT / "depth.ply", "TEMPLATE": DATA / "pellworth_design.tif"},
            {"OUTPUT": OUT / "depth_pixels.tif"},
        ),
        Step(
            "courses",
            "undercourse:course_surfaces",
            {
                "DESIGN": mesh,
                "ZONES": layer("zones"),
                "SCHEDULE": DATA / "schedule.csv",
                "PRIORITY_FIELD": "priority",
                "BEYOND": "carry",
            },
            {
                "FOLDER": OUT / "courses",
                "FACES": OUT / "course_faces.gpkg",
                "QUANTITIES": OUT / "course_quantities.gpkg",
                "HTML": OUT / "courses.html",
            },
        ),
        Step(
            "guidelines_strip",
            "undercourse:guidelines",
            {
                "LINES": layer("planting_strip_break"),
                "SIDE": "toward",
                "OFFSETS": "1.5 ft",
                **to_hold,
            },
            {
                "GUIDELINES": OUT / "guidelines_strip.gpkg",
                "FLAGGED": OUT / "guidelines_strip_flagged.gpkg",
                "HTML": OUT / "guidelines_strip.html",
            },
        ),
        Step(
            "guidelines_curb",
            "undercourse:guidelines",
            {"LINES": layer("back_of_curb"), "SIDE": "away", "OFFSETS": "0.75 ft", **to_hold},
            {
                "GUIDELINES": OUT / "guidelines_curb.gpkg",
                "FLAGGED": OUT / "guidelines_curb_flagged.gpkg",
                "HTML": OUT / "guidelines_curb.html",
            },
        ),
        Step(
            "oriented",
            "undercourse:orient_lines",
            {
                "LINES": layer("back_of_curb"),
                "RULE": "up_station",
                "REFERENCE": layer("lane_centreline"),
            },
            {"OUTPUT": OUT / "oriented.gpkg", "HTML": OUT / "oriented.html"},
        ),
        *(
            Step(
                f"checked_{name}",
                "undercourse:check_sides",
                {
                    "LINES": layer(lines),
                    "GUIDELINES": OUT / f"guidelines_{name}.gpkg",
                    "SIDE": side,
                    "REFERENCE": layer("lane_centreline"),
                },
                {"OUTPUT": OUT / f"checked_{name}.gpkg", "HTML": OUT / f"checked_{name}.html"},
            )
            for name, lines, side in (
                ("strip", "planting_strip_break", "toward"),
                ("curb", "back_of_curb", "away"),
            )
        ),
        Step(
            "stakes",
            "undercourse:stake_points",
            {
                "LINES": layer("lane_centreline"),
                "INTERVAL": "25 ft",
                "OFFSETS_RIGHT": "15 ft",
                "OFFSETS_LEFT": "15 ft",
                "Z_FROM": "surface",
                "SURFACE": OUT / "depth.ply",
                "GROUND": mesh,
            },
            {
                "OUTPUT": OUT / "stakes.gpkg",
                "CSV": OUT / "stakes.csv",
                "HTML": OUT / "stakes.html",
            },
        ),
        Step(
            "passes",
            "undercourse:pass_lines",
            {
                "ZONES": layer("zones"),
                "ALONG": layer("lane_centreline"),
                "WIDTH": "6 ft",
                "OVERLAP": "6 in",
            },
            {
                "OUTPUT": OUT / "passes.gpkg",
                "LEFT_OVER": OUT / "passes_left_over.gpkg",
                "HTML": OUT / "passes.html",
            },
        ),
        Step(
            "depths",
            "undercourse:check_depth",
            # At least the depth of the schedule; the widened lane reaches into its neighbours.
            {
                "DESIGN": mesh,
                "ACTUAL": OUT / "depth.ply",
                **depth_by_zone,
                "TOLERANCE": "-0 / +any",
            },
            {
                "OUTPUT": OUT / "depths_checked.gpkg",
                "SUMMARY": OUT / "depths_by_zone.gpkg",
                "HTML": OUT / "depths_checked.html",
            },
        ),
        Step(
            "volumes",
            "undercourse:volumes_between",
            {
                "UPPER": mesh,
                "LOWER": OUT / "depth.ply",
                "ZONES": layer("zones"),
                "PRIORITY_FIELD": "priority",
                "LOOSE": 1.25,
            },
            {
                "CELLS": OUT / "cut_fill.gpkg",
                "SUMMARY": OUT / "volumes_by_zone.gpkg",
                "HTML": OUT / "volumes.html",
            },
        ),
        Step(
            "breaks",
            "undercourse:slope_breaks",
            {
                "DESIGN": mesh,
                "MIN_CHANGE": 3,
                "MIN_LENGTH": "1 ft",
                "KNOWN": OUT / "design_lines.gpkg",
            },
            {
                "BREAKS": OUT / "breaks.gpkg",
                "COMPARISON": OUT / "breaks_compared.gpkg",
                "HTML": OUT / "breaks.html",
            },
        ),
        Step(
            "model_depth",
            "undercourse:depth_surfaces_and_guidelines",
            {
                "DESIGN_FILE": DESIGN,
                "SURFACE_NAME": "Finished grade",
                **depth_by_zone,
                "LINES": layer("back_of_curb"),
                "REFERENCE": layer("lane_centreline"),
                "SIDE": "away",
                "OFFSETS": "0.75 ft",
            },
            {
                "design": OUT / "model_design.ply",
                "depth_surface": OUT / "model_depth.ply",
                "guidelines": OUT / "model_guidelines.gpkg",
                "lines_to_look_at": OUT / "model_flagged.gpkg",
            },
        ),
        Step(
            "model_breaks",
            "undercourse:breaks_to_guidelines",
            {"DESIGN": mesh, "MIN_CHANGE": 3, "MIN_LENGTH": "1 ft", "OFFSETS": "2 ft"},
            {
                "toes_of_slope": OUT / "model_toes.gpkg",
                "guidelines": OUT / "model_toe_guidelines.gpkg",
                "lines_to_look_at": OUT / "model_toe_flagged.gpkg",
            },
        ),
        Step(
            "ground",
            "undercourse:read_landxml",
            {"INPUT": DESIGN, "SURFACE": "Existing ground"},
            {"TIN": OUT / "ground.ply"},
        ),
        Step(
            "ground_volumes",
            "undercourse:volumes_between",
            {
                "UPPER": OUT / "ground.ply",
                "LOWER": OUT / "depth.ply",
                "ZONES": layer("zones"),
                "PRIORITY_FIELD": "priority",
            },
            {
                "CELLS": OUT / "ground_volumes.gpkg",
                "SUMMARY": OUT / "ground_volumes_by_zone.gpkg",
                "HTML": OUT / "ground_volumes.html",
            },
        ),
        Step(
            "sections",
            "undercourse:cross_sections",
            {
                "LINES": layer("lane_centreline"),
                "INTERVAL": "50 ft",
                "WIDTH": "30 ft",
                "SURFACES": [OUT / "ground.ply", mesh, OUT / "depth.ply"],
                "UPPER": OUT / "ground.ply",
                "LOWER": OUT / "depth.ply",
                "ZONES": layer("zones"),
                "SCALE": 2,
            },
            {
                "SECTIONS": OUT / "sections.gpkg",
                "AREAS": OUT / "section_areas.gpkg",
                "CSV": OUT / "sections.csv",
                "PDF": OUT / "sections.pdf",
                "HTML": OUT / "sections.html",
            },
        ),
        Step(
            "review",
            "undercourse:review",
            {
                "DESIGN": mesh,
                "ACTUAL": OUT / "depth.ply",
                "ZONES": layer("zones"),
                "DEPTH_FIELD": "depth",
                "TOLERANCE": "-0 / +any",
                "RULE_FIELD": "rule",
                "TRAVEL": layer("walk_edge"),
                "PRIORITY_FIELD": "priority",
                "WATER": "\"section\" = 'rain garden'",
                "TITLE": "Pellworth drop-off loop: review of the design",
            },
            {
                "report": OUT / "review.html",
                "findings": OUT / "review_findings.gpkg",
                "checked_depth": OUT / "review_depth.gpkg",
                "grades_that_fail_or_nearly_fail": OUT / "review_grades.gpkg",
            },
        ),
        Step(
            "picture",
            HERE / "overview_map.py",
            {"zones": STORE, "strip": OUT / "guidelines_strip.gpkg", "breaks": OUT / "breaks.gpkg"},
            {"picture": OUT / "pellworth_overview.png"},
            [str(OUT), str(OUT / "pellworth_overview.png")],
        ),
    ]


def main():
    if "QGIS_CUSTOM_CONFIG_PATH" not in os.environ:
        raise SystemExit(
            "Start it by: bash sample_project/run.sh (it sets QGIS and the plugin up)."
        )
    OUT.mkdir(exist_ok=True)
    try:
        results = run_steps(steps(), OUT / ".done", HERE.parent)
    except StepError as error:
        raise SystemExit(f"{error}") from None
    text, off = summary.tell(results, OUT, DATA)
    print(text)
    if off:
        raise SystemExit("These figures are not the stated ones:\n" + "\n".join(off))


if __name__ == "__main__":
    main()
