"""From the characters of a figure to a Number: exact, with the digits its owner typed."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from msgspec import Struct

from seatwright.syntax.numbers import units
from seatwright.syntax.tokens import Token
from seatwright.syntax.tree import Number
from seatwright.text import Source, Span

_FIGURE = re.compile(
    r"""(?P<sign>[+-]?)
        (?: (?:(?P<degrees>[0-9]+)°[ \t]*)?(?P<minutes>[0-9]+(?:\.[0-9]+)?)'
          | (?:(?P<whole>[0-9]+)(?:-|[ \t]+))?(?P<over>[0-9]+)/(?P<under>[0-9]+)
          | (?P<ones>[0-9]*)(?:\.(?P<places>[0-9]*))?
        )
        [ \t]*(?P<unit>[^0-9 \t].*)?""",
    re.VERBOSE,
)


class Piece(Struct, frozen=True):
    """A piece of a line being read: where it stands, so that every value on it gets its place and its typed form.

    characters: as the grammar reads them (an inch mark is ″ there). typed: the same characters as they stand.
    """

    source: Source
    line: int
    typed: str
    characters: str
    offset: int = 0

    def span(self, start: int, end: int) -> Span:
        """The place of the characters from start up to end, counted in this piece."""
        return self.source.span(self.line, self.offset + start, self.offset + end)

    def after(self, start: int, end: int) -> Piece:
        """The part of this piece from start up to end."""
        return Piece(self.source, self.line, self.typed[start:end], self.characters[start:end], self.offset + start)


def ends(token: Token) -> tuple[int, int]:
    """Where a token begins and ends in the piece that it was read from."""
    return token.start_pos, token.end_pos


class _Figure(Struct, frozen=True):
    """What the characters of a figure say; digits: how many of them stand before its unit."""

    value: Fraction
    half_digit: Fraction
    unit: str | None
    signed: bool
    digits: int


def number_at(piece: Piece, start: int, end: int) -> Number | None:
    """The figure at a place of a piece, None where its fraction is not proper or its minutes are 60 or more."""
    found = figure(piece.characters[start:end])
    if found is None:
        return None
    typed = piece.typed[start : start + found.digits].rstrip()
    written = piece.typed[start:end]
    return Number(piece.span(start, end), typed, found.value, found.half_digit, found.unit, found.signed, written)


# A shop measures the same sizes over and over, and exact fractions are slow to make.
@lru_cache(maxsize=4096)
def figure(characters: str) -> _Figure | None:
    """The figure that these characters are, None where its fraction is not proper or its minutes are 60 or more."""
    match = _FIGURE.fullmatch(characters)
    if match is None:
        return None
    sign, degrees, minutes, whole, over, under, ones, places, unit_text = match.groups()
    half_digit = Fraction(0)
    digits = len(characters)
    unit = None
    if unit_text is not None:
        unit = units.canonical_unit('"' if unit_text == "″" else unit_text)
        if unit is None:
            return None
        digits = match.start("unit")
    if minutes is not None:
        size = Fraction(degrees or 0) + Fraction(minutes) / 60
        if Fraction(minutes) >= 60:
            return None
        unit = "deg"
        half_digit = Fraction(1, 2 * 10 ** len(minutes.partition(".")[2])) / 60
    elif over is not None:
        if int(under) == 0 or (whole is not None and int(over) >= int(under)):
            return None
        size = Fraction(int(over), int(under)) + int(whole or 0)
    else:
        if not ones and not places:
            return None
        decimals = len(places or "")
        size = Fraction(int((ones or "") + (places or "")), 10**decimals)
        half_digit = Fraction(1, 2 * 10**decimals)
    return _Figure(-size if sign == "-" else size, half_digit, unit, bool(sign), digits)


def text_of(quoted: str) -> str:
    """The text inside its quote marks, doubled ones made single."""
    inner = quoted[1:-1] if len(quoted) > 1 and quoted.endswith('"') else quoted[1:]
    return inner.replace('""', '"')
