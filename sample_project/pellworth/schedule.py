"""The schedule of sections: courses from the top down, thicknesses as a plan writes them."""

import csv

from . import figures as f

COURSES = {
    "lane": (("wearing course", "0.15 ft"), ("binder course", "0.25 ft"), ("base", "0.70 ft")),
    "bus bay": (("concrete", "8 1/2 in"), ("base", "8 in")),
    "curb": (("curb and gutter", "0.65 ft"), ("bedding", "0.50 ft")),
    "walk": (("slab", "4 1/2 in"), ("bedding", "4 in")),
    "planting strip": (("planting soil", "0.60 ft"),),
    "lawn": (("topsoil", "0.35 ft"),),
    "rain garden": (("mulch", "0.25 ft"), ("soil mix", "1.35 ft")),
    "crossing": (("pavers", "3 in"), ("bedding", "1 1/2 in"), ("base", "10 1/2 in")),
}

MATERIAL = {
    "wearing course": ("", "146 lb/ft3"),
    "binder course": ("", "143 lb/ft3"),
    "base": ("1.22", "132 lb/ft3"),
    "concrete": ("", "149 lb/ft3"),
    "curb and gutter": ("", "149 lb/ft3"),
    "bedding": ("1.14", "112 lb/ft3"),
    "slab": ("", "149 lb/ft3"),
    "planting soil": ("1.30", ""),
    "topsoil": ("1.30", ""),
    "mulch": ("1.45", ""),
    "soil mix": ("1.27", ""),
    "pavers": ("", "141 lb/ft3"),
}
"""Swell (loose volume over volume in place) and density in place."""


def write_schedule(path):
    """Write the schedule as a table: one row for each course."""
    columns = ("section", "order", "course", "thickness", "widen", "batter", "swell", "density")
    with path.open("w", newline="", encoding="utf-8") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(columns)
        for section in f.SECTIONS:
            courses = COURSES[section]
            for order, (course, thickness) in enumerate(courses, 1):
                lowest = order == len(courses)
                widen = f.WIDEN.get(section, "0") if lowest else "0"
                sides = f.BATTER.get(section, "0")
                row = (section, order, course, thickness, widen, sides, *MATERIAL[course])
                table.writerow(row)
