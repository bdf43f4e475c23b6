"""A file as it was read, and a place in it."""

from __future__ import annotations

from msgspec import Struct


class Span(Struct, frozen=True, order=True):
    """A place in a file: from a character up to, not including, another.

    Lines and columns count from 1, columns in characters as they stand in the file.
    """

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    def to(self, other: Span) -> Span:
        """The place from the start of this one to the end of the other."""
        return Span(self.file, self.line, self.column, other.end_line, other.end_column)


class Source(Struct, frozen=True):
    """A job or shop file: its path as the job names it (relative, with /), and its text with LF ends.

    text: as it is read (typographic quotes, odd spaces and the like already taken as meant). original: as it stands
    in the file, without a byte-order mark; empty where it equals `text`. columns: for each line None, or the column
    in the file of each character of the line as read, and one more for its end; empty where no line needs it.
    """

    path: str
    text: str
    original: str = ""
    columns: tuple[tuple[int, ...] | None, ...] = ()

    @property
    def sha256(self) -> str:
        """The hash of the file with LF line ends and without a byte-order mark."""
        from hashlib import sha256  # takes longer to load than a job to read, and a check has no use for it

        return sha256((self.original or self.text).encode("utf-8", "surrogatepass")).hexdigest()

    def span(self, line: int, start: int, end: int) -> Span:
        """The place of the characters start up to end (from 0) of a line (from 1) as read."""
        of_line = self.columns[line - 1] if self.columns else None
        if of_line is None:
            return Span(self.path, line, start + 1, line, end + 1)
        return Span(self.path, line, of_line[start], line, of_line[end])

    def as_typed(self) -> list[str]:
        """The lines as they stand in the file."""
        return (self.original or self.text).split("\n")
