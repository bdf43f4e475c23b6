"""Reading pasted characters as what the person meant: typographic quotes, odd spaces, minus signs, fractions.

Inside a text and inside a comment everything stays as typed; only the marks that open and close a text are made plain.
"""

from __future__ import annotations

import re
import unicodedata

from seatwright.text.quoting import is_inch_mark

DROPPED = frozenset("\u00ad\u200b\u200c\u200d\u2060\ufeff")
"""Characters of no width that a paste brings along."""

_OPENING = frozenset("“„‟«")
_CLOSING = frozenset("”“»″")
_DOUBLE = _OPENING | _CLOSING
_CLOSES = re.compile("[" + "".join(sorted(_CLOSING - {"″"})) + "]")
_OPENS = re.compile("[" + "".join(sorted(_OPENING - _CLOSING)) + "]")
_PLAIN = {
    **dict.fromkeys("\u00a0\u1680\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B))), " "),
    **dict.fromkeys("−‐‑‒–—―﹣－", "-"),
    **dict.fromkeys("’‘′", "'"),
    **dict.fromkeys("⁄∕", "/"),
    "μ": "µ",
    "×": "x",
    "…": "..",
    "．": ".",
    "º": "°",
    "˚": "°",
    "＋": "+",
    "＝": "=",
    "＃": "#",
    "\u2105": "°C",
    "℃": "°C",
    "℉": "°F",
}
_DIAMETER = frozenset("Øø⌀∅")


def fold(line: str) -> tuple[str, tuple[int, ...] | None]:
    """A line as it is read, and for each of its characters, and its end, the column where it stands in the file.

    The columns are None where they are simply 1, 2, 3, ...
    """
    if line.isascii():
        return line, None
    read = _Folded(line)
    at = 0
    while at < len(line):
        at = read.take(at)
    columns = (*(place + 1 for place in read.places), len(line) + 1)
    straight = columns == tuple(range(1, len(line) + 2))
    return "".join(read.characters), None if straight else columns


class _Folded:
    """The characters read so far of one line, each with its place in it."""

    def __init__(self, line: str) -> None:
        self.line = line
        self.characters: list[str] = []
        self.places: list[int] = []

    def put(self, characters: str, place: int) -> None:
        self.characters.extend(characters)
        self.places.extend([place] * len(characters))

    def keep(self, start: int, end: int) -> int:
        self.characters.extend(self.line[start:end])
        self.places.extend(range(start, end))
        return end

    def take(self, at: int) -> int:
        """Read what stands at a place outside a text; the place of the next."""
        character = self.line[at]
        if character == "#" or character == "＃":
            self.put("#", at)
            return self.keep(at + 1, len(self.line))
        if character == '"' or character in _DOUBLE:
            return self.quote(at)
        if character in DROPPED:
            return at + 1
        if character in _DIAMETER and self.line[at + 1 :].lstrip("\u00a0\u202f ")[:1] in tuple("0123456789."):
            return at + 1
        if character in _PLAIN:
            self.put(_PLAIN[character], at)
        elif (digit := unicodedata.decimal(character, -1)) >= 0:
            # Digits of other scripts, and the wide ones of an East Asian keyboard.
            self.put(str(digit), at)
        elif (numerator := _vulgar(character)) is not None:
            glued = bool(self.characters) and self.characters[-1].isdigit()
            self.put(("-" if glued else "") + numerator, at)
        else:
            self.put(character, at)
        return at + 1

    def quote(self, at: int) -> int:
        """Read a quote mark outside a text, and the text that it opens."""
        before = "".join(self.characters[-60:])
        if is_inch_mark(before + '"', len(before)):
            self.put('"', at)
            return at + 1
        end = _end_of_text(self.line, at)
        if end is None:
            # Not closed on this line: the mark stands for itself, and what follows is read on.
            self.put('"', at)
            return at + 1
        self.put('"', at)
        straight = self.line[at] == '"' and self.line[end] == '"'
        for place in range(at + 1, end):
            character = self.line[place]
            self.put('""' if character == '"' and not straight else character, place)
        self.put('"', end)
        return end + 1


def _end_of_text(line: str, at: int) -> int | None:
    """The place of the mark that closes the text opened at a place, None where there is none."""
    if line[at] == '"':
        end = at + 1
        while (end := line.find('"', end)) >= 0:
            if line[end + 1 : end + 2] != '"':
                return end
            end += 2
    later, opened = _CLOSES.search(line, at + 1), _OPENS.search(line, at + 1)
    plain = line.find('"', at + 1)
    if later and not (opened and opened.start() < later.start()):
        return later.start()
    return plain if line[at] != '"' and plain >= 0 else None


def _vulgar(character: str) -> str | None:
    """`1/2` for `½`, None for a character that is no fraction."""
    if not character.isascii() and unicodedata.category(character) == "No":
        form = unicodedata.normalize("NFKC", character).replace("\u2044", "/")
        if "/" in form and form[-1].isdigit():
            return form
    return None
