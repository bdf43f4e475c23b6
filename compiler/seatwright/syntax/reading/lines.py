"""A physical line, taken apart: its first word, what stands behind it, its comment."""

from __future__ import annotations

import re

from msgspec import Struct

from seatwright.syntax.numbers.values import Piece
from seatwright.syntax.tree import Comment
from seatwright.syntax.words import is_extra
from seatwright.text import Message, Severity, Source, Span
from seatwright.text.quoting import marks

_WORD = re.compile(r'[^ \t"]+')
_MARK_GLUED = re.compile(r"[:=]|,\Z")
_MARK_BEHIND = re.compile(r"[ \t]*([:=,])(?=[ \t]|$)[ \t]*")
_COMMA = re.compile(r",(?=[ \t]|$)")


class Typed(Struct, frozen=True):
    """A line that is not blank: all of it, up to its comment, and its first word.

    whole: from the first word on. word: empty where the line begins with a text. quoted: True then. behind: what
    stands behind the word. needless: a `:`, `=` or comma that was passed over, already worded as a message.
    """

    number: int
    whole: Piece
    word: str
    behind: Piece
    quoted: bool
    comment: Comment | None
    needless: Message | None

    @property
    def span(self) -> Span:
        """From the first word to the last character before the comment."""
        return self.whole.span(0, len(self.whole.characters))

    @property
    def word_span(self) -> Span:
        return self.whole.span(0, len(self.word))

    @property
    def raw(self) -> str:
        """What stands behind the word, blanks trimmed."""
        return self.behind.typed.strip()


def take_apart(source: Source, number: int, text: str) -> Typed | Comment | None:
    """A line by its parts; a Comment where nothing else stands on it, None where it is blank."""
    body, comment, inch_marks = _by_its_marks(source, number, text)
    start = len(body) - len(body.lstrip())
    if start == len(body):
        return comment
    characters = body
    for at in inch_marks:
        characters = f"{characters[:at]}″{characters[at + 1 :]}"
    whole = Piece(source, number, body[start:], characters[start:], start)
    first = _WORD.match(whole.characters)
    if first is None:
        return Typed(number, whole, "", whole, True, comment, None)
    word = first.group()
    marked = ":" in characters or "=" in characters or "," in characters
    if not marked or is_extra(word.lower()):
        # An extra is kept as typed, whatever it is.
        behind = whole.after(len(word), len(whole.characters))
        return Typed(number, whole, word, behind, False, comment, None)
    word, at, needless = _without_mark(whole, word)
    behind, comma = _without_commas(whole.after(at, len(whole.characters)))
    needless = needless or comma
    return Typed(number, whole, word, behind, False, comment, needless)


def _by_its_marks(source: Source, number: int, text: str) -> tuple[str, Comment | None, tuple[int, ...]]:
    """What stands before the comment of a line, the comment, and the places of the inch marks."""
    if '"' not in text and "#" not in text:
        return text.rstrip(), None, ()
    found = marks(text)
    comment = None
    if found.comment < len(text):
        span = source.span(number, found.comment, len(text.rstrip()))
        comment = Comment(span, text[found.comment :].rstrip())
    return text[: found.comment].rstrip(), comment, found.inch_marks


def _without_mark(whole: Piece, word: str) -> tuple[str, int, Message | None]:
    """The first word without a `:`, `=` or comma glued to it or loose behind it; where what stands behind it begins."""
    glued = _MARK_GLUED.search(word, 1)
    if glued is not None:
        at = glued.start()
        return word[:at], at + 1, _needless(whole, at, glued.group(), word[:at])
    behind = _MARK_BEHIND.match(whole.characters, len(word))
    if behind is not None:
        return word, behind.end(), _needless(whole, behind.start(1), behind.group(1), word)
    return word, len(word), None


def _without_commas(piece: Piece) -> tuple[Piece, Message | None]:
    """The piece with every comma in front of a blank read as a blank, and a message for the first."""
    if "," not in piece.characters:
        return piece, None
    found = marks(piece.typed)
    characters = list(piece.characters)
    first: int | None = None
    for comma in _COMMA.finditer(piece.characters):
        at = comma.start()
        if any(start <= at < end for start, end in found.texts) or (found.open_text or len(characters)) < at:
            continue
        characters[at] = " "
        first = at if first is None else first
    if first is None:
        return piece, None
    message = Message(
        Severity.ERROR,
        "mark-needless",
        piece.span(first, first + 1),
        "`,` parts nothing here",
        "Leave it out: a blank parts words and figures.",
    )
    return Piece(piece.source, piece.line, piece.typed, "".join(characters), piece.offset), message


def _needless(whole: Piece, at: int, mark: str, word: str) -> Message:
    return Message(
        Severity.ERROR,
        "mark-needless",
        whole.span(at, at + 1),
        f"`{mark}` behind `{word}` is not needed",
        f"Leave it out: `{word}`, a blank, then what it is.",
    )
