"""The syntax tree: what stands on each line, before a field gives it a meaning.

Every node carries the place where it stands, and a number keeps the digits its owner typed.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from seatwright.text import Span


class Number(Struct, frozen=True):
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


class Single(Struct, frozen=True):
    """One number."""

    span: Span
    number: Number


class Range(Struct, frozen=True):
    """`0.08 to 0.12`."""

    span: Span
    low: Number
    high: Number


class Tolerance(Struct, frozen=True):
    """`41.2 +/- 0.3`, `44.10 +0.02 -0.01`: a nominal and two signed limits, as typed (`+/-` gives -a and +a).

    plus_minus: True for the `+/-` form.
    """

    span: Span
    nominal: Number
    first: Number
    second: Number
    plus_minus: bool


class PlusMinus(Struct, frozen=True):
    """`+/- 0.003` without a nominal: never further off than that."""

    span: Span
    number: Number


class Listing(Struct, frozen=True):
    """`35 50 70 rpm`."""

    span: Span
    numbers: tuple[Number, ...]


class Readings(Struct, frozen=True):
    """`9.020/9.022/9.021` in a cell: several readings of one thing."""

    span: Span
    numbers: tuple[Number, ...]


class OneSign(Struct, frozen=True):
    """A slip: `44.10 +0.02`, a tolerance with one limit only. Reported by the parser; never in a tree."""

    span: Span
    nominal: Number
    limit: Number


class OpenRange(Struct, frozen=True):
    """A slip: `1.6 to`, a range without a second end. Reported by the parser; never in a tree."""

    span: Span
    low: Number


Plain = Single | Range | Tolerance | PlusMinus | Listing | Readings | OneSign | OpenRange


class Both(Struct, frozen=True):
    """The same figure twice, `1.739 in = 44.17 mm`."""

    span: Span
    first: Plain
    second: Plain


Measure = Plain | Both


class Word(Struct, frozen=True):
    """A run of characters that is no number and no text; also whatever could not be read (`44,21`, `0.08-0.10`)."""

    span: Span
    text: str


class Text(Struct, frozen=True):
    """A text in double quotes, its doubled quotes made single. closed: False where the closing quote is missing."""

    span: Span
    text: str
    closed: bool = True


class Date(Struct, frozen=True):
    """`2026-11-16`, checked to be a day of the calendar. text: ISO 8601."""

    span: Span
    text: str


class Dash(Struct, frozen=True):
    """An empty cell."""

    span: Span


Argument = Word | Text | Date | Measure
Cell = Word | Text | Date | Measure | Dash


class Comment(Struct, frozen=True):
    """A comment with its `#`."""

    span: Span
    text: str


class Line(Struct, frozen=True):
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


class Row(Struct, frozen=True):
    """A line of a table: its cells. faulty as in Line. raws: each cell as it stands."""

    span: Span
    cells: tuple[Cell, ...]
    comment: Comment | None = None
    faulty: bool = False
    raws: tuple[str, ...] = ()


class Table(Struct, frozen=True):
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


class Section(Struct, frozen=True):
    """A section line (`name` is its canonical word) with the fields, tables and rows that belong to it.

    rows: rows of a section that has no header (`spacing`, `trial`). The section is open all the same when its own
    line is faulty. Fields come with their canonical words in `Line.word.text`; an unknown word is kept as typed.
    valve: what the section line names where the section is of one valve, `measured E1`; it is none of the line's
    arguments. columns: the lines below it then, a column each; tables holds them as the one row that they mean.
    """

    name: str
    line: Line
    fields: tuple[Line, ...] = ()
    tables: tuple[Table, ...] = ()
    rows: tuple[Row, ...] = ()
    valve: Word | None = None
    columns: tuple[Line, ...] = ()


class File(Struct, frozen=True):
    """A whole job or shop file: single lines (`language`, `use`, `note`, `hold`, `units` of a job section excepted)
    and sections, in the order in which they stand, and every comment that stands alone on its line."""

    path: str
    kind: str  # "job", "shop" or "engine"
    singles: tuple[Line, ...]
    sections: tuple[Section, ...]
    comments: tuple[Comment, ...]
