"""The words that a grammar without a parser knows, all of them out of the declarations and the table of units."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from msgspec import Struct

from seatwright.job.declarations import ENDINGS, PAIRS, SINGLES, Kind, sections
from seatwright.syntax.numbers import units

FILE_ENDS = ("seat", *(end.removeprefix(".") for end in ENDINGS))
_KINDS: tuple[Kind, ...] = ("job", *ENDINGS.values())
_IN_FORM = re.compile(r"`([a-z]+(?:-[a-z]+)*)`")


class KnownWords(Struct, frozen=True):
    """Words by what they are, each sorted, the longest first where one begins another.

    opening: of sections and single lines, which begin a line. fields: of a field's line, or of a column's where a
    section is of one valve. first: with which a header begins; columns: what else stands in one. taken: choices and
    the like. of_units: behind figures.
    """

    opening: tuple[str, ...]
    fields: tuple[str, ...]
    first: tuple[str, ...]
    columns: tuple[str, ...]
    taken: tuple[str, ...]
    of_units: tuple[str, ...]


@cache
def known_words() -> KnownWords:
    """All of them, of every kind of file."""
    every = [section for kind in _KINDS for section in sections(kind)]
    fields = [field for section in every for field in section.fields]
    headers = [header for section in every for header in section.headers]
    columns = [column for header in headers for column in (header.first, *header.columns)]
    of_one = [column for section in every if section.of_one for column in section.headers[0].columns]
    said = [*fields, *columns, *(field for section in every for field in section.rows)]
    taken = {part for field in said for choice in field.choices for part in choice.split()}
    taken |= {word for field in said for word in _IN_FORM.findall(field.form.value)}
    found = {unit for each in units.unit_table().values() for unit in each.words}
    return KnownWords(
        _sorted({*(section.word for section in every), *SINGLES}),
        _sorted(word for field in (*fields, *of_one) for word in (field.word, field.also) if word),
        _sorted(header.first.word for header in headers),
        _sorted(word for column in columns for word in (column.word, column.also) if word),
        _sorted(taken),
        tuple(sorted(found, key=lambda word: (-len(word), word))),
    )


def _sorted(words: Iterable[str]) -> tuple[str, ...]:
    """With every second spelling, also in a part of a word."""
    spelled = set(words)
    for first, second in PAIRS:
        for word in list(spelled):
            parts = word.split("-")
            if first in parts:
                spelled.add("-".join(second if part == first else part for part in parts))
    return tuple(sorted(spelled, key=lambda word: (-len(word), word)))


def either(words: Iterable[str]) -> str:
    """One of several words, as a pattern that every editor reads alike."""
    return "|".join(re.escape(word).replace(r"\-", "-") for word in words)
