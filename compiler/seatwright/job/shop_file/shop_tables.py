"""The tables of a shop file: pilots, inserts, guides and reamers in stock, interference."""

from __future__ import annotations

from typing import Any

from seatwright.job.model import Given, Insert, InterferenceLine, Named, Pieces, Pilot, Reamer, StockGuide
from seatwright.job.sections.tables import ReadRow
from seatwright.job.shop_file.materials import material_name
from seatwright.job.typed.gather import Gathered
from seatwright.job.wording import of_shop as say

THINNEST = 0.5  # no ring has a thinner wall, mm


def pilot(cells: ReadRow, gathered: Gathered) -> Pilot:
    """A pilot: dead or live with a diameter, expanding or tapered with what it grips."""
    found = _with_former_names(cells.attributes())
    word = cells.header.first.word
    kind = found.pop("kind", None)
    if word == "pilot":
        return Pilot(cells.first, kind.text if kind else "dead", kind.span if kind else None, **found)
    smallest, largest = found.get("smallest"), found.get("largest")
    if smallest is not None and largest is not None and smallest.value > largest.value:
        gathered.say(say.from_to(cells.spans["to"], cells.first.text, smallest, largest))
    return Pilot(cells.first, word, cells.first.span, **found)


def insert(cells: ReadRow, gathered: Gathered) -> Insert:
    """An insert in stock; figures that cannot belong to one insert are said."""
    found = _with_former_names(cells.attributes())
    seat, alloy = found.pop("seat", None), found.pop("alloy", None)
    one = Insert(cells.first, seat=seat.text if seat else "any", alloy=_material(alloy), **_in_stock(cells), **found)
    least, most, name = one.od_least, one.od_most, one.name.text
    if least is not None and most is not None and least.value > most.value:
        gathered.say(say.od_limits(least.span, name, least, most))
    elif one.od is not None and (
        (least is not None and one.od.value < least.value) or (most is not None and one.od.value > most.value)
    ):
        gathered.say(say.od_outside(one.od.span, name, one.od, least, most))
    od = one.od or least or most
    if od is not None and one.id is not None and one.id.value >= od.value - 2 * THINNEST:
        gathered.say(say.id_over_od(one.id.span, name, one.id, od))
    if one.chamfer is not None and one.height is not None and one.chamfer.value > one.height.value:
        gathered.say(say.chamfer_high(one.chamfer.span, name, one.chamfer, one.height))
    if one.on_hand is not None:
        whole_count("on hand", name, one.on_hand, gathered)
    return one


def whole_count(words: str, name: str, count: Given, gathered: Gathered, what: str = "insert") -> None:
    """Say that a count is none. words: of what it is, `on hand`"""
    if count.value != int(count.value):
        gathered.say(say.count_whole(count.span, name, count, words, what))


def _in_stock(cells: ReadRow) -> dict[str, Any]:
    """On which shelf a row stands, and its count where the table's own line dates it."""
    counted, day = cells.get("on-hand"), cells.scope.date
    counts = (Pieces(counted, day),) if counted is not None and day is not None else ()
    return {"shelf": cells.scope.path, "counts": counts}


def _with_former_names(found: dict[str, Any]) -> dict[str, Any]:
    """A cell holds one name; the model has room for those that fields repeat."""
    before = found.pop("formerly", None)
    return {**found, "formerly": () if before is None else (before,)}


def guide(cells: ReadRow, gathered: Gathered) -> StockGuide:
    """A guide or liner in stock; figures that cannot belong to one are said."""
    found = _with_former_names(cells.attributes())
    kind, alloy = found.pop("kind", None), found.pop("alloy", None)
    one = StockGuide(
        cells.first, kind=kind.text if kind else "guide", alloy=_material(alloy), **_in_stock(cells), **found
    )
    least, most, od, name = one.od_least, one.od_most, one.od, one.name.text
    if least is not None and most is not None and least.value > most.value:
        gathered.say(say.guide_limits(least.span, name, least, most))
    elif od is not None and (
        (least is not None and od.value < least.value) or (most is not None and od.value > most.value)
    ):
        gathered.say(say.guide_od_outside(od.span, name, od, least, most))
    across = od or least or most
    if across is not None and one.id is not None and one.id.value >= across.value:
        gathered.say(say.guide_id(one.id.span, name, one.id, across))
    if one.on_hand is not None:
        whole_count("on hand", name, one.on_hand, gathered, "guide")
    return one


def reamer(cells: ReadRow, gathered: Gathered) -> Reamer:
    """A reamer, for holes, for guides, or for either."""
    found = cells.attributes()
    serves = found.pop("serves", None)
    return Reamer(cells.first, serves=serves.text if serves else "any", **found)


def interference(cells: ReadRow, gathered: Gathered) -> InterferenceLine | None:
    """A row of an interference table; None where it lacks what it must have, which is said."""
    source, least, most = cells.get("source"), cells.get("least"), cells.get("most")
    over, to = cells.get("over"), cells.get("to")
    if cells.whole:
        for column, value in (("least", least), ("most", most), ("source", source)):
            if value is None:
                gathered.say(say.interference_lacks(cells.first.span, column))
                return None
    if least is None or most is None or source is None:
        return None
    if least.value > most.value:
        gathered.say(say.interference_reversed(least.span, least, most))
    if over is not None and to is not None and over.value >= to.value:
        gathered.say(say.interference_bounds(over.span, over, to))
    alloy, seat = cells.get("alloy"), cells.get("seat") or cells.get("kind")
    return InterferenceLine(
        material_name("material", cells.first.text),
        "any" if alloy is None or alloy.text == "any" else material_name("alloy", alloy.text),
        "any" if seat is None else seat.text,
        over,
        to,
        least,
        most,
        source.text,
        cells.span,
    )


def _material(named: Named | None) -> Named | None:
    return None if named is None else Named(material_name("alloy", named.text), named.span)


def overlapping(rows: tuple[InterferenceLine, ...], gathered: Gathered) -> None:
    """Say which rows claim the same insert with the same right."""
    before: dict[tuple[str, int], list[InterferenceLine]] = {}
    for row in rows:
        alike = before.setdefault((row.head, _rank(row)), [])
        earlier = next((one for one in alike if _meet(row, one)), None)
        if earlier is not None and row.span and earlier.span:
            gathered.say(say.interference_overlap(row.span, earlier.span))
        alike.append(row)


def _rank(row: InterferenceLine) -> int:
    return (row.alloy == "any") + (row.seat == "any")


def _meet(one: InterferenceLine, other: InterferenceLine) -> bool:
    for mine, theirs in ((one.alloy, other.alloy), (one.seat, other.seat)):
        if mine != theirs and "any" not in (mine, theirs):
            return False
    over = max(row.over.value if row.over else 0.0 for row in (one, other))
    to = min(row.to.value if row.to else float("inf") for row in (one, other))
    return over < to
