"""What to do when a bore is too big, the gentlest first (handbook 11).

Measure again; another insert in hand that fits, by name; a blank turned to the bore; the next oversize, if bridge,
floor and land allow it (the plan's `next` says so); hold. Metal that is gone does not come back, so nothing is cut on
one reading.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import BIG, Limits, fine
from seatwright.planning.basis.wording import length, listed, name_key, span_of
from seatwright.planning.plan import IfBig, InsertPlan, Interference, Judged, Status, Stood, Waits
from seatwright.planning.plan.figure import Figure, computed
from seatwright.planning.serves.offers import stock_offers

_SOURCE = "handbook 11"
_ALIKE = 1e-6


class _InHand(Struct, frozen=True):
    """An insert that would fit: measured for another valve, or in stock with limits that fit at both ends."""

    insert: str
    valve: str | None
    od: Figure
    interference: Figure


def ways_out_planned(plan: Stood) -> tuple[IfBig, ...]:
    """What a card says beforehand; which insert would fit is known only when the bore is measured."""
    oversize = [] if plan.next is None else [IfBig("oversize", plan.next.insert, plan.next.bore)]
    return (IfBig("measure-again"), IfBig("insert"), IfBig("turned"), *oversize, IfBig("hold"))


def ways_out(
    job: Job,
    plan: Judged,
    plans: Sequence[Stood],
    bore: Figure,
    limits: Limits,
    bores: Mapping[str, Figure],
    findings: Findings,
) -> Judged:
    """The valve with the ways that are open to it in their order, and its status: to be measured again where an
    insert in hand fits, oversize where only the next size does; where nothing does it is held.

    bores : as cut, of all valves of the head
    """
    wanted = plan.interference
    in_hand = [] if wanted is None else _in_hand(job, plan, wanted, plans, bore, limits, bores)
    ways = [IfBig("measure-again")]
    ways += [IfBig("insert", one.insert, None, one.valve, one.od, one.interference) for one in in_hand]
    turned_to = ""
    if wanted is not None:
        od = computed("od_turned", "mm", bore.value + wanted.aim.value, "bore + I_aim", (bore, wanted.aim), _SOURCE)
        ways.append(IfBig("turned", None, bore, None, od, wanted.aim))
        turned_to = span_of(job, bore.value + wanted.least.value, bore.value + wanted.most.value)
    if plan.next is not None:
        ways.append(IfBig("oversize", plan.next.insert, plan.next.bore))
    ways.append(IfBig("hold"))
    plan = replace(plan, if_big=tuple(ways))
    text = _text(job, plan, bore, limits)
    help = _help(job, plan, in_hand, turned_to)
    if not in_hand and plan.next is None:
        findings.hold(plan.name, "bore-big", text, help, plan.valve.span, bore, limits.most)
        return plan
    findings.warning("bore-big", text, help, plan.valve.span, (plan.name,))
    return replace(plan, status=Status.MEASURE_AGAIN if in_hand else Status.OVERSIZE)


def waiting(plans: tuple[Judged, ...]) -> tuple[Judged, ...]:
    """The valves of a head; one whose insert may go to a bore that came out big has to wait until that is settled."""
    done = []
    for plan in plans:
        takers = tuple(other.name for other in plans if _may_take(other, plan))
        if takers and plan.status != Status.HOLD:
            text = f"{listed(takers, 'or')} may take the insert of {plan.name}: settle that first."
            plan = replace(plan, waits=Waits(takers, text))
        done.append(plan)
    return tuple(done)


def _may_take(other: Judged, plan: Judged) -> bool:
    big = other.cut is not None and other.cut.verdict == BIG
    return big and any(way.do == "insert" and way.valve == plan.name for way in other.if_big)


def _in_hand(
    job: Job,
    plan: Judged,
    wanted: Interference,
    plans: Sequence[Stood],
    bore: Figure,
    limits: Limits,
    bores: Mapping[str, Figure],
) -> list[_InHand]:
    """Inserts that fit for sure, the nearest to the aim first; each stock insert once."""
    found = []
    for other in plans:
        od = other.at20.insert_od
        if other.name == plan.name or od is None or other.insert is None or plan.insert is None:
            continue
        pressed = other.valve.finished is not None
        if pressed or not _alike(plan.insert, other.insert) or not _fits(od, od, wanted, bore, limits):
            continue
        if _other_is_served(plan, other, wanted, limits, bores.get(other.name)):
            found.append(_InHand(other.insert.name, other.name, od, _made(od, bore)))
    taken = [each.insert.name for each in plans if each.insert is not None]
    for offer in stock_offers(job):
        free = offer.on_hand is None or offer.on_hand > sum(name_key(name) == name_key(offer.name) for name in taken)
        suits = offer.seat in ("any", plan.kind) and plan.insert is not None and _alike(plan.insert, offer.plan())
        if offer.limits_known and free and suits and _fits(offer.od_least, offer.od_most, wanted, bore, limits):
            found.append(_InHand(offer.name, None, offer.od, _made(offer.od, bore)))
    return sorted(found, key=lambda one: (abs(one.interference.value - wanted.aim.value), one.insert, one.valve or ""))


def _alike(own: InsertPlan, other: InsertPlan) -> bool:
    """Whether another insert may stand in for this one in everything but its diameter."""
    if name_key(own.name) == name_key(other.name):
        return True
    same_alloy = own.alloy is not None and other.alloy is not None and name_key(own.alloy) == name_key(other.alloy)
    pairs = ((own.height, other.height), (own.id, other.id), (own.chamfer, other.chamfer),
             (own.chamfer_angle, other.chamfer_angle))  # fmt: skip
    return same_alloy and all(a is not None and b is not None and abs(a.value - b.value) < _ALIKE for a, b in pairs)


def _fits(least: Figure, most: Figure, wanted: Interference, bore: Figure, limits: Limits) -> bool:
    """Whether an insert between two diameters gives a fit that can be accepted, at both ends."""
    low, high = wanted.least.value + limits.drawn, wanted.most.value - limits.drawn
    return low <= least.value - bore.value and most.value - bore.value <= high


def _made(od: Figure, bore: Figure) -> Figure:
    od = od.called("od")
    return computed("I", "mm", od.value - bore.value, "od - bore", (od, bore), _SOURCE)


def _other_is_served(plan: Stood, other: Stood, wanted: Interference, limits: Limits, its_bore: Figure | None) -> bool:
    """Whether the valve whose insert would be taken can have this one's: its bore, cut or to come, must suit it."""
    od = plan.at20.insert_od
    if its_bore is not None:
        fit = other.interference
        return od is not None and fit is not None and _fits(od, od, fit, its_bore, limits)
    if other.kept:
        return False  # kept as found: its insert fits its pocket and no other bore is to come
    if od is None or other.clean_up is None:
        return True
    fit = other.interference or wanted
    return od.value - fit.most.value >= other.clean_up.needed.value


def _text(job: Job, plan: Judged, bore: Figure, limits: Limits) -> str:
    made, wanted = plan.cut.interference if plan.cut else None, plan.interference
    most = "" if limits.most is None else f"; {length(job, limits.most.value)} is the most"
    fit = ""
    if made is not None and wanted is not None:
        least = length(job, wanted.least.value)
        fit = f", which leaves an interference of {fine(job, made.value)}; {least} is the least"
    return f"The bore is {fine(job, bore.value)} at 20 °C{most}{fit}: it is big."


def _help(job: Job, plan: Judged, in_hand: Sequence[_InHand], turned_to: str) -> str:
    steps = ["measure again, cold and clean, with the gauge checked on its ring"]
    for one in in_hand[:3]:
        whose = f"the {one.insert} of {one.valve}" if one.valve else f"{one.insert} from the shelf"
        steps.append(f"{whose} ({length(job, one.od.value)}) gives {fine(job, one.interference.value)}")
    if turned_to:
        steps.append(f"a blank turned to {turned_to}")
    if plan.next is not None:
        bore = "" if plan.next.bore is None else f" in a bore of {length(job, plan.next.bore.value)}"
        steps.append(f"the next oversize, {plan.next.insert}{bore}")
    steps.append("else leave it and ask")
    numbered = "; ".join(f"({place}) {step}" for place, step in enumerate(steps, start=1))
    return f"In this order: {numbered}. Take no more metal before it is measured again."
