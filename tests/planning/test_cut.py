"""Bores as cut: the verdict, what it asks for, and the ways out of a bore that is too big."""

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as some
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.later_life import cut_readings, decided, demo, figure, started
from tests.planning.phases import at

from seatwright.job.model import Note
from seatwright.planning.after.cut import cut
from seatwright.planning.after.rework import waiting
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import still_to_bore
from seatwright.planning.machine.reopen import reopen
from seatwright.planning.plan import InSetting, Next, Status, Stood, into

FORM = {"low": (44.0, 44.0), "depths": (7.05, 7.05, 7.05, 7.05)}


def judged(*valves, units="mm", head=None, shop=None, decide=lambda plan: decided(plan), **of_job):
    """The valves of one head after the stage, and what was said."""
    findings = Findings()
    job = jobs.job(jobs.head(valves, **(head or {})), shop=jobs.shop(**(shop or {})), units=units, **of_job)
    plans = tuple(decide(plan) for plan in findings.held(started(job, findings)))
    judged = waiting(findings.held(cut(job, job.heads[0], at(Stood, plans), findings)))
    small = (into(InSetting, plan) for plan in judged)
    return reopen(job, job.heads[0], tuple(small), (), {}, findings), findings


def valve(*bores, name="E1", od=None, **more):
    cells = {**FORM, "low": bores, **more}
    readings = cut_readings(*bores, **cells)
    found = {} if od is None else {"insert_od": od}
    return replace(jobs.valve(name, found=found), cut=readings)


def one(*bores, od=None, **more):
    (plan,), findings = judged(valve(*bores, od=od), **more)
    return plan, findings


def test_a_bore_inside_its_drawn_in_limits_is_accepted_and_out_of_the_settings():
    plan, findings = one(44.00, 44.00, od=44.10)
    assert (plan.cut.verdict, plan.status) == ("accepted", "accepted")
    assert plan.cut.interference.value == pytest.approx(0.10)
    assert not still_to_bore(plan)
    assert "bore-big" not in jobs.slugs(findings)


def test_near_a_limit_it_cannot_be_told_on_either_side():
    # u = sqrt((0.002/sqrt(12))^2 + 0.001^2 + 0.001^2) = 0.00153, guard 1.65 (ISO 14253-1:2017): 0.0025 either side
    for bore in (44.018, 44.022, 43.978, 43.982):
        plan, findings = one(bore, bore)
        assert (plan.cut.verdict, plan.status) == ("measure-again", "measure-again"), bore
        assert "cold and clean" in jobs.texts(findings, "bore-cannot-be-told")
        assert not still_to_bore(plan)


def test_the_interference_and_its_uncertainty_are_those_of_the_readings():
    plan, _ = one(43.999, 44.003, od=44.10)
    assert plan.cut.interference.value == pytest.approx(44.10 - 44.001)
    assert plan.cut.u.value == pytest.approx((0.002**2 / 12 + 2e-6) ** 0.5)
    typed = {each.symbol for each in plan.cut.interference.walk()}
    assert {"bore_a", "bore_b", "bore_low_a", "bore_low_b", "od"} <= typed


def test_without_a_bore_gauge_the_bare_limits_count_and_it_is_said():
    for bore, verdict in ((44.0199, "accepted"), (44.0201, "big")):
        plan, findings = one(bore, bore, bore_gauge=None)
        assert plan.cut.verdict == verdict
        assert plan.cut.u is None
        assert "no-bore-gauge" in findings.not_checked()


def test_a_small_bore_is_opened_by_what_is_missing_to_the_aim():
    plan, findings = one(43.96, 43.96)
    assert (plan.cut.verdict, plan.status) == ("bore-again", "bore-again")
    assert plan.cut.open_by.value == pytest.approx(0.04)
    assert still_to_bore(plan)
    assert ways(plan) == ["measure-again", "insert", "turned", "hold"], "opened, it may come out big"
    said = jobs.texts(findings, "bore-small")
    assert "0.04 mm on diameter" in said
    assert "0.02 mm on radius" in said


def test_open_by_is_what_the_gauge_at_the_bench_shows():
    # An aluminium head at 40 °C read with a gauge at 40: at_bench(aim) - bored, not aim - bored
    warm = {"material_name": "aluminium", "temperature": jobs.degrees(40.0)}
    (plan,), _ = judged(valve(43.90, 43.90), head=warm, gauge=jobs.gauge(temperature=40.0),
                        bore_gauge=jobs.bore_gauge(temperature=40.0))  # fmt: skip
    growth = (1 + 20 * plan.cut.bore.inputs[0].inputs[3].value) / (1 + 20 * 11.5e-6)
    assert plan.cut.bore.value == pytest.approx(43.90 / growth)
    assert plan.cut.open_by.value == pytest.approx(44.00 * growth - 43.90)


@for_all(bore=some.floats(43.5, 43.97), read=some.floats(43.4, 44.0))
def test_opened_by_what_it_says_a_bore_comes_to_its_aim(bore, read):
    (plan,), _ = judged(valve(bore, bore, read=round(read, 3)))
    assert plan.cut.verdict == "bore-again"
    assert bore + plan.cut.open_by.value == pytest.approx(44.00, abs=1e-9)
    step = plan.cut.new_reading.value - plan.cut.read.value
    assert abs(bore + step - 44.00) <= 0.001 + 1e-9  # half a step of the setting gauge
    (again,), _ = judged(valve(bore + step, bore + step))
    assert again.cut.verdict == "accepted"


_ORDER = {"bore-again": 0, "measure-again": 1, "accepted": 1, "big": 2}


@for_all(bore=some.floats(43.9, 44.1), more=some.floats(0, 0.2))
def test_a_bigger_bore_is_never_judged_smaller(bore, more):
    first, _ = one(bore, bore)
    second, _ = one(bore + more, bore + more)
    assert _ORDER[second.cut.verdict] >= _ORDER[first.cut.verdict]
    if first.cut.verdict == "accepted":
        assert second.cut.verdict != "bore-again"


def test_the_overcut_that_a_bore_implies_is_kept():
    # Master 40.000 reads 40.002; read 44.480, bored 44.487: 0.009 (worked checks, first list)
    (plan,), _ = judged(valve(44.487, 44.487, read=44.480))
    assert plan.cut.overcut.value == pytest.approx(0.009)


def test_out_of_round_and_taper_are_taken_height_by_height():
    plan, _ = one(43.999, 44.003, od=44.10)
    assert plan.cut.round.value == pytest.approx(0.004)
    (plan,), _ = judged(valve(44.004, 44.006, low=(43.999, 44.001)))
    assert plan.cut.taper.value == pytest.approx(0.005)
    assert plan.cut.round.value == pytest.approx(0.002)


@pytest.mark.parametrize(
    "cells, slug",
    [
        ({"low": (43.994, 44.005)}, "bore-not-round"),
        ({"low": (43.988, 43.988)}, "bore-tapers"),
        ({"depths": (7.05, 7.06, 7.08, 7.05)}, "floor-not-square"),
        ({"depths": (7.15, 7.15, 7.15)}, "pocket-deep"),
    ],
)
def test_a_bore_of_the_right_size_and_the_wrong_form_is_not_accepted(cells, slug):
    (plan,), findings = judged(valve(44.0, 44.0, **cells))
    assert plan.status == "measure-again"
    assert slug in jobs.slugs(findings)


def test_one_reading_far_outside_is_told_though_the_mean_is_inside():
    shop = {"practice": jobs.practice(bore_round=0.05, bore_taper=0.05)}
    (plan,), findings = judged(valve(44.0, 44.0, low=(44.05, 44.0)), shop=shop)
    assert plan.status == "measure-again"
    assert "44.05" in jobs.texts(findings, "reading-outside")


def test_a_shallow_pocket_is_taken_deeper_at_the_same_setting():
    (plan,), findings = judged(valve(44.0, 44.0, depths=(6.95, 6.95, 6.95)))
    assert plan.status == "bore-again"
    assert plan.cut.deeper_by.value == pytest.approx(0.10)  # 7.05 is aimed at
    assert "0.10 mm deeper" in jobs.texts(findings, "pocket-shallow")
    assert plan.cut.open_by is None


def test_two_depths_show_nothing_of_a_tilt_between_them():
    # At 90 degrees two depths show 0 for a tilt at 45 (worked check 23)
    (plan,), findings = judged(valve(44.0, 44.0, depths=(7.05, 7.05)))
    assert plan.cut.floor_square is None
    assert plan.cut.depth.value == pytest.approx(7.05)
    assert "floor-square-not-known" in findings.not_checked()


def test_a_second_cut_of_a_pocket_keeps_the_first_as_it_was_read_without_an_insert_a_fit_or_a_verdict():
    first = cut_readings(43.95, 43.95, date="2026-11-24")
    again = replace(jobs.valve("E1"), cut=replace(cut_readings(44.0, 44.0, date="2026-11-25"), earlier=(first,)))
    for decide in (decided, lambda plan: decided(plan, od=44.06)):  # whichever insert is chosen later
        (plan,), findings = judged(again, decide=decide)
        (before,) = plan.cut.earlier
        assert (before.date, before.bore.value) == ("2026-11-24", pytest.approx(43.95))
        assert (before.insert_od, before.interference, before.u, before.verdict) == (None, None, None, None)
    (plan,), findings = judged(again)
    assert plan.cut.verdict == "accepted"
    assert "bore-small" not in jobs.slugs(findings)


def test_an_insert_measured_beside_the_bore_counts_before_the_one_measured_at_first():
    plan, _ = one(44.03, 44.03, od=44.10)
    assert plan.cut.verdict == "big"
    (plan,), _ = judged(valve(44.03, 44.03, od=44.10, insert_od=jobs.reading(44.13)))
    assert plan.cut.verdict == "accepted"
    assert plan.cut.interference.value == pytest.approx(0.10)


BY_HAND = (Note("crack in the floor", jobs.span(), ("E1",)),)


def test_a_big_bore_held_by_hand_stays_on_hold_is_told_that_it_is_big_and_gets_its_ways_out():
    twice = valve((44.05, 44.05), (44.05, 44.05))
    for bored, why, first in (
        (valve(44.05, 44.05), ["hold-by-hand"], ["measure-again"]),
        (twice, ["hold-by-hand", "bore-big"], []),
    ):
        (plan,), findings = judged(replace(bored, holds=BY_HAND))
        assert plan.status == Status.HOLD
        assert [hold.slug for hold in plan.holds] == why
        assert plan.cut.verdict == "big"
        assert ways(plan) == [*first, "turned", "hold"]
        assert "bore-big" in jobs.slugs(findings)


def test_a_small_bore_held_by_hand_is_told_that_it_is_small():
    (plan,), findings = judged(replace(valve(43.95, 43.95), holds=BY_HAND))
    assert plan.status == Status.HOLD
    assert plan.cut.open_by.value == pytest.approx(0.05)
    assert "bore-small" in jobs.slugs(findings)


def ways(plan):
    return [way.do for way in plan.if_big]


def test_a_big_bore_takes_the_insert_of_another_valve_by_name_when_that_one_is_served_too():
    own, other = valve(44.03, 44.03, od=44.10), jobs.valve("E2", found={"insert_od": 44.135})
    plans, findings = judged(own, other)
    big = plans[0]
    assert (big.cut.verdict, big.status) == ("big", "measure-again")
    assert ways(big) == ["measure-again", "insert", "turned", "hold"]
    assert (big.if_big[1].insert, big.if_big[1].valve) == ("X44", "E2")
    assert big.if_big[1].interference.value == pytest.approx(0.105)
    assert "(2) the X44 of E2" in jobs.texts(findings, "bore-big")


def test_an_insert_whose_own_pocket_needs_it_is_not_offered():
    # E2 is cut for its 44.135 already: 44.10 in its bore of 44.035 leaves 0.065.
    own = valve(44.03, 44.03, od=44.10)
    other = valve(44.035, 44.035, name="E2", od=44.135)
    plans, _ = judged(own, other)
    assert plans[1].status == "accepted"
    assert "insert" not in ways(plans[0])
    # Nor where the smaller insert's bore would not clean E2's pocket up.
    plans, _ = judged(own, jobs.valve("E2", found={"insert_od": 44.135}), decide=lambda p: decided(p, needed=43.99))
    assert "insert" not in ways(plans[0])


def test_an_insert_that_is_pressed_already_is_not_offered():
    from tests.planning.later_life import finished_readings

    pressed = replace(jobs.valve("E2", found={"insert_od": 44.135}), finished=finished_readings(stand=0.05))
    plans, _ = judged(valve(44.03, 44.03, od=44.10), pressed)
    assert "insert" not in ways(plans[0])


def test_a_stock_insert_is_offered_only_when_both_its_limits_fit():
    def decide(plan):
        made = decided(plan)
        return replace(made, insert=replace(made.insert, name="X44", alloy="tool steel", height=figure("h", 7.0),
                                            id=figure("id", 36.0), chamfer=figure("c", 0.9),
                                            chamfer_angle=figure("ca", 30.0)))  # fmt: skip

    for half, offered in ((0.005, True), (0.030, False)):
        shop = {"inserts": (jobs.insert("X44B", 44.13, half),)}
        (plan,), _ = judged(valve(44.03, 44.03, od=44.10), shop=shop, decide=decide)
        assert ("insert" in ways(plan)) == offered


def test_a_blank_turned_to_the_bore_gets_the_fit():
    plan, findings = one(44.03, 44.03, od=44.10)
    turned = next(way for way in plan.if_big if way.do == "turned")
    assert turned.od.value == pytest.approx(44.13)
    assert "44.11 to 44.15 mm" in jobs.texts(findings, "bore-big")


def test_a_big_bore_measured_once_is_measured_again_before_anything_else():
    with_next = lambda plan: replace(decided(plan), next=Next("X45", figure("bore", 44.9)))  # noqa: E731
    (plan,), findings = judged(valve(44.03, 44.03, od=44.10), decide=with_next)
    assert plan.status == "measure-again"
    assert ways(plan) == ["measure-again", "turned", "oversize", "hold"]
    plan, findings = one(44.03, 44.03, od=44.10)
    assert plan.status == "measure-again"
    assert findings.holds_of("E1") == ()


def test_measured_again_with_no_insert_in_hand_the_next_oversize_is_the_status_and_without_it_a_hold():
    twice = (44.03, 44.03)
    with_next = lambda plan: replace(decided(plan), next=Next("X45", figure("bore", 44.9)))  # noqa: E731
    (plan,), findings = judged(valve(twice, twice, od=44.10), decide=with_next)
    assert plan.status == "oversize"
    assert ways(plan) == ["turned", "oversize", "hold"]
    assert "say `insert X45`" in jobs.texts(findings, "bore-big")
    assert not still_to_bore(plan)
    (plan,), findings = judged(valve(twice, twice, od=44.10))
    assert plan.status == "hold"
    assert [hold.slug for hold in findings.holds_of("E1")] == ["bore-big"]


def test_measuring_again_is_the_first_thing_to_do_with_any_big_bore():
    for bore in (44.03, 44.2, 45.0):
        plan, _ = one(bore, bore)
        assert ways(plan)[0] == "measure-again"
        assert ways(plan)[-1] == "hold"


def turned(*bores, **more):
    cells = {**FORM, "low": bores, **more}
    wish = jobs.wish("turned")
    return replace(jobs.valve("E1", insert=wish), cut=cut_readings(*bores, **cells))


def no_insert(plan):
    return replace(decided(plan), insert=None)


def test_a_blank_gets_its_diameter_from_the_bore_as_cut_however_big():
    (plan,), findings = judged(turned(44.3, 44.3), decide=no_insert)
    assert plan.status == "accepted"
    assert (plan.insert.od_least.value, plan.insert.od_most.value) == pytest.approx((44.38, 44.42))
    assert "44.38 to 44.42 mm" in jobs.texts(findings, "turn-insert")
    assert "turned-bore-wide" in jobs.slugs(findings)


def test_the_plan_of_a_turned_insert_is_the_bore_as_cut_and_no_more_what_was_to_be_cleaned_up():
    for od in (None, jobs.reading(44.40)):
        (plan,), _ = judged(turned(44.3, 44.3, **({} if od is None else {"insert_od": od})), decide=no_insert)
        assert plan.status == "accepted"
        assert [each.value for each in (plan.bore.least, plan.bore.aim, plan.bore.most)] == pytest.approx([44.3] * 3)
        assert plan.bore.bench_aim.value == pytest.approx(44.3)
        assert plan.clean_up.left.value == pytest.approx(44.3 - 43.90)
    (small,), _ = judged(turned(43.9, 43.9), decide=no_insert)
    assert (small.status, small.bore.least.value) == ("bore-again", pytest.approx(43.98))


def test_the_limits_to_turn_to_are_said_rounded_inwards():
    # A bore of 44.3004 with 0.08 to 0.12: 44.3804 to 44.4204, of which 44.381 to 44.420 lies inside.
    _, findings = judged(turned(44.3004, 44.3004), decide=no_insert)
    assert "turn its insert to 44.381 to 44.42 mm" in jobs.texts(findings, "turn-insert")


def test_a_blank_that_was_turned_and_measured_is_judged_by_its_fit():
    for od, verdict in ((44.40, "accepted"), (44.35, "big"), (44.45, "bore-again")):
        (plan,), _ = judged(turned(44.3, 44.3, insert_od=jobs.reading(od)), decide=no_insert)
        assert plan.cut.verdict == verdict
        assert plan.insert.measured


def test_the_half_way_job_has_the_verdicts_done_by_hand():
    # By hand from jobs/half-way.seat: guard 1.65 of u about 0.0013. On its ring of 35 the bore gauge shows nothing too
    # much, on that of 44 0.001: 0.0002 at 36.5 and 0.0003 at 38, taken off every reading.
    plan = demo("half-way.seat")
    valves = {valve.name: valve for valve in plan.valves}
    assert {name: each.status for name, each in valves.items()} == {
        "I1": "measure-again",
        "E1": "accepted",
        "I2": "accepted",
        "E2": "bore-again",
        "I3": "accepted",
        "E3": "measure-again",
        "I4": "hold",
        "E4": "to-bore",
    }
    by_hand = {"I1": 0.0508, "E1": 0.0725, "I2": 0.0633, "E2": 0.0947, "E3": 0.0532}
    for name, interference in by_hand.items():
        assert valves[name].cut.interference.value == pytest.approx(interference, abs=1e-4)
    # Opened at the setting that it shares with E4, from what its own cut did: read 36.488, bored 36.4954.
    (setting,) = plan.settings
    assert valves["E2"].cut.new_reading.value == setting.reading.value == pytest.approx(36.514)
    assert valves["E2"].cut.open_by.value == pytest.approx(36.514 - 36.488, abs=1e-4)
    said = next(each for each in plan.messages if each.slug == "bore-small")
    assert "Open it by 0.026 mm on diameter, 0.013 mm on radius: C1 at 36.514." in said.help
    # I2 was cut at 37.980 before: the mean of what was read, 37.986, less the ring's 0.0003.
    (before,) = valves["I2"].cut.earlier
    assert (before.date, before.read.value, before.verdict) == ("2026-11-24", 37.980, None)
    assert before.bore.value == pytest.approx(37.9857, abs=1e-4)
    assert valves["E3"].cut.verdict == "big"
    way = valves["E3"].if_big[1]
    assert (way.do, way.insert, way.valve) == ("insert", "X36A", "E4")
    assert way.interference.value == pytest.approx(0.0672, abs=1e-4)
    ring = valves["I3"].insert
    assert (ring.od_least.value, ring.od_most.value) == pytest.approx((38.4681, 38.4941), abs=1e-4)
    assert [trial.overcut.value for trial in plan.trials] == pytest.approx([0.0074, 0.0075], abs=1e-4)
    assert [set(setting.valves) for setting in plan.settings] == [{"E2", "E4"}]
