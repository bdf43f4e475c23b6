"""Which insert goes to which valve: one choice over all valves of all heads, since there is one stock (handbook 4).

Served valves come first, then few sizes in a set, then small ods. Two valves whose bores would leave too thin a bridge
between them cannot both have what they were given: in every choice that is allowed one of the two has a smaller bore.

Valves that share neither an insert nor a thin bridge are chosen for apart, and inserts that nobody needs are left out.
Then a short search: both ways about each thin bridge are followed, the better first, until a choice without one is
found (branch and bound). That is exact; where it would take long, a solver is asked (`solver.py`), if it is installed.
Else the search goes on, and is given up at last; then that is said.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator, Mapping, Sequence
from types import ModuleType

from msgspec import Struct

from seatwright.handbook.assignment import SetAssignment, assign, assign_sets, assign_sets_proved
from seatwright.handbook.short_stock import worth_keeping
from seatwright.planning.inserts.solver import Short, hint, installed
from seatwright.planning.serves.candidates import Candidate

_NM = 1_000_000
_SLACK = 1e-9


class _Effort(Struct, frozen=True):
    """How much is tried before a search is given up.

    branches : choices about thin bridges. trials : sets of sizes of one choice. cells : valves times inserts times
    trials, which is what they take
    """

    branches: int
    trials: int
    cells: int


_SHORT = _Effort(16, 20_000, 200_000)
_LONG = _Effort(400, 20_000, 1_000_000)


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
    chosen: dict[str, Candidate | None] = {}
    exact = True
    left_thin: list[ThinPair] = []
    for part, between in _parts(rows, _can_be_thin(rows, pairs)):
        found = _choice(_Problem(part, on_hand, between))
        chosen.update(found.chosen)
        exact = exact and found.exact
        left_thin += found.left_thin
    return Choice({row.valve: chosen[row.valve] for row in rows}, exact, tuple(left_thin))


def _can_be_thin(rows: Sequence[ToServe], pairs: Sequence[ThinPair]) -> list[ThinPair]:
    """The pairs that are too large for the metal between them with some insert that serves them."""
    largest = {row.valve: max((one.largest_bore or 0.0 for one in row.candidates), default=0.0) for row in rows}
    return [
        pair
        for pair in pairs
        if pair.first in largest and pair.second in largest and largest[pair.first] and largest[pair.second]
        if largest[pair.first] + largest[pair.second] > pair.room + _SLACK
    ]


def _parts(rows: Sequence[ToServe], pairs: Sequence[ThinPair]) -> Iterator[tuple[list[ToServe], list[ThinPair]]]:
    """Valves that share an insert or a bridge, and those that share with them, and so on; each in the job's order."""
    leads: dict[object, object] = {}

    def root(of: object) -> object:
        while leads.setdefault(of, of) != of:
            leads[of] = of = leads[leads[of]]
        return of

    for row in rows:
        for one in row.candidates:
            leads[root(_column(row, one))] = root(row.valve)
    for pair in pairs:
        leads[root(pair.first)] = root(pair.second)
    parts: dict[object, tuple[list[ToServe], list[ThinPair]]] = {}
    for row in rows:
        parts.setdefault(root(row.valve), ([], []))[0].append(row)
    for pair in pairs:
        parts[root(pair.first)][1].append(pair)
    yield from parts.values()


def _choice(problem: _Problem) -> Choice:
    """A short search for a choice that is proved, then the solver; a long search, or what there is of the short one,
    where neither proves one."""
    found = problem.proved()
    if found is not None:
        return found
    solver = installed()
    if solver is None:
        return problem.searched(_LONG)
    asked = problem.asked(solver)
    if asked is not None and asked.exact:
        return asked
    found = problem.searched(_SHORT)
    return found if asked is None else min(asked, found, key=problem.worth)


class _NotProved(Exception):
    """A search was given up."""


class _Problem:
    """The assignment of a number of rows to the inserts that any of them can take and that are worth looking at."""

    def __init__(self, rows: Sequence[ToServe], on_hand: Mapping[int, int | None], pairs: Sequence[ThinPair]) -> None:
        self.rows, self.pairs = rows, pairs
        columns = sorted({_column(row, one) for row in rows for one in row.candidates})
        place = {column: at for at, column in enumerate(columns)}
        places = [{place[_column(row, one)]: one for one in row.candidates} for row in rows]
        pieces = [on_hand.get(column[0], None) if column[0] >= 0 else 1 for column in columns]
        limited = {valve for pair in pairs for valve in (pair.first, pair.second)}
        keep = worth_keeping(
            [[_cost(each.get(at)) for at in range(len(columns))] for each in places],
            pieces,
            [
                [_bore(each.get(at)) if row.valve in limited else None for at in range(len(columns))]
                for row, each in zip(rows, places, strict=True)
            ],
        )
        self.on_hand = [pieces[at] for at in keep]
        self.candidates = [[each.get(at) for at in keep] for each in places]
        self.costs = [[_cost(one) for one in line] for line in self.candidates]
        self.bores = [[_bore(one) for one in line] for line in self.candidates]
        sets: dict[tuple[object, ...], list[int]] = {}
        for at, row in enumerate(rows):
            if row.in_set is not None and row.candidates:
                sets.setdefault(row.in_set, []).append(at)
        self.sets = [members for members in sets.values() if len(members) > 1]

    def proved(self) -> Choice | None:
        """The choice that a short search proves; None where it is given up, before time is spent on a poorer one."""

        def sure(costs: Sequence[Sequence[int | None]], trials: int) -> SetAssignment:
            found = assign_sets_proved(costs, self.on_hand, self.sets, trials)
            if found is None:
                raise _NotProved
            return found

        try:
            found = self._search(_SHORT, sure)
        except _NotProved:
            return None
        return found if found.exact else None

    def searched(self, effort: _Effort) -> Choice:
        """The best choice that is found with so much effort."""
        return self._search(effort, lambda costs, trials: assign_sets(costs, self.on_hand, self.sets, trials))

    def _search(
        self, effort: _Effort, share_out: Callable[[Sequence[Sequence[int | None]], int], SetAssignment]
    ) -> Choice:
        """Branch and bound over the thin bridges. share_out : of costs, and the sets of sizes that may be tried"""
        waiting: list[tuple[tuple[int, ...], int, dict[str, float], SetAssignment]] = []
        cells = len(self.costs) * len(self.on_hand) + 1
        tried = 0

        def push(limits: dict[str, float]) -> None:
            nonlocal tried
            trials = min(effort.trials, effort.cells // cells // (8 if tried else 1))
            tried += 1
            costs = self._below(limits)
            found = share_out(costs, trials)
            heapq.heappush(waiting, (_worth(costs, found), tried, limits, found))

        push({})
        exact = True
        while True:
            _, _, limits, found = heapq.heappop(waiting)
            exact = exact and found.exact
            chosen = self._chosen(found.columns)
            bores = {valve: bore for valve, one in chosen.items() if (bore := _bore(one)) is not None}
            thin = tuple(pair for pair in self.pairs if _is_thin(pair, bores))
            if not thin or tried >= effort.branches or (effort is _SHORT and not exact):
                return Choice(chosen, exact and not thin, thin)
            for valve in (thin[0].first, thin[0].second):
                push({**limits, valve: min(limits.get(valve, bores[valve]), bores[valve])})

    def asked(self, solver: ModuleType) -> Choice | None:
        """The choice on what the solver hints at; None where it does not know."""
        at = {row.valve: place for place, row in enumerate(self.rows)}
        apart = [(at[pair.first], at[pair.second], pair.room) for pair in self.pairs]
        free = assign(self.costs, self.on_hand)
        told = hint(solver, Short(self.costs, self.bores, self.on_hand, self.sets, apart), free)
        if told is None:
            return None
        narrowed = [
            [cost if column in allowed else None for column, cost in enumerate(line)]
            for line, allowed in zip(self.costs, map(frozenset, told.columns), strict=True)
        ]
        return Choice(self._chosen(assign(narrowed, self.on_hand).columns), told.proved)

    def worth(self, choice: Choice) -> tuple[int, ...]:
        """By what choices are compared, the best least: no thin bridge, most served, few sizes, small ods."""
        places = [
            next((at for at, one in enumerate(line) if one is not None and one is choice.chosen[row.valve]), None)
            for row, line in zip(self.rows, self.candidates, strict=True)
        ]
        sizes = sum(len({places[row] for row in rows} - {None}) for rows in self.sets)
        found = SetAssignment(tuple(places), sum(at is not None for at in places), sizes, choice.exact)
        return len(choice.left_thin), *_worth(self.costs, found)

    def _below(self, limits: Mapping[str, float]) -> list[list[int | None]]:
        """The costs, where the bore of each valve in `limits` stays below its limit."""
        costs = list(self.costs)
        for at, row in enumerate(self.rows):
            below = limits.get(row.valve)
            if below is not None:
                costs[at] = [
                    cost if bore is None or bore < below - _SLACK else None
                    for cost, bore in zip(self.costs[at], self.bores[at], strict=True)
                ]
        return costs

    def _chosen(self, columns: Sequence[int | None]) -> dict[str, Candidate | None]:
        """The candidate of each valve."""
        return {
            row.valve: None if column is None else line[column]
            for row, line, column in zip(self.rows, self.candidates, columns, strict=True)
        }


def _cost(one: Candidate | None) -> int | None:
    return None if one is None else round(one.offer.od.value * _NM)


def _bore(one: Candidate | None) -> float | None:
    return None if one is None or one.bore is None else one.bore.most.value


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
