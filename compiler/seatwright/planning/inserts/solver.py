"""The same choice by a solver of programs in whole numbers (HiGHS, through `highspy`), where a search takes long.

What is asked of it: most valves served, then fewest sizes in the sets, then least cost, one after the other, each
what it found kept for the next. It reckons in floats, so its answer is taken as a hint only: which sizes each set
may have, and how large the bores beside a thin bridge may be. The choice on those is made, and added up, in whole
numbers by `assign`; that none is better rests on the solver's bound. It is imported when a search has given up, not
before: that takes longer than a run.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Mapping, Sequence
from itertools import accumulate
from types import ModuleType
from typing import Any

from msgspec import Struct

from seatwright.handbook.assignment import Assignment
from seatwright.handbook.short_stock import sizes_at_least

_MOST_PLACES = 5_000
"""Places of a program that is still put to the solver: about a second of its work."""

_MOST_LOOKS = 100_000
"""How often the solver may look up from its work before it is given up, times the places of the program, which is about
what it does in between. By its clock it would answer differently every time."""

_SLACK = 1e-6
_AGREED = 1e-3
_TIES = 16
_MOST_WORTH = 10**9
_OPTIONS = {"output_flag": False, "threads": 1, "mip_rel_gap": 0.0, "mip_abs_gap": 0.5}


class Short(Struct, frozen=True):
    """A stock that is short: what each valve costs with each insert, and the bore that it would get.

    costs, bores : a row for each valve, a column for each insert; None where it does not fit, or is not bored
    [whole numbers; mm]
    on_hand : pieces, None where they are not counted. sets : rows that should share one size
    apart : two rows and the room that their bores have together [mm]
    """

    costs: Sequence[Sequence[int | None]]
    bores: Sequence[Sequence[float | None]]
    on_hand: Sequence[int | None]
    sets: Sequence[Sequence[int]]
    apart: Sequence[tuple[int, int, float]]


class Hint(Struct, frozen=True):
    """What the solver says: the columns that each row may have, and whether no choice is better than the best of them.

    columns : for each row those in which the choice is to be made
    """

    columns: Sequence[Sequence[int]]
    proved: bool


def installed() -> ModuleType | None:
    """The solver, None where it is not installed."""
    try:
        import highspy
    except ImportError:
        return None
    return highspy


def hint(solver: ModuleType, short: Short, free: Assignment) -> Hint | None:
    """Where the best choice lies; None where the solver would take too long.

    free : the choice of `assign`, which serves most valves and looks at no sizes and no bridges
    """
    if sum(cost is not None for costs in {tuple(each) for each in short.costs} for cost in costs) > _MOST_PLACES:
        return None
    model = _Model(solver, short)
    return None if len(model.most) > _MOST_PLACES else model.hint(free)


class _Model:
    """The program: a place for each kind of valve and insert, and one for each set and insert.

    Valves of one set that fit alike stand for each other, but where a bridge limits them. Once it is settled which
    sizes a set has, sharing the pieces out among its valves needs no whole numbers to be asked for.
    """

    def __init__(self, solver: Any, short: Short) -> None:
        self.solver, self.short = solver, short
        self.limited = {row for first, second, _ in short.apart for row in (first, second)}
        in_set = {row: place for place, rows in enumerate(short.sets) for row in rows}
        kinds: dict[object, list[int]] = {}
        for row, costs in enumerate(short.costs):
            kinds.setdefault((in_set.get(row), tuple(costs), row if row in self.limited else None), []).append(row)
        self.kinds = list(kinds.values())
        self.set_of = [in_set.get(rows[0]) for rows in self.kinds]
        self.most: list[int] = []
        self.whole: list[bool] = []
        self.rows: list[tuple[float, float, list[tuple[int, float]]]] = []
        self.given = {
            (kind, column): self._place(min(len(rows), self._held(column)), rows[0] in self.limited)
            for kind, rows in enumerate(self.kinds)
            for column, cost in enumerate(short.costs[rows[0]])
            if cost is not None
        }
        self.taken = {
            (place, column): self._place(1, True)
            for place, rows in enumerate(short.sets)
            for column in range(len(short.on_hand))
            if any(short.costs[row][column] is not None for row in rows)
        }
        self._pieces()
        self._sizes()
        self._bridges()
        self.looks = 0

    def _held(self, column: int) -> int:
        held = self.short.on_hand[column]
        return len(self.short.costs) if held is None else held

    def _place(self, most: int, whole: bool) -> int:
        self.most.append(most)
        self.whole.append(whole)
        return len(self.most) - 1

    def _pieces(self) -> None:
        """No valve gets two, and no insert is given more often than it is there."""
        of_kind: list[list[tuple[int, float]]] = [[] for _ in self.kinds]
        of_column: list[list[tuple[int, float]]] = [[] for _ in self.short.on_hand]
        for (kind, column), at in self.given.items():
            of_kind[kind].append((at, 1))
            of_column[column].append((at, 1))
        self.rows += [(0, len(rows), given) for rows, given in zip(self.kinds, of_kind, strict=True)]
        pairs = zip(self.short.on_hand, of_column, strict=True)
        self.rows += [(0, held, given) for held, given in pairs if held is not None]

    def _sizes(self) -> None:
        """What a set gives out, it has taken."""
        together: dict[tuple[int, int], list[int]] = {}
        for (kind, column), at in self.given.items():
            place = self.set_of[kind]
            if place is not None:
                together.setdefault((place, column), []).append(at)
                self.rows.append((-math.inf, 0, [(at, 1), (self.taken[place, column], -self.most[at])]))
        for (place, column), given in together.items():
            held = self.short.on_hand[column]
            if held is not None:
                self.rows.append((-math.inf, 0, [*((at, 1) for at in given), (self.taken[place, column], -held)]))

    def _bridges(self) -> None:
        """Of two bores that together have no room only one: for each bore of the first, all of the second beyond."""
        kind_of = {rows[0]: kind for kind, rows in enumerate(self.kinds)}
        for first, second, room in self.short.apart:
            bored = [
                sorted(
                    (bore, at)
                    for (kind, column), at in self.given.items()
                    if kind == kind_of[row] and (bore := self.short.bores[row][column]) is not None
                )
                for row in (first, second)
            ]
            before = 0
            for bore in sorted({bore for bore, _ in bored[0]}):
                beyond = [at for other, at in bored[1] if bore + other > room + _SLACK]
                if len(beyond) > before:
                    before = len(beyond)
                    one = [at for own, at in bored[0] if own >= bore]
                    self.rows.append((0, 1, [(at, 1) for at in (*one, *beyond)]))

    def hint(self, free: Assignment) -> Hint | None:
        """The three questions one after the other; the first is not asked where the free choice answers it."""
        short, highs = self.short, self._loaded()
        given, taken = list(self.given.values()), list(self.taken.values())
        served, proved = free.served, True
        if not self._leaves_bridges(free):
            found = self._best(highs, dict.fromkeys(given, -1), 1)
            if found is None:
                return None
            served, proved = round(sum(found[0][at] for at in given)), found[1]
        self._hold(highs, given, served, served)
        sizes = 0
        if taken:
            fewest = sizes_at_least(short.costs, short.on_hand, short.sets, served)
            self._hold(highs, taken, fewest, math.inf)
            found = self._best(highs, dict.fromkeys(taken, 1), 1)
            if found is None:
                return None
            sizes, proved = round(sum(found[0][at] for at in taken)), proved and found[1]
            self._hold(highs, taken, fewest, sizes)
        found = self._best(highs, *self._worth(sizes))
        return None if found is None else Hint(self._columns(found[0]), proved and found[1])

    def _leaves_bridges(self, free: Assignment) -> bool:
        """Whether a choice leaves every bridge its metal."""
        bores = [
            None if column is None else line[column]
            for line, column in zip(self.short.bores, free.columns, strict=True)
        ]
        return not any(
            one is not None and other is not None and one + other > room + _SLACK
            for one, other, room in ((bores[first], bores[second], room) for first, second, room in self.short.apart)
        )

    def _loaded(self) -> Any:
        """The program in the solver's own form."""
        highs = _quiet(self.solver)
        for name, value in _OPTIONS.items():
            highs.setOptionValue(name, value)
        program = self.solver.HighsLp()
        program.num_col_, program.num_row_ = len(self.most), len(self.rows)
        program.col_cost_, program.col_lower_ = [0.0] * len(self.most), [0.0] * len(self.most)
        program.col_upper_ = [float(most) for most in self.most]
        program.row_lower_, program.row_upper_ = [row[0] for row in self.rows], [row[1] for row in self.rows]
        matrix = program.a_matrix_
        matrix.format_ = self.solver.MatrixFormat.kRowwise
        matrix.start_ = [0, *accumulate(len(row[2]) for row in self.rows)]
        matrix.index_ = [at for row in self.rows for at, _ in row[2]]
        matrix.value_ = [float(times) for row in self.rows for _, times in row[2]]
        kinds = self.solver.HighsVarType
        program.integrality_ = [kinds.kInteger if whole else kinds.kContinuous for whole in self.whole]
        highs.passModel(program)
        highs.cbMipInterrupt.subscribe(self._look)
        return highs

    def _look(self, event: Any) -> None:
        self.looks += 1
        if self.looks * len(self.most) > _MOST_LOOKS:
            event.interrupt()

    def _hold(self, highs: Any, places: Sequence[int], least: float, most: float) -> None:
        """A sum over places that stays within bounds from here on."""
        highs.addRow(float(least), float(most), len(places), array("i", places), array("d", [1.0] * len(places)))

    def _best(self, highs: Any, worth: Mapping[int, int], ties: int) -> tuple[Sequence[float], bool] | None:
        """The places at their least worth; and whether none is less.

        ties : what lies below this part of the worth is order, not worth, and need not be proved
        """
        count = len(self.most)
        costs = array("d", [float(worth.get(at, 0)) for at in range(count)])
        highs.changeColsCost(count, array("i", range(count)), costs)
        highs.clearSolver()  # begun at what it found before, it was seen to hand that back with the worth of another
        highs.run()
        info = highs.getInfo()
        if info.primal_solution_status != self.solver.SolutionStatus.kSolutionStatusFeasible:
            return None
        values = list(highs.getSolution().col_value)
        worth_of_it = sum(value * cost for value, cost in zip(values, costs, strict=True))
        reached = round(worth_of_it) // ties * ties
        agreed = abs(worth_of_it - info.objective_function_value) < _AGREED
        return values, agreed and info.mip_dual_bound > reached - 1 + _SLACK

    def _worth(self, sizes: int) -> tuple[dict[int, int], int]:
        """What each place costs, over the cheapest and in the largest step that all have in common, and how much of it
        is order: between choices that cost the same, an order of the inserts settles it, not the solver's whim."""
        costs = {
            (kind, column): cost
            for kind, rows in enumerate(self.kinds)
            for column, cost in enumerate(self.short.costs[rows[0]])
            if cost is not None
        }
        least = min(costs.values())
        step = math.gcd(*(cost - least for cost in costs.values())) or 1
        ties = _TIES * sizes + 1
        if (max(costs.values()) - least) // step * ties * len(self.short.costs) > _MOST_WORTH:
            ties = 1
        worth = {self.given[place]: (cost - least) // step * ties for place, cost in costs.items()}
        if ties > 1:
            worth |= {at: (7 * column * column + 3 * column) % _TIES for (_, column), at in self.taken.items()}
        return worth, ties

    def _columns(self, values: Sequence[float]) -> list[list[int]]:
        """Where the choice is to be made: the sizes that the set has taken, no bore at a bridge larger than found."""
        found: list[list[int]] = [[] for _ in self.short.costs]
        columns: list[list[int]] = [[] for _ in self.kinds]
        for kind, column in self.given:
            columns[kind].append(column)
        for kind, rows in enumerate(self.kinds):
            place = self.set_of[kind]
            own = columns[kind]
            if place is not None:
                own = [column for column in own if values[self.taken[place, column]] > 0.5]
            if rows[0] in self.limited:
                bores = self.short.bores[rows[0]]
                here = [column for column in own if values[self.given[kind, column]] > 0.5]
                widest = max((bore for column in here if (bore := bores[column]) is not None), default=-math.inf)
                own = [column for column in own if here and ((bore := bores[column]) is None or bore <= widest)]
            for row in rows:
                found[row] = own
        return found


def _quiet(solver: Any) -> Any:
    """A solver that prints nothing: it tells its name as soon as it is set up, and stdout may hold a plan."""

    def silenced(own: Any) -> None:
        own.silent()
        solver.Highs.enableCallbacks(own)

    return type("Quiet", (solver.Highs,), {"enableCallbacks": silenced})()
