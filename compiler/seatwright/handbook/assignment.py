"""Which insert goes to which valve when the stock is finite: one exact choice over all valves.

Valves are rows, inserts columns. As many valves as possible are served, then the total cost is least, then
the earliest valve gets the lowest column. Costs are whole numbers, or tuples of them compared first to last
and added place by place, so nothing is lost to rounding.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from math import comb

from msgspec import Struct

from seatwright.handbook.short_stock import sizes_at_least, whole_lots
from seatwright.handbook.transport import Cost, Transport


class Assignment(Struct, frozen=True):
    """The choice: a column for each row, or None for a valve that gets no insert; and how many are served."""

    columns: tuple[int | None, ...]
    served: int


class SetAssignment(Struct, frozen=True):
    """A choice with few sizes in each set.

    columns, served : as `Assignment`
    sizes : different inserts in each set, added over the sets
    exact : False when the search was given up; the choice then serves as many, but fewer sizes may do
    """

    columns: tuple[int | None, ...]
    served: int
    sizes: int
    exact: bool


def assign(costs: Sequence[Sequence[Cost | None]], on_hand: Sequence[int | None]) -> Assignment:
    """Share a finite stock out among the valves.

    Most valves served comes first, least total cost second; of equal choices the one is taken in which the
    first valve has the lowest column, then the second, and so on.

    costs : a row for each valve, a column for each insert; None where the insert does not fit
    [whole numbers, or tuples of equal length]
    on_hand : pieces of each insert [pieces], None where they are not counted
    Returns : a column or None for each row, and the number of valves served [pieces]

    Exact for any size: successive shortest augmenting paths over the columns, valves of equal cost taken
    together, in whole numbers. Work grows at most as rows² × columns, as a rule far less.
    Errors : ValueError for a ragged table, costs of different length, or negative pieces.
    Source : the transportation problem by shortest augmenting paths, an operations-research textbook, from memory.

    >>> assign([[1, 5], [1, 2], [1, None]], [1, None]).columns
    (1, 1, 0)
    """
    problem = Transport(costs, on_hand)
    problem.serve_all()
    return _settled(problem)


def _settled(problem: Transport) -> Assignment:
    problem.settle_ties()
    return Assignment(tuple(None if at == problem.none else at for at in problem.place), problem.served())


def assign_sets(
    costs: Sequence[Sequence[Cost | None]],
    on_hand: Sequence[int | None],
    sets: Sequence[Sequence[int]],
    most_trials: int = 3_000,
) -> SetAssignment:
    """Share a finite stock out so that each set of valves gets as few different inserts as possible.

    Most valves served comes first, as in `assign`; then fewest different inserts, counted in each set and
    added over the sets; then least total cost. Of equal choices the first found is taken, lower columns
    being tried first.

    costs, on_hand : as `assign` [whole numbers or tuples; pieces]
    sets : rows that should share one size [places in `costs`]; rows in no set are free
    most_trials : how many choices of inserts may be tried before the search is given up [-]
    Returns : the choice, its number of sizes [-], and whether the search was completed

    Method: every set alone, trying one insert, then two, and so on; where those choices together are in stock
    they are the answer, since no set can do better than alone. Else all sets together by branch and bound,
    each node an exact `assign` with the sets not yet decided left free, which is a bound. This is exact, but
    the work can grow as columns^sizes: good for a few sets that need one or two sizes each out of some dozens
    of inserts that fit. When given up, the choice of `assign` is the answer where it needs no more sizes than
    `sizes_at_least` says; or else that of `whole_lots`, where it needs no more than that and costs no more than
    the choice of `assign`. Else `exact` is False and the best choice found so far is handed back; or else that
    of `assign`, or one on the fullest sizes or of whole lots, from which sizes were struck out one by one as
    long as no valve lost its insert: it serves as many valves, with perhaps too many sizes.
    Errors : ValueError as `assign`, and for a row in two sets.
    Source : branch and bound; derived here.

    Alone, each valve would take its cheapest; together the set takes the second insert:

    >>> assign_sets([[1, 3, 9], [9, 3, 1]], [None, None, None], [[0, 1]]).columns
    (1, 1)
    """
    return _SetSearch(costs, on_hand, sets, most_trials).result()


def assign_sets_proved(
    costs: Sequence[Sequence[Cost | None]],
    on_hand: Sequence[int | None],
    sets: Sequence[Sequence[int]],
    most_trials: int = 3_000,
) -> SetAssignment | None:
    """As `assign_sets`, but None where the search was given up: no time is spent on a choice that is not proved.

    costs, on_hand, sets, most_trials : as `assign_sets` [whole numbers or tuples; pieces; places in `costs`; -]
    Returns : the choice of `assign_sets` where it is exact, else None
    Errors : as `assign_sets`.
    Source : as `assign_sets`.

    >>> assign_sets_proved([[1, 3, 9], [9, 3, 1]], [None, None, None], [[0, 1]]).columns
    (1, 1)
    """
    return _SetSearch(costs, on_hand, sets, most_trials).proved()


class _GivenUp(Exception):
    """The number of trials is used up."""


class _SetSearch:
    def __init__(
        self,
        costs: Sequence[Sequence[Cost | None]],
        on_hand: Sequence[int | None],
        sets: Sequence[Sequence[int]],
        most_trials: int,
    ) -> None:
        rows = [row for group in sets for row in group]
        if len(rows) != len(set(rows)):
            raise ValueError("a valve stands in two sets; it can have one insert only")
        self.costs, self.on_hand, self.sets = costs, on_hand, sets
        self.left = most_trials
        self.free = assign(costs, on_hand)
        self.best: Assignment | None = None
        self.best_cost: tuple[int, ...] | None = None

    def result(self) -> SetAssignment:
        """The proved choice, or else the best that is at hand."""
        proved = self.proved()
        if proved is not None:
            return proved
        found = self.best or self._thinned()
        return SetAssignment(found.columns, found.served, self._sizes(found), False)

    def proved(self) -> SetAssignment | None:
        """The best choice; None where the search was given up."""
        try:
            alone = [self._alone(rows) for rows in self.sets]
            if not self._join(alone):
                self._all_together(alone)
        except _GivenUp:
            return self._least_of_both()
        assert self.best is not None
        return SetAssignment(self.best.columns, self.best.served, self._sizes(self.best), True)

    def _least_of_both(self) -> SetAssignment | None:
        """A choice with as few sizes as any can have, and as cheap as it were if sizes did not count; None where
        neither the free choice nor that of whole lots is such a one."""
        fewest = sizes_at_least(self.costs, self.on_hand, self.sets, self.free.served)
        if self._sizes(self.free) <= fewest:
            return SetAssignment(self.free.columns, self.free.served, self._sizes(self.free), True)
        _, found = self._in_lots()
        if self._rank(found) > (-self.free.served, fewest, _total(self.costs, self.free)):
            return None
        return SetAssignment(found.columns, found.served, self._sizes(found), True)

    def _in_lots(self) -> tuple[list[Sequence[Cost | None]], Assignment]:
        """What the free choice gives out, in whole lots."""
        limited = self._limited(whole_lots(self.costs, self.free.columns, self.sets))
        return limited, assign(limited, self.on_hand)

    def _rank(self, found: Assignment) -> tuple[int, int, tuple[int, ...]]:
        """By what choices are compared, the best least."""
        return -found.served, self._sizes(found), _total(self.costs, found)

    def _limited(self, taken: Sequence[Iterable[int]]) -> list[Sequence[Cost | None]]:
        """The costs, where each set may have the columns that it has taken alone."""
        limited = list(self.costs)
        for rows, columns in zip(self.sets, taken, strict=True):
            for row in rows:
                limited[row] = _only(self.costs[row], sorted(columns))
        return limited

    def _alone(self, rows: Sequence[int]) -> Assignment:
        """The best choice for one set that has the whole stock to itself."""
        costs = [self.costs[row] for row in rows]
        served = assign(costs, self.on_hand).served
        for size in range(len(rows) + 1):
            best: tuple[tuple[int, ...], Assignment] | None = None
            for columns in self._choices(rows, size, len(rows) - served):
                if best is not None and served == len(rows) and _least(costs, columns) >= best[0]:
                    continue
                found = assign([_only(row, columns) for row in costs], self.on_hand)
                cost = _total(costs, found)
                if found.served == served and (best is None or cost < best[0]):
                    best = (cost, found)
            if best is not None:
                return best[1]
        raise AssertionError("one insert for each valve served is always a choice")

    def _join(self, alone: Sequence[Assignment]) -> bool:
        """Take the sets' own choices, the free valves filled in, where stock and service allow it."""
        limited = list(self.costs)
        for rows, choice in zip(self.sets, alone, strict=True):
            for row, column in zip(rows, choice.columns, strict=True):
                limited[row] = _only(self.costs[row], () if column is None else (column,))
        found = assign(limited, self.on_hand)
        in_sets = sum(found.columns[row] is not None for rows in self.sets for row in rows)
        if found.served < self.free.served or in_sets < sum(choice.served for choice in alone):
            return False
        # Free valves compete for the same stock: they must not have suffered from the sets' choice.
        outside = sorted(set(range(len(self.costs))) - {row for rows in self.sets for row in rows})
        outside_costs = [self.costs[row] for row in outside]
        unhindered = assign(outside_costs, self.on_hand)
        kept = Assignment(tuple(found.columns[row] for row in outside), found.served - in_sets)
        if kept.served < unhindered.served or _total(outside_costs, kept) != _total(outside_costs, unhindered):
            return False
        self.best = found
        return True

    def _all_together(self, alone: Sequence[Assignment]) -> None:
        served_alone = sum(choice.served for choice in alone)
        everyone_served = self.free.served == len(self.costs)
        least = [
            len(_used(choice, range(len(rows)))) if everyone_served else 0
            for rows, choice in zip(self.sets, alone, strict=True)
        ]
        for extra in range(served_alone + 1):
            self._branch(list(self.costs), 0, least, extra)
            if self.best is not None:
                return

    def _branch(self, limited: list[Sequence[Cost | None]], at: int, least: Sequence[int], extra: int) -> None:
        bound = assign(limited, self.on_hand)
        cost = _total(self.costs, bound)
        if bound.served < self.free.served or (self.best_cost is not None and cost >= self.best_cost):
            return
        if at == len(self.sets):
            self.best, self.best_cost = bound, cost
            return
        rows = self.sets[at]
        for size in range(least[at], min(least[at] + extra, len(rows)) + 1):
            for columns in self._choices(rows, size, len(self.costs) - self.free.served):
                narrowed = list(limited)
                for row in rows:
                    narrowed[row] = _only(self.costs[row], columns)
                self._branch(narrowed, at + 1, least, extra - (size - least[at]))

    def _thinned(self) -> Assignment:
        """The free choice, or that on the fullest sizes or of whole lots where it takes fewer; then one size after
        another struck out of a set while all stay served."""
        begun = [(list(self.costs), self.free), self._fullest()]
        if self.free.served < len(self.costs):  # else pieces are left over, and other sizes are as well taken
            begun.append(self._in_lots())
        limited, found = min(begun, key=lambda each: (-each[1].served, self._sizes(each[1])))
        fewest = sizes_at_least(self.costs, self.on_hand, self.sets, self.free.served)
        for rows in self.sets:
            if self._sizes(found) <= fewest:
                break
            others = Transport(limited, self.on_hand)
            others.serve(sorted(set(range(len(limited))) - set(rows)))
            for column in sorted(_used(found, rows), key=lambda c: (sum(found.columns[r] == c for r in rows), c)):
                kept = _used(found, rows) - {column}
                without = others.with_only(rows, kept)
                without.serve(rows)
                if without.served() == found.served:
                    found = _settled(without)
                    for row in rows:
                        limited[row] = _only(self.costs[row], sorted(kept))
        return found

    def _fullest(self) -> tuple[list[Sequence[Cost | None]], Assignment]:
        """Set and insert, pair by pair, that which serves most of those that are not served yet."""
        left = [self._pieces(column) for column in range(len(self.on_hand))]
        waiting = [set(rows) for rows in self.sets]
        fits = [
            {row for row in range(len(self.costs)) if self.costs[row][column] is not None}
            for column in range(len(left))
        ]
        choosy = {row: sum(cost is not None for cost in costs) for row, costs in enumerate(self.costs)}
        taken: list[set[int]] = [set() for _ in self.sets]
        while True:
            most, place, column = max(
                (
                    (min(left[column], len(rows & fits[column])), -place, -column)
                    for place, rows in enumerate(waiting)
                    for column in range(len(left))
                ),
                default=(0, 0, 0),
            )
            if not most:
                break
            place, column = -place, -column
            served = sorted(waiting[place] & fits[column], key=lambda row: (choosy[row], row))[:most]
            waiting[place].difference_update(served)
            left[column] -= most
            taken[place].add(column)
        limited = self._limited(taken)
        return limited, assign(limited, self.on_hand)

    def _sizes(self, found: Assignment) -> int:
        return sum(len(_used(found, rows)) for rows in self.sets)

    def _choices(self, rows: Sequence[int], size: int, spare: int) -> Iterator[tuple[int, ...]]:
        """So many inserts for a set, wherever they fit and are enough for all but `spare` of its valves."""
        fits = [{row for row in rows if self.costs[row][column] is not None} for column in range(len(self.on_hand))]
        usable = [column for column, fitting in enumerate(fits) if fitting and self.on_hand[column] != 0]
        fullest = sorted((min(self._pieces(column), len(fits[column])) for column in usable), reverse=True)
        if sum(fullest[:size]) < len(rows) - spare:
            return
        if comb(len(usable), size) > self.left:
            raise _GivenUp
        for columns in combinations(usable, size):
            self.left -= 1
            covered = set().union(*(fits[column] for column in columns))
            pieces = sum(self._pieces(column) for column in columns)
            if min(len(covered), pieces) >= len(rows) - spare:
                yield columns

    def _pieces(self, column: int) -> int:
        pieces = self.on_hand[column]
        return len(self.costs) if pieces is None else pieces


def _only(row: Sequence[Cost | None], columns: Sequence[int]) -> tuple[Cost | None, ...]:
    return tuple(cost if column in columns else None for column, cost in enumerate(row))


def _least(costs: Sequence[Sequence[Cost | None]], columns: Sequence[int]) -> tuple[int, ...]:
    """What the rows cost at the least, were there enough of each of the columns."""
    cheapest = tuple(min(cost for column in columns if (cost := row[column]) is not None) for row in costs)
    return _total([[cost] for cost in cheapest], Assignment((0,) * len(cheapest), len(cheapest)))


def _used(choice: Assignment, rows: Sequence[int]) -> set[int]:
    return {column for row in rows if (column := choice.columns[row]) is not None}


def _total(costs: Sequence[Sequence[Cost | None]], choice: Assignment) -> tuple[int, ...]:
    total: list[int] = []
    for row, column in zip(costs, choice.columns, strict=True):
        cost = None if column is None else row[column]
        if cost is None:
            continue
        parts = cost if isinstance(cost, tuple) else (cost,)
        total = [a + b for a, b in zip(total, parts, strict=True)] if total else list(parts)
    return tuple(total)
