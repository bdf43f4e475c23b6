"""A valve that stands in one row and nowhere else: most often another one's row under a wrong name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct

from seatwright.job.typed import names
from seatwright.job.wording.of_valves import valve_alone
from seatwright.syntax import tree
from seatwright.syntax.tree import Word
from seatwright.text import Message, Span


class Mention(Struct, frozen=True):
    """A valve in a row. table: the word of its section and its columns; tables that have both are one."""

    valve: str
    span: Span
    table: tuple[str, ...]


def mentions(section: tree.Section) -> Iterator[Mention]:
    """The valves that the rows of a section begin with; of `spacing` both of a pair."""
    if section.name in ("holes", "trial"):
        return
    for table in section.tables:
        # Of one valve each section has columns of its own: together they are one table.
        columns = sorted(table.columns) if section.valve is None else ()
        for row in table.rows:
            yield from _of_row(row, 1, (section.name, *columns))
    for row in section.rows:
        yield from _of_row(row, 2, (section.name,))


def _of_row(row: tree.Row, cells: int, table: tuple[str, ...]) -> Iterator[Mention]:
    for cell in row.cells[:cells]:
        if isinstance(cell, Word) and names.is_valve(cell.text):
            yield Mention(cell.text.upper(), cell.span, table)


def alone(rows: Iterable[Mention], elsewhere: Iterable[str]) -> Iterator[Message]:
    """A warning for each valve of one head that has one row while others of its kind lack theirs in that table.

    elsewhere: the valves that something else names, a `valves` line, a note or a hold.
    """
    places: dict[str, list[Mention]] = {}
    of_table: dict[tuple[str, ...], set[str]] = {}
    for mention in rows:
        places.setdefault(mention.valve, []).append(mention)
        of_table.setdefault(mention.table, set()).add(mention.valve)
    named = set(elsewhere)
    of_kind = {kind: [valve for valve in places if names.valve_parts(valve)[0] == kind] for kind in _KINDS}
    lacks = {
        (table, kind): sorted((valve for valve in there if valve not in here), key=names.valve_order)[:_MOST_NAMED]
        for table, here in of_table.items()
        for kind, there in of_kind.items()
    }
    said: set[tuple[str, str]] = set()
    # Of two that each lack the other's row the later one is the slip.
    for valve, here in sorted(places.items(), key=lambda each: each[1][0].span, reverse=True):
        if len(here) > 1 or valve in named:
            continue
        row = here[0]
        lacking = [other for other in lacks[row.table, names.valve_parts(valve)[0]] if (other, valve) not in said]
        if lacking:
            said |= {(valve, other) for other in lacking}
            yield valve_alone(row.span, valve, row.table[0], lacking, places[lacking[0]][0].span)


_KINDS = ("intake", "exhaust")
_MOST_NAMED = 3
