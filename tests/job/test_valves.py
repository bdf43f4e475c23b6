"""Which valves a line means, which line wins, and how readings of several days lie over each other."""

from __future__ import annotations

import pytest
from tests.job.given_jobs import HEAD, SHOP, clean, read_files, slugs

from seatwright.job.model import Valve
from seatwright.text import Severity

TOP = HEAD.format(units="mm")


def valve(job: str, name: str = "E1", **shops: str) -> Valve:
    for head in clean(job, **shops).heads:
        for one in (*head.valves, *head.neighbours):
            if one.name == name:
                return one
    raise AssertionError(f"no valve {name}")


def test_the_narrowest_line_wins_field_by_field_whatever_the_order() -> None:
    job = TOP + (
        "valves E1\n head-diameter 41\nvalves all\n head-diameter 40\n margin 1\n setback 0.5\nvalves exhaust\n"
        " head-diameter 42\n margin 2\nvalves E2 I1\n setback 0.6\n"
    )
    found = valve(job).specification
    assert [one and one.value for one in (found.head_diameter, found.margin, found.setback)] == [41, 2, 0.5]
    other = valve(job, "I1").specification
    assert [one and one.value for one in (other.head_diameter, other.margin, other.setback)] == [40, 1, 0.6]


def test_a_measured_cell_is_narrower_than_any_line() -> None:
    job = TOP + "valves E1\n stem 8.00 to 8.02\n head-diameter 41\nmeasured\n valve stem head-diameter\n E1 7.95 -\n"
    found = valve(job).specification
    assert found.stem is not None
    assert found.head_diameter is not None
    assert (found.stem.value, found.stem_limits, found.head_diameter.value) == (7.95, None, 41)


def test_lines_that_reach_equally_far_and_differ_are_an_error_at_both_places() -> None:
    job = TOP + "valves E1 E2\n margin 1\nvalves E2 E3\n margin 2\n"
    found, messages = read_files(job)
    assert found is None
    [message] = [one for one in messages if one.severity is Severity.ERROR]
    assert message.span is not None
    assert (message.slug, message.span.line, message.related[0].span.line) == ("valves-differ", 8, 6)


def test_lines_that_reach_equally_far_and_agree_are_none() -> None:
    assert clean(TOP + "valves E1 E2\n margin 1\nvalves E2 E3\n margin 1.0 mm\n")


def test_an_odd_selector_offers_what_was_meant() -> None:
    assert slugs(TOP + "valves exhuast\n margin 1\nvalves E1\n") == [(5, "valves-which")]
    assert slugs(TOP + "valves\n margin 1\nvalves E1\n") == [(5, "valves-which")]


def test_valves_of_two_heads_have_names_of_their_own() -> None:
    two = 'job 1 "v"\n units mm\nhead left "a"\n material grey iron\nvalves E1 I1\nhead right "b"\n material aluminum\n'
    job = clean(two + "valves E2 I2\n")
    assert [(head.name, [one.name for one in head.valves]) for head in job.heads] == [
        ("left", ["I1", "E1"]),
        ("right", ["I2", "E2"]),
    ]
    assert slugs(two + "valves E1 I2\n") == [(8, "valve-twice")]
    assert slugs(two.replace("right", "left") + "valves E2\n") == [(6, "head-twice")]


def test_intake_means_the_intakes_of_its_own_head() -> None:
    job = clean(
        'job 1 "v"\n units mm\nhead left "a"\n material grey iron\nvalves I1\nvalves intake\n margin 1\n'
        'head right "b"\n material grey iron\nvalves I2\n'
    )
    left, right = (head.valves[0].specification for head in job.heads)
    assert left.margin is not None
    assert right.margin is None


def test_valves_rise_by_cylinder_intake_first_and_letter() -> None:
    job = clean(TOP + "valves E10 I2B E1 I2A I1 E2\n")
    assert [one.name for one in job.heads[0].valves] == ["I1", "E1", "I2A", "I2B", "E2", "E10"]


def test_a_later_date_replaces_a_cell_and_the_earlier_stays_on_the_record() -> None:
    job = TOP + (
        "measured 2026-11-17 at 20 C\n valve pocket-a pocket-b\n E1 44.02 44.05\n"
        "measured 2026-11-20 at 22 C\n valve pocket-a pocket-b\n E1 44.10 -\n"
    )
    found = valve(job).measured
    assert found.pocket_a is not None
    assert found.pocket_b is not None
    assert found.pocket_b.value == 44.05
    assert (found.pocket_a.value, found.pocket_a.date) == (44.10, "2026-11-20")
    assert found.pocket_a.at is not None
    assert found.pocket_a.at.value == 22
    assert [(one.value, one.date) for one in found.pocket_a.earlier] == [(44.02, "2026-11-17")]


@pytest.mark.parametrize("later", ["measured", "measured 2026-11-17", "measured 2026-11-16"])
def test_a_cell_given_twice_without_a_later_date_is_an_error_also_when_equal(later: str) -> None:
    job = TOP + f"measured 2026-11-17\n valve pocket-a\n E1 44.02\n{later}\n valve pocket-a\n E1 44.02\n"
    _, messages = read_files(job)
    [message] = messages
    assert message.span is not None
    assert (message.slug, message.span.line, message.related[0].span.line) == ("cell-twice", 10, 7)


@pytest.mark.parametrize(
    ("line", "slug"),
    [
        ("measured 16.11.2026", "date-wanted"),
        ("measured 2026-13-01", "date-wanted"),
        ("measured in cm", "table-units"),
        ("measured at 68", "unit-missing"),
        ("measured at", "table-at"),
        ("measured at 20 C at 21 C", "section-twice-said"),
        ("measured twice", "section-left-over"),
    ],
)
def test_a_table_whose_line_cannot_be_read_has_no_consequence_for_its_cells(line: str, slug: str) -> None:
    # 1.7 may have been meant in inch, and the second reading to replace the first.
    job = TOP + f"measured\n valve pocket-a\n E1 44.0\n{line}\n valve pocket-a\n E1 1.7\n"
    assert slugs(job) == [(8, slug)]


def test_an_empty_cell_gives_nothing_twice() -> None:
    assert clean(TOP + "measured\n valve pocket-a\n E1 44.02\nmeasured\n valve pocket-a pocket-b\n E1 - 44.05\n")


def test_several_readings_are_mean_largest_and_smallest() -> None:
    found = valve(TOP + "measured\n valve guide-top\n E1 9.020/9.024/9.022\n").measured.guide_top
    assert found is not None
    assert (found.count, found.largest, found.smallest) == (3, 9.024, 9.020)
    assert found.value == pytest.approx(9.022)


def test_a_table_may_be_in_the_other_unit_and_a_cell_again_in_another() -> None:
    job = TOP + "measured in inch\n valve pocket-a pocket-b throat\n E1 1.7 43.2mm 1.4 in = 35.6 mm\n"
    found = valve(job).measured
    sizes = [one and round(one.value, 4) for one in (found.pocket_a, found.pocket_b, found.throat)]
    assert sizes == [43.18, 43.2, 35.6]


def test_a_second_cut_keeps_the_first() -> None:
    shop = SHOP.format(units="mm") + "cutter C2\n range 30 to 60\n"
    job = TOP + (
        'use "a.shop"\ncut 2026-11-20\n valve cutter read bore-a\n E1 C2 44.40 44.41\n'
        "cut 2026-11-21\n valve cutter read bore-a\n E1 c2 44.48 44.49\n"
    )
    cut = valve(job, a=shop).cut
    assert cut is not None
    assert cut.read is not None
    assert cut.cutter is not None
    assert (cut.read.value, cut.date, cut.cutter.text) == (44.48, "2026-11-21", "C2")
    assert [(one.read and one.read.value, one.date) for one in cut.earlier] == [(44.40, "2026-11-20")]


def test_what_was_finished_may_pass_fail_or_hold_for_a_time() -> None:
    job = TOP + "finished\n valve stand leak pressure-test\n E1 0.05 pass pass\n I1 - 4.5s fail\n"
    first, second = valve(job, "E1").finished, valve(job, "I1").finished
    assert first is not None
    assert second is not None
    assert (first.leak and first.leak.text, first.leak_seconds) == ("pass", None)
    assert (second.leak, second.leak_seconds and second.leak_seconds.value) == (None, 4.5)
    assert second.pressure_test is not None
    assert second.pressure_test.text == "fail"


def test_notes_and_holds_reach_their_valves_and_heads() -> None:
    job = clean(
        'job 1 "x"\n units mm\nnote "for all"\nhead "h"\n material grey iron\nvalves E1 I1\nnote "for this head"\n'
        'note E1 "warm"\nhold I1 "crack"\n'
    )
    head = job.heads[0]
    assert [note.text for note in job.notes] == ["for all"]
    assert [(note.text, note.valves) for note in head.notes] == [("for this head", ()), ("warm", ("E1",))]
    assert [[hold.text for hold in one.holds] for one in head.valves] == [["crack"], []]


def test_a_note_or_hold_of_no_valve_of_the_job_is_an_error() -> None:
    assert slugs(TOP + 'valves E1\nhold I9 "x"\nnote l1 "y"\n') == [(6, "valve-unknown"), (7, "valve-name")]


def test_a_valve_whose_row_could_not_be_read_is_not_missed_as_well() -> None:
    job = TOP + 'measured\n valve pocket-a pocket-b\n E1 44.0 44.1\n E2 44.0\nhold E2 "x"\n'
    assert slugs(job) == [(8, "cell-missing")]


def test_distances_stand_once_and_join_two_valves() -> None:
    job = TOP + "valves E1 I1\nspacing\n E1 I1 48.5\n I1 E1 48.5\n E1 E1 20\n E1\n"
    assert slugs(job) == [(8, "spacing-twice"), (9, "spacing-same"), (10, "row-length")]


def test_layout_and_spacing_that_disagree_are_a_warning_that_names_both() -> None:
    job = TOP + "valves E1 I1\nlayout\n valve x y\n E1 0 0\n I1 48.6 0\nspacing\n E1 I1 48.4\n"
    found, messages = read_files(job)
    assert found is not None
    [message] = [one for one in messages if one.severity is Severity.WARNING]
    assert message.slug == "spacing-layout"
    assert "48.4" in message.text
    assert "48.60 mm" in message.text


@pytest.mark.parametrize(
    ("fields", "table", "slug"),
    [
        (" stem 9.0\n", "measured\n valve guide-top\n E1 8.0\n", "stem-over-guide"),
        ("", "measured\n valve throat pocket-a\n E1 45.0 44.0\n", "throat-over-pocket"),
        ("", "measured\n valve insert-od pocket-a\n E1 40.0 44.0\n", "insert-under-pocket"),
        (" head-diameter 11\n setback 5.9\n", "", "setback-wide"),
        (" head-diameter 20\n seat-angle 45\n seat-width 7 to 8\n stem 11\n", "", "seat-wide"),
        (" seat-angle 45\n top-angle 60\n", "", "angles-order"),
        (" guide-clearance 0.05 to 0.08\n guide-wear-limit 0.04\n", "", "wear-limit-small"),
        (" bore 44.00 to 44.02\n insert-od 43.90 to 43.95\n", "", "od-under-bore"),
        (" bore 44 to 44.02\n insert-od 44.10 to 44.12\n interference 0.06 to 0.09\n", "", "fit-disagrees"),
    ],
)
def test_figures_that_cannot_both_be_true_are_one_error(fields: str, table: str, slug: str) -> None:
    assert [slug for _, slug in slugs(TOP + "valves E1\n" + fields + table)] == [slug]


def test_a_guide_that_is_not_yet_reamed_is_no_error() -> None:
    assert clean(TOP + "valves E1\n stem 8.0\nmeasured\n valve guide-top\n E1 7.8\n")


def test_a_measured_insert_outside_the_makers_limits_is_a_warning() -> None:
    job = TOP + "valves E1\n insert-od 44.10 to 44.12\nmeasured\n valve insert-od\n E1 44.14\n"
    found, messages = read_files(job)
    assert found is not None
    assert [(one.severity, one.slug) for one in messages] == [(Severity.WARNING, "insert-od-measured")]


_TWO_HEADS = (
    'job 7 "v"\n units mm\nvalves all\n stem 8.0\n margin 1.5\nvalves exhaust\n margin 1.7\n'
    "valves E1 E4\n seat-angle 45\n"
    'head left "l"\n material grey iron\nmeasured\n valve pocket-a\n I1 44.0\n E1 40.0\n'
    'head right "r"\n material grey iron\nvalves exhaust\n margin 1.9\nmeasured\n valve pocket-a\n I4 44.0\n E4 40.0\n'
)


def test_valves_before_the_first_head_hold_for_every_head_and_one_under_a_head_wins() -> None:
    job = clean(_TWO_HEADS)
    margins = {one.name: one.specification.margin for head in job.heads for one in head.valves}
    assert {name: given and given.value for name, given in margins.items()} == {
        "I1": 1.5, "E1": 1.7, "I4": 1.5, "E4": 1.9,
    }  # fmt: skip
    angles = {one.name: one.specification.seat_angle is not None for head in job.heads for one in head.valves}
    assert angles == {"I1": False, "E1": True, "I4": False, "E4": True}
    assert all(one.specification.stem is not None for head in job.heads for one in head.valves)


def test_a_valve_named_above_one_head_is_planned_under_it() -> None:
    job = clean('job 7 "v"\n units mm\nvalves E1 E2\n stem 8.0\nhead "l"\n material grey iron\n')
    assert [valve.name for valve in job.heads[0].valves] == ["E1", "E2"]


def test_two_lines_above_the_heads_that_reach_equally_far_must_agree() -> None:
    text = (
        'job 7 "v"\n units mm\nvalves all\n stem 8.0\nvalves all\n stem 9.0\nhead "l"\n material grey iron\nvalves E1\n'
    )
    assert [slug for _, slug in slugs(text)] == ["valves-differ"]


_FOUND = TOP + (
    "measured 2026-11-17\n valve guide-top guide-bottom pocket-a recession\n E1 8.060 8.070 44.02 0.9\n"
    "replaced 2026-11-18\n valve part\n E1 guide\n"
)


def test_readings_of_a_part_that_was_replaced_stay_on_the_record_and_count_no_longer() -> None:
    found = valve(_FOUND)
    assert (found.measured.guide_top, found.measured.guide_bottom) == (None, None)
    assert found.measured.pocket_a is not None
    assert found.measured.recession is not None
    [renewed] = found.replaced
    assert (renewed.part, renewed.date) == ("guide", "2026-11-18")
    assert renewed.found.guide_top is not None
    assert renewed.found.guide_top.value == 8.060


@pytest.mark.parametrize(
    ("day", "counts"), [("2026-11-18", True), ("2026-11-19", True), ("2026-11-16", False), ("", False)]
)
def test_what_is_measured_below_on_the_day_of_the_replacing_or_later_counts(day: str, counts: bool) -> None:
    found = valve(_FOUND + f"measured {day}\n valve guide-top\n E1 8.015\n")
    assert (found.measured.guide_top is not None) == counts
    assert found.replaced[0].found.guide_top is not None
    assert found.replaced[0].found.guide_top.value == 8.060


def test_a_bore_that_is_not_to_count_keeps_its_reason() -> None:
    text = TOP + 'cut 2026-11-24\n valve bore-a\n E1 44.02\nnot-counted E1 2026-11-24 "a chip"\n E2 44.02\n'
    [left] = valve(text).not_counted
    assert (left.date, left.reason) == ("2026-11-24", "a chip")
