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


def write_schedule(path):
    """Write the schedule as a table: one row for each course."""
    with path.open("w", newline="", encoding="utf-8") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(("section", "order", "course", "thickness", "widen", "batter"))
        for section in f.SECTIONS:
            courses = COURSES[section]
            for order, (course, thickness) in enumerate(courses, 1):
                lowest = order == len(courses)
                widen = f.WIDEN.get(section, "0") if lowest else "0"
                table.writerow(
                    (section, order, course, thickness, widen, f.BATTER.get(section, "0"))
                )
