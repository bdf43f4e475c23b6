"""What the parser says each stretch of the demo and message files is, for grammars to be held against."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from seatwright.commands.editor import EditorDisk
from seatwright.editor.asked.tokens import coloured
from seatwright.editor.texts.desk import Desk, OpenText
from seatwright.job.declarations import vocabulary
from seatwright.syntax.formatting.format import formatted
from tests.whole.shop import JOBS, ROOT

HELD = ("keyword", "property", "number", "string", "comment", "variable")
"""What a grammar without a parser has to know; names of the shop and choices it may pass over."""


def files() -> list[Path]:
    """Every demo and message file that is text."""
    every = [path for folder in (JOBS, ROOT / "tests" / "messages") for path in sorted(folder.glob("*.s*"))]
    return [path for path in every if path.name not in ("file-encoding.seat", "file-utf16.seat")]


def stretches(path: Path) -> Iterator[tuple[int, int, str, str]]:
    """Line and column (from 0, in characters), kind, and what stands there: of the lines that are in the canonical
    layout and have no error, on which alone a grammar can know what the parser knows."""
    text = OpenText(path.as_uri(), path.parent, path.name, path, path.read_text("utf-8"), 1)
    stands = Desk(EditorDisk()).worked_out(text)
    if stands.source is None:
        return
    laid = formatted(stands.source, vocabulary(stands.kind)).text.split("\n")
    typed = stands.source.as_typed()
    at_fault = {
        message.span.line for message in stands.messages if message.span is not None and message.severity == "error"
    }
    for each in coloured(stands):
        line, column = each.span.line - 1, each.span.column - 1
        if line + 1 in at_fault or line >= len(laid) or laid[line] != typed[line]:
            continue
        yield line, column, each.kind, typed[line][column : each.span.end_column - 1]
