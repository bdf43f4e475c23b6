"""Spindle speeds, times and cutting forces against published examples; the source stands beside each.

Figures "from memory" were not seen in print while this was written.
"""

from __future__ import annotations

import pytest

from seatwright.handbook import cutting

FOOT = 0.3048


def test_general_speeds_and_feeds_100_feet_a_minute_at_half_an_inch():
    # A machinist's page of general speeds and feeds: exactly 764 rpm.
    assert round(cutting.spindle_speed_inch(100.0, 0.5)) == 764


def test_the_shop_formula_of_a_tool_and_die_exercise_lies_4_7_percent_high():
    # A college's tool-and-die exercise: 80 ft/min, 0.5 in, by 4·CS/D = 640 rpm; exact 611.15.
    exact = cutting.spindle_speed_inch(80.0, 0.5)
    assert round(exact, 2) == 611.15
    assert 4 * 80.0 / 0.5 / exact == pytest.approx(1.047, abs=5e-4)


def test_the_constant_of_inch_catalogues_is_12_over_pi():
    # Kyocera and DGI catalogues print 3.820 and 3.82.
    assert round(cutting.spindle_speed_inch(1.0, 1.0), 3) == 3.820


def test_turning_half_an_inch_at_400_rpm():
    # Kalpakjian & Schmid, Manufacturing Engineering and Technology, Ex. 23.1, inch edition (from memory):
    # 0.5 in, 400 rpm, 8 in/min over 6 in: 628 in/min = 52 ft/min, 0.02 in/rev, 0.75 min.
    assert round(cutting.surface_speed(400.0, 0.5 * 25.4) / FOOT) == 52
    assert cutting.boring_minutes(6.0, 8.0 / 400.0, 400.0, dwell_turns=0) == pytest.approx(0.75)


def test_the_same_example_in_the_metric_edition():
    # Kalpakjian & Schmid, SI edition (statement read, answers from memory): 12.5 mm, 400 rpm: 15.7 m/min;
    # 200 mm/min over 150 mm: 0.75 min.
    assert round(cutting.surface_speed(400.0, 12.5), 1) == 15.7
    assert cutting.boring_minutes(150.0, 200.0 / 400.0, 400.0, dwell_turns=0) == pytest.approx(0.75)


def test_turning_formulas_of_a_tip_maker():
    # A tool supplier's turning formulas: 700 rpm at 50 mm = 110 m/min; 100 mm at 0.2 mm/rev and 1000 rpm = 0.5 min.
    assert round(cutting.surface_speed(700.0, 50.0)) == 110
    assert cutting.boring_minutes(100.0, 0.2, 1000.0, dwell_turns=0) == pytest.approx(0.5)


def test_turning_700_mm_at_2_30_metres_a_second():
    # Groover, Fundamentals of Modern Manufacturing, prob. 22.1 (from memory): 200 mm, 2.30 m/s, 0.32 mm/rev, 700 mm:
    # 3.66 rev/s, 9.96 min. There the cut runs on the outer diameter, without dwell.
    rpm = cutting.spindle_speed(2.30 * 60, 200.0)
    assert round(rpm / 60, 2) == 3.66
    assert round(cutting.boring_minutes(700.0, 0.32, rpm, dwell_turns=0), 2) == 9.96


@pytest.mark.parametrize(
    ("kc11", "mc", "expected"),
    [
        # A tool supplier's turning catalogue of 2017 and boring guide of 2022 (kc1.1 and mc printed there; the forces
        # at 0.05, 0.10, 0.20 and 1.0 mm were reckoned from them independently).
        pytest.param(1150.0, 0.20, (2094, 1823, 1587, 1150), id="VDI 3323 group 15, grey iron 180 HB"),
        pytest.param(1350.0, 0.28, (3123, 2572, 2119, 1350), id="VDI 3323 group 16, grey iron 260 HB"),
        pytest.param(700.0, 0.25, (1480, 1245, 1047, 700), id="VDI 3323 group 24, cast aluminium 90 HB"),
    ],
)
def test_the_specific_cutting_force_at_a_chip_thickness(kc11, mc, expected):
    assert tuple(round(cutting.specific_force(kc11, mc, h)) for h in (0.05, 0.10, 0.20, 1.0)) == expected
