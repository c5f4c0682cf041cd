"""Sentences about what may be wrong with points and breaklines."""

from ...findings import Finding
from ...text import translate
from .places import LINE, POINT, RING, Clash

CROSSING, DUPLICATE, OFF_LINE, BOUNDARY = "crossing", "duplicate", "off_line", "boundary"
NO_HEIGHT, UNCOVERED, ALONE, LOST = "no_height", "uncovered", "alone", "lost"


def about_clash(clash: Clash) -> Finding:
    """Return what is to be said about two heights in one place."""
    low, high = clash.heights
    kinds = sorted(clash.kinds)
    if kinds == [POINT, POINT]:
        code, text = (
            DUPLICATE,
            translate(
                "Core",
                "Points {a} and {b} lie in one place at heights {low} and {high}, {apart} apart: neither was used. Remove the wrong one.",
            ),
        )
    elif kinds == [LINE, LINE] and clash.features[0] == clash.features[1]:
        code, text = (
            CROSSING,
            translate(
                "Core",
                "Breakline {line} meets itself at heights {low} and {high}, {apart} apart: its segments that meet here were not used. Mend its heights.",
            ),
        )
    elif kinds == [LINE, LINE]:
        code, text = (
            CROSSING,
            translate(
                "Core",
                "Breaklines {a} and {b} meet at heights {low} and {high}, {apart} apart: their segments that meet here were not used. Mend the heights of one of them.",
            ),
        )
    elif kinds == [RING, RING]:
        code, text = (
            BOUNDARY,
            translate(
                "Core",
                "The boundary (features {a} and {b}) has two heights here, {low} and {high}, {apart} apart: only one can be right, mend it.",
            ),
        )
    elif POINT in kinds:
        code, text = (
            OFF_LINE,
            translate(
                "Core",
                "Point {point} lies on breakline or boundary {line}, {apart} off its height ({low} and {high}): the point was not used. Mend the one that is wrong.",
            ),
        )
    else:
        code, text = (
            BOUNDARY,
            translate(
                "Core",
                "Breakline {line} meets the boundary at heights {low} and {high}, {apart} apart: its segments that meet here were not used. Mend one of them.",
            ),
        )
    a, b = clash.features
    # The weaker of the two kinds (a point before a line, a line before a boundary) comes first.
    weak, strong = (a, b) if clash.kinds[0] >= clash.kinds[1] else (b, a)
    if POINT in kinds:
        names = {"point": weak, "line": strong}
    else:
        names = {"line": weak}
    why = text.format(
        a=min(a, b),
        b=max(a, b),
        low=f"{low:.3f}",
        high=f"{high:.3f}",
        apart=f"{high - low:.3f}",
        **names,
    )
    return Finding(code, why, clash.place, weak)


def point_without_height(feature: int, place: tuple[float, float]) -> Finding:
    """Say that a point has no height."""
    text = translate("Core", "Point {id} has no height and was not used: give it one.")
    return Finding(NO_HEIGHT, text.format(id=feature), place, feature)


def line_off_surface(feature: int, place: tuple[float, float]) -> Finding:
    """Say that a line without heights finds none."""
    text = translate(
        "Core",
        "Breakline {id} takes its heights from the surface, which does not reach this vertex: its segments here were not used.",
    )
    return Finding(NO_HEIGHT, text.format(id=feature), place, feature)


def not_covered(area: float, place: tuple[float, float]) -> Finding:
    """Say that the surface does not reach the boundary."""
    text = translate(
        "Core",
        "The points do not reach the boundary here: {area} square plan units within it have no surface. Give the boundary heights, or extend the surface.",
    )
    return Finding(UNCOVERED, text.format(area=f"{area:.2f}"), place)


def without_face(feature: int, place: tuple[float, float]) -> Finding:
    """Say that a point is left without a face."""
    text = translate(
        "Core",
        "The vertex here (feature {id}) is in no face, because all edges to it are longer than the longest edge allowed.",
    )
    return Finding(ALONE, text.format(id=feature), place, feature)


def lost_piece(feature: int, place: tuple[float, float]) -> Finding:
    """Say that a piece of a breakline is no edge of the surface."""
    text = translate(
        "Core", "Breakline {id} is no edge of the surface here: look at the faces around it."
    )
    return Finding(LOST, text.format(id=feature), place, feature)
