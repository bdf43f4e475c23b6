"""The seat against cones that are cut with each other point by point."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.seats import (
    along_stem,
    carrying_edge,
    contact_height,
    contact_inner,
    contact_outer,
    contact_width,
    gauge_depth,
    metal_under_seat,
    seat_cutter_deeper,
    throat_cutter_deeper,
    top_cut_outer,
    top_cut_room,
    top_cutter_deeper,
)


def _tan(angle: float) -> float:
    return math.tan(math.radians(angle))


def _crossing(flat: float, at_flat: float, steep: float, at_steep: float) -> float:
    """Diameter where two cones meet; `at` is the depth of each cone at the axis end, z = at − r·tan(angle)."""
    return 2 * (at_steep - at_flat) / (_tan(steep) - _tan(flat))


@given(st.floats(10, 35), st.floats(40, 50), st.floats(55, 80), st.floats(0.01, 0.3))
def test_cutting_deeper_moves_the_edges_as_the_cones_cross(top: float, seat: float, throat: float, t: float) -> None:
    # A cone of angle a through radius r and depth z has its constant at z + r·tan a; deeper adds t to it.
    top_at = 0 + 17 * _tan(top)
    seat_at = 0 + 17 * _tan(seat)
    throat_at = (seat_at - 15 * _tan(seat)) + 15 * _tan(throat)
    outer, inner = _crossing(top, top_at, seat, seat_at), _crossing(seat, seat_at, throat, throat_at)
    assert outer == pytest.approx(34)
    assert inner == pytest.approx(30)
    deeper = seat_at + t
    d_outer, d_inner = seat_cutter_deeper(t, top, seat, throat)
    assert _crossing(top, top_at, seat, deeper) - outer == pytest.approx(d_outer)
    assert _crossing(seat, deeper, throat, throat_at) - inner == pytest.approx(d_inner)
    assert _crossing(top, top_at + t, seat, seat_at) - outer == pytest.approx(top_cutter_deeper(t, top, seat))
    assert _crossing(seat, seat_at, throat, throat_at + t) - inner == pytest.approx(
        throat_cutter_deeper(t, seat, throat)
    )


def test_cutting_only_the_seat_of_a_common_set_widens_it() -> None:
    # Worked by hand: 30/45/60, 0.10 deeper: width 1.80 to 2.33 mm.
    outer, inner = 33.4, contact_inner(33.4, 1.80, 45)
    d_outer, d_inner = seat_cutter_deeper(0.10, 30, 45, 60)
    assert contact_width(outer + d_outer, inner + d_inner, 45) == pytest.approx(2.33, abs=0.005)


def test_a_seat_in_a_flat_face_and_a_straight_throat() -> None:
    outer, inner = seat_cutter_deeper(0.10, 0, 45, 90)
    assert outer == pytest.approx(0.20)
    assert inner == 0


@given(st.floats(-1, 2), st.floats(0.5, 3), st.floats(0, 2), st.floats(0.5, 2.5), st.floats(25, 60), st.floats(25, 60))
def test_the_valve_sinks_as_far_as_the_edge_that_touches_first(
    recession: float, margin: float, setback: float, width: float, seat: float, face: float
) -> None:
    found = gauge_depth(recession, margin, setback, width, seat, face)
    # Both edges of the seat, and the face of the valve above each: neither may lie above the face.
    across, along = width * math.cos(math.radians(seat)), width * math.sin(math.radians(seat))
    free_outer = found.depth - (recession + margin + setback * _tan(face))
    free_inner = found.depth + along - (recession + margin + (setback + across) * _tan(face))
    carrying, other = (free_outer, free_inner) if found.edge != "inner" else (free_inner, free_outer)
    assert carrying == pytest.approx(0, abs=1e-9)
    assert other >= -1e-9


@pytest.mark.parametrize(
    "seat, depth, edge", [(46, 3.000, "outer"), (45, 3.000, "whole"), (44, 3.044, "inner"), (44.5, 3.022, "inner")]
)
def test_an_interference_angle_the_wrong_way_leaves_the_valve_proud(seat: float, depth: float, edge: str) -> None:
    # Worked by hand: R 0.7, margin 1.5, setback 0.8, width 1.8, face 45.
    found = gauge_depth(0.7, 1.5, 0.8, 1.8, seat, 45)
    assert (round(found.depth, 3), found.edge) == (depth, edge)


def test_metal_left_under_a_deep_seat_is_little() -> None:
    # Worked by hand: R 1.5, margin 2.2, setback 1.0, width 2.0 in an insert of 6.5: 0.39 mm.
    depth = gauge_depth(1.5, 2.2, 1.0, 2.0, 45, 45).depth
    assert metal_under_seat(6.5, 0.0, depth, contact_height(2.0, 45)) == pytest.approx(0.39, abs=0.005)


def test_seats_and_tilts_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="plane square to the stem"):
        contact_height(1.8, 90)
    with pytest.raises(ValueError, match="leaves nothing of a valve"):
        contact_outer(30, 15)
    with pytest.raises(ValueError, match="setback"):
        contact_outer(30, -1)
    with pytest.raises(ValueError, match="wider than"):
        contact_inner(2.0, 1.8, 45)
    with pytest.raises(ValueError, match="flatter"):
        seat_cutter_deeper(0.1, 45, 45, 60)
    with pytest.raises(ValueError, match="tilted"):
        along_stem(0.2, 90)


def test_the_top_cut_comes_up_where_its_cone_meets_the_face() -> None:
    # A 30° cone from Ø 33.4, 3.3 below the face: 2·3.3/tan 30° = 11.43 further out, in a drawing as well as here.
    assert top_cut_outer(33.4, 3.3, 0.0, 30) == pytest.approx(33.4 + 2 * 3.3 * math.sqrt(3))
    assert top_cut_outer(33.4, 3.3, 3.3, 30) == 33.4
    assert top_cut_outer(33.4, 3.3, 3.5, 30) == 33.4
    # An insert of 44.32 with a land of 0.5: what runs to 44.83 is off it, what runs to 43.0 is not.
    assert top_cut_room(44.32, 0.5, top_cut_outer(33.4, 3.3, 0.0, 30)) < 0
    assert top_cut_room(44.32, 0.5, 43.0) == pytest.approx(0.32)


def test_a_top_cut_that_is_no_cone_or_a_land_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="top angle"):
        top_cut_outer(33.4, 3.3, 0.0, 0)
    with pytest.raises(ValueError, match="land"):
        top_cut_room(44.32, -0.5, 43.0)


@given(st.floats(30, 60), st.floats(-0.5e-9, 0.5e-9))
def test_one_angle_touches_over_the_whole_width_and_lies_where_the_outer_edge_would(face: float, hair: float) -> None:
    assert carrying_edge(face + hair, face) == "whole"
    steeper = gauge_depth(0.7, 1.5, 0.8, 1.8, face + 1e-6, face)
    assert gauge_depth(0.7, 1.5, 0.8, 1.8, face, face).depth == steeper.depth
