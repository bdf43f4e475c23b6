"""The parser of one line, by the tables that Lark makes of grammar/job.lark (making.py).

Lark itself is not loaded for it, which would take as long as reading a job. The line is cut into tokens here, the
terminals that the parser can take next tried one by one. A test holds the two against each other.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Container, Iterator
from functools import cache, lru_cache

from seatwright.syntax.making import tables
from seatwright.syntax.tokens import Token, Tree

ARGUMENTS = "arguments"
CELLS = "cells"

_NO_BLANK = re.compile(r"[^ \t]")
_END = "$END"


class Unread(Exception):
    """Something stands on a piece of a line that no rule takes there; at: where it begins, from 0."""

    def __init__(self, at: int) -> None:
        super().__init__(at)
        self.at = at


_made = cache(tables)


@lru_cache(4096)
def read_piece(line: str, start: str) -> list[Token | Tree]:
    """What stands on a piece of a line, from left to right; `start` is ARGUMENTS or CELLS.

    Raises Unread where a mark stands behind a measure that is complete (`1 to 2 to 3`); everything else has a rule.
    """
    if start == CELLS and "=" not in line:
        # The cells of a row stand side by side; only `=` makes one of two.
        return list(_tokens(line, _at_first(CELLS)))
    if start == ARGUMENTS and (alone := _alone(line)) is not None:
        return [alone]
    return _parsed(line, start)


def _parsed(line: str, start: str) -> list[Token | Tree]:
    """By the tables, bottom up: a token is put on a pile, or what lies on it is a rule that is complete."""
    _, rules, states, starts = _made()
    begin, end = starts[start]
    on = [begin]
    pile: list[Token | Tree | list[Token | Tree]] = []

    def complete(rule: int) -> None:
        name, takes = rules[rule]
        found: list[Token | Tree] = []
        for part in pile[len(pile) - takes :]:
            if isinstance(part, list):
                found.extend(part)
            else:
                found.append(part)
        del pile[len(pile) - takes :], on[len(on) - takes :]
        # What a rule whose name begins with a line found belongs to the rule above it.
        pile.append(found if name[0] == "_" or name == start else Tree(name, tuple(found)))
        on.append(states[on[-1]][name])

    for token in _tokens(line, lambda: states[on[-1]]):
        while (to := states[on[-1]].get(token.type, _NOWHERE)) < 0:
            if to == _NOWHERE:
                raise Unread(token.start_pos)
            complete(-1 - to)
        on.append(to)
        pile.append(token)
    while on[-1] != end:
        complete(-1 - states[on[-1]][_END])
    whole = pile[-1]
    assert isinstance(whole, list)
    return whole


_NOWHERE = -1_000_000


def _alone(line: str) -> Token | Tree | None:
    """The one thing on a piece of a line, for which no table is needed; None where it is a mark, or not alone."""
    first = next(_tokens(line, _at_first(ARGUMENTS)), None)
    if first is None or first.end_pos != len(line.rstrip(" \t")):
        return None
    if first.type in _FIGURES:
        return Tree("single", (first,))
    return None if first.type == "PLUS_MINUS" else first


_FIGURES = frozenset(("QUANTITY", "SIGNED", "ZERO"))


@cache
def _at_first(start: str) -> Callable[[], Container[str]]:
    _, _, states, starts = _made()
    choices = states[starts[start][0]]
    return lambda: choices


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
                yield Token(name, line[at:end], at, end)
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
    every_terminal = tuple((name, re.compile(pattern).match) for name, pattern in _made()[0])
    return every_terminal, tuple(each for each in every_terminal if each[0] in _WORDS)
