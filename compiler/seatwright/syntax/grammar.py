"""The parser of one line, built once from grammar/job.lark.

The tables are Lark's; the line is cut into tokens here, the terminals that the parser can take next tried one by one.
Lark's own contextual lexer does the same with one large pattern for each state of the parser, and compiling those took
a fifth of a short run. A test holds the two against each other.
"""

from __future__ import annotations

import io
import pickle
import re
import sys
from collections.abc import Callable, Container, Iterator
from functools import cache, lru_cache
from typing import Any

import lark
from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedToken

from seatwright.text.kept import kept
from seatwright.text.shipped import shipped

ARGUMENTS = "arguments"
CELLS = "cells"

_NO_BLANK = re.compile(r"[^ \t]")
_END = Token("$END", "")
# The lexer is never used: see _tokens.
_OPTIONS: dict[str, Any] = {
    "parser": "lalr",
    "lexer": "basic",
    "start": [ARGUMENTS, CELLS],
    "maybe_placeholders": False,
}


class Unread(Exception):
    """Something stands on a piece of a line that no rule takes there; at: where it begins, from 0."""

    def __init__(self, at: int) -> None:
        super().__init__(at)
        self.at = at


def grammar_text() -> str:
    """The grammar as it stands in grammar/job.lark."""
    return shipped("seatwright.grammar", "job.lark").decode("utf-8")


@cache
def _parser() -> Lark:
    """The parser, with both start rules; made ready at the first line that is read.

    Its tables are kept from one run to the next: building them is a third of a short run.
    """
    made_from = f"Lark {lark.__version__}, Python {sys.version_info[:2]}, {_OPTIONS}\n{grammar_text()}"
    return Lark.load(kept("parser-tables", made_from, _tables))


def _tables() -> dict[str, object]:
    """The tables as Lark writes them down, which is in plain numbers, texts and lists."""
    built = Lark(grammar_text(), **_OPTIONS)
    written = io.BytesIO()
    built.save(written)
    tables: dict[str, object] = pickle.loads(written.getvalue())
    return tables


@lru_cache(4096)
def read_piece(line: str, start: str) -> list[Token | Tree[Token]]:
    """What stands on a piece of a line, from left to right; `start` is ARGUMENTS or CELLS.

    Raises Unread where a mark stands behind a measure that is complete (`1 to 2 to 3`); everything else has a rule.
    """
    if start == CELLS and "=" not in line:
        # The cells of a row stand side by side; only `=` makes one of two.
        return list(_tokens(line, _at_first(CELLS)))
    if start == ARGUMENTS and (alone := _alone(line)) is not None:
        return [alone]
    state = _parser().parse_interactive(start=start)
    for token in _tokens(line, state.choices):
        try:
            state.feed_token(token)
        except UnexpectedToken:
            raise Unread(token.start_pos or 0) from None
    tree: Tree[Token] = state.feed_token(_END)
    return tree.children


def _alone(line: str) -> Token | Tree[Token] | None:
    """The one thing on a piece of a line, for which no table is needed; None where it is a mark, or not alone."""
    first = next(_tokens(line, _at_first(ARGUMENTS)), None)
    if first is None or first.end_pos != len(line.rstrip(" \t")):
        return None
    if first.type in _FIGURES:
        return Tree("single", [first])
    return None if first.type == "PLUS_MINUS" else first


_FIGURES = frozenset(("QUANTITY", "SIGNED", "ZERO"))


@cache
def _at_first(start: str) -> Callable[[], Container[str]]:
    return _parser().parse_interactive(start=start).choices


def _tokens(line: str, choices: Callable[[], Container[str]]) -> Iterator[Token]:
    """The tokens of a piece of a line. choices: the terminals that may stand next. Raises Unread where none does."""
    every_terminal, those_of_words = _terminals()
    at = 0
    while (begin := _NO_BLANK.search(line, at)) is not None:
        at = begin.start()
        allowed = choices()
        for name, match in every_terminal if begin.group() in _BEGINS_FIGURE else those_of_words:
            if name in allowed and (read := match(line, at)) is not None:
                end = read.end()
                yield Token(name, line[at:end], at, None, None, None, None, end)
                at = end
                break
        else:
            raise Unread(at)


# Nothing else begins with one of these: no figure, date or dash is looked for where a word begins.
_BEGINS_FIGURE = frozenset("0123456789.+-±")
_WORDS = frozenset(("TO", "EQUALS", "WORD", "TEXT", "TEXT_OPEN"))

_Terminals = tuple[tuple[str, Callable[[str, int], re.Match[str] | None]], ...]


@cache
def _terminals() -> tuple[_Terminals, _Terminals]:
    """The terminals of the grammar, and those of words, in the order in which they are tried: that of Lark's lexers."""
    ordered = sorted(
        _parser().terminals,
        key=lambda each: (-each.priority, -each.pattern.max_width, -len(each.pattern.value), each.name),
    )
    every_terminal = tuple((each.name, re.compile(each.pattern.to_regexp()).match) for each in ordered)
    return every_terminal, tuple(each for each in every_terminal if each[0] in _WORDS)
