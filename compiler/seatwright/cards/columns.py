"""How wide the columns of a table are: reckoned here, and set so, that a page is the same in every browser."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from markdown_it.token import Token
from msgspec import Struct

from seatwright.cards.paper import SIZES
from seatwright.cards.runs import Word, lines_in, longest, on_one_line, words_of
from seatwright.cards.texts import KEPT, ROW, Text, to_fill_in

_SIDES = 2 * SIZES.cell_sides + 2 * SIZES.rule + 0.4


class Cell(Struct, frozen=True):
    """What stands in a cell. written: something is to be written or ticked there."""

    words: Sequence[Word]
    written: bool


def rows_of(table: Sequence[Token]) -> list[list[Cell]]:
    """The cells of each row; those of the header, which are bold, first."""
    rows = [token.meta for token in table if token.type == ROW]
    return [[_cell(text, row["header"]) for text in row["cells"]] for row in rows]


@lru_cache(KEPT)
def _cell(text: Text, bold: bool) -> Cell:
    return Cell(words_of(text.tokens, bold=bold), text.written)


def widths_of(rows: Sequence[Sequence[Cell]], room: float) -> tuple[float, ...]:
    """The width of each column in mm: no word broken where it can be helped, and what is over to the columns that
    are written in, else to all."""
    columns = range(len(rows[0]))
    least = [max(longest(row[column].words) for row in rows) + _SIDES for column in columns]
    whole = [max(on_one_line(row[column].words) for row in rows) + _SIDES for column in columns]
    blank = [any(row[column].written for row in rows[1:]) for column in columns]
    if sum(whole) <= room:
        share = [width if mark else 0.0 for width, mark in zip(whole, blank, strict=True)]
        if not any(share):
            share = whole
        spare = room - sum(whole)
        return tuple(width + spare * part / sum(share) for width, part in zip(whole, share, strict=True))
    if sum(least) >= room:
        return tuple(width * room / sum(least) for width in least)
    spare, wish = room - sum(least), sum(whole) - sum(least)
    widths = [low + spare * (high - low) / wish for low, high in zip(least, whole, strict=True)]
    return _room_to_write(rows, widths, blank) if any(blank) else tuple(widths)


def _room_to_write(rows: Sequence[Sequence[Cell]], widths: list[float], blank: Sequence[bool]) -> tuple[float, ...]:
    """Columns of print no wider than their lines need; what that saves goes to those that are written in."""
    saved = 0.0
    for column, width in enumerate(widths):
        if blank[column]:
            continue
        cells = [row[column].words for row in rows]
        inside = width - _SIDES
        lines = [lines_in(cell, inside) for cell in cells]
        narrow = max((longest(cell) for cell in cells), default=0.0)
        step = (inside - narrow) / 16
        while step > 0.05 and inside - step >= narrow and [lines_in(cell, inside - step) for cell in cells] == lines:
            inside -= step
        saved += width - _SIDES - inside
        widths[column] = inside + _SIDES
    share = saved / sum(blank)
    return tuple(width + share if mark else width for width, mark in zip(widths, blank, strict=True))


def row_height(row: Sequence[Cell], widths: Sequence[float], header: bool = False) -> float:
    """How tall a row stands."""
    return max([_cell_height(cell, width, header) for cell, width in zip(row, widths, strict=True)]) + SIZES.rule


def _cell_height(cell: Cell, width: float, header: bool) -> float:
    lines = lines_in(cell.words, width - 2 * SIZES.cell_sides - SIZES.rule)
    if not cell.written:
        return lines * SIZES.line + 2 * SIZES.cell_ends + (SIZES.rule if header else 0.0)
    return (lines - 1) * SIZES.line + SIZES.blank_row


def is_written(token: Token) -> bool:
    """Whether something is to be written or ticked in a text, or in a row."""
    if token.type == ROW:
        return any(cell.written for cell in token.meta["cells"])
    return to_fill_in(token.children or [])
