"""Press, seat and record: which valves are on them, what stands beside which step, what drops out when it is done."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from msgspec.structs import replace

from seatwright.cards.card import Card
from seatwright.cards.deck import cards
from seatwright.cards.kinds.press import to_press
from seatwright.cards.render import documents
from seatwright.job import read
from seatwright.planning import planner
from seatwright.planning.plan import FinishedPlan, Plan, ValvePlan

JOBS = Path(__file__).parents[2] / "jobs"


def planned(name: str, *, without: str = "", more: str = "") -> Plan:
    """A demo job, without the sections that begin with a word, with more at its end."""

    def file(path: str) -> bytes:
        data = (JOBS / path).read_text("utf-8")
        if path == f"{name}.seat":
            if without:
                data = re.sub(rf"^(?:{without})\b.*\n(?:(?:[ \t].*)?\n)*", "", data, flags=re.M)
            data += more
        return data.encode()

    job, _ = read(f"{name}.seat", file)
    assert job is not None
    return planner.plan(job)


@pytest.fixture(scope="module")
def half_way() -> Plan:
    return planned("half-way")


@pytest.fixture(scope="module")
def leaving() -> Plan:
    return planned("ready-to-leave")


@pytest.fixture(scope="module")
def diesel() -> Plan:
    return planned("four-cylinder-diesel")


def of_kind(plan: Plan, name: str) -> list[Card]:
    return [card for card in cards(plan) if card.name == name]


def text(plan: Plan, title: str) -> str:
    found = documents(plan).markdown.split("\n---\n")
    return "\n".join(each for each in found if re.search(rf"^# \d+\. {title}", each, re.M))


def with_valve(plan: Plan, name: str, **fields: object) -> Plan:
    def one(valve: ValvePlan) -> ValvePlan:
        return replace(valve, **fields) if valve.name == name else valve  # type: ignore[arg-type]

    return replace(plan, valves=tuple(one(valve) for valve in plan.valves))


# --- which cards ------------------------------------------------------------------------------------------------------


def test_half_way_has_every_card_of_what_is_still_to_do(half_way: Plan) -> None:
    # The order within a setting is the planner's.
    listed = [
        (card.name, tuple(sorted(card.valves)) if card.name == "setting" else card.valves) for card in cards(half_way)
    ]
    every = ("I1", "E1", "I2", "E2", "I3", "E3", "I4", "E4")
    assert listed == [
        ("job", every),
        ("guides", every),
        ("setting", ("E2", "E4")),
        ("press", ("E2", "E4", "E1", "I2", "E3", "I1", "I3")),
        ("seat", ("I1", "I2", "I3")),
        ("seat", ("E1", "E2", "E3", "E4")),
        ("record", every),
    ]


def test_a_finished_head_has_its_job_sheet_and_its_record_only(leaving: Plan) -> None:
    assert [card.name for card in cards(leaving)] == ["job", "record"]


def test_before_it_was_finished_the_same_head_had_press_and_seat_cards() -> None:
    before = planned("ready-to-leave", without="finished")
    assert [card.name for card in cards(before)] == ["job", "guides", "press", "seat", "seat", "record"]


def test_one_finished_valve_drops_out_of_press_and_seat_card(leaving: Plan) -> None:
    before = planned("ready-to-leave", without="finished")
    done = with_valve(before, "I1", status="finished", finished=FinishedPlan(verdict="pass"))
    assert all("I1" in card.valves for card in of_kind(before, "press"))
    assert all("I1" not in card.valves for name in ("guides", "press", "seat") for card in of_kind(done, name))
    assert all("I1" in card.valves for card in of_kind(done, "record"))


def test_an_insert_that_stands_high_is_on_the_press_card_again(leaving: Plan) -> None:
    high = FinishedPlan(verdicts=(("stand", "fail"),), verdict="fail")
    assert [valve.name for valve in to_press(with_valve(leaving, "E1", status="accepted", finished=high),
                                             leaving.heads[0])] == ["E1"]  # fmt: skip


# --- the press card ---------------------------------------------------------------------------------------------------


def test_inserts_stand_on_the_press_card_in_the_order_in_which_they_go_in(diesel: Plan) -> None:
    orders = [valve.assembly.order for valve in to_press(diesel, diesel.heads[0]) if valve.assembly is not None]
    assert orders == sorted(orders)
    assert len(orders) == 7


def test_without_anything_to_heat_or_chill_by_the_card_says_that_it_is_not_worked_out() -> None:
    plan = planned("single-cylinder")
    bare = plan
    for valve in plan.valves:
        bare = with_valve(bare, valve.name, assembly=None)
    card = text(bare, "Inserts in")
    assert "go in is not worked out" in card
    assert "Heat the head" not in card


# --- the seat card ----------------------------------------------------------------------------------------------------


def test_what_a_deeper_cut_moves_is_that_of_the_cones() -> None:
    # Cones by hand: 0.10 deeper along the stem, 45 against 30: 0.2/(1 - tan 30) = 0.473; 60 against 45: 0.273.
    card = text(planned("four-cylinder-diesel"), "Seat 45°, intake")
    assert "0.10 deeper: outside 0.47 in." in card
    assert "0.10 deeper: inside 0.27 out." in card
    assert "0.10 deeper: outside 0.47 out, inside 0.27 in." in card


def test_in_inches_it_is_what_a_hundredth_moves() -> None:
    # 0.2/(tan 45.5 - tan 30) = 0.4545 for 0.10: of a hundredth of an inch 0.045.
    card = text(planned("four-valve-aluminium"), "Seat 45.5°, exhaust")
    assert "0.010 deeper: outside 0.045 in." in card


def test_the_setting_card_asks_for_what_the_program_judges_an_oval_bore_by(half_way: Plan) -> None:
    # bore-round 0.012: the mean inside the limits, each reading no more than half of it beyond (handbook 11).
    assert "Mean of all, each reading ±0.006: next." in text(half_way, "Setting")


# --- the record -------------------------------------------------------------------------------------------------------


def test_nothing_is_called_in_the_head_before_it_is(half_way: Plan) -> None:
    assert "In the head now" not in text(half_way, "Record")


# --- the job sheet ----------------------------------------------------------------------------------------------------


def test_a_message_names_its_valves_once(half_way: Plan, diesel: Plan) -> None:
    for plan in (half_way, diesel):
        assert not re.search(r"\b([IE]\d+): \1\b", documents(plan).markdown)


def test_what_the_bore_must_be_like_is_in_plan_json(half_way: Plan) -> None:
    import json

    limits = json.loads(documents(half_way).plan_json)["limits"]
    # As bench.shop says them.
    assert (limits["bore_round"], limits["bore_taper"], limits["floor_square"]) == (0.012, 0.01, 0.02)
    assert (limits["leak_s"], limits["shims"]) == (4.0, [0.4, 0.8, 1.5])


@pytest.mark.parametrize("name", ["half-way", "ready-to-leave", "four-cylinder-diesel", "four-valve-aluminium"])
def test_stresses_and_probabilities_stay_off_the_cards(name: str) -> None:
    printed = documents(planned(name)).markdown
    assert not re.search(r"\bMPa\b|\bksi\b|probabil|\bhoop\b", printed, re.I)


# --- nothing is lost on the way to the page ---------------------------------------------------------------------------


def test_the_record_shows_what_was_found_of_a_part_that_was_renewed_since_and_when() -> None:
    # jobs/seats-that-stay.seat: the guide of E2 was 8.071 at its widest, its valve 0.64 proud; both were renewed.
    card = text(planned("seats-that-stay"), "Record")
    (row,) = [line for line in card.split("\n") if line.startswith("| E2 |")]
    assert [cell.strip() for cell in row.split("|")][3:5] == ["8.071", "\\-0.64"]
    assert "E2: old insert cracked. E2: guide renewed 2026-11-23. E2: valve renewed 2026-11-23." in card
