"""The cells of a row of a table."""

from __future__ import annotations

import itertools

from seatwright.syntax import grammar
from seatwright.syntax.numbers import slips, units
from seatwright.syntax.numbers.measures import Slip, measure, readings, single
from seatwright.syntax.numbers.values import Piece, ends
from seatwright.syntax.reading.arguments import plain_argument, unclear
from seatwright.syntax.tokens import Token, Tree
from seatwright.syntax.tree import Cell, Dash, Number, Single, Word


def read_cells(piece: Piece) -> tuple[tuple[Cell, ...], tuple[str, ...]]:
    """The cells of a row, and each as it stands. Raises Slip at the first that is wrong in every column."""
    try:
        children = grammar.read_piece(piece.characters, grammar.CELLS)
    except grammar.Unread as fault:
        raise unclear(piece, fault.at) from None
    found = tuple([_cell(piece, child) for child in children])
    return found, tuple([piece.typed[slice(*_ends(child))] for child in children])


def empty_between_tabs(piece: Piece, columns: tuple[str, ...]) -> Slip | None:
    """The cell that a spreadsheet left empty between two tabs; None where a row is not parted by tabs throughout."""
    parts = piece.typed.split("\t")
    if len(parts) != len(columns) or all(part.strip() for part in parts):
        return None
    empty = next(place for place, part in enumerate(parts) if not part.strip())
    at = sum(len(part) + 1 for part in parts[:empty])
    start = max(0, at - 1)
    return Slip(
        "cell-missing",
        piece.span(start, max(start + 1, min(at + 1, len(piece.typed)))),
        f"the cell of `{columns[empty]}` is empty",
        "Put `-` for what was not measured: two tabs count as one blank here.",
    )


def check_row(found: tuple[Cell, ...], columns: tuple[str, ...]) -> Slip | None:
    """Why a row has not one cell for each column, or two cells that may have been meant as one; None where it is right.

    columns: the words of the header as typed.
    """
    mixed = _mixed(found)
    if mixed is not None:
        return mixed
    if len(found) < len(columns):
        missing = len(columns) - len(found)
        return Slip(
            "cell-missing",
            found[-1].span,
            f"{missing} of {len(columns)} cells missing: the row ends before `{columns[len(found)]}`",
            "Put `-` for what was not measured; a row has one cell for each word of its header.",
        )
    return _too_many(found, columns) if len(found) > len(columns) else None


def _too_many(found: tuple[Cell, ...], columns: tuple[str, ...]) -> Slip:
    for before, cell in itertools.pairwise(found):
        if not isinstance(before, Single) or not isinstance(cell, Word):
            continue
        if cell.text.lower() == "to" or cell.text in ("+/-", "±"):
            return Slip(
                "cell-range",
                cell.span,
                f"`{cell.text}` in a row: a cell takes one figure, no range and no tolerance",
                "Write what was measured; several readings of one thing are joined by slashes, `9.020/9.022`.",
            )
        if before.number.unit is None and (
            units.asks_which(cell.text) or (cell.text.isalpha() and units.nearest_unit(cell.text))
        ):
            explained = slips.explain_unit(cell)
            if explained is not None:
                return Slip(explained[0], cell.span, explained[1], explained[2])
    if (valve := _valve_apart(found)) is not None:
        return Slip(
            "valve-apart",
            found[0].span.to(found[1].span),
            "the valve of this row is written as two words",
            f"It is one: `{valve}`.",
        )
    extra = found[len(columns)].span.to(found[-1].span)
    what_to_do = "A row has one cell for each word of its header."
    if any(isinstance(cell, Word) for cell in found[len(columns) :]):
        what_to_do += " A name of several words is written with hyphens or in quotes."
    return Slip(
        "cell-extra",
        extra,
        f"{len(found)} cells in this row, but the header has {len(columns)} words",
        what_to_do,
    )


def _valve_apart(found: tuple[Cell, ...]) -> str | None:
    """`exhaust 1`, `E 1`: the valve that two cells in front of a row mean."""
    word, number = found[0], found[1]
    if not isinstance(word, Word) or not isinstance(number, Single) or not number.number.typed.isdigit():
        return None
    kind = {"e": "E", "ex": "E", "exh": "E", "exhaust": "E", "i": "I", "in": "I", "intake": "I", "inlet": "I"}.get(
        word.text.lower().rstrip(".")
    )
    return None if kind is None else f"{kind}{number.number.typed}"


def _mixed(found: tuple[Cell, ...]) -> Slip | None:
    """A bare whole number and a proper fraction behind it: one figure or two?"""
    for place, behind in enumerate(found):
        # Most cells are no fraction, and need not be held against the one before.
        if not isinstance(behind, Single) or "/" not in behind.number.typed or place == 0:
            continue
        before, fraction = found[place - 1], behind.number
        if not isinstance(before, Single) or not _is_bare_fraction(fraction):
            continue
        whole = before.number
        if _is_bare_whole(whole):
            return Slip(
                "cell-mixed",
                whole.span.to(fraction.span),
                f"`{whole.typed} {fraction.written}`: one cell or two?",
                f"One is written `{whole.typed}-{fraction.written}`, two are written "
                f"`{whole.typed}.0 {fraction.written}`.",
            )
    return None


def _is_bare_whole(number: Number) -> bool:
    return number.unit is None and number.typed.lstrip("+-").isdigit()


def _is_bare_fraction(number: Number) -> bool:
    return "-" not in number.typed and not number.signed and number.value < 1


def _cell(piece: Piece, child: Token | Tree) -> Cell:
    if isinstance(child, Tree):
        return measure(piece, child)
    match child.type:
        case "FIGURE":
            return single(piece, child)
        case "READINGS":
            return readings(piece, child)
        case "DASH":
            return Dash(piece.span(*ends(child)))
        case _:
            return plain_argument(piece, child)


def _ends(child: Token | Tree) -> tuple[int, int]:
    if isinstance(child, Token):
        return child.start_pos, child.end_pos
    first, last = child.children[0], child.children[-1]
    assert isinstance(first, Token)
    assert isinstance(last, Token)
    return first.start_pos, last.end_pos


def looks_measured(found: tuple[Cell, ...]) -> bool:
    """Whether a figure without a unit stands in a row: then it is no line that opens a section."""
    return any(isinstance(cell, Single) and cell.number.unit is None for cell in found[1:])
