"""What is known of the place that is pointed at."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol.types import Hover, HoverParams, MarkupContent, MarkupKind

from seatwright.cards.parts.words import STATUS
from seatwright.editor.asked.inlay import derived, makes
from seatwright.editor.texts.desk import AsItStands, Desk
from seatwright.editor.texts.named_items import ThingNamed, described_at, thing_at
from seatwright.editor.texts.positions import range_of
from seatwright.editor.texts.spot import Part, PlaceInFile, declared_of, spot
from seatwright.job.declarations import SINGLE_LINES, Field
from seatwright.job.reference import bounds_of, what_it_takes
from seatwright.job.shop_file.materials import built_in_materials, material_name
from seatwright.job.typed.names import is_valve, key
from seatwright.planning.plan import Plan
from seatwright.text import Span
from seatwright.told.derivation import in_units_of, named_figures

_MOST_FIGURES = 12
_BUILT_IN = ("material", "alloy")


def hover(desk: Desk, params: HoverParams) -> Hover | None:
    """A field or column: what it takes. A valve: how it stands. A thing of the shop: its line, and how many are left.
    A figure: what rests on it."""
    stands = desk.stands(params.text_document.uri)
    here = None if stands is None else spot(stands, params.position)
    if stands is None or here is None or here.part is None:
        return None
    said = "\n\n".join(_said(stands, here, here.part))
    if not said:
        return None
    return Hover(MarkupContent(MarkupKind.Markdown, said), range_of(here.part.span, stands.lines))


def about(field: Field) -> str:
    """What a field or column is, what it takes, between what, and an example."""
    bounds = bounds_of(field)
    lines = [f"**{field.word}**: {field.help}", f"takes {what_it_takes(field)}{f', {bounds}' if bounds else ''}"]
    return "\n\n".join((*lines, f"`{field.example}`"))


def _said(stands: AsItStands, here: PlaceInFile, part: Part) -> Iterator[str]:
    if part.names:
        yield _of_word(stands, here, part)
        return
    mention = thing_at(part, stands)
    if mention is not None:
        yield from of_item(stands, mention)
    elif is_valve(part.typed) and stands.plan is not None:
        yield from _of_valve(stands.plan, part.typed.upper())
    if stands.plan is not None:
        yield from _resting(stands.plan, part.span)


def _of_word(stands: AsItStands, here: PlaceInFile, part: Part) -> str:
    if part.field is not None:
        return about(part.field)
    singles = {line.word: line for line in SINGLE_LINES}
    if part.typed.lower() in singles:
        return about(singles[part.typed.lower()])
    if here.section is None or here.section.line.span.line != here.line:
        return ""
    declared = declared_of(stands.kind, here.section.name)
    return f"**{declared.word}**: {declared.help}\n\n`{declared.opening}`"


def of_item(stands: AsItStands, mention: ThingNamed) -> Iterator[str]:
    """A thing of the shop: the line that describes it, and how many of it are left."""
    home = described_at(stands, mention.kind, mention.name)
    name = material_name(mention.kind, mention.name) if mention.kind in _BUILT_IN else ""
    if home is None and name and name in built_in_materials(mention.kind):
        yield f"{mention.kind} {name}: built in, with figures of published sources"
        return
    if home is None:
        yield f"{mention.kind} {mention.name}: not described in a shop file of this job"
        return
    source = stands.sources[home.file]
    yield f"{mention.kind} {home.name}, {home.file}:{home.span.line}"
    yield f"```\n{source.as_typed()[home.span.line - 1].strip()}\n```"
    if stands.plan is None or mention.kind != "insert":
        return
    fetched = next((each for each in stands.plan.fetch.inserts if key(each.name) == key(home.name)), None)
    if fetched is not None:
        left = "not counted" if fetched.left is None else f"{fetched.left} left on the shelf"
        yield f"this job takes {fetched.count}; {left}"


def _of_valve(plan: Plan, name: str) -> Iterator[str]:
    valve = next((each for each in plan.valves if each.name == name), None)
    if valve is None:
        return
    yield f"**{name}**, {valve.kind}: {STATUS[valve.status]}"
    if not valve.holds:
        yield makes(plan, valve)
    yield derived(plan, valve)


def _resting(plan: Plan, span: Span) -> Iterator[str]:
    """The figures of the plan that rest on what stands at a place, by valve."""
    found: dict[str, list[str]] = {}
    for valve in plan.valves:
        for path, figure in named_figures(valve):
            if figure.formula and any(_within(span, line) for line in figure.lines()):
                found.setdefault(valve.name, []).append(f"{path} = {in_units_of(plan.job, figure)}")
    if not found:
        return
    yield "What rests on it:"
    lines = [f"{name} {line}" for name, of_valve in found.items() for line in of_valve]
    more = len(lines) - _MOST_FIGURES
    shown = lines[:_MOST_FIGURES] + ([f"and {more} more"] if more > 0 else [])
    yield "```\n" + "\n".join(shown) + "\n```"


def _within(part: Span, origin: Span) -> bool:
    same_line = (part.file, part.line) == (origin.file, origin.line)
    return same_line and origin.column < part.end_column and part.column < origin.end_column
