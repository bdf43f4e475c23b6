"""Mistakes planted in a file are each found once, at their place, and hide nothing that stands after them."""

from __future__ import annotations

import pytest

PLANTED = """\
job 318 "tractor engine"
  units     mm
  received  16.11.2026

use "bench.shop"

head "four cylinder"
  leest-bridge  2.0
  heat-limit    180
valves exhaust
  insert        choose
  interference  0.08-0.10 "manual"
  seat-width    1.6 to
  seat-runout   0.05
  spring-height 42.10 +0.02
  stand         flush
spacing
  E1 I1 48.5
note E1 "unclosed
  E2 I2 48.5
mesured at 68 F
  valve guide-top pocket-a pocket-b insert-od
  E1    9.020     44,21    44.20    44.30
  E2    9.021     44.20    44.21
  E3    9.021     1.500    44.21    44.31
  E4    9.020     44.20    1.518 in = 38.71 mm 44.30
"""


def test_all_mistakes_that_need_no_field_are_found_and_no_consequence(said):
    assert said(PLANTED) == [
        "8:3 field-unknown",
        "13:17 range-open",
        "15:17 tolerance-half",
        "19:9 text-open",
        "21:1 section-unknown",
        "24:28 cell-missing",
    ]


def test_the_other_mistakes_reach_the_fields_that_can_judge_them(parsed):
    file, _ = parsed(PLANTED)
    fields = {line.word.text: line for section in file.sections for line in section.fields}
    assert fields["received"].arguments[0].text == "16.11.2026"
    assert fields["heat-limit"].arguments[0].number.unit is None
    assert fields["interference"].arguments[0].text == "0.08-0.10"
    assert fields["seat-runout"].arguments[0].number.typed == "0.05"
    measured = file.sections[-1]
    assert measured.name == "measured"
    assert measured.tables[0].rows[0].cells[2].text == "44,21"
    assert [row.faulty for row in measured.tables[0].rows] == [False, True, False, False]


def test_a_misspelt_field_keeps_its_value(parsed):
    file, _ = parsed(PLANTED)
    line = file.sections[1].fields[0]
    assert (line.word.text, line.typed, line.guessed, line.faulty) == (
        "least-bridge", "leest-bridge", True, False
    )  # fmt: skip
    assert line.arguments[0].number.typed == "2.0"


@pytest.mark.parametrize(
    ("text", "places"),
    [
        # slips in first words
        ("head\n  least bridge 2.0", ["2:3 field-unknown"]),
        ("head\n  least_bridge 2.0", ["2:3 field-unknown"]),
        ("valves all\n  inserts X46", ["2:3 field-unknown"]),
        ("valves all\n  pilots P901", ["2:3 field-unknown"]),
        ("head\n  seat-width 2", ["2:3 field-misplaced"]),
        ("head\n  frobnicate 2", ["2:3 field-unknown"]),
        ("units mm", ["1:1 field-misplaced"]),
        ("head\nvalve I1\n  insert X46", ["2:1 section-unknown"]),
        ("measured\nvalve I1\n  insert X46", ["2:1 section-unknown"]),
        ("nots \"x\"", ["1:1 field-unknown"]),
        ("head\ncutter C2\n  range 3 to 4\n  tips 1\nhead\n material iron", ["2:1 section-misplaced"]),
        ("measured\nvalve pocket-a\nE1 44.2\ninserts\n  insert od\n  X46 44 2\n", ["4:1 section-misplaced"]),
        # tables
        ("measured\nE1 44.2\nE2 44.3\n", ["2:1 header-missing"]),
        ("measured\n\"E1\" 44.2\nE2 44.3\n", ["2:1 header-missing"]),
        ("measured\nvavle pocket-a\nE1 44.2\n", ["2:1 column-unknown"]),
        ("measured\nvalve pocket-a\nE1 44.2\nvavle pocket-b\nE1 44.3\n", ["4:1 column-unknown"]),
        ("measured\nvalve pocket-c\nE1 44.2\n", ["2:7 column-unknown"]),
        ("measured\nvalve frobnicate pocket-a\nE1 44.2 44.3\n", ["2:7 column-unknown"]),
        ("measured\nvalve pocket-a pocket-a\nE1 44.2 44.3\n", ["2:16 column-twice"]),
        ("head\nvalve pocket-a pocket-b\nE1 44.2 44.3\n", ["2:1 section-missing"]),
        ("measured\nvalve pocket-a\nE1 44.2 44.3\n", ["3:9 cell-extra"]),
        ("measured\nvalve pocket-a\nE1 44.2 to 44.3\n", ["3:9 cell-range"]),
        ("measured\nvalve pocket-a\nE1 44.2 tenths\n", ["3:9 unit-which"]),
        ("measured\nvalve pocket-a\nE1 4.2 cm\n", ["3:8 unit-unknown"]),
        ("measured\nvalve pocket-a\nE1 1 5/8\n", ["3:4 cell-mixed"]),
        ("measured\nvalve pocket-a pocket-b\nE1 1 5/8\n", ["3:4 cell-mixed"]),
        ("measured\nvalve pocket-a pocket-b\nE1 1.0 5/8\n", []),
        ("measured\nvalve pocket-a\nE1 44.2 =\n", ["3:9 equals-open"]),
        ("measured\nvalve, pocket-a, pocket-b\nE1, 1.0, 5/8\nE2, 1.0, 5/8\n", ["2:6 mark-needless"]),
        # marks
        ("head\n  material: grey iron", ["2:11 mark-needless"]),
        ("head\n  material = grey iron", ["2:12 mark-needless"]),
        ("head\n  material=grey", ["2:11 mark-needless"]),
        ("head: \"x\"", ["1:5 mark-needless"]),
        ("valves I1, I2", ["1:10 mark-needless"]),
        ("head\"h\"\n  material iron", []),
        ("\"a text\"", ["1:1 line-wordless"]),
        # figures
        ("valves all\n  bore 44.10 + 0.02 - 0.01", ["2:14 sign-loose"]),
        ("valves all\n  bore 44.10 - 44.20", ["2:8 range-hyphen"]),
        ("valves all\n  bore 44.20 to 44.10", ["2:8 range-reversed"]),
        ("valves all\n  bore 1.634 in to 41.7", ["2:8 unit-last"]),
        ("valves all\n  bore 44 mm +0.1 in -0.2", ["2:8 unit-last"]),
        ("valves all\n  bore 44 +/- -0.2", ["2:15 tolerance-sign"]),
        ("valves all\n  bore 44 +/-", ["2:8 tolerance-open"]),
        ("valves all\n  bore x +/-", ["2:10 tolerance-open"]),
        ("valves all\n  bore 44 +0.02/-0.01", ["2:8 tolerance-slash"]),
        ("valves all\n  bore 1 to 2 to 3", ["2:15 measure-crossed"]),
        ("valves all\n  bore 44 +/- 1 to 46 \"x\"", ["2:17 measure-crossed"]),
        ("valves all\n  bore 1 in = 2 = 3", ["2:17 measure-crossed"]),
        ("valves all\n  bore 44 =", ["2:11 equals-open"]),
        ("valves all\n  bore 3 mil", ["2:10 unit-which"]),
        ("valves all\n  bore 1-5/4 to 2", ["2:8 fraction-improper"]),
        ("valves all\n  stem 1.739 \"", ["2:14 text-open"]),
    ],
)  # fmt: skip
def test_one_message_for_one_mistake(said, text, places):
    assert said(text) == places


def test_a_section_whose_own_line_is_faulty_is_open_all_the_same(parsed):
    file, messages = parsed('head "four cylinder\n  material iron\n')
    assert [message.slug for message in messages] == ["text-open"]
    assert file.sections[0].line.faulty
    assert file.sections[0].fields[0].word.text == "material"


def test_the_sections_of_a_job_pasted_into_a_shop_file_are_passed_over(said):
    text = "valves all\n  cutter C2\n  bore 3\nmeasured\nvalve pocket-a\nE1 44\ncutter C2\n  tips 1\n"
    assert said(text, "shop") == ["1:1 section-misplaced"]


def test_half_a_tolerance_offers_both_readings(parsed):
    _, (message,) = parsed("valves all\n  bore 44.10 +0.02 mm")
    assert "`44.10 +/- 0.02 mm`" in message.help
    assert "`44.10 +0.02 0 mm`" in message.help


def test_an_inch_mark_that_stands_apart_is_named(parsed):
    _, (message,) = parsed('valves all\n  stem 1.739 "\n')
    assert '`1.739"`' in message.help


def test_no_message_speaks_of_the_parser(parsed):
    _, messages = parsed(PLANTED)
    for message in messages:
        said = f"{message.text} {message.help}".lower()
        assert not {"token", "eof", "expected", "lexer", "terminal"} & set(said.replace("`", " ").split())
