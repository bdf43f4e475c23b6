"""A figure as its instrument shows it: rounded once, limits inwards."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from tests.cards import plans

from seatwright.cards.parts.figures import limits, shown
from seatwright.planning.basis.instruments import Instrument

steps = st.sampled_from([("mm", 0.001), ("mm", 0.002), ("mm", 0.01), ("in", 0.0001 * 25.4), ("in", 0.0005 * 25.4)])


def test_a_reading_is_shown_in_whole_steps_with_the_other_unit_beside_it() -> None:
    found = shown(plans.figure(44.0155), Instrument("mm", 0.002))
    assert (str(found), found.other) == ("44.016 mm", "1.7329 in")


def test_an_inch_gauge_shows_inches() -> None:
    found = shown(plans.figure(44.016), Instrument("in", 0.0001 * 25.4))
    assert (str(found), found.other) == ("1.7329 in", "44.016 mm")


def test_limits_on_a_step_stay_where_they_are() -> None:
    pair = limits(plans.figure(44.006), plans.figure(44.028), Instrument("mm", 0.002))
    assert [each.text for each in pair] == ["44.006", "44.028"]


@given(least=st.floats(20, 70), width=st.floats(0.0001, 0.5), unit=steps)
def test_shown_limits_never_lie_outside_the_true_ones(least: float, width: float, unit: tuple[str, float]) -> None:
    per = Fraction(254, 10) if unit[0] == "in" else Fraction(1)
    low, high = limits(plans.figure(least), plans.figure(least + width), Instrument(*unit))
    # A millionth of a step is what a binary fraction may be beside its decimal.
    slack = Fraction(2, 10**6) * Fraction(unit[1])
    assert Fraction(low.text) * per >= Fraction(least) - slack
    assert Fraction(high.text) * per <= Fraction(least + width) + slack
    assert Fraction(low.text) <= Fraction(high.text)


@given(value=st.floats(-5, 70), unit=steps)
def test_a_shown_figure_is_within_half_a_step(value: float, unit: tuple[str, float]) -> None:
    per = 25.4 if unit[0] == "in" else 1.0
    assert abs(float(shown(value, Instrument(*unit)).text) * per - value) <= unit[1] / 2 * 1.001


def test_zero_has_no_sign() -> None:
    assert shown(-0.0001, Instrument("mm", 0.01)).text == "0.00"
