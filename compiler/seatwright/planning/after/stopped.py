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
from seatwright.planning.basis.verdicts import Limits
from seatwright.planning.basis.wording import length
from seatwright.planning.plan import IfBig, Judged, Status, Stood
from seatwright.planning.plan.figure import Figure

_LOOK = "Stop: look at the pilot, at the level of the head and at the tip before another pocket is bored."


def stopped(
    job: Job,
    plan: Judged,
    plans: Sequence[Stood],
    faults: Sequence[Fault],
    bore: Figure,
    limits: Limits,
    bores: Mapping[str, Figure],
    findings: Findings,
) -> Judged:
    """The valve with the ways that are left to it, and its status: oversize, or on hold.

    faults : that a second reading did not lift; bores : as cut, of all valves of the head
    """
    for fault in faults:
        if fault.slug == "pocket-deep":
            fitting = _taller(job, plan, plans, bore, limits, bores)
            return _too_deep(job, plan, fault.text, fitting, findings)
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


def _taller(
    job: Job, plan: Judged, plans: Sequence[Stood], bore: Figure, limits: Limits, bores: Mapping[str, Figure]
) -> list[InHand]:
    """Inserts in hand that stand as wanted on the floor as cut, and fit the bore."""
    own, deep, wanted = plan.insert, None if plan.cut is None else plan.cut.depth, plan.depth
    if own is None or deep is None or wanted is None:
        return []
    # A taller insert moves both limits of the depth by what it is taller.
    least, most = deep.value - wanted.most.value, deep.value - wanted.least.value
    return in_hand(job, plan, plans, bore, limits, bores, lambda other: taller(own, other, least, most))


def _too_deep(job: Job, plan: Judged, text: str, fitting: Sequence[InHand], findings: Findings) -> Judged:
    whose = [
        (f"the {one.insert} of {one.valve}" if one.valve else f"{one.insert} from the shelf")
        + (f", {length(job, one.height.value)} tall" if one.height is not None else "")
        for one in fitting[:3]
    ]
    high = ""
    if (
        plan.insert is not None
        and plan.insert.height is not None
        and plan.cut is not None
        and plan.cut.depth is not None
    ):
        more = plan.cut.depth.value - plan.depth.aim.value if plan.depth is not None else 0.0
        high = f" of about {length(job, plan.insert.height.value + more)}"
    take = f"Take a taller insert: {'; '.join(whose)}. " if whose else f"A taller insert{high} lifts it. "
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
