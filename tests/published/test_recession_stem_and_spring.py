"""Recession, stem tip and spring against what service manuals print, and what a vacuum test asks.

Sources by short names: S8 a cylinder-head procedure, S16, S18, S21 and S99 service manuals, S83 a workshop manual, S96
TM 10-4320-310-14, S102 a page on installed height, S44 and S64 on angles of seats.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from seatwright.handbook.agreement import agree, exact, half_last_digit
from seatwright.handbook.recession import (
    RecessionWindow,
    aim_of_recession,
    lash_after,
    limits_after_skim,
    recession_now,
    shims_for,
    spring_after,
    stem_after,
    stem_window,
)
from seatwright.handbook.seats import seat_cutter_deeper, sinking_of_stock


@pytest.mark.parametrize(
    "measured, printed_least, may_be_cut",
    [pytest.param(8.0, 7.6, 0.4, id="S99"), pytest.param(35.1, 34.1, 1.0, id="S16")],
)
def test_what_may_still_be_cut_is_the_measured_distance_less_the_printed_least(
    measured: float, printed_least: float, may_be_cut: float
) -> None:
    # The distance is from the stem end up to the head's edge, so the tip counts downwards from there.
    window = stem_window(0.0, -measured, -math.inf, -printed_least)
    assert window.most == pytest.approx(may_be_cut)


def test_a_tip_at_its_standard_height_may_rise_half_a_millimetre() -> None:
    # S21: 40.95 standard, 41.45 limit. Sinking by 0.5 uses it all.
    window = stem_window(0.70, 40.95, 40.95, 41.45)
    assert window.most - 0.70 == pytest.approx(0.5)
    assert stem_after(40.95, window.most, 0.70) == pytest.approx(41.45)


def test_a_short_tip_asks_for_a_deeper_seat_and_a_long_one_for_a_new_insert() -> None:
    # S18: intake 41.07 to 41.67; if shorter cut more, if longer replace the insert.
    assert stem_window(0.7, 40.90, 41.07, 41.67).least > 0.7
    assert stem_window(0.7, 41.80, 41.07, 41.67).most < 0.7


def test_the_piston_limit_stays_when_the_deck_is_skimmed() -> None:
    # S96: 0.45 to 0.90, below the least the valve may touch the piston. S83: the allowed depth falls with the skim.
    least, most = limits_after_skim(0.45, 0.90, 0.20)
    assert least == 0.45
    assert most == pytest.approx(0.70)


def test_a_tip_does_not_move_when_the_valve_sits_where_it_sat_and_only_the_deck_was_skimmed() -> None:
    # Worked by hand: 0.90 below the old deck, 0.20 skimmed, finished 0.70 below the new deck.
    now = recession_now(0.90, 0.20)
    assert stem_after(41.20, 0.70, now) == pytest.approx(41.20)


def test_sinking_the_valve_raises_the_tip_lengthens_the_spring_and_takes_up_lash() -> None:
    # Common practice, worked by hand: tip +z, spring +z, lash −z.
    z = 0.25
    assert stem_after(41.0, 0.7 + z, 0.7) == pytest.approx(41.0 + z)
    assert spring_after(38.0, 0.7 + z, 0.7) == pytest.approx(38.0 + z)
    assert lash_after(0.30, 0.7 + z, 0.7) == pytest.approx(0.30 - z)


def test_stock_off_a_45_seat_sinks_the_valve_1_41_times() -> None:
    # Common practice, worked by hand.
    assert sinking_of_stock(1.0, 45) == pytest.approx(1.41, abs=0.005)


def test_flat_shims_stop_at_sixty_thousandths() -> None:
    # S102: .015, .030, .060 in; not more than .060 in together.
    shims = [0.015, 0.030, 0.060]
    assert shims_for(1.800, 1.790, 1.810, shims, 0.060) == ()
    assert shims_for(1.845, 1.795, 1.805, shims, 0.060) == (0.015, 0.030)
    assert shims_for(1.875, 1.795, 1.805, shims, 0.060) is None


def test_windows_of_recession_and_tip_are_met_together() -> None:
    # S96 limits with the tip of S21, found at 41.30 with the valve 0.70 down.
    aim = aim_of_recession([RecessionWindow("recession", 0.45, 0.90), stem_window(0.70, 41.30, 40.95, 41.45)])
    assert aim.least == pytest.approx(0.45)
    assert aim.most == pytest.approx(0.85)
    assert aim.aim == pytest.approx(0.65)


@pytest.mark.parametrize(
    "top, seat, throat, t, outer",
    [(30, 45, 60, 0.10, 0.473), (15, 45, 60, 0.10, 0.273), (15, 30, 60, 0.10, 0.646)],
)
def test_cutting_the_seat_deeper_moves_the_outer_edge_as_worked(
    top: float, seat: float, throat: float, t: float, outer: float
) -> None:
    # Worked by hand: cones cut with each other. The 30/45/60 set is that of S44, S64 and S82.
    assert seat_cutter_deeper(t, top, seat, throat)[0] == pytest.approx(outer, abs=5e-4)


@pytest.mark.parametrize("kpa, in_hg", [("85", "25"), ("58", "17"), ("7", "2")])
def test_leak_figures_agree_in_both_units(kpa: str, in_hg: str) -> None:
    # S8: pull 85 kPa (25 in-Hg), 58 kPa (17 in-Hg) after 3 s or more; the tester may lose 7 kPa (2 in-Hg).
    one = Fraction("3.386389")
    assert agree(exact(kpa), half_last_digit(kpa), exact(in_hg) * one, half_last_digit(in_hg) * one)


def test_the_leak_figures_are_shares_of_the_barometer() -> None:
    # S8: 85 % and 58 % of 100 kPa at sea level, as printed there.
    assert [exact("0.85") * 100, exact("0.58") * 100] == [85, 58]
