"""Where depths are counted from at the machine, and what a leaning valve makes of it (handbook 6)."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.bores import bench, bored, figure
from tests.planning.phases import at

from seatwright.planning.basis.findings import Findings
from seatwright.planning.machine.passes import passes
from seatwright.planning.machine.settings import settings
from seatwright.planning.plan import Closed, CutPlan


def planned(*plans, face="rim", machine=None, tip_width=7.5):
    findings = Findings()
    shop = jobs.shop(cutters=(replace(jobs.cutter(tip_width=tip_width), reach=jobs.given(25)),))
    job, head = bench(plans, shop=shop, machine=machine or jobs.machine(parallel=jobs.given(6.0)))
    head = replace(head, depth_from=jobs.named(face))
    passed = findings.held(passes(job, head, at(Closed, plans), findings))
    return settings(job, head, passed, findings, 1), findings


# --- the parallel ---------------------------------------------------------------------------------------------------


def test_the_zero_is_taken_on_a_parallel_whose_thickness_is_counted():
    made, _ = planned(bored("E1", 44.010, 44.030))
    (setting,) = made.settings
    (stop,) = setting.depth_stops
    assert (setting.parallel.value, setting.dial_on_parallel.value) == (6.0, -6.0)
    assert stop.from_parallel.value == pytest.approx(stop.stop.value + 6.0)
    assert setting.first.from_parallel.value == pytest.approx(setting.first.stop.value + 6.0)


def test_without_a_parallel_of_the_shop_the_sum_is_left_to_the_card():
    made, _ = planned(bored("E1", 44.010, 44.030), machine=jobs.machine())
    (setting,) = made.settings
    assert (setting.parallel, setting.dial_on_parallel, setting.depth_stops[0].from_parallel) == (None, None, None)
    assert setting.first.stop is not None


def test_depths_from_the_old_floor_take_no_parallel():
    made, _ = planned(bored("E1", 44.010, 44.030), face="floor")
    assert made.settings[0].parallel is None


def test_by_the_edge_of_the_pocket_the_zero_would_be_too_deep():
    # Geometry of the corner: the tip 0.10 over the edge with R 0.40 stands 0.135 lower when it touches.
    plan = replace(bored("E1", 44.290, 44.310, pocket=44.0), corner_radius=figure(0.40, "R"))
    made, _ = planned(plan)
    first = made.settings[0].first.bore.value
    over = (first - 44.0) / 2
    assert over == pytest.approx(0.10, abs=0.002)
    by_hand = 0.4 - math.sqrt(0.4**2 - (0.4 - over) ** 2)
    assert made.settings[0].zero_error.value == pytest.approx(by_hand)


# --- the first pocket is bored short --------------------------------------------------------------------------------


def test_the_first_pocket_is_bored_short_of_depth_by_as_much_as_it_is_under_size():
    # Old floor 6.50, stop 7.04 to 7.06: 0.10 short.
    made, _ = planned(bored("E1", 44.010, 44.030, pocket_depth=6.50))
    (setting,) = made.settings
    assert setting.first.stop.value == pytest.approx(setting.depth_stops[0].stop.value - 0.10)


def test_it_still_cuts_the_old_floor_so_that_its_depth_can_be_measured():
    # Old floor 6.96: of some 0.08 no more than half is left, in whole steps of the dial.
    made, _ = planned(bored("E1", 44.010, 44.030, pocket_depth=6.96))
    (setting,) = made.settings
    stop, first = setting.depth_stops[0].stop.value, setting.first.stop.value
    assert 6.96 < first < stop
    assert stop - first <= (stop - 6.96) / 2 + 1e-9
    assert (first / 0.02) == pytest.approx(round(first / 0.02))


def test_where_no_step_of_the_dial_is_left_there_is_no_short_cut():
    made, _ = planned(bored("E1", 44.010, 44.030, pocket_depth=7.03))
    assert made.settings[0].first.stop is None


# --- a valve that leans ---------------------------------------------------------------------------------------------


def leaning(tilt, face, **more):
    return planned(replace(bored("E1", 44.010, 44.030), valve_tilt=figure(tilt, "tilt", "deg"), **more), face=face)


def test_a_leaning_valve_is_not_bored_to_a_depth_from_the_deck():
    made, findings = leaning(20.0, "deck")
    (hold,) = findings.holds_of("E1")
    assert hold.slug == "deck-leans"
    # By hand: 44.02 * tan 20 = 16.0 mm from one side of the bore to the other.
    assert "16.0 mm" in hold.text
    assert "`depth-from rim`" in hold.help
    assert made.settings == ()


@pytest.mark.parametrize(("tilt", "face"), [(20.0, "rim"), (20.0, "floor"), (1.0, "deck")])
def test_rim_floor_and_a_lean_of_a_degree_are_no_hold(tilt, face):
    made, findings = leaning(tilt, face)
    assert findings.holds_of("E1") == ()
    assert len(made.settings) == 1


def test_a_leaning_bore_that_is_cut_and_done_is_not_held_any_more():
    done = {"status": "accepted", "cut": CutPlan(verdict="accepted")}
    _, findings = leaning(20.0, "deck", **done)
    assert findings.holds_of("E1") == ()


# --- passes ---------------------------------------------------------------------------------------------------------


def test_valves_of_one_setting_share_the_passes_that_the_smallest_throat_asks_for():
    # Throats 27.794, 28.094 and 28.294, each 0.25 off, tip 4: the first by itself goes to 35.294, which serves all.
    three = [
        bored(name, 40.990, 41.010, pocket=38.0, throat=throat, throat_offset=0.25)
        for name, throat in (("E1", 27.794), ("E2", 28.094), ("E3", 28.294))
    ]
    made, _ = planned(*three, tip_width=4.0)
    (setting,) = made.settings
    (one,) = setting.passes
    assert one.bore.value == pytest.approx(35.294)
    assert set(one.valves) == {"E1", "E2", "E3"}
    assert all(
        [each.value for each in plan.passes] == pytest.approx([35.294, setting.aim.value]) for plan in made.plans
    )


def test_a_valve_whose_tip_reaches_at_once_takes_no_pass_of_the_others():
    wide = bored("E2", 40.990, 41.010, pocket=38.0, throat=34.5, throat_offset=0.0)
    made, _ = planned(bored("E1", 40.990, 41.010, pocket=38.0, throat=28.0, throat_offset=0.0), wide, tip_width=4.0)
    (setting,) = made.settings
    assert [one.valves for one in setting.passes] == [("E1",)]
