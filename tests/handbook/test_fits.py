"""Insert, bore and interference."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook import fits
from seatwright.handbook.fits import bore_window, interference_from, least_od_for

sizes = st.floats(20, 60)
bands = st.floats(0, 0.03)


def test_a_measured_insert_has_one_size():
    assert bore_window(44.100, 44.100, 0.080, 0.100) == pytest.approx((44.000, 44.020, 44.010))


def test_insert_limits_wider_than_the_fit_leave_no_bore():
    least, most, _ = bore_window(44.08, 44.12, 0.08, 0.10)
    assert least > most


@given(sizes, bands, bands, bands)
def test_every_bore_inside_the_window_gives_an_interference_inside_its_limits(od, od_band, fit_band, share):
    least, most, aim = bore_window(od, od + od_band, 0.05, 0.05 + fit_band + od_band)
    bore = least + min(share / 0.03, 1.0) * (most - least)
    fit = interference_from(od, od + od_band, bore, bore)
    assert fit[0] >= 0.05 - 1e-9
    assert fit[1] <= 0.05 + fit_band + od_band + 1e-9
    assert aim == pytest.approx((least + most) / 2)


@given(sizes, bands)
def test_the_least_insert_cleans_up_at_the_least_bore(clean_up, interference):
    od = least_od_for(clean_up, interference)
    assert bore_window(od, od, 0.0, interference)[0] == pytest.approx(clean_up)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: bore_window(33.1, 33.0, 0.05, 0.08), "insert od"),
        (lambda: bore_window(33.0, 33.1, 0.08, 0.05), "interference"),
        (lambda: interference_from(33.1, 33.0, 33.0, 33.0), "insert od"),
        (lambda: interference_from(33.1, 33.1, 33.02, 33.0), "bore"),
    ],
)
def test_limits_the_wrong_way_round_are_refused_by_name(call, says):
    with pytest.raises(ValueError, match=f"{says} are the wrong way round"):
        call()


def test_limits_exactly_as_wide_as_the_fit_leave_one_bore() -> None:
    # 39.811 - 0.080 and 39.791 - 0.060 are one size on paper: 39.731.
    least, most, aim = bore_window(39.791, 39.811, 0.060, 0.080)
    assert least == most == aim
    assert abs(least - 39.731) < 1e-9


@pytest.mark.parametrize(
    ("read", "least", "most", "apart", "belongs"),
    [
        (46.688, 46.588, 46.588, fits.OFF_THE_LIST, False),
        (46.638, 46.588, 46.588, fits.OFF_THE_LIST, True),
        (46.6381, 46.588, 46.588, fits.OFF_THE_LIST, False),
        (33.064, 33.065, 33.078, 0.0017, True),
        (33.062, 33.065, 33.078, 0.0017, False),
        (33.078, 33.065, 33.078, 0.0, True),
    ],
)
def test_a_measured_ring_belongs_to_its_list_size_or_it_is_another(read, least, most, apart, belongs):
    # Common practice: .002 in from a size without limits; else the list's own limits and what the reading is sure by.
    assert fits.belongs_to(read, least, most, apart) is belongs


def test_a_list_that_cannot_be_is_refused():
    with pytest.raises(ValueError, match="wrong way round"):
        fits.belongs_to(33.07, 33.078, 33.065, 0.0)
    with pytest.raises(ValueError, match="cannot be"):
        fits.belongs_to(33.07, 33.065, 33.078, -0.001)
