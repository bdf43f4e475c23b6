"""Every formula of sections 0 to 8, called with quantities, answers in the right dimension.

Temperatures and mean expansions stay plain figures: °C has no zero that a quantity could be scaled from. Left out are
what counts whole steps in exact fractions (`at_step`, `whole_steps`, `round_to_step`, `round_inwards`), what compares
with a constant of its own in mm (`largest_entering`, `passes`, `bore_window`, `interference_from`), and cutting force
and torque, an empirical formula: a chip's thickness in mm raised to a power has no dimension.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pint
import pytest

from seatwright.handbook import cutting, fits, pilots, pockets, setting, thermal

UNITS: Any = pint.UnitRegistry(None)
UNITS.load_definitions(
    [
        "millimetre = [length] = mm",
        "metre = 1000 * millimetre = m",
        "minute = [time] = min",
    ]
)
Q = UNITS.Quantity
LENGTH, PER_TIME, TIME, ONE, SPEED = (
    UNITS.mm.dimensionality,
    (1 / UNITS.minute).dimensionality,
    UNITS.minute.dimensionality,
    UNITS.dimensionless.dimensionality,
    (UNITS.m / UNITS.minute).dimensionality,
)


def mm(figure: float) -> Any:
    return Q(figure, UNITS.mm)


def at(*pairs: tuple[float, float]) -> list[tuple[Any, Any]]:
    return [(mm(one), mm(other)) for one, other in pairs]


RPM = Q(50.0, 1 / UNITS.minute)
V = Q(20.0, UNITS.m / UNITS.minute)

CASES: dict[str, tuple[Callable[[], Any], Any]] = {
    "at20": (lambda: thermal.at20(mm(44.02), 11.5e-6, 22, 21.4e-6, 40), LENGTH),
    "at_bench": (lambda: thermal.at_bench(mm(44.02), 11.5e-6, 22, 21.4e-6, 40), LENGTH),
    "stem_clearance": (lambda: pilots.stem_clearance(mm(9.026), mm(8.955)), LENGTH),
    "bell_mouth": (lambda: pilots.bell_mouth(mm(9.018), mm(9.009), mm(9.026)), LENGTH),
    "dead_pilot_offset": (
        lambda: pilots.dead_pilot_offset(at((0, 0.03), (-31, 0.003), (-62, 0.003)), mm(35)),
        LENGTH,
    ),
    "dead_pilot_tilt_over": (lambda: pilots.dead_pilot_tilt_over(at((0, 0.01), (-62, 0.01)), mm(44)), LENGTH),
    "spindle_tilt_over": (lambda: pilots.spindle_tilt_over(0.0002, mm(44)), LENGTH),
    "spindle_offset": (lambda: pilots.spindle_offset(mm(0.01), 0.0002, mm(35), mm(62)), LENGTH),
    "runout_of": (lambda: pilots.runout_of(mm(0.02)), LENGTH),
    "offset_from_tir": (lambda: pockets.offset_from_tir(mm(0.06)), LENGTH),
    "clean_up_diameter": (
        lambda: pockets.clean_up_diameter([mm(40.04), mm(40.06)], mm(40.2), mm(0.03), mm(0.02), mm(0.1)),
        LENGTH,
    ),
    "bridge_left": (lambda: pockets.bridge_left(mm(46.48), mm(41), mm(46.5), mm(0.02), mm(0.02)), LENGTH),
    "rim_left": (lambda: pockets.rim_left(mm(104), mm(23), mm(41), mm(0.02)), LENGTH),
    "floor_left": (lambda: pockets.floor_left(mm(8.8), mm(8.25), mm(8.06)), LENGTH),
    "ledge": (lambda: pockets.ledge(mm(41), mm(30), mm(0.8)), LENGTH),
    "chamfer_legs": (lambda: pockets.chamfer_legs(mm(0.9), 30)[1], LENGTH),
    "insert_seat_cover": (lambda: pockets.insert_seat_cover(mm(34.4), mm(1.0)), LENGTH),
    "depth_window": (
        lambda: pockets.depth_window(mm(8.2), mm(0), mm(0.1), mm(8.06), mm(0.05), mm(11))[0],
        LENGTH,
    ),
    "least_od_for": (lambda: fits.least_od_for(mm(40.26), mm(0.085)), LENGTH),
    "gauge_error": (lambda: setting.gauge_error(at((40, 40.002), (50, 50.003)), mm(44)), LENGTH),
    "reading": (lambda: setting.reading(mm(44.02), mm(0.002), mm(0.006)), LENGTH),
    "bore_from_reading": (lambda: setting.bore_from_reading(mm(44.016), mm(0.002), mm(0.006)), LENGTH),
    "overcut_from_trial": (lambda: setting.overcut_from_trial(mm(44.48), mm(44.487), mm(0.002)), LENGTH),
    "spindle_speed": (lambda: cutting.spindle_speed(V, mm(44)), PER_TIME),
    "surface_speed": (lambda: cutting.surface_speed(RPM, mm(44)), SPEED),
    "turns": (lambda: cutting.turns(mm(8.25), mm(0.1)), ONE),
    "boring_minutes": (lambda: cutting.boring_minutes(mm(8.25), mm(0.1), RPM), TIME),
}


@pytest.mark.parametrize("name", CASES)
def test_a_formula_answers_in_the_right_dimension(name: str) -> None:
    call, dimension = CASES[name]
    result = call()
    found = result.dimensionality if hasattr(result, "dimensionality") else ONE
    assert found == dimension


def test_a_length_among_speeds_is_refused() -> None:
    # What the dimensions are good for: a depth of turns would be caught.
    with pytest.raises(pint.DimensionalityError):
        cutting.boring_minutes(RPM, mm(0.1), RPM)
