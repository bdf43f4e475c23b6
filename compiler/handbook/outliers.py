"""Is one figure out of line with others that should be like it? By median and median deviation, which one slip
among the others does not move.
"""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median

__all__ = ["MODIFIED_Z", "beyond", "limit", "median_deviation", "modified_z"]

MODIFIED_Z = 3.5
"""Over this a figure is called an outlier [-]. Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17, after
Iglewicz and Hoaglin (1993)."""

_NORMAL = 0.6745  # the median deviation of a normal distribution, in standard deviations (same source)


def median_deviation(figures: Sequence[float]) -> float:
    """The median of how far figures lie from their median [their unit].

    Raises ValueError where there are none. Source: NIST/SEMATECH e-Handbook, 1.3.5.6.

    >>> median_deviation([8.05, 8.06, 8.08, 8.10, 8.06])
    0.00999999999999979
    """
    if not figures:
        raise ValueError("no figures to take a median of")
    middle = median(figures)
    return float(median(abs(figure - middle) for figure in figures))


def modified_z(figure: float, figures: Sequence[float]) -> float:
    """How many standard deviations a figure lies from the median of figures, as their median deviation tells them [-].

    0.6745·(x − median)/MAD. Raises ValueError where there are none, or where they are all alike (MAD 0).
    Source: NIST/SEMATECH e-Handbook, 1.3.5.17.
    """
    spread = median_deviation(figures)
    if spread == 0:
        raise ValueError("figures that are all alike have no spread")
    return float(_NORMAL * (figure - median(figures)) / spread)


def limit(others: Sequence[float], floor: float) -> float:
    """How far from the median of the others a figure may lie [their unit]: 3.5·MAD/0.6745, and never less than a floor.

    `floor`: what the instrument and a worn head explain; a few figures that happen to be alike have no spread of their
    own. Raises ValueError where there are no others. Source: NIST/SEMATECH e-Handbook, 1.3.5.17; the floor is this
    program's own.

    >>> round(limit([8.06, 8.08, 8.05], 0.02), 3)
    0.052
    >>> limit([8.06, 8.06, 8.06], 0.02)
    0.02
    """
    return max(floor, MODIFIED_Z * median_deviation(others) / _NORMAL)


def beyond(figure: float, others: Sequence[float]) -> float:
    """How far a figure lies outside the range of others [their unit]; negative below, 0 inside.

    Raises ValueError where there are none. Source: arithmetic.

    >>> beyond(0.5, [0.0, 0.25]), beyond(-0.5, [0.0, 0.25]), beyond(0.1, [0.0, 0.25])
    (0.25, -0.5, 0.0)
    """
    return max(0.0, figure - max(others)) + min(0.0, figure - min(others))
