"""Press fits against worked examples that others publish.

Each row: where it is printed, what goes in, what is printed. The printed figure is met to its last digit, give or take
the rounding that its own source carried through.
"""

from __future__ import annotations

import math

import pytest

from seatwright.handbook.fit_stress import (
    PEAKS_FLATTENED,
    contact_pressure,
    hoop_head_at_bore,
    hoop_insert_at_bore,
    interference_that_holds,
    press_in_force,
    push_out_force,
)

# (source, δ diametral, od, id, outer, E_i, ν_i, E_h, ν_h, printed pressure, half of its last digit)
FITS = [
    pytest.param(0.0015, 0.781, 0, 3.00, 30e6, 0.28, 14e6, 0.28, 15265, 0.5,
                 id="Norton, Machine Design 4th ed., ex. 10-5: steel shaft in grey iron hub, psi"),
    pytest.param(0.02, 50, 25, 75, 207e3, 0.28, 207e3, 0.28, 19.41, 0.005,
                 id="Shigley 8th ed. solutions, 5-35: steel tubes 25/50/75"),
    pytest.param(0.0010, 2, 0, 3, 30e6, 0.29, 30e6, 0.29, 4167, 0.5,
                 id="Shigley 8th ed. solutions, 5-34(b): solid, psi"),
    pytest.param(1.5023 - 1.5000, 1.5, 0, 3, 30e6, 0.292, 30e6, 0.292, 17250, 0.5,
                 id="Shigley 8th ed. solutions, 3-65, tightest, psi; hub of 3 in inferred"),
    pytest.param(1.5017 - 1.5010, 1.5, 0, 3, 30e6, 0.292, 30e6, 0.292, 5250, 0.5,
                 id="Shigley 8th ed. solutions, 3-65, loosest, psi; hub of 3 in inferred"),
    pytest.param(1.5030 - 1.5000, 1.5, 0, 3, 30e6, 0.292, 30e6, 0.292, 22500, 0.5,
                 id="Shigley 8th ed. solutions, 3-67, tightest, psi; hub of 3 in inferred"),
    pytest.param(1.5024 - 1.5010, 1.5, 0, 3, 30e6, 0.292, 30e6, 0.292, 10500, 0.5,
                 id="Shigley 8th ed. solutions, 3-67, loosest, psi; hub of 3 in inferred"),
    pytest.param(0.002, 1.0, 0, 2, 30e6, 0.292, 30e6, 0.292, 22500, 0.5,
                 id="Shigley 8th ed. solutions, 3-68, psi"),
    pytest.param(0.10, 60, 40, 120, 105e3, 0.3, 210e3, 0.3, 53.3, 0.05,
                 id="Ugural, Mechanical Design (title from memory), an answer page: bronze in steel"),
    pytest.param(0.0032, 2.5, 2.0, 3.5, 17e6, 0.27, 30e6, 0.27, 3518, 0.5,
                 id="Mott, Machine Elements, ex. 13-2, answer from memory: bronze in steel, psi"),
    pytest.param(0.04, 50, 0, 80, 200e3, 0.3, 200e3, 0.3, 48.75, 0.005,
                 id="online calculator A, press fit"),
    pytest.param(0.04, 50, 0, 80, 210e3, 0.3, 210e3, 0.3, 51.2, 0.05,
                 id="online calculator B, press fit"),
    pytest.param(0.1, 100, 0, 150, 210e3, 0.3, 210e3, 0.3, 58.3, 0.05,
                 id="online calculator C, shrink fit"),
]  # fmt: skip


@pytest.mark.parametrize("delta, od, bore, outer, e_i, nu_i, e_h, nu_h, printed, half", FITS)
def test_pressure_is_the_printed_one(
    delta: float, od: float, bore: float, outer: float,
    e_i: float, nu_i: float, e_h: float, nu_h: float, printed: float, half: float,
) -> None:  # fmt: skip
    assert contact_pressure(delta, od, bore, outer, e_i, nu_i, e_h, nu_h) == pytest.approx(printed, abs=half)


@pytest.mark.parametrize(
    "pressure, od, outer, printed, half",
    [
        # From the full pressure of each source (above), the hoop stress it prints for the outer part at the fit.
        pytest.param(15265.46, 0.781, 3.00, 17485, 6, id="Norton, ex. 10-5, psi, its radius rounded"),
        pytest.param(19.41, 50, 75, 50.47, 0.005, id="Shigley 5-35, from its rounded pressure"),
        pytest.param(4166.67, 2, 3, 10830, 5, id="Shigley 5-34(b), psi"),
        pytest.param(22500, 1, 2, 37500, 0.5, id="Shigley 3-68, psi"),
        pytest.param(53.2995, 60, 120, 88.8, 0.05, id="an answer page"),
        pytest.param(3517.75, 2.5, 3.5, 10846, 0.5, id="Mott, ex. 13-2, from memory, psi"),
        pytest.param(48.75, 50, 80, 111.3, 0.055, id="online calculator A"),
        pytest.param(51.1875, 50, 80, 117, 0.5, id="online calculator B"),
        pytest.param(58.3333, 100, 150, 151.7, 0.05, id="online calculator C"),
    ],
)
def test_hoop_stress_of_the_outer_part_is_the_printed_one(
    pressure: float, od: float, outer: float, printed: float, half: float
) -> None:
    assert hoop_head_at_bore(pressure, od, outer) == pytest.approx(printed, abs=half)


def test_hoop_stress_in_the_hole_of_a_bronze_bush_is_the_printed_one() -> None:
    # an answer page: −191.9 MPa at the inner diameter of the bush 40/60.
    pressure = contact_pressure(0.10, 60, 40, 120, 105e3, 0.3, 210e3, 0.3)
    assert hoop_insert_at_bore(pressure, 60, 40) == pytest.approx(-191.9, abs=0.05)


def test_force_and_torque_of_a_press_fit_are_the_printed_ones() -> None:
    # online calculator A: 50 solid in 80, 40 long, μ .15: 45 950 N (rounded there), 1149 Nm.
    force = push_out_force(0.15, 48.75, 50, 40)
    assert force == pytest.approx(45_950, abs=5)
    assert force * 50 / 2 / 1000 == pytest.approx(1149, abs=0.5)
    # online calculator B: μ .12: 38.6 kN, 965 Nm.
    force = press_in_force(0.12, 51.1875, 50, 40)
    assert force / 1000 == pytest.approx(38.6, abs=0.05)
    assert force * 50 / 2 / 1000 == pytest.approx(965, abs=0.5)
    # online calculator C: 100 in 150, 50 long, μ .15: 6.87 kNm.
    assert push_out_force(0.15, 58.3333, 100, 50) * 100 / 2 / 1e6 == pytest.approx(6.87, abs=0.005)


def test_an_insert_in_an_aluminium_head_meets_the_reference_case() -> None:
    # Reference case of this project: exact rational 9695168456400000/261954403574651 (sympy), and scipy solve_bvp.
    pressure = contact_pressure(0.08, 38.1, 30, 60, 210e3, 0.28, 71e3, 0.33)
    assert pressure == pytest.approx(9695168456400000 / 261954403574651, rel=1e-12)
    assert pressure == pytest.approx(37.010900844, rel=1e-11)
    assert hoop_head_at_bore(pressure, 38.1, 60) == pytest.approx(87.0255, abs=5e-5)
    assert hoop_insert_at_bore(pressure, 38.1, 30) == pytest.approx(-194.7949, abs=5e-5)
    assert push_out_force(0.1, pressure, 38.1, 8) == pytest.approx(3544.0, abs=0.05)


def test_wide_metal_is_the_limit_of_ever_wider_rings() -> None:
    # Closed form for an infinite head, worked with the reference case: 55.6961 MPa.
    wide = contact_pressure(0.08, 38.1, 30, math.inf, 210e3, 0.28, 71e3, 0.33)
    assert wide == pytest.approx(55.6961, abs=5e-5)
    assert contact_pressure(0.08, 38.1, 30, 38.1e6, 210e3, 0.28, 71e3, 0.33) == pytest.approx(wide, rel=1e-10)
    assert hoop_head_at_bore(wide, 38.1, math.inf) == wide


@pytest.mark.parametrize(
    "delta, od, bore, outer, e_i, nu_i, e_h, nu_h, worked",
    [
        # Problems of an answer page without a printed answer; worked by hand.
        (101.651 - 101.60, 101.60, 50.8, 127, 103.4e3, 0.32, 206.7e3, 0.29, 13.765),
        (0.2, 200, 100, 350, 80e3, 0.33, 200e3, 0.28, 35.769),
    ],
)
def test_two_materials_and_a_hollow_inner_part(
    delta: float, od: float, bore: float, outer: float,
    e_i: float, nu_i: float, e_h: float, nu_h: float, worked: float,
) -> None:  # fmt: skip
    assert contact_pressure(delta, od, bore, outer, e_i, nu_i, e_h, nu_h) == pytest.approx(worked, abs=2e-3)


def test_rough_surfaces_lose_what_the_standard_says() -> None:
    # DIN 7190-1:2017, as the manual of a bearing calculation program states it (surface roughness of shaft and
    # housing): the effective interference falls by 0.4 Rz of each surface; by 0.8 Rz in the edition before.
    assert PEAKS_FLATTENED == 0.4
    lost = 0.060 - interference_that_holds(0.060, 0.010, 0.0063)
    assert lost == pytest.approx(0.4 * 0.010 + 0.4 * 0.0063)
    # Pressure is in proportion: 60 µm with 16.3 µm of Rz holds 89.13 % of what smooth surfaces would.
    rough, smooth = (contact_pressure(delta, 38.1, 30, 60, 210e3, 0.28, 71e3, 0.33) for delta in (0.060 - lost, 0.060))
    assert rough / smooth == pytest.approx(0.8913, abs=5e-5)
