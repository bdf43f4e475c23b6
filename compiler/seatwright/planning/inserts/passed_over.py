"""Why each other insert was not taken, and what is said where none was (handbook 4)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from seatwright.job.model import Head, InsertWish, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, listed, said, span_of
from seatwright.planning.inserts.thin_bridges import Thin
from seatwright.planning.plan import Found, PassedOver, Pocketed, into
from seatwright.planning.plan.figure import Figure
from seatwright.planning.serves.candidates import Candidate
from seatwright.planning.serves.makers_sizes import size_to_come
from seatwright.planning.serves.offers import Offer
from seatwright.planning.serves.reasons import Reason, rank
from seatwright.planning.serves.to_buy import order_for, order_text
from seatwright.planning.serves.wants import Wants
from seatwright.text import Span
from seatwright.text.slugs import HoldSlug

_NOT_COMPUTED = frozenset({"no-interference"})
"""Reasons that say that something is not known, not that the insert does not serve."""

_HELP = {
    "other-alloy": "Name an insert of the alloy that is asked for, or change `alloy`.",
    "none-on-hand": "Order it, or correct `on-hand` in the shop file.",
    "does-not-clean-up": "Take a larger insert, or choose from the stock with `insert choose`.",
    "od-too-wide-for-fit": "Measure the insert in hand and write its `insert-od` under `measured`.",
    "floor-does-not-clean-up": "Take a taller insert.",
    "floor-thin": "Take a lower insert, or give the head up; the water is behind this floor.",
    "bridge-thin": "Take a smaller insert here or beside it.",
    "no-makers-size": "Take one of his sizes, write its size under `pocket-sizes`, or say `size any`.",
    "size-which": "Name it in the column `insert` of the maker's table, or say `size`.",
    "outside-makers-bore": "Take one for his bore, write the bore of its size under `pocket-sizes`, or say `size any`.",
    "ledge-narrow": "Take a larger insert, or one with a smaller chamfer.",
    "rides-on-corner": "Take a cutter with a smaller corner, or an insert with a larger chamfer.",
    "cutter-range": "Take another cutter.",
    "cutter-first-pass": "Take a cutter with a wider tip or a smaller range.",
}


ABOUT = 1.0
"""Two sizes no further apart than this are about the same [mm], two usual oversizes; this program's own bound."""


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

    def nearest(self, od: Figure | None) -> Reason | None:
        """The reason to name where none serves: of an insert of about the size that is wanted, the one that came
        furthest; else of the one nearest in size. od : the least that would serve, None where it is not known"""
        failed = [(offer, self.reasons[offer.name]) for offer in self.offers if offer.name in self.reasons]
        if od is None or not failed:
            return max((reason for _, reason in failed), key=rank, default=None)
        apart = {offer.name: abs(offer.od.value - od.value) for offer, _ in failed}
        about = [one for one in failed if apart[one[0].name] <= ABOUT]
        if about:
            return min(about, key=lambda one: (-rank(one[1]), apart[one[0].name]))[1]
        return min(failed, key=lambda one: apart[one[0].name])[1]

    def far_off(self, od: Figure | None) -> bool:
        """Whether nothing in stock is of about the size that is wanted."""
        return od is not None and all(abs(offer.od.value - od.value) > ABOUT for offer in self.offers)

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
    plan: Found,
    wish: InsertWish,
    wants: Wants,
    looked_at: PassedOverReasons,
    not_kept: Reason | None,
    findings: Findings,
) -> Pocketed:
    """A valve that got no insert: on hold with the reason and what to order; no hold where something is not known."""
    pocket = plan.valve.specification.pocket
    if pocket is not None and pocket.text == "keep":
        reason = not_kept or looked_at.nearest(plan.at20.pocket_mean)
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
        return into(Pocketed, plan)
    if (beyond := wants.beyond_makers_bore) is not None:
        hold_beyond_maker(job, plan, wants, *beyond, findings)
        return into(Pocketed, plan)
    if wish.kind == "stock":
        return _named(job, head, plan, wish, wants, looked_at, findings)
    suited = [reason for reason in looked_at.reasons.values() if rank(reason) >= rank(Reason("no-interference", ""))]
    if wants.needed is None:
        return into(Pocketed, plan)  # what is not measured is said where it is missing, and holds the valve
    if _none_is_makers(wants, looked_at):
        return _no_makers_insert(job, head, plan, wish, wants, looked_at, findings)
    if suited and not looked_at.candidates and all(reason.slug in _NOT_COMPUTED for reason in suited):
        _not_computed(head, plan, findings)
        return into(Pocketed, plan)
    order = order_for(job, head, plan, wants)
    nearest = looked_at.nearest(order.od)
    slug: HoldSlug
    if looked_at.candidates:
        names = listed((one.offer.name for one in looked_at.candidates), "or")
        slug, text = "stock-short", f"{names} would serve {plan.name}, but what is on hand goes to other valves."
    else:
        slug = "no-insert-fits"
        text = f"No insert in stock serves {plan.name}."
        if nearest is not None and order.od is not None and looked_at.far_off(order.od):
            text += f" None is near the od of {length(job, order.od.value)} that is wanted. {nearest.text}"
        elif nearest is not None:
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
    return into(Pocketed, plan, order=order)


_OF_SIZE = frozenset({"no-makers-size", "size-which", "outside-makers-bore"})
"""Reasons that rest on the maker's sizes."""


def _none_is_makers(wants: Wants, looked_at: PassedOverReasons) -> bool:
    """Whether what is missing is an insert of one of the maker's sizes: every other is too small for the pocket."""
    asked = ("for-another-seat", "other-alloy", "none-on-hand", "does-not-clean-up")
    slugs = {reason.slug for reason in looked_at.reasons.values() if reason.slug not in asked}
    return bool(wants.sizes and slugs) and slugs <= _OF_SIZE and not looked_at.candidates


def _no_makers_insert(
    job: Job,
    head: Head,
    plan: Found,
    wish: InsertWish,
    wants: Wants,
    looked_at: PassedOverReasons,
    findings: Findings,
) -> Pocketed:
    order = order_for(job, head, plan, wants)
    reasons = [reason for reason in looked_at.reasons.values() if reason.slug in _OF_SIZE]
    nearest = min(reasons, key=lambda one: _off(one, wants))
    findings.hold(
        plan.name,
        "no-makers-insert",
        f"No insert in stock goes into a bore of the maker's for {plan.name}. The nearest: {nearest.text}",
        f"Order {order_text(job, order)}{_for_bore(job, wants)}; write his other sizes under `pocket-sizes`; or say "
        "`size any`.",
        wish.span,
        nearest.figure,
        nearest.limit,
    )
    return into(Pocketed, plan, order=order)


def _for_bore(job: Job, wants: Wants) -> str:
    """The maker's bore that an insert is ordered for."""
    size = size_to_come(wants.sizes, wants.needed)
    if size is None or size.bore is None or size.bore[0] is None:
        return ""
    return f", for the maker's bore of {span_of(job, size.bore[0].value, size.bore[1].value)}"


def _off(reason: Reason, wants: Wants) -> float:
    """How far an insert is from the size that the pocket comes to [mm]."""
    size = size_to_come(wants.sizes, wants.needed)
    if size is None or size.bore is None or reason.figure is None:
        return 0.0
    return abs(reason.figure.value - size.bore[1].value)


def hold_beyond_maker(job: Job, plan: Found, wants: Wants, needed: Figure, most: Figure, findings: Findings) -> None:
    """The pocket cleans up beyond the largest of the maker's bores, so nothing serves, whatever is ordered."""
    largest = next(one.row for one in reversed(wants.sizes) if one.bore is not None and one.bore[1] is most)
    findings.hold(
        plan.name,
        "bore-over-maker",
        f"{plan.name} cleans up at {length(job, needed.value)}; {_who_allows(job, most)} {length(job, most.value)}.",
        "Another head, or his leave: with that say `size any`, or leave `bore` out for this valve. Where he prints "
        "larger sizes, write them under `pocket-sizes`.",
        largest.span,
        needed,
        most,
    )


def _who_allows(job: Job, most: Figure) -> str:
    """The engine's maker, the text behind a figure of the job, or the job itself."""
    origin = most.origin
    if origin is None or origin.span is None or origin.span.file in {engine.path for engine in job.engines}:
        return "the maker allows"
    return f'"{origin.source}" allows' if origin.source else "the job itself allows"


_AT_A_BRIDGE = "Measure again. Keep the pocket if it is good (`pocket keep`), have the bridge built up, or "


def hold_thin_as_found(job: Job, head: Head, plan: Found, thin: Thin, findings: Findings) -> None:
    """A valve beside a bridge that is too thin as it is: no oversize is looked for."""
    findings.hold(
        plan.name,
        "bridge-thin-as-found",
        f"As found {_left_to(job, plan, thin)} No oversize is looked for.",
        f"{_AT_A_BRIDGE}ask whether `least-bridge` may be less here.",
        _where(head, plan),
        thin.left,
        thin.least,
    )


def hold_thin_cleaned_up(job: Job, head: Head, plan: Found, needed: Figure, thin: Thin, findings: Findings) -> None:
    """A valve whose bridge does not bear even `needed`, the smallest bore that cleans up."""
    findings.hold(
        plan.name,
        "bridge-bears-no-oversize",
        f"{plan.name} cleans up at {length(job, needed.value)}; with that bore "
        f"{_left_to(job, plan, thin)} No insert that could be ordered serves.",
        f"{_AT_A_BRIDGE}look at `clean-up` and at the pilot: what is bored away is the least that cleans up.",
        _where(head, plan),
        thin.left,
        thin.least,
    )


def _where(head: Head, plan: Found) -> Span:
    wish = plan.valve.specification.insert
    return head.span if wish is None else wish.span


def _left_to(job: Job, plan: Found, thin: Thin) -> str:
    """`there is 1.85 mm between E1 and I1; 2.0 mm is the least.`"""
    if not thin.least.value:
        return f"{plan.name} reaches {length(job, -thin.left.value)} beyond {thin.to}; it must stay inside."
    least = said(job, thin.least)
    return f"there is {length(job, thin.left.value)} between {plan.name} and {thin.to}; {least} is the least."


def _named(
    job: Job,
    head: Head,
    plan: Found,
    wish: InsertWish,
    wants: Wants,
    looked_at: PassedOverReasons,
    findings: Findings,
) -> Pocketed:
    order = order_for(job, head, plan, wants)
    if not looked_at.offers:
        findings.hold(
            plan.name,
            "insert-unknown",
            f"The shop has no insert {wish.name} with a diameter, and none was measured for {plan.name}.",
            "List it under `inserts` in the shop file, or measure it.",
            wish.span,
        )
        return into(Pocketed, plan)
    nearest = looked_at.nearest(None)
    if nearest is not None and nearest.slug in _NOT_COMPUTED:
        _not_computed(head, plan, findings)
        return into(Pocketed, plan)
    if nearest is None:
        findings.hold(
            plan.name,
            "stock-short",
            f"{wish.name} would serve {plan.name}, but what is on hand goes to other valves.",
            f"Order {order_text(job, order)}; or say `insert choose`.",
            wish.span,
        )
        return into(Pocketed, plan, order=order)
    findings.hold(
        plan.name,
        nearest.slug,
        nearest.text,
        f"{_HELP.get(nearest.slug, 'Take another insert.')} What serves here: {order_text(job, order)}.",
        wish.span,
        nearest.figure,
        nearest.limit,
    )
    return into(Pocketed, plan, order=order)


def _not_computed(head: Head, plan: Found, findings: Findings) -> None:
    findings.unchecked(
        "interference-not-given",
        "No interference is given for these inserts: no bore is computed.",
        "Give `interference` or the maker's `bore` under `valves`, or a row under `interference` in the shop file.",
        head.span,
        (plan.name,),
    )
