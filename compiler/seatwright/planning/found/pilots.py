"""Which pilot each guide gets, or that the spindle guides, and what that leaves the bore to stand off (handbook 2)."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from seatwright.job.model import Head, Job, Named, Pilot
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, name_key, said
from seatwright.planning.found.pilot_in_guide import (
    Guide,
    enters,
    guide_of,
    pilot_runout,
    runout_limit,
    spindle_offset,
    spindle_tilt,
    standing,
)
from seatwright.planning.plan import Guided, Piloted, PilotPlan, into
from seatwright.planning.plan.figure import Figure, assumed, given
from seatwright.text import Span

CLEARANCE_LEFT_OUT = 0.003
"""Clearance that a pilot needs to slide in where the shop says none [mm]; the language's figure."""

_KINDS = ("dead", "expanding", "tapered", "live")
_SLACK = 1e-9


def pilots(job: Job, head: Head, plans: tuple[Guided, ...], findings: Findings) -> tuple[Piloted, ...]:
    """The pilot of each valve that is to be bored; one that leans too much puts its valve on hold. A seat that is only
    cut again has its cutter's pilot: a seat goes by its own runout, so it is not judged here."""
    return tuple(into(Piloted, plan, pilot=_wanted(job, head, plan, findings)) for plan in plans)


def _wanted(job: Job, head: Head, plan: Guided, findings: Findings) -> PilotPlan | None:
    if plan.waits_for_guide:
        return None  # no pilot goes into a guide that comes out
    if plan.gets_insert:
        return _pilot(job, head, plan, findings)
    return _of_seat_cutter(job, head, plan, findings) if plan.insert_stays else None


def _of_seat_cutter(job: Job, head: Head, plan: Guided, findings: Findings) -> PilotPlan | None:
    """The one named, else the first that enters; where none does, or no guide was measured, nothing is said of it."""
    measured, named = plan.valve.measured, plan.valve.specification.pilot
    if not (measured.guide_top or measured.guide_middle or measured.guide_bottom) or plan.guide.verdict == "worn":
        return None
    guide = guide_of(head, plan, findings)
    entering = _in_order([one for one in job.shop.pilots if enters(one, guide, pilot_clearance(job, head, findings))])
    chosen = next((one for one in entering if named is None or name_key(one.name.text) == name_key(named.text)), None)
    return PilotPlan(chosen.name.text, chosen.kind) if chosen is not None else None


def _pilot(job: Job, head: Head, plan: Guided, findings: Findings) -> PilotPlan | None:
    over = plan.at20.pocket
    by_spindle = job.machine is not None and job.machine.guides_by is not None
    by_spindle = by_spindle and job.machine.guides_by.text == "spindle"  # type: ignore[union-attr]
    if (
        not plan.valve.measured.guide_top
        and not plan.valve.measured.guide_middle
        and not plan.valve.measured.guide_bottom
    ):
        return _by_spindle(job, guide_of(head, plan, findings), None, over, findings, plan) if by_spindle else None
    if not job.shop.pilots and not by_spindle:
        findings.unchecked(
            "pilots-not-given",
            "The shop file has no pilots: which one stands in the guide, and how far it leans, is not computed.",
            "List the pilots under `pilots` in the shop file.",
            head.span,
            (plan.name,),
        )
        return None
    guide = guide_of(head, plan, findings)
    clearance = pilot_clearance(job, head, findings)
    for pilot in job.shop.pilots:
        if pilot.kind_given is None:
            findings.notice(
                "pilot-kind-left-out",
                f"The kind of the pilot {pilot.name.text} is left out: dead is meant, it stands still in the guide.",
                "Write `dead` or `live` in the column `kind`.",
                pilot.name.span,
            )
    named = plan.valve.specification.pilot
    if named is not None:
        chosen = _by_hand(job, plan, named, guide, clearance, over, findings)
    else:
        entering = _in_order([pilot for pilot in job.shop.pilots if enters(pilot, guide, clearance)])
        if by_spindle:
            live = next((pilot for pilot in entering if pilot.kind == "live"), None)
            return _judged(job, head, plan, _by_spindle(job, guide, live, over, findings, plan), guide, findings)
        chosen = _best(job, (standing(job, pilot, guide, over, findings) for pilot in entering))
        if chosen is None:
            tightest = min(guide.readings, key=lambda figure: figure.value)
            findings.hold(
                plan.name,
                "pilot-none-enters",
                f"No pilot in the shop enters the guide of {plan.name}, {length(job, tightest.value)} at its tightest, "
                f"with {said(job, clearance)} to slide in.",
                "Ream the guide, or get a pilot of the right size, and list it.",
                tightest.origin.span if tightest.origin else head.span,
                tightest,
            )
    return _judged(job, head, plan, chosen, guide, findings)


def over_bore(job: Job, head: Head, plan: Piloted, bore: Figure, findings: Findings) -> PilotPlan | None:
    """The pilot again, with the lean of the floor over the bore that is now known, judged by `floor-square`."""
    if plan.pilot is None:
        return None
    guide = guide_of(head, plan, findings)
    chosen = next((one for one in job.shop.pilots if one.name.text == plan.pilot.name), None)
    tilt = spindle_tilt(job.machine, bore) if chosen is None else standing(job, chosen, guide, bore, findings).tilt
    square = job.shop.practice.floor_square
    if tilt is not None and square is not None and not _within(tilt, square.value):
        findings.warning(
            "pilot-tilts-floor",
            f"With {_name(plan.pilot)} the floor of {plan.name} can be {length(job, tilt.value)} out of square over "
            f"the bore; {said(job, square)} is the most.",
            "Measure the depth at four places after the cut, or use a pilot that fits closer.",
            _where(guide, head),
            (plan.name,),
        )
    return replace(plan.pilot, tilt=tilt)


def pilot_clearance(job: Job, head: Head, findings: Findings) -> Figure:
    """What a pilot needs to slide in: the shop's, else the language's with a notice."""
    if job.shop.practice.pilot_clearance is not None:
        return given("pilot_clearance_least", "mm", job.shop.practice.pilot_clearance)
    findings.notice(
        "pilot-clearance-left-out",
        f"`pilot-clearance` is left out: {length(job, CLEARANCE_LEFT_OUT)} is used.",
        "Write it under `practice` in the shop file.",
        head.span,
    )
    return assumed("pilot_clearance_least", "mm", CLEARANCE_LEFT_OUT, "language: pilot-clearance left out")


def _in_order(entering: list[Pilot]) -> list[Pilot]:
    """Dead ones first, the largest first: the order in which they are looked at."""
    return sorted(
        entering,
        key=lambda pilot: (_KINDS.index(pilot.kind), -pilot.diameter.value if pilot.diameter else 0.0),
    )


def _best(job: Job, looked_at: Iterator[PilotPlan]) -> PilotPlan | None:
    """The largest dead pilot, if its runout and lean are within the shop's limits; else, of the other kinds, the one
    with the least runout within them; else the one with the least runout of all."""
    first = next(looked_at, None)
    if first is None or _allowed(job, first):
        return first
    standings = [first, *looked_at]
    dead = [each for each in standings if each.kind == "dead"]
    rest = [*dead[:1], *(each for each in standings if each.kind != "dead" and each.runout is not None)]
    rest = rest or standings[:1]
    allowed = [each for each in rest if each.runout is not None and _allowed(job, each)]
    return min(allowed or rest, key=lambda each: float("inf") if each.runout is None else each.runout.value)


def _allowed(job: Job, plan: PilotPlan) -> bool:
    square = job.shop.practice.floor_square
    straight = plan.runout is None or plan.runout_limit is None or _within(plan.runout, plan.runout_limit.value)
    return straight and (plan.tilt is None or square is None or _within(plan.tilt, square.value))


def _within(figure: Figure, limit: float) -> bool:
    return figure.value <= limit + _SLACK


def _by_hand(
    job: Job, plan: Guided, named: Named, guide: Guide, clearance: Figure, over: Figure | None, findings: Findings
) -> PilotPlan | None:
    pilot = next((one for one in job.shop.pilots if name_key(one.name.text) == name_key(named.text)), None)
    if pilot is None:
        findings.hold(
            plan.name,
            "pilot-unknown",
            f"The shop has no pilot {named.text}.",
            "List it under `pilots` in the shop file, or leave `pilot` out to have one chosen.",
            named.span,
        )
        return None
    if enters(pilot, guide, clearance):
        return standing(job, pilot, guide, over, findings)
    size = pilot.diameter or pilot.smallest
    tightest = min(guide.readings, key=lambda figure: figure.value)
    what = f"{length(job, guide.tightest(pilot))} to {length(job, guide.widest(pilot))}"
    findings.hold(
        plan.name,
        "pilot-does-not-enter",
        f"The pilot {named.text}{f' ({said(job, size)})' if size else ''} does not suit the guide of {plan.name}, "
        f"{what}, with {said(job, clearance)} to slide in.",
        "Name another pilot, or leave `pilot` out to have one chosen.",
        named.span,
        tightest,
        None if size is None else given("pilot", "mm", size),
    )
    return None


def _by_spindle(
    job: Job, guide: Guide, live: Pilot | None, over: Figure | None, findings: Findings, plan: Guided
) -> PilotPlan:
    """The spindle guides; a live pilot, where one enters, finds the guide for it."""
    if live is not None:
        found = standing(job, live, guide, over, findings)
    else:
        offset = spindle_offset(job.machine, guide)
        found = PilotPlan(
            name=None,
            kind="spindle",
            offset=offset,
            runout=None if offset is None else pilot_runout(offset),
            runout_limit=runout_limit(job),
            tilt=spindle_tilt(job.machine, over),
        )
    if found.offset is None and job.machine is not None and None in (job.machine.centring, job.machine.level):
        findings.unchecked(
            "centring-not-given",
            "`centring` or `level` of the machine is not given: how far the bore can stand off is not computed.",
            "Measure both once and write them under `machine` in the shop file.",
            job.machine.name.span,
            (plan.name,),
        )
    return found


def _judged(
    job: Job, head: Head, plan: Guided, pilot: PilotPlan | None, guide: Guide, findings: Findings
) -> PilotPlan | None:
    if pilot is None or pilot.runout is None:
        return pilot
    if pilot.runout_limit is None:
        findings.unchecked(
            "runout-limit-not-given",
            "The shop has no `runout`: how far the bore may run out to the guide is not checked.",
            "Write `runout` under `practice` in the shop file.",
            head.span,
            (plan.name,),
        )
    elif not _within(pilot.runout, pilot.runout_limit.value):
        findings.hold(
            plan.name,
            "pilot-leans",
            f"With {_name(pilot)} the bore of {plan.name} can run out {length(job, pilot.runout.value)} to the guide; "
            f"{said(job, pilot.runout_limit)} is the most.",
            _way_out(job, pilot, guide),
            _where(guide, head),
            pilot.runout,
            pilot.runout_limit,
        )
    return pilot


def _where(guide: Guide, head: Head) -> Span:
    """The line of the guide's readings, else the head's."""
    return next((figure.origin.span for figure in guide.readings if figure.origin and figure.origin.span), head.span)


def _name(pilot: PilotPlan) -> str:
    return "the spindle alone" if pilot.name is None else f"the pilot {pilot.name}"


def _way_out(job: Job, pilot: PilotPlan, guide: Guide) -> str:
    if pilot.kind == "dead":
        tightest = min(figure.value for figure in guide.readings)
        return (
            f"Get a pilot closer to {length(job, tightest)}, the guide at its tightest, or an expanding one, "
            "or replace the guide."
        )
    if pilot.kind in ("live", "spindle"):
        return "Level and centre the machine closer, or use a pilot that stands in the guide."
    return "Use another kind of pilot, or replace the guide."
