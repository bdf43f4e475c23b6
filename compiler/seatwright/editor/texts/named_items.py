"""Things of the shop by their names: where each is described, and where jobs speak of it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from seatwright.editor.texts.desk import AsItStands
from seatwright.editor.texts.spot import Part, declared_of, header_of, parts
from seatwright.job.declarations import Field, Form, Kind, kind_of
from seatwright.job.shop_file.shelf import KINDS
from seatwright.job.typed.names import is_valve, key
from seatwright.syntax import tree
from seatwright.text import Span

_THINGS = (*KINDS, "engine")
_WORD = re.compile(r"`([a-z-]+)`")


class ThingNamed(Struct, frozen=True):
    """A name of a thing of the shop, where it stands. kind: of the thing; described: it is described on this line."""

    kind: str
    name: str
    file: str
    span: Span
    described: bool


def kind_named(field: Field | None) -> str | None:
    """The kind of thing that the values of a field or column name; None where they name none."""
    if field is None or field.form not in (Form.NAME, Form.NAMES, Form.INSERT):
        return None
    named = field.names or field.word
    return named if named in _THINGS else None


def words_taken(field: Field) -> tuple[str, ...]:
    """The words of the language that a field or column takes: its choices, and those of the form of its value."""
    return field.choices or tuple(_WORD.findall(field.form.value))


def things_named(stands: AsItStands) -> Iterator[ThingNamed]:
    """Every name of a thing of the shop, in a file and in the shop files that it uses."""
    for name in (stands.name, *stands.places):
        yield from _in_file(stands, name)


def thing_at(part: Part | None, stands: AsItStands) -> ThingNamed | None:
    """The name that stands at a place of the file itself."""
    if part is None:
        return None
    here = (each for each in _in_file(stands, stands.name) if each.span.line == part.span.line)
    return next((each for each in here if each.span.column <= part.span.column <= each.span.end_column), None)


def described_at(stands: AsItStands, kind: str, name: str) -> ThingNamed | None:
    """Where a thing is described, the file that counts last; None for one that is built in or unknown."""
    found = [each for each in things_named(stands) if each.described and same_thing(each, kind, name)]
    return found[-1] if found else None


def names_in_shop(stands: AsItStands, kind: str) -> tuple[str, ...]:
    """The names of all things of a kind that the files at hand describe, each once."""
    return tuple(dict.fromkeys(each.name for each in things_named(stands) if each.described and each.kind == kind))


def same_thing(one: ThingNamed, kind: str, name: str) -> bool:
    """Whether a name is that of a thing, however it is spelled."""
    return one.kind == kind and key(one.name) == key(name)


def valves_named(stands: AsItStands, start: int, end: int | None) -> tuple[str, ...]:
    """The valves that the lines from one up to another name, in the order in which they come."""
    if stands.tree is None or stands.source is None:
        return ()
    found = (
        part.typed.upper()
        for part in parts(stands.tree, stands.kind, stands.source.as_typed())
        if part.span.line >= start and (end is None or part.span.line < end) and not part.names and is_valve(part.typed)
    )
    return tuple(dict.fromkeys(found))


def _in_file(stands: AsItStands, name: str) -> Iterator[ThingNamed]:
    file, source = stands.tree_of(name), stands.sources.get(name)
    if file is None or source is None:
        return
    lines = source.as_typed()
    yield from _described(file, name, lines)
    own = {each.span for each in _described(file, name, lines)}
    for kind, span in _spoken_of(file, kind_of(name), lines):
        if span not in own:
            yield ThingNamed(kind, _text(span, lines), name, span, False)


def _described(file: tree.File, name: str, lines: list[str]) -> Iterator[ThingNamed]:
    if kind_of(name) == "job":
        return
    for section in file.sections:
        if section.name in _THINGS and section.line.arguments:
            span = section.line.arguments[0].span.to(section.line.arguments[-1].span)
            yield ThingNamed(section.name, _text(span, lines), name, span, True)
        declared = declared_of(kind_of(name), section.name)
        for table in section.tables:
            header = header_of(declared, table)
            if header is None or header.first.to != "name":
                continue
            kind = section.name.removesuffix("s")
            for row in table.rows if kind in KINDS else ():
                if row.cells:
                    yield ThingNamed(kind, _text(row.cells[0].span, lines), name, row.cells[0].span, True)


def _spoken_of(file: tree.File, kind: Kind, lines: list[str]) -> Iterator[tuple[str, Span]]:
    """Where things are spoken of. Words apart on a line of a field are one name, but for a list of names."""
    line_before: tuple[int, str] = (0, "")
    held: Span | None = None
    for part in parts(file, kind, lines):
        named = kind_named(part.field)
        if held is not None and (part.span.line, named) != line_before:
            yield line_before[1], held
            held = None
        if named is None or part.names or part.field is None or part.typed.lower() in ("-", "any"):
            continue
        if part.typed.lower() in words_taken(part.field):
            continue
        on_a_line = part.field.form is not Form.NAMES and not _in_table(file, part.span)
        if on_a_line and held is not None:
            held = held.to(part.span)
        elif on_a_line:
            held = part.span
        else:
            yield named, part.span
        line_before = (part.span.line, named)
    if held is not None:
        yield line_before[1], held


def _in_table(file: tree.File, span: Span) -> bool:
    return any(
        row.span.line == span.line
        for section in file.sections
        for rows in (section.rows, *(table.rows for table in section.tables))
        for row in rows
    )


def _text(span: Span, lines: list[str]) -> str:
    typed = lines[span.line - 1][span.column - 1 : span.end_column - 1]
    if len(typed) > 1 and typed[0] == typed[-1] == '"':
        return typed[1:-1].replace('""', '"')
    return " ".join(typed.split())
