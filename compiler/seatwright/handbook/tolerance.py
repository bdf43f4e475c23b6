"""How far from their mean the next bores may lie: the distributions of statistics, and the factors made of them.

A factor k of a sample holds a stated share of all that the same cutter will bore between mean - k·s and mean + k·s, and
says how sure that is. Everything is exact but for the quadrature, which is good to 1e-9.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache
from itertools import pairwise
from statistics import NormalDist

__all__ = [
    "chi_square_below",
    "chi_square_quantile",
    "normal_quantile",
    "one_sided_factor",
    "student_below",
    "student_quantile",
    "two_sided_factor",
]

_NORMAL = NormalDist()
_POINTS = 64  # of Gauss and Legendre, for each stretch
_FAR = 8.5  # standard deviations: beyond them lies less than 1e-16 of a normal distribution
_TINY = 1e-15


def normal_quantile(share: float) -> float:
    """Where a normal distribution of mean 0 and standard deviation 1 has a share of its values below [-].

    `share`: between 0 and 1. Raises StatisticsError outside. Source: the definition of the normal distribution.

    >>> round(normal_quantile(0.95), 4)
    1.6449
    """
    return _NORMAL.inv_cdf(share)


def chi_square_below(x: float, degrees: float) -> float:
    """The share of a chi-square distribution that lies below x [-]: the regularised incomplete gamma function.

    `degrees`: of freedom, over 0; `x`: the sum of squares. Good to 1e-12. Raises ValueError for degrees of 0 or less.
    Source: NIST Digital Library of Mathematical Functions, 8.11 (series) and 8.9 (continued fraction).

    >>> round(chi_square_below(3.841458820694124, 1), 9)
    0.95
    """
    if degrees <= 0:
        raise ValueError("a chi-square distribution has more than no degrees of freedom")
    if x <= 0:
        return 0.0
    a, half = degrees / 2, x / 2
    scale = math.exp(a * math.log(half) - half - math.lgamma(a))
    if half < a + 1:
        term = total = 1 / a
        at = a
        while term > total * _TINY:
            at += 1
            term *= half / at
            total += term
        return scale * total
    # Lentz: the fraction from its front, with what it is divided by kept away from 0.
    b = half + 1 - a
    c, d = 1 / 1e-300, 1 / b
    fraction = d
    for step in range(1, 10_000):
        part = -step * (step - a)
        b += 2
        d = 1 / (part * d + b)
        c = b + part / c
        fraction *= d * c
        if abs(d * c - 1) < _TINY:
            break
    return 1 - scale * fraction


def chi_square_quantile(share: float, degrees: float) -> float:
    """Where a chi-square distribution has a share of its values below [-].

    `share`: 0 or more and below 1; `degrees`: of freedom, over 0. Raises ValueError outside. Source: the definition of
    a quantile.

    >>> round(chi_square_quantile(0.99, 34), 3)
    56.061
    """
    if not 0 <= share < 1:
        raise ValueError("a share lies between 0 and 1")
    return _root(lambda x: chi_square_below(x, degrees) - share, 0.0, degrees + 10)


def student_below(t: float, degrees: float, shift: float = 0.0) -> float:
    """The share of Student's distribution that lies below t [-]; with a `shift`, of the noncentral one.

    `degrees`: of freedom, over 0. It is the mean of Phi(t·u - shift) over u, the root of a chi-square variable over its
    degrees, by Gauss and Legendre. Good to 1e-9 from 2 degrees on. Raises ValueError for degrees of 0 or less.
    Source: the definition of the distribution.

    >>> round(student_below(1.833112932653, 9), 9)
    0.95
    """
    if degrees <= 0:
        raise ValueError("Student's distribution has more than no degrees of freedom")
    front = math.log(2) + degrees / 2 * math.log(degrees / 2) - math.lgamma(degrees / 2)

    def density(u: float) -> float:
        return math.exp(front + (degrees - 1) * math.log(u) - degrees * u * u / 2)

    spread = _FAR / math.sqrt(2 * degrees)
    ends = [0.0, max(1 - spread, 0.0), 1 + 2 * spread]
    if t:
        turns = shift / t  # here Phi goes from 0 to 1, the steeper the larger t
        ends += [turns - _FAR / abs(t), turns, turns + _FAR / abs(t)]
    return _integral(lambda u: _NORMAL.cdf(t * u - shift) * density(u), ends, ends[2])


def student_quantile(share: float, degrees: float, shift: float = 0.0) -> float:
    """Where Student's distribution, or with a `shift` the noncentral one, has a share of its values below [-].

    `share`: between 0 and 1; `degrees`: of freedom, over 0. Raises ValueError outside. Source: the definition of a
    quantile.

    >>> round(student_quantile(0.95, 9), 4)
    1.8331
    """
    if not 0 < share < 1:
        raise ValueError("a share lies between 0 and 1")
    return _root(lambda t: student_below(t, degrees, shift) - share, shift - 10, shift + 10)


def one_sided_factor(count: int, cover: float, sure: float) -> float:
    """k of the one-sided limit mean + k·s that a share `cover` of all lies below, with certainty `sure` [-].

    `count`: of the sample, 2 or more; `cover` and `sure`: between 0 and 1. Raises ValueError outside.
    Source: ISO 16269-6:2014, the exact factors: the noncentral Student's distribution of count - 1 degrees, shifted by
    z·sqrt(count).

    >>> round(one_sided_factor(43, 0.90, 0.99), 4)
    1.874
    """
    if count < 2:
        raise ValueError("one figure has no spread")
    root = math.sqrt(count)
    return student_quantile(sure, count - 1, normal_quantile(cover) * root) / root


def two_sided_factor(count: int, cover: float, sure: float) -> float:
    """k of the limits mean - k·s and mean + k·s that a share `cover` of all lies between, with certainty `sure` [-].

    `count`: of the sample, 2 or more; `cover` and `sure`: between 0 and 1. The exact factor: for each place that the
    mean of the sample may lie at, how small s would have to be to hold too little, weighed by how likely that place is.
    Raises ValueError outside. Source: ISO 16269-6:2014, the exact factors.

    >>> round(two_sided_factor(10, 0.95, 0.95), 2)
    3.39
    """
    if count < 2:
        raise ValueError("one figure has no spread")
    if not (0 < cover < 1 and 0 < sure < 1):
        raise ValueError("a share lies between 0 and 1")
    degrees = count - 1
    nodes = [
        (weight, _half_width(z / math.sqrt(count), cover) ** 2 * degrees)
        for z, weight in _normal_nodes()
    ]  # fmt: skip

    def more_than_sure(k: float) -> float:
        held = sum(weight * (1 - chi_square_below(squares / (k * k), degrees)) for weight, squares in nodes)
        return held - sure

    return _root(more_than_sure, 0.05, 10.0)


@cache
def _normal_nodes() -> tuple[tuple[float, float], ...]:
    """Places and weights that take the mean over a normal distribution of what is the same on both its sides."""
    return tuple((z, 2 * width * _NORMAL.pdf(z)) for z, width in _nodes(0.0, _FAR))


def _half_width(off: float, cover: float) -> float:
    """Half the width, about a place so far off the mean, that holds a share of a normal distribution."""
    return _root(lambda half: _NORMAL.cdf(off + half) - _NORMAL.cdf(off - half) - cover, 0.0, off + 5)


def _integral(of: Callable[[float], float], ends: list[float], most: float) -> float:
    """Over 0 to most, in the stretches that the ends part it into."""
    inside = sorted({end for end in ends if 0 <= end <= most})
    return sum(
        width * of(u) for low, high in pairwise(inside) for u, width in _nodes(low, high)
    )  # fmt: skip


def _nodes(low: float, high: float) -> list[tuple[float, float]]:
    middle, half = (low + high) / 2, (high - low) / 2
    return [(middle + half * x, half * weight) for x, weight in _legendre()]


@cache
def _legendre() -> tuple[tuple[float, float], ...]:
    """Places and weights of Gauss and Legendre between -1 and 1: the roots of the polynomial, by Newton."""
    found = []
    for number in range(_POINTS):
        x = math.cos(math.pi * (number + 0.75) / (_POINTS + 0.5))
        for _ in range(100):
            before, now = 1.0, x
            for degree in range(2, _POINTS + 1):
                before, now = now, ((2 * degree - 1) * x * now - (degree - 1) * before) / degree
            slope = _POINTS * (x * now - before) / (x * x - 1)
            x -= now / slope
            if abs(now / slope) < _TINY:
                break
        found.append((x, 2 / ((1 - x * x) * slope * slope)))
    return tuple(found)


def _root(of: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function goes through 0. The ends are moved out until it lies between them."""
    step = high - low
    while of(high) < 0:
        low, high, step = high, high + step, step * 2
    while low > 0 and of(low) > 0:
        low = low / 2
    below, above = of(low), of(high)
    while below > 0:
        low, step = low - step, step * 2
        below = of(low)
    for _ in range(200):
        # Illinois: a straight line between the ends, a stubborn end counted for half.
        at = (low * above - high * below) / (above - below) if above != below else (low + high) / 2
        if not low < at < high:
            at = (low + high) / 2
        value = of(at)
        if abs(high - low) <= _TINY * max(abs(at), 1) or value == 0:
            return at
        if value < 0:
            low, below = at, value
            above /= 2
        else:
            high, above = at, value
            below /= 2
    return (low + high) / 2
