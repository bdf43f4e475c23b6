"""The canonical layout of a job or shop file. Nothing but white space changes, and the capitals of known words."""

from __future__ import annotations

import re

from msgspec import Struct

from seatwright.syntax import words
from seatwright.syntax.formatting.blanks import bare
from seatwright.syntax.formatting.layout import lay_out
from seatwright.syntax.parse import parse
from seatwright.syntax.vocabulary import Vocabulary
from seatwright.text import Source
from seatwright.text.reading import source_of

_VALVE = re.compile(r"[IE][0-9]+[A-Z]?")


class LayoutBroken(Exception):
    """The formatter would have changed more than the layout: a fault of its own, nothing of which may be written."""


class Formatted(Struct, frozen=True):
    """A file in its canonical layout. left: the lines of the file that were left as they stand, being at fault."""

    text: str
    left: tuple[int, ...]


def formatted(source: Source, vocabulary: Vocabulary) -> Formatted:
    """A file in its canonical layout, LF at the end of each line.

    Lines that cannot be read are left as they stand, byte by byte, and so is a table whose header cannot be read.
    Raises LayoutBroken where anything but white space and the capitals of the language's own words would change, or
    where formatting the result would change it again.
    """
    once = _once(source, vocabulary)
    if once.text != "\n".join(source.as_typed()):
        _check_nothing_lost(source.as_typed(), once.text.split("\n"), vocabulary)
        again, _ = source_of(source.path, once.text)
        if _once(again, vocabulary).text != once.text:
            raise LayoutBroken("formatting its own result would change it again")
    return once


def _once(source: Source, vocabulary: Vocabulary) -> Formatted:
    lines = source.as_typed()
    file, messages = parse(source, vocabulary)
    at_fault = {message.span.line for message in messages if message.span is not None}
    at_fault |= {number for number, line in enumerate(lines, 1) if _has_controls(source.path, line)}
    found, left = lay_out(lines, file, at_fault)
    text = "".join(line + "\n" for line in found)
    # White space alone is still something: a file is never emptied.
    return Formatted(text or ("\n" if any(lines) or len(lines) > 1 else ""), left)


def _has_controls(path: str, line: str) -> bool:
    return not line.isprintable() and bool(source_of(path, line)[1])


def _check_nothing_lost(before: list[str], after: list[str], vocabulary: Vocabulary) -> None:
    """Raises LayoutBroken unless both hold the same lines, apart from white space and the capitals of known words."""
    old = [line for line in map(bare, before) if line]
    new = [line for line in map(bare, after) if line]
    if len(old) != len(new):
        raise LayoutBroken(f"{len(old)} lines would have become {len(new)}")
    for typed, made in zip(old, new, strict=True):
        if typed != made and not _same_but_for_capitals(typed, made, vocabulary):
            raise LayoutBroken(f"`{typed}` would have become `{made}`")


def _same_but_for_capitals(typed: str, made: str, vocabulary: Vocabulary) -> bool:
    before, after = typed.split(" "), made.split(" ")
    return len(before) == len(after) and all(
        old == new or (old.lower() == new.lower() and (_VALVE.fullmatch(new) or _is_known(new, vocabulary)))
        for old, new in zip(before, after, strict=True)
    )


def _is_known(word: str, vocabulary: Vocabulary) -> bool:
    """Whether it is a word of the language, in small letters."""
    meant = words.canonical_word(vocabulary, word)
    sections = vocabulary.sections.values()
    return word == word.lower() and (
        meant in vocabulary.sections
        or meant in vocabulary.singles
        or any(meant in section.fields or meant in section.columns for section in sections)
    )
