"""The parser of one line, built once from grammar/job.lark."""

from __future__ import annotations

import sys
from functools import cache
from importlib import resources
from importlib.util import cache_from_source
from pathlib import Path

from lark import Lark, Token, Tree

ARGUMENTS = "arguments"
CELLS = "cells"


def text() -> str:
    """The grammar as it stands in grammar/job.lark."""
    return resources.files("seatwright.grammar").joinpath("job.lark").read_text(encoding="utf-8")


@cache
def parser() -> Lark:
    """The parser, with both start rules; built at the first line that is read."""
    return Lark(
        text(),
        parser="lalr",
        lexer="contextual",
        start=[ARGUMENTS, CELLS],
        maybe_placeholders=False,
        cache=_beside_the_byte_code(),
    )


def _beside_the_byte_code() -> str | bool:
    """Where the tables of the parser are kept between two runs: with Python's byte code, and under the same rules.

    Building them is a third of a short run. Lark builds them anew when the grammar, Lark or Python has changed, and
    goes without where the folder cannot be written.
    """
    if sys.dont_write_bytecode:
        return False
    return str(Path(cache_from_source(__file__)).with_name("job.lark.tables"))


def read(line: str, start: str) -> list[Token | Tree[Token]]:
    """What stands on a piece of a line, from left to right; `start` is ARGUMENTS or CELLS.

    Raises lark.exceptions.UnexpectedInput where a mark stands behind a measure that is complete
    (`1 to 2 to 3`); everything else has a rule.
    """
    return parser().parse(line, start=start).children
