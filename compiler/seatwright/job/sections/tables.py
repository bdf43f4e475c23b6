"""The rows of a table: cells read by the declarations of their columns."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from msgspec import Struct, field

from seatwright.job.declarations import Field, Form, Header, SectionDeclared
from seatwright.job.model import Extra, Given, Named, Reading
from seatwright.job.typed import names
from seatwright.job.typed.fields import read_value
from seatwright.job.typed.figures import Exact, as_float, checked
from seatwright.job.typed.gather import Gathered, Mistake
from seatwright.job.typed.scope import Scope
from seatwright.job.typed.slips import empty_cell, unreadable
from seatwright.job.typed.values import Wanted
from seatwright.job.wording import of_sections as say
from seatwright.syntax import tree
from seatwright.syntax.tree import Cell, Dash, Readings, Single, Text, Word
from seatwright.syntax.words import is_extra
from seatwright.text import Span

# To look up a member of an enum takes five times as long as a name, and every cell asks for these.
_NUMBER, _LEAK_FOUND = Form.NUMBER, Form.LEAK_FOUND


class ReadRow(Struct):
    """A row as read: the header's first cell, then values by column, each with its place.

    whole: every cell could be read; so that what is missing is not reported as well.
    """

    header: Header
    by_word: Mapping[str, Field]
    first: Named
    span: Span
    scope: Scope
    values: dict[str, Any] = field(default_factory=dict)
    spans: dict[str, Span] = field(default_factory=dict)
    extras: list[Extra] = field(default_factory=list)
    whole: bool = True

    def get(self, column: str) -> Any:
        """The value of a column, None where it is empty, missing or could not be read."""
        return self.values.get(column)

    def attributes(self) -> dict[str, Any]:
        """The values by attribute of the model."""
        return {self.by_word[word].to: value for word, value in self.values.items()}


def rows(
    section: SectionDeclared, found: tree.Section, scope: Scope, gathered: Gathered, *, readings: bool
) -> Iterator[ReadRow]:
    """The rows of all tables of a section. readings: figures are Reading, several of them allowed in a cell."""
    for table in found.tables:
        first = table.columns[0] if table.columns else ""
        header = next((one for one in section.headers if one.first.word == first), section.headers[0])
        by_word = header.by_word
        for row in table.rows:
            if row.faulty:
                continue
            cells = _row(header, by_word, table, row, scope, gathered, readings)
            if cells is not None:
                yield cells


def lost_valves(found: tree.Section) -> tuple[set[str], bool]:
    """The valves of rows that cannot be read, as far as they can be guessed, and whether there are others.

    That such a valve is missing elsewhere is a consequence of what is wrong with its row.
    """
    lost: set[str] = set()
    others = found.line.faulty and found.name == "valves"
    every_row = (*(row for table in found.tables for row in table.rows), *found.rows)
    for row in every_row:
        # A row that could not be read has no cells, but its words as they stand.
        words = [cell.text for cell in row.cells[:2] if isinstance(cell, Word)] or list(row.raws[:1])
        if not row.faulty and words and names.is_valve(words[0]):
            continue
        meant = [word.upper() if names.is_valve(word) else names.valve_meant(word) for word in words]
        lost |= {name for name in meant if name is not None}
        others = others or not any(meant)
    return lost, others


def any_faulty(found: tree.Section) -> bool:
    """Whether anything in a section could not be read."""
    every_row = (*(row for table in found.tables for row in table.rows), *found.rows)
    return found.line.faulty or any(row.faulty for row in every_row) or any(line.faulty for line in found.fields)


def _row(
    header: Header,
    by_word: Mapping[str, Field],
    table: tree.Table,
    row: tree.Row,
    scope: Scope,
    gathered: Gathered,
    readings: bool,
) -> ReadRow | None:
    first: Named | None = None
    values: dict[str, Any] = {}
    spans: dict[str, Span] = {}
    extras: list[Extra] = []
    raws = row.raws or tuple(scope.typed(cell.span) for cell in row.cells)
    whole = True
    unlikely: list[tuple[Field, Cell, Mistake]] = []
    for column, cell, raw in zip(table.columns, row.cells, raws, strict=False):
        if not column or (isinstance(cell, Dash) and column != header.first.word):
            continue
        declared = by_word.get(column)
        if declared is None:
            if is_extra(column.lower()):
                extras.append(Extra(column, raw, cell.span))
            continue
        try:
            value = _cell(declared, cell, scope, readings, header)
        except Mistake as mistake:
            whole = False
            if mistake.message.slug == "figure-unlikely":
                unlikely.append((declared, cell, mistake))
            else:
                gathered.say(mistake.message)
            continue
        if declared is header.first:
            first = value
        else:
            values[column], spans[column] = value, cell.span
    _say_unlikely(unlikely, scope, gathered)
    if first is None:
        return None
    if extras and header.first.form is Form.VALVE:
        extras = [Extra(extra.word, extra.text, extra.span, first.text) for extra in extras]
    return ReadRow(header, by_word, first, row.span, scope, values, spans, extras, whole)


def _say_unlikely(unlikely: list[tuple[Field, Cell, Mistake]], scope: Scope, gathered: Gathered) -> None:
    """Figures that are out of bounds; two of a row that are each right for the other's column are said as one."""
    left = list(unlikely)
    while left:
        declared, cell, mistake = left.pop(0)
        other = next((each for each in left if _exchanged(declared, cell, each[0], each[1], scope)), None)
        if other is None:
            gathered.say(mistake.message)
            continue
        left.remove(other)
        gathered.say(say.cells_exchanged(
            cell.span, declared.word, scope.typed(cell.span), other[1].span, other[0].word, scope.typed(other[1].span)
        ))  # fmt: skip


def _exchanged(one: Field, here: Cell, other: Field, there: Cell, scope: Scope) -> bool:
    def fits(declared: Field, cell: Cell) -> bool:
        try:
            _cell_figures(declared, cell, scope)
        except Mistake:
            return False
        return True

    return one.dimension is other.dimension and fits(one, there) and fits(other, here)


def _cell_figures(declared: Field, cell: Cell, scope: Scope) -> None:
    """Raises Mistake where a cell makes no figure of a column."""
    if isinstance(cell, Dash):
        raise Mistake(say.cell_first(cell.span, declared.word))
    cell_reading(declared, cell, scope)


def _cell(declared: Field, cell: Cell, scope: Scope, readings: bool, header: Header) -> Any:
    if isinstance(cell, Dash):
        raise Mistake(say.cell_first(cell.span, header.first.word))
    if isinstance(cell, Word) and declared.dimension is not None and (empty := empty_cell(cell, declared)) is not None:
        raise Mistake(empty)
    if declared.form is _NUMBER and (readings or isinstance(cell, Readings)):
        return cell_reading(declared, cell, scope) if readings else _one_figure(declared, cell, scope)
    if declared.form is _LEAK_FOUND:
        return _leak(declared, cell, scope)
    value = read_value(declared, cell.span, (cell,), scope)
    if declared.halved and isinstance(value, Given):
        return Given(value.value / 2, value.typed, value.span, value.half_digit / 2, value.source)
    return value


def _one_figure(declared: Field, cell: Cell, scope: Scope) -> Any:
    raise Mistake(say.readings_here(cell.span, declared.word, scope.typed(cell.span)))


def cell_reading(declared: Field, cell: Cell, scope: Scope) -> Reading:
    """A cell with one figure, or with several readings of one thing. Raises Mistake."""
    if isinstance(cell, Dash):
        raise Mistake(say.cell_first(cell.span, declared.word))
    figures: list[Exact]
    if isinstance(cell, Single):
        figures = [checked(cell.number, declared, scope)]
        typed = figures[0].typed
    elif isinstance(cell, Readings):
        figures = [checked(number, declared, scope) for number in cell.numbers]
        typed = scope.typed(cell.span)
    else:
        figure, rest = Wanted(declared, cell.span, (cell,), scope).one()
        rest.end()
        figures, typed = [figure], figure.typed
    share = 2 if declared.halved else 1
    if len(figures) == 1:
        value = as_float(figures[0].value) / share
        half = as_float(figures[0].half) / share
        return Reading(value, value, value, typed, cell.span, half, 1, scope.at, scope.date)
    values = [figure.value / share for figure in figures]
    return Reading(
        float(sum(values) / len(values)),
        float(max(values)),
        float(min(values)),
        typed,
        cell.span,
        float(max(figure.half for figure in figures) / share),
        len(values),
        scope.at,
        scope.date,
        each=tuple(float(value) for value in values),
    )


def _leak(declared: Field, cell: Cell, scope: Scope) -> Named | Reading:
    """`pass`, `fail`, or how long it held."""
    if isinstance(cell, (Word, Text)):
        found = names.one_of_words(cell.text, ("pass", "fail"))
        if found is not None:
            return Named(found, cell.span)
        if isinstance(cell, Text) or not cell.text[:1].isdigit():
            raise Mistake(say.leak_word(cell.span, cell.text))
        raise Mistake(unreadable(cell, declared, scope))
    return cell_reading(declared, cell, scope)
