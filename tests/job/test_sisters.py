"""A measured cell beside the other valves': what is said of it, and what is not."""

from __future__ import annotations

import re

import pytest
from tests.job.given_jobs import read_files

from seatwright.text import Message, Severity

HEAD = 'job 1 "a job"\n  units {units}\nhead "a head"\n  material grey iron\n'
SLUG = "unlike-the-others"


def said(table: str, fields: str = "", units: str = "mm", **shops: str) -> tuple[Message, ...]:
    """What the checks of sisters say of a table under `measured`."""
    used = "".join(f'use "{name}.shop"\n' for name in shops)
    job, messages = read_files(f"{HEAD.format(units=units)}{used}{fields}measured\n{table}", **shops)
    assert job is not None, messages
    return tuple(message for message in messages if message.slug == SLUG)


def column(name: str, *cells: str) -> str:
    return f"valve {name}\n" + "".join(f"E{number} {cell}\n" for number, cell in enumerate(cells, 1))


@pytest.mark.parametrize(
    ("cells", "meant"),
    [
        (("8.06", "8.05", "0.808", "8.07"), "8.08"),
        (("8.06", "8.05", "4.04", "8.07"), "8.08"),
        (("8.06", "8.05", "16.16", "8.07"), "8.08"),
        (("8.16", "8.15", "1.816", "8.17"), "8.16"),
        (("8.16", "8.15", "1.86", "8.17"), "8.16"),
    ],
)
def test_a_slip_is_said_at_its_cell_with_the_others_and_what_was_meant(cells, meant):
    (message,) = said(column("pocket-depth", *cells))
    assert message.severity is Severity.WARNING
    assert (message.span.line, message.valves) == (9, ("E3",))
    assert f"E1 {cells[0]}, E2 {cells[1]}, E4 {cells[3]}" in message.text
    if cells[2] != "1.816":  # two slips explain this one, so none is offered
        assert f"was `{meant}` meant?" in message.help


def test_no_value_is_offered_where_none_is_likely():
    (message,) = said(column("pocket-depth", "8.06", "8.05", "7.06", "8.07"))
    assert "meant" not in message.help


def test_true_figures_of_a_worn_head_are_not_spoken_of():
    assert said(column("pocket-depth", "8.06", "8.10", "8.08", "8.05")) == ()


def test_the_intakes_are_not_held_against_the_exhausts():
    rows = "".join(f"I{n} 7.5{n}\nE{n} 9.0{n}\n" for n in range(1, 5))
    assert said(f"valve pocket-depth\n{rows}") == ()


def test_a_figure_that_was_read_twice_is_a_notice():
    (message,) = said(column("floor-thickness", "12.6", "12.9", "10.4/10.4", "12.7"))
    assert message.severity is Severity.NOTICE
    assert "read twice" in message.help


def test_of_two_valves_nothing_says_which_is_the_slip():
    (message,) = said(column("pocket-depth", "8.06", "7.06"))
    assert message.valves == ("E2", "E1")


def test_the_other_bank_helps_where_a_head_has_too_few():
    left = "measured\nvalve pocket-depth\nE1 8.06\nE2 8.05\n"
    right = 'head right "the other"\n  material grey iron\nmeasured\nvalve pocket-depth\nE3 8.07\nE4 7.08\n'
    head = HEAD.format(units="mm").replace('head "', 'head left "')
    _, messages = read_files(head + left + right)
    (message,) = [each for each in messages if each.slug == SLUG]
    assert message.valves == ("E4",)


POCKETS = """valve pocket-a pocket-b pocket-low-a
E1 40.03 40.05 40.03
E2 40.02 40.05 40.02
E3 {} {} {}
E4 40.03 40.04 40.03
"""


def test_a_pocket_that_is_bigger_in_all_its_readings_was_bored_before():
    assert said(POCKETS.format("40.53", "40.55", "40.53")) == ()


def test_one_reading_that_leaves_the_others_of_its_pocket_is_a_slip():
    (message,) = said(POCKETS.format("40.03", "40.50", "40.02"))
    assert "pocket-b of E3 is 40.50 beside pocket-a 40.03, pocket-low-a 40.02 of the same valve" in message.text
    assert "was `40.05` meant?" in message.help


def test_where_metal_is_missing_a_pocket_may_be_out_of_round():
    table = POCKETS.format("40.03", "40.20", "40.03") + "measured\nvalve damage\nE3 40.40\n"
    assert said(table) == ()


SEATS = """valve recession stem-height spring-height
E1 1.20 46.85 38.1
E2 {} {} {}
E3 1.25 46.92 38.1
E4 1.15 46.80 38.0
"""


def test_a_valve_that_sank_took_its_stem_and_spring_along():
    assert said(SEATS.format("1.60", "47.25", "38.5")) == ()


def test_a_stem_height_that_does_not_go_with_its_recession_is_a_slip():
    (message,) = said(SEATS.format("1.22", "46.37", "38.1"))
    assert (message.span.line, message.valves) == (8, ("E2",))
    assert "as E1 has 46.85 beside 1.20 and 38.1" in message.text


def test_a_larger_insert_over_a_larger_pocket_is_no_slip():
    fields = "valves exhaust\n  insert choose\n"
    rows = "E1 40.03 40.04 40.59\nE2 40.02 40.04 40.58\nE3 {} {} 41.09\nE4 40.03 40.05 40.59\n"
    table = f"valve pocket-a pocket-b insert-od\n{rows}"
    assert said(table.format("40.53", "40.55"), fields) == ()
    assert len(said(table.format("40.03", "40.05"), fields)) == 1


def test_a_job_in_inches_is_judged_and_answered_in_inches():
    (message,) = said(column("pocket-depth", ".317", ".318", ".137", ".317"), units="inch")
    assert "E1 .317" in message.text
    assert "was `.317` meant?" in message.help


def test_a_runout_and_an_offset_are_called_by_the_column_in_which_they_stand():
    for word in ("pocket-tir", "pocket-offset"):
        (message,) = said(column(word, "0.04", "0.05", "0.40", "0.03"))
        assert message.text.startswith(f"{word} of E3")


def test_an_error_of_a_row_is_not_said_again():
    job, messages = read_files(HEAD.format(units="mm") + "measured\n" + POCKETS.format("22.01", "40.05", "40.03"))
    assert job is None
    assert [each.slug for each in messages if re.search("pocket", each.text)] == ["readings-apart"]


def test_a_row_that_changed_places_with_another_valve_s_names_that_valve():
    rows = {f"{kind}{n}": f"{base + n / 100:.2f}" for n in range(1, 5) for kind, base in (("I", 7.5), ("E", 9.0))}
    rows["I2"], rows["E2"] = rows["E2"], rows["I2"]
    first, second = said("valve pocket-depth\n" + "".join(f"{valve} {figure}\n" for valve, figure in rows.items()))
    assert (first.valves, second.valves) == (("I2",), ("E2",))
    assert first.help.startswith("It looks exchanged with E2; else measure it again")
    assert second.help.startswith("It looks exchanged with I2; else measure it again")


def test_a_figure_typed_in_two_rows_names_the_other():
    rows = {f"{kind}{n}": f"{base + n / 100:.2f}" for n in range(1, 5) for kind, base in (("I", 7.5), ("E", 9.0))}
    rows["E3"] = rows["I3"]
    (message,) = said("valve pocket-depth\n" + "".join(f"{valve} {figure}\n" for valve, figure in rows.items()))
    assert message.valves == ("E3",)
    assert message.help.startswith("It is the figure of I3; else measure it again")


def test_a_floor_half_a_millimetre_off_is_spoken_of_also_where_floors_lie_apart():
    intakes = "".join(f"I{n} {cell}\n" for n, cell in enumerate(("8.7", "8.9", "8.6", "9.0"), 1))
    (message,) = said("valve floor-thickness\nE1 9.0\nE2 9.1\nE3 8.6\nE4 8.9\n" + intakes)
    assert (message.severity, message.valves) == (Severity.WARNING, ("E3",))
    # Of three that lie so far apart nothing says which end is the slip: both are spoken of.
    both = said(column("floor-thickness", "7.37", "6.858", "7.11"))
    assert [one.valves for one in both] == [("E1",), ("E2",)]


def test_a_floor_read_to_a_hundredth_of_an_inch_is_not_spoken_of_for_a_digit():
    assert said(column("floor-thickness", ".25", ".24", ".23"), units="inch") == ()
