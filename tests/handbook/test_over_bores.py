"""Charts, factors and indices over many bores: their edges."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.capability import next_spread, performance_bound, repeatability_of
from seatwright.handbook.run_charts import ONE_SIDE, line_through, on_one_side, outside_limits, singles_chart
from seatwright.handbook.tolerance import (
    chi_square_below,
    chi_square_quantile,
    one_sided_factor,
    student_below,
    student_quantile,
    two_sided_factor,
)

values = st.lists(st.floats(-1, 1), min_size=2, max_size=40)


@given(values, st.floats(-1, 1))
def test_a_chart_moves_with_its_values(found, by):
    here, there = singles_chart(found), singles_chart([each + by for each in found])
    assert there.mean == pytest.approx(here.mean + by, abs=1e-12)
    assert there.sigma == pytest.approx(here.sigma, abs=1e-12)


@given(values)
def test_what_lies_outside_is_outside_and_the_rest_is_inside(found):
    chart = singles_chart(found)
    outside = set(outside_limits(found, chart.least, chart.most))
    for place, value in enumerate(found):
        assert (place in outside) == (value < chart.least or value > chart.most)


@pytest.mark.parametrize("length", range(5, 12))
def test_seven_in_a_row_are_chance_and_eight_are_not(length):
    found = [0.0, *[2.0] * length, 0.0]
    assert len(on_one_side(found, 1.0)) == max(length - ONE_SIDE + 1, 0)


def test_a_value_at_the_mean_ends_a_run():
    assert on_one_side([2.0] * 7 + [1.0] + [2.0] * 7, 1.0) == ()


def test_eight_that_change_sides_are_no_run():
    assert on_one_side([2.0] * 4 + [0.0] * 4, 1.0) == ()


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: singles_chart([1.0]),
        lambda: line_through([1.0, 2.0], [1.0, 2.0]),
        lambda: line_through([1.0, 1.0, 1.0], [1.0, 2.0, 3.0]),
        lambda: two_sided_factor(1, 0.95, 0.95),
        lambda: two_sided_factor(5, 1.0, 0.95),
        lambda: one_sided_factor(1, 0.95, 0.95),
        lambda: chi_square_below(1.0, 0),
        lambda: chi_square_quantile(1.0, 3),
        lambda: student_below(1.0, 0),
        lambda: student_quantile(0.0, 3),
        lambda: performance_bound(1.0, 1),
        lambda: next_spread(1.0, 1),
    ],
)
def test_too_little_to_tell_is_an_error(wrong):
    with pytest.raises(ValueError, match=r"\w"):
        wrong()


def test_what_was_read_once_says_nothing_of_an_instrument():
    assert repeatability_of([(1.0,), ()]) is None


@given(st.integers(2, 60), st.floats(0.5, 0.99), st.floats(0.5, 0.99))
def test_more_bores_need_a_smaller_factor(count, cover, sure):
    assert two_sided_factor(count + 1, cover, sure) < two_sided_factor(count, cover, sure)
