"""Press, seat and record: which valves are on them, what stands beside which step, what drops out when it is done."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest
from msgspec.structs import replace

from seatwright.cards.card import Card
from seatwright.cards.listing import cards
from seatwright.cards.paper import PAPERS
from seatwright.cards.press import to_press
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


def test_a_valve_on_hold_gets_no_insert_and_no_seat_and_a_kept_pocket_does(diesel: Plan) -> None:
    press, seats = of_kind(diesel, "press")[0], of_kind(diesel, "seat")
    assert "E2" not in press.valves
    assert "E4" in press.valves
    assert "Not yet: E2 on HOLD" in text(diesel, "Inserts in")
    assert {name for card in seats for name in card.valves} == {"I1", "I2", "I3", "I4", "E1", "E3", "E4"}


# --- the press card ---------------------------------------------------------------------------------------------------


def test_the_press_card_goes_through_the_work_in_its_order(diesel: Plan) -> None:
    sentences = [str(step.sentence) for step in of_kind(diesel, "press")[0].content.steps]
    begins = ["Nothing goes in", "Break the edge", "Clean pockets", "Heat the head", "Chill the inserts",
              "Put the inserts in", "Feel all round", "Let the head cool", "Measure every guide again"]  # fmt: skip
    assert [each.startswith(start) for each, start in zip(sentences, begins, strict=True)] == [True] * len(begins)
    assert "Hold each down until it has gripped" in sentences[5]


def test_inserts_stand_on_the_press_card_in_the_order_in_which_they_go_in(diesel: Plan) -> None:
    orders = [valve.assembly.order for valve in to_press(diesel, diesel.heads[0]) if valve.assembly is not None]
    assert orders == sorted(orders)
    assert len(orders) == 7


def test_every_caution_of_pressing_stands_beside_its_step(diesel: Plan) -> None:
    steps = {str(step.sentence).split(",")[0].split(" deck")[0]: step.cautions for step in
             of_kind(diesel, "press")[0].content.steps}  # fmt: skip
    assert any("hot head burns" in said for said in steps["Heat the head"])
    assert any("Nitrogen" in said for said in steps["Chill the inserts in nitrogen"])
    assert any("compressed air" in said for said in steps["Clean pockets and inserts"])
    assert any("chips" in said.casefold() for said in steps["Clean pockets and inserts"])


def test_a_bore_that_came_out_big_has_no_figures_to_press_by(half_way: Plan) -> None:
    card = text(half_way, "Inserts in")
    assert "E3 I1 measure again" in card
    assert "| **E3** | **X36A** | 36.584 | – | ____ |" in card
    ways = card.split("| Valve | How |")[1].split("\n\n")[0]
    assert "**E3**" not in ways
    assert "**E1**" in ways


def test_a_ring_that_is_still_to_be_turned_has_its_size_from_the_bore(half_way: Plan) -> None:
    assert "turn to 38.469 to 38.496 at 20 °C: _____" in text(half_way, "Inserts in")
    assert "How the inserts of I3 go in is not worked out" in text(half_way, "Inserts in")


def test_an_interference_is_called_measured_only_where_bore_and_ring_were() -> None:
    card = text(planned("ready-to-leave", without="finished"), "Inserts in")
    assert "| **I1** | **N37A** | 37.499 | **0.0781** measured | yes |" in card
    listed = with_valve(planned("ready-to-leave", without="finished"), "I1")
    valve = next(valve for valve in listed.valves if valve.name == "I1")
    bare = with_valve(listed, "I1", at20=replace(valve.at20, insert_od=None))
    assert "**0.0781** by the list" in text(bare, "Inserts in")


def test_without_anything_to_heat_or_chill_by_the_card_says_that_it_is_not_worked_out() -> None:
    plan = planned("single-cylinder")
    bare = plan
    for valve in plan.valves:
        bare = with_valve(bare, valve.name, assembly=None)
    card = text(bare, "Inserts in")
    assert "go in is not worked out" in card
    assert "Heat the head" not in card


# --- the seat card ----------------------------------------------------------------------------------------------------


def test_the_seat_card_cuts_seat_top_throat_and_then_lightly_once_more(diesel: Plan) -> None:
    sentences = [str(step.sentence) for step in of_kind(diesel, "seat")[0].content.steps]
    assert [each.split(",")[0].split(" with")[0] for each in sentences[1:5]] == [
        "Cut the seat", "Cut the top", "Cut the throat", "A last light pass",
    ]  # fmt: skip


def test_the_convention_of_its_angles_is_on_every_seat_card(half_way: Plan, diesel: Plan) -> None:
    for plan in (half_way, diesel):
        for card in of_kind(plan, "seat"):
            assert ("Angles", "from the plane square to the stem") in card.content.lines


def test_what_a_deeper_cut_moves_is_that_of_the_cones() -> None:
    # Cones by hand: 0.10 deeper along the stem, 45 against 30: 0.2/(1 - tan 30) = 0.473; 60 against 45: 0.273.
    card = text(planned("four-cylinder-diesel"), "Seat at 45°, outside Ø 40")
    assert "0.10 deeper with the 30° brings the outside in by 0.47, on diameter." in card
    assert "0.10 deeper with the 60° brings the inside out by 0.27, on diameter." in card
    assert "0.10 deeper with the 45° brings the outside out by 0.47 and the inside in by 0.27, on diameter." in card


def test_in_inches_it_is_what_a_hundredth_moves() -> None:
    # 0.2/(tan 45.5 - tan 30) = 0.4545 for 0.10: of a hundredth of an inch 0.045.
    card = text(planned("four-valve-aluminium"), "Seat at 45.5°, outside Ø 0.930 in")
    assert "0.010 deeper with the 30° brings the outside in by 0.045, on diameter." in card


def test_the_sums_of_tip_and_recession_add_up_as_printed() -> None:
    for name in ("four-cylinder-diesel", "ready-to-leave"):
        plan = planned(name, without="finished")
        lines = [line for card in ("Seat",) for line in text(plan, card).split("\n")]
        sums = [re.findall(r"[+−]? ?\d+\.\d+(?= \|)", line)[:4] for line in lines if re.search(r"\| [+−] ", line)]
        assert len(sums) >= 8
        for figures in sums:
            signed = [float(each.replace(" ", "").replace("−", "-")) for each in figures]
            first_plain = next(at for at, each in enumerate(figures[1:], start=1) if each[0] not in "+−")
            assert sum(signed[:first_plain]) == pytest.approx(signed[first_plain], abs=1e-9)


def test_the_head_is_pressure_tested_on_its_last_seat_card_only(diesel: Plan) -> None:
    seats = of_kind(diesel, "seat")
    last = [str(card.content.steps[-1].sentence) for card in seats]
    tested = [sentence.startswith("Pressure-test the whole head") for sentence in last]
    assert tested == [False] * (len(seats) - 1) + [True]
    assert "pressure-test" in seats[-1].content.cautioned


def test_a_stem_to_grind_and_a_shim_are_steps_with_their_size() -> None:
    plan = planned("ready-to-leave", without="finished")
    valve = next(valve for valve in plan.valves if valve.name == "I1")
    assert valve.seat is not None
    assert valve.seat.sink is not None
    size = replace(valve.seat.sink, value=0.124)
    both = with_valve(plan, "I1", seat=replace(valve.seat, grind=size, shim=replace(size, value=0.4)))
    card = text(both, "Seat")
    assert re.search(r"Grind the stem end of I1 by at least \[ \]\n\n    \*\*0\.13 mm\*\*", card)
    assert re.search(r"Put shims under the spring of I1, together \[ \]\n\n    \*\*0\.40 mm\*\*", card)


# --- the record -------------------------------------------------------------------------------------------------------


def test_the_record_has_every_cut_the_earlier_ones_too(half_way: Plan) -> None:
    record = text(half_way, "Record")
    rows = re.findall(r"^\| \*\*I2\*\* \| (2026-\S+) \|.*\*\*([\w ]+)\*\* \|$", record, re.M)
    assert rows == [("2026-11-24", "bore again"), ("2026-11-25", "accepted")]


def test_the_record_of_a_finished_head_says_what_is_in_it(leaving: Plan) -> None:
    record = text(leaving, "Record")
    assert "| **I1** | **N37A** | bench ring | 37.499 | 37.4210 | **0.0781** |" in record
    assert "| **E1** | 0.06 | 0.03 | 1.6 | 0.80 | 41.05 | 37.9 | 5 s | pass | **pass** |" in record
    assert "Bolts by the engine maker's figures" in record
    assert "common practice of this shop, aluminium exhaust" in record
    assert "Pressure test of the whole head after the work:** pass" in record
    assert re.search(r"stamp \*\*[0-9a-f]{8}\*\*", record)
    assert "Checked by _________ date" in record


def test_a_line_that_fails_says_so_on_the_record(leaving: Plan) -> None:
    failed = FinishedPlan(verdicts=(("seat_tir", "fail"), ("stand", "pass")), verdict="fail")
    record = text(with_valve(leaving, "E1", status="accepted", finished=failed), "Record")
    assert "| **E1** | 0.06 | **0.03 FAIL** |" in record


def test_nothing_is_called_in_the_head_before_it_is(half_way: Plan) -> None:
    assert "In the head now" not in text(half_way, "Record")


# --- the job sheet ----------------------------------------------------------------------------------------------------


def test_the_job_sheet_says_where_each_valve_stands_and_what_comes_next(half_way: Plan) -> None:
    sheet = text(half_way, "Job sheet")
    table = dict(re.findall(r"^\| \*\*(\w+)\*\* \| \*\*[\w ]+\*\* \| [\d.–]+ \| (.*) \|$", sheet, re.M))
    assert table["E2"] == "Small: open by 0.026 mm on diameter, 0.013 on radius, by setting 1."
    assert table["I3"] == "Turn its ring to 38.469 to 38.496 mm at 20 °C, measure it, build again."
    assert "take the X36A of E4 of 36.598 mm, which gives 0.067 mm" in table["E3"]
    assert table["E4"].startswith("WAIT: E3 may take its insert")
    assert table["I1"].endswith("Take no metal off.")
    assert table["E1"] == "Press card."
    assert table["I4"].startswith("Nothing, until the hold is lifted")


def test_who_bores_is_told_on_the_setting_card_as_well_which_valve_waits(half_way: Plan) -> None:
    assert "1. WAIT: E3 may take its insert" in text(half_way, "Setting 1")


def test_a_bore_is_on_the_job_sheet_only_where_it_is_still_cut_to(half_way: Plan) -> None:
    sheet = text(half_way, "Job sheet")
    for valve in half_way.valves:
        assert valve.bore is not None
        row = re.search(rf"^\| \*\*{valve.name}\*\* \| (?:X36A|N38|turned) \| (.*?) \|", sheet, re.M)
        assert row is not None
        assert row[1].startswith("**3") == (valve.status in ("to-bore", "bore-again"))


def test_a_message_names_its_valves_once(half_way: Plan, diesel: Plan) -> None:
    for plan in (half_way, diesel):
        assert not re.search(r"\b([IE]\d+): \1\b", documents(plan).markdown)


def test_the_head_drawing_has_no_bore_for_a_valve_on_hold(diesel: Plan) -> None:
    from seatwright.cards.drawings.head_plan import spots

    held = next(spot for spot in spots(diesel, diesel.heads[0]) if spot.name == "E2")
    assert held.crossed
    assert held.lines == ("HOLD",)
    assert not any("Ø" in line for line in held.lines)


def test_what_the_bore_must_be_like_is_in_plan_json(half_way: Plan) -> None:
    import json

    limits = json.loads(documents(half_way).plan_json)["limits"]
    # As bench.shop says them.
    assert (limits["bore_round"], limits["bore_taper"], limits["floor_square"]) == (0.012, 0.01, 0.02)
    assert (limits["leak_s"], limits["shims"]) == (3.0, [0.4, 0.8, 1.5])


@pytest.mark.parametrize("name", ["half-way", "ready-to-leave", "four-cylinder-diesel", "four-valve-aluminium"])
def test_stresses_and_probabilities_stay_off_the_cards(name: str) -> None:
    printed = documents(planned(name)).markdown
    assert not re.search(r"\bMPa\b|\bksi\b|probabil|\bhoop\b", printed, re.I)


# --- nothing is lost on the way to the page ---------------------------------------------------------------------------


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
@pytest.mark.parametrize("name", ["half-way", "ready-to-leave", "four-cylinder-diesel", "four-valve-aluminium"])
def test_every_row_and_every_sentence_of_a_card_is_on_its_pages(name: str, paper: str) -> None:
    plan = planned(name)
    html = documents(plan, paper=paper).html
    visible = " ".join(unescape(re.sub(r"<style>.*?</style>|<[^>]+>", " ", html, flags=re.S)).split())
    rows = sum(len(re.findall(r"<tr\b", body)) for body in re.findall(r"<tbody>.*?</tbody>", html, re.S))
    listed = cards(plan, PAPERS[paper].narrow)
    contents = [card.content for card in listed]
    tables = [table for content in contents for table in (*content.first, *content.tables)]
    tables += [table for content in contents for step in content.steps for table in step.tables]
    assert rows == sum(len(table.rows) for table in tables)
    for content in contents:
        said = [*content.warnings, *content.notes, *content.not_checked, *content.sources, content.closing]
        said += [each for step in content.steps for each in (step.sentence, step.check, *step.cautions)]
        for sentence in said:
            # Blanks are drawn, and marks of emphasis are not printed: words are enough to tell a sentence by.
            for part in re.split(r"_{3,}|\*\*|\\", str(sentence)):
                assert " ".join(part.split()) in visible, part
