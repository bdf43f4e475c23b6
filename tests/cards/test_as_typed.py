"""A figure that somebody typed stands on the cards in its owner's digits, never rounded to an instrument's step."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.cards.demo_plans import planned, text
from tests.planning import jobs

from seatwright.cards.parts.figures import as_typed, limits, shown
from seatwright.planning.basis.instruments import Instrument
from seatwright.planning.plan.figure import Figure, computed, given

INCH = Instrument("in", 0.0001 * 25.4)


def figure(value: float, words: str) -> Figure:
    return given("x", "mm", jobs.given(value, words))


def test_a_master_reads_what_its_owner_read_not_the_nearest_step() -> None:
    # bench.shop: step 0.002, `master 30.000 reads 30.001`. The card once said 30.002, and to stop at anything else.
    small = planned("single-cylinder")
    setting = replace(small.settings[0], master=figure(30.0, "30.000"), master_reads=figure(30.001, "30.001"))
    sheet = text(replace(small, settings=(setting, *small.settings[1:])), "Setting")
    assert "on master 30.000 reads" in sheet
    assert "**30.001** mm" in sheet


def test_interference_stands_in_the_inches_that_were_typed_beside_the_millimetres() -> None:
    # `0.061 to 0.099 mm = .0024 to .0039 in "maker's sheet"`. Inwards it once read a digit less at either end.
    sheet = text(planned("four-valve-aluminium"), "Job 402")
    assert "0.0024 to 0.0039 in on diameter, maker's sheet" in sheet
    assert "0.0026" not in sheet


def test_practice_figures_have_their_own_digits() -> None:
    sheet = text(planned("half-way"), "Setting")
    assert "Over round 0.012, taper 0.010, floor 0.02: stop." in sheet


@pytest.mark.parametrize(
    ("value", "words", "unit", "digits"),
    [
        (0.0635, ".0025", "in", "0.0025"),
        (30.001, "30.001", "mm", "30.001"),
        (30.001, "30.001", "in", ""),
        (0.096, "0.096 mm = .0038 in", "in", "0.0038"),
        (0.096, "0.096 mm = .0038 in", "mm", "0.096"),
        (25.4, '1.000"', "in", "1.000"),
        (0.0508, "2 thou", "in", ""),
        (6.35, "1/4", "in", ""),
        (0.05, "0.05 tir", "mm", ""),
        (38.1, "38.0 +0.1", "mm", ""),
        (0.237, ".2369/.2370", "in", ""),  # several readings: what was taken of them is no longer any of the digits
        (-0.05, "0.05", "mm", ""),
    ],
)
def test_digits_are_taken_only_where_they_say_this_figure_in_this_unit(
    value: float, words: str, unit: str, digits: str
) -> None:
    assert as_typed(figure(value, words), unit) == digits


def test_what_was_reckoned_is_rounded_and_its_limits_inwards() -> None:
    least = computed("least", "mm", 0.064, "a", (), "test")
    most = computed("most", "mm", 0.096, "a", (), "test")
    assert [each.text for each in limits(least, most, INCH)] == ["0.0026", "0.0037"]
    assert shown(computed("x", "mm", 30.001, "a", (), "test"), Instrument("mm", 0.002)).text == "30.002"
