"""Tables of a card: read as Markdown reads them, but a row is one token.

Most of what stands on a card stands in a cell. Markdown makes three tokens of each, thousands of every job.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from markdown_it.common.utils import escapeHtml
from markdown_it.renderer import RendererHTML
from markdown_it.rules_block import StateBlock, table
from markdown_it.token import Token
from markdown_it.utils import EnvType, OptionsDict

from seatwright.cards.texts import ROW

_BETWEEN = re.compile(r"(?<!\\)\|")
_RULED = re.compile(r"(:?)-+(:?)")
_ALIGNED = {("", ""): "", (":", ""): "left", ("", ":"): "right", (":", ":"): "center"}
_MOST_EMPTY = 0x10000  # cells that rows may lack: where more are missing, Markdown reads on as if the table were over


def read_table(state: StateBlock, start: int, end: int, silent: bool) -> bool:
    """The rule of Markdown that reads a table; whether there is one is asked of Markdown's own."""
    if not table(state, start, end, True):
        return False
    if silent:
        return True
    before, state.parentType = state.parentType, "table"
    aligned = [_ALIGNED[colons] for colons in _RULED.findall(_line(state, start + 1))]
    opening = state.push("table_open", "table", 1)
    _push_row(state, _cells(_line(state, start)), aligned, header=True)
    state.line = start + 2
    for cells in _rows(state, end, len(aligned)):
        _push_row(state, cells, aligned, header=False)
        state.line += 1
    opening.map = [start, state.line]
    state.push("table_close", "table", -1)
    state.parentType = before
    return True


def _rows(state: StateBlock, end: int, columns: int) -> Iterator[list[str]]:
    """The rows from the line on which the state stands."""
    others = state.md.block.ruler.getRules("blockquote")
    missing = 0
    while state.line < end:
        at = state.line
        if state.sCount[at] < state.blkIndent or any(rule(state, at, end, True) for rule in others):
            return
        line = _line(state, at)
        if not line or state.is_code_block(at):
            return
        cells = _cells(line)
        missing += columns - len(cells)
        if missing > _MOST_EMPTY:
            return
        yield [*cells[:columns], *[""] * (columns - len(cells))]


def _line(state: StateBlock, line: int) -> str:
    return state.src[state.bMarks[line] + state.tShift[line] : state.eMarks[line]].strip()


def _cells(line: str) -> list[str]:
    cells = _BETWEEN.split(line)
    if not cells[0]:
        del cells[0]
    if cells and not cells[-1]:
        del cells[-1]
    return [cell.replace("\\|", "|").strip() for cell in cells]


def _push_row(state: StateBlock, cells: Sequence[str], aligned: Sequence[str], header: bool) -> None:
    row = state.push(ROW, "tr", 0)
    row.meta = {"cells": cells, "aligned": aligned, "header": header}


def open_table(renderer: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: EnvType) -> str:
    """A table that scrolls by itself on a small screen, its columns as wide as they were reckoned."""
    columns: Iterator[Sequence[float]] = env.get("columns", iter(()))
    set_to = "".join(f'<col style="width:{width:.2f}mm">' for width in next(columns, ()))
    label = f"Table {1 + sum(token.type == 'table_open' for token in tokens[:index])}, {_named(tokens, index)}"
    opening = f'<div class="table" role="group" aria-label="{escapeHtml(label)}" tabindex="0">'
    return f"{opening}<table>\n<colgroup>{set_to}</colgroup>\n"


def _named(tokens: Sequence[Token], index: int) -> str:
    """What a table is called: by the title right above it, else by its columns."""
    if index > 1 and tokens[index - 1].type == "heading_close":
        return "".join(token.content for token in tokens[index - 2].children or [])
    return ", ".join(cell.plain for cell in tokens[index + 1].meta["cells"])


def draw_row(renderer: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: EnvType) -> str:
    """A row; the header with what parts it from the others."""
    row = tokens[index].meta
    tag, scope = ("th", ' scope="col"') if row["header"] else ("td", "")
    cells = [
        f"<{tag}{_style(aligned)}{scope}>{cell.html}</{tag}>\n"
        for cell, aligned in zip(row["cells"], row["aligned"], strict=True)
    ]
    inside = f"<tr>\n{''.join(cells)}</tr>\n"
    if not row["header"]:
        return inside
    rows = "<tbody>\n" if tokens[index + 1].type == ROW else ""
    return f"<thead>\n{inside}</thead>\n{rows}"


def close_table(renderer: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: EnvType) -> str:
    """The end of a table, and of its rows where it has any."""
    rows = "" if tokens[index - 1].meta["header"] else "</tbody>\n"
    return f"{rows}</table></div>\n"


def _style(aligned: str) -> str:
    return f' style="text-align:{aligned}"' if aligned else ""
