"""Setting lines under one another: the values of fields, the columns of tables."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from msgspec import Struct

from seatwright.text.showing import width

BETWEEN = "  "
"""What parts two columns, a word and its value, a line and its comment."""

_BEFORE_POINT = re.compile(r"[^0-9.½⅓⅔¼¾⅛⅜⅝⅞]*([0-9]*)(/?)")


class AlignedRow(Struct, frozen=True):
    """A header or a row on its way: its cells as typed, which of them are figures, which are empty, its comment."""

    cells: tuple[str, ...]
    figures: tuple[bool, ...]
    empty: tuple[bool, ...]
    comment: str


def beside_one_another(pairs: Mapping[int, tuple[str, str, str]]) -> dict[int, str]:
    """Fields by their line: word, value and comment, the values in one column."""
    column = max((width(word) for word, value, _ in pairs.values() if value), default=0)
    return {
        number: with_comment(f"{_filled(word, column)}{BETWEEN}{value}" if value else word, comment)
        for number, (word, value, comment) in pairs.items()
    }


def in_columns(rows: Mapping[int, AlignedRow], header: int | None = None) -> dict[int, str]:
    """Rows by their line: the cells in columns, figures by their decimal point, words left, comments in one column.

    header: the line of the header, whose words stand at the left of their columns.
    """
    body = [row for number, row in rows.items() if number != header]
    points = [_point(body, column) for column in range(max(len(row.cells) for row in rows.values()))]
    lines: dict[int, list[str]] = {
        number: list(row.cells) if number == header else [_pointed(row, at, points[at]) for at in range(len(row.cells))]
        for number, row in rows.items()
    }
    widths = [max(width(line[at]) for line in lines.values() if at < len(line)) for at in range(len(points))]
    joined = {
        number: BETWEEN.join(_filled(cell, size) for cell, size in zip(line, widths, strict=False)).rstrip(" ")
        for number, line in lines.items()
    }
    edge = max(width(line) for line in joined.values())
    return {
        number: with_comment(_filled(line, edge) if rows[number].comment else line, rows[number].comment)
        for number, line in joined.items()
    }


def with_comment(line: str, comment: str) -> str:
    """A line and its comment, two blanks between."""
    return f"{line}{BETWEEN}{comment}" if comment else line


def _point(rows: Sequence[AlignedRow], column: int) -> int | None:
    """How far the decimal point of a column stands from its left edge; None where not all cells are figures.

    The first column names what the row is about, and a name stands at the left also when it is a figure.
    """
    filled = [row for row in rows if column < len(row.cells) and not row.empty[column]]
    if column == 0 or not filled or not all(row.figures[column] for row in filled):
        return None
    return max(_before_point(row.cells[column]) for row in filled)


def _pointed(row: AlignedRow, column: int, point: int | None) -> str:
    cell = row.cells[column]
    if point is None or row.empty[column]:
        return cell
    return " " * (point - _before_point(cell)) + cell


def _before_point(cell: str) -> int:
    """How wide a figure is before its decimal point; a fraction below 1 stands behind it, `1-1/2` with its whole 1."""
    found = _BEFORE_POINT.match(cell)
    assert found is not None, cell
    return width(cell[: found.start(1)] if found.group(2) else cell[: found.end(1)])


def _filled(typed: str, size: int) -> str:
    return typed + " " * (size - width(typed))
