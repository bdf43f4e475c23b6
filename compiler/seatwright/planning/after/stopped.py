"""A bore whose form or depth is beyond, twice measured: stop, and what is left to do (handbook 11).

Out of round, tapered or with a leaning floor it goes to the next oversize, whose bore is reckoned from its largest
reading. Too deep it needs a taller insert. Where there is none it is held.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from seatwright.job.model import Job
from seatwright.planning.after.cut_faults import Fault, FormSlug
from seatwright.planning.after.in_hand import InHand, in_hand, taller
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import BoreLimits
from seatwright.planning.basis.wording import length, span_inside
from seatwright.planning.plan import IfBig, Judged, Status, Stood
from seatwright.planning.plan.figure import Figure

_LOOK = "Stop: look at the pilot, at the level of the head and at the tip before another pocket is bored."


def stopped(
    job: Job,
    plan: Judged,
    plans: Sequence[Stood],
    faults: Sequence[Fault],
    bore: Figure,
    limits: BoreLimits,
    bores: Mapping[str, Figure],
    findings: Findings,
) -> Judged:
    """The valve with the ways that are left to it, and its status: oversize, or on hold.

    faults : that a second reading did not lift; bores : as cut, of all valves of the head
    """
    for fault in faults:
        if fault.slug == "pocket-deep":
            return _too_deep(job, plan, plans, fault.text, bore, limits, bores, findings)
    for fault in faults:
        if fault.slug != "pocket-deep" and fault.slug != "pocket-shallow":
            plan = _out_of_form(job, plan, fault.slug, fault.text, findings)
    return plan


def _out_of_form(job: Job, plan: Judged, slug: FormSlug, text: str, findings: Findings) -> Judged:
    text = _measured_again(text)
    if plan.next is None:
        findings.hold(
            plan.name,
            slug,
            text,
            f"{_LOOK} This one wants a wider bore: name an insert for it, or put one on the shelf. A third reading, "
            "under a later `cut`, counts too.",
            plan.valve.span,
        )
        return replace(plan, if_big=(IfBig("hold"),))
    bored = "" if plan.next.bore is None else f" in a bore of {length(job, plan.next.bore.value)}"
    findings.warning(
        slug,
        text,
        f"{_LOOK} Then the next oversize, {plan.next.insert}{bored}: say `insert {plan.next.insert}`.",
        plan.valve.span,
        (plan.name,),
    )
    ways = IfBig("oversize", plan.next.insert, plan.next.bore), IfBig("hold")
    return replace(plan, status=Status.OVERSIZE, if_big=ways)


def _heights(plan: Judged) -> tuple[float, float] | None:
    """How tall an insert may be that stands as wanted on the floor as cut [mm]; None where that is not known."""
    deep, stand = None if plan.cut is None else plan.cut.depth, plan.stand
    if deep is None or stand is None or stand.least is None or stand.most is None:
        return None
    return deep.value - stand.most.value, deep.value - stand.least.value


def _too_deep(
    job: Job,
    plan: Judged,
    plans: Sequence[Stood],
    text: str,
    bore: Figure,
    limits: BoreLimits,
    bores: Mapping[str, Figure],
    findings: Findings,
) -> Judged:
    own, heights = plan.insert, _heights(plan)
    fitting: list[InHand] = []
    if own is not None and heights is not None:
        fitting = in_hand(job, plan, plans, bore, limits, bores, lambda other: taller(own, other, *heights))
    whose = [
        (f"the {one.insert} of {one.valve}" if one.valve else f"{one.insert} from the shelf")
        + (f", {length(job, one.height.value)} tall" if one.height is not None else "")
        for one in fitting[:3]
    ]
    tall = "" if heights is None else f", {span_inside(job, *heights)} tall,"
    take = f"Take a taller insert: {'; '.join(whose)}. " if whose else f"A taller insert{tall} lifts it. "
    findings.hold(
        plan.name,
        "pocket-deep",
        _measured_again(text),
        f"{take}Name it in the column `insert` of `measured`, with its `insert-height`, and write its `insert-od` "
        "under `cut`. Look at the metal left under the floor.",
        plan.valve.span,
    )
    ways = [IfBig("insert", one.insert, None, one.valve, one.od, one.interference) for one in fitting]
    return replace(plan, if_big=(*ways, IfBig("hold")))


def _measured_again(text: str) -> str:
    return f"Measured again: {text[0].lower()}{text[1:]}"
