"""The end gauge of JCGM 100:2008 H.1.

Inputs and the printed figures are from memory; the printed result was seen in the documentation of GTC.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from uncertainties import ufloat  # type: ignore[import-untyped,unused-ignore]

from seatwright.handbook.uncertainty import Contribution, combined, propagate, rectangular


def _length(ls: Any, d1: Any, d2: Any, d3: Any, da: Any, theta: Any, delta: Any, a: Any, dt: Any) -> Any:
    return ls + d1 + d2 + d3 - ls * (da * (theta + delta) + a * dt)


# nm and °C: standard, comparator (repeat, random, systematic), difference of expansions, temperature of the test bed
# and its swing (arcsine), expansion of the standard, difference of temperatures.
INPUTS = {
    "ls": (50_000_623.0, 25.0),
    "d1": (215.0, 5.8),
    "d2": (0.0, 3.9),
    "d3": (0.0, 6.7),
    "da": (0.0, rectangular(1e-6)),
    "theta": (-0.1, 0.2),
    "delta": (0.0, 0.5 / math.sqrt(2)),
    "a": (11.5e-6, rectangular(2e-6)),
    "dt": (0.0, rectangular(0.05)),
}


def test_the_end_gauge_has_the_printed_length_and_uncertainty() -> None:
    made = propagate(_length, INPUTS)
    assert made.value == pytest.approx(50_000_838, abs=0.5)
    assert round(made.standard) == 32


def test_the_end_gauge_agrees_with_an_independent_package() -> None:
    made = propagate(_length, INPUTS)
    other = _length(**{name: ufloat(figure, u) for name, (figure, u) in INPUTS.items()})
    assert made.value == pytest.approx(other.n, rel=1e-12)
    assert made.standard == pytest.approx(other.s, rel=1e-6)
    assert made.standard == pytest.approx(31.663879, abs=1e-5)


def test_shares_combine_to_the_same_uncertainty() -> None:
    made = propagate(_length, INPUTS)
    assert combined(Contribution(name, abs(share)) for name, share in made.shares) == pytest.approx(made.standard)
    largest = max(made.shares, key=lambda pair: abs(pair[1]))
    assert largest[0] == "ls"


def _bore_at_20(reading: Any, setting: Any, a_head: Any, a_gauge: Any, t_head: Any, t_gauge: Any) -> Any:
    return (reading + setting) * (1 - a_head * (t_head - 20) + a_gauge * (t_gauge - 20))


def test_a_bore_brought_to_20_has_the_uncertainty_that_three_packages_gave() -> None:
    # Model of our own; uncertainties 3.2.3, GTC 1.5.1 and the sum by hand all gave 38.01843358 and 0.00148929 mm.
    inputs = {
        "reading": (38.020, 0.0012),
        "setting": (0.0, 0.0008),
        "a_head": (21.4e-6, rectangular(2e-6)),
        "a_gauge": (11.5e-6, rectangular(1e-6)),
        "t_head": (23.0, rectangular(0.5)),
        "t_gauge": (22.0, rectangular(1.0)),
    }
    made = propagate(_bore_at_20, inputs)
    assert made.value == pytest.approx(38.01843358, abs=1e-8)
    assert made.standard == pytest.approx(0.00148929, abs=1e-8)
    other = _bore_at_20(**{name: ufloat(figure, u) for name, (figure, u) in inputs.items()})
    assert made.standard == pytest.approx(other.s, rel=1e-6)
