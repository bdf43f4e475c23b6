"""A head and its valves, put together from its sections."""

from __future__ import annotations

from collections.abc import Container, Iterable
from typing import Any

from seatwright.job.head.head_parts import Parts, wish
from seatwright.job.head.precedence import RowOfValve, of_head, specification
from seatwright.job.head.selectors import Selectors
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
from seatwright.job.wording import of_engines as say_engine
from seatwright.job.wording import of_valves as say
from seatwright.job.wording.of_values import field_missing
from seatwright.text import Span

_BORES = frozenset({"bore_a", "bore_b", "bore_low_a", "bore_low_b"})
_Idle = tuple[str, tuple[str, ...], bool]
"""A line that takes a field of the engine's away: its word, the valves it is for, whether there is one to take."""

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


def neighbours(parts: Parts, own: Iterable[str], of_others: Container[str] = ()) -> dict[str, Span]:
    """Valves that only `layout` or `spacing` names, of the head's own or of its engine.

    of_others: valves of other heads; an engine file, which knows one head of a kind, does not mean those
    """
    found: dict[str, Span] = {}
    for place in parts.places:
        found.setdefault(place.valve, place.span)
    for pair in parts.distances:
        found.setdefault(pair.first, pair.span)
        found.setdefault(pair.second, pair.span)
    for name in own:
        found.pop(name, None)
    return {name: span for name, span in found.items() if name not in of_others or span.file == parts.span.file}


def build_head(
    number: int,
    parts: Parts,
    stock: Stock,
    spoken: Iterable[Spoken],
    notes: tuple[Note, ...],
    of_others: Container[str],
    gathered: Gathered,
) -> Head:
    """The head. spoken: the notes and holds that may name its valves; notes: those of the whole head; of_others: the
    valves of other heads."""
    said = tuple(spoken)
    own = planned_valves(parts)
    beside = neighbours(parts, own, of_others)
    if not own and not parts.doubtful and not parts.lost:
        gathered.say(say.no_valves(parts.span))
    selectors = Selectors.of((*parts.above, *parts.selected))
    _check_selectors(parts, selectors, (*own, *beside), gathered)
    idle: dict[Span, _Idle] = {}
    holds: dict[str, list[Note]] = {}
    for one in said:
        for name in set(one.note.valves) if one.hold else ():
            holds.setdefault(name, []).append(one.note)

    def made(named: dict[str, Span], is_own: bool) -> tuple[Valve, ...]:
        return tuple(
            _valve(name, named[name], is_own, parts, selectors, stock, tuple(holds.get(name, ())), idle, gathered)
            for name in sorted(named, key=names.valve_order)
        )

    valves, around = made(own, True), made(beside, False)
    for span, (word, of, some) in idle.items():
        if not some and not (parts.engine is not None and parts.engine.file.doubtful):
            gathered.say(say_engine.not_used_idle(span, word, " ".join(of)))
    here = set(own) | set(beside)
    of_valves = tuple(one.note for one in said if not one.hold and set(one.note.valves) & here)
    title = parts.title
    found, overridden = of_head(parts.fields, parts.engine, parts.unit, gathered)
    named = found.pop("material", None)
    # Of which engine it is may be what is wrong, or what that says.
    unsure = gathered.said("engine-which", "engine-unknown", file=parts.span.file) or (
        parts.engine is not None and parts.engine.file.doubtful
    )
    if named is None and "material" not in parts.fields.faulty and not unsure:
        called = f"head {title.name.text}" if title.name else "head"
        gathered.say(field_missing(parts.span, "material", called, "material grey iron"))
    found.pop("engine", None)
    cylinders = found.pop("cylinders", ())
    _check_reconditioned((*valves, *around), parts, selectors, gathered)
    here_only = {*own, *beside}
    all_notes = tuple(sorted((*notes, *of_valves), key=lambda note: note.span))
    return Head(
        number,
        title.name.text if title.name else "",
        title.text.text if title.text else "",
        parts.span,
        _material(named, stock, gathered),
        valves,
        around,
        layout=tuple(place for place in parts.places if place.valve in here_only),
        holes=tuple(parts.near),
        spacings=tuple(one for one in parts.distances if {one.first, one.second} <= here_only),
        trials=tuple(parts.trials),
        notes=all_notes,
        extras=tuple(parts.extras),
        engine=None if parts.engine is None or parts.engine.file.name is None else parts.engine.file.name.text,
        cylinders=tuple(round(one.value) for one in cylinders),
        overridden=overridden,
        **found,
    )


def _material(named: Named | None, stock: Stock, gathered: Gathered) -> Material | None:
    found = stock.look_up("material", named, gathered)
    return None if found is None else stock.materials[found.text]


def _check_reconditioned(valves: Iterable[Valve], parts: Parts, selectors: Selectors, gathered: Gathered) -> None:
    """Say where limits of reconditioned heads are asked for of which the maker prints none, and valves of cylinders
    that the head does not have."""
    asked: dict[Span, list[Valve]] = {}
    for valve in valves:
        limits = valve.specification.limits
        if limits is not None and limits.text == "reconditioned":
            asked.setdefault(limits.span, []).append(valve)
        cylinders = parts.engine.cylinders if parts.engine is not None and valve.planned else {}
        if cylinders and valve.cylinder not in cylinders.values():
            line = parts.fields.spans["cylinders"]
            gathered.say(say_engine.cylinder_beside(valve.span, valve.name, valve.cylinder, line))
    for span, those in asked.items():
        if parts.engine is not None and parts.engine.file.doubtful:
            continue
        if all(valve.of_engine is None or valve.of_engine.limits is None for valve in those):
            path = "no engine file" if parts.engine is None else parts.engine.file.path
            gathered.say(say_engine.limits_none(span, path, [valve.name for valve in those]))


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
    idle: dict[Span, _Idle],
    gathered: Gathered,
) -> Valve:
    kind, cylinder, letter = names.valve_parts(name)
    found = parts.measured.values(name)
    cells = _narrower(found, stock, gathered)
    said = specification(name, selectors, parts.sizes, parts.engine, cells, parts.unit, gathered)
    specified = said.attributes
    for line, (word, some) in said.taken_away.items():
        _, of, any_before = idle.get(line, (word, (), False))
        idle[line] = (word, (*of, name), any_before or some)
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
        said.of_engine,
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
