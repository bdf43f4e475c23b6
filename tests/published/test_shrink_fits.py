"""Heating and chilling against published examples, and why a constant expansion is refused."""

from __future__ import annotations

import pytest

from seatwright.handbook.assembly import (
    DRY_ICE,
    NITROGEN,
    assembly_clearance,
    grab_temperature,
    head_temperature_for,
)
from seatwright.handbook.fit_stress import gone_temperature, hot_interference
from seatwright.handbook.materials import ALLOYS, MATERIALS
from seatwright.handbook.thermal import mean_expansion


def _celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def test_heating_a_ring_over_a_shaft_takes_the_printed_temperature() -> None:
    # A physics answer page, (a): steel ring 2.5000 in, brass shaft 2.5030 in at 20 °C: 112.3 °C.
    hot = head_temperature_for(0, 2.5000, 2.5030, [(500.0, 13e-6)])
    assert hot == pytest.approx(112.3, rel=0.003)


def test_cooling_ring_and_shaft_together_to_the_printed_temperature_just_frees_them() -> None:
    # The same, (b): both cooled to −179.2 °C, steel 13e-6, brass 19e-6.
    rise = -179.2 - 20
    left = assembly_clearance(2.5000, 2.5030, 13e-6, rise, 19e-6, rise)
    assert left == pytest.approx(0, abs=0.003 * 0.003)


def test_an_aluminium_hub_needs_the_printed_rise() -> None:
    # A workshop's page on shrink fits: 1.000 in hub, .0010 interference and .0020 clearance, 12.8e-6 per °F: 234 °F
    # rise.
    assert assembly_clearance(1.000, 1.001, 12.8e-6, 234, 0, 0) == pytest.approx(0.0020, abs=0.003 * 0.003)


# A university textbook problem, a trunnion (statement seen; numbers from memory): expansion of a carbon steel per °F,
# T in °F, of a 12.363 in trunnion from 80 °F.
def _trunnion_grows(to_f: float) -> float:
    def whole(t: float) -> float:
        return 6.015e-6 * t + 6.1946e-9 * t**2 / 2 - 1.2278e-11 * t**3 / 3

    return 12.363 * (whole(to_f) - whole(80))


def _kaw_mean(celsius: float) -> float:
    def whole(t: float) -> float:
        return 6.015e-6 * t + 6.1946e-9 * t**2 / 2 - 1.2278e-11 * t**3 / 3

    f = celsius * 1.8 + 32
    return (whole(f) - whole(68)) / (f - 68) * 1.8


def test_a_table_of_mean_expansion_shrinks_the_trunnion_by_the_true_amount() -> None:
    table = [(t, _kaw_mean(t)) for t in (-200.0, -150.0, -100.0, -50.0, 0.0, 50.0)]

    def size(f: float) -> float:
        mean = mean_expansion(table, _celsius(f))
        assert mean is not None
        return 12.363 * mean * (_celsius(f) - 20)

    # Printed −0.013689 in to −108 °F; to −321 °F −0.024420 (worked from the same curve).
    assert size(-108) - size(80) == pytest.approx(-0.013689, rel=0.003)
    assert size(-321) - size(80) == pytest.approx(-0.024420, rel=0.003)
    assert _trunnion_grows(-108) == pytest.approx(-0.013689, rel=1e-4)


def test_a_constant_expansion_claims_more_than_the_trunnion_gave_and_so_is_not_carried_into_the_cold() -> None:
    # Printed: a constant 6.47e-6 per °F promises −0.01504 in to −108 °F, a tenth more than came, and it stuck. To
    # −321 °F it promises three tenths more.
    constant = 6.47e-6 * 12.363
    assert constant * (-108 - 80) == pytest.approx(-0.01504, rel=0.003)
    assert constant * (-108 - 80) / _trunnion_grows(-108) > 1.09
    assert constant * (-321 - 80) / _trunnion_grows(-321) > 1.3
    # A figure from above 20 °C alone gives no answer below it.
    only_warm = [(100.0, 6.47e-6 * 1.8)]
    assert mean_expansion(only_warm, DRY_ICE) is None
    assert grab_temperature(38.2, 38.1, only_warm, DRY_ICE) is None


def test_built_in_tool_steel_shrinks_by_the_carbon_steels_mean_down_to_nitrogen() -> None:
    # Same curve: mean 20 to −195.8 °C 8.8e-6, from 80 °F 8.87e-6 per °C; handbook tables near room say 11 to 12.
    table = ALLOYS["tool steel"].expansion_table
    mean = mean_expansion(table, NITROGEN)
    assert mean == pytest.approx(_kaw_mean(NITROGEN), rel=1e-3)
    assert mean == pytest.approx(8.87e-6, rel=0.015)
    for t in (DRY_ICE, -100.0, -60.0, -40.0):
        assert mean_expansion(table, t) == pytest.approx(_kaw_mean(t), rel=3e-3)


def test_no_built_in_expansion_reaches_below_20_without_a_source_for_the_cold() -> None:
    reaching = {m.name for m in (*MATERIALS.values(), *ALLOYS.values()) if any(row.to_C < 20 for row in m.expansion)}
    assert reaching == {"grey iron", "tool steel"}


def test_an_insert_in_aluminium_keeps_what_the_worked_table_says() -> None:
    # Worked by hand with constant 11.3 and 23.2 um/m/C: 0.080 at 20 °C, od 38.1.
    for t, left in ((100, 0.04373), (150, 0.02106), (180, 0.00746)):
        assert hot_interference(0.08, 38.1, 11.3e-6, t, 23.2e-6, t) == pytest.approx(left, abs=5e-6)
    gone = gone_temperature(0.08, 38.1, [(300.0, 11.3e-6)], [(300.0, 23.2e-6)])
    assert gone == pytest.approx(196.449, abs=5e-4)


@pytest.mark.parametrize("cold, gone", [(0.050, 140), (0.064, 173), (0.080, 211), (0.100, 256)])
def test_soaked_aluminium_lets_go_of_tool_steel_at_the_worked_temperature(cold: float, gone: float) -> None:
    # Worked by hand: both at one temperature, tables of A356-T6 and H13, od 38.1.
    found = gone_temperature(cold, 38.1, ALLOYS["tool steel"].expansion_table, MATERIALS["aluminium"].expansion_table)
    assert found == pytest.approx(gone, abs=1.5)


@pytest.mark.parametrize(
    "rise, mean, growth",
    [
        # Published summary of trade figures for 35.3 mm (coefficients there from memory: 22 and 11 um/m/C).
        (65 - 20, 22e-6, 0.035),
        (120 - 20, 22e-6, 0.078),
        (250 - 20, 22e-6, 0.179),
        (93 - 20, 11e-6, 0.028),
        (-18 - 20, 11e-6, -0.015),
        (-78 - 20, 11e-6, -0.038),
        (-196 - 20, 8.8e-6, -0.067),
    ],
)
def test_growth_of_a_35_3_mm_bore_and_insert(rise: float, mean: float, growth: float) -> None:
    assert assembly_clearance(35.3, 35.3, mean, rise, 0, 0) == pytest.approx(growth, abs=6e-4)


def test_an_aluminium_head_at_160_grabs_the_insert_at_108() -> None:
    # Worked by hand: bore 38.02, od 38.10, 22 and 11 um/m/C: clearance 0.037, insert grabs at 108 °C.
    assert assembly_clearance(38.02, 38.10, 22e-6, 140, 11e-6, 0) == pytest.approx(0.037, abs=5e-4)
    assert grab_temperature(38.02 * (1 + 22e-6 * 140), 38.10, [(400.0, 11e-6)], 20) == pytest.approx(108, abs=1)
    # An insert that arrives at −40 °C has 0.060 there, not the 0.074 of −78.5 °C (mean expansion about 10 um/m/C).
    assert assembly_clearance(38.02, 38.10, 22e-6, 140, 10e-6, -60) == pytest.approx(0.060, abs=1e-3)
    assert assembly_clearance(38.02, 38.10, 22e-6, 140, 9.8e-6, -98.5) == pytest.approx(0.074, abs=1e-3)
