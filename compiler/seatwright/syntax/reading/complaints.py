"""What is said about a line whose first word, or whose place, is wrong."""

from __future__ import annotations

from collections.abc import Collection

from seatwright.syntax import words
from seatwright.syntax.reading.lines import Typed
from seatwright.syntax.vocabulary import SectionWords, Vocabulary
from seatwright.text import Message, Related, Severity, Span
from seatwright.text.slugs import ErrorSlug


def _error(slug: ErrorSlug, span: Span, text: str, what_to_do: str) -> Message:
    return Message(Severity.ERROR, slug, span, text, what_to_do)


def a_file(kind: str) -> str:
    """`a job file`, `an engine file`."""
    return f"{'an' if kind == 'engine' else 'a'} {kind} file"


def field_slip(typed: Typed, section: str, meant: str) -> Message:
    """A field of the open section, misspelt."""
    shown = f"`{typed.word}` is no field of `{section}`"
    return _error("field-unknown", typed.word_span, shown, f"Did you mean `{meant}`? It is read as that here.")


def renamed(written: str, span: Span, now: str) -> Message:
    """A word that a field or column was called by before."""
    return _error(
        "word-renamed", span, f"`{written}` is called `{now}` here", f"Write `{now}`. It is read as that here."
    )


def section_slip(typed: Typed, kind: str, meant: str) -> Message:
    """A section word, misspelt."""
    shown = f"`{typed.word}` opens no section of {a_file(kind)}"
    return _error("section-unknown", typed.word_span, shown, f"Did you mean `{meant}`? It is read as that here.")


def unknown_single(typed: Typed, meant: str) -> Message:
    """`note`, `hold`, `use` or `language`, misspelt."""
    shown = f"`{typed.word}` is no word of this language"
    return _error("field-unknown", typed.word_span, shown, f"Did you mean `{meant}`? It is read as that here.")


def section_of_other_kind(typed: Typed, word: str, vocabulary: Vocabulary) -> Message:
    """A section of a shop file in a job file, or the other way round."""
    other = vocabulary.other_sections[word]
    what_to_do = f"Move it to the {other} file, with the lines below it."
    if homes := _homes(word, vocabulary):
        what_to_do += f" In {a_file(vocabulary.kind)} `{word}` also is a field of {homes}; write it there."
    return _error(
        "section-misplaced",
        typed.word_span,
        f"`{word}` opens a section of {a_file(other)}, and this is {a_file(vocabulary.kind)}; its lines are "
        "passed over",
        what_to_do,
    )


def unknown(typed: Typed, word: str, section: SectionWords | None, vocabulary: Vocabulary) -> Message:
    """A first word that is nothing here, and near nothing."""
    where = f"of `{section.word}`" if section else "that may stand before the first section"
    if homes := _homes(word, vocabulary):
        return _error(
            "field-misplaced",
            typed.word_span,
            f"`{word}` is no field {where}",
            f"It is a field of {homes}: move it below such a line.",
        )
    if section is None:
        opened = words.listed_words(vocabulary.sections)
        return _error(
            "section-none",
            typed.word_span,
            f"`{typed.word}` opens no section of {a_file(vocabulary.kind)}, and none is open above it",
            f"A section begins with one of {opened}.",
        )
    fields = words.listed_words(section.fields)
    return _error(
        "field-unknown",
        typed.word_span,
        f"`{typed.word}` is no field of `{section.word}`",
        f"Its fields are {fields}." if fields else "It has no fields of its own.",
    )


def _homes(word: str, vocabulary: Vocabulary) -> str:
    return words.listed_words(name for name, section in vocabulary.sections.items() if word in section.fields)


def text_first(typed: Typed) -> Message:
    """A line that begins with a text where no table is open."""
    return _error(
        "line-wordless",
        typed.span,
        "this line begins with a text; a line begins with the word of a field or section",
        'Write the word first, as in `note "…"`.',
    )


def header_missing(typed: Typed, section: SectionWords) -> Message:
    """A row of a table above which there is no header."""
    first = words.listed_words(section.headers)
    what_to_do = f"Write the header first, a line of column words that begins with {first.replace(', ', ' or ')}."
    if section.of_one and typed.word.lower() in section.columns:
        what_to_do += f" Or name the one valve whose columns these are: `{section.word} E1`."
    return _error(
        "header-missing",
        typed.span,
        f"the table `{section.word}` has no header above this line; its rows are passed over",
        what_to_do,
    )


def cells_parted(typed: Typed, section: SectionWords, mark: str) -> Message:
    """A header, pasted from elsewhere, whose words are parted by a mark."""
    parted = {",": "commas", ";": "semicolons", "|": "strokes"}.get(mark, mark)
    return _error(
        "cells-parted",
        typed.span,
        f"the columns of `{section.word}` are parted by {parted} here; its rows are passed over",
        "Part columns and cells by blanks or tabs, in the rows as well, and put `-` for an empty cell: take out the "
        f"{parted}.",
    )


def section_missing(typed: Typed, tables: tuple[str, ...]) -> Message:
    """A header above which its section line was left out."""
    named = words.listed_words(tables).replace(", ", " or ")
    return _error(
        "section-missing",
        typed.span,
        f"these are the columns of {named}, but no such section is open",
        f"Write a line {named} above the header.",
    )


def column_unknown(
    written: str,
    span: Span,
    near: tuple[str, ...],
    section: str | None = None,
    allowed: Collection[str] = (),
) -> Message:
    """A word of a header that names no column."""
    of_table = f" of `{section}`" if section else ""
    if near:
        what_to_do = f"Did you mean `{near[0]}`? It is read as that here."
    else:
        what_to_do = f"The columns are {words.listed_words(allowed)}; a column of your own begins with `x-`."
    return _error("column-unknown", span, f"`{written}` is no column{of_table}", what_to_do)


def column_again(span: Span, word: str, before: Span) -> Message:
    """A column given twice, in a header or line by line. before: where it stands first."""
    return Message(
        Severity.ERROR,
        "column-twice",
        span,
        f"the column `{word}` stands twice here",
        "Leave one of the two out, with its cells.",
        (Related(before, "the first"),),
    )


def not_of_one(span: Span, section: str, valves: str, first: str) -> Message:
    """Several valves on the line of a section that has a column on each line below it."""
    return _error(
        "vertical-one",
        span,
        f"`{section} {valves}`: the form with a column a line is for one valve",
        f"Write a table: `{section}`, below it a header that begins with `{first}`, and a row for each valve; or a "
        f"section for each.",
    )


def header_below_one(span: Span, section: str, valve: str) -> Message:
    """A header below columns of one valve."""
    return _error(
        "vertical-one",
        span,
        f"a header below `{section} {valve}`, the form with a column a line, which is for one valve; its rows are "
        f"passed over",
        f"Write the table under a line `{section}` of its own.",
    )
