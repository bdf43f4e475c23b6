"""A head and its valves, put together from its sections."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from seatwright.job.declarations import job_sections
from seatwright.job.head.head_parts import Parts, wish
from seatwright.job.head.selectors import RowOfValve, Selectors, specification
from seatwright.job.model import (
    CutReadings,
    Finished,
    Given,
    Head,
    InsertWish,
    LeftShelf,
    Material,
    Measured,
    Named,
    Note,
    Reading,
    Replacement,
    Specification,
    Valve,
)
from seatwright.job.sections.singles import Spoken
from seatwright.job.shop_file.shop import Stock
from seatwright.job.typed import names
from seatwright.job.typed.gather import Gathered
from seatwright.job.wording import of_valves as say
from seatwright.text import Span

_BORES = frozenset({"bore_a", "bore_b", "bore_low_a", "bore_low_b"})
NARROWER = ("head_diameter", "margin", "stem", "metal_around")


def planned_valves(parts: Parts) -> dict[str, Span]:
    """The valves that a head plans, each with the place where it is first named."""
    found: dict[str, Span] = {}
    places: list[tuple[str, Span]] = [
        (word, span) for section in parts.selected for word, span in section.words if names.is_valve(word)
    ]
    places += parts.named_above.items()
    places += ((one.valve, one.span) for one in parts.measured.renewed)
    for sheet in (parts.measured, parts.cut, parts.finished):
        places += sheet.mentioned.items()
    for name, span in sorted(places, key=lambda one: one[1]):
        found.setdefault(name, span)
    return found


def neighbours(parts: Parts, own: Iterable[str]) -> dict[str, Span]:
    """Valves that only `layout` or `spacing` names."""
    found: dict[str, Span] = {}
    for place in parts.layout:
        found.setdefault(place.valve, place.span)
    for pair in parts.spacings:
        found.setdefault(pair.first, pair.span)
        found.setdefault(pair.second, pair.span)
    for name in own:
        found.pop(name, None)
    return found


def build_head(
    number: int, parts: Parts, stock: Stock, spoken: Iterable[Spoken], notes: tuple[Note, ...], gathered: Gathered
) -> Head:
    """The head. spoken: the notes and holds that may name its valves; notes: those of the whole head."""
    said = tuple(spoken)
    own = planned_valves(parts)
    beside = neighbours(parts, own)
    if not own and not parts.doubtful and not parts.lost:
        gathered.say(say.no_valves(parts.span))
    selectors = Selectors.of((*parts.above, *parts.selected))
    _check_selectors(parts, selectors, (*own, *beside), gathered)
    holds: dict[str, list[Note]] = {}
    for one in said:
        for name in set(one.note.valves) if one.hold else ():
            holds.setdefault(name, []).append(one.note)

    def made(named: dict[str, Span], is_own: bool) -> tuple[Valve, ...]:
        return tuple(
            _valve(name, named[name], is_own, parts, selectors, stock, tuple(holds.get(name, ())), gathered)
            for name in sorted(named, key=names.valve_order)
        )

    valves, around = made(own, True), made(beside, False)
    here = set(own) | set(beside)
    of_valves = tuple(one.note for one in said if not one.hold and set(one.note.valves) & here)
    title, found = parts.title, parts.fields.attributes(job_sections.HEAD)
    named = found.pop("material", None)
    all_notes = tuple(sorted((*notes, *of_valves), key=lambda note: note.span))
    return Head(
        number,
        title.name.text if title.name else "",
        title.text.text if title.text else "",
        parts.span,
        _material(named, stock, gathered),
        valves,
        around,
        layout=tuple(parts.layout),
        holes=tuple(parts.holes),
        spacings=tuple(parts.spacings),
        trials=tuple(parts.trials),
        notes=all_notes,
        extras=tuple(parts.extras),
        **found,
    )


def _material(named: Named | None, stock: Stock, gathered: Gathered) -> Material | None:
    found = stock.look_up("material", named, gathered)
    return None if found is None else stock.materials[found.text]


def _check_selectors(parts: Parts, selectors: Selectors, valves: Iterable[str], gathered: Gathered) -> None:
    listed = (*valves, *parts.lost)
    if parts.doubtful or not listed:
        return
    for section in selectors.meaning_none(listed):
        if section.above:
            continue  # it may mean a valve of another head
        gathered.say(say.selects_none(section.line, " ".join(word for word, _ in section.words)))


def _valve(
    name: str,
    span: Span,
    own: bool,
    parts: Parts,
    selectors: Selectors,
    stock: Stock,
    holds: tuple[Note, ...],
    gathered: Gathered,
) -> Valve:
    kind, cylinder, letter = names.valve_parts(name)
    found = parts.measured.values(name)
    cells = _narrower(found, stock, gathered)
    specified = specification(name, selectors, cells, gathered)
    if "stem" in found:
        specified["stem_limits"] = None
    insert = next((cell.attributes["insert"] for cell in cells if cell.word == "insert"), None)
    found["insert"] = Named(insert.name, insert.span) if insert is not None and insert.name is not None else None
    return Valve(
        name,
        kind,
        cylinder,
        letter,
        own,
        span,
        Specification(**specified),
        Measured(**found),
        _cut(name, parts, stock, gathered),
        _finished(name, parts),
        holds,
        tuple(
            Replacement(one.part, one.date, one.span, Measured(**readings))
            for one, readings in parts.measured.renewed_of(name)
        ),
        parts.not_counted.get(name, ()),
        _left_shelf(name, parts),
    )


def _narrower(found: dict[str, Any], stock: Stock, gathered: Gathered) -> list[RowOfValve]:
    """The cells of `measured` that say of one valve what `valves` says of a set."""
    cells: list[RowOfValve] = []
    insert = found.get("insert")
    if isinstance(insert, InsertWish):
        named = wish(insert, stock, gathered)
        if named is not None:
            cells.append(RowOfValve("insert", {"insert": named}))
    for attribute in NARROWER:
        value = found.get(attribute)
        if isinstance(value, Reading):
            given = Given(value.value, value.typed, value.span, value.half_digit)
            cells.append(RowOfValve(attribute.replace("_", "-"), {attribute: given}))
    return cells


def _cut(name: str, parts: Parts, stock: Stock, gathered: Gathered) -> CutReadings | None:
    values = parts.cut.values(name)
    if not values:
        return None
    earlier = tuple(
        CutReadings(**_with_cutter(before, stock, gathered), date=date) for date, before in parts.cut.earlier(name)
    )
    return CutReadings(**_with_cutter(values, stock, gathered), date=parts.cut.date(name), earlier=earlier)


def _left_shelf(name: str, parts: Parts) -> LeftShelf | None:
    """The first section in which a bore of the valve stands; else the first in which it is finished."""
    bored = [date for _, date, values in parts.cut.sections.get(name, ()) if _BORES & values.keys()]
    if bored:
        return LeftShelf(bored[0], parts.cut.mentioned[name])
    done = [date for _, date, _ in parts.finished.sections.get(name, ())]
    return LeftShelf(done[0], parts.finished.mentioned[name]) if done else None


def _with_cutter(values: dict[str, Any], stock: Stock, gathered: Gathered) -> dict[str, Any]:
    return {**values, "cutter": stock.look_up("cutter", values.get("cutter"), gathered)}


def _finished(name: str, parts: Parts) -> Finished | None:
    values = parts.finished.values(name)
    if not values:
        return None
    earlier = tuple(Finished(**_with_leak(before), date=date) for date, before in parts.finished.earlier(name))
    return Finished(**_with_leak(values), date=parts.finished.date(name), earlier=earlier)


def _with_leak(values: dict[str, Any]) -> dict[str, Any]:
    """A time that was held stands apart from a word."""
    leak = values.get("leak")
    return {**values, "leak": None, "leak_seconds": leak} if isinstance(leak, Reading) else values
