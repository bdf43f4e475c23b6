"""What may stand where the cursor is: words of the language, choices, names of the shop, valves of this head."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from lsprotocol.types import (
    CompletionItem,
    CompletionItemKind,
    CompletionList,
    CompletionParams,
    InsertTextFormat,
    InsertTextMode,
    MarkupContent,
    MarkupKind,
    Position,
    Range,
    TextEdit,
)
from msgspec import Struct

from seatwright.editor.asked.hover import about, of_item
from seatwright.editor.texts.desk import AsItStands, Desk
from seatwright.editor.texts.named_items import (
    ThingNamed,
    described_at,
    kind_named,
    names_in_shop,
    valves_named,
    words_taken,
)
from seatwright.editor.texts.positions import halves
from seatwright.editor.texts.spot import PlaceInFile, head_lines, header_of, spot
from seatwright.job.declarations import SINGLE_LINES, SINGLES, Field, Form, Header, SectionDeclared, sections
from seatwright.job.declarations.job_sections import VALVES
from seatwright.job.declarations.job_tables import BENCH_ORDER, MEASURED, VALVE
from seatwright.job.shop_file.materials import built_in_materials
from seatwright.syntax.vocabulary import Shape
from seatwright.text.quoting import marks

_WORD = re.compile(r'"[^"]*$|[^\s"]*$')
_INDENT = "  "
_NAMES_A_VALVE = ("note", "hold", "not-counted")
_OF_ALL = ("all", "intake", "exhaust")


class _Offer(Struct, frozen=True):
    """Something that may be put in. snippet: with places to be filled in; order: where it stands in the list."""

    word: str
    kind: CompletionItemKind
    help: str
    detail: str = ""
    put: str = ""
    snippet: bool = False
    order: int = 0


def offered(desk: Desk, params: CompletionParams) -> CompletionList:
    """What may stand here, each with its help; the word that is being typed is exchanged for it."""
    stands = desk.stands(params.text_document.uri)
    here = None if stands is None else spot(stands, params.position)
    if stands is None or here is None:
        return CompletionList(is_incomplete=False, items=[])
    before = here.typed[: here.column - 1]
    if marks(here.typed).comment < here.column - 1:
        return CompletionList(is_incomplete=False, items=[])
    found = _WORD.search(before)
    begun = "" if found is None else found.group()
    words = before[: len(before) - len(begun)].split()
    offers = _at_first(stands, here) if not words else _behind(stands, here, words)
    line = params.position.line
    at = len(before) - len(begun)
    typed = stands.lines[line] if line < len(stands.lines) else ""
    shift = len(typed) - len(here.typed)  # a byte-order mark that the editor hands over
    where = Range(Position(line, halves(typed, at + shift)), params.position)
    snippets = desk.snippets
    items = [_item(each, number, where, snippets) for number, each in enumerate(_once(offers))]
    return CompletionList(is_incomplete=False, items=items)


def _once(offers: Iterable[_Offer]) -> list[_Offer]:
    found: dict[str, _Offer] = {}
    for each in offers:
        found.setdefault(each.word, each)
    return sorted(found.values(), key=lambda each: each.order)


def _item(offer: _Offer, number: int, where: Range, snippets: bool) -> CompletionItem:
    put = offer.put or offer.word
    return CompletionItem(
        label=offer.word,
        kind=offer.kind,
        detail=offer.detail or None,
        documentation=MarkupContent(MarkupKind.Markdown, offer.help) if offer.help else None,
        sort_text=f"{offer.order}{number:04d}",
        filter_text=offer.word,
        insert_text_format=InsertTextFormat.Snippet if offer.snippet and snippets else InsertTextFormat.PlainText,
        insert_text_mode=InsertTextMode.AsIs if offer.snippet else None,
        text_edit=TextEdit(where, put if snippets or not offer.snippet else _plain(put)),
    )


def _plain(snippet: str) -> str:
    """A snippet for an editor that knows none: what stands in its places."""
    return re.sub(r"\$\{\d+:([^}]*)\}|\$\d+", lambda found: found[1] or "", snippet)


# ---- at the beginning of a line --------------------------------------------------------------------------------


def _at_first(stands: AsItStands, here: PlaceInFile) -> Iterator[_Offer]:
    own_line = here.section is not None and here.section.line.span.line == here.line
    if here.section is not None and here.declared is not None and not own_line:
        given = {line.word.text for line in here.section.fields if line.span.line != here.line}
        for field in here.declared.fields:
            if field.repeats or field.word not in given:
                yield _Offer(field.word, CompletionItemKind.Property, about(field), field.help)
        if here.section.valve is not None:
            have = {line.word.text for line in here.section.columns if line.span.line != here.line}
            for column in here.declared.headers[0].columns:
                if column.word not in have:
                    yield _Offer(column.word, CompletionItemKind.Property, about(column), column.help)
        elif here.declared.shape is Shape.TABLE and here.table is None:
            yield from _headers(stands, here.declared, here.line)
        if here.table is not None and here.table.columns[0] == VALVE.word:
            filled = {row.cells[0].span for row in here.table.rows if row.cells and row.span.line != here.line}
            taken = {stands.lines[span.line - 1][span.column - 1 : span.end_column - 1].upper() for span in filled}
            yield from (each for each in _valves(stands, here.line) if each.word not in taken)
        elif here.declared.rows:
            yield from _values(stands, here.declared.rows[0], here.line)
    for section in sections(stands.kind):
        help = f"{section.help}\n\n`{section.opening}`"
        yield _Offer(section.word, CompletionItemKind.Module, help, section.help, order=1)
        if section.headers and section.headers[0].first.word == VALVE.word:
            yield from _tables(stands, section, here.line)
    for single in SINGLE_LINES:
        yield _Offer(single.word, CompletionItemKind.Keyword, about(single), single.help, order=2)


def _tables(stands: AsItStands, section: SectionDeclared, line: int) -> Iterator[_Offer]:
    """A whole table, the valves of this head in its rows: of `measured` one for each step at the bench."""
    header = section.headers[0]
    steps = BENCH_ORDER if section.word == MEASURED.word else (tuple(column.word for column in header.columns),)
    for step in steps:
        name = f"{section.word}, {step[0]} to {step[-1]}" if len(step) > 1 else f"{section.word}, {step[0]}"
        text = f"{section.word}\n{_laid(header, step, _own_valves(stands, line))}"
        yield _Offer(name, CompletionItemKind.Snippet, f"```\n{_plain(text)}\n```", section.help, text, True, 3)


def _headers(stands: AsItStands, section: SectionDeclared, line: int) -> Iterator[_Offer]:
    for header in section.headers:
        columns = tuple(column.word for column in header.columns)
        valves = _own_valves(stands, line) if header.first.word == VALVE.word else ()
        text = _laid(header, columns, valves).removeprefix(_INDENT)
        yield _Offer(header.first.word, CompletionItemKind.Struct, about(header.first), header.first.help)
        yield _Offer(
            f"{header.first.word} {' '.join(columns)}", CompletionItemKind.Snippet, "", section.help, text, True
        )


def _laid(header: Header, columns: tuple[str, ...], valves: tuple[str, ...]) -> str:
    """A header and a row for each valve, an empty cell under each column to be filled in."""
    first = max(len(word) for word in (header.first.word, *valves))
    lines = [f"{_INDENT}{header.first.word.ljust(first)}  {'  '.join(columns)}"]
    place = 0
    for valve in valves or ("",):
        cells = []
        if not valve:
            place += 1
        for column in columns:
            place += 1
            cells.append(f"${{{place}:-}}{' ' * (len(column) - 1)}")
        lines.append(f"{_INDENT}{(valve or '${1:name}').ljust(first)}  {'  '.join(cells).rstrip()}")
    return "\n".join(lines) + "\n"


# ---- behind a word ---------------------------------------------------------------------------------------------


def _behind(stands: AsItStands, here: PlaceInFile, words: list[str]) -> Iterator[_Offer]:
    first = words[0].lower()
    section = here.section
    if first in SINGLES:
        if first in _NAMES_A_VALVE:
            yield from (each for each in _valves(stands, here.line) if each.word not in words)
        return
    if here.declared is not None and section is not None and section.line.span.line != here.line:
        if here.table is not None and here.table.span.line == here.line:
            yield from _columns(here)
            return
        if here.table is not None and first not in here.declared.by_word:
            column = here.table.columns[len(words)] if len(words) < len(here.table.columns) else ""
            header = header_of(here.declared, here.table)
            if header is not None and column in header.by_word:
                yield from _values(stands, header.by_word[column], here.line)
            return
        if section.valve is not None and first in here.declared.headers[0].by_word:
            yield from _values(stands, here.declared.headers[0].by_word[first], here.line)
            return
        if first in here.declared.by_word:
            yield from _values(stands, here.declared.by_word[first], here.line)
            return
        if here.declared.rows and len(words) < len(here.declared.rows):
            yield from _values(stands, here.declared.rows[len(words)], here.line)
            return
    if first == VALVES.word:
        yield from (_Offer(word, CompletionItemKind.EnumMember, "") for word in _OF_ALL)
        yield from (each for each in _valves(stands, here.line) if each.word not in words)


def _columns(here: PlaceInFile) -> Iterator[_Offer]:
    header = None if here.declared is None or here.table is None else header_of(here.declared, here.table)
    for field in () if header is None else header.columns:
        if here.table is not None and field.word not in here.table.columns:
            yield _Offer(field.word, CompletionItemKind.Property, about(field), field.help)


def _values(stands: AsItStands, field: Field, line: int) -> Iterator[_Offer]:
    """The choices of a field or column, and the names that it may give."""
    for word in words_taken(field):
        yield _Offer(word, CompletionItemKind.EnumMember, about(field), field.help)
    if field.form is Form.VALVE:
        yield from _valves(stands, line)
    kind = kind_named(field)
    if kind is None:
        return
    for name in names_in_shop(stands, kind):
        mention = described_at(stands, kind, name)
        help = "\n\n".join(of_item(stands, mention)) if mention is not None else ""
        yield _Offer(name, CompletionItemKind.Value, help, _line_of(stands, mention), _as_written(name))
    if kind in ("material", "alloy"):
        for name in sorted(built_in_materials(kind)):
            yield _Offer(name, CompletionItemKind.Value, "built in, with figures of published sources", order=1)


def _valves(stands: AsItStands, line: int) -> Iterator[_Offer]:
    for name in _own_valves(stands, line):
        yield _Offer(name, CompletionItemKind.Variable, "")


def _own_valves(stands: AsItStands, line: int) -> tuple[str, ...]:
    """The valves of the head that a line stands under."""
    if stands.tree is None:
        return ()
    return valves_named(stands, *head_lines(stands.tree, line))


def _line_of(stands: AsItStands, mention: ThingNamed | None) -> str:
    if mention is None:
        return ""
    return " ".join(stands.sources[mention.file].as_typed()[mention.span.line - 1].split())


def _as_written(name: str) -> str:
    bare = all(character.isalnum() or character in "-_." for character in name)
    return name if bare else f'"{name}"'
