"""What there is to say of a guide that goes in, or of a valve that gets none."""

from __future__ import annotations

from seatwright.job.model import Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, listed, span_inside, span_of
from seatwright.planning.guides.choosing import Case
from seatwright.planning.guides.closing import elastic_of_guide
from seatwright.planning.guides.holes import hole_of
from seatwright.planning.guides.serving import BORED, ServingGuide, alloy_of_guide, fit_of_guide
from seatwright.planning.metal.thick_rings import two_figures
from seatwright.planning.plan.figure import Figure

_MOST_REASONS = 3


def say_none(job: Job, case: Case, findings: Findings) -> None:
    """Why a valve gets no guide: nothing to choose by, which is said, or nothing that serves, which is a hold."""
    wish = case.plan.valve.specification.guide
    named = None if wish is None else wish.name
    plan, missing = case.plan, {one.missing for one in case.reasons.values() if one.missing}
    if case.strange and plan.found.guide_od is not None:
        findings.hold(
            plan.name,
            "guide-od-nobodys",
            f"The guide measured for {plan.name}, {length(job, plan.found.guide_od.value)}, is "
            + ("none of the shop's." if named is None else f"not {named}, which is asked for."),
            "Measure it again; name the one it is as `guide NAME`, or give it a row of its own under `guides`.",
            plan.found.guide_od.span,
        )
    elif not job.shop.guides:
        return
    elif "hole" in missing:
        findings.unchecked(
            "guide-hole-not-measured",
            "The hole of the guide is not measured, and the maker's is not given: no guide is chosen by it.",
            "Press the old guide out, measure `guide-hole-top`, `guide-hole-middle` and `guide-hole-bottom`, and build "
            "again.",
            None,
            (plan.name,),
        )
    elif "fit" in missing:
        findings.unchecked(
            "guide-fit-not-given",
            "No fit is given for the guides: none is chosen by it.",
            "Give the maker's `guide-fit` under `valves`, or the shop's under `guide-fits`, with its source.",
            None,
            (plan.name,),
        )
    else:
        _hold_none(job, case, findings)


def _hold_none(job: Job, case: Case, findings: Findings) -> None:
    plan = case.plan
    why = [
        f"{job.shop.guides[place].name.text}: {reason.text}"
        for place, reason in list(case.reasons.items())[:_MOST_REASONS]
    ]
    used = [case.serving[place].guide.name.text for place in case.serving]
    if used:
        why.append(f"{listed(used)}: all that is on hand goes to other valves")
    wish = plan.valve.specification.guide
    named = wish is not None and wish.name is not None
    what = f"{wish.name} does not serve" if wish is not None and named else "No guide of the shop serves"
    findings.hold(
        plan.name,
        "guide-none-serves",
        f"{what} {plan.name}. {' '.join(f'{one[:1].upper()}{one[1:]}.' for one in why)}",
        _to_order(job, case),
        wish.span if wish is not None else None,
    )


def _to_order(job: Job, case: Case) -> str:
    """What would serve, as it is to be ordered."""
    bore = next((f", {reason.order}" for reason in case.reasons.values() if reason.order), "")
    hole = hole_of(job, case.head, case.plan, "guide", Findings())
    fits = (
        fit_of_guide(job, case.head, case.plan, job.shop.guides[place], hole.most.value)
        for place in case.allowed
        if hole is not None and job.shop.guides[place].kind == "guide"
    )
    fit = next((one for one in fits if one is not None), None)
    if hole is not None and fit is not None:
        low, high = hole.most.value + fit.least.value, hole.least.value + fit.most.value
        if low <= high:
            size = span_inside(job, low, high)
            return f"Order one of {size} for the hole as it is, or the next oversize{bore}; list it."
    return f"Order the next oversize{bore}, list it under `guides` in the shop file, and build again."


def say_chosen(job: Job, case: Case, one: ServingGuide, findings: Findings) -> None:
    """What to mind about the guide that goes in, and what of it is not known."""
    plan, guide = case.plan, one.guide
    if not one.hole.measured:
        findings.unchecked(
            "guide-hole-not-measured",
            "The hole of the guide is not measured: the guide is planned by the maker's hole, which may have grown.",
            "Press the old guide out, measure `guide-hole-top`, `guide-hole-middle` and `guide-hole-bottom`, and build "
            "again before one is pressed in.",
            None,
            (plan.name,),
        )
    if guide.od_least is None and guide.od_most is None and case.in_hand is None:
        findings.warning(
            "guide-not-in-hand",
            f"The list gives {guide.name.text} no od limits: {length(job, one.od_least.value)} is taken as it is.",
            "Measure the guide in hand, and write its `guide-od` under `measured`.",
            guide.name.span,
            (plan.name,),
        )
    _say_off_list(job, case, one, findings)
    _say_nothing_grips(job, case, one, findings)
    if one.least is not None and job.shop.practice.guide_room is None:
        findings.unchecked(
            "guide-room-not-given",
            "The shop has no `guide-room`: a hole is only asked to be smaller than what is cut.",
            "Write the least stock that a reamer must take under `practice` in the shop file.",
            case.head.span,
            (plan.name,),
        )
    reaming = case.bore is not None and not guide.id_finished
    if not job.shop.reamers and (one.least is not None or reaming):
        findings.unchecked(
            "reamers-not-given",
            "The shop file has no reamers: holes are bored on the machine, and guides honed to size.",
            "List the reamers under `reamers` in the shop file.",
            case.head.span,
            (plan.name,),
        )
    elif one.cut == BORED and one.least is not None and one.most is not None:
        findings.notice(
            "guide-hole-bored",
            f"No reamer of the shop cuts {span_inside(job, one.least.value, one.most.value)}: the hole is bored on the "
            "machine.",
            "Set the head by the old hole before it is cut; or get the reamer, and list it.",
            case.head.span,
            (plan.name,),
        )
    elif reaming and case.bore is not None and case.bore.reamer is None:
        findings.notice(
            "guide-not-reamed",
            f"No reamer of the shop cuts {span_inside(job, case.bore.least.value, case.bore.most.value)}: the new "
            "guide is honed to size.",
            "Get the reamer, and list it, or hone the guide.",
            case.head.span,
            (plan.name,),
        )
    if guide.kind == "liner":
        reckoned = elastic_of_guide(case.head, guide, alloy_of_guide(job, guide)) is not None
        by_head = " What presses it in and out goes by the head's metal: that of the old guide is not known." * reckoned
        findings.unchecked(
            "liner-closing-not-computed",
            f"A liner takes the shape of what it stands in: how much its bore closes is not computed.{by_head}",
            "Size it after it is in, whatever it measured before.",
            None,
            (plan.name,),
        )
    elif one.closes is None:
        findings.unchecked(
            "guide-closing-not-computed",
            f"How much the bore of {guide.name.text} closes, and what it holds, is not computed: its `id`, its alloy's "
            "or the head's stiffness is not given.",
            "Give `id` and `alloy` in the table of guides, and `stiffness` and `poisson` of both metals.",
            guide.name.span,
            (plan.name,),
        )


def _say_off_list(job: Job, case: Case, one: ServingGuide, findings: Findings) -> None:
    """A guide in the hand that is not within the limits that its list gives."""
    od, least, most = case.plan.found.guide_od, one.guide.od_least, one.guide.od_most
    if case.in_hand is None or od is None or least is None or most is None:
        return
    # Half a last digit either way, as of inserts.
    if od.smallest + od.half_digit < least.value or od.largest - od.half_digit > most.value:
        findings.warning(
            "guide-od-off-list",
            f"The guide for {case.plan.name} measures {length(job, od.value)}; the list gives {one.guide.name.text} "
            f"{span_of(job, least.value, most.value)}.",
            "Measure it again, at both ends; it may be another guide. The measured figure is used.",
            od.span,
            (case.plan.name,),
        )


def _say_nothing_grips(job: Job, case: Case, one: ServingGuide, findings: Findings) -> None:
    """A guide that would stand out of the head with all its length."""
    spec = case.plan.valve.specification
    whole, stand = one.guide.length or spec.guide_length, spec.guide_stand
    most = None if stand is None or stand.limits is None else stand.limits.most or stand.limits.nominal
    if whole is None or stand is None or most is None or most.value < whole.value:
        return
    findings.warning(
        "guide-stand-odd",
        f"The guide {one.guide.name.text} is {length(job, whole.value)} long, and is to stand "
        f"{length(job, most.value)} above the spring seat: nothing of it would be in the head.",
        "Correct `guide-stand` or the length; until then all of it is reckoned to grip.",
        stand.span,
        (case.plan.name,),
    )


def say_held(
    case: Case, one: ServingGuide, out: Figure | None, asked: Figure | None, holds: bool | None, findings: Findings
) -> None:
    """Whether it holds what it is asked to."""
    plan = case.plan
    if asked is not None and out is None and one.closes is not None:
        findings.unchecked(
            "guide-grip-not-computed",
            f"What force {one.guide.name.text} holds is not computed: its length or the friction is not given.",
            "Give `length` in the table of guides, and `friction` of the head's metal.",
            one.guide.name.span,
            (plan.name,),
        )
    elif holds is None and asked is not None and out is not None:
        findings.unchecked(
            "guide-grip-not-computed",
            f"How much of {one.guide.name.text} stands out of the head is not known: over all its length it would hold "
            f"about {two_figures(out.value / 1000)} kN, and less of it grips.",
            "Give `guide-stand` its height above the spring seat; of one with a shoulder, push it and see.",
            plan.valve.span,
            (plan.name,),
        )
    elif holds is False and asked is not None and out is not None:
        findings.warning(
            "guide-not-held",
            f"At its least fit the guide {one.guide.name.text} of {plan.name} holds about "
            f"{two_figures(out.value / 1000)} kN; {asked.origin.typed if asked.origin else asked.value} is asked for.",
            "Take the next oversize, or a hole nearer to the tight end of its limits; then push it and see.",
            plan.valve.span,
            (plan.name,),
        )
