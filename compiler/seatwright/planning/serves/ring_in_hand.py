"""Which insert of the stock the ring is that was measured for a valve (handbook 4; language, `measured`)."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.handbook import fits
from seatwright.job.model import Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, listed, name_key, said, span_of
from seatwright.planning.certainty.uncertainty import guard_of
from seatwright.planning.plan import Started
from seatwright.planning.plan.figure import Figure
from seatwright.planning.serves.offers import Offer
from seatwright.text.slugs import HoldSlug

_NEAREST = 0.10
"""How far the od of a measured insert may be from that of the stock insert that it is taken for [mm]."""

NEAREST_INCH = 0.1016
"""The same in a job in inches, .004 in [mm]."""

OFF_THE_LIST_INCH = 0.0508
"""How far a measured insert may be from a list size without limits in a job in inches, .002 in [mm]."""

_SLACK = 1e-9

RING_OPEN = ("measured-insert-unknown", "measured-insert-which", "measured-insert-off-list")
"""Holds of a valve of which it is not known what ring goes in."""


class Doubt(Struct, frozen=True):
    """Why a measured ring cannot be taken as it is: a slug, what is wrong with the figures, what lifts it."""

    slug: HoldSlug
    text: str
    help: str
    figure: Figure
    limit: Figure | None = None


class Ring(Struct, frozen=True):
    """The ring in hand. stock: its place in the shop's list, None where that is not known, or it is not on the list.
    doubt: then its od is not counted with."""

    stock: int | None
    doubt: Doubt | None = None


def ring_in_hand(job: Job, plan: Started, stock: Sequence[Offer]) -> Ring | None:
    """The insert that was measured for a valve; None where none was, or a blank is turned to its bore."""
    od, wish = plan.at20.insert_od, plan.valve.specification.insert
    if od is None or wish is None or wish.kind not in ("stock", "choose"):
        return None
    if wish.kind == "stock":
        named = next((offer for offer in stock if name_key(offer.name) == name_key(wish.name or "")), None)
        return Ring(None) if named is None else Ring(named.stock, _off_list(job, plan, od, named))
    allowed = [offer for offer in stock if allows(plan, offer)]
    reach = NEAREST_INCH if job.units == "inch" else _NEAREST
    near = sorted((offer for offer in allowed if _apart(offer, od) <= reach + _SLACK), key=lambda one: _apart(one, od))
    if not near:
        return Ring(None, _unknown(job, plan, od, reach, [one for one in stock if _apart(one, od) <= reach + _SLACK]))
    alike = [offer for offer in near if _apart(offer, od) <= _apart(near[0], od) + _SLACK]
    if len(alike) > 1:
        return Ring(None, _as_near(job, plan, od, alike))
    return Ring(near[0].stock, _off_list(job, plan, od, near[0]))


def allows(plan: Started, offer: Offer) -> bool:
    """Whether the wishes for a valve allow an insert: its alloy and its seat; how many are on hand is another thing."""
    alloys = [name_key(alloy.text) for alloy in plan.valve.specification.alloys]
    of_alloy = not alloys or (offer.alloy is not None and name_key(offer.alloy) in alloys)
    return of_alloy and offer.seat in ("any", plan.kind)


def _apart(offer: Offer, od: Figure) -> float:
    return abs(offer.od.value - od.value)


def _unknown(job: Job, plan: Started, od: Figure, reach: float, ruled_out: Sequence[Offer]) -> Doubt:
    of = " of the alloy and for the seat that are asked for" if ruled_out else ""
    names = listed((f"{offer.name} ({offer.alloy or 'alloy not given'}, {offer.seat})" for offer in ruled_out), "or")
    what = f" It may be {names}, which is ruled out." if ruled_out else ""
    return Doubt(
        "measured-insert-unknown",
        f"The insert measured for {plan.name}, {length(job, od.value)}, is within {length(job, reach)} of none in "
        f"stock{of}.{what}",
        "Measure it again; name it in the column `insert` and list it in the shop file; or put `-` in the cell.",
        od,
    )


def _as_near(job: Job, plan: Started, od: Figure, alike: Sequence[Offer]) -> Doubt:
    names = listed((f"{offer.name} ({said(job, offer.od)})" for offer in alike), "or")
    return Doubt(
        "measured-insert-which",
        f"The insert measured for {plan.name}, {length(job, od.value)}, may be {names}: they are equally near.",
        "Name the one that was measured in the column `insert`.",
        od,
    )


def _off_list(job: Job, plan: Started, od: Figure, offer: Offer) -> Doubt | None:
    """A ring beside its list: the wrong one, or a slip of the pen. Within its limits, give or take guard times the
    insert's uncertainty, nothing is said."""
    if offer.limits_known:
        spread = job.shop.practice.insert_uncertainty
        beside = 0.0 if spread is None else guard_of(job, Findings()).value * spread.value
        least, most = offer.od_least, offer.od_most
        list_ = span_of(job, least.value, most.value)
    else:
        beside = OFF_THE_LIST_INCH if job.units == "inch" else fits.OFF_THE_LIST
        least = most = offer.od
        list_ = f"{said(job, offer.od)}, give or take {length(job, beside)}"
    if fits.belongs_to(od.value, least.value, most.value, beside):
        return None
    return Doubt(
        "measured-insert-off-list",
        f"The insert measured for {plan.name} is {length(job, od.value)}; {offer.name} is {list_} by the list. It is "
        "the wrong ring, or a slip of the pen, and is not bored for.",
        f"Measure it again. If it is another ring, name that one in the column `insert`; if {offer.name} is truly of "
        "that size, give it a row of its own in the shop's `inserts`, and name it.",
        od,
        least if od.value < least.value else most,
    )
