"""Bores one after the other: is a cutter still doing what it did? The chart of single values and moving ranges, two
rules, and the straight line of a tip that wears.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct

from seatwright.handbook.tolerance import student_quantile

__all__ = [
    "ONE_SIDE",
    "SinglesChart",
    "StraightLine",
    "is_drift",
    "line_through",
    "moving_ranges",
    "on_one_side",
    "outside_limits",
    "singles_chart",
]

ONE_SIDE = 8
"""So many points in a row on one side of the mean are no chance [-]. Source: NIST handbook of statistical methods,
6.3.2: rules for charts."""

_D2 = 1.128  # the mean range of two of a normal distribution, in standard deviations: ASTM E2587, table of factors
_D4 = 3.267  # the upper limit of a range of two, in mean ranges: the same table


class SinglesChart(Struct, frozen=True):
    """The chart of single values: their `mean`, the `mean_range` from each to the next, and from it `sigma`, the limits
    `least` and `most` three sigma off the mean, and the `most_range`."""

    mean: float
    mean_range: float
    sigma: float
    least: float
    most: float
    most_range: float


class StraightLine(Struct, frozen=True):
    """A straight line of least squares: what it is `at_0`, its `slope` a step and the standard error of that; `left`:
    what each value lies off it; `s`: their standard deviation."""

    at_0: float
    slope: float
    slope_error: float
    left: tuple[float, ...]
    s: float

    def at(self, x: float) -> float:
        """The line at a place."""
        return self.at_0 + self.slope * x


def moving_ranges(values: Sequence[float]) -> tuple[float, ...]:
    """From each value to the next, without its sign [any unit]; one less than there are values.

    Raises no error. Source: the definition of the moving range.

    >>> moving_ranges([7.0, 9.0, 8.5])
    (2.0, 0.5)
    """
    return tuple(abs(after - before) for before, after in pairwise(values))


def singles_chart(values: Sequence[float]) -> SinglesChart:
    """Mean, limits and limit of the ranges of single values [any unit].

    mean ± 3·MR/1.128, ranges at most 3.267·MR, where MR is the mean of the moving ranges. Raises ValueError for fewer
    than two. Source: NIST handbook of statistical methods, 6.3.2.2; factors of ASTM E2587.

    >>> chart = singles_chart([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1])
    >>> round(chart.mean, 2), round(chart.mean_range, 4), round(chart.least, 4), round(chart.most, 4)
    (50.81, 1.8778, 45.8159, 55.8041)
    """
    ranges = moving_ranges(values)
    if not ranges:
        raise ValueError("one value has no range to the next")
    mean, mean_range = math.fsum(values) / len(values), math.fsum(ranges) / len(ranges)
    sigma = mean_range / _D2
    return SinglesChart(mean, mean_range, sigma, mean - 3 * sigma, mean + 3 * sigma, _D4 * mean_range)


def outside_limits(values: Sequence[float], least: float, most: float) -> tuple[int, ...]:
    """Places of the values that lie outside two limits, from 0 [-].

    Raises no error. Source: NIST handbook of statistical methods, 6.3.2, the first rule.

    >>> outside_limits([7.0, 22.5, 6.9], 4.77, 9.73)
    (1,)
    """
    return tuple(place for place, value in enumerate(values) if not least <= value <= most)


def on_one_side(values: Sequence[float], mean: float) -> tuple[int, ...]:
    """Places at which the last eight values, the one of the place among them, lie on one side of the mean [-].

    A value at the mean is on neither. Raises no error. Source: NIST handbook of statistical methods, 6.3.2.

    >>> on_one_side([1.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 1.0], 2.0)
    (8,)
    """
    found, run, side = [], 0, 0
    for place, value in enumerate(values):
        here = (value > mean) - (value < mean)
        run = run + 1 if here == side and here else abs(here)
        side = here
        if run >= ONE_SIDE:
            found.append(place)
    return tuple(found)


def line_through(xs: Sequence[float], ys: Sequence[float]) -> StraightLine:
    """The straight line of least squares through points [any units].

    Raises ValueError for fewer than three points, and where all stand at one x. Source: NIST handbook of statistical
    methods, 4.1.4.1 and 4.4.4: ordinary least squares.

    >>> line = line_through([1.0, 2.0, 3.0, 4.0], [1.0, 3.0, 2.0, 4.0])
    >>> round(line.slope, 3), round(line.at_0, 3), round(line.slope_error, 4)
    (0.8, 0.5, 0.4243)
    """
    count = len(xs)
    if count != len(ys) or count < 3:
        raise ValueError("a line with a spread about it wants three points")
    middle_x, middle_y = math.fsum(xs) / count, math.fsum(ys) / count
    squares = math.fsum((x - middle_x) ** 2 for x in xs)
    if squares <= 0:
        raise ValueError("all points stand at one place")
    slope = math.fsum((x - middle_x) * (y - middle_y) for x, y in zip(xs, ys, strict=True)) / squares
    at_0 = middle_y - slope * middle_x
    left = tuple(y - at_0 - slope * x for x, y in zip(xs, ys, strict=True))
    s = math.sqrt(math.fsum(each * each for each in left) / (count - 2))
    return StraightLine(at_0, slope, s / math.sqrt(squares), left, s)


def is_drift(line: StraightLine, sure: float = 0.99) -> bool:
    """Whether a line rises or falls by more than chance would let it.

    |slope / its error| over Student's quantile of (1 + sure)/2, with two degrees less than there are points. `sure`:
    the share of steady runs that are rightly called steady [-]. Raises no error. Source: NIST handbook of
    statistical methods, 4.4.4.

    >>> is_drift(line_through([1.0, 2.0, 3.0, 4.0], [1.0, 3.0, 2.0, 4.0]))
    False
    """
    if line.slope_error == 0:
        return line.slope != 0
    return abs(line.slope / line.slope_error) > student_quantile((1 + sure) / 2, len(line.left) - 2)
