"""The colours, in one place.

They differ in lightness as well as in hue, so that they stay apart for colour-blind eyes and on
a grey print; wherever they carry a meaning, a pattern, a width or a label carries it too.
"""

SLATE = "#2f3e4c"
"""Reference lines and outlines."""

OCHRE = "#b3740f"
"""Guidelines."""

OCHRE_TEXT = "#7f4f05"
"""Labels of guidelines: ochre dark enough to be read."""

PLUM = "#5a3586"
"""Low end of differences; valleys."""

ORANGE = "#d8680b"
"""High end of differences; ridges."""

TEAL = "#0f6f70"
"""Tops of slope."""

BROWN = "#7d4a2d"
"""Toes of slope."""

BERRY = "#b00b5c"
"""Whatever is flagged."""

PAPER = "#f5f2ea"
"""Middle of differences; halo behind labels."""

MIST = "#c9d3d6"
"""Quiet fills."""

QUIET_TEXT = "#56636d"
ERROR_TEXT = "#9c0d50"

DIVERGING = (
    (0.0, PLUM),
    (0.25, "#a48cc0"),
    (0.5, PAPER),
    (0.75, "#efb27c"),
    (1.0, ORANGE),
)
"""Low to high differences, by share of the range."""

HEIGHTS = (
    (0.0, "#2d2250"),
    (0.25, "#5a3586"),
    (0.5, "#a2597b"),
    (0.75, "#dd8a52"),
    (1.0, "#f7dfa8"),
)
"""Low to high heights or depths: lightness rises all the way."""

BREAK_KINDS = {
    "ridge": (ORANGE, "solid", 0.7),
    "valley": (PLUM, "dash", 0.7),
    "top": (TEAL, "dash dot", 0.5),
    "toe": (BROWN, "dot", 0.9),
    "edge": (SLATE, "dash dot dot", 0.35),
}
"""Colour, pattern and width in millimetres of each kind of slope break, and of outer edges."""

COMPARED = {
    "both": (SLATE, "solid", 0.35),
    "missing": (BERRY, "dash", 1.0),
    "no_break": (ORANGE, "dot", 0.8),
}
"""The same of breaks that are drawn, breaks that are not, and drawn lines that are no break."""

PATCH_SHADES = (
    (1.25, "#faf8f2"),
    (2.5, "#eeebe2"),
    (7.0, "#e1dfd7"),
    (14.0, "#d3d3cf"),
    (28.0, "#c4c7c7"),
    (60.0, "#b4babd"),
    (float("inf"), "#a3acb2"),
)
"""Fill of a patch up to each grade in percent: the steeper the darker, lighter than any break.

The bounds lie between grades that are usual, so that a design at one of them has one shade."""
