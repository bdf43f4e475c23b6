"""What planning starts from, and whether a guide is fit to bore from."""

import pytest
from tests.planning import jobs

from seatwright.job.model import Note
from seatwright.planning.basis.findings import Findings
from seatwright.planning.found.brought_to_20 import start
from seatwright.planning.found.guides import guides


def started(head, shop=None, **job_fields):
    findings = Findings()
    job = jobs.job(head, shop=shop or jobs.shop(), **job_fields)
    plans = findings.held(start(job, head, findings))
    return guides(job, head, plans, findings), findings


def one(valve, **head_fields):
    plans, findings = started(jobs.head([valve], **head_fields))
    return plans[0], findings


@pytest.mark.parametrize(
    "wish, status",
    [(jobs.wish(), "to-bore"), (jobs.wish("stock", "X46"), "to-bore"), (jobs.wish("none"), "left-alone")],
)
def test_the_wish_decides_whether_a_valve_is_planned(wish, status):
    assert one(jobs.valve(insert=wish))[0].status == status


def test_a_valve_without_a_wish_is_not_planned_and_that_is_said():
    plan, findings = one(jobs.valve(bare=True))
    assert plan.status == "not-planned"
    assert "insert-not-said" in jobs.slugs(findings)


def test_inserts_that_the_maker_forbids_hold_every_valve():
    plans, findings = started(jobs.head([jobs.valve("E1"), jobs.valve("E2")], inserts_not_allowed="cast too thin"))
    assert [plan.status for plan in plans] == ["hold", "hold"]
    assert "cast too thin" in jobs.texts(findings, "inserts-not-allowed")


def test_a_hold_by_hand_says_its_own_words():
    valve = jobs.valve(holds=(Note("crack in the floor", jobs.span(), ("E1",)),))
    plan, findings = one(valve)
    assert plan.status == "hold"
    assert "crack in the floor" in findings.holds_of("E1")[0].text


def test_the_pocket_counts_with_its_largest_reading_and_the_guide_with_both_ends():
    plan, _ = one(jobs.valve(found={"pocket_a": (44.00, 44.05), "guide_top": (9.022, 9.030)}))
    assert plan.at20.pocket.value == pytest.approx(44.05)
    assert plan.at20.guide.value == pytest.approx(9.030)
    assert plan.at20.guide_tightest.value == pytest.approx(9.020)


def test_clearance_is_largest_station_less_stem():
    # Handbook 1: of a list of readings the largest for wear.
    plan, _ = one(jobs.valve(found={"guide_bottom": (9.024, 9.047)}))
    assert plan.guide.clearance.value == pytest.approx(9.047 - 8.97)
    assert plan.guide.bell_mouth.value == pytest.approx(0.027)
    assert plan.guide.verdict == "fit"


def test_a_guide_over_its_wear_limit_is_a_hold_guide_first():
    plan, findings = one(jobs.valve(found={"guide_bottom": 9.071}))
    assert plan.guide.verdict == "worn"
    hold = findings.holds_of("E1")[0]
    assert hold.slug == "guide-worn"
    assert "0.101 mm" in hold.text
    assert hold.figure.value == pytest.approx(0.101)


def test_at_its_wear_limit_a_guide_is_fit():
    assert one(jobs.valve(found={"guide_bottom": 9.070}))[0].guide.verdict == "fit"


def test_without_a_wear_limit_the_upper_clearance_counts():
    plan, _ = one(jobs.valve(guide_wear_limit=None, guide_clearance=(0.03, 0.05)))
    assert plan.guide.verdict == "worn"


def test_a_wear_limit_comes_before_the_clearance_of_a_new_guide():
    assert one(jobs.valve(guide_clearance=(0.03, 0.05)))[0].guide.verdict == "fit"


def test_a_guide_tighter_than_the_least_clearance_is_to_be_reamed():
    plan, findings = one(jobs.valve(guide_clearance=(0.06, 0.09)))
    assert plan.guide.verdict == "tight"
    assert "Ream" in jobs.texts(findings, "guide-tight")


def test_a_guide_without_a_limit_or_stem_is_not_judged_and_that_is_said():
    plan, findings = one(jobs.valve(guide_wear_limit=None))
    assert plan.guide.verdict == "not-checked"
    assert findings.not_checked() == ("guide-limit-not-given",)
    plan, findings = one(jobs.valve(stem=None))
    assert plan.guide.verdict == "not-checked"
    assert findings.not_checked() == ("stem-not-given",)


def test_a_worn_guide_of_a_valve_left_alone_is_named_and_holds_nothing():
    left = jobs.valve(insert=jobs.wish("none"), found={"guide_bottom": 9.071})
    plan, findings = one(left)
    assert plan.guide.verdict == "worn"
    assert plan.status == "left-alone"
    assert findings.holds_of("E1") == ()
    assert "0.101 mm" in jobs.texts(findings, "guide-worn-left-alone")


def test_a_valve_left_alone_whose_guide_was_not_measured_is_not_asked_for_it():
    none = {"guide_top": None, "guide_middle": None, "guide_bottom": None}
    plan, findings = one(jobs.valve(insert=jobs.wish("none"), found=none))
    assert plan.guide.verdict == "not-checked"
    assert "guide-not-measured" not in jobs.slugs(findings)


def test_a_stem_bigger_than_its_guide_is_never_a_guide_to_be_reamed():
    plan, findings = one(jobs.valve(stem=9.050, guide_clearance=(0.03, 0.06)))
    assert plan.guide.verdict == "not-checked"
    assert "guide-tight" not in jobs.slugs(findings)
