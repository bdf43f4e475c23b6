"""The temperatures of dry ice and boiling nitrogen against published equations of state."""

from __future__ import annotations

import math

import pytest

from seatwright.handbook.assembly import DRY_ICE, NITROGEN


def _sublimation_pressure(kelvin: float) -> float:
    # Span and Wagner, J. Phys. Chem. Ref. Data 25 (1996) 1509, from memory; triple point 216.592 K, 517 950 Pa.
    triple, at_triple = 216.592, 517_950.0
    left = 1 - kelvin / triple
    exponent = -14.740846 * left + 2.4327015 * left**1.9 - 5.3061778 * left**2.9
    return at_triple * math.exp(triple / kelvin * exponent)


def test_dry_ice_is_at_the_temperature_where_it_sublimes_at_one_atmosphere() -> None:
    kelvin = DRY_ICE + 273.15
    assert _sublimation_pressure(kelvin - 0.1) < 101_325 < _sublimation_pressure(kelvin + 0.1)
    # NIOSH Pocket Guide: sublimes at −109 °F.
    assert round(DRY_ICE * 1.8 + 32) == -109


def test_nitrogen_boils_where_a_reference_equation_says() -> None:
    # CoolProp 8.0.0, PropsSI('T', 'P', 101325, 'Q', 0, 'Nitrogen') = 77.35499 K.
    assert pytest.approx(77.35499 - 273.15, abs=0.05) == NITROGEN
    # A gas supplier's sheet: −320 °F.
    assert round(NITROGEN * 1.8 + 32) == -320
