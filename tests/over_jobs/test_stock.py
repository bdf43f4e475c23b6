"""The shelves over all jobs: what is counted, gone, promised, short and to be ordered, held against plain counting."""

from __future__ import annotations

import itertools
from pathlib import Path
from random import Random

import pytest

from seatwright.over_jobs.serving import number_key, serving_key
from seatwright.over_jobs.stock.document import schema
from seatwright.over_jobs.stock.fewest_sizes import fewest_sizes
from seatwright.over_jobs.stock.pieces import JobPieces, ShelfRow, TakenPiece, WantedInsert
from seatwright.over_jobs.stock.said import stock_messages
from seatwright.over_jobs.stock.shelves import Standing, standings
from seatwright.over_jobs.stock.to_order import Ordering, ordering_of
from seatwright.over_jobs.stock.written import as_text
from seatwright.text import Span

SPAN = Span("bench.shop", 1, 1, 1, 2)
DAYS = (None, "2026-10-20", "2026-11-01", "2026-11-02", "2026-11-20")


def row(name: str, counted: int | None, on: str | None = "2026-11-01", delivered: int = 0, order: int = 1) -> ShelfRow:
    return ShelfRow("bench.shop", "insert", name, order, SPAN, 40.0 + order, f"{40 + order}", counted, on, delivered)


def job(
    number: str, pieces: list[TakenPiece], listed: list[ShelfRow], due: str | None = None, **more: object
) -> JobPieces:
    wanted = more.get("wanted", ())
    assert isinstance(wanted, tuple)
    units = str(more.get("units", "mm"))
    return JobPieces(number, f"{number}.seat", due, None, units, tuple(listed), tuple(pieces), wanted)


def taken(name: str, valve: str, day: str | None = None, left: bool = False) -> TakenPiece:
    return TakenPiece(valve, ("bench.shop", "insert", name.lower()), SPAN, left, day)


def random_shop(random: Random) -> list[JobPieces]:
    names = ["X1", "X2", "X3"]
    listed = [
        row(name, random.choice((None, 0, 1, 3, 6)), random.choice((None, "2026-11-01")), random.randint(0, 2), order)
        for order, name in enumerate(names)
    ]
    jobs = []
    for number in random.sample(range(1, 200), random.randint(1, 5)):
        pieces = [
            taken(random.choice(names), f"E{valve}", random.choice(DAYS), random.random() < 0.4)
            for valve in range(1, random.randint(1, 5))
        ]
        jobs.append(job(str(number), pieces, listed, random.choice((None, "2026-11-20", "2026-12-01"))))
    return jobs


def figures(stand: tuple[Standing, ...]) -> list[object]:
    return [(one.row.place, one.used, one.promised, one.short, one.left, one.promises) for one in stand]


@pytest.mark.parametrize("seed", range(60))
def test_what_jobs_take_is_what_was_counted_and_delivered_but_what_is_left(seed: int) -> None:
    random = Random(seed)
    jobs = random_shop(random)
    stand = standings(jobs)
    for one in stand:
        pieces = [piece for each in jobs for piece in each.pieces if piece.place == one.row.place]
        waiting = [piece for piece in pieces if not piece.left]
        assert one.promised == len(waiting)
        if one.row.counted is None:
            assert (one.short, one.left) == (0, None)
            continue
        dated = one.row.counted_on is not None
        gone = [each for each in pieces if each.left and dated and (each.day is None or each.day > "2026-11-01")]
        there = one.row.counted + one.row.delivered - len(gone)
        assert one.left is not None
        assert len(gone) + len(waiting) - one.short == one.row.counted + one.row.delivered - one.left
        assert one.short == max(0, len(waiting) - max(0, there))
        assert min(one.short, max(one.left, 0)) == 0, "nothing is short while a piece is left"
    random.shuffle(jobs)
    assert figures(standings(jobs)) == figures(stand), "the order of the files changes nothing"


def test_jobs_are_served_by_due_date_then_receipt_then_number_then_path() -> None:
    keys = [
        serving_key("2026-11-20", None, "9", "b"),
        serving_key("2026-11-27", "2026-11-01", "100", "a"),
        serving_key("2026-11-27", "2026-11-02", "99", "a"),
        serving_key("2026-11-27", None, "7", "a"),
        serving_key(None, "2026-01-01", "1", "a"),
        serving_key(None, None, "99a", "a"),
        serving_key(None, None, "99a", "b"),
        serving_key(None, None, "99b", "a"),
        serving_key(None, None, "100", "a"),
    ]
    shuffled = Random(1).sample(keys, len(keys))
    assert sorted(shuffled) == keys
    assert sorted(["10-2", "10-10", "9", "a2", "a10", "10"], key=number_key) == [
        "9",
        "10",
        "10-2",
        "10-10",
        "a2",
        "a10",
    ]


def test_a_count_holds_at_the_end_of_its_day_and_an_undated_cut_counts_as_later() -> None:
    days = ("2026-10-31", "2026-11-01", "2026-11-02", None)
    jobs = [job("1", [taken("X1", f"E{at}", day, True) for at, day in enumerate(days, 1)], [row("X1", 5)])]
    [one] = standings(jobs)
    assert [piece.valve for _, piece in one.gone] == ["E3", "E4"]
    assert (one.there, one.left) == (3, 3)
    [undated] = standings([job("1", list(jobs[0].pieces), [row("X1", 5, None)])])
    assert (undated.used, undated.there) == (0, 5)


@pytest.mark.parametrize("seed", range(150))
def test_the_order_has_the_fewest_sizes_then_the_least_ods_as_by_trying_every_set(seed: int) -> None:
    random = Random(seed)
    rows = random.randint(1, 7)
    needs = [tuple(sorted(random.sample(range(rows), random.randint(1, rows)))) for _ in range(random.randint(1, 8))]
    costs = [random.randint(1, 5) for _ in range(rows)]
    found, exact = fewest_sizes(needs, costs)
    assert exact
    assert all(row in need for row, need in zip(found, needs, strict=True))
    best = min(
        (size, sum(min(costs[row] for row in need if row in cover) for need in needs), cover)
        for size in range(1, rows + 1)
        for cover in itertools.combinations(range(rows), size)
        if all(set(need) & set(cover) for need in needs)
    )
    cheapest = [min((costs[row], row) for row in need if row in best[2])[1] for need in needs]
    assert list(found) == cheapest


def test_a_search_that_is_given_up_still_serves_every_valve_and_says_so() -> None:
    random = Random(3)
    needs = [tuple(sorted(random.sample(range(12), 4))) for _ in range(20)]
    found, exact = fewest_sizes(needs, list(range(12)), most_trials=5)
    assert not exact
    assert all(row in need for row, need in zip(found, needs, strict=True))
    proved, exact = fewest_sizes(needs, list(range(12)))
    assert exact
    assert len(set(proved)) <= len(set(found))


def want(valve: str, serve: tuple[str, ...] = (), od: float | None = None, **more: object) -> WantedInsert:
    alloys = more.get("alloys", ())
    height, most, hole = (more.get(word) for word in ("height", "height_most", "id"))
    assert isinstance(alloys, tuple)
    places = tuple(("bench.shop", "insert", name.lower()) for name in serve)
    return WantedInsert(valve, SPAN, places, od, height, most, hole, alloys)  # type: ignore[arg-type]


def ordered(*jobs: JobPieces) -> Ordering:
    return ordering_of(standings(jobs), jobs)


def test_what_is_short_by_name_serves_a_valve_on_hold_as_well() -> None:
    listed = [row("X1", 1, order=1), row("X2", 0, order=2), row("X3", 0, order=3)]
    first = job("1", [taken("X3", "E1")], listed, "2026-11-20")
    second = job("2", [], listed, wanted=(want("E2", ("X1", "X2")), want("E3", ("X2", "X3"))))
    lines = ordered(first, second).lines
    assert [(line.row and line.row.name, line.pieces) for line in lines] == [("X1", 1), ("X3", 2)]
    assert [[(each.number, valves) for each, valves in line.for_] for line in lines] == [
        [("2", ("E2",))],
        [("1", ("E1",)), ("2", ("E3",))],
    ]


def test_needs_that_no_row_serves_share_a_line_when_alloy_and_od_allow() -> None:
    steel = {"alloys": ("tool steel",)}
    one = job("1", [], [], wanted=(
        want("E1", od=44.00, height=7.0, id=36.0, **steel), want("E2", od=44.10, height=7.2, id=35.5, **steel),
        want("E3", od=44.11, height=7.0, **steel), want("E4", od=44.05, height=7.0),
        want("E5", od=44.02, height=8.5, **steel), want("E6", od=44.01, height_most=8.0, height=6.0, **steel),
    ))  # fmt: skip
    lines = [(line.od, line.height, line.height_most, line.id, line.for_[0][1]) for line in ordered(one).lines]
    assert lines == [
        (44.05, 7.0, None, None, ("E4",)),
        (44.01, 7.0, 8.0, 36.0, ("E1", "E6")),
        (44.11, 8.5, None, 35.5, ("E5", "E2", "E3")),
    ]
    inch = [job(str(at), [], [], units="inch", wanted=(want("E1", od=od),)) for at, od in enumerate((44.0, 44.1016))]
    assert len(ordered(*inch).lines) == 1
    assert len(ordered(job("1", [], [], wanted=(want("E1", od=44.0), want("E2", od=44.1016)))).lines) == 2


def test_what_is_ordered_is_said_to_the_side_that_serves() -> None:
    # 31.8712 at least is 31.872, never 31.871; 7.4989 at most 7.498; 44.0 mm are 1.73228 in, so 1.7323 at least.
    wanted = (want("E1", od=31.8712, height=7.0, height_most=7.4989, id=25.0009),)
    one = job("1", [], [], wanted=wanted)
    assert (
        "an insert: od 31.872 mm at least, height 7.00 mm at least, height 7.498 mm at most, hole 25.00 mm at most"
        in as_text([], [one], ordered(one))
    )
    inch = job("2", [], [], units="inch", wanted=(want("E1", od=44.0),))
    assert "an insert: od 1.7323 in at least" in as_text([], [inch], ordered(inch))
    # With a job in mm on the line it is said in mm.
    assert "an insert: od 44.00 mm at least" in as_text(
        [], [inch], ordered(inch, job("3", [], [], wanted=(want("E1", od=44.0),)))
    )


def test_who_is_short_is_named_with_who_has_the_pieces() -> None:
    listed = [row("X1", 2)]
    first = job("2219", [taken("X1", "E1"), taken("X1", "E2")], listed, "2026-11-20")
    second = job("2231", [taken("X1", "E3")], listed, "2026-11-27")
    jobs = (second, first)
    [message] = stock_messages(standings(jobs), jobs, ordered(*jobs))
    assert message.text == (
        "X1: 2 on the shelf, 3 promised; job 2219 (due 2026-11-20) has them, job 2231 (due 2026-11-27) lacks 1 for E3."
    )
    assert message.help == "Order 1, or change the due dates."
    gone = job("2219", [taken("X1", "E1", "2026-11-05", True), taken("X1", "E2", "2026-11-05", True)], listed)
    [message] = stock_messages(standings((gone, second)), (gone, second), ordered(gone, second))
    assert message.text == (
        "X1: none on the shelf, 2 gone since 2026-11-01 (job 2219), 1 promised; job 2231 (due 2026-11-27) "
        "lacks 1 for E3."
    )


def test_the_shipped_schema_is_the_one_that_the_records_make() -> None:
    there = (Path(__file__).parents[2] / "grammar" / "stock.schema.json").read_text("utf-8")
    assert there == schema(), "renew it: python -m seatwright.over_jobs.stock.document > grammar/stock.schema.json"
