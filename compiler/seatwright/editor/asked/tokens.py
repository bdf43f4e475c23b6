"""Colours by what a word is, from the parser: what it could not read has none."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol.types import SemanticTokens, SemanticTokensLegend, SemanticTokensParams
from msgspec import Struct

from seatwright.editor.texts.desk import AsItStands, Desk
from seatwright.editor.texts.named_items import things_named
from seatwright.editor.texts.positions import halves
from seatwright.job.typed.names import is_valve
from seatwright.syntax import tree
from seatwright.text import Span

KINDS_OF_WORD = ("keyword", "property", "number", "string", "comment", "variable", "class", "enumMember", "operator")
LEGEND = SemanticTokensLegend(list(KINDS_OF_WORD), [])


class Coloured(Struct, frozen=True, order=True):
    """A stretch of one line, and what it is."""

    span: Span
    kind: str


def tokens(desk: Desk, params: SemanticTokensParams) -> SemanticTokens:
    """The whole file, as the protocol packs it: each from where the one before began."""
    stands = desk.stands(params.text_document.uri)
    data: list[int] = []
    line = start = 0
    for each in () if stands is None else coloured(stands):
        assert stands is not None
        typed = stands.lines[each.span.line - 1]
        mark = 1 if each.span.line == 1 and typed.startswith("\ufeff") else 0
        first, last = (halves(typed, column - 1 + mark) for column in (each.span.column, each.span.end_column))
        down = each.span.line - 1 - line
        data += [down, first if down else first - start, last - first, KINDS_OF_WORD.index(each.kind), 0]
        line, start = each.span.line - 1, first
    return SemanticTokens(data)


def coloured(stands: AsItStands) -> list[Coloured]:
    """Every stretch that has a kind, by place, none over another."""
    if stands.tree is None:
        return []
    things = {each.span for each in things_named(stands) if each.file == stands.name}
    found: dict[tuple[int, int], Coloured] = {}
    for each in _of_file(stands.tree):
        if each.span.end_column > each.span.column and each.span.line == each.span.end_line:
            kind = "class" if each.kind in ("variable", "number", "string") and each.span in things else each.kind
            found.setdefault((each.span.line, each.span.column), Coloured(each.span, kind))
    last = (0, 0)
    kept = []
    for _, each in sorted(found.items()):
        if (each.span.line, each.span.column) >= last:
            kept.append(each)
            last = (each.span.line, each.span.end_column)
    return kept


def _of_file(file: tree.File) -> Iterator[Coloured]:
    for single in file.singles:
        yield from _line(single, "keyword")
    for section in file.sections:
        yield from _line(section.line, "keyword")
        for line in section.fields:
            yield from _line(line, "property")
        if section.valve is not None:
            yield Coloured(section.valve.span, "variable")
            for line in section.columns:
                yield from _line(line, "property")
            continue
        for table in section.tables:
            for word, span in zip(table.columns, table.column_spans, strict=True):
                if word:
                    yield Coloured(span, "property")
            if table.comment is not None:
                yield Coloured(table.comment.span, "comment")
            for row in table.rows:
                yield from _row(row)
        for row in section.rows:
            yield from _row(row)
    for comment in file.comments:
        yield Coloured(comment.span, "comment")


def _line(line: tree.Line, kind: str) -> Iterator[Coloured]:
    yield Coloured(line.word.span, kind)
    for argument in line.arguments:
        yield from _argument(argument)
    if line.comment is not None:
        yield Coloured(line.comment.span, "comment")


def _row(row: tree.Row) -> Iterator[Coloured]:
    for cell in row.cells:
        yield from _argument(cell)
    if row.comment is not None:
        yield Coloured(row.comment.span, "comment")


def _argument(argument: tree.Argument | tree.Dash) -> Iterator[Coloured]:
    match argument:
        case tree.Dash():
            yield Coloured(argument.span, "operator")
        case tree.Text():
            yield Coloured(argument.span, "string")
        case tree.Word():
            yield Coloured(argument.span, "variable" if is_valve(argument.text) else "enumMember")
        case _:
            yield Coloured(argument.span, "number")
