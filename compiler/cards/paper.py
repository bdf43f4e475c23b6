"""The paper a card is printed on, and how much room words take on it.

Widths of letters are those of the metric-compatible family Arial, Liberation Sans, Arimo, Helvetica, which card.css
asks for; they are facts of the typeface, in thousandths of its size.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

MM_PER_POINT = 25.4 / 72
BODY_POINTS = 11.0
LINE = BODY_POINTS * 1.3 * MM_PER_POINT
BOLDER = 0.08  # how much wider bold runs

_NARROW = {"'": 191, "i": 222, "j": 222, "l": 222, "|": 260, " ": 278, "\u00a0": 278}
_WIDTHS = {
    **dict.fromkeys("!,./:;I[\\]ft", 278),
    **dict.fromkeys("()-`r{}", 334),
    **dict.fromkeys('"^*°', 430),
    **dict.fromkeys("Jckvxyzs", 500),
    **dict.fromkeys("0123456789abdeghnopqu?_$#L–", 556),
    **dict.fromkeys("+<=>~×±", 584),
    **dict.fromkeys("FTZ", 611),
    **dict.fromkeys("ABEKPSVXY&", 667),
    **dict.fromkeys("CDHNRUw", 722),
    **dict.fromkeys("GOQØ", 778),
    **dict.fromkeys("Mm", 833),
    **dict.fromkeys("W%", 944),
    **_NARROW,
}
_WIDEST = 1015


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper, upright: sizes in mm. narrow: tables of many columns are printed as two."""

    name: str
    width: float
    height: float
    margin: float
    reading_points: float  # size of a figure to read off a dial

    @property
    def room(self) -> float:
        """Width for print."""
        return self.width - 2 * self.margin

    @property
    def length(self) -> float:
        """Height for print, less what the estimates may be out."""
        return self.height - 2 * self.margin - 3.0

    @property
    def narrow(self) -> bool:
        return self.width < 180


PAPERS = {
    "a4": Paper("a4", 210.0, 297.0, 12.0, 28.0),
    "letter": Paper("letter", 215.9, 279.4, 12.0, 28.0),
    "a5": Paper("a5", 148.0, 210.0, 8.0, 22.0),
    "half-letter": Paper("half-letter", 139.7, 215.9, 8.0, 22.0),
}


def width_of(text: str, points: float = BODY_POINTS, bold: float = 0.0) -> float:
    """How long a text runs on one line, in mm. bold: the share of it that is bold."""
    return _thousandths(text) / 1000 * points * MM_PER_POINT * (1 + BOLDER * bold)


def lines_of(text: str, width: float, points: float = BODY_POINTS, bold: float = 0.0) -> int:
    """How many lines a text takes at a width in mm, words kept whole as far as they fit."""
    lines, used = 1, 0.0
    space = width_of(" ", points, bold)
    for word in text.split():
        length = width_of(word, points, bold)
        if used and used + space + length > width:
            lines, used = lines + 1, 0.0
        used += length + (space if used else 0.0)
        while used > width > 0:  # a run longer than the line is broken
            lines, used = lines + 1, used - width
    return lines


@cache
def _thousandths(text: str) -> int:
    return sum(_WIDTHS.get(letter, _WIDEST) for letter in text)
