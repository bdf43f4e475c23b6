"""What stands on a line as its owner typed it, piece by piece, for setting it anew."""

from __future__ import annotations

import re
from collections.abc import Sequence

from seatwright.syntax.formatting.blanks import BLANKS, WHITE, single_spaced, trimmed
from seatwright.syntax.tree import Comment, Line, Row, Text, Word
from seatwright.syntax.words import is_extra
from seatwright.text import Span

_BLANK = frozenset(BLANKS)
_DIAMETER = frozenset("Øø⌀∅")
_VALVE = re.compile(r"[IiEe][0-9]+[A-Za-z]?")


class Touching(Exception):
    """Two pieces of a line touch, or something unread lies between them: moving them apart could change its meaning."""


def field_word(line: Line, typed: str) -> str:
    """The first word of a section, field or single line, in small letters; an `x-` word as it stands."""
    word = _slice(line.word.span, typed)
    return word if is_extra(word.lower()) else word.lower()


def column_words(spans: Sequence[Span], typed: str) -> list[str]:
    """The words of a header, in small letters; an `x-` column as it stands. Raises Touching."""
    words = _cut([(span, False) for span in spans], typed, 0, spans[-1].end_column - 1)
    return [word if is_extra(word.lower()) else word.lower() for word in words]


def values(line: Line, typed: str, valves: bool) -> str:
    """What stands behind the first word of a line, with single blanks; a text as it stands. Raises Touching.

    valves: whether a word here may name a valve (`valves I1 E1`, `note I1 "..."`); its letters are then large.
    """
    start, end = line.word.span.end_column - 1, _end(line.comment, typed)
    if is_extra(line.word.text.lower()):
        raw = typed[start:end]
        if raw and raw[0] not in _BLANK:
            raise Touching
        return trimmed(raw)
    pieces = _cut([(each.span, isinstance(each, Text)) for each in line.arguments], typed, start, end)
    named = [valves and isinstance(each, Word) for each in line.arguments]
    return " ".join(_valve(piece) if name else piece for name, piece in zip(named, pieces, strict=True))


def typed_cells(row: Row, typed: str, valves: int) -> list[str]:
    """The cells of a row. valves: how many of them, from the first on, name valves. Raises Touching."""
    pieces = _cut([(cell.span, isinstance(cell, Text)) for cell in row.cells], typed, 0, _end(row.comment, typed))
    named = [isinstance(cell, Word) and at < valves for at, cell in enumerate(row.cells)]
    return [_valve(piece) if name else piece for name, piece in zip(named, pieces, strict=True)]


def remark(comment: Comment | None, typed: str) -> str:
    """The comment of a line as it stands, empty where there is none."""
    return "" if comment is None else typed[comment.span.column - 1 :].rstrip(BLANKS)


def _valve(typed: str) -> str:
    return typed.upper() if _VALVE.fullmatch(typed) else typed


def _slice(span: Span, typed: str) -> str:
    return trimmed(typed[span.column - 1 : span.end_column - 1])


def _end(comment: Comment | None, typed: str) -> int:
    return len(typed) if comment is None else comment.span.column - 1


def _cut(parts: Sequence[tuple[Span, bool]], typed: str, start: int, end: int) -> list[str]:
    """The parts of a line from one place to another, each as typed; `Ø`, read as nothing, goes with its figure.

    parts: where each stands, and whether it is a text.
    """
    found: list[str] = []
    at = start
    for span, is_text in parts:
        first, last = span.column - 1, span.end_column - 1
        if first < at:
            raise Touching
        gap = typed[at:first]
        sign = gap.lstrip(WHITE)
        apart = not _BLANK.isdisjoint(gap[: len(gap) - len(sign)])
        if not (apart or trimmed(typed[:first]) == sign) or not _DIAMETER.issuperset(trimmed(sign)):
            raise Touching
        piece = trimmed(typed[first:last])
        found.append(single_spaced(sign) + (piece if is_text else single_spaced(piece)))
        at = last
    if trimmed(typed[at:end]):
        raise Touching
    return found
