"""Whose interference counts for a valve."""

import pytest
from tests.planning import jobs
from tests.planning.pocket_side import one

A = jobs.insert("A", 44.30)


def limits(plan):
    return round(plan.interference.least.value, 6), round(plan.interference.most.value, 6)


def test_the_jobs_interference_overrides_the_shops():
    plan, _ = one(jobs.valve(interference=jobs.limits(0.05, 0.09, "manual")), A)
    assert limits(plan) == (0.05, 0.09)
    assert plan.interference.source == "manual"
    assert plan.interference.aim.value == pytest.approx(0.07)


def test_the_shops_row_with_the_fewest_any_counts():
    rows = (
        jobs.interference_row(0.08, 0.12),
        jobs.interference_row(0.06, 0.10, head="grey-iron", alloy="tool-steel", source="for tool steel"),
    )
    plan, _ = one(jobs.valve(), A, shop_fields={"interference": rows})
    assert limits(plan) == (0.06, 0.10)
    assert plan.interference.source == "for tool steel"


def test_a_row_counts_from_over_its_lower_bound_to_its_upper_one():
    rows = (
        jobs.interference_row(0.06, 0.08, over=None, to=44.30),
        jobs.interference_row(0.08, 0.10, over=44.30, to=None),
    )
    assert limits(one(jobs.valve(), A, shop_fields={"interference": rows})[0]) == (0.06, 0.08)


def test_makers_bore_and_insert_give_the_interference_of_a_published_table():
    # Source: ZD30 service manual, insert 33.065-33.078, bore 33.000-33.015, interference 0.050-0.078.
    valve = jobs.valve(
        insert=jobs.wish("stock", "N33"),
        bore=(33.000, 33.015),
        insert_od=(33.065, 33.078),
        found={"pocket_a": 32.8, "pocket_b": 32.8, "throat": 27.0},
    )
    plan, _ = one(valve, jobs.insert("N33", 33.0715, 0.0065))
    assert limits(plan) == (0.05, 0.078)
    assert (plan.bore.least.value, plan.bore.most.value) == pytest.approx((33.000, 33.015))


def test_an_insert_measured_at_its_top_does_not_open_the_makers_bore():
    valve = jobs.valve(
        insert=jobs.wish("stock", "N33"),
        bore=(33.000, 33.015),
        insert_od=(33.065, 33.078),
        found={"pocket_a": 32.8, "pocket_b": 32.8, "throat": 27.0, "insert_od": 33.078},
    )
    plan, _ = one(valve, jobs.insert("N33", 33.0715, 0.0065))
    assert plan.bore.most.value == pytest.approx(33.015)


def test_an_oversize_takes_the_makers_interference_and_is_passed_over_by_his_bore():
    maker = {"bore": (44.100, 44.116), "insert_od": (44.166, 44.178)}
    plan, _ = one(jobs.valve(**maker), jobs.insert("A", 44.172, 0.006), jobs.insert("A50", 44.672, 0.006))
    assert limits(plan) == (0.05, 0.078)
    assert (plan.insert.name, plan.insert.passed_over[0].reason) == ("A", "outside-makers-bore")
    assert "44.60 to 44.616 mm" in plan.insert.passed_over[0].text
    assert "44.10 to 44.116 mm" in plan.insert.passed_over[0].text


def test_with_no_figures_the_built_in_span_is_used_and_named():
    plan, findings = one(jobs.valve(), A, shop_fields={"interference": ()})
    # Source: TM 5-6115-400-35 and TM 5-3810-295-34, grey iron, 1.645 to 2.003 in: .0020 to .0040 in.
    assert limits(plan) == pytest.approx((0.0020 * 25.4, 0.0040 * 25.4))
    assert "not the engine" in jobs.texts(findings, "interference-built-in")


def test_outside_the_built_in_table_nothing_is_computed_and_that_is_said():
    valve = jobs.valve(found={"pocket_a": 38.0, "pocket_b": 38.0, "throat": 30.0})
    plan, findings = one(valve, jobs.insert("A", 38.5), shop_fields={"interference": ()})
    assert plan.bore is None
    assert "interference-not-given" in findings.not_checked()
    assert not findings.holds_of("E1")
