"""A section of one valve, `measured E1`: its columns stand below it, one a line, each with one cell."""

from __future__ import annotations

import re

from msgspec import Struct
from msgspec.structs import replace

from seatwright.syntax import words
from seatwright.syntax.numbers.measures import Slip
from seatwright.syntax.numbers.values import Piece
from seatwright.syntax.reading import complaints
from seatwright.syntax.reading.lines import Typed
from seatwright.syntax.reading.rows import check_row, read_cells
from seatwright.syntax.tree import Argument, Cell, Dash, Line, Row, Table, Word
from seatwright.syntax.vocabulary import SectionWords, Shape, Vocabulary
from seatwright.text import Message, Span

_VALVE = re.compile(r"(?<![^ \t])[IE][0-9]+[A-Z]?(?![^ \t])", re.IGNORECASE)


class ColumnLine(Struct, frozen=True):
    """A column on its line. word: canonical, empty where it has been reported. cell: None where it cannot be read."""

    word: str
    line: Line
    cell: Cell | None
    raw: str


def without_valves(line: Line, typed: Typed) -> tuple[Line, tuple[Word, ...]]:
    """A section line without the valves that it names, and these."""
    if line.faulty:
        # Nothing of it was read; that it is of one valve says what the lines below it are.
        found = [Word(typed.behind.span(*one.span()), one.group()) for one in _VALVE.finditer(typed.behind.characters)]
        return line, tuple(found)
    valves = tuple(one for one in line.arguments if isinstance(one, Word) and _VALVE.fullmatch(one.text))
    return replace(line, arguments=tuple(one for one in line.arguments if one not in valves)), valves


def with_valves(line: Line, valves: tuple[Word, ...]) -> Line:
    """The line as it was before they were parted: what stands below it is a table after all."""
    if line.faulty:
        return line
    return replace(line, arguments=tuple(sorted((*line.arguments, *valves), key=lambda one: one.span)))


def as_fields(section: SectionWords) -> SectionWords:
    """The words of such a section: its columns stand where another has fields."""
    columns = section.columns - set(section.headers)
    return SectionWords(section.word, Shape.FIELDS, columns, {}, section.former)


def meant_column(typed: Typed, word: str, section: SectionWords, vocabulary: Vocabulary) -> tuple[str, int] | None:
    """The column that a line is of, and how many words name it; None where it is none, also with a slip."""
    fields = as_fields(section).fields
    if word in fields or words.is_extra(word):
        return word, 1
    if (now := section.former.get(word)) is not None and now in fields:
        return now, 1
    behind = typed.behind.characters.split()
    second = words.canonical_word(vocabulary, behind[0]) if behind and behind[0][:1].isalpha() else None
    return words.choice_meant(word, second, fields)


def column_slip(written: str, span: Span, word: str, meant: str, section: SectionWords) -> Message | None:
    """What is to be said of the word of a column; None where it is right."""
    if word == meant:
        return None
    if section.former.get(word) == meant:
        return complaints.renamed(written, span, meant)
    return complaints.column_unknown(written, span, (meant,), section.word)


def cell_of(behind: Piece, word: str, span: Span) -> tuple[Cell, str]:
    """The one cell behind a column, and as it stands. Raises Slip."""
    found, raws = read_cells(behind) if behind.characters.strip() else ((), ())
    if not found:
        raise Slip(
            "cell-missing",
            span,
            f"nothing stands behind `{word}`",
            "Put `-` for what was not measured, or take the line out.",
        )
    if len(found) == 1:
        return found[0], raws[0]
    slip = check_row(found, (word,))
    assert slip is not None
    if slip.message.slug == "cell-extra":
        raise Slip(
            "cell-extra",
            found[1].span.to(found[-1].span),
            f"{len(found)} cells behind `{word}`, which takes one",
            "Several readings of one thing are joined by slashes, `9.020/9.022`; a name of several words is written "
            "with hyphens or in quotes.",
        )
    raise slip


def as_arguments(cell: Cell | None) -> tuple[Argument, ...]:
    """A cell as the argument of its line, which knows no empty cells."""
    if cell is None:
        return ()
    return (Word(cell.span, "-"),) if isinstance(cell, Dash) else (cell,)


def table_of(valves: tuple[Word, ...], columns: list[ColumnLine], first: str) -> Table:
    """The table of one row that such a section means; of several valves, which is an error, rows that are not read.

    first: the word of the column that the valve stands in.
    """
    read = [one for one in columns if one.cell is not None]
    valve = valves[0]
    if len(valves) > 1:
        rows = tuple(Row(one.span, (), None, True, (one.text,)) for one in valves)
    else:
        found = (valve, *(one.cell for one in read if one.cell is not None))
        rows = (Row(valve.span, found, None, False, (valve.text, *(one.raw for one in read))),)
    return Table(
        valve.span,
        (first, *(one.word for one in read)),
        (valve.span, *(one.line.word.span for one in read)),
        rows,
        (first, *(one.line.typed for one in read)),
    )


def of_several(valves: tuple[Word, ...], section: SectionWords) -> Message:
    """`measured E1 E2`."""
    named = " ".join(one.text for one in valves)
    return complaints.not_of_one(valves[0].span.to(valves[-1].span), section.word, named, next(iter(section.headers)))


def header_below(typed: Typed, valve: Word, section: SectionWords) -> Message:
    """A header below columns of one valve."""
    return complaints.header_below_one(typed.span, section.word, valve.text)
