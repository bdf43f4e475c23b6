"""Spindle speed, feed, time and torque."""

import pytest
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.bores import bench, bored
from tests.planning.phases import at

from seatwright.handbook import cutting
from seatwright.planning.basis.findings import Findings
from seatwright.planning.machine.passes import passes
from seatwright.planning.machine.settings import settings
from seatwright.planning.machine.speeds import speeds
from seatwright.planning.machine.torque import torque
from seatwright.planning.plan import Closed


def practice(**figures):
    return jobs.practice(**{"surface_speed": 6.95, "feed": 0.10, **figures})


def turned(*plans, cutter=None, material="grey iron", **shop_and_job):
    findings = Findings()
    tools = (cutter or replace(jobs.cutter(), reach=jobs.given(25)),)
    shop = jobs.shop(cutters=tools, practice=shop_and_job.pop("practice", practice()))
    job, _ = bench(plans, shop=shop, **shop_and_job)
    head = jobs.head([plan.valve for plan in plans], material_name=material)
    made = settings(job, head, passes(job, head, at(Closed, plans), findings), findings, 1)
    done, of_head = speeds(job, head, made.plans, made.settings, findings)
    return torque(job, head, done, findings), of_head, findings


def one(**shop_and_job):
    plans, of_head, findings = turned(bored("E1", 43.99, 44.01, pocket=43.0), **shop_and_job)
    return plans[0], of_head[0], findings


# --- speed ----------------------------------------------------------------------------------------------------------


def test_the_largest_step_that_the_surface_speed_allows_is_taken():
    # 6.95 m/min at 44 mm is 50.3 rpm: of 35, 50, 70, 100 the 50.
    plan, setting, _ = one()
    assert plan.rpm.value == setting.rpm.value == 50
    assert plan.surface_speed_m_min.value == pytest.approx(6.91, abs=0.005)


def test_the_shops_top_speed_holds_whatever_the_surface_speed_allows():
    plan, _, _ = one(practice=practice(surface_speed=20.0, top_speed=60))
    assert plan.rpm.value == 50


def test_a_stepless_machine_runs_at_what_is_wanted():
    plan, _, _ = one(machine=jobs.machine(speeds=(jobs.given(30), jobs.given(400)), speeds_stepless=True))
    assert plan.rpm.value == pytest.approx(1000 * 6.95 / (3.141592653589793 * 44.0), abs=0.02)


def test_the_lowest_speed_of_a_fast_machine_is_taken_with_a_warning():
    plan, _, findings = one(machine=jobs.machine(speeds=(jobs.given(80), jobs.given(120))))
    assert plan.rpm.value == 80
    assert "80 rpm" in jobs.texts(findings, "speed-lowest")


def test_a_machine_without_speeds_gets_none_and_that_is_said():
    plan, _, findings = one(machine=jobs.machine(speeds=()))
    assert plan.rpm is None
    assert "machine-speeds" in findings.not_checked()


def test_a_built_in_surface_speed_names_whose_it_is():
    # A shop chart of cutting speeds: iron 50 ft/min for HSS, double for carbide: 30.5 m/min.
    plan, _, findings = one(practice=practice(surface_speed=None))
    assert plan.rpm.value == 100
    assert "a shop chart of cutting speeds" in jobs.texts(findings, "surface-speed-built-in")


def test_without_any_surface_speed_the_top_speed_alone_counts():
    plan, _, findings = one(practice=practice(surface_speed=None, top_speed=50), material="compacted iron")
    assert plan.rpm.value == 50
    assert "surface-speed" in findings.not_checked()


# --- feed and time --------------------------------------------------------------------------------------------------


def test_the_feed_is_the_machines_step_not_above_the_shops():
    assert one(practice=practice(feed=0.08))[0].feed_mm_rev.value == 0.05


def test_minutes_are_the_depth_with_three_turns_of_dwell():
    plan, _, _ = one()
    assert plan.minutes.value == pytest.approx((7.05 / 0.10 + 3) / 50)


def test_passes_take_their_time_each():
    tool = replace(jobs.cutter(), reach=jobs.given(25), tip_width=jobs.given(3.0))
    plan, _, _ = one(cutter=tool)
    assert len(plan.passes) == 2
    assert plan.minutes.value == pytest.approx(2 * (7.05 / 0.10 + 3) / 50)


def test_a_feed_by_hand_is_counted_in_turns():
    plan, _, _ = one(machine=jobs.machine(feeds=(), feeds_by_hand=jobs.span()))
    assert plan.turns.value == pytest.approx(73.5)
    assert plan.minutes is None


def test_without_a_feed_nothing_is_made_up():
    plan, _, findings = one(practice=practice(feed=None))
    assert (plan.feed_mm_rev, plan.minutes, plan.torque_Nm) == (None, None, None)
    assert "feed" in findings.not_checked()


# --- torque ---------------------------------------------------------------------------------------------------------


def test_the_floor_asks_for_more_than_the_wall():
    # Worked check 10: bore 44, old 43, throat 37, 0.10 mm/rev, grey iron: wall 2.0 Nm, floor 12.9 Nm.
    plan, _, _ = one()
    assert plan.torque_Nm.value == pytest.approx(12.9, abs=0.05)
    assert plan.torque_Nm.note == "on the floor"


def test_a_torque_over_the_limit_is_a_warning_with_a_feed_that_does():
    plan, _, findings = one(machine=jobs.machine(torque_limit=jobs.given(10.0, "10 Nm")))
    said = jobs.texts(findings, "torque-over-limit")
    at_half = cutting.wall_and_floor_torque(1150.0, 0.20, 0.05, 1, plan.passes[-1].value, 43.0, 37.0, 7.5).floor
    assert "12.9 Nm" in said
    assert f"Feed 0.05 mm/rev: that asks for {at_half:.1f} Nm" in said
    assert not findings.holds_of("E1")


def test_narrow_passes_ask_for_less_than_one_wide_cut():
    tool = replace(jobs.cutter(), reach=jobs.given(25), tip_width=jobs.given(3.0))
    assert one(cutter=tool)[0].torque_Nm.value < one()[0].torque_Nm.value


def test_a_machine_without_a_limit_is_not_checked_and_that_is_said():
    plan, _, findings = one(machine=jobs.machine(torque_limit=None))
    assert plan.torque_Nm is not None
    assert "torque-limit" in findings.not_checked()


def test_a_metal_without_a_cutting_force_has_no_torque():
    plan, _, findings = one(material="compacted iron", practice=practice(top_speed=50))
    assert plan.torque_Nm is None
    assert "torque-not-computed" in findings.not_checked()


def test_a_chip_thinner_than_the_table_has_no_torque():
    feeds = (jobs.given(0.02),)
    plan, _, findings = one(machine=jobs.machine(feeds=feeds))
    assert plan.torque_Nm is None
    assert "0.020 mm thick" in jobs.texts(findings, "torque-not-computed")
