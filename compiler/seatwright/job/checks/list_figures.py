"""A measured cell without another valve of its kind: held against the list figures of the shop and its own pocket."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.job.declarations import Field
from seatwright.job.model import Insert, Reading, Shop, Valve
from seatwright.job.wording import of_list_figures as say
from seatwright.text import Message

HEIGHT = 0.15  # no ring is so far from its list height, mm (common practice)
FLOOR = 0.7  # nor does a pocket end so far from where the listed insert of its size would bring it (common practice)
WAS_IN = (-0.05, 0.25)  # an insert so much over a pocket is of the size that was in it, mm
_THROAT = (0.60, 0.95)  # a throat is so much of its pocket (common practice: seats are 2 to 6 mm wide with their cuts)


def judged(column: Field, valve: Valve, reading: Reading, shop: Shop) -> Message | None:
    """What is odd about a cell that has no like; None where nothing is, or nothing could tell."""
    match column.to:
        case "insert_height":
            return next(_insert_height(valve, reading, shop), None)
        case "pocket_depth":
            return next(_pocket_depth(valve, reading, shop), None)
        case "throat":
            return next(_throat(valve, reading), None)
    return None


def _insert_height(valve: Valve, height: Reading, shop: Shop) -> Iterator[Message]:
    wish = valve.specification.insert
    if wish is None or wish.kind != "stock":
        return
    for insert in shop.inserts:
        known = insert.height
        if insert.name.text == wish.name and known is not None and abs(height.value - known.value) > HEIGHT:
            yield say.height_unlike_list(valve.name, height, insert, known)


def _pocket_depth(valve: Valve, depth: Reading, shop: Shop) -> Iterator[Message]:
    found = valve.measured
    pockets = [one.value for one in (found.pocket_a, found.pocket_b) if one is not None]
    if not pockets:
        return
    heights = [
        insert.height
        for insert in _for(valve, shop)
        if insert.height is not None
        and insert.od is not None
        and WAS_IN[0] <= insert.od.value - min(pockets) <= WAS_IN[1]
    ]
    stand = valve.specification.stand
    below = stand.below_most.value if stand is not None else 0.0
    near = min(heights, key=lambda height: abs(height.value + below - depth.value), default=None)
    if near is not None and abs(near.value + below - depth.value) > FLOOR:
        yield say.depth_unlike_insert(valve.name, depth, near)


def _throat(valve: Valve, throat: Reading) -> Iterator[Message]:
    pockets = [one for one in (valve.measured.pocket_a, valve.measured.pocket_b) if one is not None]
    if not pockets or valve.specification.seat_integral is not None:
        return
    smallest = min(pockets, key=lambda one: one.value)
    if not _THROAT[0] <= throat.value / smallest.value <= _THROAT[1]:
        yield say.throat_unlike(valve.name, throat, smallest)


def _for(valve: Valve, shop: Shop) -> list[Insert]:
    """The listed inserts that are for such a seat."""
    return [insert for insert in shop.inserts if insert.od is not None and insert.seat in ("any", valve.kind)]
