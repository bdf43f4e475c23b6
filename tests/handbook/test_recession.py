"""Recession, tip and spring: what gives way, and which shims go in."""

from __future__ import annotations

import math

import pytest

from seatwright.handbook.recession import (
    Aim,
    Window,
    aim_of_recession,
    limits_after_skim,
    recession_now,
    shims_for,
    spring_window,
    stem_window,
)


def test_the_later_window_gives_way_and_the_rest_still_aims() -> None:
    windows = [Window("recession", 0.5, 0.9), Window("tip", 1.0, 1.3), Window("spring", 0.7, 1.5)]
    assert aim_of_recession(windows) == Aim(0.8, 0.7, 0.9, ("tip",))


def test_grinding_a_tip_and_shimming_a_spring_open_their_windows_upwards() -> None:
    assert stem_window(0.7, 41.2, 40.95, 41.45, 0.25).most == pytest.approx(1.20)
    assert spring_window(0.7, 38.0, 37.7, 38.3, 0.4).most == pytest.approx(1.4)


def test_a_single_limit_leaves_nothing_to_aim_at() -> None:
    aim = aim_of_recession([Window("recession", -math.inf, 1.1)])
    assert aim.aim is None
    assert aim.most == 1.1


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="no limit of recession"):
        aim_of_recession([])
    with pytest.raises(ValueError, match="leaves nothing"):
        limits_after_skim(0.8, 0.9, 0.2)
    with pytest.raises(ValueError, match="skim"):
        recession_now(0.9, -0.1)
    with pytest.raises(ValueError, match="stem height"):
        stem_window(0.7, 41, 42, 41)
    with pytest.raises(ValueError, match="cannot be negative"):
        spring_window(0.7, 38, 37, 39, -1)
    with pytest.raises(ValueError, match="thickness"):
        shims_for(38, 37, 38, [0.0], 1)


def test_one_shim_is_taken_before_two() -> None:
    assert shims_for(39.0, 37.7, 38.3, [0.381, 0.762, 1.524], 1.524) == (0.762,)
    assert shims_for(38.0, 37.7, 38.3, [], 0) == ()
    assert shims_for(39.0, 37.7, 38.3, [], 0) is None


def test_shims_are_never_stacked_over_the_limit() -> None:
    assert shims_for(40.0, 37.7, 38.3, [0.762], 1.524) is None
    assert shims_for(39.6, 37.7, 38.3, [0.762], 1.524) == (0.762, 0.762)
