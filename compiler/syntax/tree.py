"""The syntax tree: what stands on each line, before a field gives it a meaning.

Every node carries the place where it stands, and a number keeps the digits its owner typed.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from seatwright.text import Span


@dataclass(frozen=True, slots=True)
class Number:
    """A number as typed, with its unit if one stands behind it.

    typed: the digits as they stand in the file, sign included, unit not (`.030`, `1-1/2`, `+0.02`).
    value: exactly what they say. half_digit: half of the last digit typed, 0 for a fraction, which is exact.
    unit: the canonical word of grammar/units.txt (`mm`, `in`, `thou`, `C`, `rpm`, ...), None for a bare number.
    signed: True when a + or - stands before it. written: all of it as it stands, unit and blanks included (`44 mm`).
    A unit that holds for all numbers of a range, tolerance or list is given to each of them.
    """

    span: Span
    typed: str
    value: Fraction
    half_digit: Fraction
    unit: str | None
    signed: bool
    written: str = ""


@dataclass(frozen=True, slots=True)
class Single:
    """One number."""

    span: Span
    number: Number


@dataclass(frozen=True, slots=True)
class Range:
    """`0.08 to 0.12`."""

    span: Span
    low: Number
    high: Number


@dataclass(frozen=True, slots=True)
class Tolerance:
    """`41.2 +/- 0.3`, `44.10 +0.02 -0.01`: a nominal and two signed limits, as typed (`+/-` gives -a and +a).

    plus_minus: True for the `+/-` form.
    """

    span: Span
    nominal: Number
    first: Number
    second: Number
    plus_minus: bool


@dataclass(frozen=True, slots=True)
class PlusMinus:
    """`+/- 0.003` without a nominal: never further off than that."""

    span: Span
    number: Number


@dataclass(frozen=True, slots=True)
class Listing:
    """`35 50 70 rpm`."""

    span: Span
    numbers: tuple[Number, ...]


@dataclass(frozen=True, slots=True)
class Readings:
    """`9.020/9.022/9.021` in a cell: several readings of one thing."""

    span: Span
    numbers: tuple[Number, ...]


@dataclass(frozen=True, slots=True)
class OneSign:
    """A slip: `44.10 +0.02`, a tolerance with one limit only. Reported by the parser; never in a tree."""

    span: Span
    nominal: Number
    limit: Number


@dataclass(frozen=True, slots=True)
class OpenRange:
    """A slip: `1.6 to`, a range without a second end. Reported by the parser; never in a tree."""

    span: Span
    low: Number


Plain = Single | Range | Tolerance | PlusMinus | Listing | Readings | OneSign | OpenRange


@dataclass(frozen=True, slots=True)
class Both:
    """The same figure twice, `1.739 in = 44.17 mm`."""

    span: Span
    first: Plain
    second: Plain


Measure = Plain | Both


@dataclass(frozen=True, slots=True)
class Word:
    """A run of characters that is no number and no text; also whatever could not be read (`44,21`, `0.08-0.10`)."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Text:
    """A text in double quotes, its doubled quotes made single. closed: False where the closing quote is missing."""

    span: Span
    text: str
    closed: bool = True


@dataclass(frozen=True, slots=True)
class Date:
    """`2026-11-16`, checked to be a day of the calendar. text: ISO 8601."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Dash:
    """An empty cell."""

    span: Span


Argument = Word | Text | Date | Measure
Cell = Word | Text | Date | Measure | Dash


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment with its `#`."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Line:
    """A section, field or single line: its first word and what follows.

    raw: all that stands behind the word up to the end of the line or its comment, blanks trimmed (for `x-` fields).
    faulty: True when a message has been given for this line; its values are not to be used. typed: the first word as
    it stands. guessed: True when that word was a slip, already reported, and is read as the nearest one: the values
    may be used, but what does not fit them is a consequence and not worth a second message.
    """

    span: Span
    word: Word
    arguments: tuple[Argument, ...]
    raw: str
    comment: Comment | None = None
    faulty: bool = False
    typed: str = ""
    guessed: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A line of a table: its cells. faulty as in Line. raws: each cell as it stands."""

    span: Span
    cells: tuple[Cell, ...]
    comment: Comment | None = None
    faulty: bool = False
    raws: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """A header and the rows below it; columns holds the words in their canonical spelling, spans where they stand.

    A column already reported (unknown, or given twice) is the empty word: its cells are passed over. typed: the words
    as they stand. comment: of the header's line.
    """

    span: Span
    columns: tuple[str, ...]
    column_spans: tuple[Span, ...]
    rows: tuple[Row, ...]
    typed: tuple[str, ...] = ()
    comment: Comment | None = None


@dataclass(frozen=True, slots=True)
class Section:
    """A section line (`name` is its canonical word) with the fields, tables and rows that belong to it.

    rows: rows of a section that has no header (`spacing`, `trial`). The section is open all the same when its own
    line is faulty. Fields come with their canonical words in `Line.word.text`; an unknown word is kept as typed.
    """

    name: str
    line: Line
    fields: tuple[Line, ...] = ()
    tables: tuple[Table, ...] = ()
    rows: tuple[Row, ...] = ()


@dataclass(frozen=True, slots=True)
class File:
    """A whole job or shop file: single lines (`language`, `use`, `note`, `hold`, `units` of a job section excepted)
    and sections, in the order in which they stand, and every comment that stands alone on its line."""

    path: str
    kind: str  # "job" or "shop"
    singles: tuple[Line, ...]
    sections: tuple[Section, ...]
    comments: tuple[Comment, ...]
