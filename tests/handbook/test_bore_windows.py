"""Which bores clean a pocket up and still fit, and the bores that turned inserts share."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.bore_windows import (
    cut_off_below,
    serving_window,
    shared_bores,
    up_to_step,
)


def test_a_pocket_a_hair_over_the_windows_start_is_served() -> None:
    # The window 44.236 to 44.261 and a pocket that needs 44.237: it starts at 44.237 (by hand).
    found = serving_window((44.236, 44.261), 44.237, 0.0, 0.001)
    assert found is not None
    assert (found.least, found.most, found.settings) == (44.237, 44.261, (44.237, 44.261))


def test_windows_that_meet_clean_up_in_one_size_are_served_without_a_guard() -> None:
    assert cut_off_below(44.0, 44.020, 44.020) == (44.020, 44.020)
    assert cut_off_below(44.0, 44.020, 44.0201) is None
    # Limits off by what a float loses still meet.
    assert cut_off_below(39.711, 39.731 - 1e-12, 39.731) is not None


def test_a_guard_that_leaves_no_step_once_cut_off_rules_the_insert_out() -> None:
    # 25 wide, guard 6: 13 wide uncut; cut off at 44.252, 9 wide, nothing is left between 44.258 and 44.255.
    assert serving_window((44.236, 44.261), 44.252, 0.006, 0.001) is None
    # A micrometre of room, but no whole step of 0.005 in it.
    assert serving_window((44.236, 44.261), 44.246, 0.007, 0.005) is None


def test_a_guard_wider_than_the_fit_itself_asks_the_bare_window() -> None:
    found = serving_window((44.236, 44.246), 44.240, 0.0056, 0.002)
    assert found is not None
    assert not found.guarded
    assert found.settings == (44.240, 44.246)


def test_the_makers_bore_binds() -> None:
    # Fit allows 37.407 to 37.422, the maker 37.440 to 37.456: nothing in common.
    assert serving_window((37.407, 37.422), 37.0, 0.0, 0.001, maker=(37.440, 37.456)) is None
    found = serving_window((37.407, 37.450), 37.0, 0.0, 0.001, maker=(37.440, 37.456))
    assert found is not None
    assert (found.least, found.most) == (37.440, 37.450)


def test_steps_are_those_the_setting_gauge_shows() -> None:
    # The gauge shows 0.0013 less than the bore that comes: 44.2370 to 44.2385 is shown as 44.2357 to 44.2372.
    found = serving_window((44.237, 44.2385), 44.0, 0.0, 0.001, shift=-0.0013)
    assert found is not None
    assert found.settings == (44.236, 44.237)


@given(
    st.floats(40, 41),
    st.floats(0.001, 0.1),
    st.floats(-0.05, 0.15),
    st.floats(0, 0.01),
    st.sampled_from([0.001, 0.002, 0.005]),
)
def test_every_setting_offered_cleans_up_and_fits(
    least: float, width: float, above: float, guard: float, step: float
) -> None:
    found = serving_window((least, least + width), least + above, guard, step)
    if found is None:
        return
    drawn = guard if found.guarded else 0.0
    for setting in found.settings:
        assert setting - drawn >= max(least, least + above) - 1e-7
        assert setting + drawn <= least + width + 1e-7


def test_one_damaged_pocket_takes_nothing_out_of_the_sound_ones() -> None:
    # Set of four, one needs 0.54 more: by hand.
    assert shared_bores([44.100, 44.110, 44.104, 44.640], 0.05, 0.002) == (44.110, 44.110, 44.110, 44.640)


def test_sharing_counts_from_the_smallest_and_no_further_than_half_the_clean_up() -> None:
    # 44.100 reaches to 44.125, exactly; 44.126 opens a size of its own.
    assert shared_bores([44.126, 44.125, 44.100], 0.05, 0.001) == (44.126, 44.125, 44.125)
    assert shared_bores([], 0.05, 0.001) == ()


def test_a_bore_goes_up_to_the_gauges_step_never_down() -> None:
    assert up_to_step(44.1001, 0.005) == 44.105
    assert up_to_step(44.105, 0.005) == 44.105
    with pytest.raises(ValueError, match="reads nothing"):
        up_to_step(44.1, 0)


def test_limits_the_wrong_way_round_are_refused() -> None:
    with pytest.raises(ValueError, match="wrong way round"):
        cut_off_below(44.1, 44.0, 44.0)
    with pytest.raises(ValueError, match="guard"):
        serving_window((44.0, 44.1), 44.0, -0.001, 0.001)
