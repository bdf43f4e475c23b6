"""One call plans a job."""

import json
import re

import pytest
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.sources import JOBS, planned

from seatwright.job.model import Note
from seatwright.planning.planner import plan
from seatwright.text import Severity
from seatwright.told.plan_json import plan_document


def job(*valves, **head_fields):
    return jobs.job(jobs.head(valves, **head_fields), shop=jobs.shop())


def test_valves_stand_in_the_order_of_their_heads():
    left, right = jobs.head([jobs.valve("E1"), jobs.valve("E2")]), jobs.head([jobs.valve("E3")], number=2)
    made = plan(jobs.job(left, right, shop=jobs.shop()))
    assert [each.name for each in made.valves] == ["E1", "E2", "E3"]
    assert [each.head for each in made.valves] == [1, 1, 2]


def test_where_inserts_are_not_allowed_every_valve_is_on_hold():
    made = plan(job(jobs.valve("E1"), jobs.valve("E2"), inserts_not_allowed="scrap the head, says the maker"))
    assert {each.status for each in made.valves} == {"hold"}
    assert all(each.holds[0].slug == "inserts-not-allowed" for each in made.valves)
    assert made.settings == ()


def test_a_hold_by_hand_holds_its_valve_alone():
    held = jobs.valve("E1", holds=(Note("crack in the floor", jobs.span(), ("E1",)),))
    made = plan(job(held, jobs.valve("E2")))
    assert made.valves[0].status == "hold"
    assert "crack in the floor" in made.valves[0].holds[0].text
    assert made.valves[1].status != "hold" or "hold-by-hand" not in [hold.slug for hold in made.valves[1].holds]
    assert any(message.severity is Severity.HOLD and message.valves == ("E1",) for message in made.messages)


def test_a_valve_that_is_left_alone_is_planned_nothing():
    made = plan(job(jobs.valve("E1", insert=jobs.wish("none"))))
    assert made.valves[0].status == "left-alone"
    assert made.settings == ()


def test_paper_left_out_is_said():
    assert "paper-left-out" in [message.slug for message in plan(job(jobs.valve("E1"))).messages]
    with_paper = replace(job(jobs.valve("E1")), paper="a5")
    assert "paper-left-out" not in [message.slug for message in plan(with_paper).messages]


def test_planning_twice_gives_the_same_plan_to_the_last_digit():
    work = job(jobs.valve("E1"), jobs.valve("I1"), jobs.valve("E2"))
    once, again = (json.dumps(plan_document(plan(work)), sort_keys=False) for _ in range(2))
    assert once == again


def test_a_job_with_a_head_and_nothing_measured_is_planned_without_a_figure():
    made = plan(job(jobs.valve("E1", bare=True, insert=jobs.wish())))
    assert made.settings == ()
    assert made.not_checked


@pytest.mark.parametrize("job", sorted(path.name for path in JOBS.glob("*.seat")))
def test_no_text_begins_with_its_valve_since_who_prints_it_puts_the_valves_in_front(job):
    plan = planned(job)
    for message in plan.messages:
        assert message.text.split()[0].rstrip(":,") not in message.valves, message.text
    for valve in plan.valves:
        for hold in valve.holds:
            assert not hold.text.startswith(f"{valve.name}:"), hold.text


def test_no_sentence_of_planning_puts_a_valves_name_before_a_colon():
    # The demo jobs do not say everything: so the texts are looked for where they are written.
    for path in (JOBS.parent / "compiler" / "seatwright" / "planning").rglob("*.py"):
        assert not re.search(r'f"\{(plan\.name|name|valve|valve\.name)\}: ', path.read_text("utf-8")), path.name
