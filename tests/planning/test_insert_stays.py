"""A seat that is cut again in the insert that is in: no bore, no press, nothing from the shelf."""

import pytest
from msgspec.structs import replace
from tests.planning import jobs

from seatwright.job.model import Finished
from seatwright.planning.plan import PilotPlan, Status
from seatwright.planning.planner import plan

A = jobs.insert("A", 44.30, on_hand=1)
SEAT = {
    "head_diameter": 42.0, "setback": 0.8, "margin": 1.6, "seat_angle": 45.0, "face_angle": 45.0, "top_angle": 30.0,
    "throat_angle": 60.0, "seat_width": (1.6, 2.0), "recession": (0.5, 0.9), "seat_runout": 0.05,
}  # fmt: skip
FOUND = {"pocket_a": None, "pocket_b": None, "pocket_offset": None, "throat": None, "recession": 0.6}


def stays(name="E1", **more):
    found = {**FOUND, **more.pop("found", {})}
    return jobs.valve(name, insert=jobs.wish("stays"), found=found, **{**SEAT, **more})


def planned(*valves, **head_fields):
    made = plan(jobs.job(jobs.head(valves, **head_fields), shop=jobs.shop(inserts=(A,))))
    return {each.name: each for each in made.valves}, made


def test_a_seat_that_stays_gets_its_seat_and_nothing_bored_pressed_or_fetched():
    valves, made = planned(stays())
    one = valves["E1"]
    assert one.status == Status.TO_CUT == "to-cut"
    assert one.seat is not None
    assert one.seat.recession is not None
    assert one.guide.verdict == "fit"
    assert (one.insert, one.bore, one.depth, one.interference, one.assembly) == (None,) * 5
    # Its seat cutter stands on a pilot: the largest that enters, judged by the seat's own runout and not here.
    assert one.pilot == PilotPlan("P902", "dead")
    assert made.fetch.pilots == ("P902",)
    assert made.settings == ()
    assert made.fetch.inserts == ()
    assert not {message.slug for message in made.messages} & {"pocket-not-measured", "insert-not-said"}


def test_it_takes_no_insert_from_the_one_beside_it():
    valves, _ = planned(stays("E1"), jobs.valve("E2"), spacings=(jobs.spacing("E1", "E2", 60.0),))
    assert valves["E2"].insert.name == "A"


def test_its_worn_guide_comes_first_since_the_seat_is_cut_from_it():
    valves, _ = planned(stays(found={"guide_bottom": 9.071}))
    assert [hold.slug for hold in valves["E1"].holds] == ["guide-worn"]


def test_it_stands_in_the_bridge_with_the_insert_that_is_known_to_be_in_it():
    beside = stays("E2", found={"old_insert_od": 44.20})
    valves, made = planned(jobs.valve("E1"), beside, least_bridge=2.0, spacings=(jobs.spacing("E1", "E2", 48.0),))
    own = valves["E1"]
    left = 48.0 - (own.bore.most.value + 44.20) / 2 - own.pilot.offset.value
    assert made.bridges[0].left.value == pytest.approx(left)


@pytest.mark.parametrize("recession, status", [(0.7, Status.FINISHED), (1.2, Status.TO_CUT)])
def test_it_is_finished_when_its_seat_is_good_without_any_bore(recession, status):
    read = Finished(
        seat_tir=jobs.reading(0.03), seat_width=jobs.reading(1.8), recession=jobs.reading(recession),
        pressure_test=jobs.named("pass"), leak=jobs.named("pass"),
    )  # fmt: skip
    valves, made = planned(replace(stays(), finished=read))
    assert valves["E1"].status == status
    assert "finished-on-open-bore" not in {message.slug for message in made.messages}
