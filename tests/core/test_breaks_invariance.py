"""Breaks depend on the surface alone: not on orders, nor on where and how it lies."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from plugin.core.breaks import measure_edges
from plugin.core.breaks.kinds import LEVEL_GRADE

from .breaks_shapes import breaks_of, moved, rough, shuffled, tin

MINIMUM = 0.25


def everything(lines):
    """Return all that a result says but the numbers of its edges, as bytes."""
    spreads = (lines.change, lines.grade_left, lines.grade_right)
    arrays = [
        lines.coordinates,
        lines.offsets,
        lines.kind,
        *(values for spread in spreads for values in vars(spread).values()),
        lines.angle,
        lines.length,
        lines.closed,
        lines.wall,
        lines.doubtful,
        lines.skipped,
    ]
    return [np.ascontiguousarray(values).tobytes() for values in arrays]


@pytest.mark.parametrize("seed", range(5))
def test_orders_of_faces_and_vertices_give_the_same_bytes(seed):
    vertices, faces = rough(25, 0.6, seed)
    expected = breaks_of(tin(vertices, faces), MINIMUM)
    assert len(expected) > 100
    assert everything(breaks_of(tin(vertices, faces[::-1]), MINIMUM)) == everything(expected)
    mixed = breaks_of(tin(*shuffled(vertices, faces, seed)), MINIMUM)
    assert everything(mixed) == everything(expected)


def test_turned_faces_give_the_same_lines():
    vertices, faces = rough(25, 0.6, 4)
    expected = breaks_of(tin(vertices, faces), MINIMUM)
    for other in (faces[:, ::-1], np.roll(faces, 1, axis=1)):
        found = breaks_of(tin(vertices, other), MINIMUM)
        assert found.coordinates.tobytes() == expected.coordinates.tobytes()
        np.testing.assert_allclose(found.change.mean, expected.change.mean, rtol=1e-12)


def as_set(lines, back):
    """Return the lines as {set of positions, brought back and rounded: figures}."""
    result = {}
    for number in range(len(lines)):
        places = frozenset(map(tuple, np.round(back(lines.line(number)), 4)))
        result[places] = (
            int(lines.kind[number]),
            lines.length[number],
            lines.change.mean[number],
            lines.change.low[number],
            lines.change.high[number],
            sorted((lines.grade_left.mean[number], lines.grade_right.mean[number])),
        )
    return result


@settings(deadline=None, max_examples=40)
@given(
    st.integers(0, 10_000),
    st.floats(0, 360),
    st.booleans(),
    st.sampled_from([(0, 0, 0), (1e7, 0, 0), (-1e7, 1e7, 1000), (3e6, 7e6, -50)]),
)
def test_turning_mirroring_and_shifting(seed, degrees, mirror, shift):
    vertices, faces = rough(6, 0.6, seed)
    vertices = np.round(vertices, 3)
    surface = tin(vertices, faces)
    # Leave out surfaces with a figure so near to a limit that rounding may decide.
    changes = measure_edges(surface, np.flatnonzero((surface.quick_edges.faces >= 0).all(axis=1)))
    rises = np.concatenate((changes.rise_left, changes.rise_right))
    assume((np.abs(np.abs(changes.change) - MINIMUM) > 1e-5).all())
    assume((np.abs(np.abs(rises) - LEVEL_GRADE) > 1e-5).all())

    def back(places):
        places = moved(places - np.asarray(shift), -degrees)
        return moved(places, mirror=mirror) + 0.0

    there = breaks_of(tin(moved(vertices, degrees, shift, mirror), faces), MINIMUM)
    here = as_set(breaks_of(surface, MINIMUM), np.array)
    found = as_set(there, back)
    assert found.keys() == here.keys()
    for places, figures in here.items():
        for one, two in zip(found[places], figures, strict=True):
            np.testing.assert_allclose(one, two, rtol=1e-5, atol=1e-6)
