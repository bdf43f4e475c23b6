"""The inserts that may be looked at for a valve: the stock with its list figures, or with those measured in hand."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Given, Insert, Job
from seatwright.planning.plan.figure import Figure, assumed, computed, given
from seatwright.planning.plan import InsertPlan, ValvePlan
from seatwright.planning.basis.wording import name_key

NEAREST = 0.10
"""How far the od of a measured insert may be from that of the stock insert that it is taken for [mm]."""

NEAREST_INCH = 0.1016
"""The same in a job in inches, .004 in [mm]."""

CHAMFER_ANGLE = 45.0
"""Angle of a chamfer that the list does not give, from the od [degrees]; the language's figure."""


class Offer(Struct, frozen=True):
    """An insert as it may go into one valve.

    stock: its place in the shop's list, None where the list does not have it. measured: its od was measured in hand;
    then od_least = od_most. limits_known: measured, or the list gives limits.
    """

    name: str
    stock: int | None
    measured: bool
    limits_known: bool
    od: Figure
    od_least: Figure
    od_most: Figure
    height: Figure | None
    id: Figure | None
    chamfer: Figure | None
    chamfer_angle: Figure | None
    alloy: str | None
    seat: str
    on_hand: int | None

    def plan(self) -> InsertPlan:
        """As the plan holds it."""
        return InsertPlan(
            self.name,
            self.measured,
            self.od,
            self.od_least,
            self.od_most,
            self.height,
            self.id,
            self.chamfer,
            self.chamfer_angle,
            self.alloy,
        )


def stock_offers(job: Job) -> tuple[Offer, ...]:
    """Every insert of the shop that has a diameter, with its list figures, in the shop's order."""
    offers = (_listed(place, insert) for place, insert in enumerate(job.shop.inserts))
    return tuple(offer for offer in offers if offer is not None)


def offers_for(job: Job, plan: ValvePlan, stock: tuple[Offer, ...]) -> tuple[Offer, ...]:
    """What may be looked at for this valve: the named insert alone, or the whole stock; the one in hand as measured."""
    wish = plan.valve.specification.insert
    if wish is None or wish.kind not in ("stock", "choose"):
        return ()
    if wish.kind == "stock":
        named = next((offer for offer in stock if name_key(offer.name) == name_key(wish.name or "")), None)
        if named is None:
            own = _only_measured(plan, wish.name or "")
            return () if own is None else (own,)
        return (_in_hand(plan, named),)
    in_hand = insert_in_hand(job, plan, stock)
    return tuple(_in_hand(plan, offer) if offer.stock == in_hand else offer for offer in stock)


def insert_in_hand(job: Job, plan: ValvePlan, stock: tuple[Offer, ...]) -> int | None:
    """The place in the stock of the insert that was measured for a valve whose insert is to be chosen: the nearest by
    od, for this seat first, within 0.10 mm (.004 in); None where there is none."""
    od = plan.at20.insert_od
    if od is None:
        return None
    reach = (NEAREST_INCH if job.units == "inch" else NEAREST) + 1e-9
    near = [offer for offer in stock if abs(offer.od.value - od.value) <= reach]
    ranked = sorted(near, key=lambda offer: (offer.seat not in ("any", plan.kind), abs(offer.od.value - od.value)))
    return ranked[0].stock if ranked else None


def _listed(place: int, insert: Insert) -> Offer | None:
    if insert.od is None and (insert.od_least is None or insert.od_most is None):
        return None
    limits_known = insert.od_least is not None and insert.od_most is not None
    if limits_known:
        assert insert.od_least is not None
        assert insert.od_most is not None
        least, most = given("od_least", "mm", insert.od_least), given("od_most", "mm", insert.od_most)
    else:
        assert insert.od is not None
        least = most = given("od", "mm", insert.od)
    if insert.od is not None:
        od = given("od", "mm", insert.od)
    else:
        middle = (least.value + most.value) / 2
        od = computed("od", "mm", middle, "(od_least + od_most)/2", (least, most), "language, limits")
    return Offer(
        name=insert.name.text,
        stock=place,
        measured=False,
        limits_known=limits_known,
        od=od,
        od_least=least,
        od_most=most,
        height=_maybe("height", "mm", insert.height),
        id=_maybe("id", "mm", insert.id),
        chamfer=_maybe("chamfer", "mm", insert.chamfer),
        chamfer_angle=None if insert.chamfer is None else _angle(insert.chamfer_angle),
        alloy=None if insert.alloy is None else insert.alloy.text,
        seat=insert.seat,
        on_hand=None if insert.on_hand is None else round(insert.on_hand.value),
    )


def _in_hand(plan: ValvePlan, offer: Offer) -> Offer:
    """The insert with what was measured of it."""
    od, height = plan.at20.insert_od, plan.found.insert_height
    if height is not None:
        offer = replace(offer, height=given("height", "mm", height))
    if od is None:
        return offer
    return replace(offer, measured=True, limits_known=True, od=od, od_least=od, od_most=od)


def _only_measured(plan: ValvePlan, name: str) -> Offer | None:
    od, height = plan.at20.insert_od, plan.found.insert_height
    if od is None:
        return None
    tall = None if height is None else given("height", "mm", height)
    return Offer(name, None, True, True, od, od, od, tall, None, None, None, None, "any", None)


def _maybe(symbol: str, unit: str, what: Given | None) -> Figure | None:
    return None if what is None else given(symbol, unit, what)


def _angle(what: Given | None) -> Figure:
    if what is not None:
        return given("chamfer_angle", "deg", what)
    return assumed("chamfer_angle", "deg", CHAMFER_ANGLE, "language: chamfer-angle left out")
