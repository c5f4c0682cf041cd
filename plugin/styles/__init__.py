"""Colours and styles of everything the plugin draws."""

from .issues import style_issue_areas, style_issues
from .lines import (
    style_alignments,
    style_breaks,
    style_checked,
    style_compared,
    style_design_lines,
    style_flagged,
    style_guidelines,
    style_left_over,
    style_oriented_lines,
    style_passes,
    style_patches,
    style_points,
    style_reference_lines,
)
from .sections import style_section_marks, style_sections
from .stakes import style_stakes
from .surfaces import (
    style_checked_areas,
    style_cut_fill,
    style_depth_check,
    style_depth_faces,
    style_depth_mesh,
    style_extended_faces,
    style_faces,
    style_mesh,
    style_raster_surface,
    style_zones,
)

__all__ = [
    "style_alignments",
    "style_breaks",
    "style_checked",
    "style_checked_areas",
    "style_compared",
    "style_cut_fill",
    "style_depth_check",
    "style_depth_faces",
    "style_depth_mesh",
    "style_design_lines",
    "style_extended_faces",
    "style_faces",
    "style_flagged",
    "style_guidelines",
    "style_issue_areas",
    "style_issues",
    "style_left_over",
    "style_mesh",
    "style_oriented_lines",
    "style_passes",
    "style_patches",
    "style_points",
    "style_raster_surface",
    "style_reference_lines",
    "style_section_marks",
    "style_sections",
    "style_stakes",
    "style_zones",
]
