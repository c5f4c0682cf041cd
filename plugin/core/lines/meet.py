"""Where straight lines and circles meet: the ends of parallels in closed form."""

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Straight:
    """A straight line through ``start`` in the unit direction ``way``."""

    start: np.ndarray
    way: np.ndarray

    def nearest(self, place: np.ndarray) -> np.ndarray:
        """Return the point of the line nearest to a place."""
        return self.start + ((place - self.start) @ self.way) * self.way


@dataclass(frozen=True)
class Circle:
    """A circle."""

    centre: np.ndarray
    radius: float

    def nearest(self, place: np.ndarray) -> np.ndarray:
        """Return the point of the circle in the direction of a place."""
        to = place - self.centre
        return self.centre + self.radius * to / np.hypot(to[0], to[1])


Course = Straight | Circle


def meet(one: Course, other: Course, near: np.ndarray) -> np.ndarray | None:
    """Return the point that two courses share, the one nearest to a place; None if there is none.

    Parameters
    ----------
    one, other
        Straight lines or circles.
    near : (2,) float
        The place.
    """
    if isinstance(one, Straight) and isinstance(other, Straight):
        return _two_lines(one, other)
    if isinstance(one, Circle) and isinstance(other, Circle):
        both = _two_circles(one, other)
    elif isinstance(one, Straight) and isinstance(other, Circle):
        both = _line_circle(one, other)
    else:
        assert isinstance(one, Circle) and isinstance(other, Straight)
        both = _line_circle(other, one)
    return min(both, key=lambda place: float(np.hypot(*(place - near))), default=None)


def _two_lines(one: Straight, other: Straight) -> np.ndarray | None:
    cross = one.way[0] * other.way[1] - one.way[1] * other.way[0]
    if abs(cross) < 1e-12:
        return None
    to = other.start - one.start
    return one.start + (to[0] * other.way[1] - to[1] * other.way[0]) / cross * one.way


def _line_circle(line: Straight, circle: Circle) -> list[np.ndarray]:
    foot = line.nearest(circle.centre)
    gap = float(np.hypot(*(foot - circle.centre)))
    if gap > circle.radius:
        return []
    reach = np.sqrt((circle.radius - gap) * (circle.radius + gap))
    return [foot - reach * line.way, foot + reach * line.way]


def _two_circles(one: Circle, other: Circle) -> list[np.ndarray]:
    to = other.centre - one.centre
    gap = float(np.hypot(to[0], to[1]))
    if gap == 0 or gap > one.radius + other.radius or gap < abs(one.radius - other.radius):
        return []
    along = (gap + (one.radius - other.radius) * (one.radius + other.radius) / gap) / 2.0
    reach = np.sqrt(max((one.radius - along) * (one.radius + along), 0.0))
    unit = to / gap
    square = np.array([-unit[1], unit[0]])
    return [one.centre + along * unit + side * reach * square for side in (1.0, -1.0)]
