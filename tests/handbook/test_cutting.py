"""Speed, time and torque."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from seatwright.handbook import cutting
from seatwright.handbook.cutting import MachineStep

GREY_180HB = (1150.0, 0.20)
GREY_260HB = (1350.0, 0.28)


def test_the_floor_loads_the_spindle_more_than_the_wall():
    # Worked check 10: bore 44, old 43, throat 37, 0.10 mm/rev, grey iron: wall 2.0, floor 12.9 N·m.
    torque = cutting.wall_and_floor_torque(*GREY_180HB, 0.10, 1, 44.0, 43.0, 37.0, 7.5)
    assert (round(torque.wall, 1), round(torque.floor, 1)) == (2.0, 12.9)
    assert torque.larger == torque.floor


@pytest.mark.parametrize(("iron", "expected"), [(GREY_180HB, 18.5), (GREY_260HB, 26.2)])
def test_an_integral_seat_is_cut_from_the_throat(iron, expected):
    # Worked check 10: integral iron seat 38 to 47.52 at 180 and 260 HB.
    torque = cutting.wall_and_floor_torque(*iron, 0.10, 1, 47.52, 38.0, 38.0, 7.5)
    assert torque.wall == torque.floor
    assert round(torque.larger, 1) == expected


def test_two_tips_take_a_little_more_than_one():
    # Worked check 10: total force is tips^mc times; 2 tips at mc 0.20: 1.15.
    one, two = (cutting.cutting_torque(*GREY_180HB, 0.10, tips, 3.5, 37.0, 44.0) for tips in (1, 2))
    assert round(two / one, 2) == 1.15


def test_a_tip_narrower_than_the_floor_cuts_only_its_own_width_at_the_wall():
    torque = cutting.wall_and_floor_torque(*GREY_180HB, 0.10, 1, 44.0, 43.0, 30.0, 4.0)
    assert torque.floor == pytest.approx(cutting.cutting_torque(*GREY_180HB, 0.10, 1, 4.0, 36.0, 44.0))


@given(st.floats(20, 60), st.floats(0, 10), st.floats(0.02, 0.3))
def test_torque_at_the_mean_radius_equals_the_force_summed_along_the_edge(inner, width, feed):
    # Oracle: scipy.integrate.quad of force a millimetre times its radius.
    a_millimetre = cutting.specific_force(*GREY_180HB, feed) * feed
    summed, _ = quad(lambda radius: a_millimetre * radius, inner / 2, inner / 2 + width)
    found = cutting.cutting_torque(*GREY_180HB, feed, 1, width, inner, inner + 2 * width)
    assert found == pytest.approx(summed / 1000, rel=1e-9, abs=1e-12)


@given(st.floats(1, 500), st.floats(1, 200))
def test_speed_and_its_inverse_undo_each_other_and_inches_agree(speed, diameter):
    rpm = cutting.spindle_speed(speed, diameter)
    assert cutting.surface_speed(rpm, diameter) == pytest.approx(speed)
    assert cutting.spindle_speed_inch(speed / 0.3048, diameter / 25.4) == pytest.approx(rpm)


@pytest.mark.parametrize(
    ("wanted", "expected"),
    [
        (49.9, MachineStep(35.0, False)),
        (50.0, MachineStep(50.0, False)),
        (500.0, MachineStep(70.0, False)),
        (20.0, MachineStep(35.0, True)),
    ],
)
def test_the_largest_step_that_is_not_faster_is_taken_or_the_lowest_is_marked(wanted, expected):
    assert cutting.machine_step(wanted, [70.0, 35.0, 50.0]) == expected


def test_a_stepless_machine_runs_what_is_wanted_within_its_range():
    assert cutting.machine_range(50.0, 30.0, 400.0) == MachineStep(50.0, False)
    assert cutting.machine_range(500.0, 30.0, 400.0) == MachineStep(400.0, False)
    assert cutting.machine_range(20.0, 30.0, 400.0) == MachineStep(30.0, True)


def test_time_is_turns_over_speed_with_three_turns_on_the_floor():
    assert cutting.turns(6.5, 0.10) == pytest.approx(68.0)
    assert cutting.boring_minutes(6.5, 0.10, 50.0) == pytest.approx(68.0 / 50.0)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: cutting.spindle_speed(0.0, 44.0), "surface speed is 0 m/min"),
        (lambda: cutting.spindle_speed_inch(100.0, 0.0), "diameter is 0 in"),
        (lambda: cutting.surface_speed(0.0, 44.0), "spindle speed is 0 rpm"),
        (lambda: cutting.turns(6.5, 0.0), "feed is 0 mm/rev"),
        (lambda: cutting.turns(-1.0, 0.1), "deep cannot be"),
        (lambda: cutting.boring_minutes(6.5, 0.1, 0.0), "spindle speed is 0 rpm"),
        (lambda: cutting.machine_step(50.0, []), "no speeds"),
        (lambda: cutting.machine_range(50.0, 400.0, 30.0), "wrong way round"),
        (lambda: cutting.specific_force(1150.0, 0.2, 0.0), "chip thickness"),
        (lambda: cutting.cutting_torque(1150.0, 0.2, 0.1, 0, 1.0, 42.0, 44.0), "without a tip"),
        (lambda: cutting.cutting_torque(1150.0, 0.2, 0.1, 1, 1.0, 44.0, 42.0), "no ring"),
        (lambda: cutting.wall_and_floor_torque(1150.0, 0.2, 0.1, 1, 44.0, 45.0, 37.0, 7.5), "old pocket, 45 mm"),
    ],
)
def test_a_cut_that_cannot_be_is_refused_in_words(call, says):
    with pytest.raises(ValueError, match=says):
        call()
