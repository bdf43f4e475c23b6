"""The parser of one line, built once from grammar/job.lark."""

from __future__ import annotations

import io
import pickle
import sys
from functools import cache
from importlib import resources

import lark
from lark import Lark, Token, Tree

from seatwright.text.kept import kept

ARGUMENTS = "arguments"
CELLS = "cells"


def text() -> str:
    """The grammar as it stands in grammar/job.lark."""
    return resources.files("seatwright.grammar").joinpath("job.lark").read_text(encoding="utf-8")


@cache
def parser() -> Lark:
    """The parser, with both start rules; made ready at the first line that is read.

    Its tables are kept from one run to the next: building them is a third of a short run.
    """
    made_from = f"Lark {lark.__version__}, Python {sys.version_info[:2]}\n{text()}"
    return Lark.load(kept("parser-tables", made_from, _tables))


def _tables() -> dict[str, object]:
    """The tables as Lark writes them down, which is in plain numbers, texts and lists."""
    built = Lark(text(), parser="lalr", lexer="contextual", start=[ARGUMENTS, CELLS], maybe_placeholders=False)
    written = io.BytesIO()
    built.save(written)
    tables: dict[str, object] = pickle.loads(written.getvalue())
    return tables


def read(line: str, start: str) -> list[Token | Tree[Token]]:
    """What stands on a piece of a line, from left to right; `start` is ARGUMENTS or CELLS.

    Raises lark.exceptions.UnexpectedInput where a mark stands behind a measure that is complete
    (`1 to 2 to 3`); everything else has a rule.
    """
    return parser().parse(line, start=start).children
