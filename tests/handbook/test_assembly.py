"""Heating and chilling: kinds of assembly and their limits."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.assembly import (
    HeatChillPair,
    assembly_clearance,
    best_way,
    grab_temperature,
    head_temperature_for,
    kind,
    reheat_below,
)
from seatwright.handbook.materials import ALLOYS, MATERIALS
from seatwright.handbook.thermal import mean_expansion


def test_the_worst_case_decides_between_dropping_in_and_pushing() -> None:
    # Worked by hand: nominal 0.037 drops in, worst 0.017 must be pushed, at a slip of 0.030.
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
        # Common practice, worked by hand: with 0.08 to 0.10 at 35.3 mm: 65 °C and a freezer is still a press fit.
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


def test_the_coolest_head_that_lets_the_insert_drop_in_is_taken():
    ways = [
        HeatChillPair(22, 22, -0.05),
        HeatChillPair(200, 22, 0.08),
        HeatChillPair(120, 22, 0.031),
        HeatChillPair(120, -40, 0.09),
        HeatChillPair(60, -40, 0.029),
    ]
    assert best_way(ways, 0.030) == 2


def test_chill_comes_before_a_press():
    # By hand: room −0.094, oven alone −0.031, oven with dry ice 0.008, slip 0.030.
    ways = [HeatChillPair(22, 22, -0.094), HeatChillPair(150, 22, -0.031), HeatChillPair(150, -50, 0.008)]
    chosen = ways[best_way(ways, 0.030)]
    assert (chosen.head, chosen.insert) == (150, -50)
    assert kind(chosen.clearance, 0.030) == "push"


def test_where_all_must_be_pressed_the_least_force_is_taken():
    assert (
        best_way([HeatChillPair(22, 22, -0.09), HeatChillPair(60, 22, -0.06), HeatChillPair(22, -40, -0.07)], 0.03) == 1
    )
    assert best_way([], 0.03) is None


@given(st.lists(st.tuples(st.floats(20, 250), st.floats(-196, 22), st.floats(-0.2, 0.2)), min_size=1, max_size=8))
def test_nothing_is_pressed_that_some_pair_would_push(rows):
    ways = [HeatChillPair(*row) for row in rows]
    chosen = ways[best_way(ways, 0.03)]
    if max(way.clearance for way in ways) >= 1e-4:
        assert chosen.clearance > -1e-4


@pytest.mark.parametrize(("how", "left"), [("drop-in", 0.030), ("push", 0.0)])
def test_at_the_reheat_temperature_the_clearance_is_just_what_is_wanted(how, left):
    table = [(100.0, 21.4e-6), (300.0, 23.2e-6)]
    at = reheat_below(how, 0.030, 44.02, 44.10, table)
    mean = mean_expansion(table, at)
    assert assembly_clearance(44.02, 44.10, mean, at - 20, 0.0, 0.0) == pytest.approx(left, abs=1e-9)


def test_a_press_has_no_reheat_temperature_and_a_chilled_insert_needs_no_heat():
    table = [(300.0, 22e-6)]
    assert reheat_below("press", 0.030, 38.02, 38.10, table) is None
    assert reheat_below("push", 0.030, 38.02, 38.01, table) == 20
    assert reheat_below("drop-in", 0.030, 38.02, 40.0, table) is None
