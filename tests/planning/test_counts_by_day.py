"""A job takes from the shelf what its own files tell of: pieces that were missing when they were counted, not again."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.messages.catalogue import FOLDER

from seatwright.job import read
from seatwright.over_jobs.stock.pieces import pieces_of
from seatwright.over_jobs.stock.shelves import standings
from seatwright.over_jobs.stock.to_order import ordering_of
from seatwright.planning.plan import Plan, Status
from seatwright.planning.planner import plan
from seatwright.text import Severity

CUT = """
cut 2026-11-20 at 22 C
  valve  cutter  read    bore-a  bore-b  bore-low-a  bore-low-b  depth-a  depth-b  depth-c  depth-d
  {}     C2      40.530  40.534  40.536  40.533      40.535      8.05     8.05     8.05     8.05
"""


def planned(cut: str = "", counted: str = "", on_hand: int = 2, extra: str = "", valves: str = "") -> Plan:
    """The job that has nothing to say, with so many X40 counted on a day, and these valves cut on 2026-11-20."""
    job = (FOLDER / "silent.seat").read_text("utf-8").replace("40.591\n", "-\n").replace("40.589\n", "-\n")
    job = job.replace("valves all\n", f"valves all\n{valves}") + "".join(CUT.format(name) for name in cut.split())
    shop = (FOLDER / "stock-short.shop").read_text("utf-8")
    shop = shop.replace("any   1\n", f"any   {on_hand}\n").replace("inserts\n", f"inserts {counted}\n")

    def load(name: str) -> bytes:
        if name == "silent.seat":
            return job.encode()
        return (shop + extra).encode() if name == "stock.shop" else (FOLDER / name).read_bytes()

    found, messages = read("silent.seat", load)
    assert found is not None, [each for each in messages if each.severity is Severity.ERROR]
    return plan(found)


def inserts(made: Plan) -> list[str | None]:
    return [each.insert.name if each.insert is not None else None for each in made.valves]


@pytest.mark.parametrize(
    ("cut", "counted", "on_hand", "goes_in"),
    [
        ("", "", 1, 1),
        ("I1", "", 1, 1),  # an undated count is taken as it stands
        ("I1", "2026-11-19", 1, 1),  # cut after the count: it was among those counted
        ("I1", "2026-11-20", 1, 2),  # cut on the day of the count: in the count, missing already
        ("I1 E1", "2026-11-25", 0, 2),
        ("I1", "2026-11-25", 0, 1),
        ("", "2026-11-25", 0, 0),
    ],
)
def test_a_piece_that_left_before_the_count_is_not_taken_from_it_again(
    cut: str, counted: str, on_hand: int, goes_in: int
) -> None:
    made = planned(cut, counted, on_hand)
    assert sum(name is not None for name in inserts(made)) == goes_in
    held = [each.name for each in made.valves if each.status is Status.HOLD]
    assert len(held) == 2 - goes_in
    assert not set(held) & set(cut.split() if goes_in else ()) or len(cut.split()) > goes_in


def test_what_is_left_on_the_shelf_is_counted_down_from_the_dated_count() -> None:
    [before] = planned("I1", "2026-11-19", 5).fetch.inserts
    [after] = planned("I1", "2026-11-20", 5).fetch.inserts
    delivered = "\nstock 2026-11-26\n  insert  delivered\n  X40     4\n"
    [more] = planned("I1", "2026-11-20", 5, delivered).fetch.inserts
    assert (before.left, after.left, more.left) == (3, 4, 8)


def test_the_insert_names_its_shelf_and_the_cut_the_day_its_piece_left() -> None:
    made = planned("I1", "2026-11-19", 5)
    [first, second] = made.valves
    assert first.insert is not None
    assert first.cut is not None
    assert (first.insert.shelf, first.cut.left_shelf, second.cut) == ("stock.shop", "2026-11-20", None)


def test_a_retired_cutter_is_never_chosen_and_by_hand_is_warned_of_until_the_bore_is_cut() -> None:
    retired = "\ncutter C0\n  range 30 to 62\n  tip-width 6.5\n  retired 2026-10-01\n"
    assert [each.cutter for each in planned(extra=retired).valves] == ["C2", "C2"]
    by_hand = planned("I1", extra=retired, valves="  cutter C0\n")
    assert [each.cutter for each in by_hand.valves] == ["C0", "C0"]
    assert [each.valves for each in by_hand.messages if each.slug == "cutter-retired"] == [("E1",)]


GUIDES = """
guides {}
  guide  od-least  od-most  length  id     id-finished  alloy         on-hand
  G14    14.040    14.051   62      8.90   no           guide-bronze  {}

reamers
  reamer  diameter  for
  R9      9.005     guide

guide-fits
  head        alloy  kind  over  to  least  most  source
  bench-iron  any    any   10    20  0.02   0.06  "shop practice"
"""


def with_guides(renewed: str, counted: str, on_hand: int, stock: str = "") -> Plan:
    """Two valves that get new guides, and the day on which the first one got its."""
    job = (FOLDER / "silent.seat").read_text("utf-8")
    job = job[: job.index("measured at 22 C")].replace("valves all\n", f"valves I1 E1\n{GUIDED}")
    job += f"\nreplaced {renewed}\n  valve  part\n  I1     guide\n" if renewed else ""
    shop = (FOLDER / "stock-short.shop").read_text("utf-8") + GUIDES.format(counted, on_hand) + stock

    def load(name: str) -> bytes:
        if name == "silent.seat":
            return job.encode()
        return shop.encode() if name == "stock.shop" else (FOLDER / name).read_bytes()

    found, messages = read("silent.seat", load)
    assert found is not None, [each for each in messages if each.severity is Severity.ERROR]
    return plan(found)


GUIDED = "  guide  choose\n  guide-hole  14.000 to 14.018\n  guide-bore  9.000 to 9.015\n"


@pytest.mark.parametrize(
    ("renewed", "counted", "on_hand", "get_one"),
    [
        ("", "", 2, ["I1", "E1"]),
        ("", "2026-11-01", 1, ["I1"]),
        ("2026-11-10", "2026-11-01", 1, ["I1"]),  # it was among those counted
        ("2026-11-10", "2026-11-10", 1, ["I1", "E1"]),  # it was missing already
        ("2026-11-10", "2026-11-20", 0, ["I1"]),
    ],
)
def test_a_guide_that_was_in_before_the_count_is_not_taken_from_it_again(
    renewed: str, counted: str, on_hand: int, get_one: list[str]
) -> None:
    made = with_guides(renewed, counted, on_hand)
    assert [each.name for each in made.valves if each.guide.alloy is not None] == get_one


def test_guides_are_counted_down_and_promised_as_inserts_are() -> None:
    stock = "\nstock 2026-11-12\n  guide  counted  delivered\n  G14    3        -\n"

    def standing_of(renewed: str, counted: str, stock: str) -> tuple[int, int, int | None]:
        made = with_guides(renewed, counted, 3, stock)
        pieces = pieces_of(made, "7.seat", {each.path: each.path for each in made.job.sources}, replace)
        [one] = [each for each in standings([pieces]) if each.row.kind == "guide"]
        return one.used, one.promised, one.left

    assert standing_of("", "2026-11-01", "") == (0, 2, 1)
    assert standing_of("2026-11-10", "2026-11-01", "") == (1, 1, 1)
    assert standing_of("2026-11-10", "2026-11-01", stock) == (0, 1, 2)
    assert standing_of("2026-11-13", "2026-11-01", stock) == (1, 1, 1)


def test_a_guide_that_is_wanted_and_not_there_is_ordered_by_name() -> None:
    made = with_guides("", "2026-11-01", 1)
    pieces = pieces_of(made, "7.seat", {each.path: each.path for each in made.job.sources}, replace)
    [line] = ordering_of(standings([pieces]), [pieces]).lines
    assert line.row is not None
    assert (line.row.name, line.pieces, line.for_[0][1]) == ("G14", 1, ("E1",))
