"""Sections and tables while their lines are still being read."""

from __future__ import annotations

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.syntax.tree import Line, Row, Section, Table
from seatwright.syntax.vocabulary import SectionWords, Shape


class OpenTable(Struct):
    """A header, and the rows read below it so far. commas: that cells are parted by commas has been said."""

    head: Table
    rows: list[Row] = field(default_factory=list)
    commas: bool = False


class OpenSection(Struct):
    """A section line, and what has been read below it so far.

    headless: rows came before any header; that has been reported, and they are passed over.
    """

    words: SectionWords
    line: Line
    fields: list[Line] = field(default_factory=list)
    tables: list[OpenTable] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    headless: bool = False

    @property
    def takes_rows(self) -> bool:
        """Whether a line with no known word is a row here."""
        return bool(self.tables) or self.headless or self.words.shape is Shape.ROWS

    def finished(self) -> Section:
        """The section with all that was read."""
        tables = tuple(replace(table.head, rows=tuple(table.rows)) for table in self.tables)
        return Section(self.words.word, self.line, tuple(self.fields), tables, tuple(self.rows))
