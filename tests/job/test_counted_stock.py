"""What was counted and delivered by day, names that things had before, and when a piece left the shelf."""

from __future__ import annotations

import pytest
from tests.job.given_jobs import HEAD, SHOP, clean, read_files, slugs

from seatwright.job.model import Insert

JOB = HEAD.format(units="mm") + 'valves E1\n insert choose\nuse "a.shop"\n'
TOP = SHOP.format(units="mm")


def one(tables: str, inserts: str = "inserts 2026-11-01") -> Insert:
    [found] = clean(JOB, a=f"{TOP}{inserts}\n insert od on-hand\n X44 44.09 5\n{tables}").shop.inserts
    return found


def row(date: str, counted: object = "-", delivered: object = "-", name: str = "X44") -> str:
    return f"stock {date}\n insert counted delivered\n {name} {counted} {delivered}\n"


@pytest.mark.parametrize(
    ("tables", "told", "day"),
    [
        ("", 5, "2026-11-01"),
        (row("2026-11-10", delivered=10), 15, "2026-11-01"),
        (row("2026-11-01", delivered=10), 5, "2026-11-01"),  # that day's count has that day's deliveries in it
        (row("2026-11-10", counted=3), 3, "2026-11-10"),
        (row("2026-11-10", counted=3, delivered=7), 3, "2026-11-10"),
        (row("2026-11-20", counted=3) + row("2026-11-10", counted=9, delivered=4), 3, "2026-11-20"),
        (row("2026-11-10", 9) + row("2026-11-20", "-", 4) + row("2026-11-21", "-", 2), 15, "2026-11-10"),
        (row("2026-10-01", counted=9, delivered=4), 5, "2026-11-01"),
    ],
)  # fmt: skip
def test_the_latest_count_holds_at_the_end_of_its_day_and_later_deliveries_add(
    tables: str, told: int, day: str
) -> None:
    found = one(tables)
    assert found.counted is not None
    assert (found.told, found.counted.date) == (told, day)


def test_an_undated_count_is_taken_as_it_stands_and_a_dash_is_nobodys_count() -> None:
    found = one(row("2026-11-10", delivered=10), "inserts")
    assert found.counted is not None
    assert (found.told, found.counted.date) == (15, None)
    [uncounted] = clean(
        JOB, a=f"{TOP}inserts 2026-11-01\n insert od on-hand\n X44 44.09 -\n{row('2026-11-10', '-', 3)}"
    ).shop.inserts
    assert (uncounted.told, uncounted.counted) == (None, None)
    assert (one("").shelf, uncounted.shelf) == ("a.shop", "a.shop")


def test_stock_is_of_inserts_that_stand_in_its_file_on_a_day_of_its_own() -> None:
    listed = TOP + "inserts\n insert od on-hand\n X44 44.09 5\n"
    assert slugs(JOB, a=listed + "stock\n insert counted\n X44 4\n") == [(6, "stock-undated")]
    assert slugs(JOB, a=listed + row("2026-11-10", 4, name="X45")) == [(8, "insert-unknown")]
    assert slugs(JOB, a=listed + row("2026-11-10", 2.5)) == [(8, "count-whole")]
    assert slugs(JOB, a=listed + row("2026-11-10", 4) + row("2026-11-10", 5)) == [(11, "item-twice")]
    assert slugs(JOB, a=listed + row("2026-11-10", 4).replace("stock", "stok")) == [(6, "section-unknown")]


def test_a_row_that_begins_with_the_word_of_the_new_section_wants_quotes() -> None:
    found = clean(JOB, a=TOP + 'inserts\n insert od\n "stock" 44.09\n').shop.inserts
    assert [each.name.text for each in found] == ["stock"]


def test_what_had_another_name_before_is_meant_by_it() -> None:
    shop = TOP + (
        'cutter C4\n range 30 to 60\n formerly C1\n formerly "big bar"\npilots\n pilot diameter formerly\n P8 8 P801\n'
        'inserts\n insert od formerly\n X44 44.09 X40\nmachine "lathe"\n formerly borer\n'
    )
    job = clean(
        HEAD.format(units="mm").replace(" units mm", " units mm\n machine borer")
        + "valves E1\n insert X40\n cutter c1\n pilot P801\ntrial\n C1 read 40.0 bored 40.01\n"
        + 'use "a.shop"\n',
        a=shop,
    )
    [valve] = job.heads[0].valves
    spec = valve.specification
    assert spec.insert is not None
    assert spec.cutter is not None
    assert spec.pilot is not None
    assert job.machine is not None
    assert (spec.insert.name, spec.cutter.text, spec.pilot.text) == ("X44", "C4", "P8")
    assert (job.heads[0].trials[0].cutter.text, job.machine.name.text) == ("C4", "lathe")


def test_a_former_name_that_is_taken_is_an_error_also_from_another_shop_file() -> None:
    first, second = TOP + "cutter C1\n range 20 to 40\n", TOP + "cutter C4\n range 22 to 42\n formerly C1\n"
    assert slugs(JOB + 'use "b.shop"\n', a=first, b=second) == [(5, "formerly-taken")]
    both = second + "cutter C5\n range 22 to 42\n formerly c1\n"
    _, messages = read_files(JOB, a=both)
    [said] = [each for each in messages if each.slug == "formerly-taken"]
    assert "C4 and C5 were both formerly c1" in said.text


CUT = "cut{}\n valve cutter read bore-a\n E1 C1 44.0 {}\n"
DONE = "finished{}\n valve stand\n E1 0.05\n"


@pytest.mark.parametrize(
    ("rows", "left"),
    [
        ("", "not"),
        (CUT.format(" 2026-11-03", "-"), "not"),
        (CUT.format(" 2026-11-03", "-") + CUT.format(" 2026-11-04", "44.01"), "2026-11-04"),
        (CUT.format(" 2026-11-03", "44.01") + CUT.format(" 2026-11-04", "44.02"), "2026-11-03"),
        (CUT.format("", "44.01"), None),
        (DONE.format(" 2026-11-05"), "2026-11-05"),
        (CUT.format(" 2026-11-03", "44.01") + DONE.format(" 2026-11-05"), "2026-11-03"),
        (CUT.format(" 2026-11-03", "-") + DONE.format(" 2026-11-05"), "2026-11-05"),
    ],
)
def test_a_piece_leaves_the_shelf_with_its_first_bore_else_when_it_is_finished(rows: str, left: str | None) -> None:
    [valve] = clean(JOB + rows, a=TOP + "cutter C1\n range 30 to 60\n").heads[0].valves
    found = "not" if valve.left_shelf is None else valve.left_shelf.date
    assert found == left
