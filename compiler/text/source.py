"""A file as it was read, and a place in it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Span:
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


@dataclass(frozen=True, slots=True)
class Source:
    """A job or shop file: its path as the job names it (relative, with /), its text with LF ends, its hash."""

    path: str
    text: str
    sha256: str
