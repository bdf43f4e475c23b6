"""Heating and chilling: kinds of assembly and their limits."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.assembly import assembly_clearance, grab_temperature, head_temperature_for, kind
from seatwright.handbook.materials import ALLOYS, MATERIALS
from seatwright.handbook.thermal import mean_expansion


def test_the_worst_case_decides_between_dropping_in_and_pushing() -> None:
    # Worked checks, 24: nominal 0.037 drops in, worst 0.017 must be pushed, at a slip of 0.030.
    assert kind(0.037, 0.030) == "drop-in"
    assert kind(0.017, 0.030) == "push"
    assert kind(0.030, 0.030) == "drop-in"
    assert kind(0.0, 0.030) == "push"
    assert kind(-0.001, 0.030) == "press"
    with pytest.raises(ValueError, match="slip"):
        kind(0.1, -0.01)


@pytest.mark.parametrize(
    "head_at, insert_at, interference, expected",
    [
        # Trade facts, 5: with 0.08 to 0.10 at 35.3 mm: 65 °C and a freezer is still a press fit.
        (65, -18, 0.08, "press"),
        # 120 °C and dry ice drop in.
        (120, -78.5, 0.08, "drop-in"),
    ],
)
def test_published_ways_of_heating_come_out_as_the_trade_finds_them(
    head_at: float, insert_at: float, interference: float, expected: str
) -> None:
    clearance = assembly_clearance(35.3 - interference, 35.3, 22e-6, head_at - 20, 11e-6, insert_at - 20)
    assert kind(clearance, 0.02) == expected


def test_an_insert_without_clearance_grabs_as_it_arrives() -> None:
    assert grab_temperature(38.05, 38.10, [(400.0, 11e-6)], 20) == 20


def test_beyond_the_table_nothing_is_said() -> None:
    assert grab_temperature(38.5, 38.10, [(400.0, 11e-6)], 20) is None
    assert grab_temperature(38.2, 38.10, [(400.0, 11e-6)], -40) is None
    assert head_temperature_for(0.5, 38.02, 38.10, [(300.0, 22e-6)]) is None
    assert head_temperature_for(0.03, 38.02, 38.10, []) is None


def test_a_head_that_need_not_be_heated_stays_at_20() -> None:
    assert head_temperature_for(0.01, 38.10, 38.05, [(300.0, 22e-6)]) == 20


@given(st.floats(-150, 60), st.floats(0.0001, 0.25))
def test_at_the_grab_temperature_the_insert_just_fills_the_hot_bore(arrives: float, free: float) -> None:
    table = ALLOYS["tool steel"].expansion_table
    mean = mean_expansion(table, arrives)
    assert mean is not None
    bore = 38.1 * (1 + mean * (arrives - 20)) + free
    found = grab_temperature(bore, 38.1, table, arrives)
    if found is None:
        return
    at = mean_expansion(table, found)
    assert at is not None
    assert found >= arrives
    assert 38.1 * (1 + at * (found - 20)) == pytest.approx(bore, abs=1e-9)


@given(st.floats(0, 0.2))
def test_the_coolest_head_gives_exactly_the_slip(slip: float) -> None:
    table = MATERIALS["aluminium"].expansion_table
    found = head_temperature_for(slip, 38.02, 38.10, table)
    if found is None:
        return
    mean = mean_expansion(table, found)
    assert mean is not None
    assert assembly_clearance(38.02, 38.10, mean, found - 20, 11e-6, 0) == pytest.approx(slip, abs=1e-9)
