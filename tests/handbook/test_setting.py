"""Setting gauge, overcut, and rounding to what an instrument shows."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook import setting

steps = st.sampled_from([0.001, 0.002, 0.005, 0.01, 0.0254, 0.00254, 0.0127])


def test_the_worked_setting_comes_out_with_its_signs_right():
    # Worked by hand: master 40.000 reads 40.002, aim 44.020, overcut .006 gives 44.016.
    error = setting.gauge_error([(40.000, 40.002)], 44.020)
    assert setting.reading(44.020, error, 0.006) == pytest.approx(44.016)


def test_the_worked_trial_gives_its_overcut():
    # Worked by hand: set to read 44.480, bored 44.487, gauge .002 over: .009.
    assert setting.overcut_from_trial(44.480, 44.487, 0.002) == pytest.approx(0.009)


@given(st.floats(20, 60), st.floats(-0.01, 0.01), st.floats(-0.01, 0.03))
def test_a_trial_set_for_a_size_and_bored_to_it_confirms_the_overcut(size, error, overcut):
    read = setting.reading(size, error, overcut)
    assert setting.bore_from_reading(read, error, overcut) == pytest.approx(size)
    assert setting.overcut_from_trial(read, size, error) == pytest.approx(overcut, abs=1e-12)


MASTERS = [(50.0, 50.006), (40.0, 40.002)]


@pytest.mark.parametrize(
    ("masters", "size", "error"),
    [
        (MASTERS, 40.0, 0.002),
        (MASTERS, 45.0, 0.004),
        (MASTERS, 50.0, 0.006),
        (MASTERS, 39.9, None),
        (MASTERS, 50.1, None),
        ([(40.0, 40.002)], 99.0, 0.002),
        ([(40.0, 40.002), (40.0, 40.004)], 99.0, 0.003),
        ([], 44.0, None),
    ],
)
def test_the_error_is_taken_between_masters_and_never_beyond_them(masters, size, error):
    found = setting.gauge_error(masters, size)
    assert found is None if error is None else found == pytest.approx(error)


def test_card_limits_are_rounded_inwards():
    # Worked check 23: 44.0103 becomes 44.012 at .002, not 44.010.
    assert setting.round_inwards(44.0103, 44.0185, 0.002) == (44.012, 44.018)


def test_windows_that_meet_between_steps_share_none():
    # Worked check 25: 44.0103-44.0185 and 44.0183-44.0245 share 44.0184, but no .002 step.
    lower, upper = setting.whole_steps(44.0103, 44.0185, 0.002), setting.whole_steps(44.0183, 44.0245, 0.002)
    assert lower is not None
    assert upper is not None
    assert lower[1] < upper[0]
    assert setting.round_inwards(44.0183, 44.0185, 0.002) is None


def test_limits_that_are_whole_steps_stay_themselves_whatever_a_float_makes_of_them():
    assert setting.round_inwards(44.1 - 0.08, 44.12 - 0.08, 0.002) == (44.02, 44.04)
    assert setting.round_inwards(1.6085 * 25.4, 1.6090 * 25.4, 0.0001 * 25.4) == pytest.approx(
        (1.6085 * 25.4, 1.6090 * 25.4), abs=1e-12
    )


@given(st.integers(0, 60_000), steps)
def test_a_whole_number_of_steps_is_its_own_rounding(count, step):
    value = setting.at_step(count, step)
    assert setting.round_to_step(value, step) == value
    assert setting.round_inwards(value, value, step) == (value, value)
    assert setting.round_to_step(count * step, step) == value


@given(st.decimals(0, 60, places=4), st.sampled_from(["0.001", "0.002", "0.01", "0.05"]))
def test_rounding_agrees_with_decimal_arithmetic(value, step):
    # Oracle: the standard library's decimal, half up, on the figure as it is written.
    expected = (value / Decimal(step)).quantize(Decimal(1), ROUND_HALF_UP) * Decimal(step)
    assert setting.round_to_step(float(value), float(step)) == float(expected)


@given(st.floats(30, 50), st.floats(0, 0.05), steps)
def test_rounded_limits_lie_inside_and_no_wider_ones_do(least, band, step):
    inside = setting.round_inwards(least, least + band, step)
    if inside is None:
        assert band < step
        return
    assert least - 1e-7 <= inside[0] <= inside[1] <= least + band + 1e-7
    assert inside[0] - step < least
    assert inside[1] + step > least + band


@given(st.floats(-60, 60), st.floats(-60, 60), steps, st.integers(-50_000, 50_000))
def test_steps_are_counted_as_exact_fractions_count_them(least, most, step, count):
    # Oracle: the standard library's fractions, a millionth of a step off still being whole.
    unit, slack = Fraction(repr(step)), Fraction(1, 1_000_000)
    first, last = math.ceil(Fraction(repr(least)) / unit - slack), math.floor(Fraction(repr(most)) / unit + slack)
    assert setting.whole_steps(least, most, step) == ((first, last) if first <= last else None)
    assert setting.at_step(count, step) == float(count * unit)
    nearest = math.floor(abs(Fraction(repr(most))) / unit + Fraction(1, 2) + slack)
    assert setting.round_to_step(most, step) == (math.copysign(float(nearest * unit), most) if nearest else 0.0)


def test_half_a_step_goes_away_from_nothing_on_both_sides():
    assert setting.round_to_step(0.003, 0.002) == 0.004
    assert setting.round_to_step(-0.003, 0.002) == -0.004
    assert str(setting.round_to_step(-0.0004, 0.002)) == "0.0"


@pytest.mark.parametrize("call", [setting.round_to_step, lambda value, step: setting.round_inwards(value, value, step)])
def test_an_instrument_without_a_step_is_refused(call):
    with pytest.raises(ValueError, match="reads nothing"):
        call(44.0, 0.0)


def test_a_trial_cut_must_itself_be_round():
    # Worked check 25: bore 44.32, under 0.10, pocket 44.10, tir .10, e .01: the trial, 44.22, is just at the limit.
    assert setting.trial_is_round(44.32, 0.10, 44.10, 0.05, 0.01)
    assert not setting.trial_is_round(44.319, 0.10, 44.10, 0.05, 0.01)
    with pytest.raises(ValueError, match="below size"):
        setting.trial_is_round(44.32, -0.1, 44.1, 0.0, 0.0)


@pytest.mark.parametrize("over_edge", [0.06, 0.10, 0.19, 0.39])
def test_a_corner_that_meets_an_edge_stands_where_a_drawn_circle_says(over_edge):
    # The corner is drawn as a circle about (0, R); it touches the edge where it is R − x inside its own end.
    radius = 0.40
    xs = [radius * step / 100_000 for step in range(100_001)]
    heights = {x: radius - (radius**2 - x**2) ** 0.5 for x in xs}
    at_edge = min(xs, key=lambda x: abs(x - (radius - over_edge)))
    assert setting.zero_error_of_corner(over_edge, radius) == pytest.approx(heights[at_edge], abs=2e-4)


def test_a_tip_well_over_the_face_or_without_a_corner_is_zeroed_right():
    assert setting.zero_error_of_corner(0.40, 0.40) == 0
    assert setting.zero_error_of_corner(2.0, 0.40) == 0
    assert setting.zero_error_of_corner(0.10, 0.0) == 0


def test_a_tip_inside_the_pocket_has_nothing_to_touch():
    with pytest.raises(ValueError, match="no face"):
        setting.zero_error_of_corner(0.0, 0.40)


def test_dial_and_stop_both_count_the_parallel():
    # Common practice: a 10 mm parallel, 8.50 wanted: the stop 18.50 from the touch, or the dial 10 before its 0.
    assert setting.stop_from_parallel(8.50, 10.0) == pytest.approx(18.50)
    assert setting.dial_on_parallel(10.0) + setting.stop_from_parallel(8.50, 10.0) == pytest.approx(8.50)
    with pytest.raises(ValueError, match="parallel"):
        setting.stop_from_parallel(8.50, 0.0)
