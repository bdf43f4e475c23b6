"""How sure a figure is: standard uncertainties, their combination, guard bands, verdicts.

Sources: JCGM 100:2008 (combination), JCGM 106:2012 section 8 and ISO 14253-1:2017 (guard bands), from memory.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Literal

from msgspec import Struct

__all__ = [
    "Contribution",
    "InstrumentErrors",
    "Propagated",
    "Verdict",
    "acceptance_budget",
    "combined",
    "conformance_probability",
    "digital_step",
    "guarded",
    "master_difference",
    "overcut_spread",
    "planning_budget",
    "propagate",
    "rectangular",
    "verdict",
]

Verdict = Literal["accepted", "cannot-be-told", "small", "big"]
"""What can be said of a bore against its limits."""

_SLACK = 2e-11
"""Of a figure's own size [-], so 1e-9 mm on a bore: limits that differ by the last bits of a float meet."""


class Contribution(Struct, frozen=True):
    """One source of uncertainty: `figure` as stated, `divisor` [-] to its standard uncertainty, `sensitivity` [-].

    >>> round(Contribution("master +/- 0.003", 0.003, 3**0.5, 1.0).standard, 6)
    0.001732
    """

    source: str
    figure: float
    divisor: float = 1.0
    sensitivity: float = 1.0

    @property
    def standard(self) -> float:
        """Its share in the combined standard uncertainty: |sensitivity|·figure/divisor."""
        return abs(self.sensitivity) * self.figure / self.divisor


class InstrumentErrors(Struct, frozen=True):
    """What a setting gauge or a bore gauge is uncertain by, each a standard uncertainty [mm] but the `step` [mm].

    `standard`: of its master or ring; `repeatability`: from reading to reading. What is not known is 0: it is then not
    in the sum, and said. A figure given as `+/- a` goes through `rectangular` first.
    """

    step: float
    standard: float = 0.0
    repeatability: float = 0.0


class Propagated(Struct, frozen=True):
    """A result, its combined standard uncertainty, and the signed share of each input by name."""

    value: float
    standard: float
    shares: tuple[tuple[str, float], ...]


def combined(contributions: Iterable[Contribution]) -> float:
    """Combined standard uncertainty of independent contributions: the root of the sum of squares.

    In the unit of the contributions [mm]. Nothing to combine gives 0. Raises ValueError for a negative figure or a
    divisor that is not positive. Source: JCGM 100:2008, 5.1.2.

    >>> combined([Contribution("gauge", 0.003), Contribution("master", 0.004)])
    0.005
    """
    each = list(contributions)
    for one in each:
        if not one.figure >= 0:
            raise ValueError(f"{one.source}: an uncertainty cannot be negative: {one.figure}")
        if not one.divisor > 0:
            raise ValueError(f"{one.source}: the divisor of an uncertainty must be more than nothing")
    return _root_sum_of_squares(one.standard for one in each)


def rectangular(a: float) -> float:
    """Standard uncertainty [mm] of a figure that is never further off than `a` [mm]: a/√3.

    Raises ValueError for a negative figure. Source: JCGM 100:2008, 4.3.7.

    >>> round(rectangular(0.003), 6)
    0.001732
    """
    if not a >= 0:
        raise ValueError(f"how far off a figure may be cannot be negative: {a}")
    return a / 3**0.5


def digital_step(step: float) -> float:
    """Standard uncertainty [mm] of reading to the nearest `step` [mm]: step/√12.

    Raises ValueError for a negative step. Source: JCGM 100:2008, F.2.2.1.

    >>> round(digital_step(0.002), 6)
    0.000577
    """
    if not step >= 0:
        raise ValueError(f"the step of an instrument cannot be negative: {step}")
    return step / 12**0.5


def overcut_spread(spread: float, n: int) -> float:
    """Standard uncertainty [mm] of the overcut of the next bore: spread·√(1 + 1/n) after n trials.

    `spread`: standard deviation from bore to bore [mm]; `n`: trials whose mean is used; with none the shop's own
    overcut stands and the spread alone counts. Raises ValueError for a negative spread or number.
    Source: JCGM 100:2008, 4.2.3 (variance of a mean) added to the spread of the next bore.

    >>> round(overcut_spread(0.003, 2), 6)
    0.003674
    """
    if not spread >= 0:
        raise ValueError(f"a spread cannot be negative: {spread}")
    if n < 0:
        raise ValueError(f"a number of trials cannot be negative: {n}")
    return spread * (1 + 1 / n) ** 0.5 if n else spread


def master_difference(masters: Sequence[float], size: float, trial_size: float) -> float:
    """Share [-] of a master's uncertainty that is left after a trial at another size, with several masters.

    √Σ(w(size) − w(trial size))², w: how much each master counts where the error is interpolated

    On one master, or at the trial's own size, nothing is left: what the master is off by is in the overcut that the
    trial told. `masters`: sizes [mm]; `size`, `trial_size`: where the cutter is set, and was set for the trial [mm].
    Raises ValueError without a master, or for a size beyond the outermost of several.
    Source: JCGM 100:2008, 5.1.2, for independent masters.

    >>> master_difference([40.0], 44.0, 41.0), round(master_difference([40.0, 50.0], 45.0, 40.0), 4)
    (0.0, 0.7071)
    """
    here, there = _weights(masters, size), _weights(masters, trial_size)
    return _root_sum_of_squares(here.get(one, 0.0) - there.get(one, 0.0) for one in {**here, **there})


def planning_budget(
    setting: InstrumentErrors,
    spread: float,
    trials: int = 0,
    trial_gauge: InstrumentErrors | None = None,
    others: Iterable[Contribution] = (),
    master_differs: float = 0.0,
) -> tuple[Contribution, ...]:
    """What a bore that is still to be cut is uncertain by, one line a source; `combined` adds them up.

    setting gauge: step/√12, repeatability, master (after a trial only what differs: `master_difference`);
    overcut: spread·√(1 + 1/n); bore gauge that read the n trials: ring in full, step/√(12·n), repeatability/√n

    `setting`: the setting gauge; `spread`: of the overcut from bore to bore, with the setting gauge's own noise in it
    [mm]; `trials`: n [-]; `trial_gauge`: the bore gauge that read them; `others`: temperatures, the insert [mm];
    `master_differs`: share of the master's uncertainty that a trial does not take away [-].
    Raises ValueError for a negative figure, or trials that no gauge read. Source: JCGM 100:2008, 5.1.2 and 4.2.3.

    One trial on the one master: the master is out, the bore gauge in.

    >>> setting, bore = InstrumentErrors(0.002, 0.0010, 0.0005), InstrumentErrors(0.001, 0.0012, 0.0008)
    >>> round(combined(planning_budget(setting, 0.002)), 6)
    0.002363
    >>> round(combined(planning_budget(setting, 0.002, 1, bore)), 6)
    0.003278
    """
    if trials and trial_gauge is None:
        raise ValueError("a trial was read with some gauge: its uncertainty is needed")
    lines = [
        Contribution("step of the setting gauge", setting.step, 12**0.5),
        Contribution("master of the setting gauge", setting.standard, 1.0, master_differs if trials else 1.0),
        Contribution("repeatability of the setting gauge", setting.repeatability),
        Contribution("spread of the overcut", spread, 1.0, overcut_spread(1.0, trials)),
    ]
    if trials and trial_gauge is not None:
        mean = trials**-0.5
        lines += [
            Contribution("ring of the bore gauge that read the trials", trial_gauge.standard),
            Contribution("step of the bore gauge that read the trials", trial_gauge.step, 12**0.5, mean),
            Contribution("repeatability of the bore gauge that read the trials", trial_gauge.repeatability, 1.0, mean),
        ]
    return (*lines, *others)


def acceptance_budget(bore_gauge: InstrumentErrors, others: Iterable[Contribution] = ()) -> tuple[Contribution, ...]:
    """What a measured bore is uncertain by, one line a source; `combined` adds them up. No overcut: the bore is cut.

    bore gauge: step/√12, ring, repeatability

    `bore_gauge`: that read the bore; `others`: temperatures, the insert [mm]. A kept pocket is judged by the same.
    Raises ValueError for a negative figure when combined. Source: JCGM 100:2008, 5.1.2.

    >>> round(combined(acceptance_budget(InstrumentErrors(0.001, 0.0012, 0.0008))), 6)
    0.001471
    """
    return (
        Contribution("step of the bore gauge", bore_gauge.step, 12**0.5),
        Contribution("ring of the bore gauge", bore_gauge.standard),
        Contribution("repeatability of the bore gauge", bore_gauge.repeatability),
        *others,
    )


def conformance_probability(mean: float, u: float, least: float, most: float) -> float:
    """Probability [-] that a figure lies inside its limits, if normal.

    ½·(erf((most − mean)/(u·√2)) − erf((least − mean)/(u·√2)))

    `mean`: the figure [mm]; `u`: its standard uncertainty [mm]; `least`, `most`: limits [mm], either may be infinite.
    Without uncertainty it is 1 inside and 0 outside. Raises ValueError for a negative uncertainty or crossed limits.
    Source: JCGM 106:2012, 7.2.

    >>> round(conformance_probability(0.080, 0.005, 0.070, 0.090), 7)
    0.9544997
    """
    _check_limits(least, most, u)
    if not u > 0:
        return 1.0 if least <= mean <= most else 0.0
    scale = u * 2**0.5
    above, below = (most - mean) / scale, (mean - least) / scale
    # With erfc the far tails keep their digits.
    return 1.0 - math.erfc(float(above)) / 2 - math.erfc(float(below)) / 2


def guarded(least: float, most: float, guard: float, u: float) -> tuple[float, float] | None:
    """Limits drawn in by guard·u at both ends [mm], or None when that leaves nothing.

    `least`, `most`: limits [mm]; `guard`: times the standard uncertainty [-], 1.65 for 95 %, 0 for none; `u`: standard
    uncertainty [mm]. Raises ValueError for a negative guard or uncertainty, or crossed limits.
    Source: ISO 14253-1:2017 and JCGM 106:2012 section 8, from memory.

    >>> low, high = guarded(0.080, 0.100, 1.65, 0.002)
    >>> round(low, 4), round(high, 4)
    (0.0833, 0.0967)
    >>> guarded(0.080, 0.090, 1.65, 0.0034) is None
    True
    """
    _check_limits(least, most, u)
    if guard < 0:
        raise ValueError(f"a guard cannot be negative: {guard}")
    low, high = least + guard * u, most - guard * u
    if low <= high:
        return low, high
    return ((low + high) / 2, (low + high) / 2) if low <= high + _slack(least, most) else None


def verdict(value: float, least: float, most: float, guard: float, u: float) -> Verdict:
    """What can be said of a bore: accepted, cannot-be-told, small or big.

    Inside the limits drawn in by guard·u it is accepted; within guard·u either side of a limit it cannot be told;
    beyond that it is small or big.

    `value`: the bore as measured, at the temperature of its limits [mm]; `least`, `most`: its limits, for a verdict on
    the interference `od − I_most` and `od − I_least` [mm]; `guard` [-]; `u`: standard uncertainty of acceptance [mm].
    Raises ValueError as `guarded`. Source: ISO 14253-1:2017, from memory.

    >>> verdict(44.018, 44.010, 44.030, 1.65, 0.0019)
    'accepted'
    >>> verdict(44.031, 44.010, 44.030, 1.65, 0.0019)
    'cannot-be-told'
    """
    window = guarded(least, most, guard, u)
    slack = _slack(least, most)
    if window is not None and window[0] - slack <= value <= window[1] + slack:
        return "accepted"
    if value < least - guard * u - slack:
        return "small"
    if value > most + guard * u + slack:
        return "big"
    return "cannot-be-told"


def propagate(function: Callable[..., float], inputs: Mapping[str, tuple[float, float]]) -> Propagated:
    """A result and its standard uncertainty, from independent inputs by name.

    Each share is ½·(f(x + u) − f(x − u)), all others held; the shares are combined by squares.

    `inputs`: (figure, its standard uncertainty) by the name of the argument, each in its own unit; the answer and its
    shares are in the unit of the result [that of `function`].
    First order: an input that acts only through a square or a product of two zeros has no share.
    Raises ValueError for a negative uncertainty. Source: JCGM 100:2008, 5.1.2 and 5.1.3 note 2.

    >>> made = propagate(lambda bore, od: od - bore, {"bore": (38.020, 0.004), "od": (38.100, 0.003)})
    >>> round(made.value, 3), round(made.standard, 6)
    (0.08, 0.005)
    """
    figures = {name: figure for name, (figure, _) in inputs.items()}
    shares: list[tuple[str, float]] = []
    for name, (figure, u) in inputs.items():
        if not u >= 0:
            raise ValueError(f"{name}: an uncertainty cannot be negative: {u}")
        up = function(**{**figures, name: figure + u})
        down = function(**{**figures, name: figure - u})
        shares.append((name, (up - down) / 2))
    return Propagated(function(**figures), _root_sum_of_squares(share for _, share in shares), tuple(shares))


def _weights(masters: Sequence[float], size: float) -> dict[float, float]:
    """How much each master counts in an error interpolated between neighbours, at a size."""
    known = sorted(set(masters))
    if not known:
        raise ValueError("without a master the setting gauge's error is not known")
    if len(known) == 1:
        return {known[0]: 1.0}
    if not known[0] <= size <= known[-1]:
        raise ValueError(f"{size:g} mm lies beyond the masters, {known[0]:g} to {known[-1]:g} mm")
    below = max(one for one in known if one <= size)
    above = min(one for one in known if one >= size)
    if below == above:
        return {below: 1.0}
    share = (size - below) / (above - below)
    return {below: 1 - share, above: share}


def _root_sum_of_squares(shares: Iterable[float]) -> float:
    total: float = sum(share * share for share in shares)
    root: float = total**0.5
    return root


def _slack(least: float, most: float) -> float:
    return _SLACK * min(abs(least), abs(most))


def _check_limits(least: float, most: float, u: float) -> None:
    if not least <= most + _slack(least, most):
        raise ValueError(f"the least limit ({least}) is over the most ({most})")
    if not u >= 0:
        raise ValueError(f"an uncertainty cannot be negative: {u}")
