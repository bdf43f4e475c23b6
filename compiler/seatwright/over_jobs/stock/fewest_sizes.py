"""The fewest different inserts that serve a number of valves, each of which can take one of several."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

MOST_WAYS = 20_000
"""Ways that are tried before the search is given up."""


class _GivenUp(Exception):
    """So many ways were tried."""


def fewest_sizes(
    needs: Sequence[Sequence[int]], costs: Sequence[int], most_trials: int = MOST_WAYS
) -> tuple[tuple[int, ...], bool]:
    """Which insert each need takes, and whether no other way is better: fewest different ones first, then the least sum
    of costs, then the earliest in the list.

    needs : for each, the places of the inserts that serve it, at least one
    costs : of each insert, such as its od in nm
    """
    kinds = Counter(frozenset(need) for need in needs)
    exact = True
    try:
        chosen = _Search(kinds, costs, most_trials).best()
    except _GivenUp:
        chosen, exact = _greedy(kinds, costs), False
    return tuple(_cheapest(need, chosen, costs) for need in needs), exact


def _cheapest(need: Sequence[int] | frozenset[int], chosen: frozenset[int], costs: Sequence[int]) -> int:
    return min((row for row in need if row in chosen), key=lambda row: (costs[row], row))


class _Search:
    """Covers of one row more each time, until there is one: then all of that many rows, and the best of them."""

    def __init__(self, kinds: Mapping[frozenset[int], int], costs: Sequence[int], most_trials: int) -> None:
        self.kinds, self.costs, self.most_trials = kinds, costs, most_trials
        self.trials = 0
        self.found: tuple[int, tuple[int, ...]] | None = None

    def best(self) -> frozenset[int]:
        rows = 0
        while self.found is None:
            self._follow(frozenset(), frozenset(), rows)
            rows += 1
        return frozenset(self.found[1])

    def _follow(self, chosen: frozenset[int], banned: frozenset[int], more: int) -> None:
        """Every cover with these rows, without those, and at most so many more."""
        self.trials += 1
        if self.trials > self.most_trials:
            raise _GivenUp
        open_ = [need - banned for need in self.kinds if not need & chosen]
        if not open_:
            self._keep(chosen)
        elif _apart(open_) <= more and all(open_):
            for row in sorted(sorted(open_, key=_narrow)[0]):
                self._follow(chosen | {row}, banned, more - 1)
                banned |= {row}  # every cover with it has been looked at

    def _keep(self, chosen: frozenset[int]) -> None:
        total = sum(self.costs[_cheapest(need, chosen, self.costs)] * count for need, count in self.kinds.items())
        cover = total, tuple(sorted(chosen))
        self.found = cover if self.found is None else min(self.found, cover)


def _narrow(need: frozenset[int]) -> tuple[int, list[int]]:
    """Sorts first what can be served in the fewest ways."""
    return len(need), sorted(need)


def _apart(needs: Sequence[frozenset[int]]) -> int:
    """Needs of which no two have a row in common: so many rows are needed at least."""
    taken: set[int] = set()
    count = 0
    for need in sorted(needs, key=_narrow):
        if not need & taken:
            taken |= need
            count += 1
    return count


def _greedy(kinds: Mapping[frozenset[int], int], costs: Sequence[int]) -> frozenset[int]:
    """The row that serves the most needs still open, the cheaper of two, the earlier of two; and again."""
    chosen: frozenset[int] = frozenset()
    left = Counter(kinds)
    while left:
        serves: Counter[int] = Counter()
        for need, count in left.items():
            serves.update(dict.fromkeys(need, count))
        best = min(serves, key=lambda row: (-serves[row], costs[row], row))
        chosen |= {best}
        left = Counter({need: count for need, count in left.items() if best not in need})
    return chosen
