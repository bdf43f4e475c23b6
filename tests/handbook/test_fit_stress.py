"""The fit of an insert: what the formulas refuse, their limits, and how they hang together."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.fit_stress import (
    OPEN_FACE,
    contact_pressure,
    friction_of_both,
    gone_temperature,
    hoop_head_at_bore,
    hoop_insert_at_bore,
    hot_interference,
    interference_that_holds,
    push_out_force,
    ring_limit_pressure,
    set_left,
)
from seatwright.handbook.thermal import mean_expansion

STEEL_IN_ALUMINIUM = (210e3, 0.28, 71e3, 0.33)


def test_no_interference_makes_no_pressure() -> None:
    assert contact_pressure(0.0, 38.1, 30, 60, *STEEL_IN_ALUMINIUM) == 0
    assert contact_pressure(-0.02, 38.1, 30, 60, *STEEL_IN_ALUMINIUM) == 0


@pytest.mark.parametrize("metal, pressure, push_out", [(2, 12.7, 457), (9, 34.0, 1220), (math.inf, 55.7, 2000)])
def test_little_metal_around_holds_less(metal: float, pressure: float, push_out: float) -> None:
    # Worked by hand: aluminium, 38.1, interference 0.08; its forces are those of μ .06 over 5 mm.
    p = contact_pressure(0.08, 38.1, 30, 38.1 + 2 * metal, *STEEL_IN_ALUMINIUM)
    assert p == pytest.approx(pressure, abs=0.05)
    assert push_out_force(0.06, p, 38.1, 5) == pytest.approx(push_out, rel=0.005)


@pytest.mark.parametrize(
    "od, bore, outer, says",
    [
        (0, 0, 60, "needs a diameter"),
        (38.1, 38.1, 60, "hole of an insert"),
        (38.1, -1, 60, "hole of an insert"),
        (38.1, 30, 38.1, "metal around"),
    ],
)
def test_rings_that_cannot_be_are_refused_in_trade_words(od: float, bore: float, outer: float, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        contact_pressure(0.08, od, bore, outer, *STEEL_IN_ALUMINIUM)


def test_a_plug_has_no_stress_at_a_hole_it_does_not_have() -> None:
    with pytest.raises(ValueError, match="without a hole"):
        hoop_insert_at_bore(37, 38.1, 0)


def test_the_open_face_factor_covers_the_highest_finite_element_figure() -> None:
    # Finite elements of our own: 106.4 MPa under the open face, 87.03 by thick rings.
    assert OPEN_FACE * hoop_head_at_bore(37.0109, 38.1, 60) > 106.4


def test_a_yielding_exhaust_insert_is_loose_when_cold() -> None:
    # Worked by hand: cold 0.080, hot 0.209 at 110 MPa, limit 87: about 0.037 left.
    limit = ring_limit_pressure(410, 38.1, 30)
    assert limit == pytest.approx(87, abs=0.5)
    assert set_left(0.080, 0.209, 110, limit) == pytest.approx(0.037, abs=5e-4)
    # With the yield 15 % lower when hot, 0.012.
    assert set_left(0.080, 0.209, 110, 0.85 * limit) == pytest.approx(0.012, abs=5e-4)
    assert set_left(0.080, 0.090, 50, limit) == 0.080


def test_iron_heads_gain_fit_when_the_exhaust_insert_is_hotter() -> None:
    hot = hot_interference(0.08, 38.1, 12.0e-6, 350, 11.7e-6, 180)
    assert hot > 0.08
    assert gone_temperature(0.08, 38.1, [(400.0, 12.0e-6)], [(400.0, 11.7e-6)]) is None


def test_a_fit_that_is_not_gone_as_far_as_the_tables_reach_has_no_such_temperature() -> None:
    assert gone_temperature(0.08, 38.1, [(190.0, 11.3e-6)], [(300.0, 23.2e-6)]) is None
    assert gone_temperature(0.08, 38.1, [], [(300.0, 23.2e-6)]) is None
    assert gone_temperature(0.0, 38.1, [(190.0, 11.3e-6)], [(300.0, 23.2e-6)]) == 20


line = st.tuples(st.floats(40, 400), st.floats(15e-6, 30e-6))
tables = st.lists(line, min_size=1, max_size=4, unique_by=lambda row: round(row[0]))


@given(tables, st.lists(st.tuples(st.floats(40, 400), st.floats(5e-6, 14e-6)), min_size=1, max_size=4,
                        unique_by=lambda row: round(row[0])), st.floats(0.01, 0.15), st.floats(25, 60))  # fmt: skip
def test_at_the_temperature_found_nothing_is_left_and_before_it_something(
    table_h: list[tuple[float, float]], table_i: list[tuple[float, float]], cold: float, od: float
) -> None:
    def left(t: float) -> float:
        mean_i, mean_h = mean_expansion(table_i, t), mean_expansion(table_h, t)
        assert mean_i is not None
        assert mean_h is not None
        return hot_interference(cold, od, mean_i, t, mean_h, t)

    gone = gone_temperature(cold, od, table_i, table_h)
    reach = min(max(t for t, _ in table_i), max(t for t, _ in table_h))
    end = reach if gone is None else gone
    if gone is not None:
        assert left(gone) == pytest.approx(0, abs=1e-9)
    for step in range(21):
        assert left(20 + (end - 20) * step / 21) > -1e-9


def test_peaks_that_press_flat_hold_nothing() -> None:
    # DIN 7190-1:2017: Rz 16 and 10 µm take 0.4·26 = 10.4 µm off; a fit rougher than it is tight holds nothing.
    assert interference_that_holds(0.050, 0.016, 0.010) == pytest.approx(0.0396)
    assert interference_that_holds(0.008, 0.016, 0.010) == 0.0
    assert interference_that_holds(0.050, 0.0, 0.0) == 0.050
    assert interference_that_holds(-0.010, 0.016, 0.010) == -0.010
    with pytest.raises(ValueError, match="roughness"):
        interference_that_holds(0.05, -0.001, 0.0)


def test_a_rough_fit_is_gone_cooler() -> None:
    # 0.080 on 38.1 in aluminium is gone at 196.4 °C (by hand 20 + 0.080/(38.1·11.9e-6)); 10.4 µm of peaks less: 173.5.
    tables = [(300.0, 11.3e-6)], [(300.0, 23.2e-6)]
    rough = interference_that_holds(0.080, 0.016, 0.010)
    assert gone_temperature(rough, 38.1, *tables) == pytest.approx(20 + 0.0696 / (38.1 * 11.9e-6))
    assert gone_temperature(rough, 38.1, *tables) == pytest.approx(173.5, abs=0.05)


def test_push_out_takes_the_slipperier_partner_and_press_in_the_rougher() -> None:
    assert friction_of_both((0.10, 0.16), (0.07, 0.10)) == (0.07, 0.16)
    assert friction_of_both((0.10, 0.16), (0.10, 0.16)) == (0.10, 0.16)
    with pytest.raises(ValueError, match="friction"):
        friction_of_both((0.16, 0.10), (0.1, 0.2))
