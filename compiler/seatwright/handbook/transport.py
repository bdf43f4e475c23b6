"""The transportation problem, exact and in whole numbers: rows that each want one piece, columns with few.

Successive shortest augmenting paths over the columns, kept honest by a price for each column; rows of equal
cost are looked at once. `assignment` says what it means for valves and inserts.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Collection, Iterable, Sequence
from copy import copy
from heapq import heappop, heappush

Cost = int | tuple[int, ...]


class Transport:
    """The residual network: where each row stands, what it costs to move, and the price of each column.

    A last column of unlimited size, dearer than any whole choice, stands for "no insert".
    """

    def __init__(self, costs: Sequence[Sequence[Cost | None]], on_hand: Sequence[int | None]) -> None:
        if any(pieces is not None and pieces < 0 for pieces in on_hand):
            raise ValueError("fewer than no pieces of an insert cannot be on hand")
        if any(len(row) != len(on_hand) for row in costs):
            raise ValueError("every valve needs one figure for each insert on the list")
        self.none = len(on_hand)
        self.room = [len(costs) if pieces is None else pieces for pieces in on_hand] + [len(costs)]
        kinds: dict[tuple[Cost | None, ...], int] = {}
        self.kind = [kinds.setdefault(tuple(row), len(kinds)) for row in costs]
        self.offers = _scalar_offers(list(kinds), self.none, len(costs))
        self.price = [0] * len(self.room)
        self.place = [self.none] * len(costs)
        self.members: list[dict[int, list[int]]] = [{} for _ in self.room]
        self.filled = [0] * len(self.room)
        self.tight: dict[tuple[int, int], list[int]] = {}

    def serve_all(self) -> None:
        """Give every row its piece, or the way out, at the least total cost."""
        self.serve(range(len(self.kind)))

    def serve(self, rows: Iterable[int]) -> None:
        """Give these rows theirs as well, beside those that were served before."""
        for row in rows:
            self._augment(row)

    def served(self) -> int:
        """How many rows have a piece."""
        return len(self.place) - self.place.count(self.none)

    def with_only(self, rows: Sequence[int], columns: Collection[int]) -> Transport:
        """The same with all that was served before, where some rows, not served yet, may have these columns alone."""
        other = copy(self)
        other.kind, other.offers, other.place = self.kind.copy(), self.offers.copy(), self.place.copy()
        other.tight = {}
        other.price, other.filled = self.price.copy(), self.filled.copy()
        other.members = [{kind: held.copy() for kind, held in each.items()} for each in self.members]
        kinds: dict[int, int] = {}
        for row in rows:
            kind = self.kind[row]
            if kind not in kinds:
                kinds[kind] = len(other.offers)
                offers = self.offers[kind].items()
                other.offers.append({at: cost for at, cost in offers if at in columns or at == self.none})
            other.kind[row] = kinds[kind]
        return other

    def settle_ties(self) -> None:
        """Valve by valve, move to the lowest column that some equally good choice has for it."""
        self.tight.clear()
        for row in range(len(self.kind)):
            here = self.place[row]
            self._take_out(row)
            seen: set[int] = set()
            for column in self._tight(self.kind[row], here):
                if column >= here:
                    break
                if column in seen:
                    continue
                path = self._equal_exchange(column, here, seen)
                if path is not None:
                    for moved, to in path:
                        self._take_out(moved)
                        self._put(moved, to)
                    here = column
                    break
            # From here on this valve is settled: it fills its column but is no longer listed to move.
            self.place[row] = here
            self.filled[here] += 1

    def _augment(self, row: int) -> None:
        distance: dict[int, int] = {}
        came: dict[int, int] = {}
        done: list[int] = []
        waiting: list[tuple[int, bool, int]] = []
        price, filled, room = self.price, self.filled, self.room
        nearest: int | None = None  # of the columns with room that were reached; nothing farther is of use

        def reach(mover: int, base: int) -> None:
            nonlocal nearest
            for column, cost in self.offers[self.kind[mover]].items():
                far = base + cost - price[column]
                if (nearest is None or far <= nearest) and (column not in distance or far < distance[column]):
                    distance[column] = far
                    came[column] = mover
                    full = filled[column] >= room[column]
                    if not full:
                        nearest = far
                    heappush(waiting, (far, full, column))

        reach(row, 0)
        while True:
            far, full, column = heappop(waiting)
            if not full:
                break
            if far > distance[column]:
                continue  # reached by a shorter way since
            done.append(column)
            for kind, rows in self.members[column].items():
                reach(rows[-1], far - self.offers[kind][column] + price[column])
        for passed in done:
            price[passed] += distance[passed] - distance[column]
        while True:
            mover = came[column]
            before = self.place[mover]
            if mover == row:
                self._put(row, column)
                return
            self._take_out(mover)
            self._put(mover, column)
            column = before

    def _tight(self, kind: int, here: int) -> list[int]:
        """Columns that are as good as the present one at the present prices, ascending."""
        found = self.tight.get((kind, here))
        if found is None:
            offers, price = self.offers[kind], self.price
            worth = offers[here] - price[here]
            found = [column for column, cost in offers.items() if cost - price[column] == worth]
            self.tight[kind, here] = found
        return found

    def _equal_exchange(self, start: int, left: int, seen: set[int]) -> list[tuple[int, int]] | None:
        """Moves that make room in `start` at no cost, ending in the column just left or in a spare place.

        seen : columns from which no such moves lead on; those that are looked at in vain are added
        """
        seen.add(start)
        free = self.price[left] == 0
        if not self.members[start] and start != left and not (free and self.filled[start] < self.room[start]):
            return None  # as most: nobody is there to move on
        came: dict[int, tuple[int, int]] = {}
        queue = deque([start])
        while queue:
            column = queue.popleft()
            if column == left or (free and self.filled[column] < self.room[column]):
                moves = []
                while column != start:
                    mover, before = came[column]
                    moves.append((mover, column))
                    column = before
                return moves
            for kind, rows in self.members[column].items():
                for other in self._tight(kind, column):
                    if other not in seen:
                        seen.add(other)
                        came[other] = (rows[-1], column)
                        queue.append(other)
        return None

    def _put(self, row: int, column: int) -> None:
        self.place[row] = column
        self.members[column].setdefault(self.kind[row], []).append(row)
        self.filled[column] += 1

    def _take_out(self, row: int) -> None:
        column, kind = self.place[row], self.kind[row]
        rows = self.members[column][kind]
        rows.remove(row)
        if not rows:
            del self.members[column][kind]
        self.filled[column] -= 1


def _scalar_offers(rows: Sequence[Sequence[Cost | None]], none: int, count: int) -> list[dict[int, int]]:
    """Costs as single whole numbers in the same order of preference, with the way out in the last column."""
    places = {len(cost) if isinstance(cost, tuple) else -1 for row in rows for cost in row if cost is not None}
    if len(places) > 1:
        raise ValueError("the figures by which inserts are compared must all have the same number of places")
    offers = [
        {at: cost if isinstance(cost, tuple) else (cost,) for at, cost in enumerate(row) if cost is not None}
        for row in rows
    ]
    sizes = [abs(part) for row in offers for cost in row.values() for part in cost]
    # Each place outweighs the sum of all that can stand in the places after it.
    base = 2 * count * max(sizes, default=0) + 1
    scalars = [
        {
            column: sum(part * base ** (len(cost) - at) for at, part in enumerate(cost, 1))
            for column, cost in row.items()
        }
        for row in offers
    ]
    dearest = max((abs(cost) for row in scalars for cost in row.values()), default=0)
    for row in scalars:
        row[none] = 2 * count * dearest + 1
    return scalars
