"""Inserts in hand that would fit a bore as it was cut: measured for another valve, or in stock with limits that fit."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Job
from seatwright.planning.basis.verdicts import BoreLimits
from seatwright.planning.basis.wording import name_key
from seatwright.planning.plan import InsertPlan, Interference, Stood
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.offers import missing_already, stock_offers

_SOURCE = "handbook 11"
_ALIKE = 1e-6

Suits = Callable[[InsertPlan], bool]


class InHand(Struct, frozen=True):
    """An insert that would fit: measured for another valve, or in stock with limits that fit at both ends."""

    insert: str
    valve: str | None
    height: Figure | None
    od: Figure
    interference: Figure


def in_hand(
    job: Job,
    plan: Stood,
    plans: Sequence[Stood],
    bore: Figure,
    limits: BoreLimits,
    bores: Mapping[str, Figure],
    suits: Suits,
) -> list[InHand]:
    """Inserts that fit for sure, the nearest to the aim first; each stock insert once.

    bores : as cut, of all valves of the head
    suits : whether an insert may stand in for the valve's own in all but its diameter
    """
    wanted = plan.interference
    if wanted is None:
        return []
    found = []
    for other in plans:
        od = other.at20.insert_od
        if other.name == plan.name or od is None or other.insert is None or plan.insert is None:
            continue
        pressed = other.valve.finished is not None
        theirs = _as_measured(other, other.insert)
        if pressed or not suits(theirs) or not _fits(od, od, wanted, bore, limits):
            continue
        if _other_is_served(plan, other, wanted, limits, bores.get(other.name)):
            found.append(InHand(theirs.name, other.name, theirs.height, od, _made(od, bore)))
    for offer in stock_offers(job):
        taken = sum(
            each.insert is not None
            and name_key(each.insert.name) == name_key(offer.name)
            and not missing_already(each, offer)
            for each in plans
        )
        free = offer.on_hand is None or offer.on_hand > taken
        serves = offer.seat in ("any", plan.kind) and suits(offer.plan())
        if offer.limits_known and free and serves and _fits(offer.od_least, offer.od_most, wanted, bore, limits):
            found.append(InHand(offer.name, None, offer.height, offer.od, _made(offer.od, bore)))
    return sorted(found, key=lambda one: (abs(one.interference.value - wanted.aim.value), one.insert, one.valve or ""))


def alike(own: InsertPlan, other: InsertPlan) -> bool:
    """Whether another insert may stand in for this one in everything but its diameter."""
    if name_key(own.name) == name_key(other.name):
        return True
    same_alloy = own.alloy is not None and other.alloy is not None and name_key(own.alloy) == name_key(other.alloy)
    return same_alloy and _same(own.height, other.height) and _same_but_height(own, other)


def taller(own: InsertPlan, other: InsertPlan, least: float, most: float) -> bool:
    """Whether another insert is this one but for its diameter and its height, from least to most [mm]."""
    if other.height is None or not least - _ALIKE <= other.height.value <= most + _ALIKE:
        return False
    same_alloy = own.alloy is not None and other.alloy is not None and name_key(own.alloy) == name_key(other.alloy)
    return name_key(own.name) == name_key(other.name) or (same_alloy and _same_but_height(own, other))


def _same_but_height(own: InsertPlan, other: InsertPlan) -> bool:
    pairs = (own.id, other.id), (own.chamfer, other.chamfer), (own.chamfer_angle, other.chamfer_angle)
    return all(_same(a, b) for a, b in pairs)


def _same(a: Figure | None, b: Figure | None) -> bool:
    return a is not None and b is not None and abs(a.value - b.value) < _ALIKE


def _as_measured(plan: Stood, insert: InsertPlan) -> InsertPlan:
    """An insert with its height as it was measured."""
    height = plan.found.insert_height
    return insert if height is None else replace(insert, height=given("height", "mm", height))


def _fits(least: Figure, most: Figure, wanted: Interference, bore: Figure, limits: BoreLimits) -> bool:
    """Whether an insert between two diameters gives a fit that can be accepted, at both ends."""
    low, high = wanted.least.value + limits.drawn, wanted.most.value - limits.drawn
    return low <= least.value - bore.value and most.value - bore.value <= high


def _made(od: Figure, bore: Figure) -> Figure:
    od = od.called("od")
    return computed("I", "mm", od.value - bore.value, "od - bore", (od, bore), _SOURCE)


def _other_is_served(
    plan: Stood, other: Stood, wanted: Interference, limits: BoreLimits, its_bore: Figure | None
) -> bool:
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
