"""When one figure is out of line with others."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.outliers import beyond, limit

figures = st.lists(st.floats(-5, 5), min_size=1, max_size=20)


def test_figures_that_happen_to_be_alike_leave_the_floor():
    assert limit([0.0, 0.0, 0.0], 0.07) == 0.07


def test_one_wild_figure_among_the_others_does_not_widen_the_limit():
    assert limit([0.0, 0.01, -0.01, 0.02, 700.0], 0.02) == limit([0.0, 0.01, -0.01, 0.02, 0.03], 0.02)


def test_what_rounding_alone_spreads_is_no_spread():
    # Tenths: half of them a step off, and the floor still decides.
    assert limit([0.1, -0.1, 0.1, 0.0], 0.35, half_step=0.05) == pytest.approx(0.35)


def test_without_others_there_is_no_limit():
    with pytest.raises(ValueError, match="no departures"):
        limit([], 0.07)


@given(figures, st.floats(0.001, 1))
def test_no_limit_is_under_its_floor(departures, floor):
    assert limit(departures, floor) >= floor


@given(st.floats(-5, 5), figures)
def test_beyond_is_nothing_inside_and_the_way_to_the_nearer_end_outside(figure, others):
    out = beyond(figure, others)
    assert (out == 0) == (min(others) <= figure <= max(others))
    assert figure - out == pytest.approx(min(max(figure, min(others)), max(others)))
