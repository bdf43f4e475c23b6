"""Which insert goes to which valve: one choice over all valves of all heads, since there is one stock (handbook 4).

Served valves come first, then few sizes in a set, then small ods. Two valves whose bores would leave too thin a bridge
between them cannot both have what they were given: in every choice that is allowed one of the two has a smaller bore.
So both ways are followed, the better first, until a choice without such a pair is found (branch and bound). That is
exact; a search that would take more than `MOST_BRANCHES` choices is given up, which is said.
"""

from __future__ import annotations

import heapq
from collections.abc import Mapping, Sequence

from msgspec import Struct

from seatwright.handbook.assignment import SetAssignment, assign_sets
from seatwright.planning.serves.candidates import Candidate

MOST_BRANCHES = 400
"""Choices that are tried for thin bridges before the search is given up."""

MOST_TRIALS = 20_000
"""Sets of sizes that one choice tries before it is given up."""

_NM = 1_000_000
_SLACK = 1e-9


class ToServe(Struct, frozen=True):
    """A valve that gets an insert: the candidates that serve it alone, and the set that should have one size."""

    valve: str
    candidates: tuple[Candidate, ...]
    in_set: tuple[object, ...] | None = None


class ThinPair(Struct, frozen=True):
    """Two valves of which the larger bores together must stay below `room` [mm]: bore 1 + bore 2 ≤ room."""

    first: str
    second: str
    room: float


class Choice(Struct, frozen=True):
    """What each valve gets, None for one that went without; left_thin: pairs that the search could not part."""

    chosen: Mapping[str, Candidate | None]
    exact: bool
    left_thin: tuple[ThinPair, ...] = ()


def choose(rows: Sequence[ToServe], on_hand: Mapping[int, int | None], pairs: Sequence[ThinPair]) -> Choice:
    """Share the stock out.

    on_hand : pieces of each insert by its place in the stock, None where they are not counted
    """
    problem = _Problem(rows, on_hand)
    waiting: list[tuple[tuple[int, ...], int, dict[str, float], SetAssignment]] = []
    tried = 0

    def push(limits: dict[str, float]) -> None:
        nonlocal tried
        tried += 1
        worth, found = problem.solve(limits)
        heapq.heappush(waiting, (worth, tried, limits, found))

    push({})
    exact = True
    while True:
        _, _, limits, found = heapq.heappop(waiting)
        chosen = problem.chosen(found)
        bores = {
            valve: one.bore.most.value for valve, one in chosen.items() if one is not None and one.bore is not None
        }
        thin = tuple(pair for pair in pairs if _is_thin(pair, bores))
        if not thin or tried >= MOST_BRANCHES:
            return Choice(chosen, exact and found.exact and not thin, thin)
        exact = exact and found.exact
        for valve in (thin[0].first, thin[0].second):
            bore = bores[valve]
            push({**limits, valve: min(limits.get(valve, bore), bore)})


class _Problem:
    """The assignment of a number of rows to the inserts that any of them can take."""

    def __init__(self, rows: Sequence[ToServe], on_hand: Mapping[int, int | None]) -> None:
        self.rows = rows
        self.columns = sorted({_column(row, one) for row in rows for one in row.candidates})
        self.on_hand = [on_hand.get(column[0], None) if column[0] >= 0 else 1 for column in self.columns]
        place = {column: at for at, column in enumerate(self.columns)}
        self.places = [{place[_column(row, one)]: one for one in row.candidates} for row in rows]
        sets: dict[tuple[object, ...], list[int]] = {}
        for at, row in enumerate(rows):
            if row.in_set is not None and row.candidates:
                sets.setdefault(row.in_set, []).append(at)
        self.sets = [members for members in sets.values() if len(members) > 1]

    def solve(self, limits: Mapping[str, float]) -> tuple[tuple[int, ...], SetAssignment]:
        """The best choice in which the bore of each valve in `limits` stays below its limit, and its worth."""
        costs: list[list[int | None]] = []
        for row, places in zip(self.rows, self.places, strict=True):
            below = limits.get(row.valve)
            line: list[int | None] = [None] * len(self.columns)
            for column, one in places.items():
                if below is None or one.bore is None or one.bore.most.value < below - _SLACK:
                    line[column] = round(one.offer.od.value * _NM)
            costs.append(line)
        found = assign_sets(costs, self.on_hand, self.sets, MOST_TRIALS)
        return _worth(costs, found), found

    def chosen(self, found: SetAssignment) -> dict[str, Candidate | None]:
        """The candidate of each valve."""
        return {
            row.valve: None if column is None else places[column]
            for row, places, column in zip(self.rows, self.places, found.columns, strict=True)
        }


def _worth(costs: Sequence[Sequence[int | None]], found: SetAssignment) -> tuple[int, ...]:
    """By what choices are compared, the best least: most valves served, few sizes in sets, a small sum of the ods."""
    total = 0
    for line, column in zip(costs, found.columns, strict=True):
        cost = None if column is None else line[column]
        total += 0 if cost is None else cost
    return -found.served, found.sizes, total


def _column(row: ToServe, candidate: Candidate) -> tuple[int, str]:
    """The stock's place of an insert; one that the stock does not list belongs to its valve alone."""
    if candidate.offer.stock is None:
        return (-1, row.valve)
    return (candidate.offer.stock, "")


def _is_thin(pair: ThinPair, bores: Mapping[str, float]) -> bool:
    """Whether both are bored, and too large for the metal between them."""
    return pair.first in bores and pair.second in bores and bores[pair.first] + bores[pair.second] > pair.room + _SLACK
