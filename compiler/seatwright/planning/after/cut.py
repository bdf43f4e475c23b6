"""The bores that were cut, judged: the fit as made, its form, its depth, and what to do next (handbook 11 and 13)."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import CutReadings, Head, Job
from seatwright.planning.after.again import bore_again, depth_again
from seatwright.planning.after.cut_faults import Fault, deeper_by, depth_faults, form_faults
from seatwright.planning.after.cut_limits import between, fit_made, limits_of
from seatwright.planning.after.rework import ways_out, ways_out_planned
from seatwright.planning.after.stopped import stopped
from seatwright.planning.basis.bore_gauge import shows
from seatwright.planning.basis.faces import pocket_depth_now
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.overcut import implied
from seatwright.planning.basis.temperatures import insert_at20
from seatwright.planning.basis.verdicts import (
    ACCEPTED,
    BIG,
    MEASURE_AGAIN,
    REWORK,
    STOP,
    BoreLimits,
    fine,
    to_cut_again,
)
from seatwright.planning.basis.wording import length, span_inside
from seatwright.planning.certainty import budgets
from seatwright.planning.certainty.as_measured import AsMeasured, as_measured, deepest, depth, floor_square
from seatwright.planning.plan import Bore, CleanUp, CutPlan, InsertPlan, Judged, Sprung, Status, Stood, into
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.depths import floor_under
from seatwright.planning.serves.ring_in_hand import RING_OPEN

_SOURCE = "handbook 11, 13"
_RANK = (ACCEPTED, MEASURE_AGAIN, REWORK, STOP, BIG)


class _Verdict(Struct, frozen=True):
    """A cut and what there is to say of it. limits: None where the bore could not be judged by its size."""

    cut: CutPlan
    measured: AsMeasured | None
    limits: BoreLimits | None
    faults: tuple[Fault, ...]


def cut(job: Job, head: Head, plans: tuple[Sprung, ...], findings: Findings) -> tuple[Judged, ...]:
    """Judge every bore that was cut, and say for each that is big what there is to be done, in its order.

    One that is left alone keeps its status; its cut goes on the record. How far a small one is to be opened
    is said once it stands in a setting (`reopen`).
    """
    judged = {plan.name: _latest(job, head, plan, plan.valve.cut, findings) for plan in plans if plan.valve.cut}
    bores = {name: each.measured.bore for name, each in judged.items() if each.measured is not None}
    done = []
    for plan in plans:
        each = judged.get(plan.name)
        if each is None:
            done.append(into(Judged, plan, if_big=ways_out_planned(plan)))
            continue
        made = _floor_as_cut(head, into(Judged, plan, cut=each.cut))
        if plan.turned and each.measured is not None:
            if made.at20.insert_od is None:
                _look_at_bridges(job, made, each.measured.bore, findings)
            made = _turned_to(job, head, made, each, findings)
        done.append(made if plan.left_alone else _next(job, made, plans, each, bores, findings))
    return tuple(done)


def _floor_as_cut(head: Head, plan: Judged) -> Judged:
    """The metal left under a pocket that stays as deep as it was cut; as planned where it is to be cut again."""
    cut_, floor = plan.valve.cut, plan.found.floor_thickness
    deep = None if cut_ is None or to_cut_again(plan) else deepest(cut_)
    old = pocket_depth_now(head, plan, Findings())  # what is missing was said with the depth
    if plan.floor_left is None or deep is None or floor is None or old is None:
        return plan
    return replace(
        plan, floor_left=floor_under(given("floor_thickness", "mm", floor), old, deep, "at the deepest place, as cut")
    )


def _latest(job: Job, head: Head, plan: Stood, readings: CutReadings, findings: Findings) -> _Verdict:
    """The latest cut judged, with all earlier ones of the same pocket behind it as they were read."""
    earlier = tuple(_as_read(job, head, plan, before, Findings())[0] for before in readings.earlier)
    judged = _judge(job, head, plan, readings, findings)
    left = plan.valve.left_shelf
    day = None if left is None or plan.insert is None or plan.insert.shelf is None else left.date
    return replace(judged, cut=replace(judged.cut, earlier=earlier, left_shelf=day))


def _as_read(
    job: Job, head: Head, plan: Stood, readings: CutReadings, findings: Findings
) -> tuple[CutPlan, AsMeasured | None]:
    """One cut as it was read, whatever insert goes into it."""
    measured = as_measured(job, head, readings, findings)
    od, alloy = readings.insert_od, None if plan.insert is None else plan.insert.alloy
    made = CutPlan(
        depth=depth(readings),
        floor_square=floor_square(readings),
        cutter=None if readings.cutter is None else readings.cutter.text,
        read=None if readings.read is None else given("read", "mm", readings.read),
        insert_od=None if od is None else insert_at20(job, head, od, alloy, "insert_od", findings),
        date=readings.date,
        not_counted=_not_counted(plan, readings),
    )
    if measured is None:
        return made, None
    told = None
    if readings.read is not None:
        told = implied(job, head, readings.read, measured.bore, findings)
    return replace(
        made,
        bore=measured.bore,
        bore_a=measured.bore_a,
        bore_b=measured.bore_b,
        round=measured.round,
        taper=measured.taper,
        overcut=told,
    ), measured


def _not_counted(plan: Stood, readings: CutReadings) -> str | None:
    """Why this bore is left out of what its cutter does; a `not-counted` without a date is of the latest cut."""
    latest = plan.valve.cut is not None and readings.date == plan.valve.cut.date
    for line in plan.valve.not_counted:
        if line.date == readings.date or (line.date is None and latest):
            return line.reason
    return None


def _judge(job: Job, head: Head, plan: Stood, readings: CutReadings, findings: Findings) -> _Verdict:
    made, measured = _as_read(job, head, plan, readings, findings)
    made = replace(made, insert_od=plan.at20.insert_od, deeper_by=deeper_by(plan, made.depth))
    if measured is None:
        return _Verdict(made, None, None, ())
    if any(hold.slug in RING_OPEN for hold in plan.holds):
        return _Verdict(made, measured, None, ())  # which ring goes in is open, and with it what the bore may be
    u = budgets.accepted(job, head, plan, findings, measured.bore)
    limits = limits_of(job, plan, u, findings)
    made = replace(made, interference=_interference(plan, measured.bore), u=u)
    if limits is None:
        findings.unchecked(
            "cut-not-judged",
            "A bore was measured, and there are no limits to judge it by.",
            "The valve needs an insert with its diameter and an interference.",
            head.span,
            (plan.name,),
        )
    again = bore_again(job, head, readings, limits)
    of_bore = None
    if limits is not None:
        of_bore = limits.settled(measured.bore.value) if again else limits.verdict(measured.bore.value)
    # What is opened is cut all round once more: its form is settled by the next reading.
    form = form_faults(job, plan, measured, limits, again and of_bore != REWORK, findings)
    faults = (*form, *depth_faults(job, plan, readings, made, depth_again(readings, plan.depth), findings))
    if of_bore is not None:
        worst = max((of_bore, *(fault.verdict for fault in faults)), key=_RANK.index)
        made = replace(made, verdict=worst, bore_verdict=of_bore, again=again)
    return _Verdict(made, measured, limits, faults)


def _interference(plan: Stood, bore: Figure) -> Figure | None:
    """As made: with the insert as measured, else with the middle of its list limits, which is noted."""
    od, note = plan.at20.insert_od, ""
    if od is None and plan.insert is not None and not plan.turned:
        od, note = plan.insert.od, "the insert is not measured: its list figure"
    if od is None:
        return None
    od = od.called("od")
    return computed("I_made", "mm", od.value - bore.value, "od - bore", (od, bore), _SOURCE, note)


def _next(
    job: Job,
    plan: Judged,
    plans: Sequence[Stood],
    each: _Verdict,
    bores: dict[str, Figure],
    findings: Findings,
) -> Judged:
    """The status that follows from a verdict, and what the machinist is told."""
    size, verdict = each.cut.bore_verdict, each.cut.verdict
    for fault in each.faults:
        if fault.verdict != STOP and not (fault.slug == "reading-outside" and size in (REWORK, BIG)):
            findings.warning(fault.slug, fault.text, fault.help, plan.valve.span, (plan.name,))
    if each.limits is None or each.measured is None or verdict is None:
        return plan
    if size == BIG:
        return ways_out(job, plan, plans, each.measured.bore, each.limits, bores, findings)
    if verdict == STOP:
        stops = [fault for fault in each.faults if fault.verdict == STOP]
        return stopped(job, plan, plans, stops, each.measured.bore, each.limits, bores, findings)
    if size == MEASURE_AGAIN:
        say_cannot_tell(job, plan, each.measured.bore, each.limits, findings)
    # One that goes under the cutter again may yet come out big.
    return replace(plan, status=Status(verdict), if_big=ways_out_planned(plan) if verdict == REWORK else ())


def _turned_to(job: Job, head: Head, plan: Judged, each: _Verdict, findings: Findings) -> Judged:
    """The diameter that a blank is to be turned to, from the bore as cut; the ring as measured once it is turned. Of a
    bore that is accepted the plan is the bore as cut."""
    wanted, measured = plan.interference, each.measured
    if wanted is None or measured is None:
        return plan
    accepted = each.cut.bore_verdict == ACCEPTED
    if accepted:
        plan = _planned_as_cut(job, head, plan, measured.bore)
    old = plan.insert or InsertPlan("turned", False)
    od = plan.at20.insert_od
    if od is not None:
        return replace(plan, insert=replace(old, measured=True, od=od, od_least=od, od_most=od))

    def to(symbol: str, fit: Figure) -> Figure:
        value = measured.bore.value + fit.value
        return computed(symbol, "mm", value, f"bore + {fit.symbol}", (measured.bore, fit), "handbook 5, turned")

    least, middle, most = to("od_least", wanted.least), to("od", wanted.aim), to("od_most", wanted.most)
    if accepted:
        findings.notice(
            "turn-insert",
            f"The bore is {length(job, measured.bore.value)} at 20 °C; turn its insert to "
            f"{span_inside(job, least.value, most.value)}.",
            "Measure it when it is at the bench's temperature and write `insert-od` under `cut`.",
            plan.valve.span,
            (plan.name,),
        )
    return replace(plan, insert=replace(old, measured=False, od=middle, od_least=least, od_most=most))


def _planned_as_cut(job: Job, head: Head, plan: Judged, bore: Figure) -> Judged:
    least, aim, most = bore.called("bore_least"), bore.called("bore"), bore.called("bore_most")
    shown = shows(job, head, aim, "bench_bore", Findings(), (plan.name,))
    needed = None if plan.clean_up is None else plan.clean_up.needed
    left = None
    if needed is not None:
        left = computed("clean_up_left", "mm", aim.value - needed.value, "bore - D_clean", (aim, needed), _SOURCE)
    return replace(
        plan,
        bore=Bore(least, most, aim, shown, shown, shown),
        clean_up=None if needed is None else CleanUp(needed, left),
    )


def _look_at_bridges(job: Job, plan: Stood, bore: Figure, findings: Findings) -> None:
    """A blank follows any bore; but nobody allowed for one beyond its planned most when the insert was chosen."""
    if plan.bore is not None and bore.value > plan.bore.most.value:
        findings.warning(
            "turned-bore-wide",
            f"The bore is {length(job, bore.value)} at 20 °C; {length(job, plan.bore.most.value)} was planned at most. "
            "Its insert is turned to it, and the bridges beside it are those of the bore as cut.",
            "Look at those bridges before the insert is turned.",
            plan.valve.span,
            (plan.name,),
        )


def say_cannot_tell(job: Job, plan: Judged, bore: Figure, limits: BoreLimits, findings: Findings) -> None:
    """To measure again; the insert, where no bore could be accepted with what is known of it; where one is in, what is
    left to do."""
    findings.warning(
        "bore-cannot-be-told",
        f"The bore is {fine(job, bore.value)} at 20 °C{fit_made(job, plan, plan.cut)}; its limits are "
        f"{between(job, limits)}, and nearer than {fine(job, limits.drawn)} to a limit it cannot be told on "
        "which side it lies.",
        _help(plan, limits),
        plan.valve.span,
        (plan.name,),
    )


def _help(plan: Judged, limits: BoreLimits) -> str:
    if plan.valve.finished is not None:
        return (
            "Its row under `finished` says that an insert is in it, so it can be measured no more: put right what was "
            "mistyped, under a later `cut`; else the insert has to come out."
        )
    if limits.none_accepted:
        return (
            "No bore could be accepted by what is known of insert and gauge: measure the insert in hand and write its "
            "`insert-od` under `cut`. Take no metal off on this reading."
        )
    return (
        "Measure again, cold and clean, with the gauge checked on its ring, and write the reading behind a slash, or "
        "under a later `cut`: that settles it. Take no metal off on this reading."
    )
