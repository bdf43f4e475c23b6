"""The transportation problem, exact and in whole numbers: rows that each want one piece, columns with few.

Successive shortest augmenting paths over the columns, kept honest by a price for each column; rows of equal
cost are looked at once. `assignment` says what it means for valves and inserts.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence

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
        self.place: list[int] = []
        self.members: list[dict[int, list[int]]] = [{} for _ in self.room]
        self.filled = [0] * len(self.room)

    def serve_all(self) -> None:
        """Give every row its piece, or the way out, at the least total cost."""
        for row in range(len(self.kind)):
            self.place.append(self.none)
            self._augment(row)

    def settle_ties(self) -> None:
        """Valve by valve, move to the lowest column that some equally good choice has for it."""
        for row in range(len(self.kind)):
            here = self.place[row]
            self._take_out(row)
            for column in self._tight(self.kind[row], here):
                if column >= here:
                    break
                path = self._equal_exchange(column, here)
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
        open_columns: set[int] = set()

        def reach(mover: int, base: int) -> None:
            for column, cost in self.offers[self.kind[mover]].items():
                far = base + cost - self.price[column]
                if column not in distance or far < distance[column]:
                    distance[column] = far
                    came[column] = mover
                    open_columns.add(column)

        reach(row, 0)
        while True:
            column = min(open_columns, key=lambda c: (distance[c], self.filled[c] >= self.room[c], c))
            if self.filled[column] < self.room[column]:
                break
            open_columns.remove(column)
            done.append(column)
            for kind, rows in self.members[column].items():
                reach(rows[-1], distance[column] - self.offers[kind][column] + self.price[column])
        for passed in done:
            self.price[passed] += distance[passed] - distance[column]
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
        offers = self.offers[kind]
        worth = offers[here] - self.price[here]
        return [column for column, cost in offers.items() if cost - self.price[column] == worth]

    def _equal_exchange(self, start: int, left: int) -> list[tuple[int, int]] | None:
        """Moves that make room in `start` at no cost, ending in the column just left or in a spare place."""
        came: dict[int, tuple[int, int]] = {}
        seen = {start}
        queue = deque([start])
        while queue:
            column = queue.popleft()
            spare = self.filled[column] < self.room[column] and self.price[left] == 0
            if column == left or spare:
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
