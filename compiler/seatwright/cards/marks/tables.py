"""A table of Markdown read as its texts, by the rules of markdown-it: a token a cell costs as much as all else does."""

from __future__ import annotations

import re

from markdown_it.rules_block import StateBlock
from msgspec import Struct

_RULED = re.compile(r"(?!-[ \t])(?=..)\|?[ \t]*:?-+:?[ \t]*(?:\|[ \t]*:?-+:?[ \t]*)*\|?[ \t]*")
_BETWEEN_CELLS = re.compile(r"(?<!\\)\|")


class GridText(Struct, frozen=True):
    """A table as it is written: its titles, how many dashes rule off each column, its rows, each with a cell a title.

    to_fill_in: a blank stands in it.
    """

    titles: tuple[str, ...]
    dashes: tuple[int, ...]
    rows: tuple[tuple[str, ...], ...]
    to_fill_in: bool


def grid_rule(state: StateBlock, start: int, end: int, silent: bool) -> bool:
    """A rule of markdown-it: reads what its own rule for tables does, and leaves one token with a GridText."""
    if start + 2 > end or state.sCount[start + 1] < state.blkIndent or state.is_code_block(start + 1):
        return False
    ruled = _line(state, start + 1)
    if ruled[:1] not in ("|", "-", ":") or not _RULED.fullmatch(ruled) or state.is_code_block(start):
        return False
    titles, dashes = _cells(_line(state, start).strip()), tuple(map(len, re.findall("-+", ruled)))
    if "|" not in _line(state, start) or len(titles) != len(dashes):
        return False
    if silent:
        return True
    rows, line = [], start + 2
    around, state.parentType = state.parentType, "table"
    while line < end and (row := _row(state, line, end)):
        cells = _cells(row)[: len(titles)]
        rows.append((*cells, *[""] * (len(titles) - len(cells))))
        line += 1
    state.parentType, state.line = around, line
    raw = state.src[state.bMarks[start] : state.eMarks[line - 1]]
    state.push("grid", "table", 0).meta = {"grid": GridText(tuple(titles), dashes, tuple(rows), "___" in raw)}
    return True


def _row(state: StateBlock, line: int, end: int) -> str:
    """The text of a row, "" where the table ends before that line."""
    if state.sCount[line] < state.blkIndent or state.is_code_block(line):
        return ""
    text = _line(state, line).strip()
    # No other block begins with a pipe, as almost every row does.
    ends = not text.startswith("|") and any(
        rule(state, line, end, True) for rule in state.md.block.ruler.getRules("blockquote")
    )
    return "" if ends else text


def _cells(row: str) -> list[str]:
    parts = row.split("|") if "\\|" not in row else [part.replace("\\|", "|") for part in _BETWEEN_CELLS.split(row)]
    # The pipes at both ends part nothing.
    cells = parts[not parts[0] :]
    return [cell.strip() for cell in (cells[:-1] if cells and not cells[-1] else cells)]


def _line(state: StateBlock, line: int) -> str:
    return state.src[state.bMarks[line] + state.tShift[line] : state.eMarks[line]]
