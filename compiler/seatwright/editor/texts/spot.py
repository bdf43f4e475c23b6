"""What stands at a place of a file: the section, the field, column or cell, and what is declared of it."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol.types import Position
from msgspec import Struct

from seatwright.editor.texts.desk import AsItStands
from seatwright.editor.texts.positions import place_of
from seatwright.job.declarations import SINGLE_LINES, Field, Header, Kind, SectionDeclared, sections
from seatwright.syntax import tree
from seatwright.text import Span

_SINGLES = {line.word: line for line in SINGLE_LINES}


class Part(Struct, frozen=True):
    """One word, value or cell that stands on a line. field: what is declared of it, None for the word of a section.
    names: it is the word that says what the line or column is, and not a value. typed: as it stands."""

    span: Span
    typed: str
    field: Field | None
    names: bool


class PlaceInFile(Struct, frozen=True):
    """A place of a file. typed: its line as it stands. section, declared: in which it stands, in the file and in the
    declarations. table: of a section with a header, the one above the place. part: what stands at the place, None for
    nothing."""

    line: int
    column: int
    typed: str
    section: tree.Section | None
    declared: SectionDeclared | None
    table: tree.Table | None
    part: Part | None


def spot(stands: AsItStands, position: Position) -> PlaceInFile | None:
    """What stands at a position; None in a file that cannot be read."""
    if stands.tree is None or stands.source is None:
        return None
    line, column = place_of(position, stands.lines)
    lines = stands.source.as_typed()
    section = section_at(stands.tree, line)
    declared = None if section is None else declared_of(stands.kind, section.name)
    table = None
    if section is not None and section.valve is None:
        table = next((each for each in reversed(section.tables) if each.span.line <= line), None)
    here = (part for part in parts(stands.tree, stands.kind, lines) if part.span.line == line)
    part = next((each for each in here if each.span.column <= column <= each.span.end_column), None)
    return PlaceInFile(line, column, lines[line - 1], section, declared, table, part)


def section_at(file: tree.File, line: int) -> tree.Section | None:
    """The section that a line stands in, its own line included."""
    return next((each for each in reversed(file.sections) if each.line.span.line <= line), None)


def head_lines(file: tree.File, line: int) -> tuple[int, int | None]:
    """From which line up to which, not including, the head reaches that a line stands in; 0 above the first."""
    starts = [each.line.span.line for each in file.sections if each.name == "head"]
    before = [start for start in starts if start <= line]
    after = [start for start in starts if start > line]
    return (before[-1] if before else 0), (after[0] if after else None)


def declared_of(kind: Kind, word: str) -> SectionDeclared:
    """The declaration of a section of the tree."""
    return next(each for each in sections(kind) if each.word == word)


def header_of(declared: SectionDeclared, table: tree.Table) -> Header | None:
    """The declaration of a table's header."""
    return next((each for each in declared.headers if each.first.word == table.columns[0]), None)


def parts(file: tree.File, kind: Kind, lines: list[str]) -> Iterator[Part]:
    """Every word, value and cell of a file, section by section. lines: as they stand."""

    def part(span: Span, field: Field | None, names: bool = False) -> Part:
        return Part(span, lines[span.line - 1][span.column - 1 : span.end_column - 1], field, names)

    def values(line: tree.Line, field: Field | None) -> Iterator[Part]:
        return (part(argument.span, field) for argument in line.arguments)

    for single in file.singles:
        field = _SINGLES.get(single.word.text)
        yield part(single.word.span, field, True)
        yield from values(single, field)
    for section in file.sections:
        declared = declared_of(kind, section.name)
        yield part(section.line.word.span, None, True)
        yield from values(section.line, None)
        for line in section.fields:
            field = declared.by_word.get(line.word.text)
            yield part(line.word.span, field, True)
            yield from values(line, field)
        if section.valve is not None:
            yield part(section.valve.span, declared.headers[0].first)
            for line in section.columns:
                column = declared.headers[0].by_word.get(line.word.text)
                yield part(line.word.span, column, True)
                yield from values(line, column)
        for table in section.tables if section.valve is None else ():
            header = header_of(declared, table)
            of_columns = [None if header is None else header.by_word.get(word) for word in table.columns]
            for span, field in zip(table.column_spans, of_columns, strict=True):
                yield part(span, field, True)
            for row in table.rows:
                for cell, field in zip(row.cells, of_columns, strict=False):
                    yield part(cell.span, field)
        for row in section.rows:
            for cell, field in zip(row.cells, declared.rows, strict=False):
                yield part(cell.span, field)
