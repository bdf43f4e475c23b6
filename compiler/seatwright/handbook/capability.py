"""What a shop can hold: how well bores keep to their fit, how well an instrument repeats, what a few bores say."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from statistics import fmean, stdev

from msgspec import Struct

from seatwright.handbook.tolerance import chi_square_quantile, normal_quantile, student_quantile

__all__ = [
    "Performance",
    "Repeats",
    "next_spread",
    "performance",
    "performance_bound",
    "repeatability_of",
    "repeats_worse",
    "steps_spread",
]


class Performance(Struct, frozen=True):
    """How well values keep between limits of -1 and 1: their `mean`, standard deviation `s`, the index `Ppk`, and the
    value `bound` that it is over, 95 % sure."""

    mean: float
    s: float
    Ppk: float
    bound: float


class Repeats(Struct, frozen=True):
    """What an instrument scatters on one and the same thing: `s`, from so many `degrees` of freedom."""

    s: float
    degrees: int


def performance(values: Sequence[float]) -> Performance | None:
    """How well values keep between -1 and 1, which is where a fit is used up [-]; None without any spread.

    P = (1 - |mean|)/(3·s). Raises StatisticsError for fewer than two values. Source: ISO 22514-2:2017, the performance
    index of the nearer limit; NIST handbook of statistical methods, 7.1.6.

    >>> found = performance([0.1, -0.2, 0.3, 0.0, 0.2])
    >>> round(found.Ppk, 3), round(found.bound, 3)
    (1.594, 0.635)
    """
    mean, s = fmean(values), stdev(values)
    if s == 0:
        return None
    index = (1 - abs(mean)) / (3 * s)
    return Performance(mean, s, index, performance_bound(index, len(values)))


def performance_bound(index: float, count: int, sure: float = 0.95) -> float:
    """What a performance index, told by so many values, is over with a certainty [-].

    P - z·sqrt(1/(9·n) + P²/(2·(n - 1))). `index`: P; `count`: n, 2 or more; good from about 25. Raises ValueError for
    fewer than two. Source: ISO 22514-2:2017, confidence limits of the indices (the normal approximation).

    >>> round(performance_bound(1.15, 45, 0.975), 4)
    0.8907
    """
    if count < 2:
        raise ValueError("one value has no spread")
    return index - normal_quantile(sure) * math.sqrt(1 / (9 * count) + index**2 / (2 * (count - 1)))


def repeatability_of(readings: Iterable[Sequence[float]]) -> Repeats | None:
    """What an instrument scatters, from several readings of one thing, thing by thing [any unit].

    s = sqrt(sum of squares / sum of (r - 1)), the squares about the mean of each thing. None where nothing was read
    twice. Raises no error. Source: NIST handbook of statistical methods, 2.4.4: level-1 standard deviations, pooled.

    >>> found = repeatability_of([(9.020, 9.022, 9.021), (36.514, 36.516), (8.0,)])
    >>> round(found.s, 5), found.degrees
    (0.00115, 3)
    """
    squares, degrees = 0.0, 0
    for each in readings:
        middle = math.fsum(each) / len(each) if each else 0.0
        squares += math.fsum((one - middle) ** 2 for one in each)
        degrees += max(len(each) - 1, 0)
    return Repeats(math.sqrt(squares / degrees), degrees) if degrees else None


def repeats_worse(found: Repeats, stated: float, sure: float = 0.99) -> bool:
    """Whether an instrument scatters more than is said of it, by more than chance would.

    s²·degrees/stated² over the quantile of chi-square. `stated`: as the shop has it, over 0 [any unit];
    `sure`: the share of honest instruments that pass [-]. Raises ZeroDivisionError for 0. Source: NIST handbook of
    statistical methods, 7.2.3: the chi-square test of a standard deviation.

    >>> repeats_worse(Repeats(0.0016, 34), 0.0008), repeats_worse(Repeats(0.0009, 34), 0.0008)
    (True, False)
    """
    return found.degrees * (found.s / stated) ** 2 > chi_square_quantile(sure, found.degrees)


def next_spread(s: float, count: int) -> float:
    """The spread that lets a guard band keep its meaning though only a few bores told it [any unit].

    s·sqrt(1 + 1/n)·t/1.645, where t is Student's quantile of 95 % for n - 1 degrees: 1.645 of it hold what t of s
    would. `count`: n, 2 or more. Raises ValueError for fewer. Source: NIST handbook of statistical methods, 7.1.4
    (one new value); what it is divided by is derived here.

    >>> round(next_spread(1.0, 10), 4), round(next_spread(1.0, 1000), 3)
    (1.1688, 1.001)
    """
    if count < 2:
        raise ValueError("one bore has no spread")
    return s * math.sqrt(1 + 1 / count) * student_quantile(0.95, count - 1) / normal_quantile(0.95)


def steps_spread(steps: Iterable[float]) -> float:
    """The standard deviation that reading to whole steps gives by itself [any unit].

    sqrt(sum of step²/12): less than this nobody can see. Raises no error. Source: GUM (JCGM 100:2008), 4.3.7.

    >>> round(steps_spread([0.001, 0.001]), 6)
    0.000408
    """
    return math.sqrt(sum(step * step for step in steps) / 12)
