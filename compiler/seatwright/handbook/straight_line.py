"""Between two points of a table: in a straight line."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

__all__ = ["between_neighbours"]


def between_neighbours(points: Sequence[tuple[float, float]], at: float) -> float:
    """What a table says at a place between its lines: in a straight line between the two beside it.

    points : (place [any], what is said there [any]), rising, each place once
    at : from the first place to the last [as there]
    Errors : none within the table.
    Source : arithmetic.

    >>> between_neighbours([(40.0, 0.002), (50.0, 0.004)], 45.0), between_neighbours([(40.0, 0.002)], 40.0)
    (0.003, 0.002)
    """
    place = bisect_left(points, (at,))  # the first that is not below it
    above = points[place]
    if above[0] == at:
        return above[1]
    below = points[place - 1]
    share = (at - below[0]) / (above[0] - below[0])
    return below[1] + share * (above[1] - below[1])
