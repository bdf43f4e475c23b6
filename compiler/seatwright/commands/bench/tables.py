"""Putting a figure into a job file: into the table of its station, which is made where there is none yet."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from seatwright.job.declarations import vocabulary
from seatwright.syntax import tree
from seatwright.syntax.formatting.format import formatted
from seatwright.syntax.parse import parse
from seatwright.syntax.tree import Cell, Dash, Date, Row, Section, Single, Table, Word
from seatwright.text import Source, Span
from seatwright.text.reading import source_of

_Opening = tuple[str | None, tuple[Fraction, str | None] | None]
"""What the line of a section says of its rows: its day, and its temperature with the unit."""


class Asked(Struct, frozen=True):
    """A cell that is asked for.

    head: counted from 0. columns: those of its station, in the order of the bench. valves: those of its head, likewise.
    """

    head: int
    valve: str
    column: str
    columns: tuple[str, ...]
    valves: tuple[str, ...]


class Under(Struct, frozen=True):
    """The section that takes the figures: its word, and its line as it is written."""

    table: str
    line: str


class StandsAlready(Exception):
    """A figure stands in the cell, and another hand put it there: it stays."""

    def __init__(self, figure: str) -> None:
        super().__init__(figure)
        self.figure = figure


def with_figure(source: Source, under: Under, asked: Asked, figure: str, ours: str | None = None) -> str:
    """The whole file with a figure in its cell, in the layout of the formatter.

    ours: what was put there before and is to be replaced, None where the cell is still empty. Raises StandsAlready;
    LayoutBroken where the formatter is at fault.
    """
    lines = list(source.as_typed())
    file, _ = parse(source, vocabulary("job"))
    section, table = _place(file, under, asked)
    if table is not None and (row := _row(table, asked.valve)) is not None:
        cell = row.cells[table.columns.index(asked.column)]
        stands = _typed(lines, cell.span)
        if not isinstance(cell, Dash) and stands != ours:
            raise StandsAlready(stands)
        line = lines[cell.span.line - 1]
        lines[cell.span.line - 1] = line[: cell.span.column - 1] + figure + line[cell.span.end_column - 1 :]
    elif table is not None:
        lines.insert(_above(table, asked) - 1, _as_row(table.columns, asked, figure))
    else:
        columns = ("valve", *asked.columns)
        made = ["  ".join(columns), _as_row(columns, asked, figure)]
        at = _end(lines, file, asked.head if section is None else section)
        lines[at:at] = ["", *([under.line] if section is None else []), *made, ""]
    made_of, _ = source_of(source.path, "\n".join(lines))
    return formatted(made_of, vocabulary("job")).text


def standing_cell(source: Source, under: Under, asked: Asked) -> tuple[str, Span] | None:
    """What stands in a cell of these tables, and where; None where it is empty or not there."""
    file, _ = parse(source, vocabulary("job"))
    _, table = _place(file, under, asked)
    row = _row(table, asked.valve) if table is not None else None
    if table is None or row is None:
        return None
    cell = row.cells[table.columns.index(asked.column)]
    return None if isinstance(cell, Dash) else (_typed(source.as_typed(), cell.span), cell.span)


def last_day(source: Source, table: str) -> str | None:
    """The latest day that stands over a table of this kind."""
    file, _ = parse(source, vocabulary("job"))
    days = [_opening(section)[0] for section in file.sections if section.name == table]
    return max((day for day in days if day is not None), default=None)


def one_cell(valve: str, under: Under, column: str, typed: str) -> tuple[str, tuple[str, str] | None]:
    """A cell as it was typed at the prompt, and what is wrong with it whatever the column, with what to do."""
    source, strange = source_of("typed", f"{under.table} {valve}\n  {column}  {typed}")
    file, messages = parse(source, vocabulary("job"))
    if (wrong := next(iter((*strange, *messages)), None)) is not None:
        return "", (wrong.text, wrong.help)
    line = file.sections[0].columns[0]
    if line.comment is not None:
        return "", ("`#` begins a comment", "A comment is written into the file itself; type the figure alone.")
    return line.raw, None


def _place(file: tree.File, under: Under, asked: Asked) -> tuple[Section | None, Table | None]:
    """The section of one head that takes the figures, and in it the table of a station."""
    wanted = _opening(parse(source_of("line", under.line)[0], vocabulary("job"))[0].sections[0])
    head = -1
    found: Section | None = None
    for section in file.sections:
        head += section.name == "head"
        if head == asked.head and section.name == under.table and section.valve is None and not section.line.faulty:
            found = section if _opening(section) == wanted else found
    if found is None:
        return None, None
    fits = [one for one in found.tables if asked.column in one.columns and {*asked.columns, "valve"} >= {*one.columns}]
    return found, fits[-1] if fits else None


def _opening(section: Section) -> _Opening:
    day: str | None = None
    at: tuple[Fraction, str | None] | None = None
    for one in section.line.arguments:
        if isinstance(one, Date):
            day = one.text
        elif isinstance(one, Single):
            at = (one.number.value, one.number.unit)
        elif isinstance(one, Word) and one.text.lower() == "in":
            at = (Fraction(-1), "in other units")  # none of ours
    return day, at


def _row(table: Table, valve: str) -> Row | None:
    for row in table.rows:
        first = row.cells[0] if row.cells else None
        if isinstance(first, Word) and first.text.upper() == valve:
            return row
    return None


def _above(table: Table, asked: Asked) -> int:
    """The line above which the row of a valve is put: that of the next valve of the head, else below the last."""
    order = {valve: place for place, valve in enumerate(asked.valves)}
    for row in table.rows:
        first: Cell | None = row.cells[0] if row.cells else None
        if isinstance(first, Word) and order.get(first.text.upper(), -1) > order[asked.valve]:
            return row.span.line
    return (table.rows[-1].span.line if table.rows else table.span.line) + 1


def _as_row(columns: tuple[str, ...], asked: Asked, figure: str) -> str:
    cells = {"valve": asked.valve, asked.column: figure}
    return "  ".join(cells.get(column, "-") for column in columns)


def _end(lines: list[str], file: tree.File, of: int | Section) -> int:
    """Where a section ends, or the part of a head: the number of lines above the next, whose comment goes with it."""
    starts = [section.line.span.line for section in file.sections]
    if isinstance(of, Section):
        following = [start for start in starts if start > of.line.span.line]
    else:
        heads = [section.line.span.line for section in file.sections if section.name == "head"]
        following = heads[of + 1 :]
    end = following[0] - 1 if following else len(lines)
    comments = {comment.span.line for comment in file.comments}
    while following and end in comments:
        end -= 1
    while end and not lines[end - 1].strip():
        end -= 1
    return end


def _typed(lines: list[str], span: Span) -> str:
    return lines[span.line - 1][span.column - 1 : span.end_column - 1].strip()
