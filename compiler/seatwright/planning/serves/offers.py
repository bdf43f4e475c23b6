"""The inserts that may be looked at for a valve: the stock with its list figures, or with those measured in hand."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Given, Insert, Job
from seatwright.planning.basis.wording import name_key
from seatwright.planning.plan import InsertPlan, Started
from seatwright.planning.plan.figure import Figure, assumed, computed, given

CHAMFER_ANGLE = 45.0
"""Angle of a chamfer that the list does not give, from the od [degrees]; the language's figure."""


class Offer(Struct, frozen=True, cache_hash=True):
    """An insert as it may go into one valve.

    stock: its place in the shop's list, None where the list does not have it. measured: its od was measured in hand;
    then od_least = od_most. limits_known: measured, or the list gives limits. on_hand: as the shop's own file tells,
    counted on that day. shelf: the shop file.
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
    counted_on: str | None = None
    shelf: str | None = None

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
            shelf=self.shelf,
        )


def stock_offers(job: Job) -> tuple[Offer, ...]:
    """Every insert of the shop that has a diameter, with its list figures, in the shop's order."""
    offers = (_listed(place, insert) for place, insert in enumerate(job.shop.inserts))
    return tuple(offer for offer in offers if offer is not None)


def offers_for(plan: Started, stock: tuple[Offer, ...], in_hand: int | None) -> tuple[Offer, ...]:
    """What may be looked at for this valve: the named insert alone, or the whole stock; the one in hand as measured.

    in_hand : its place in the stock, None where none was measured, or nobody can tell which it is
    """
    wish = plan.valve.specification.insert
    if wish is None or wish.kind not in ("stock", "choose"):
        return ()
    if wish.kind == "stock":
        named = next((offer for offer in stock if name_key(offer.name) == name_key(wish.name or "")), None)
        if named is None:
            own = _only_measured(plan, wish.name or "")
            return () if own is None else (own,)
        return (_in_hand(plan, named) if named.stock == in_hand else _of_height(plan, named),)
    return tuple(_in_hand(plan, offer) if offer.stock == in_hand else offer for offer in stock)


def _listed(place: int, insert: Insert) -> Offer | None:
    limits_known = True
    if insert.od_least is not None and insert.od_most is not None:
        least, most = given("od_least", "mm", insert.od_least), given("od_most", "mm", insert.od_most)
    elif insert.od is not None:
        limits_known = False
        least = most = given("od", "mm", insert.od)
    else:
        return None
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
        on_hand=insert.told,
        counted_on=None if insert.counted is None else insert.counted.date,
        shelf=insert.shelf,
    )


def missing_already(plan: Started, offer: Offer) -> bool:
    """Whether this valve's piece of an insert had left the shelf when they were counted: it is not taken again."""
    left = plan.valve.left_shelf
    return left is not None and left.before_count(offer.counted_on)


def _in_hand(plan: Started, offer: Offer) -> Offer:
    """The insert with what was measured of it."""
    od, offer = plan.at20.insert_od, _of_height(plan, offer)
    return offer if od is None else replace(offer, measured=True, limits_known=True, od=od, od_least=od, od_most=od)


def _of_height(plan: Started, offer: Offer) -> Offer:
    height = plan.found.insert_height
    return offer if height is None else replace(offer, height=given("height", "mm", height))


def _only_measured(plan: Started, name: str) -> Offer | None:
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
