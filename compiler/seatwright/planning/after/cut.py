"""The bores that were cut, judged: the fit as made, its form, its depth, and what to do next (handbook 11 and 13)."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import CutReadings, Head, Job
from seatwright.planning.after.cut_faults import Fault, depth_faults, form_faults
from seatwright.planning.after.cut_limits import between, fit_made, limits_of
from seatwright.planning.after.rework import ways_out, ways_out_planned
from seatwright.planning.basis.faces import pocket_depth_now
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.overcut import implied
from seatwright.planning.basis.verdicts import ACCEPTED, BIG, MEASURE_AGAIN, REWORK, Limits, fine, to_cut_again
from seatwright.planning.basis.wording import length, span_of
from seatwright.planning.certainty import budgets
from seatwright.planning.certainty.as_measured import AsMeasured, as_measured, deepest, depth, floor_square
from seatwright.planning.plan import CutPlan, InsertPlan, Judged, Status, Stood, into
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.depths import floor_under

_SOURCE = "handbook 11, 13"
_RANK = (ACCEPTED, MEASURE_AGAIN, REWORK, BIG)


class _Verdict(Struct, frozen=True):
    """A cut and what there is to say of it. limits, of_bore: None where the bore could not be judged by its size."""

    cut: CutPlan
    measured: AsMeasured | None
    limits: Limits | None
    of_bore: str | None
    faults: tuple[Fault, ...]


def cut(job: Job, head: Head, plans: tuple[Stood, ...], findings: Findings) -> tuple[Judged, ...]:
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
            planned = plan.bore is not None and not plan.turned
            done.append(into(Judged, plan, if_big=ways_out_planned(plan) if planned else ()))
            continue
        made = _floor_as_cut(head, into(Judged, plan, cut=each.cut))
        if plan.turned and each.measured is not None:
            made = _turned_to(job, made, each, findings)
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
    """The latest cut, with all earlier ones of the same pocket behind it; what is said is of the latest alone."""
    earlier = tuple(_judge(job, head, plan, before, Findings()).cut for before in readings.earlier)
    judged = _judge(job, head, plan, readings, findings)
    return replace(judged, cut=replace(judged.cut, earlier=earlier))


def _judge(job: Job, head: Head, plan: Stood, readings: CutReadings, findings: Findings) -> _Verdict:
    measured = as_measured(job, head, readings, findings)
    deep, square = depth(readings), floor_square(readings)
    read = None if readings.read is None else given("read", "mm", readings.read)
    od = plan.at20.insert_od
    made = CutPlan(
        depth=deep,
        floor_square=square,
        cutter=None if readings.cutter is None else readings.cutter.text,
        read=read,
        insert_od=od,
        date=readings.date,
    )
    if measured is None:
        return _Verdict(made, None, None, None, ())
    told = None
    if read is not None and readings.read is not None:
        told = implied(job, head, readings.read, measured.bore, findings)
    u = budgets.accepted(job, head, plan, findings, measured.bore)
    limits = limits_of(job, plan, u, findings)
    made = replace(
        made,
        bore=measured.bore,
        bore_a=measured.bore_a,
        bore_b=measured.bore_b,
        round=measured.round,
        taper=measured.taper,
        overcut=told,
        interference=_interference(plan, measured.bore),
        u=u,
    )
    faults = (
        *form_faults(job, plan, measured, limits, findings),
        *depth_faults(job, plan, readings, deep, square, findings),
    )
    of_bore = None
    if limits is None:
        findings.unchecked(
            "cut-not-judged",
            "A bore was measured, and there are no limits to judge it by.",
            "The valve needs an insert with its diameter and an interference.",
            head.span,
            (plan.name,),
        )
    else:
        of_bore = limits.verdict(measured.bore.value)
        worst = max((of_bore, *(fault.verdict for fault in faults)), key=_RANK.index)
        made = replace(made, verdict=worst)
    return _Verdict(made, measured, limits, of_bore, faults)


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
    for fault in each.faults:
        if fault.slug == "reading-outside" and each.of_bore in (REWORK, BIG):
            continue  # the mean says it already
        findings.warning(fault.slug, fault.text, fault.help, plan.valve.span, (plan.name,))
    if each.limits is None or each.measured is None:
        return plan
    bore, limits = each.measured.bore, each.limits
    if each.of_bore == MEASURE_AGAIN:
        _say_cannot_tell(job, plan, bore, limits, findings)
    elif each.of_bore == BIG:
        return ways_out(job, plan, plans, bore, limits, bores, findings)
    return plan if each.cut.verdict is None else replace(plan, status=Status(each.cut.verdict))


def _say_cannot_tell(job: Job, plan: Judged, bore: Figure, limits: Limits, findings: Findings) -> None:
    findings.warning(
        "bore-cannot-be-told",
        f"The bore is {fine(job, bore.value)} at 20 °C{fit_made(job, plan, plan.cut)}; its limits are "
        f"{between(job, limits)}, and nearer than {fine(job, limits.drawn)} to a limit it cannot be told on "
        "which side it lies.",
        "Measure again, cold and clean, with the gauge checked on its ring, and write the readings under a later "
        "`cut`. Take no metal off on this reading.",
        plan.valve.span,
        (plan.name,),
    )


def _turned_to(job: Job, plan: Judged, each: _Verdict, findings: Findings) -> Judged:
    """The diameter that a blank is to be turned to, from the bore as cut; the ring as measured once it is turned."""
    wanted, measured = plan.interference, each.measured
    if wanted is None or measured is None:
        return plan
    old = plan.insert or InsertPlan("turned", False)
    od = plan.at20.insert_od
    if od is not None:
        return replace(plan, insert=replace(old, measured=True, od=od, od_least=od, od_most=od))

    def to(symbol: str, fit: Figure) -> Figure:
        value = measured.bore.value + fit.value
        return computed(symbol, "mm", value, f"bore + {fit.symbol}", (measured.bore, fit), "handbook 5, turned")

    _look_at_bridges(job, plan, measured.bore, findings)
    least, middle, most = to("od_least", wanted.least), to("od", wanted.aim), to("od_most", wanted.most)
    if each.of_bore == ACCEPTED:
        findings.notice(
            "turn-insert",
            f"The bore is {length(job, measured.bore.value)} at 20 °C; turn its insert to "
            f"{span_of(job, least.value, most.value)}.",
            "Measure it when it is at the bench's temperature and write `insert-od` under `cut`.",
            plan.valve.span,
            (plan.name,),
        )
    return replace(plan, insert=replace(old, measured=False, od=middle, od_least=least, od_most=most))


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
