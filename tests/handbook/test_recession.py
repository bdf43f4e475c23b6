"""Recession, tip and spring: what gives way, and which shims go in."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.recession import (
    RecessionWindow,
    aim_of_recession,
    deeper_only,
    limits_after_skim,
    recession_now,
    shims_for,
    spring_window,
    stem_to_edge_after,
    stem_to_edge_window,
    stem_window,
)


def test_the_later_window_gives_way_and_the_rest_still_aims() -> None:
    windows = [
        RecessionWindow("recession", 0.5, 0.9),
        RecessionWindow("stem", 1.0, 1.3),
        RecessionWindow("spring", 0.7, 1.5),
    ]
    found = aim_of_recession(windows)
    assert (found.aim, found.least, found.most, found.gives_way) == (0.9, 0.7, 0.9, ("stem",))


def test_grinding_a_tip_and_shimming_a_spring_open_their_windows_upwards() -> None:
    assert stem_window(0.7, 41.2, 40.95, 41.45, 0.25).most == pytest.approx(1.20)
    assert spring_window(0.7, 38.0, 37.7, 38.3, 0.4).most == pytest.approx(1.4)


def test_a_single_limit_leaves_nothing_to_aim_at() -> None:
    aim = aim_of_recession([RecessionWindow("recession", -math.inf, 1.1)])
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


def test_windows_that_meet_in_one_figure_meet_there() -> None:
    # 0.5 to 0.9 and 0.9 to 1.3, the second as a sum of floats that is a hair over.
    touching = aim_of_recession(
        [RecessionWindow("recession", 0.5, 0.9), RecessionWindow("stem", 0.7 + 0.2 + 1e-16 * 4, 1.3)]
    )
    assert touching.gives_way == ()
    assert touching.aim == pytest.approx(0.9)


def test_past_a_gap_the_aim_is_the_end_nearest_to_what_gives_way() -> None:
    # In thousandths of an inch: recession 20 to 40, the stem would want 5 to 15: aim 20, the stem 5 too high.
    above = aim_of_recession([RecessionWindow("recession", 0.020, 0.040), RecessionWindow("stem", 0.005, 0.015)])
    assert above.aim == 0.020
    assert above.missed[0].by == pytest.approx(0.005)
    below = aim_of_recession([RecessionWindow("recession", 0.020, 0.040), RecessionWindow("spring", 0.055, 0.070)])
    assert below.aim == 0.040
    assert below.missed[0].by == pytest.approx(-0.015)


def test_the_spring_gives_way_before_the_stem_and_the_recession_never() -> None:
    windows = [
        RecessionWindow("recession", 0.5, 1.0),
        RecessionWindow("stem", 0.5, 0.7),
        RecessionWindow("spring", 0.8, 1.2),
    ]
    found = aim_of_recession(windows)
    assert found.gives_way == ("spring",)
    assert found.aim == 0.7
    both = aim_of_recession(
        [RecessionWindow("recession", 0.5, 0.6), RecessionWindow("stem", 0.7, 0.8), RecessionWindow("spring", 0.1, 0.2)]
    )
    assert both.gives_way == ("stem", "spring")
    assert both.aim == 0.6


def test_an_open_side_still_has_an_end_to_aim_at_when_something_gives_way() -> None:
    found = aim_of_recession([RecessionWindow("recession", -math.inf, 0.9), RecessionWindow("stem", 1.0, math.inf)])
    assert (found.aim, found.gives_way) == (0.9, ("stem",))


@given(st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), min_size=1, max_size=3))
def test_the_aim_never_leaves_the_recession(sides: list[tuple[float, float]]) -> None:
    names = ("recession", "stem", "spring")
    windows = [RecessionWindow(name, min(pair), max(pair)) for name, pair in zip(names, sides, strict=False)]
    found = aim_of_recession(windows)
    assert found.aim is not None
    assert windows[0].least <= found.aim <= windows[0].most
    for each in found.missed:
        window = next(one for one in windows if one.name == each.name)
        assert not window.least <= found.aim <= window.most
        assert (each.by < 0) == (found.aim < window.least)


def test_a_seat_that_stays_only_goes_deeper() -> None:
    assert deeper_only(RecessionWindow("recession", 0.5, 0.9), 0.3) == RecessionWindow("recession", 0.5, 0.9)
    assert deeper_only(RecessionWindow("recession", 0.5, 0.9), 0.95) is None


def test_a_stem_measured_to_the_heads_edge_shrinks_and_grinding_lengthens_it() -> None:
    # Found 8.0, sunk by 0.6: 7.4, under the least of 7.6; with 0.25 ground off 7.65 again (by hand).
    assert stem_to_edge_after(8.0, 1.3, 0.7) == pytest.approx(7.4)
    assert stem_to_edge_window(0.7, 8.0, 7.6, 8.2).most == pytest.approx(1.1)
    assert stem_to_edge_window(0.7, 8.0, 7.6, 8.2, 0.25).most == pytest.approx(1.35)
    assert stem_to_edge_window(0.7, 8.0, 7.6, 8.2).least == pytest.approx(0.5)
    with pytest.raises(ValueError, match="over the most"):
        stem_to_edge_window(0.7, 8.0, 8.2, 7.6)


def test_windows_that_meet_at_a_flush_valve_meet_there() -> None:
    # 41.20 and 41.0 + 0.2 differ by the last bit: the tip's window begins a hair over 0.
    tip = stem_window(0.0, 41.0 + 0.2 - 1e-14, 41.2, 41.5)
    assert tip.least > 0
    assert aim_of_recession([RecessionWindow("recession", -0.3, 0.0), tip]).gives_way == ()
