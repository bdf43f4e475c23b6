"""Making a line of a file fit to be shown: tabs expanded, nothing in it that a terminal would obey, its true width."""

from __future__ import annotations

import unicodedata

TAB = 4


def visible(text: str) -> str:
    """The text with every control or invisible character made visible: `␛` for an escape, `<U+202E>` for the rest."""
    if text.isprintable():
        return text
    return "".join(character if character.isprintable() else _picture(character) for character in text)


def for_programs(document: object) -> str:
    """A document as JSON, its letters as they are, but nothing in it that a terminal would obey."""
    import json  # a message on a screen has no use for it

    text = json.dumps(document, ensure_ascii=False, indent=2)
    return "\n".join(line if line.isprintable() else _escaped(line) for line in text.split("\n")) + "\n"


def _escaped(line: str) -> str:
    import json

    return "".join(each if each.isprintable() else json.dumps(each)[1:-1] for each in line)


def _picture(character: str) -> str:
    code = ord(character)
    if character in "\n\t\r":
        return " "
    if code < 0x20:
        return chr(0x2400 + code)
    if unicodedata.category(character) == "Zs":
        return " "
    return f"<U+{code:04X}>"


def width(text: str) -> int:
    """How many places of a terminal the text takes: wide letters two, combining marks none."""
    if text.isascii():
        return len(text)
    return sum(_places(character) for character in text)


def _places(character: str) -> int:
    if unicodedata.combining(character) or unicodedata.category(character) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1


def excerpt(line: str, start: int, end: int, room: int) -> tuple[str, int, int]:
    """A line ready to be shown with a place marked: the line, how far in the mark begins, how wide it is.

    start, end: the place as characters from 0. A line wider than `room` is cut around the place, with `…` for what is
    left out.
    """
    shown: list[str] = []
    offsets = [0]
    for character in line:
        piece = " " * (TAB - offsets[-1] % TAB) if character == "\t" else visible(character)
        shown.append(piece)
        offsets.append(offsets[-1] + width(piece))
    start = min(start, len(line))
    end = min(max(end, start), len(line))
    first, last = 0, len(line)
    if offsets[-1] > room:
        first, last = _window(offsets, start, end, room - 2)
    lead = "…" if first > 0 else ""
    tail = "…" if last < len(line) else ""
    mark_end = min(end, last)
    return (
        lead + "".join(shown[first:last]) + tail,
        len(lead) + offsets[start] - offsets[first],
        max(1, offsets[max(mark_end, start)] - offsets[start]),
    )


def _window(offsets: list[int], start: int, end: int, room: int) -> tuple[int, int]:
    """Which characters to show so that the place is in sight, its beginning at least, with some of what is before."""
    lead = max(room // 3, room - (offsets[end] - offsets[start])) // 2
    first = start
    while first > 0 and offsets[start] - offsets[first - 1] <= lead:
        first -= 1
    last = start
    while last < len(offsets) - 1 and offsets[last + 1] - offsets[first] <= room:
        last += 1
    while first > 0 and offsets[last] - offsets[first - 1] <= room:
        first -= 1
    return first, last
