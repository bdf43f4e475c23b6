"""Which readings of the setting gauge each valve allows, in whole steps of the gauge."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import setting
from seatwright.job.model import Cutter, Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.masters import gauge_error
from seatwright.planning.basis.temperatures import Conditions, head_at_bench
from seatwright.planning.basis.wording import length, name_key, said, span_of
from seatwright.planning.certainty.budgets import planned_uncertainty
from seatwright.planning.certainty.uncertainty import guard_of
from seatwright.planning.plan import Bore, Overcut, Passed, TrialPlan
from seatwright.planning.plan.figure import Figure, assumed, computed

NO_STEP = 1e-6
"""Step by which windows are counted where no instrument rounds them [mm]: a nanometre."""


class Gauging(Struct, frozen=True):
    """All that turns a bore at 20 °C into a reading, for one cutter under one head. step: None for no gauge's step."""

    conditions: Conditions | None
    overcut: Overcut
    step: float

    def bench(self, bore: Figure) -> Figure:
        """What the setting gauge would show of a bore."""
        return self.conditions.at_bench(bore, f"{bore.symbol}_bench") if self.conditions else bore


class Window(Struct, frozen=True):
    """The readings that one valve allows.

    first, last : whole steps of the gauge inside [counts of step]; one step, the nearest to the aim, where none is
    aim : where the valve is wanted [counts of step]
    least, most : bore limits that the window stands for, drawn in by the guard where it is known, at 20 °C
    emptied : no whole step lies inside: trial cut in this bore
    overcut : what its cutter bores bigger than it is set; of a bore to be opened, what that very setting did
    """

    plan: Passed
    bore: Bore
    first: int
    last: int
    aim: float
    least: Figure
    most: Figure
    error: Figure
    emptied: bool
    overcut: Overcut


def gauging(job: Job, head: Head, overcut: Overcut, findings: Findings) -> Gauging:
    """The setting gauge at the bench of this head."""
    conditions = (
        head_at_bench(job, head, findings, gauge=job.gauge) if job.gauge else head_at_bench(job, head, findings)
    )
    step = job.gauge.step.value if job.gauge and job.gauge.step else NO_STEP
    return Gauging(conditions, overcut, step)


def windows(
    job: Job,
    head: Head,
    plans: Sequence[Passed],
    cutter: Cutter,
    trials: tuple[TrialPlan, ...],
    gauge: Gauging,
    findings: Findings,
) -> tuple[Window, ...]:
    """The windows of all valves bored with one cutter; a valve whose reading cannot be computed is left out."""
    found = []
    for plan in plans:
        bore = plan.bore
        if bore is None:
            continue
        own = own_trial(plan, cutter)
        u = planned_uncertainty(job, head, plan.name, bore.aim, cutter, trials if own is None else (own,), findings)
        if u is not None:
            bore = replace(bore, u=u)
        shown_wrong = _error(job, gauge.bench(bore.aim), findings, plan.name)
        if shown_wrong is not None:
            overcut = gauge.overcut
            if own is not None and own.overcut is not None:
                overcut = Overcut(own.overcut, "bore", 1, gauge.overcut.spread)
            found.append(_window(job, replace(plan, bore=bore), bore, gauge, shown_wrong, overcut, findings))
    return tuple(found)


def own_trial(plan: Passed, cutter: Cutter) -> TrialPlan | None:
    """What this very cutter did in a bore that came out small: it is opened from there. None for any other bore."""
    made = plan.cut
    if made is None or made.read is None or made.bore is None or made.overcut is None:
        return None
    if made.cutter is not None and name_key(made.cutter) != name_key(cutter.name.text):
        return None
    return TrialPlan(plan.head, cutter.name.text, made.read, made.bore, made.overcut)


def _error(job: Job, size: Figure, findings: Findings, valve: str) -> Figure | None:
    if job.gauge is None:
        return assumed("error", "mm", 0.0, "no setting gauge")
    return gauge_error(job, job.gauge, size, findings, (valve,))


def _window(
    job: Job, plan: Passed, bore: Bore, gauge: Gauging, shown_wrong: Figure, overcut: Overcut, findings: Findings
) -> Window:
    def reading(size: Figure) -> float:
        at_bench = gauge.conditions.shown(size.value) if gauge.conditions else size.value
        return setting.reading(at_bench, shown_wrong.value, overcut.value.value)

    aim = reading(bore.aim) / gauge.step
    least, most = _drawn_in(job, bore, findings)
    inside = None
    if least.value <= most.value:
        inside = setting.whole_steps(reading(least), reading(most), gauge.step)
    if inside is not None:
        return Window(plan, bore, *inside, aim, least, most, shown_wrong, False, overcut)
    nearest = round(setting.round_to_step(reading(bore.aim), gauge.step) / gauge.step)
    _say_emptied(job, plan, bore, findings, least.value > bore.least.value)
    return Window(plan, bore, nearest, nearest, aim, bore.least, bore.most, shown_wrong, True, overcut)


def _drawn_in(job: Job, bore: Bore, findings: Findings) -> tuple[Figure, Figure]:
    if bore.u is None:
        return bore.least, bore.most
    k = guard_of(job, findings)
    drawn = k.value * bore.u.value
    u = bore.u.called("u")
    least, most = bore.least.called("D_least"), bore.most.called("D_most")
    return (
        computed("D_least_guarded", "mm", least.value + drawn, "D_least + guard * u", (least, k, u), "handbook 11"),
        computed("D_most_guarded", "mm", most.value - drawn, "D_most - guard * u", (most, k, u), "handbook 11"),
    )


def _say_emptied(job: Job, plan: Passed, bore: Bore, findings: Findings, guarded: bool) -> None:
    limits = span_of(job, bore.least.value, bore.most.value)
    step = f" of {said(job, job.gauge.step)}" if job.gauge and job.gauge.step else ""
    if guarded and bore.u is not None:
        why = f"what is not known of the bore, u = {length(job, bore.u.value, 5 if job.units == 'inch' else 4)}, leaves"
    else:
        why = "they leave"
    findings.warning(
        "trial-in-this-bore",
        f"Between the limits {limits} {why} no whole step{step} of the setting gauge.",
        "The setting is the step nearest the middle. Make a trial cut in this bore, measure, and open it by what is "
        "left.",
        plan.valve.span,
        (plan.name,),
    )
