"""Looking a first word up: what it is, or what it may have been meant to be."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.syntax import suggest
from seatwright.syntax.vocabulary import SectionWords, Vocabulary


def canonical_word(vocabulary: Vocabulary, typed: str) -> str:
    """A word in the spelling of the declarations: small letters, synonyms settled, also in its parts (`bore-gage`)."""
    word = typed.lower()
    if not vocabulary.synonyms:
        return word
    if word in vocabulary.synonyms:
        return vocabulary.synonyms[word]
    if "-" in word:
        return "-".join(vocabulary.synonyms.get(part, part) for part in word.split("-"))
    return word


def is_extra(word: str) -> bool:
    """Whether a field or column is kept as typed: it begins with `x-`."""
    return word.startswith("x-") and len(word) > 2


def choice_meant(word: str, second: str | None, choices: Iterable[str]) -> tuple[str, int] | None:
    """The choice that a word is a slip for, and how many words of the line it takes; None where none is near.

    A word and the one behind it, joined with a hyphen, come first: `least bridge 2.0` is `least-bridge`.
    """
    choices = tuple(choices)
    if second is not None and (joined := f"{word}-{second}") in choices:
        return joined, 2
    if (near := suggest.nearest(word, choices)) is not None:
        return near, 1
    if second is not None and (near := suggest.nearest(joined, choices)) is not None:
        return near, 2
    return None


def tables_with(vocabulary: Vocabulary, columns: list[str]) -> tuple[SectionWords, ...]:
    """The sections whose header could be these columns, by their words."""
    return tuple(
        section
        for _, section in sorted(vocabulary.sections.items())
        if any(
            first == columns[0] and all(column in others or column == first for column in columns)
            for first, others in section.headers.items()
        )
    )


def listed_words(words: Iterable[str]) -> str:
    """Words for a message, by the alphabet."""
    return ", ".join(f"`{word}`" for word in sorted(words))
