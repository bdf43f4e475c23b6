"""Every form of value on the language page is read for what it says."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from seatwright.syntax import tree


@pytest.mark.parametrize(
    ("text", "typed", "value", "half", "unit"),
    [
        ("8.015", "8.015", F("8.015"), F("0.0005"), None),
        (".030", ".030", F("0.03"), F("0.0005"), None),
        ("45", "45", F(45), F(1, 2), None),
        ("44.", "44.", F(44), F(1, 2), None),
        ("9/16", "9/16", F(9, 16), F(0), None),
        ("1-1/2", "1-1/2", F(3, 2), F(0), None),
        ("1 1/2", "1 1/2", F(3, 2), F(0), None),
        ("1½", "1-1/2", F(3, 2), F(0), None),
        ('½"', "1/2", F(1, 2), F(0), "in"),
        ("44.02 mm", "44.02", F("44.02"), F("0.005"), "mm"),
        ("44.02mm", "44.02", F("44.02"), F("0.005"), "mm"),
        ("44.02 MM", "44.02", F("44.02"), F("0.005"), "mm"),
        ("1.739 in", "1.739", F("1.739"), F("0.0005"), "in"),
        ("1.739 inch", "1.739", F("1.739"), F("0.0005"), "in"),
        ('1.739"', "1.739", F("1.739"), F("0.0005"), "in"),
        ("1.739”", "1.739", F("1.739"), F("0.0005"), "in"),
        ("9/16 in", "9/16", F(9, 16), F(0), "in"),
        ('1-1/2"', "1-1/2", F(3, 2), F(0), "in"),
        ("30 thou", "30", F(30), F(1, 2), "thou"),
        ("5 um", "5", F(5), F(1, 2), "um"),
        ("5 µm", "5", F(5), F(1, 2), "um"),
        ("5 μm", "5", F(5), F(1, 2), "um"),
        ("45°", "45", F(45), F(1, 2), "deg"),
        ("44°53'", "44°53'", F(44) + F(53, 60), F(1, 120), "deg"),
        ("44°53’", "44°53'", F(44) + F(53, 60), F(1, 120), "deg"),
        ("180 C", "180", F(180), F(1, 2), "C"),
        ("350F", "350", F(350), F(1, 2), "F"),
        ("24 °C", "24", F(24), F(1, 2), "C"),
        ("-40 C", "-40", F(-40), F(1, 2), "C"),
        ("−0.2", "-0.2", F("-0.2"), F("0.05"), None),
        ("Ø44.02", "44.02", F("44.02"), F("0.005"), None),
        ("50 rpm", "50", F(50), F(1, 2), "rpm"),
        ("20 m/min", "20", F(20), F(1, 2), "m/min"),
        ("65 ft/min", "65", F(65), F(1, 2), "ft/min"),
        ("0.10 mm/rev", "0.10", F("0.1"), F("0.005"), "mm/rev"),
        (".004 in/rev", ".004", F("0.004"), F("0.0005"), "in/rev"),
        ("0.2 mm/m", "0.2", F("0.2"), F("0.05"), "mm/m"),
        ("40 Nm", "40", F(40), F(1, 2), "Nm"),
        ("30 ft-lb", "30", F(30), F(1, 2), "ft-lb"),
        ("17 in-Hg", "17", F(17), F(1, 2), "in-Hg"),
        ("11.5 um/m/C", "11.5", F("11.5"), F("0.05"), "um/m/C"),
        ("11.5 um/m/K", "11.5", F("11.5"), F("0.05"), "um/m/C"),
        ("6.4 uin/in/F", "6.4", F("6.4"), F("0.05"), "uin/in/F"),
        ("3 s", "3", F(3), F(1, 2), "s"),
        ("11/32", "11/32", F(11, 32), F(0), None),
    ],
)
def test_one_number(argument, text, typed, value, half, unit):
    number = argument(text).number
    assert (number.typed, number.value, number.half_digit, number.unit) == (typed, value, half, unit)
    assert number.signed == (typed[0] in "+-")


def _values(*numbers):
    return [(number.value, number.unit) for number in numbers]


def test_a_range(argument):
    found = argument("-0.2 to 0.3")
    assert isinstance(found, tree.Range)
    assert _values(found.low, found.high) == [(F("-0.2"), None), (F("0.3"), None)]


def test_a_unit_behind_the_last_number_of_a_range_holds_for_both(argument):
    found = argument("0.064 to 0.096 mm")
    assert _values(found.low, found.high) == [(F("0.064"), "mm"), (F("0.096"), "mm")]
    assert found.low.written == "0.064"


def test_both_ends_of_a_range_may_have_their_own_unit(argument):
    found = argument("3 thou to 0.2 mm")
    assert _values(found.low, found.high) == [(F(3), "thou"), (F("0.2"), "mm")]


@pytest.mark.parametrize("text", ["41.2 +/- 0.3", "41.2+/-0.3", "41.2 ± 0.3", "41.2 +/-0.3"])
def test_a_tolerance_both_ways(argument, text):
    found = argument(text)
    assert isinstance(found, tree.Tolerance)
    assert found.plus_minus
    assert [one.value for one in (found.nominal, found.first, found.second)] == [
        F("41.2"), F("-0.3"), F("0.3")
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        ("44.10 +0.02 -0.01", F("0.02"), F("-0.01")),
        ("44.10 -0.01 +0.02", F("-0.01"), F("0.02")),
        ("44.10 +.0018 +.0010", F("0.0018"), F("0.001")),
        ("44.10 +0.02 0", F("0.02"), F(0)),
        ("44.10 0 -0.02", F(0), F("-0.02")),
        ("44.10 +0.02 -0", F("0.02"), F(0)),
    ],
)
def test_a_tolerance_of_two_limits(argument, text, first, second):
    found = argument(text)
    assert isinstance(found, tree.Tolerance)
    assert not found.plus_minus
    assert (found.nominal.value, found.first.value, found.second.value) == (F("44.1"), first, second)


@pytest.mark.parametrize("text", ["24 C +/- 1", "24 +/- 1 C"])
def test_a_unit_behind_the_nominal_or_the_last_limit_holds_for_all_of_a_tolerance(argument, text):
    found = argument(text)
    assert {found.nominal.unit, found.first.unit, found.second.unit} == {"C"}


def test_a_limit_without_a_nominal(argument):
    found = argument("+/- 0.003")
    assert isinstance(found, tree.PlusMinus)
    assert found.number.value == F("0.003")


def test_a_list_has_the_unit_of_its_last_number(argument):
    found = argument("35 50 70 rpm")
    assert isinstance(found, tree.Listing)
    assert _values(*found.numbers) == [(F(35), "rpm"), (F(50), "rpm"), (F(70), "rpm")]


def test_the_same_figure_twice(argument):
    found = argument('1.739" = 44.17 mm')
    assert isinstance(found, tree.Both)
    assert _values(found.first.number, found.second.number) == [(F("1.739"), "in"), (F("44.17"), "mm")]


def test_the_same_range_twice(argument):
    found = argument("0.064 to 0.096 mm = .0025 to .0038 in")
    assert isinstance(found, tree.Both)
    assert _values(found.first.low, found.second.low) == [(F("0.064"), "mm"), (F("0.0025"), "in")]


def test_a_date_is_a_day_of_the_calendar(argument):
    assert argument("2026-11-16").text == "2026-11-16"
    assert isinstance(argument("2026-02-30"), tree.Word)


def test_a_text_has_its_doubled_quotes_made_single(argument):
    assert argument('"for 3/4"" stems # here"').text == 'for 3/4" stems # here'


@pytest.mark.parametrize(
    "word", ["in", "C", "m", "X46", "3855-2A", "I2B", "E2", "grey-iron", "16.11.2026", "44,21", "0.08-0.12",
             "O.9", "2..0", "1/0", "1e5", "1-5/4", "44°60'", "to"],
)  # fmt: skip
def test_what_is_no_figure_is_a_word(argument, word):
    found = argument(word)
    assert isinstance(found, tree.Word)
    assert found.text == word


def _shown(arguments):
    return [getattr(one, "text", None) or one.number.written for one in arguments]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("44.5 from-axis", ["44.5", "from-axis"]),
        ("0.04 tir", ["0.04", "tir"]),
        ("3 s \"85 to 58 kPa\"", ["3 s", "85 to 58 kPa"]),
        ("\"dry ice\" -78.5 C arrives -40 C", ["dry ice", "-78.5 C", "arrives", "-40 C"]),
        ("1150 MPa exponent 0.20", ["1150 MPa", "exponent", "0.20"]),
        ("left\"h\"", ["left", "h"]),
        ("at 24 C in mm 2026-11-20", ["at", "24 C", "in", "mm", "2026-11-20"]),
        ("40.000 reads 40.002", ["40.000", "reads", "40.002"]),
        ("0.20 before-measuring", ["0.20", "before-measuring"]),
    ],
)  # fmt: skip
def test_words_and_figures_stand_side_by_side(parsed, text, parts):
    file, messages = parsed(f"valves all\n  bore {text}\n")
    assert messages == ()
    assert _shown(file.sections[0].fields[0].arguments) == parts


def test_an_expansion_and_its_temperature_are_read_as_a_range(argument):
    found = argument("21.4 um/m/C to 100 C")
    assert _values(found.low, found.high) == [(F("21.4"), "um/m/C"), (F(100), "C")]


def test_cells_of_a_row(parsed):
    row = 'E1 44.20 mm 1.739 in = 44.17 mm 9.020/9.022/9.021 9/16 --- - "a b"'
    file, messages = parsed(
        "measured\nvalve pocket-a pocket-b guide-top guide-middle pocket-tir insert-od damage\n" + row
    )
    assert messages == ()
    (only,) = file.sections[0].tables[0].rows
    assert [type(cell).__name__ for cell in only.cells] == [
        "Word", "Single", "Both", "Readings", "Single", "Dash", "Dash", "Text"
    ]  # fmt: skip
    assert only.raws == (
        "E1", "44.20 mm", "1.739 in = 44.17 mm", "9.020/9.022/9.021", "9/16", "---", "-", '"a b"'
    )  # fmt: skip


def test_a_unit_behind_the_last_reading_holds_for_all(parsed):
    file, messages = parsed('measured\nvalve guide-top\nE1 .3740/.3742/.3741"')
    assert messages == ()
    cell = file.sections[0].tables[0].rows[0].cells[1]
    assert isinstance(cell, tree.Readings)
    assert _values(*cell.numbers) == [(F(".3740"), "in"), (F(".3742"), "in"), (F(".3741"), "in")]
