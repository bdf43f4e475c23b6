"""The finished valve against its limits."""

import pytest
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.later_life import decided, demo, finished_readings, started
from tests.planning.phases import at

from seatwright.job.model import Leak
from seatwright.planning.after.finished import finished
from seatwright.planning.basis.findings import Findings
from seatwright.planning.plan import CutPlan, Judged, Pocketed, ValvePlan, into
from seatwright.planning.seat.seat import seat

LIMITED = {
    "seat_width": (1.6, 2.0),
    "recession": (0.45, 0.90),
    "stem_height": (40.95, 41.45),
    "spring_height": (37.7, 38.3),
    "seat_runout": 0.05,
}

GOOD = {
    "stand": 0.05,
    "seat_tir": 0.03,
    "seat_width": 1.8,
    "recession": 0.70,
    "stem_height": 41.20,
    "spring_height": 38.0,
    "leak": "pass",
    "pressure_test": "pass",
}


def done(
    status="accepted", practice=None, limits=LIMITED, bored="accepted", insert=None, found=None, head=None, **cells
):
    """One valve after the stage. bored: the verdict on its bore, None where nothing was cut. cells: over the good ones,
    None to leave one out."""
    findings = Findings()
    rows = {name: cell for name, cell in {**GOOD, **cells}.items() if cell is not None}
    wish = None if insert is None else jobs.wish(insert)
    valve = replace(jobs.valve("E1", insert=wish, found=found, **limits), finished=finished_readings(**rows))
    leak = Leak(jobs.given(3.0, "3 s"), "85 to 58 kPa")
    job = jobs.job(
        jobs.head([valve], **(head or {})), shop=jobs.shop(practice=jobs.practice(**{"leak": leak, **(practice or {})}))
    )
    plans = seat(job, job.heads[0], at(Pocketed, started(job)), Findings())
    made = None if bored is None else CutPlan(verdict=bored)
    plans = (into(ValvePlan, plan, cut=made) for plan in plans)
    plans = tuple(replace(decided(plan), status=status) if insert is None else plan for plan in plans)
    return finished(job, job.heads[0], at(Judged, plans), findings)[0], findings


def verdict_of(plan, name):
    return dict(plan.finished.verdicts)[name]


def test_a_valve_that_passes_all_is_finished():
    plan, findings = done()
    assert (plan.status, plan.finished.verdict) == ("finished", "pass")
    assert set(dict(plan.finished.verdicts)) == set(GOOD)
    assert jobs.slugs(findings) == []


@pytest.mark.parametrize(
    "name, value",
    [
        ("stand", 0.12),
        ("stand", -0.02),
        ("seat_tir", 0.06),
        ("seat_width", 2.1),
        ("seat_width", 1.5),
        ("recession", 0.95),
        ("recession", 0.40),  # under the least the valve may touch the piston (TM 10-4320-310-14, S96)
        ("stem_height", 41.50),  # limit 41.45 mm (S21)
        ("stem_height", 40.90),
        ("spring_height", 38.4),
        ("spring_height", 37.6),
        ("leak", "fail"),
        ("pressure_test", "fail"),
    ],
)
def test_what_fails_is_said_and_keeps_the_valve_open(name, value):
    plan, findings = done(**{name: value})
    assert plan.status == "accepted"
    assert plan.finished.verdict == "fail"
    assert [each for each, verdict in plan.finished.verdicts if verdict == "fail"] == [name]
    slug = f"{name.replace('_', '-')}-fails"
    assert slug in jobs.slugs(findings)
    assert len(jobs.texts(findings, slug)) > 60


@pytest.mark.parametrize("name", ["stand", "seat_tir", "seat_width", "recession", "stem_height", "spring_height"])
def test_a_figure_on_its_limit_passes(name):
    limit = {"stand": 0.10, "seat_tir": 0.05, "seat_width": 2.0, "recession": 0.90, "stem_height": 41.45,
             "spring_height": 38.3}[name]  # fmt: skip
    plan, _ = done(**{name: limit})
    assert verdict_of(plan, name) == "pass"


def test_a_time_is_held_against_the_shops_leak():
    # 3 s or more from 85 to 58 kPa (K19, S8)
    for seconds, verdict in ((3.0, "pass"), (5.0, "pass"), (2.5, "fail")):
        plan, _ = done(leak=None, leak_seconds=jobs.reading(seconds))
        assert verdict_of(plan, "leak") == verdict


def test_a_time_without_the_shops_leak_is_on_the_record_and_not_judged():
    plan, findings = done(leak=None, leak_seconds=jobs.reading(1.0), practice={"leak": None})
    assert "leak" not in dict(plan.finished.verdicts)
    assert plan.finished.leak_s.value == 1.0
    assert "leak-not-judged" in findings.not_checked()


def test_what_has_a_limit_and_is_not_measured_keeps_the_valve_from_being_finished():
    plan, findings = done(leak=None, seat_width=None)
    assert (plan.status, plan.finished.verdict) == ("accepted", None)
    said = jobs.texts(findings, "not-yet-finished")
    assert "`seat-width` and `leak`" in said


def test_what_was_measured_and_has_no_limit_is_not_judged():
    plan, findings = done(limits={**LIMITED, "stem_height": None})
    assert "stem_height" not in dict(plan.finished.verdicts)
    assert plan.finished.stem_height.value == pytest.approx(41.20)
    assert plan.status == "finished"
    assert "stem-height-not-judged" in findings.not_checked()


def test_an_aim_alone_judges_nothing():
    plan, _ = done(limits={**LIMITED, "seat_width": jobs.limits(None, None, nominal=1.8)}, seat_width=5.0)
    assert "seat_width" not in dict(plan.finished.verdicts)


def test_a_valve_on_hold_is_not_finished_by_good_figures():
    plan, _ = done(status="hold")
    assert (plan.status, plan.finished.verdict) == ("hold", "pass")


@pytest.mark.parametrize(
    "status, bored",
    [("to-bore", None), ("measure-again", "measure-again"), ("bore-again", "bore-again"), ("oversize", "big"),
     ("hold", "big"), ("to-bore", "not judged")],
)  # fmt: skip
@pytest.mark.parametrize("recession", [0.70, 0.95])
def test_over_an_open_bore_nothing_is_judged_and_the_valve_stays_as_it_stands(status, bored, recession):
    plan, findings = done(status=status, bored=None if bored == "not judged" else bored, recession=recession)
    assert plan.status == status
    assert (plan.finished.verdicts, plan.finished.verdict) == ((), None)
    assert plan.finished.recession.value == recession
    assert jobs.slugs(findings) == ["finished-on-open-bore"]


def test_a_pressure_test_that_fails_is_said_over_an_open_bore_too():
    plan, findings = done(status="to-bore", bored=None, pressure_test="fail")
    assert plan.finished.verdict is None
    assert jobs.slugs(findings) == ["finished-on-open-bore", "pressure-test-fails"]


@pytest.mark.parametrize("recession, verdict", [(0.70, "pass"), (0.95, "fail")])
def test_a_valve_left_alone_is_judged_by_the_limits_of_all_and_stays_left_alone(recession, verdict):
    plan, findings = done(status="left-alone", bored=None, insert="none", recession=recession, stand=None)
    assert (plan.status, plan.finished.verdict) == ("left-alone", verdict)
    assert verdict_of(plan, "recession") == verdict
    assert {"stem_height", "spring_height", "seat_tir", "seat_width"} <= set(dict(plan.finished.verdicts))
    assert jobs.slugs(findings) == ([] if verdict == "pass" else ["recession-fails"])


def test_a_head_that_nobody_pressure_tested_is_said():
    plan, findings = done(pressure_test=None)
    assert plan.status == "finished"
    assert "pressure-test-not-made" in findings.not_checked()
    assert [each.severity for each in findings.messages()] == ["warning"]


def test_a_pressure_test_before_the_work_is_none_after_it():
    _, findings = done(pressure_test=None, head={"pressure_test": "held 2 bar for 5 min"})
    assert "That of before says: held 2 bar for 5 min." in jobs.texts(findings, "pressure-test-not-made")


def test_the_demo_job_that_is_ready_to_leave_is_finished_throughout():
    # By hand from jobs/ready-to-leave.seat
    plan = demo("ready-to-leave.seat")
    assert {valve.status for valve in plan.valves} == {"finished"}
    assert {valve.cut.verdict for valve in plan.valves} == {"accepted"}
    by_hand = {"I1": 0.0773, "E1": 0.0833, "I2": 0.0793, "E2": 0.081}
    for valve in plan.valves:
        # By hand at bench temperature, less what the bore gauge shows too much between its rings, 0.0003 at 37.4 (its
        # smaller ring reads true, and stands beyond 33.4: taken as read); an aluminium head at 22 °C is 0.0007 smaller.
        assert valve.cut.interference.value == pytest.approx(by_hand[valve.name], abs=1e-3)
    assert plan.settings == ()


def test_nothing_is_fetched_any_more_for_valves_that_are_finished():
    fetched = demo("ready-to-leave.seat").fetch
    assert (fetched.inserts, fetched.cutters, fetched.pilots, fetched.heat_C) == ((), (), (), None)
