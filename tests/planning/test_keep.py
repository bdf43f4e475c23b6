"""A pocket that may be kept as found."""

import jobs
import pytest
from pocket_side import one, passed_over, pocket_side

GOOD = {"pocket_a": 44.000, "pocket_b": 44.004, "pocket_low_a": 44.001, "pocket_low_b": 44.005, "pocket_offset": 0.01}
IN_HAND = {**GOOD, "insert_od": 44.100}
A = jobs.insert("A", 44.10)
B = jobs.insert("B", 44.60)


def test_keeping_wins_over_boring():
    plan, findings = one(jobs.valve(found=IN_HAND), A, B)
    assert (plan.status, plan.insert.name) == ("kept", "A")
    assert plan.bore is None
    assert plan.interference.expected.value == pytest.approx(44.100 - 44.0025)
    assert passed_over(plan)["B"] == "pocket-kept"
    assert "pocket-kept" in jobs.slugs(findings)


def test_list_limits_serve_where_the_worst_case_is_in_the_fit():
    assert one(jobs.valve(found=GOOD), jobs.insert("A", 44.10, 0.01), B)[0].status == "kept"
    assert one(jobs.valve(found=GOOD), jobs.insert("A", 44.10, 0.018), B)[0].status == "to-bore"
    assert one(jobs.valve(found=GOOD), jobs.insert("A", 44.10, None), B)[0].status == "to-bore"


FAULTS = {
    "pocket-not-round": {"pocket_b": 44.012},
    "pocket-tapers": {"pocket_low_a": 44.013, "pocket_low_b": 44.016},
    "pocket-runs-out": {"pocket_offset": 0.03},
    "pocket-damaged": {"damage": 44.1},
    "kept-fit-loose": {"insert_od": 44.080},
    "kept-fit-tight": {"insert_od": 44.125},
    "kept-stand-wrong": {"pocket_depth": 7.2},
}


@pytest.mark.parametrize("slug", FAULTS)
def test_a_fault_means_boring_or_a_hold_where_keeping_was_said(slug):
    found = {**IN_HAND, **FAULTS[slug]}
    assert one(jobs.valve(found=found), A, B)[0].status != "kept"
    plan, findings = one(jobs.valve(found=found, pocket="keep"), A)
    assert plan.status != "kept"
    assert findings.holds_of("E1")[0].slug == slug


def test_what_was_not_measured_is_bored_unless_keeping_was_said():
    found = {**IN_HAND, "pocket_low_a": None, "pocket_low_b": None}
    assert one(jobs.valve(found=found), A, B)[0].status == "to-bore"
    plan, findings = one(jobs.valve(found=found, pocket="keep"), A, B)
    assert plan.status == "kept"
    assert "pocket-not-measured-low" in findings.not_checked()


def test_a_pocket_that_is_to_be_bored_is_bored():
    plan, _ = one(jobs.valve(found=IN_HAND, pocket="bore"), A, B)
    assert (plan.status, plan.insert.name) == ("to-bore", "B")


def test_where_the_kept_pockets_insert_has_run_out_the_other_is_bored():
    valves = [jobs.valve(name, found=GOOD) for name in ("E1", "E2")]
    shop = jobs.shop(inserts=(jobs.insert("A", 44.10, 0.01, on_hand=1), B))
    plans, findings, _ = pocket_side(jobs.head(valves), shop=shop)
    assert sorted(plan.status for plan in plans.values()) == ["kept", "to-bore"]
    assert not findings.holds_of("E1") + findings.holds_of("E2")
