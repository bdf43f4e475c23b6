"""Rows for a spreadsheet: point decimal, RFC 4180 quoting, and no text that a spreadsheet would take for a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from seatwright.told.plan_json import rounded

SheetCell = str | float | int | bool | None
"""What stands in a cell; None and "" for nothing."""

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_rows(rows: Iterable[Sequence[SheetCell]]) -> str:
    """Parted by commas."""
    return _separated(rows, ",")


def tsv_rows(rows: Iterable[Sequence[SheetCell]]) -> str:
    """Parted by tabs, for spreadsheets that take a comma for a decimal."""
    return _separated(rows, "\t")


def sheet_text(cell: SheetCell) -> str:
    """A cell as text: figures with at most six decimals, yes and no, and a text that is none but text."""
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        return plain_decimal(cell)
    if isinstance(cell, int):
        return str(cell)
    return f"'{cell}" if cell.startswith(_FORMULA) else cell


def plain_decimal(value: float) -> str:
    """A figure with at most six decimals, a point, and no power of ten behind it."""
    text = f"{rounded(value):.6f}".rstrip("0")
    return text[:-1] if text.endswith(".") else text


def _separated(rows: Iterable[Sequence[SheetCell]], separator: str) -> str:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator, lineterminator="\n")
    writer.writerows([sheet_text(cell) for cell in row] for row in rows)
    return out.getvalue()
