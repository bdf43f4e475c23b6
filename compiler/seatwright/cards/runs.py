"""Text broken into lines as a browser breaks it: greedily, between words, after a hyphen, around blanks and boxes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from markdown_it.token import Token
from msgspec import Struct

from seatwright.cards.marks import BLANK_MM
from seatwright.cards.paper import BODY_POINTS, SIZES, width_of

_HYPHEN = re.compile(r"(?<=[A-Za-z]-)(?=[A-Za-z])")
_ROUNDING = 0.02  # mm by which a browser may find a line fuller; Chromium sets lines 0.06 % shorter than reckoned


class Word(Struct):
    """What is not broken. before: the space that parts it from the last one. sort: bold text, a blank, a box."""

    before: float
    width: float
    forced: bool = False  # begins a line


def words_of(
    inline: Sequence[Token], points: float = BODY_POINTS, bold: bool = False, bold_points: float = 0.0
) -> list[Word]:
    """The words of a run of text. points: its size; bold: all of it, whatever it says itself; bold_points: the size
    of what is bold, where that is another."""
    regular_points = points
    found: list[Word] = []
    depth, space, forced, joined = 0, 0.0, False, False
    for token in inline:
        depth += token.nesting if token.type == "strong_open" or token.type == "strong_close" else 0
        heavy = bold or depth > 0
        points = bold_points if depth and bold_points else regular_points
        if token.type in ("blank", "box"):
            found.append(Word(space, _atom(token), forced))
            space, forced, joined = 0.0, False, False
        elif token.type == "hardbreak":
            space, forced, joined = 0.0, True, False
        elif token.type == "softbreak":
            space, joined = width_of(" ", points, heavy), False
        elif token.content:
            for index, word in enumerate(token.content.split(" ")):
                if index:
                    space, joined = width_of(" ", points, heavy), False
                if not word:
                    continue
                for part in _HYPHEN.split(word) if "-" in word else (word,):
                    if joined:
                        found[-1].width += width_of(part, points, heavy)
                    else:
                        found.append(Word(space, width_of(part, points, heavy), forced))
                    space, forced, joined = 0.0, False, False
                joined = True
    return found


def _atom(token: Token) -> float:
    return len(token.content) * BLANK_MM if token.type == "blank" else SIZES.tick + 1.5


def lines_in(words: Iterable[Word], width: float) -> int:
    """How many lines words take at a width in mm; a run longer than the line is broken."""
    room = max(width - _ROUNDING, 1.0)
    lines, used = 1, 0.0
    for word in words:
        if used and (word.forced or used + word.before + word.width > room):
            lines, used = lines + 1, 0.0
        used += word.width + (word.before if used else 0.0)
        while used > room:
            lines, used = lines + 1, used - room
    return lines


def longest(words: Sequence[Word]) -> float:
    """The longest of the words: narrower than that, one is broken."""
    return max((word.width for word in words), default=0.0)


def on_one_line(words: Sequence[Word]) -> float:
    """How long the words run without a break."""
    return sum(word.width + word.before for word in words)
