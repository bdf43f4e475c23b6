"""The pocket: clean-up, metal left, chamfer, depth, passes."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook import pockets


def test_the_new_bore_covers_the_eccentric_pocket_wherever_the_pilot_leaves_it():
    diameter = pockets.clean_up_diameter([44.08, 44.10], None, 0.05, 0.01, 0.0)
    # Geometry: the old circle's farthest point from an axis that is off by both, both the same way.
    assert diameter / 2 == pytest.approx(44.10 / 2 + 0.05 + 0.01)


def test_damage_counts_where_it_reaches_further_than_the_pocket():
    assert pockets.clean_up_diameter([44.10], 44.60, 0.0, 0.0, 0.05) == pytest.approx(44.65)
    assert pockets.clean_up_diameter([44.10], 43.0, 0.0, 0.0, 0.05) == pytest.approx(44.15)


@pytest.mark.parametrize(
    ("readings", "offset", "says"), [([], 0.0, "not measured"), ([44.0], -0.01, "offset of the pocket")]
)
def test_a_pocket_that_cannot_be_reckoned_is_refused_in_words(readings, offset, says):
    with pytest.raises(ValueError, match=says):
        pockets.clean_up_diameter(readings, None, offset, 0.0, 0.0)


def test_offset_is_half_of_what_the_indicator_showed():
    assert pockets.offset_from_tir(0.10) == 0.05
    with pytest.raises(ValueError, match="largest less smallest"):
        pockets.offset_from_tir(-0.1)


def test_metal_left_around_and_under_an_integral_seat_bored_for_its_first_insert():
    # Worked check 13: bore 47.52 beside a throat of 41.0 at 50.0; insert 8.0 high under a deck 13.0 thick.
    assert pockets.bridge_left(50.0, 47.52, 41.0, 0.0, 0.0) == pytest.approx(5.74)
    assert pockets.floor_left(13.0, 8.0, 0.0) == pytest.approx(5.0)


def test_both_bores_standing_off_towards_each_other_take_their_offsets_from_the_bridge():
    assert pockets.bridge_left(48.5, 44.02, 38.02, 0.01, 0.02) == pytest.approx(48.5 - 41.02 - 0.03)
    with pytest.raises(ValueError, match="centre distance"):
        pockets.bridge_left(0.0, 44.0, 38.0, 0.0, 0.0)


def test_a_bore_that_leaves_the_cylinder_has_less_than_no_room():
    assert pockets.rim_left(90.0, 23.0, 44.2, 0.01) == pytest.approx(-0.11)
    assert pockets.rim_left(90.0, 0.0, 44.0, 0.0) == pytest.approx(23.0)
    with pytest.raises(ValueError, match="centre distance"):
        pockets.rim_left(90.0, -1.0, 44.0, 0.0)


def test_the_ledge_is_what_throat_and_chamfer_leave():
    # Worked check 15.
    assert pockets.ledge(44.02, 41.0, 0.9) == pytest.approx(0.61)


def test_a_chamfer_is_measured_along_the_od():
    # Worked check 25: chamfer 0.9 at 30 = 0.9 along the od, 0.52 across.
    axial, radial = pockets.chamfer_legs(0.9, 30.0)
    assert axial == 0.9
    assert math.degrees(math.atan2(radial, axial)) == pytest.approx(30.0)
    assert pockets.chamfer_legs(0.5, 45.0) == pytest.approx((0.5, 0.5))


@pytest.mark.parametrize(("length", "angle"), [(0.9, 0.0), (0.9, 90.0), (-0.1, 45.0)])
def test_a_chamfer_that_cannot_be_is_refused(length, angle):
    with pytest.raises(ValueError, match="cannot be"):
        pockets.chamfer_legs(length, angle)


def floor_edge_rides(corner, radial):
    """How far the chamfer's edge at the bottom is held up by the quarter circle between wall and floor.

    The wall is at 0, the circle's centre at (corner, corner): its height above the floor, so far from the wall.
    """
    return corner - math.sqrt(corner**2 - (corner - min(radial, corner)) ** 2)


@pytest.mark.parametrize(("corner", "length", "high"), [(0.80, 0.50, 0.058), (0.80, 0.80, 0.0), (0.40, 0.50, 0.0)])
def test_a_chamfer_shorter_than_the_corner_rides_on_it(corner, length, high):
    # Worked check 25: corner .80, chamfer .50 at 45 degrees rides 0.058 high.
    legs = pockets.chamfer_legs(length, 45.0)
    assert floor_edge_rides(corner, legs[1]) == pytest.approx(high, abs=5e-4)
    assert pockets.chamfer_clears(corner, legs) is (high == 0.0)


def test_a_chamfer_with_one_leg_short_does_not_clear():
    assert not pockets.chamfer_clears(0.8, pockets.chamfer_legs(0.9, 30.0))


def test_the_depth_window_keeps_stand_clean_up_and_floor_together():
    # Worked check 20: height 6.50, stand 0-0.10 below, old floor 6.52, clean-up 0.05.
    assert pockets.depth_window(6.50, 0.0, 0.10, 6.52, 0.05, None) == pytest.approx((6.57, 6.60))
    assert pockets.depth_window(6.50, 0.0, 0.10, None, None, 6.55) == pytest.approx((6.50, 6.55))


def test_a_depth_window_may_be_empty():
    least, most = pockets.depth_window(6.50, 0.0, 0.10, 6.60, 0.05, None)
    assert least > most


def test_a_stand_with_limits_the_wrong_way_round_is_refused():
    with pytest.raises(ValueError, match="wrong way round"):
        pockets.depth_window(6.5, 0.1, 0.0, None, None, None)


def test_an_off_centre_throat_takes_reach_from_the_tip():
    assert pockets.passes(52.0, 37.0, 0.0, 7.5) == (52.0,)
    assert pockets.passes(52.0, 37.0, 0.1, 7.5) == (51.8, 52.0)


@given(st.floats(20, 60), st.floats(1, 16), st.floats(0, 0.3), st.floats(1, 8))
def test_the_passes_leave_no_ridge_between_throat_and_wall(bore, less, throat_offset, tip):
    throat = bore - less
    cuts = pockets.passes(bore, throat, throat_offset, tip)
    assert cuts[-1] == bore
    assert list(cuts) == sorted(cuts)
    assert cuts[0] - 2 * tip <= throat - 2 * throat_offset + 1e-6
    for smaller, larger in pairwise(cuts):
        assert larger - 2 * tip <= smaller - 2 * pockets.PASS_OVERLAP + 1e-6


@pytest.mark.parametrize(
    ("bore", "throat", "tip", "says"),
    [(44.0, 37.0, 0.0, "cannot cut"), (37.0, 37.0, 5.0, "no floor"), (44.0, 20.0, 0.5, "wider tip")],
)
def test_a_floor_that_cannot_be_cleared_is_refused_in_words(bore, throat, tip, says):
    with pytest.raises(ValueError, match=says):
        pockets.passes(bore, throat, 0.0, tip)


def test_the_insert_carries_the_seat_with_a_land_outside_it():
    assert pockets.insert_seat_cover(36.4, 0.8) == pytest.approx(38.0)
    with pytest.raises(ValueError, match="land"):
        pockets.insert_seat_cover(36.4, -0.8)


def test_valves_of_one_setting_share_the_smallest_first_pass():
    # By hand, tip 4, throats 27.794/28.094/28.294 off by 0.25: 35.294, 35.594, 35.794; one step of at most 7 to 41.
    throats = [(28.294, 0.25), (27.794, 0.25), (28.094, 0.25)]
    own = sorted(pockets.passes(41.0, *throat, 4.0)[0] for throat in throats)
    assert own == pytest.approx([35.294, 35.594, 35.794])
    assert pockets.shared_passes(41.0, throats, 4.0) == pytest.approx((35.294, 41.0))


@given(
    st.floats(40, 48),
    st.lists(st.tuples(st.floats(26, 36), st.floats(0, 0.5)), min_size=1, max_size=5),
    st.floats(2.0, 8.0),
)
def test_shared_passes_leave_no_ridge_in_any_valve(bore, throats, tip):
    shared = pockets.shared_passes(bore, throats, tip)
    assert shared[-1] == bore
    for throat, offset in throats:
        assert shared[0] <= throat + 2 * tip - 2 * offset + 1e-6
    for inner, outer in pairwise(shared):
        assert 0 < outer - inner <= 2 * (tip - pockets.PASS_OVERLAP) + 1e-6


def test_one_valve_alone_shares_its_own_passes():
    assert pockets.shared_passes(47.5, [(30.0, 0.25)], 4.0) == pockets.passes(47.5, 30.0, 0.25, 4.0)
    with pytest.raises(ValueError, match="without a valve"):
        pockets.shared_passes(47.5, [], 4.0)


def test_the_floor_is_taken_down_to_the_damage_where_the_window_allows_it():
    # Insert 9.10 high, flush to 0.10 below: 9.10 to 9.20. Damage 9.17 deep: 9.17 to 9.20; 9.25 deep: it stays.
    assert pockets.depth_window(9.10, 0.0, 0.10, None, None, None, 9.17) == pytest.approx((9.17, 9.20))
    assert pockets.depth_window(9.10, 0.0, 0.10, None, None, None, 9.25) == pytest.approx((9.10, 9.20))
    assert pockets.damage_stays(9.25, 9.20)
    # What the metal under the floor allows counts first.
    assert pockets.depth_window(9.10, 0.0, 0.10, None, None, 9.15, 9.17) == pytest.approx((9.10, 9.15))


def test_damage_that_just_meets_the_deepest_floor_is_cut_away():
    assert pockets.depth_window(9.10, 0.0, 0.10, None, None, None, 9.20) == pytest.approx((9.20, 9.20))
