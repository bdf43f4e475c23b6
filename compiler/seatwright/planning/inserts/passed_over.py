"""Why each other insert was not taken, and what is said where none was (handbook 4)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Head, Job
from seatwright.planning.serves.candidates import Candidate
from seatwright.planning.basis.findings import Findings
from seatwright.planning.serves.offers import NEAREST, NEAREST_INCH, Offer
from seatwright.planning.serves.to_buy import order_for, order_text
from seatwright.planning.plan import PassedOver, ValvePlan
from seatwright.planning.serves.reasons import Reason, rank
from seatwright.planning.serves.wants import Wants
from seatwright.planning.basis.wording import length, listed

_NOT_COMPUTED = frozenset({"no-interference", "clean-up-unknown"})
"""Reasons that say that something is not known, not that the insert does not serve."""

_HELP = {
    "other-alloy": "Name an insert of the alloy that is asked for, or change `alloy`.",
    "none-on-hand": "Order it, or correct `on-hand` in the shop file.",
    "does-not-clean-up": "Take a larger insert, or choose from the stock with `insert choose`.",
    "od-too-wide-for-fit": "Measure the insert in hand and write its `insert-od` under `measured`.",
    "floor-does-not-clean-up": "Take a taller insert.",
    "floor-thin": "Take a lower insert, or give the head up; the water is behind this floor.",
    "bridge-thin": "Take a smaller insert here or beside it.",
    "ledge-narrow": "Take a larger insert, or one with a smaller chamfer.",
    "rides-on-corner": "Take a cutter with a smaller corner, or an insert with a larger chamfer.",
    "cutter-range": "Take another cutter.",
    "cutter-first-pass": "Take a cutter with a wider tip or a smaller range.",
}


class PassedOverReasons(Struct, frozen=True):
    """All inserts that were looked at for a valve.

    reasons : by name, of those that do not serve. candidates : those that do. used : pieces that the whole job takes
    """

    offers: Sequence[Offer]
    reasons: Mapping[str, Reason]
    candidates: Sequence[Candidate]
    used: Mapping[str, int]

    def beside(self, job: Job, chosen: Candidate) -> tuple[PassedOver, ...]:
        """Every insert but the chosen one, in the order of the shop's list."""
        served = {one.offer.name: one for one in self.candidates}
        found = []
        for offer in self.offers:
            if offer.name == chosen.offer.name:
                continue
            if offer.name in served:
                found.append(self._not_needed(job, offer, chosen).of(offer))
            elif offer.name in self.reasons:
                found.append(self.reasons[offer.name].of(offer))
            else:
                found.append(Reason("pocket-kept", "The pocket is kept for another insert.").of(offer))
        return tuple(found)

    def alone(self) -> tuple[PassedOver, ...]:
        """Every insert, where none was chosen."""
        return tuple(self.reasons[offer.name].of(offer) for offer in self.offers if offer.name in self.reasons)

    def _not_needed(self, job: Job, offer: Offer, chosen: Candidate) -> Reason:
        if offer.od.value >= chosen.offer.od.value:
            text = f"{offer.name} would serve too; {chosen.offer.name} takes less metal."
            return Reason("larger-than-needed", text, offer.od, chosen.offer.od)
        taken = self.used.get(offer.name, 0)
        if offer.on_hand is not None and taken >= offer.on_hand:
            text = f"{offer.name} would serve too, but all {offer.on_hand} on hand go to other valves."
            return Reason("all-used", text)
        text = (
            f"{offer.name} would serve too; {chosen.offer.name} gives the set one size, or leaves the bridges that the "
            "valves beside it need."
        )
        return Reason("not-the-sets-size", text, offer.od, chosen.offer.od)


def hold_without(
    job: Job,
    head: Head,
    plan: ValvePlan,
    wants: Wants,
    looked_at: PassedOverReasons,
    nearest: Reason | None,
    not_kept: Reason | None,
    findings: Findings,
) -> ValvePlan:
    """A valve that got no insert: on hold with the reason and what to order; no hold where something is not known."""
    wish = plan.valve.specification.insert
    assert wish is not None
    pocket = plan.valve.specification.pocket
    if pocket is not None and pocket.text == "keep":
        reason = not_kept or nearest
        text = reason.text if reason else "No insert was found for the pocket as found."
        findings.hold(
            plan.name,
            reason.slug if reason else "pocket-not-kept",
            f"The pocket of {plan.name} cannot be kept. {text}",
            "Say `pocket bore`, or leave it out to have both looked at.",
            pocket.span,
            reason.figure if reason else None,
            reason.limit if reason else None,
        )
        return plan
    if wish.kind == "stock":
        return _named(job, head, plan, wants, looked_at, nearest, findings)
    suited = [reason for reason in looked_at.reasons.values() if rank(reason) >= rank(Reason("no-interference", ""))]
    if wants.needed is None or (
        suited and not looked_at.candidates and all(reason.slug in _NOT_COMPUTED for reason in suited)
    ):
        _not_computed(head, plan, nearest, findings)
        return plan
    order = order_for(job, head, plan, wants)
    if looked_at.candidates:
        names = listed((one.offer.name for one in looked_at.candidates), "or")
        slug, text = "stock-short", f"{names} would serve {plan.name}, but what is on hand goes to other valves."
    else:
        slug = "no-insert-fits"
        text = f"No insert in stock serves {plan.name}."
        if nearest is not None:
            text += f" The nearest: {nearest.text}"
    findings.hold(
        plan.name,
        slug,
        text,
        f"Order {order_text(job, order)}; or say `insert turned`.",
        wish.span,
        None if nearest is None else nearest.figure,
        None if nearest is None else nearest.limit,
    )
    return replace(plan, order=order)


def measured_unknown(job: Job, plan: ValvePlan, findings: Findings) -> None:
    """A measured insert that is none of the stock: nobody knows which it is."""
    od = plan.found.insert_od
    assert od is not None
    reach = NEAREST_INCH if job.units == "inch" else NEAREST
    findings.hold(
        plan.name,
        "measured-insert-unknown",
        f"The insert measured for {plan.name}, {length(job, od.value)}, is within {length(job, reach)} of none "
        "in stock.",
        "Name it with `insert` and list it in the shop file, or put `-` in the cell.",
        od.span,
        plan.at20.insert_od,
    )


def _named(
    job: Job,
    head: Head,
    plan: ValvePlan,
    wants: Wants,
    looked_at: PassedOverReasons,
    nearest: Reason | None,
    findings: Findings,
) -> ValvePlan:
    wish = plan.valve.specification.insert
    assert wish is not None
    order = order_for(job, head, plan, wants)
    if not looked_at.offers:
        findings.hold(
            plan.name,
            "insert-unknown",
            f"The shop has no insert {wish.name} with a diameter, and none was measured for {plan.name}.",
            "List it under `inserts` in the shop file, or measure it.",
            wish.span,
        )
        return plan
    if nearest is not None and nearest.slug in _NOT_COMPUTED:
        _not_computed(head, plan, nearest, findings)
        return plan
    if nearest is None:
        findings.hold(
            plan.name,
            "stock-short",
            f"{wish.name} would serve {plan.name}, but what is on hand goes to other valves.",
            f"Order {order_text(job, order)}; or say `insert choose`.",
            wish.span,
        )
        return replace(plan, order=order)
    findings.hold(
        plan.name,
        nearest.slug,
        nearest.text,
        f"{_HELP.get(nearest.slug, 'Take another insert.')} What serves here: {order_text(job, order)}.",
        wish.span,
        nearest.figure,
        nearest.limit,
    )
    return replace(plan, order=order)


def _not_computed(head: Head, plan: ValvePlan, nearest: Reason | None, findings: Findings) -> None:
    if nearest is not None and nearest.slug == "no-interference":
        findings.unchecked(
            "interference-not-given",
            "No interference is given for these inserts: no bore is computed.",
            "Give `interference` or the maker's `bore` under `valves`, or a row under `interference` in the shop file.",
            head.span,
            (plan.name,),
        )
        return
    findings.unchecked(
        "insert-not-chosen",
        "What the bore must clean up is not known: no insert is chosen.",
        "Measure the pocket with the old insert out.",
        head.span,
        (plan.name,),
    )
