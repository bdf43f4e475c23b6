"""A pocket that may be kept as found."""

import pytest
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.pocket_side import one, passed_over, pocket_side

from seatwright.job.model import Master

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
    "kept-fit-loose": {"pocket_a": 44.030, "pocket_b": 44.034, "pocket_low_a": 44.031, "pocket_low_b": 44.035},
    "kept-fit-tight": {"pocket_a": 43.970, "pocket_b": 43.974, "pocket_low_a": 43.971, "pocket_low_b": 43.975},
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


def one_size(size, again=None, **more):
    cell = size if again is None else (size, again)
    return {"pocket_a": cell, "pocket_b": size, "pocket_low_a": size, "pocket_low_b": size, "pocket_offset": 0.01,
            "insert_od": 44.100, **more}  # fmt: skip


def test_a_kept_pocket_is_freed_of_the_rings_error():
    # By hand: the ring says 0.003 big: 44.022 read is 44.019, and 44.100 less that is 0.081: in a fit of 0.08 to 0.12;
    # as read it would be 0.078, loose. The other way round at the tight end.
    big = replace(jobs.bore_gauge(), rings=(Master(jobs.given(44.0), jobs.given(44.003)),))
    shop = jobs.shop(inserts=(A,), practice=jobs.practice(guard=0.0))
    for read, status in ((44.022, "kept"), (43.982, "hold")):
        plan, findings = one(jobs.valve(found=one_size(read), pocket="keep"), shop=shop, bore_gauge=big)
        assert plan.status == status, findings.holds_of("E1")
    assert findings.holds_of("E1")[0].slug == "kept-fit-tight"
    assert plan.at20.pocket.value == pytest.approx(43.979)


def test_a_kept_pocket_nearer_to_a_limit_than_it_is_known_is_measured_again_before_anything_is_bored():
    # By hand: u of step, ring and repeatability is sqrt(.00058**2 + .001**2 + .001**2) = .00153, times 1.65 .0025;
    # the limits are 43.980 to 44.020.
    for pocket in ("keep", None):
        plan, findings = one(jobs.valve(found=one_size(44.019), pocket=pocket), A, B)
        assert (plan.status, plan.bore) == ("measure-again", None)
        assert "behind a slash" in jobs.texts(findings, "kept-pocket-untold")


def test_measured_again_and_still_not_told_it_is_a_hold_by_hand_and_bored_where_left_to_choose():
    again = one_size(44.019, again=44.0192)
    plan, findings = one(jobs.valve(found=again, pocket="keep"), A, B)
    assert [hold.slug for hold in findings.holds_of("E1")] == ["kept-fit-cannot-be-told"]
    plan, findings = one(jobs.valve(found=again), A, B)
    assert (plan.status, plan.insert.name) == ("to-bore", "B")
    assert plan.bore is not None


def test_measured_again_and_told_it_is_kept():
    assert one(jobs.valve(found=one_size(44.016, again=44.0162), pocket="keep"), A)[0].status == "kept"


def test_the_makers_bore_binds_a_kept_pocket_too():
    maker = {"bore": (43.990, 44.010), "interference": (0.08, 0.12)}
    _, findings = one(jobs.valve(found=one_size(44.015), pocket="keep", **maker), A)
    assert findings.holds_of("E1")[0].slug == "kept-fit-loose"


def test_the_mean_of_a_kept_pocket_carries_its_fit():
    found = {**GOOD, "pocket_a": 44.000, "pocket_b": 44.008, "pocket_low_a": 44.000, "pocket_low_b": 44.000}
    plan, _ = one(jobs.valve(found={**found, "insert_od": 44.100}), A)
    assert plan.interference.expected.value == pytest.approx(44.100 - 44.002)
