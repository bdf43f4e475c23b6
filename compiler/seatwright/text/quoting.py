"""Where texts and comments stand on a line.

A `"` glued to a figure is the inch mark when no text is open; any other opens a text, which the next `"` closes, a
doubled one excepted. A `#` outside a text starts a comment. Where a text is not closed on its line, its quote mark
opens nothing, so that a comment behind it stays a comment.
"""

from __future__ import annotations

import re

from msgspec import Struct

_MARK = re.compile(r'["#]')
_FIGURE_BEFORE = re.compile(r"(?:^|[\s=±/+-])[0-9.][0-9./-]*$")
_LONGEST_FIGURE = 60
_TEXT = re.compile(r'"(?:[^"]|"")*"(?!")')


class Marks(Struct, frozen=True):
    """What the marks of a line mean: places of texts (from, up to), of inch marks, and of the comment, all from 0.

    open_text: where a text begins that is not closed, None where all are. comment: the place of its `#`, or the length.
    """

    texts: tuple[tuple[int, int], ...]
    inch_marks: tuple[int, ...]
    open_text: int | None
    comment: int


def marks(line: str) -> Marks:
    """The texts, inch marks and comment of one line."""
    if '"' not in line:
        hash_at = line.find("#")
        return Marks((), (), None, len(line) if hash_at < 0 else hash_at)
    texts: list[tuple[int, int]] = []
    inches: list[int] = []
    open_text: int | None = None
    at = 0
    while found := _MARK.search(line, at):
        here = found.start()
        if line[here] == "#":
            return Marks(tuple(texts), tuple(inches), open_text, here)
        if open_text is None and is_inch_mark(line, here, at):
            inches.append(here)
            at = here + 1
        elif text := _TEXT.match(line, here):
            texts.append(text.span())
            at = text.end()
        else:
            open_text = here if open_text is None else open_text
            at = here + 1
    return Marks(tuple(texts), tuple(inches), open_text, len(line))


def is_inch_mark(line: str, at: int, since: int = 0) -> bool:
    """Whether the quote mark at a place outside a text is glued to a figure, `1.739"`."""
    if at == 0 or not (line[at - 1].isdigit() or line[at - 1] == "."):
        return False
    return _FIGURE_BEFORE.search(line[max(since, at - _LONGEST_FIGURE) : at]) is not None
