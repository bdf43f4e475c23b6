"""The header of a table: its column words."""

from __future__ import annotations

import re

from seatwright.syntax import suggest, words
from seatwright.syntax.reading import complaints
from seatwright.syntax.reading.lines import Typed
from seatwright.syntax.tree import Table
from seatwright.syntax.vocabulary import SectionWords, Vocabulary
from seatwright.text import Message, Span

_COLUMN = re.compile(r"[^ \t]+")


def header(
    typed: Typed, first: str, section: SectionWords, vocabulary: Vocabulary, guessed: bool
) -> tuple[Table, list[Message]]:
    """A header as a table without rows, and what is wrong with it.

    first: the canonical word that opens it; guessed: that this word was a slip and has its message.
    """
    messages: list[Message] = [] if typed.needless is None or guessed else [typed.needless]
    allowed = section.headers[first]
    columns, spans, written = [first], [typed.word_span], [typed.word]
    for match in _COLUMN.finditer(typed.behind.characters):
        span = typed.behind.span(*match.span())
        word = words.canonical_word(vocabulary, match.group())
        if word not in allowed and word != first and not words.is_extra(word):
            word, message = _not_allowed(match.group(), word, span, allowed - set(columns), section)
            if typed.needless is None:
                messages.append(message)
        elif word and word in columns:
            messages.append(complaints.column_again(span, word, spans[columns.index(word)]))
            word = ""
        columns.append(word)
        spans.append(span)
        written.append(match.group())
    return Table(typed.span, tuple(columns), tuple(spans), (), tuple(written), typed.comment), messages


def _not_allowed(
    written: str, word: str, span: Span, allowed: frozenset[str], section: SectionWords
) -> tuple[str, Message]:
    if (now := section.former.get(word)) is not None:
        return now, complaints.renamed(written, span, now)
    near = suggest.near(word, allowed)
    return (near[0] if near else ""), complaints.column_unknown(written, span, near, section.word, allowed)
