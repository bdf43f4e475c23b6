"""Is one figure out of line with others that should be like it? By median and median deviation, which one slip
among the others does not move.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

__all__ = ["MODIFIED_Z", "beyond", "limit", "median"]

MODIFIED_Z = 3.5
"""Over this a figure is called an outlier [-]. Source: NIST handbook of statistical methods, 1.3.5.17: the modified
z-score."""

_NORMAL = 0.6745  # the median deviation of a normal distribution, in standard deviations (same source)


def median(figures: Iterable[float]) -> float:
    """The figure in the middle of several [any unit], or half way between the two that are there.

    Raises ValueError where there are none. Source: common practice. Written out here, since Python's own module of
    statistics takes longer to load than a job to read.

    >>> median([3.0, 1.0, 2.0]), median([4.0, 1.0, 2.0, 3.0])
    (2.0, 2.5)
    """
    ordered = sorted(figures)
    if not ordered:
        raise ValueError("no figures to take a median of")
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


def limit(departures: Sequence[float], floor: float, half_step: float = 0.0) -> float:
    """How far from the median of its like a figure may lie [any unit]: 3.5·MAD/0.6745, and never less than a floor.

    `departures`: how far others lie from the median of their own kind; `floor`: what the instrument and a worn head
    explain, as a few figures that happen to be alike have no spread of their own; `half_step`: half of what the figures
    are rounded to, which spreads them by as much without any cause. Raises ValueError where there are no others.
    Source: NIST handbook of statistical methods, 1.3.5.17; floor and step are this program's own.

    >>> round(limit([0.0, 0.02, -0.01, 0.03], 0.02), 3)
    0.078
    >>> limit([0.0, 0.01, -0.01, 0.0], 0.02, 0.005)
    0.02
    """
    if not departures:
        raise ValueError("no departures to take a median of")
    spread = median(abs(departure) for departure in departures)
    return float(max(floor, MODIFIED_Z * (spread - half_step) / _NORMAL))


def beyond(figure: float, others: Sequence[float]) -> float:
    """How far a figure lies outside the range of others [any unit]; negative below, 0 inside.

    Raises ValueError where there are none. Source: arithmetic.

    >>> beyond(0.5, [0.0, 0.25]), beyond(-0.5, [0.0, 0.25]), beyond(0.1, [0.0, 0.25])
    (0.25, -0.5, 0.0)
    """
    return max(0.0, figure - max(others)) + min(0.0, figure - min(others))
