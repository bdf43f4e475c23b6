"""Sections and tables while their lines are still being read."""

from __future__ import annotations

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.syntax.reading.one_valve import ColumnLine, table_of, with_valves
from seatwright.syntax.tree import Line, Row, Section, Table, Word
from seatwright.syntax.vocabulary import SectionWords, Shape


class OpenTable(Struct):
    """A header, and the rows read below it so far. commas: that cells are parted by commas has been said."""

    head: Table
    rows: list[Row] = field(default_factory=list)
    commas: bool = False


class OpenSection(Struct):
    """A section line, and what has been read below it so far.

    headless: rows came before any header; that has been reported, and they are passed over. valves: those that its line
    names, none where it is no section of one valve; columns: the lines below it then.
    """

    words: SectionWords
    line: Line
    fields: list[Line] = field(default_factory=list)
    tables: list[OpenTable] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    headless: bool = False
    valves: tuple[Word, ...] = ()
    columns: list[ColumnLine] = field(default_factory=list)

    @property
    def takes_rows(self) -> bool:
        """Whether a line with no known word is a row here."""
        return bool(self.tables) or self.headless or self.words.shape is Shape.ROWS

    def becomes_table(self) -> None:
        """A header stands first below it: the valve on its line is one too many."""
        self.line, self.valves = with_valves(self.line, self.valves), ()

    def finished(self) -> Section:
        """The section with all that was read."""
        if self.valves:
            table = table_of(self.valves, self.columns, next(iter(self.words.headers)))
            lines = tuple(one.line for one in self.columns)
            return Section(self.words.word, self.line, (), (table,), (), self.valves[0], lines)
        tables = tuple(replace(table.head, rows=tuple(table.rows)) for table in self.tables)
        return Section(self.words.word, self.line, tuple(self.fields), tables, tuple(self.rows))
