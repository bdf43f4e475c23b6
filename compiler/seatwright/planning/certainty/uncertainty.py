"""How sure a fit is (handbook 11): the guard, what a planned and a measured bore are uncertain by, and what follows.

`Bore.u` and `Bore.u_accept` are standard uncertainties of the interference (budgets.py says why). The limits that a
bore is accepted by are those of the bench drawn in by guard times `u_accept`, then inwards to a step of the bore gauge.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from seatwright.handbook import acceptance, setting
from seatwright.handbook import uncertainty as sums
from seatwright.job.model import Head, Job
from seatwright.planning.basis.bore_gauge import shows
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.overcut import of_cutter, trials
from seatwright.planning.basis.verdicts import ACCEPTED
from seatwright.planning.basis.wording import length, name_key, span_of
from seatwright.planning.certainty import budgets
from seatwright.planning.certainty.as_made import MadePair, pair
from seatwright.planning.plan import Assembled, Bore, Fit, TrialPlan, ValvePlan, into
from seatwright.planning.plan.figure import Figure, assumed, computed, given

GUARD = 1.65
"""Times the standard uncertainty, where the shop does not say: 95 % on one side (ISO 14253-1:2017)."""

_SOURCE = "handbook 11, ISO 14253-1:2017"
_INWARDS = "rounded inwards to the step of the bore gauge"


def uncertainty(job: Job, head: Head, plans: tuple[Assembled, ...], findings: Findings) -> tuple[ValvePlan, ...]:
    """The valves of a head with `u`, `u_accept`, the limits of acceptance of their bores, and how likely the fit is."""
    made = trials(job, head, Findings())  # what there is to say of the trials was said when the cutter was set
    return tuple(_certain(job, head, plan, made, findings) for plan in plans)


def guard_of(job: Job, findings: Findings) -> Figure:
    """How many standard uncertainties limits are drawn in by: the shop's, 1.65 where left out, 0 turns it off."""
    guard = job.shop.practice.guard
    if guard is not None:
        return given("guard", "1", guard)
    findings.notice(
        "guard-left-out",
        f"`guard` is left out of the shop's practice: limits are drawn in by {GUARD:g} times the standard uncertainty.",
        "Write `guard 1.65`, or `guard 0` to turn it off.",
    )
    return assumed("guard", "1", GUARD, "language: guard left out")


def probability(interference: Figure, u: Figure, least: Figure, most: Figure) -> Figure:
    """How likely an interference lies inside its limits [-], if what is not known of it is normal."""
    value = sums.conformance_probability(interference.value, u.value, least.value, most.value)
    names = (most.symbol, interference.symbol, least.symbol, u.symbol)
    formula = "Phi(({0} - {1})/{3}) - Phi(({2} - {1})/{3})".format(*names)
    return computed("P", "1", value, formula, (most, interference, least, u), f"{_SOURCE}, JCGM 106:2012, 7.2",
                    "show whole per cent, no more than over 99 %")  # fmt: skip


def _certain(job: Job, head: Head, plan: Assembled, made: Sequence[TrialPlan], findings: Findings) -> ValvePlan:
    bore = None if plan.bore is None else _bore(job, head, plan, plan.bore, made, findings)
    sure = into(ValvePlan, plan, bore=bore)
    likely = _likely(job, head, sure, findings)
    return sure if likely is None else replace(sure, fit=replace(sure.fit or Fit(), in_limits_probability=likely))


def _bore(job: Job, head: Head, plan: Assembled, bore: Bore, made: Sequence[TrialPlan], findings: Findings) -> Bore:
    if plan.turned and plan.cut is not None and plan.cut.bore_verdict == ACCEPTED:
        return bore  # planned as it was cut, and accepted: there is nothing left to bore, nor to accept
    u = bore.u or _u(job, head, plan, bore, made, findings)
    u_accept = budgets.accepted(job, head, plan, findings)
    least, most = (
        shows(job, head, each, symbol, findings, (plan.name,))
        for each, symbol in ((bore.least, "shown_least"), (bore.most, "shown_most"))
    )
    bore = _single_readings(job, replace(bore, u=u, u_accept=u_accept), least, most)
    return bore if u_accept is None else _accepted_within(job, plan, bore, least, most, u_accept, findings)


def _single_readings(job: Job, bore: Bore, least: Figure, most: Figure) -> Bore:
    """What one reading of an oval bore may show, rounded inwards to the step of the bore gauge."""
    if job.shop.practice.bore_round is None:
        return bore
    allowed = given("bore_round", "mm", job.shop.practice.bore_round)
    low, high = acceptance.reading_limits(least.value, most.value, allowed.value)
    step = _step(job)
    inside = (low, high) if step is None else setting.round_inwards(low, high, step.value)
    if inside is None:
        return bore
    inputs, note = ((allowed,), "") if step is None else ((allowed, step), _INWARDS)
    return replace(
        bore,
        reading_least=computed("reading_least", "mm", inside[0], f"{least.symbol} - bore_round/2", (least, *inputs),
                               "handbook 11", note),
        reading_most=computed("reading_most", "mm", inside[1], f"{most.symbol} + bore_round/2", (most, *inputs),
                              "handbook 11", note),
    )  # fmt: skip


def _step(job: Job) -> Figure | None:
    return given("step", "mm", job.bore_gauge.step) if job.bore_gauge and job.bore_gauge.step else None


def _u(
    job: Job, head: Head, plan: Assembled, bore: Bore, made: Sequence[TrialPlan], findings: Findings
) -> Figure | None:
    """The planned uncertainty where the setting of the cutter has not already told it."""
    if plan.cutter is None:
        return None
    name = name_key(plan.cutter)
    cutter = next((one for one in job.shop.cutters if name_key(one.name.text) == name), None)
    if cutter is None:
        return None
    return budgets.planned_uncertainty(job, head, plan.name, bore.aim, cutter, of_cutter(made, cutter), findings)


def _accepted_within(
    job: Job, plan: Assembled, bore: Bore, least: Figure, most: Figure, u_accept: Figure, findings: Findings
) -> Bore:
    guard, step = guard_of(job, findings), _step(job)
    drawn = guard.value * u_accept.value
    window = sums.guarded(least.value, most.value, guard.value, u_accept.value)
    if window is not None and step is not None:
        window = setting.round_inwards(*window, step.value)
    if window is None:
        findings.warning(
            "nothing-left-to-accept",
            f"No reading of the bore gauge between {span_of(job, least.value, most.value)} can be "
            f"accepted for sure: {length(job, drawn, 5 if job.units == 'inch' else 4)} at either end is not known.",
            "Measure the insert in hand, use a bore gauge and a ring that are known better, or accept the risk with a "
            "smaller `guard`.",
            plan.valve.span,
            (plan.name,),
        )
        return bore
    inputs = (guard, u_accept) if step is None else (guard, u_accept, step)
    note = "" if step is None else _INWARDS
    return replace(
        bore,
        accept_least=computed(
            "accept_least", "mm", window[0], f"{least.symbol} + guard * u_accept", (least, *inputs), _SOURCE, note
        ),
        accept_most=computed(
            "accept_most", "mm", window[1], f"{most.symbol} - guard * u_accept", (most, *inputs), _SOURCE, note
        ),
    )


def _likely(job: Job, head: Head, plan: Assembled, findings: Findings) -> Figure | None:
    """How likely the planned or measured bore gives a fit inside its limits."""
    wanted, made = plan.interference, pair(job, head, plan, findings)
    if wanted is None or made is None or plan.left_alone:
        return None
    u = budgets.accepted(job, head, plan, findings, made.bore) if made.measured else plan.bore.u if plan.bore else None
    if u is None:
        return None
    return probability(made.interference, _with_od(u, made), wanted.least, wanted.most)


def _with_od(u: Figure, made: MadePair) -> Figure:
    """An insert known by its list limits only may be anything between them."""
    spread = budgets.od_spread(made.od_least, made.od_most)
    return u if spread is None else budgets.together("u_fit", (u, spread))
