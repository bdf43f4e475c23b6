"""Press, seat and record: which valves are on them, what stands beside which step, what drops out when it is done."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from msgspec.structs import replace
from tests.cards.demo_plans import with_a_worn_guide

from seatwright.cards.card import Card
from seatwright.cards.deck import cards
from seatwright.cards.drawings.head_plan import spots
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
    assert len(orders) == 8


def test_without_anything_to_heat_or_chill_by_the_card_says_that_it_is_not_worked_out() -> None:
    plan = planned("single-cylinder")
    bare = plan
    for valve in plan.valves:
        bare = with_valve(bare, valve.name, assembly=None)
    card = text(bare, "Inserts in")
    assert "go in is not worked out" in card
    assert "Heat the head" not in card


def test_a_valve_on_hold_gets_no_insert_and_no_seat_and_a_kept_pocket_does() -> None:
    diesel = with_a_worn_guide()
    (press,), seats = of_kind(diesel, "press"), of_kind(diesel, "seat")
    assert "E2" not in press.valves
    assert "E4" in press.valves
    assert {name for card in seats for name in card.valves} == {"I1", "I2", "I3", "I4", "E1", "E3", "E4"}


def test_the_press_card_goes_through_the_work_in_its_order(diesel: Plan) -> None:
    begins = ["Break the burr", "Heat the head", "Nitrogen", "One at a time", "With each, warm", "Cool to the room"]
    boxes = of_kind(diesel, "press")[0].content.boxes
    assert [box.sentence.startswith(start) for box, start in zip(boxes, begins, strict=True)] == [True] * len(begins)
    assert [box.number for box in boxes] == [1, 2, 3, 4, 5, 6]
    assert [box.number for box in boxes if box.loud is not None] == [2]


def test_every_caution_of_pressing_stands_on_the_press_card_once(diesel: Plan, half_way: Plan) -> None:
    for plan in (diesel, half_way):
        (card,) = of_kind(plan, "press")
        words = text(plan, "Inserts in")
        for start in ("**Hot head**", "**Nitrogen**", "no air"):
            assert words.count(start) == 1, start
        assert {"hot-head", "liquid-nitrogen"} <= set(card.content.cautioned)


@pytest.mark.parametrize("name", sorted(path.stem for path in JOBS.glob("*.seat")))
def test_a_caution_stands_once_on_a_card(name: str) -> None:
    for card in cards(planned(name)):
        assert len(card.content.care) == len(set(card.content.care))
        assert len(card.content.cautioned) == len(set(card.content.cautioned))


def test_a_bore_that_came_out_big_or_is_measured_again_has_no_figures_to_press_by(half_way: Plan) -> None:
    card = text(half_way, "Inserts in")
    assert "E3 I1 measure again" in card
    assert "| E3 | **X36A** *36.584* | – | – | – | – |" in card
    assert "| I1 | **N38** *38.066* | – | – | – | – |" in card
    assert "| E1 | **X36A** *36.588* | **0.072** *measured* | **drops** *0.035* |" in card


def test_a_ring_that_is_still_to_be_turned_has_its_size_from_the_bore(half_way: Plan) -> None:
    card = text(half_way, "Inserts in")
    assert "| I3 | turn to 38.469 38.494 *at 20 °C* ______ | 0.050 0.076 |" in card
    assert "How the inserts of I3 go in is not worked out" in card


def test_an_interference_is_called_measured_only_where_bore_and_ring_were() -> None:
    listed = planned("ready-to-leave", without="finished")
    assert "| I1 | **N37A** *37.499* | **0.078** *measured* |" in text(listed, "Inserts in")
    valve = next(valve for valve in listed.valves if valve.name == "I1")
    bare = with_valve(listed, "I1", at20=replace(valve.at20, insert_od=None))
    assert "**0.078** *by the list*" in text(bare, "Inserts in")


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


def test_the_convention_of_its_angles_is_on_every_seat_card(half_way: Plan, diesel: Plan) -> None:
    for plan in (half_way, diesel):
        assert of_kind(plan, "seat")
        for card in of_kind(plan, "seat"):
            assert "angles from the plane square to the stem" in card.about


@pytest.mark.parametrize("name", ["four-cylinder-diesel", "ready-to-leave"])
def test_recession_found_and_what_it_changes_by_come_to_the_recession_that_is_cut_to(name: str) -> None:
    plan = planned(name, without="finished")
    sums = 0
    for card in text(plan, "Seat").replace("\\-", "-").split("\n# "):
        aim = re.search(r"\*\*\*(-?\d\.\d\d)\*\*\* mm", card)
        for line in card.split("\n"):
            found = re.match(r"\| [IE]\d \| \S+ \| (-?[\d.]+) \|((?: [+−][\d.]+ \|)+)", line)
            if found and aim:
                steps = [float(each.replace("−", "-")) for each in re.findall(r"[+−][\d.]+", found[2])]
                assert float(found[1]) + sum(steps) == pytest.approx(
                    float(aim[1]) * (-1 if "PROUD of the deck" in card else 1), abs=1e-9
                )
                sums += 1
    assert sums >= 4


def test_a_stem_to_grind_and_a_shim_are_steps_with_their_size() -> None:
    plan = planned("ready-to-leave", without="finished")
    valve = next(valve for valve in plan.valves if valve.name == "I1")
    assert valve.seat is not None
    assert valve.seat.sink is not None
    size = replace(valve.seat.sink, value=0.124)
    both = with_valve(plan, "I1", seat=replace(valve.seat, grind=size, shim=replace(size, value=0.4)))
    card = text(both, "Seat")
    # At least so much: upwards to what is read in hundredths.
    assert re.search(r"Grind the stem of I1 by at least \[ \]\n\n    \*\*0\.13\*\* mm", card)
    assert re.search(r"Shims under the spring of I1 \[ \]\n\n    \*\*0\.40\*\* mm", card)


# --- the record -------------------------------------------------------------------------------------------------------


def test_nothing_is_called_in_the_head_before_it_is(half_way: Plan) -> None:
    assert "In the head now" not in text(half_way, "Record")


def test_the_record_has_the_last_cut_as_read_and_says_which_it_is(half_way: Plan) -> None:
    record = text(half_way, "Record")
    assert "| 38.008 38.010 *cut 2* |" in record
    assert record.count("*cut ") == 1


def test_the_record_of_a_finished_head_says_what_is_in_it(leaving: Plan) -> None:
    record = text(leaving, "Record")
    assert "| **N37A** *bench ring* | 37.421 37.424 | 0.078 |" in record
    assert "| 0.06 | 0.03 | 1.6 | \\-0.55 | 41.05 | 37.9 | 5 s | **pass** |" in record
    assert "Bolts by the engine maker's figures" in record
    assert "common practice of this shop, aluminium exhaust" in record
    assert "Pressure test of the whole head after the work: pass" in record
    assert re.search(r"stamp \*\*[0-9a-f]{8}\*\*", record)
    assert "______ Checked by, date" in record


def test_a_line_that_fails_says_so_on_the_record(leaving: Plan) -> None:
    failed = FinishedPlan(verdicts=(("seat_tir", "fail"), ("stand", "pass")), verdict="fail")
    record = text(with_valve(leaving, "E1", status="accepted", finished=failed), "Record")
    assert "| 0.06 | **0.03 FAIL** |" in record
    assert "| **fail** |" in record


# --- the job sheet ----------------------------------------------------------------------------------------------------


def test_the_job_sheet_says_where_each_valve_stands_and_what_comes_next(half_way: Plan) -> None:
    sheet = text(half_way, "Job 2219")
    says = dict(re.findall(r"^- \*\*(\w+)\*\* (.*)$", sheet, re.M))
    assert says["E2"] == "Small: open by 0.026 mm on diameter, 0.013 on radius, by C1 at 36.514."
    assert says["I3"] == "Turn its ring to 38.469 to 38.494 mm at 20 °C, measure it, build again."
    assert "take the X36A of E4 of 36.598 mm, which gives 0.067 mm" in says["E3"]
    assert says["E4"].startswith("WAIT: E3 may take its insert")
    assert says["I1"].endswith("Take no metal off.")
    numbers = {card.name: card.number for card in cards(half_way)}
    assert f"| E1 | **accepted** | card {numbers['press']} |" in sheet
    assert "| I4 | **HOLD** | see above |" in sheet


def test_a_bore_is_on_the_job_sheet_only_where_it_is_still_cut_to(half_way: Plan) -> None:
    sheet = text(half_way, "Job 2219")
    for valve in half_way.valves:
        assert valve.bore is not None
        (row,) = re.findall(rf"^\| {valve.name} \| .*$", sheet, re.M)
        assert bool(re.search(r"\b3\d\.\d{3} to 3\d\.\d{3}\b", row)) == (valve.status in ("to-bore", "bore-again"))


def test_the_head_drawing_has_no_bore_for_a_valve_on_hold() -> None:
    diesel = with_a_worn_guide()
    held = next(spot for spot in spots(diesel, diesel.heads[0]) if spot.name == "E2")
    assert held.lines == ("HOLD",)


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
    assert re.search(r"E2: old insert cracked\. E2: guide renewed 2026-11-23: clearance to the stem 0\.0\d+ mm\. "
                     r"E2: valve renewed 2026-11-23\.", card)  # fmt: skip
