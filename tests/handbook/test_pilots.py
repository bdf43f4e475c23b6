"""How far a pilot lets the bore stand off, against a linear programme."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from seatwright.handbook import pilots


def random_guide(seed):
    dice = random.Random(seed)
    places = sorted({-round(dice.uniform(0, 80), 1) for _ in range(dice.randint(2, 6))} | {0.0, -81.0}, reverse=True)
    return [(place, round(dice.choice([dice.uniform(0, 0.01), dice.uniform(0, 0.06)]), 4)) for place in places]


def farthest(stations, height, slope_only=False):
    """Oracle: scipy.optimize.linprog over all straight lines a + b·x that stay inside the clearances."""
    rows, bounds = [], []
    for place, clearance in stations:
        rows += [[1.0, place], [-1.0, -place]]
        bounds += [clearance / 2, clearance / 2]
    aim = [0.0, -1.0] if slope_only else [-1.0, -height]
    found = linprog(aim, A_ub=rows, b_ub=bounds, bounds=[(None, None)] * 2, method="highs")
    assert found.success
    return -found.fun


@pytest.mark.parametrize("seed", range(60))
def test_the_offset_of_a_dead_pilot_is_the_optimum_of_the_linear_programme(seed):
    stations, height = random_guide(seed), random.Random(seed).uniform(0, 60)
    assert pilots.dead_pilot_offset(stations, height) == pytest.approx(farthest(stations, height), abs=1e-9)


@pytest.mark.parametrize("seed", range(60))
def test_the_lean_of_a_dead_pilot_is_the_optimum_of_the_linear_programme(seed):
    stations = random_guide(seed)
    expected = 44.0 * farthest(stations, 0.0, slope_only=True)
    assert pilots.dead_pilot_tilt_over(stations, 44.0) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("far", "middle", "near", "expected"),
    [(0.003, 0.003, 0.030, 0.0079), (0.005, 0.004, 0.025, 0.0116)],
)
def test_a_bell_mouthed_port_end_does_not_count_as_if_the_pilot_leaned_on_it(far, middle, near, expected):
    # Worked check 12: guide 62 long, height 35.
    stations = [(0.0, near), (-31.0, middle), (-62.0, far)]
    assert round(pilots.dead_pilot_offset(stations, 35.0), 4) == expected


def test_two_stations_give_the_lean_over_the_whole_length():
    # Worked check 12: clearance 0.010 over 62, height 35.
    stations = [(0.0, 0.010), (-62.0, 0.010)]
    expected = 0.010 / 2 + (0.010 + 0.010) / 2 * 35 / 62
    assert pilots.dead_pilot_offset(stations, 35.0) == pytest.approx(expected)
    assert round(pilots.dead_pilot_offset(stations, 35.0), 4) == 0.0106


def test_a_pilot_that_reaches_only_part_of_the_guide_leans_more():
    # Worked check 12: 40 of 62 in the guide gives 0.0138 instead of 0.0106.
    held = pilots.stations_within([(0.0, 0.010), (-62.0, 0.010)], 40.0)
    assert round(pilots.dead_pilot_offset(held, 35.0), 4) == 0.0138


def test_a_pilot_as_long_as_the_guide_is_held_by_every_station():
    stations = ((0.0, 0.01), (-31.0, 0.02), (-62.0, 0.03))
    assert pilots.stations_within(stations, 62.0) == stations
    assert pilots.stations_within(stations, 100.0) == stations


def test_clearance_at_the_end_of_a_short_pilot_lies_on_the_straight_line():
    assert pilots.stations_within([(0.0, 0.0), (-50.0, 0.05)], 20.0)[-1] == pytest.approx((-20.0, 0.02))


@given(st.floats(0, 0.05), st.floats(0, 0.05), st.floats(0, 0.05), st.floats(0, 80))
def test_one_more_station_never_lets_the_pilot_stand_off_further(near, middle, far, height):
    two = pilots.dead_pilot_offset([(0.0, near), (-60.0, far)], height)
    assert pilots.dead_pilot_offset([(0.0, near), (-25.0, middle), (-60.0, far)], height) <= two + 1e-12


def test_the_order_in_which_stations_are_given_does_not_matter():
    stations = random_guide(3)
    assert pilots.dead_pilot_offset(stations[::-1], 30.0) == pilots.dead_pilot_offset(stations, 30.0)


@pytest.mark.parametrize(
    ("stations", "height", "says"),
    [
        ([], 10.0, "two places"),
        ([(0.0, 0.01)], 10.0, "two places"),
        ([(0.0, 0.01), (0.0, 0.02)], 10.0, "two clearances"),
        ([(0.0, 0.01), (-60.0, -0.002)], 10.0, "0.002 mm too large 60 mm"),
        ([(0.0, 0.01), (-60.0, 0.002)], -5.0, "inside the guide"),
    ],
)
def test_a_guide_that_cannot_be_reckoned_is_refused_in_words(stations, height, says):
    with pytest.raises(ValueError, match=says):
        pilots.dead_pilot_offset(stations, height)


def test_a_pilot_larger_than_the_guide_is_refused_with_both_figures():
    with pytest.raises(ValueError, match=r"9\.025 mm does not enter: the guide measures 9\.020 mm"):
        pilots.clearances([(0.0, 9.047), (-62.0, 9.020)], 9.025)


def test_a_pilot_with_exactly_its_working_clearance_enters():
    # 9.020 - 9.017 is not 0.003 in floating point.
    assert pilots.largest_entering([9.017], 9.020, 0.003) == 9.017
    assert pilots.largest_entering([9.018], 9.020, 0.003) is None


def test_a_spindle_that_leans_is_off_by_centring_and_level():
    # Worked check 12: level 0.02 over 100 mm, guide 60, height 35 gives 0.013 beside the centring.
    assert pilots.spindle_offset(0.010, 0.02 / 100, 35.0, 60.0) == pytest.approx(0.023)
    with pytest.raises(ValueError, match="level"):
        pilots.spindle_offset(0.01, -0.1, 35.0, 60.0)


def test_runout_is_twice_the_offset():
    assert pilots.runout_of(0.0079) == pytest.approx(0.0158)
    with pytest.raises(ValueError, match="distance"):
        pilots.runout_of(-0.01)


def test_bell_mouth_is_the_wider_end_over_the_middle():
    assert pilots.bell_mouth(9.022, 9.020, 9.047) == pytest.approx(0.027)
    assert pilots.stem_clearance(9.052, 8.965) == pytest.approx(0.087)


def test_an_expanding_pilot_leans_more_the_higher_the_rim():
    # Common practice: read 0.010 at 25 mm above the guide; at twice the height the axis is twice as far off.
    at_the_indicator = pilots.gripping_pilot_offset(0.010, 25.0, 25.0)
    assert at_the_indicator == pytest.approx(0.005)
    assert pilots.gripping_pilot_offset(0.010, 50.0, 25.0) == pytest.approx(2 * at_the_indicator)
    assert pilots.gripping_pilot_offset(0.010, 50.0) == pytest.approx(0.005)


def test_a_gripping_pilot_tilts_the_floor_by_its_own_slope():
    # Slope 0.005 in 25 mm, over 44 mm.
    assert pilots.gripping_pilot_tilt_over(0.010, 25.0, 44.0) == pytest.approx(44 * 0.005 / 25)


@pytest.mark.parametrize(
    ("tir", "height", "at", "says"),
    [(-0.01, 30, 25, "cannot be"), (0.01, -1, 25, "port end"), (0.01, 30, 0, "read above")],
)
def test_a_gripping_pilot_that_cannot_be_is_refused(tir, height, at, says):
    with pytest.raises(ValueError, match=says):
        pilots.gripping_pilot_offset(tir, height, at)


def test_a_spindle_out_of_level_tilts_the_floor():
    # Level 0.02 in 100 mm over a bore of 44: 0.009 of floor, reckoned by hand.
    assert pilots.spindle_tilt_over(0.0002, 44.0) == pytest.approx(0.0088)
    with pytest.raises(ValueError, match="level"):
        pilots.spindle_tilt_over(-0.0002, 44.0)


def test_lean_comes_from_the_largest_reading_of_an_oval_guide():
    # Read 8.008 and 8.038 at both ends 50 mm apart, a pilot of 8.005, rim 30 mm above the guide, by hand:
    # from the largest 0.0165 + 0.033·30/50 = 0.0363; from the smallest 0.0015 + 0.003·30/50 = 0.0033.
    from_largest = pilots.dead_pilot_offset(pilots.clearances([(0.0, 8.038), (-50.0, 8.038)], 8.005), 30.0)
    from_smallest = pilots.dead_pilot_offset(pilots.clearances([(0.0, 8.008), (-50.0, 8.008)], 8.005), 30.0)
    assert from_largest == pytest.approx(0.0363, abs=5e-5)
    assert from_smallest == pytest.approx(0.0033, abs=5e-5)
