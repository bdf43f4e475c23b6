"""ShownPlaces as the protocol counts them: lines from 0, and in a line halves of UTF-16, from 0 as well.

A line ends with LF, CR LF or CR, as in the protocol and as in every file that is read here; whatever else some program
takes for the end of a line is a character of it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from lsprotocol.types import Position, Range

from seatwright.text import Span

_END = re.compile(r"\r\n|\r|\n")
_BEYOND = re.compile("[\U00010000-\U0010ffff]")
_MARK = "\ufeff"


def lines_of(text: str) -> list[str]:
    """The lines of a text, without their ends; one more than it has ends."""
    return _END.split(text)


def halves(line: str, column: int) -> int:
    """How many halves of UTF-16 the first so many characters of a line take."""
    if line.isascii():
        return min(column, len(line))
    before = line[:column]
    return len(before) + len(_BEYOND.findall(before))


def characters(line: str, units: int) -> int:
    """How many characters of a line stand before so many halves of UTF-16: within a character, those before it."""
    if units <= 0:
        return 0
    if line.isascii() or _BEYOND.search(line) is None:
        return min(units, len(line))
    taken = 0
    for at, character in enumerate(line):
        taken += 2 if character > "\uffff" else 1
        if taken > units:
            return at
    return len(line)


def range_of(span: Span, lines: Sequence[str]) -> Range:
    """The place of a span in a text of these lines; of one that ends beyond it, as far as it goes."""
    return Range(_position(lines, span.line, span.column), _position(lines, span.end_line, span.end_column))


def _position(lines: Sequence[str], line: int, column: int) -> Position:
    number = min(line, len(lines)) - 1
    typed = lines[number]
    # A byte-order mark that the editor hands over as a character is none of the file's.
    mark = 1 if number == 0 and typed.startswith(_MARK) else 0
    return Position(number, halves(typed, column - 1 + mark))


def place_of(position: Position, lines: Sequence[str]) -> tuple[int, int]:
    """The line and column, from 1, of a position; of one beyond the text, its end."""
    if position.line >= len(lines):
        return len(lines), len(lines[-1]) + 1
    typed = lines[position.line]
    mark = 1 if position.line == 0 and typed.startswith(_MARK) else 0
    return position.line + 1, max(characters(typed, position.character) - mark, 0) + 1


def text_changed(text: str, where: Range, put: str) -> str:
    """A text with what stands in a range exchanged."""
    ends = [found.span() for found in _END.finditer(text)]
    start, end = (_offset(text, ends, position) for position in (where.start, where.end))
    return text[:start] + put + text[max(start, end) :]


def _offset(text: str, ends: Sequence[tuple[int, int]], position: Position) -> int:
    if position.line > len(ends):
        return len(text)
    begin = ends[position.line - 1][1] if position.line else 0
    end = ends[position.line][0] if position.line < len(ends) else len(text)
    return begin + characters(text[begin:end], position.character)
