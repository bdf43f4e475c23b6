"""The temperature at which a growth with heat reaches a figure, found exactly between the lines of a table.

A mean expansion that runs straight between its lines makes the growth mean·(T − 20) a parabola there, and a parabola
is known from three points: no search is needed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

__all__ = ["Course", "course_of", "first_temperature"]

_SAME = 1e-9
"""Slack for a root that lies on a line of the table [°C]."""

Course = tuple[tuple[float, float, float, float, float], ...]
"""A growth with heat: of each stretch where it begins, half its width [°C], and the growth at its beginning, middle and
end [-]."""


def course_of(growth: Callable[[float], float], lines: Sequence[float]) -> Course:
    """The course of a growth with heat; one serves every part of the same metals.

    `growth`: at a temperature [°C], [-]; `lines`: rising temperatures [°C] between which it is a parabola at most.
    Source: arithmetic.

    >>> course_of(lambda t: t - 20, [20, 60, 80])
    ((20, 20.0, 0, 20.0, 40), (60, 10.0, 40, 50.0, 60))
    """
    course = []
    at_end = growth(lines[0]) if len(lines) > 1 else 0.0
    for low, high in pairwise(lines):
        half = (high - low) / 2
        if half > 0:
            at_start, at_end = at_end, growth(high)
            course.append((low, half, at_start, growth(low + half), at_end))
    return tuple(course)


def first_temperature(course: Course, wanted: float) -> float | None:
    """The lowest temperature [°C] at which a growth comes to `wanted` [-], or None if it does not on the way.

    `course`: of the growth [-], by `course_of`; its first and last temperature bound the search. Source: arithmetic.

    >>> first_temperature(course_of(lambda t: 11e-6 * (t - 20), [20, 200]), 11e-6 * 90)
    110.0
    """
    for low, half, at_start, at_middle, at_end in course:
        left, middle, right = at_start - wanted, at_middle - wanted, at_end - wanted
        found = _first_root((right - 2 * middle + left) / 2, (right - left) / 2, middle, half)
        if found is not None:
            return low + half + found * half
    return None


def _first_root(a: float, b: float, c: float, half: float) -> float | None:
    """The lowest root of a·x² + b·x + c from −1 to +1, or None."""
    slack = _SAME / half
    roots: list[float] = []
    scale = max(abs(a), abs(b), abs(c))
    if scale == 0:
        return -1.0
    if abs(a) <= 1e-12 * scale:
        if b != 0:
            roots = [-c / b]
    else:
        square = b * b - 4 * a * c
        if square >= 0:
            # The stable pair: no difference of nearly equal numbers.
            q = -(b + (square**0.5 if b >= 0 else -(square**0.5))) / 2
            roots = [q / a] + ([c / q] if q != 0 else [])
    inside = sorted(x for x in roots if -1 - slack <= x <= 1 + slack)
    return min(1.0, max(-1.0, inside[0])) if inside else None
