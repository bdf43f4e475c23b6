"""What a line means by where it stands: the file, its units, what its table says about all of its cells."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Given
from seatwright.text import Message, Source, Span


class Scope(Struct, frozen=True):
    """Where a line stands.

    units: what a bare length is in, "mm" or "inch", None where the file does not say, which has been reported.
    at, date: those of the table, None where it says none. lines: the file as its owner typed it. doubtful: the
    table's own line could not be read, so what it says of its cells is not known. say: takes what is to be said of a
    value that is read all the same. says: who says every figure that stands here, "" where no one does for all of them.
    """

    path: str
    units: str | None
    lines: tuple[str, ...]
    say: Callable[[Message], None]
    at: Given | None = None
    date: str | None = None
    doubtful: bool = False
    says: str = ""

    @staticmethod
    def of(source: Source, units: str | None, say: Callable[[Message], None], says: str = "") -> Scope:
        """The scope of the lines of a file."""
        return Scope(source.path, units, tuple(source.as_typed()), say, says=says)

    def table(self, units: str | None, at: Given | None, date: str | None) -> Scope:
        """The scope of the rows of a table whose own line says more."""
        return replace(self, units=units or self.units, at=at, date=date)

    def unread(self) -> Scope:
        """The scope of the rows of a table whose own line could not be read."""
        return replace(self, units=None, at=None, date=None, doubtful=True)

    def typed(self, span: Span) -> str:
        """What stands at a place of this file, blanks made single."""
        if span.line != span.end_line or not 1 <= span.line <= len(self.lines):
            return ""
        return " ".join(self.lines[span.line - 1][span.column - 1 : span.end_column - 1].split())

    @property
    def unit(self) -> str | None:
        """The unit that a bare length is in, in the words of the table of units."""
        return "in" if self.units == "inch" else self.units
