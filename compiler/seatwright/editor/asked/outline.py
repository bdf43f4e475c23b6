"""A file at a glance: its heads, sections and valves, and what folds."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol.types import (
    DocumentSymbol,
    DocumentSymbolParams,
    FoldingRange,
    FoldingRangeKind,
    FoldingRangeParams,
    Position,
    Range,
    SymbolKind,
)

from seatwright.editor.texts.desk import AsItStands, Desk
from seatwright.editor.texts.named_items import things_named
from seatwright.editor.texts.positions import halves, range_of
from seatwright.job.typed.names import is_valve
from seatwright.syntax import tree
from seatwright.text import Span


def symbols(desk: Desk, params: DocumentSymbolParams) -> list[DocumentSymbol]:
    """The sections of a file, those of a head below it, in each table its valves or things."""
    stands = desk.stands(params.text_document.uri)
    if stands is None or stands.tree is None:
        return []
    found: list[DocumentSymbol] = []
    below: list[DocumentSymbol] = found
    described = {each.span for each in things_named(stands) if each.described and each.file == stands.name}
    for section, end in _reaching(stands):
        one = _symbol(stands, section, end)
        one.children = [_row(stands, row) for row in _rows(section) if _is_named(row, described)]
        if section.name == "head":
            below = one.children
            found.append(one)
        else:
            (found if section.name == "job" else below).append(one)
    for head in found:
        if head.children and head.kind == SymbolKind.Namespace:
            head.range = Range(head.range.start, max((each.range.end for each in head.children), key=_order))
    return found


def folding(desk: Desk, params: FoldingRangeParams) -> list[FoldingRange]:
    """Each section, and each run of lines that are comments."""
    stands = desk.stands(params.text_document.uri)
    if stands is None or stands.tree is None:
        return []
    found = [
        FoldingRange(section.line.span.line - 1, end - 1, kind=FoldingRangeKind.Region)
        for section, end in _reaching(stands)
        if end > section.line.span.line
    ]
    return found + [
        FoldingRange(first - 1, last - 1, kind=FoldingRangeKind.Comment) for first, last in _remarks(stands)
    ]


def _reaching(stands: AsItStands) -> Iterator[tuple[tree.Section, int]]:
    """The sections with the last line that belongs to each."""
    assert stands.tree is not None
    for section in stands.tree.sections:
        lines = [section.line.span.line, *(line.span.line for line in section.fields)]
        lines += [*(line.span.line for line in section.columns), *(table.span.line for table in section.tables)]
        yield section, max((*lines, *(row.span.line for row in _rows(section))))


def _rows(section: tree.Section) -> list[tree.Row]:
    if section.valve is not None:
        return []  # its one row stands on its lines
    return [*section.rows, *(row for table in section.tables for row in table.rows)]


def _is_named(row: tree.Row, described: set[Span]) -> bool:
    if not row.cells:
        return False
    first = row.cells[0]
    return first.span in described or (isinstance(first, tree.Word) and is_valve(first.text))


def _symbol(stands: AsItStands, section: tree.Section, end: int) -> DocumentSymbol:
    line = section.line.span
    words = " ".join(stands.lines[line.line - 1][line.column - 1 : line.end_column - 1].split())
    kind = (
        SymbolKind.Namespace if section.name == "head" else SymbolKind.Struct if section.tables else SymbolKind.Object
    )
    stop = Position(end - 1, halves(stands.lines[end - 1], len(stands.lines[end - 1])))
    return DocumentSymbol(words, kind, Range(Position(line.line - 1, 0), stop), range_of(line, stands.lines))


def _row(stands: AsItStands, row: tree.Row) -> DocumentSymbol:
    where = range_of(row.cells[0].span, stands.lines)
    kind = (
        SymbolKind.Variable
        if isinstance(row.cells[0], tree.Word) and is_valve(row.cells[0].text)
        else SymbolKind.Constant
    )
    return DocumentSymbol(row.raws[0] if row.raws else "", kind, range_of(row.span, stands.lines), where)


def _order(position: Position) -> tuple[int, int]:
    return position.line, position.character


def _remarks(stands: AsItStands) -> Iterator[tuple[int, int]]:
    assert stands.tree is not None
    first = last = -1
    for comment in stands.tree.comments:
        if comment.span.line != last + 1:
            if last > first:
                yield first, last
            first = comment.span.line
        last = comment.span.line
    if last > first:
        yield first, last
