"""What is worked out once and shipped: from the grammar the parser's tables, by Lark, and the units' worth, by pint.

    python -m seatwright.syntax.making > compiler/seatwright/syntax/made.py

renews it; a test says when it is stale. Where it is, what it holds is worked out anew from the files themselves, at
every run: that takes longer than all the rest of a short run, and reads nothing wrongly.
"""

from __future__ import annotations

import sys

from seatwright.syntax import made
from seatwright.syntax.numbers.units import text_of_units, worth_by_pint
from seatwright.text.shipped import shipped

STARTS = ("arguments", "cells")
"""The rules that a piece of a line may begin with."""

Tables = tuple[
    tuple[tuple[str, str], ...],
    tuple[tuple[str, int], ...],
    tuple[dict[str, int], ...],
    dict[str, tuple[int, int]],
]
"""Terminals with their patterns, in the order in which they are tried; rules with how much each takes; states, with the
state that a terminal or rule leads to, or below 0 the rule that is complete (-1 the first); where a start begins and
ends."""


def grammar_text() -> str:
    """The grammar as it stands in grammar/job.lark."""
    return shipped("seatwright.grammar", "job.lark").decode("utf-8")


def tables() -> Tables:
    """The shipped tables where they are of this grammar; else made anew."""
    text = grammar_text()
    if made.is_of(made.GRAMMAR_MARK, text):
        return made.PARSER_TABLES
    return tables_by_lark(text)


def tables_by_lark(text: str) -> Tables:
    """What Lark makes of the grammar. Every terminal stays in the tree: a grammar that drops one is refused."""
    from lark import Lark
    from lark.parsers.lalr_analysis import Shift

    lark = Lark(text, parser="lalr", lexer="basic", start=list(STARTS), maybe_placeholders=False)
    table = lark.parser.parser._parse_table
    for rule in lark.rules:
        assert rule.alias is None, rule
        assert not rule.options.expand1, rule
        assert not any(getattr(symbol, "filter_out", False) for symbol in rule.expansion), rule
    places = {rule: place for place, rule in enumerate(lark.rules)}
    # Lark numbers the states as its sets happen to lie; here they are numbered as they are met.
    met = [*(table.start_states[start] for start in STARTS)]
    for state in met:
        leads = sorted((name, to) for name, (action, to) in table.states[state].items() if action is Shift)
        met += [to for to in dict.fromkeys(to for _, to in leads) if to not in met]
    at = {state: place for place, state in enumerate(met)}
    states = tuple(
        {
            name: at[to] if action is Shift else -1 - places[to]
            for name, (action, to) in sorted(table.states[state].items())
        }
        for state in met
    )
    ordered = sorted(
        lark.terminals,
        key=lambda each: (-each.priority, -each.pattern.max_width, -len(each.pattern.value), each.name),
    )
    return (
        tuple((each.name, each.pattern.to_regexp()) for each in ordered),
        tuple((str(rule.origin.name), len(rule.expansion)) for rule in lark.rules),
        states,
        {start: (at[table.start_states[start]], at[table.end_states[start]]) for start in STARTS},
    )


def module() -> str:
    """The text of `made.py`."""
    import pprint

    grammar, units = grammar_text(), text_of_units()
    parts = {
        "GRAMMAR_MARK": made.mark(grammar),
        "UNITS_MARK": made.mark(units),
        "WORTH": worth_by_pint(),
        "PARSER_TABLES": tables_by_lark(grammar),
    }
    types = {
        "GRAMMAR_MARK": "int",
        "UNITS_MARK": "int",
        "WORTH": "dict[str, tuple[tuple[int, int], tuple[int, int]]]",
        "PARSER_TABLES": "tuple[\n    tuple[tuple[str, str], ...], tuple[tuple[str, int], ...], "
        "tuple[dict[str, int], ...], dict[str, tuple[int, int]]\n]",
    }
    values = (
        f"{name}: {types[name]} = {pprint.pformat(value, width=118, compact=True, sort_dicts=False)}\n"
        for name, value in parts.items()
    )
    return _HEAD + "\n".join(values)


_HEAD = '''"""Made by `python -m seatwright.syntax.making`; do not edit.

From grammar/job.lark the parser's tables, from grammar/units.txt what the units are worth; and marks of the two files
by which is told whether it is still of them.
"""

# fmt: off
# ruff: noqa: E501

from zlib import crc32


def mark(text: str) -> int:
    """By which a text is told from an earlier one."""
    return crc32(text.encode("utf-8"))


def is_of(made_from: int, text: str) -> bool:
    """Whether what was made from a text of this mark is still of the text."""
    return mark(text) == made_from


'''

if __name__ == "__main__":
    sys.stdout.write(module())
