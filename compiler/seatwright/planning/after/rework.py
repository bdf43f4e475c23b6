"""What to do when a bore is too big, the gentlest first (handbook 11).

Measure again; another insert in hand that fits, by name; a blank turned to the bore; the next oversize, if bridge,
floor and land allow it (the plan's `next` says so); hold. Metal that is gone does not come back, so nothing is cut on
one reading.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from seatwright.job.model import Job
from seatwright.planning.after.in_hand import InHand, alike, in_hand
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import BIG, BoreLimits, fine
from seatwright.planning.basis.wording import length, listed, span_inside
from seatwright.planning.plan import IfBig, Judged, Status, Stood, Waits
from seatwright.planning.plan.figure import Figure, computed

_SOURCE = "handbook 11"


def ways_out_planned(plan: Stood) -> tuple[IfBig, ...]:
    """What a card says beforehand; which insert would fit is known only when the bore is measured. () where no bore is
    planned, or a blank follows it."""
    if plan.bore is None or plan.turned:
        return ()
    oversize = [] if plan.next is None else [IfBig("oversize", plan.next.insert, plan.next.bore)]
    return (IfBig("measure-again"), IfBig("insert"), IfBig("turned"), *oversize, IfBig("hold"))


def ways_out(
    job: Job,
    plan: Judged,
    plans: Sequence[Stood],
    bore: Figure,
    limits: BoreLimits,
    bores: Mapping[str, Figure],
    findings: Findings,
) -> Judged:
    """The valve with the ways that are open to it in their order, and its status: to be measured again; where that was
    done, held for what its machinist decides; oversize where only the next size is left.

    bores : as cut, of all valves of the head
    """
    wanted, own = plan.interference, plan.insert
    again = plan.cut is not None and plan.cut.again is True
    fitting = [] if own is None else in_hand(job, plan, plans, bore, limits, bores, lambda other: alike(own, other))
    ways = [] if again else [IfBig("measure-again")]
    ways += [IfBig("insert", one.insert, None, one.valve, one.od, one.interference) for one in fitting]
    turned_to = ""
    if wanted is not None:
        od = computed("od_turned", "mm", bore.value + wanted.aim.value, "bore + I_aim", (bore, wanted.aim), _SOURCE)
        ways.append(IfBig("turned", None, bore, None, od, wanted.aim))
        turned_to = span_inside(job, bore.value + wanted.least.value, bore.value + wanted.most.value)
    if plan.next is not None:
        ways.append(IfBig("oversize", plan.next.insert, plan.next.bore))
    ways.append(IfBig("hold"))
    plan = replace(plan, if_big=tuple(ways))
    text = _text(job, plan, bore, limits, again)
    help = _help(job, plan, fitting, turned_to, again)
    if again and (fitting or plan.next is None):
        findings.hold(plan.name, "bore-big", text, help, plan.valve.span, bore, limits.most)
        return plan
    findings.warning("bore-big", text, help, plan.valve.span, (plan.name,))
    return replace(plan, status=Status.OVERSIZE if again else Status.MEASURE_AGAIN)


def waiting(plans: tuple[Judged, ...]) -> tuple[Judged, ...]:
    """The valves of a head; one whose insert may go to a bore that came out big has to wait until that is settled."""
    done = []
    may_take: dict[str, list[str]] = {}
    for other in plans:
        for taken in dict.fromkeys(_may_take(other)):
            may_take.setdefault(taken, []).append(other.name)
    for plan in plans:
        takers = tuple(may_take.get(plan.name, ()))
        if takers and plan.status != Status.HOLD:
            text = f"{listed(takers, 'or')} may take the insert of {plan.name}: settle that first."
            plan = replace(plan, waits=Waits(takers, text))
        done.append(plan)
    return tuple(done)


def _may_take(plan: Judged) -> list[str]:
    """The valves whose insert may go to the bore of this one, which came out big."""
    if plan.cut is None or plan.cut.verdict != BIG:
        return []
    return [way.valve for way in plan.if_big if way.do == "insert" and way.valve is not None]


def _text(job: Job, plan: Judged, bore: Figure, limits: BoreLimits, again: bool) -> str:
    made, wanted = plan.cut.interference if plan.cut else None, plan.interference
    most = "" if limits.most is None else f"; {length(job, limits.most.value)} is the most"
    fit = ""
    if made is not None and wanted is not None:
        least = length(job, wanted.least.value)
        fit = f", which leaves an interference of {fine(job, made.value)}; {least} is the least"
    still = ", measured again," if again else ""
    sure = "" if limits.verdict(bore.value) == BIG else f" for all that can be told, which is {fine(job, limits.drawn)}"
    return f"The bore{still} is {fine(job, bore.value)} at 20 °C{most}{fit}: it is big{sure}."


def _help(job: Job, plan: Judged, fitting: Sequence[InHand], turned_to: str, again: bool) -> str:
    steps = [] if again else ["measure again, cold and clean, with the gauge checked on its ring"]
    for one in fitting[:3]:
        whose = f"the {one.insert} of {one.valve}" if one.valve else f"{one.insert} from the shelf"
        steps.append(f"{whose} ({length(job, one.od.value)}) gives {fine(job, one.interference.value)}")
    if turned_to:
        steps.append(f"a blank turned to {turned_to}")
    if plan.next is not None:
        bore = "" if plan.next.bore is None else f" in a bore of {length(job, plan.next.bore.value)}"
        steps.append(f"the next oversize, {plan.next.insert}{bore}")
    steps.append("else leave it and ask")
    numbered = "; ".join(f"({place}) {step}" for place, step in enumerate(steps, start=1))
    if not again:
        settles = "A second reading, behind a slash or under a later `cut`, settles it."
        return f"In this order: {numbered}. Take no more metal before it is measured again. {settles}"
    write = ["For an insert in hand name it in the column `insert` of `measured` and write its `insert-od` under `cut`"]
    write += ["for a blank say `insert turned`"] if turned_to else []
    write += [f"for the oversize say `insert {plan.next.insert}`"] if plan.next is not None else []
    return f"In this order: {numbered}. {'; '.join(write)}."
