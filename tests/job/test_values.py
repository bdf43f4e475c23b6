"""Every way to write a value gives the figure that was meant, and every slip its one message."""

from __future__ import annotations

from fractions import Fraction
from math import isclose, sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.job.given_jobs import HEAD, SHOP, clean, only, slugs, valves

from seatwright.job.model import Given, Limits, Specification, Stand
from seatwright.job.typed.figures import as_float


def specification(fields: str, units: str = "mm") -> Specification:
    return clean(valves(fields, units)).heads[0].valves[0].specification


@pytest.mark.parametrize(
    ("typed", "units", "mm"),
    [
        ("42.0", "mm", 42.0),
        ("42.0 mm", "inch", 42.0),
        ("1.739", "inch", 44.1706),
        ('1.739"', "mm", 44.1706),
        ("1.739 in", "mm", 44.1706),
        ("1-1/2", "inch", 38.1),
        ("1 1/2 in", "mm", 38.1),
        ("1½ in", "mm", 38.1),
        ("1500 thou", "mm", 38.1),
        ("42000 um", "mm", 42.0),
        ("41.9 to 42.1", "mm", 42.0),
        ("42.0 +/- 0.1", "mm", 42.0),
        ("42.00 +0.02 0", "mm", 42.01),
        ("1.739 in = 44.17 mm", "mm", 44.17),  # half a last digit is 0.0127 mm there, 0.005 here: the finer one
        ("1.7390 in = 44.2 mm", "mm", 44.1706),
    ],
)
def test_a_size_is_what_was_typed(typed: str, units: str, mm: float) -> None:
    found = specification(f"head-diameter {typed}\n", units).head_diameter
    assert found is not None
    assert isclose(found.value, mm, abs_tol=1e-9)


def test_a_figure_keeps_the_digits_its_owner_typed() -> None:
    found = specification("head-diameter  1.7390   in\n").head_diameter
    assert isinstance(found, Given)
    assert (found.typed, found.span.line, found.span.column, found.span.end_column) == ("1.7390 in", 6, 16, 27)
    assert isclose(found.half_digit, 0.00005 * 25.4)


@pytest.mark.parametrize(
    ("typed", "degrees"),
    [
        ("45", 45.0),
        ("45°", 45.0),
        ("45 deg", 45.0),
        ("44°53'", 44 + 53 / 60),
        ("44.5 from-axis", 45.5),
        ("89 included", 45.5),  # half of it, 44.5, is from the stem
        ("44.5 to 45.5", 45.0),
    ],
)
def test_an_angle_counts_from_the_plane_square_to_the_stem(typed: str, degrees: float) -> None:
    found = specification(f"seat-angle {typed}\n").seat_angle
    assert found is not None
    assert isclose(found.value, degrees)


def test_an_included_angle_left_bare_is_offered_as_included() -> None:
    message = only("seat-angle 89\n")
    assert message.slug == "figure-unlikely"
    assert "`89 included`" in message.help


def _limits(least: float | None, most: float | None, nominal: float | None) -> Any:
    return tuple(None if one is None else pytest.approx(one) for one in (least, most, nominal))


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("1.6 to 2.0", (1.6, 2.0, None)),
        ("most 2.0", (None, 2.0, None)),
        ("least 1.6", (1.6, None, None)),
        ("1.8", (None, None, 1.8)),
        ("1.8 +/- 0.2", (1.6, 2.0, 1.8)),
        ("1.8 +0.2 -0.1", (1.7, 2.0, 1.8)),
        ("1.8 -0.1 +0.2", (1.7, 2.0, 1.8)),
        (".062 to .079 in", (1.5748, 2.0066, None)),
        ("63 thou to 79 thou", (1.6002, 2.0066, None)),
    ],
)
def test_limits_are_two_one_or_an_aim(typed: str, expected: tuple[float | None, float | None, float | None]) -> None:
    found = specification(f"seat-width {typed}\n").seat_width
    assert isinstance(found, Limits)
    given = tuple(None if one is None else one.value for one in (found.least, found.most, found.nominal))
    assert given == _limits(*expected)


@pytest.mark.parametrize(
    ("typed", "least", "most", "single"),
    [
        ("flush", 0.0, 0.0, True),
        ("proud 0.10", -0.10, -0.10, True),
        ("below 0.20", 0.20, 0.20, True),
        ("below -0.05 to 0.10", -0.05, 0.10, False),
        ("proud 0.05 to 0.10", -0.10, -0.05, False),
        ("below 0.20 +/- 0.05", 0.15, 0.25, False),
    ],
)
def test_a_stand_counts_downwards(typed: str, least: float, most: float, single: bool) -> None:
    found = specification(f"stand {typed}\n").stand
    assert isinstance(found, Stand)
    assert isclose(found.below_least.value, least, abs_tol=1e-12)
    assert isclose(found.below_most.value, most, abs_tol=1e-12)
    assert found.single is single


def test_a_runout_is_the_full_movement_of_the_needle() -> None:
    tir, offset = (specification(f"seat-runout {typed}\n").seat_runout for typed in ("0.04 tir", "0.02 offset"))
    assert tir is not None
    assert offset is not None
    assert tir.value == offset.value == 0.04


def test_the_source_of_a_makers_figure_goes_with_it() -> None:
    found = specification('interference 0.08 to 0.10 "manual"\n').interference
    assert found is not None
    assert found.source == "manual"


@pytest.mark.parametrize(
    ("fields", "slug", "says"),
    [
        ("interference 0.08-0.10", "range-hyphen", "`0.08 to 0.10`"),
        ("insert-od 2.0025/2.0035 in", "range-slash", "`2.0025 to 2.0035"),
        ("seat-width 1.6 to", "range-open", "most"),
        ("seat-width 2.0 to 1.6", "range-reversed", "`1.6 to 2.0`"),
        ("seat-width 1.6 mm to 2.0", "unit-last", "behind the last"),
        ("head-diameter 42.10 +0.02", "tolerance-half", "`42.10 +/- 0.02`"),
        ("seat-runout 0.05", "runout-bare", "`0.05 tir`"),
        ("head-diameter 42,0", "decimal-comma", "`42.0`"),
        ("head-diameter 21 radius", "radius-diameter", "diameters"),
        ("head-diameter 42 kN", "unit-kind", "length"),
        ("head-diameter 4.2 cm", "unit-unknown", "`42 mm`"),
        ("margin 15 tenth", "unit-which", "0.1 mm"),
        ("margin 60 mil", "unit-which", ".001 in"),
        ("sodium-filled maybe", "choice-unknown", "`yes` or `no`"),
        ("pocket keap", "choice-unknown", "`keep`"),
        ("stand 0.2", "stand-way", "below"),
        ("guide-clearance 0.05", "limits-wanted", "most"),
        ("bore 44.0", "limits-wanted", "two limits"),
        ("pilot in", "name-forbidden", "number on its box"),
        ("insert any", "name-forbidden", "another"),
        ("head-diameter", "value-missing", "42.0"),
        ("head-diameter 42 deg", "unit-kind", "length"),
        ("head-diameter 42 43", "figures-many", "42.43"),
        ("seat-angle 45 sideways", "angle-word", "from-axis"),
        ("oversize-of 44.0 to 44.2", "figures-many", "oversize-of 44.00"),
        ("seat-angle 45 to 100", "figure-unlikely", "75"),
        ("seat-angle 5 from-axis", "figure-unlikely", "75"),
        ("interference 0.08 to 0.10 the manual", "text-bare", '`"the manual"`'),
        ("interference 0.08 to 0.10 mn", "unit-unknown", "`mm`"),
        ("head-diameter +/- 0.3", "tolerance-nominal", "not of what"),
        ("alloy tool steel", "alloy-apart", "`tool-steel`"),
        ("stem 8\nstem 8", "field-twice", "Keep"),
    ],
)
def test_a_slip_has_its_one_message(fields: str, slug: str, says: str) -> None:
    message = only(fields + "\n")
    assert message.slug == slug, message
    assert says in message.text + message.help


@pytest.mark.parametrize(
    ("fields", "units", "meant"),
    [
        ("head-diameter 44.02", "inch", "`44.02 mm`"),
        ("head-diameter 1.739", "mm", "`1.739 in`"),
        ("stem .3141", "mm", "`.3141 in`"),
        ("guide-wear-limit 4", "inch", "`4 thou`"),
        ("interference .08 to .10", "inch", "`.08 mm`"),
    ],
)
def test_a_figure_in_the_other_unit_is_found_out_and_offered(fields: str, units: str, meant: str) -> None:
    message = only(fields + "\n", units)
    assert message.slug == "figure-unlikely"
    assert meant in message.help


@pytest.mark.parametrize("field", ["heat-limit 180", "temperature 24", "hot-head 190 mm"])
def test_a_temperature_is_never_bare_and_never_a_length(field: str) -> None:
    job = HEAD.format(units="mm") + f"  {field}\nvalves E1\n"
    assert [slug for _, slug in slugs(job)] in (["unit-missing"], ["unit-kind"])


def test_a_temperature_has_its_limits_as_differences() -> None:
    head = clean(HEAD.format(units="inch") + "  temperature 75 F +/- 2\nvalves E1\n").heads[0]
    assert head.temperature is not None
    assert head.temperature_limits is not None
    assert isclose(head.temperature.value, 23.8888888889)
    assert isclose(head.temperature_limits.value, 10 / 9)


def test_shop_figures_come_in_the_units_of_the_model() -> None:
    shop = SHOP.format(units="inch") + (
        'machine "borer"\n speeds 35 50 70 rpm\n feeds hand\n torque-limit 20 ft-lb\n level .0005 in/ft\n'
        'gauge "setter"\n range 1.0 to 2.5\n'
        " repeatability +/- .0001\n master 1.5000 reads 1.5001\n"
        " master-uncertainty .00002\n"
        'practice\n surface-speed 65 ft/min\n feed .004 in/rev\n runout .001 offset\n leak 3 s "25 to 17 in-Hg"\n'
        "  shims .060 .015 .030\n guard 0\n"
        'assembly\n chill "dry ice" -78.5 C arrives -40 C\n press 2000 lbf\n'
        "alloy hard-chrome\n stiffness 30000 ksi\n expansion 6.4 uin/in/F to 212 F\n expansion 9 um/m/C to -196 C\n"
        '  friction 0.10 to 0.16\n cutting-force 1150 MPa exponent 0.20\n hazard none\n source "sheet"\n'
    )
    job = clean(HEAD.format(units="mm") + 'valves E1\nuse "a.shop"\n', a=shop)
    machine, gauge, practice = job.machine, job.gauge, job.shop.practice
    assert machine is not None
    assert gauge is not None
    assert [speed.value for speed in machine.speeds] == [35, 50, 70]
    assert machine.feeds_by_hand is not None
    assert machine.dial == "inch"
    assert machine.torque_limit is not None
    assert isclose(machine.torque_limit.value, 27.116358966628)
    assert machine.level is not None
    assert isclose(machine.level.value, 0.0005 / 12)
    assert gauge.repeatability is not None
    assert isclose(gauge.repeatability.value, 0.00254 / sqrt(3))
    assert gauge.repeatability.rectangular
    assert gauge.master_uncertainty is not None
    assert isclose(gauge.master_uncertainty.value, 0.000508)
    assert practice.surface_speed is not None
    assert isclose(practice.surface_speed.value, 65 * 0.3048)
    assert practice.feed is not None
    assert isclose(practice.feed.value, 0.1016)
    assert practice.runout is not None
    assert isclose(practice.runout.value, 0.0508)
    assert practice.leak is not None
    assert (practice.leak.seconds.value, practice.leak.text) == (3.0, "25 to 17 in-Hg")
    assert [round(shim.value, 4) for shim in practice.shims] == [0.381, 0.762, 1.524]
    chill = job.shop.assembly.chills[0]
    assert (chill.name, chill.temperature.value, chill.arrives and chill.arrives.value) == ("dry ice", -78.5, -40.0)
    assert job.shop.assembly.press is not None
    assert isclose(job.shop.assembly.press.value, 8896.443230521)
    alloy = next(one for one in job.shop.alloys if one.name == "hard chrome")
    assert alloy.stiffness is not None
    assert isclose(alloy.stiffness.value, 206842.718795)
    assert [line.to for line in alloy.expansion] == [-196.0, 100.0]
    assert isclose(alloy.expansion[1].per_degree, 11.52e-6)
    assert (alloy.friction_least and alloy.friction_least.value, alloy.friction_most and alloy.friction_most.value) == (
        0.10,
        0.16,
    )
    assert alloy.stiffness.source == "sheet"


@given(st.fractions(max_denominator=10**12))
def test_a_fraction_is_the_float_that_python_makes_of_it(value: Fraction) -> None:
    assert as_float(value) == float(value)
