"""How sure a fit is, through the stage (handbook 11)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies
from msgspec.structs import replace
from scipy.stats import norm
from tests.planning import jobs
from tests.planning.phases import at
from tests.planning.seated import bench, metal, plan_of, plans_of, rests_wrongly, valve
from uncertainties import ufloat

from seatwright.handbook import uncertainty as sums
from seatwright.job.model import CutReadings, Master, Trial
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.overcut import trials
from seatwright.planning.certainty import budgets
from seatwright.planning.certainty.budgets import budget_rows
from seatwright.planning.certainty.uncertainty import guard_of, probability, uncertainty
from seatwright.planning.plan import Assembled
from seatwright.planning.plan.figure import given as figure

ALUMINIUM = metal("al", expansion=((300.0, 22e-6),))


def job_of(*valves, gauge=None, bore_gauge=None, limits=None, insert=0.001, head=None, **more):
    """An aluminium head at 20 C, both gauges with step .002, master or ring .001, repeatability .001."""
    practice = jobs.practice(
        insert_uncertainty=None if insert is None else jobs.spread(insert), guard=more.pop("guard", 1.65)
    )
    head = {"temperature_limits": limits, **(head or {})}
    return bench(
        *(valves or (valve(),)),
        material=ALUMINIUM,
        head={key: value for key, value in head.items() if value is not None},
        practice=practice,
        cutters=(jobs.cutter(),),
        **{"gauge": gauge or jobs.gauge(), "bore_gauge": bore_gauge or jobs.bore_gauge(), **more},
    )


def both(job, made=()):
    head, findings = job.heads[0], Findings()
    plan = plan_of(job, head, head.valves[0])
    return (
        budgets.planned_uncertainty(job, head, plan.name, plan.bore.aim, job.shop.cutters[0], made, findings),
        budgets.accepted(job, head, plan, findings),
        findings,
    )


def planned(job):
    findings = Findings()
    return uncertainty(job, job.heads[0], at(Assembled, plans_of(job)), findings)[0], findings


# --- the budgets ----------------------------------------------------------------------------------------------------


def test_a_planned_bore_is_uncertain_by_gauge_master_overcut_and_insert():
    u, _, _ = both(job_of())
    by_hand = math.sqrt(0.002**2 / 12 + 0.001**2 + 0.001**2 + 0.002**2 + 0.001**2)
    assert u.value == pytest.approx(by_hand, rel=1e-12)
    # Against the independent package: bore = reading - (error of the master) + overcut, interference = od - bore.
    step, repeat, master = ufloat(0, 0.002 / math.sqrt(12)), ufloat(0, 0.001), ufloat(40.002, 0.001)
    bore = 38.016 + step + repeat - (master - 40.0) + ufloat(0.006, 0.002)
    assert u.value == pytest.approx((ufloat(38.1, 0.001) - bore).std_dev, rel=1e-9)


def test_a_measured_bore_owes_nothing_to_the_overcut():
    _, u, _ = both(job_of())
    assert u.value == pytest.approx(math.sqrt(0.002**2 / 12 + 3 * 0.001**2), rel=1e-12)
    assert "u_overcut" not in {share.symbol for share in u.inputs}


def test_the_table_names_source_figure_divisor_and_contribution():
    gauge = replace(jobs.gauge(), master_uncertainty=jobs.spread(0.003, rectangular=True))
    u, _, _ = both(job_of(gauge=gauge))
    rows = [
        (row.source, round(row.figure.value, 6), row.divisor, round(row.contribution.value, 6))
        for row in budget_rows(u)
    ]
    assert rows == [
        ("step of the setting gauge", 0.002, "sqrt(12)", 0.000577),
        ("master of the setting gauge", 0.003, "sqrt(3)", 0.001732),
        ("repeatability of the setting gauge", 0.001, "1", 0.001),
        ("spread of the overcut of C1", 0.002, "1", 0.002),
        ("diameter of the insert", 0.001, "1", 0.001),
    ]
    assert math.hypot(*(row[3] for row in rows)) == pytest.approx(u.value, abs=1e-6)


@pytest.mark.parametrize("n", [1, 2, 5])
def test_after_trials_the_spread_counts_for_their_mean_and_for_the_next_bore(n):
    job = job_of()
    one = Trial(jobs.named("C1"), jobs.reading(38.480), jobs.reading(38.487), jobs.span())
    other = Trial(jobs.named("C2"), jobs.reading(38.480), jobs.reading(38.487), jobs.span())
    head = replace(job.heads[0], trials=(*(one,) * n, other))
    u, _, _ = both(replace(job, heads=(head,)), trials(job, head, Findings()))
    share = next(each for each in u.inputs if each.symbol == "u_overcut")
    assert share.value == pytest.approx(0.002 * math.sqrt(1 + 1 / n), rel=1e-12)


@pytest.mark.parametrize("n", [0, 1, 2, 5])
def test_both_budgets_of_a_plan_are_those_of_the_handbook(n):
    job = job_of()
    head = job.heads[0]
    trial = Trial(jobs.named("C1"), jobs.reading(38.480), jobs.reading(38.487), jobs.span())
    u, accepted, _ = both(job, trials(job, replace(head, trials=(trial,) * n), Findings()))
    gauge, insert = sums.InstrumentErrors(0.002, 0.001, 0.001), (sums.Contribution("insert", 0.001),)
    bore = sums.planning_budget(gauge, 0.002, n, gauge if n else None, insert)
    assert u.value == pytest.approx(sums.combined(bore), rel=1e-12)
    assert accepted.value == pytest.approx(sums.combined(sums.acceptance_budget(gauge, insert)), rel=1e-12)


def told(job, *pairs):
    head = job.heads[0]
    made = tuple(Trial(jobs.named("C1"), jobs.reading(read), jobs.reading(bored), jobs.span()) for read, bored in pairs)
    return trials(job, replace(head, trials=made), Findings())


@pytest.mark.parametrize("n", [1, 2, 3])
def test_after_trials_on_the_one_master_the_bore_gauge_that_read_them_takes_the_masters_place(n):
    # JCGM 100:2008, 5.1.2: ring in full, step and repeatability by the root of n; what the master is off by cancels.
    gauge = replace(jobs.gauge(), master_uncertainty=jobs.spread(0.004))
    bore_gauge = replace(jobs.bore_gauge(), ring_uncertainty=jobs.spread(0.0012), repeatability=jobs.spread(0.0008))
    job = job_of(gauge=gauge, bore_gauge=bore_gauge)
    u, _, _ = both(job, told(job, *[(38.0, 38.006)] * n))
    setting = (0.002**2 / 12, 0.001**2)
    read_by = (0.0012**2, 0.002**2 / 12 / n, 0.0008**2 / n)
    assert u.value == pytest.approx(math.sqrt(sum(setting) + sum(read_by) + 0.002**2 * (1 + 1 / n) + 0.001**2))


def test_between_several_masters_what_differs_from_the_trial_stays():
    masters = tuple(Master(jobs.given(size), jobs.given(size)) for size in (34.0, 42.0))
    gauge = replace(jobs.gauge(), masters=masters, master_uncertainty=jobs.spread(0.004))
    job = job_of(gauge=gauge)
    aim = 38.02
    here, _, _ = both(job, told(job, (aim, aim)))
    there, _, _ = both(job, told(job, (34.0, 34.0)))
    # From the trial at the first master to the aim the weights move by (38.02 - 34)/8 each.
    weight = math.sqrt(2) * (aim - 34.0) / 8.0
    assert there.value**2 - here.value**2 == pytest.approx((0.004 * weight) ** 2, rel=1e-6)


def test_trials_that_no_bore_gauge_is_known_for_leave_the_masters_out_all_the_same():
    job = job_of()
    job = replace(job, bore_gauge=None)
    u, _, _ = both(job, told(job, (38.0, 38.006)))
    assert "master" not in {row.source.split()[0] for row in budget_rows(u)}


def test_temperatures_known_within_a_degree_count_with_the_growth_of_metal_and_gauge():
    gauge = replace(jobs.gauge(), temperature_limits=jobs.given(0.5, "0.5 C"))
    u, _, _ = both(job_of(gauge=gauge, limits=jobs.given(1.0, "1 C")))
    shares = {share.symbol: share.value for share in u.inputs}
    # The aim is 38.1 - 0.08 = 38.02.
    assert shares["u_T_head"] == pytest.approx(38.02 * 22e-6 * 1.0 / math.sqrt(3), rel=1e-9)
    assert shares["u_T_gauge"] == pytest.approx(38.02 * 11.5e-6 * 0.5 / math.sqrt(3), rel=1e-9)


def test_one_temperature_for_both_counts_with_the_difference_of_their_growth():
    u, _, _ = both(job_of(gauge=jobs.gauge(temperature=None), limits=jobs.given(1.0, "1 C")))
    shares = {share.symbol: share.value for share in u.inputs}
    assert shares["u_T"] == pytest.approx(38.02 * (22e-6 - 11.5e-6) / math.sqrt(3), rel=1e-9)
    assert "u_T_head" not in shares


# --- what is missing ------------------------------------------------------------------------------------------------


def test_what_is_not_given_is_said_and_not_counted_as_nothing_in_silence():
    bare = replace(jobs.gauge(), step=None, repeatability=None)
    u, _, findings = both(job_of(gauge=bare, insert=None))
    assert {share.symbol for share in u.inputs} == {"u_master", "u_overcut"}
    assert "no `step` and no `repeatability`" in jobs.texts(findings, "setting-gauge-uncertainty")
    said = {"setting-gauge-uncertainty", "insert-uncertainty-not-given", "temperature-uncertainty"}
    assert said <= set(findings.not_checked())


def test_a_cutter_whose_overcut_may_vary_is_said_to_have_no_spread():
    job = job_of()
    cutter = replace(job.shop.cutters[0], overcut_spreads=())
    _, _, findings = both(replace(job, shop=replace(job.shop, cutters=(cutter,))))
    assert "C1" in jobs.texts(findings, "overcut-spread-not-given")


def test_without_a_setting_gauge_no_planned_uncertainty_and_without_a_bore_gauge_none_of_acceptance():
    u, u_accept, findings = both(replace(job_of(), gauge=None, bore_gauge=None))
    assert (u, u_accept) == (None, None)
    assert {"setting-gauge-uncertainty", "no-bore-gauge"} <= set(findings.not_checked())


def test_the_guard_is_1_65_where_left_out_with_a_notice_and_0_turns_it_off():
    findings = Findings()
    assert guard_of(job_of(guard=None), findings).value == 1.65
    assert "guard-left-out" in jobs.slugs(findings)
    assert guard_of(job_of(guard=0), Findings()).value == 0


# --- limits of acceptance -------------------------------------------------------------------------------------------


def test_limits_of_acceptance_are_drawn_in_by_the_guard_and_then_inwards_to_a_step():
    made, _ = planned(job_of())
    # 38.01 to 38.03 at 20 C; u = 0.001826, times 1.65 = 0.003013: 38.013013 to 38.026987, in steps of 0.002.
    assert made.bore.u_accept.value == pytest.approx(0.001826, abs=1e-6)
    assert (made.bore.accept_least.value, made.bore.accept_most.value) == (38.014, 38.026)


def test_limits_of_acceptance_are_what_the_bore_gauge_shows_at_the_bench():
    made, _ = planned(job_of(head={"temperature": jobs.degrees(24.0)}, guard=0))
    # Aluminium 4 C over, gauge at 20: 38.01 reads 38.01334, 38.03 reads 38.03335.
    assert (made.bore.accept_least.value, made.bore.accept_most.value) == (38.014, 38.032)


def test_where_the_guard_leaves_nothing_to_accept_that_is_said():
    made, findings = planned(job_of(valve(interference=(0.078, 0.082))))
    assert (made.bore.accept_least, made.bore.accept_most) == (None, None)
    assert made.bore.u_accept is not None
    assert "nothing-left-to-accept" in jobs.slugs(findings)


@given(strategies.floats(0, 3), strategies.floats(0, 3))
def test_a_larger_guard_never_accepts_more(first, second):
    small, large = (planned(job_of(guard=k))[0].bore for k in sorted((first, second)))
    if large.accept_least is None:
        return
    assert small.accept_least.value <= large.accept_least.value
    assert large.accept_most.value <= small.accept_most.value


# --- probability ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("mean", "u", "least", "most"), [(0.08, 0.005, 0.07, 0.09), (0.085, 0.004, 0.07, 0.09), (0.1, 0.01, 0, 0.09)]
)
def test_the_probability_of_the_fit_is_that_of_the_normal_curve(mean, u, least, most):
    figures = (jobs.given(each) for each in (mean, u, least, most))
    value = probability(*(figure("x", "mm", each) for each in figures)).value
    assert value == pytest.approx(norm.cdf(most, mean, u) - norm.cdf(least, mean, u), abs=1e-12)


def test_a_planned_fit_has_its_probability():
    made, _ = planned(job_of())
    u = made.bore.u.value
    assert made.fit.in_limits_probability.value == pytest.approx(2 * norm.cdf(0.01 / u) - 1, abs=1e-12)


def test_an_insert_known_by_its_list_limits_may_be_anywhere_between_them():
    listed = jobs.insert("I38", 38.1, 0.004, alloy="tool steel")
    job = job_of(valve(found={"insert_od": None}))
    made, _ = planned(replace(job, shop=replace(job.shop, inserts=(listed,))))
    spread = math.hypot(made.bore.u.value, 0.004 / math.sqrt(3))
    assert made.fit.in_limits_probability.value == pytest.approx(2 * norm.cdf(0.01 / spread) - 1, abs=1e-12)


def test_a_bore_that_was_measured_is_judged_by_what_acceptance_is_uncertain_by():
    cut = replace(valve(), cut=CutReadings(bore_a=jobs.reading(38.026), bore_b=jobs.reading(38.026)))
    made, _ = planned(job_of(cut))
    u = made.bore.u_accept.value
    expected = norm.cdf(0.09, 0.074, u) - norm.cdf(0.07, 0.074, u)
    assert made.fit.in_limits_probability.value == pytest.approx(expected, abs=1e-6)


def test_a_kept_pocket_has_its_probability_though_nothing_is_bored():
    job = job_of(valve(found={"pocket_a": 38.024, "pocket_b": 38.024}))
    head, findings = job.heads[0], Findings()
    plan = replace(plan_of(job, head, head.valves[0], "kept"), bore=None)
    made = uncertainty(job, head, at(Assembled, (plan,)), findings)[0]
    u = math.sqrt(0.002**2 / 12 + 3 * 0.001**2)
    expected = norm.cdf(0.09, 0.076, u) - norm.cdf(0.07, 0.076, u)
    assert made.fit.in_limits_probability.value == pytest.approx(expected, abs=1e-6)


# --- the trace ------------------------------------------------------------------------------------------------------


def test_moving_one_line_moves_exactly_the_figures_that_rest_on_it():
    gauge = replace(jobs.gauge(), temperature_limits=jobs.given(0.5, "0.5 C"))
    bore_gauge = replace(jobs.bore_gauge(), temperature_limits=jobs.given(0.5, "0.5 C"))
    job = job_of(gauge=gauge, bore_gauge=bore_gauge, limits=jobs.given(1.0, "1 C"))
    job = replace(job, heads=(replace(job.heads[0], temperature=jobs.degrees(24.0)),))

    def figures(job):
        made = uncertainty(job, job.heads[0], at(Assembled, plans_of(job)), Findings())[0]
        # Limits rounded to a step do not move with a hundredth of a thou: they are checked above.
        return {"u": made.bore.u, "u_accept": made.bore.u_accept}

    assert len(figures(job)) == 2
    assert rests_wrongly(job, figures, by=1e-3) == []
