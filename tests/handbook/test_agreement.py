"""Figures given twice: exact where floats are not."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.agreement import agree, exact, fit_consistent, half_last_digit


def test_a_pair_exactly_on_the_limit_agrees_where_floats_refuse_it() -> None:
    # 0.064 mm and .002 in: 0.064 − 0.0508 = 0.0132 = 0.0005 + 0.0127.
    assert abs(0.064 - 0.002 * 25.4) > 0.0005 + 0.0005 * 25.4
    assert agree(exact("0.064"), Fraction(1, 2000), exact("0.0508"), exact("0.0127"))
    assert not agree(exact("0.0640001"), Fraction(1, 2000), exact("0.0508"), exact("0.0127"))


@given(st.decimals(0, 100, places=3), st.integers(-20, 20))
def test_agreement_does_not_depend_on_the_order(figure: object, off: int) -> None:
    a = Fraction(str(figure))
    b = a + Fraction(off, 1000)
    half = Fraction(1, 200)
    assert agree(a, half, b, half) == agree(b, half, a, half) == (abs(off) <= 10)


@pytest.mark.parametrize(
    "written, half",
    [("44", "1/2"), ("44.0", "1/20"), (".030", "1/2000"), ("-0.20", "1/200"), ("9/16", "0"), ("1-1/2", "0")],
)
def test_half_a_last_digit_follows_the_digits_as_written(written: str, half: str) -> None:
    assert half_last_digit(written) == Fraction(half)


def test_what_is_no_figure_is_refused() -> None:
    with pytest.raises(ValueError, match="not a figure"):
        half_last_digit("about 3")
    with pytest.raises(ValueError, match="negative"):
        agree(Fraction(1), Fraction(-1), Fraction(1), Fraction(0))
    with pytest.raises(ValueError, match="over its most"):
        fit_consistent(33.078, 33.065, 33.000, 33.015, 0.05, 0.078)


def test_stated_interference_may_be_off_by_five_microns_and_no_more() -> None:
    assert fit_consistent(33.065, 33.078, 33.000, 33.015, 0.055, 0.083)
    assert not fit_consistent(33.065, 33.078, 33.000, 33.015, 0.0551, 0.078)
