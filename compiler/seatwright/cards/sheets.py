"""A card on its sheets: one where it fits, else split by valves, each sheet with its own head.

How many valves a sheet holds is a constant of card and paper, tried in both browsers; whatever is longer than the
constants foresee is broken by the browser, with the card's head above it again.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.cards.card import Card, CardTable, Column, Content
from seatwright.cards.paper import Paper

# Valves on the first sheet of a card and on each further one. 0 on the first: what is set up has a sheet of its own.
_WIDE: Mapping[str, tuple[int, int]] = {
    "as-found": (4, 6), "job": (99, 99), "guides": (20, 20), "setting": (8, 12), "press": (8, 16), "seat": (8, 16),
    "record": (11, 16),
}  # fmt: skip
_NARROW: Mapping[str, tuple[int, int]] = {
    "as-found": (0, 2), "job": (99, 99), "guides": (3, 8), "setting": (0, 4), "press": (0, 7), "seat": (0, 6),
    "record": (5, 8),
}  # fmt: skip

# The same of a card with two tables that have a row a valve.
_WIDE_WITH_ANOTHER: Mapping[str, tuple[int, int]] = {"guides": (8, 12), "seat": (5, 8)}
_NARROW_WITH_ANOTHER: Mapping[str, tuple[int, int]] = {"guides": (0, 4), "seat": (0, 4)}

# Valves on a setting card beside which the section of the pocket still has room; with more the rows take it.
_WITH_A_SECTION: Mapping[str, int] = {"a4": 4, "letter": 3, "a5": 2, "half-letter": 2}

_Groups = list[list[tuple[str, ...]]]


class Sheet(Struct, frozen=True):
    """One sheet of a card. part, of: which of how many; back: of the job sheet."""

    content: Content
    part: int = 1
    of: int = 1
    back: bool = False


def sheets(card: Card, paper: Paper) -> tuple[Sheet, ...]:
    """The sheets of a card; the back of a job sheet is the last."""
    content = card.content
    content = replace(content, tables=tuple(_folded(table, paper) for table in content.tables))
    crowded = len(card.valves) > _WITH_A_SECTION[paper.name]
    if card.name == "setting" and crowded:
        content = replace(content, drawings=())
    first, further = _per_sheet(card, paper)
    parts = list(_parts(replace(content, back=()), first, further))
    found = [Sheet(part, number, len(parts)) for number, part in enumerate(parts, start=1)]
    if content.back:
        found.append(Sheet(Content(lists=content.back), back=True))
    return tuple(found)


def _per_sheet(card: Card, paper: Paper) -> tuple[int, int]:
    """Valves on the first sheet and on each further one; with a second table of them, of guides or springs, fewer."""
    first, further = (_NARROW if paper.narrow else _WIDE)[card.name]
    another = _NARROW_WITH_ANOTHER if paper.narrow else _WIDE_WITH_ANOTHER
    if sum(table.by_valve for table in card.content.tables) > 1:
        return another.get(card.name, (first, further))
    return first, further


def _parts(content: Content, first: int, further: int) -> Iterator[Content]:
    grouped = [(table, _groups(table)) for table in content.tables]
    longest = max((len(groups) for table, groups in grouped if table.by_valve), default=0)
    if longest <= first or not longest:
        yield content
        return
    # What is set up goes first, what is said once all is measured goes last; each sheet has the loop that it needs. On
    # a sheet of bench steps all of the words go first, and further ones have the tables alone.
    in_boxes = {box.drawing for box in (*content.boxes, *content.first)}
    here = tuple(each for each in content.drawings if each.name in in_boxes)
    content = replace(content, drawings=tuple(each for each in content.drawings if each.name not in in_boxes))
    words = content if content.asks else replace(
        content, below=(), outcomes=(), drawings=here, last=(), lists=(), closing="",
    )  # fmt: skip
    yield replace(words, tables=_cut(grouped, 0, first), loop=content.loop if first else ())
    starts = range(first, longest, further)
    for start in starts:
        part = replace(
            content, tables=_cut(grouped, start, start + further), holds=(), facts=(), asks=(), boxes=(), care=(),
            first=(), fetch=(), signed=(),
        )  # fmt: skip
        if content.asks or start != starts[-1]:
            part = replace(part, below=(), outcomes=(), drawings=(), last=(), lists=(), closing="")
        yield part


def _cut(grouped: Sequence[tuple[CardTable, _Groups]], start: int, end: int) -> tuple[CardTable, ...]:
    found = (_rows(table, groups, start, end) for table, groups in grouped)
    return tuple(table for table in found if table.rows)


def _rows(table: CardTable, groups: _Groups, start: int, end: int) -> CardTable:
    if not table.by_valve:
        return table if start == 0 and end > 0 else replace(table, rows=())
    return replace(table, rows=tuple(row for group in groups[start:end] for row in group))


def _groups(table: CardTable) -> _Groups:
    """The rows of each valve."""
    found: _Groups = []
    for row in table.rows:
        if row[0] or not found:
            found.append([row])
        else:
            found[-1].append(row)
    return found


def _on_one_line(columns: Sequence[Column], column: Column) -> str:
    """The head of a column on one line: a word that was parted is whole again, and one without a name goes on with the
    column before it (`Stand 1`, `Stand 2`)."""
    if column.name.endswith("-"):
        return f"{column.name[:-1]}\u00ad{column.below}"
    place = next(index for index, each in enumerate(columns) if each is column)
    name = next((each.name for each in reversed(columns[: place + 1]) if each.name), "")
    return f"{name} {column.below}".strip()


def _folded(table: CardTable, paper: Paper) -> CardTable:
    """A table too wide for the paper with two lines or more a valve; nothing of it goes elsewhere."""
    key, *others = table.columns
    room = paper.room - key.width
    lines = math.ceil(sum(column.width for column in others) / room - 0.12)
    if lines < 2 or not table.by_valve:
        return table
    each = math.ceil(len(others) / lines)
    runs = [others[start : start + each] for start in range(0, len(others), each)]
    columns = [key]
    for place in range(each):
        stack = [run[place] for run in runs if place < len(run)]
        names = [_on_one_line(others, column) for column in stack]
        columns.append(Column(names[0], " / ".join(names[1:]), max(column.width for column in stack)))
    rows = []
    for row in table.rows:
        for number, start in enumerate(range(1, len(row), each)):
            cells = row[start : start + each]
            rows.append((row[0] if not number else "", *cells, *[""] * (each - len(cells))))
    return replace(table, columns=tuple(columns), rows=tuple(rows))
