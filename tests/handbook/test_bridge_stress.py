"""A bridge between two inserts: figures reckoned elsewhere, and what must hold whatever the sizes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seatwright.handbook.bridge_stress import PressedInsert, bridge_stress
from seatwright.handbook.fit_stress import contact_pressure

STEEL = PressedInsert(0.08, 38.1, 30.0, 210e3, 0.29)
ALUMINIUM, IRON = (71e3, 0.33), (110e3, 0.26)


@pytest.mark.parametrize(
    ("bridge", "aluminium", "iron"),
    [(2, 314, 402), (3, 253, 322), (4, 217, 275), (6, 175, 221), (10, 136, 171)],
)
def test_a_bridge_carries_what_another_reckoning_found(bridge: float, aluminium: float, iron: float) -> None:
    # Exact plane stress reckoned independently of this program, printed to the whole MPa.
    assert bridge_stress(STEEL, STEEL, bridge, *ALUMINIUM).highest == pytest.approx(aluminium, abs=0.55)
    assert bridge_stress(STEEL, STEEL, bridge, *IRON).highest == pytest.approx(iron, abs=0.55)


def test_a_near_neighbour_takes_some_pressure_away() -> None:
    # The same independent reckoning: 50.97 on average at a bridge of 3 mm, 55.7665 alone.
    near = bridge_stress(STEEL, STEEL, 3, *ALUMINIUM)
    assert near.pressure == pytest.approx((50.97, 50.97), abs=0.01)
    assert bridge_stress(STEEL, STEEL, 1e5, *ALUMINIUM).pressure[0] == pytest.approx(55.7665, abs=1e-3)


@pytest.mark.parametrize(
    ("od", "id", "E", "nu"), [(30.0, 22.0, 210e3, 0.29), (50.0, 44.0, 100e3, 0.25), (38.1, 0.0, 210e3, 0.28)]
)
def test_an_insert_with_nothing_near_is_a_thick_ring_in_wide_metal(od: float, id: float, E: float, nu: float) -> None:
    alone = bridge_stress(PressedInsert(0.08, od, id, E, nu), STEEL, 1e5, *ALUMINIUM)
    thick_rings = contact_pressure(0.08, od, id, math.inf, E, nu, *ALUMINIUM)
    assert alone.pressure[0] == pytest.approx(thick_rings, rel=1e-5)
    assert alone.hoop[0] == pytest.approx(thick_rings, rel=1e-4)


inserts = st.builds(
    PressedInsert,
    st.floats(0.03, 0.12),
    st.floats(26, 50),
    st.floats(10, 24),
    st.floats(100e3, 220e3),
    st.floats(0.25, 0.33),
)


@settings(max_examples=40, deadline=None)
@given(inserts, inserts, st.floats(1.5, 15))
def test_it_does_not_matter_which_insert_is_named_first(
    first: PressedInsert, second: PressedInsert, bridge: float
) -> None:
    one, other = (bridge_stress(*pair, bridge, *ALUMINIUM) for pair in ((first, second), (second, first)))
    assert one.hoop == pytest.approx(other.hoop[::-1], rel=2e-3)
    assert one.pressure == pytest.approx(other.pressure[::-1], rel=1e-3)


def test_twice_the_interference_is_twice_the_stress() -> None:
    double = PressedInsert(0.16, 38.1, 30.0, 210e3, 0.29)
    once, twice = (bridge_stress(each, each, 4, *IRON) for each in (STEEL, double))
    assert twice.hoop == pytest.approx([2 * each for each in once.hoop], rel=1e-6)


def test_an_insert_that_hardly_grips_beside_a_tight_one_lifts_off() -> None:
    loose = PressedInsert(0.005, 44.0, 38.0, 210e3, 0.29)
    assert bridge_stress(PressedInsert(0.12, 30.0, 22.0, 210e3, 0.29), loose, 2, *ALUMINIUM).pressure_least[1] < 0


@pytest.mark.parametrize(
    ("insert", "bridge", "E_h", "says"),
    [
        (STEEL, 0.0, 71e3, "the bores meet"),
        (PressedInsert(0.08, 38.1, 38.1, 210e3, 0.29), 3, 71e3, "hole of an insert"),
        (PressedInsert(0.08, 38.1, 30, 0, 0.29), 3, 71e3, "insert 0"),
        (STEEL, 3, 0.0, "head 0"),
    ],
)
def test_a_bridge_that_cannot_be_is_refused(insert: PressedInsert, bridge: float, E_h: float, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        bridge_stress(insert, STEEL, bridge, E_h, 0.33)
