"""What a glance at a short stock tells before any search: rows that nobody needs, the fewest sizes that can do, and how
what is given out may be shared among the sets so that few sizes do."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import accumulate

_NEVER = 1 << 30


def worth_keeping(
    costs: Sequence[Sequence[int | None]],
    on_hand: Sequence[int | None],
    bores: Sequence[Sequence[float | None]] = (),
) -> list[int]:
    """The inserts that a best choice can take; the others are of no use to it.

    An insert is left out where it fits nobody, where none is on hand, or where so many smaller ones with no fewer
    pieces, and bores no larger, fit wherever it fits that one of them must be left over: it would go in that place.

    costs : a row for each valve, a column for each insert; None where the insert does not fit [whole numbers]
    on_hand : pieces of each insert [pieces], None where they are not counted
    bores : of the same shape, where bridges limit them; None for a pocket that is not bored [mm]
    Returns : the columns that are left, ascending

    Proof: let b be taken by u valves. Of an insert a that fits all of them for less, fewer than u pieces are left, else
    all u would go over to a, and no set would have a size more. So of each such a at least pieces(a) - u + 1 are in
    use, with u at most what there is of b or fits it. Where these come to as many as there are valves, b is not taken.
    Errors : none.
    Source : an exchange of pieces; derived here.

    >>> worth_keeping([[3, 4, None], [3, 4, 5]], [1, 1, 1])
    [0, 1]
    >>> worth_keeping([[3, 4, None], [3, 4, 5]], [2, 2, None])
    [0]
    """
    count = len(costs)
    rows = [[row for row in range(count) if costs[row][column] is not None] for column in range(len(on_hand))]
    fits = [sum(1 << row for row in each) for each in rows]
    pieces = [count if held is None else min(held, count) for held in on_hand]
    usable = [column for column in range(len(on_hand)) if fits[column] and pieces[column]]
    least = {column: min(cost for row in rows[column] if (cost := costs[row][column]) is not None) for column in usable}
    kept: list[int] = []
    for column in sorted(usable, key=lambda each: (least[each], each)):
        most = min(len(rows[column]), pieces[column])
        in_use = 0
        for other in kept:
            if fits[column] & ~fits[other] or pieces[other] < most:
                continue
            if all(_before(costs[row][other], other, costs[row][column], column) for row in rows[column]) and all(
                _no_larger(bores[row][other], bores[row][column]) for row in (rows[column] if bores else ())
            ):
                in_use += count if pieces[other] == count else pieces[other] - most + 1
                if in_use >= count:
                    break
        else:
            kept.append(column)
    return sorted(kept)


def _before(cost: int | None, column: int, other_cost: int | None, other: int) -> bool:
    return cost is not None and other_cost is not None and (cost, column) < (other_cost, other)


def _no_larger(bore: float | None, other: float | None) -> bool:
    return bore is None or (other is not None and bore <= other)


def sizes_at_least(
    costs: Sequence[Sequence[object]], on_hand: Sequence[int | None], sets: Sequence[Sequence[int]], served: int
) -> int:
    """A number of sizes below which no choice can stay, counted in each set and added over the sets.

    costs, on_hand, sets : as `assign_sets`
    served : how many valves get an insert [pieces]
    Returns : the bound [-]; where a choice needs no more, it is proved

    The larger of two counts. Set by set: the fullest inserts, of those that fit, until they are enough for the set,
    less those valves that may stay without. Insert by insert: the fullest pairs of a set and an insert, each good for
    no more than fit it and are on hand, until as many valves are served as the sets must have served.
    Errors : none; it is a bound, and the true number may be larger.
    Source : counting; derived here.

    Three valves, one piece of each insert:

    >>> sizes_at_least([[1, 2, 3]] * 3, [1, 1, 1], [[0, 1, 2]], 3)
    3
    """
    fitting = [[sum(costs[row][column] is not None for row in rows) for column in range(len(on_hand))] for rows in sets]
    held = [len(costs) if pieces is None else pieces for pieces in on_hand]
    in_sets = sum(map(len, sets))
    outside = len(costs) - in_sets
    by_sets = _by_sets(fitting, held, [len(rows) for rows in sets], len(costs) - served)
    return max(by_sets, _by_pairs(fitting, held, max(served - outside, 0)))


def _by_sets(fitting: Sequence[Sequence[int]], held: Sequence[int], sizes: Sequence[int], spare: int) -> int:
    """Fewest sizes over all sets, where `spare` valves may stay without."""
    best = [0] + [_NEVER] * spare
    for fits, members in zip(fitting, sizes, strict=True):
        fullest = sorted((min(pair) for pair in zip(fits, held, strict=True)), reverse=True)
        enough = [0, *accumulate(fullest)]
        least, need = [], 0
        for reach in range(members + 1):  # how many sizes serve so many of the set
            while need < len(enough) and enough[need] < reach:
                need += 1
            least.append(need if need < len(enough) else _NEVER)
        best = [
            min(best[before] + least[max(members - (now - before), 0)] for before in range(now + 1))
            for now in range(spare + 1)
        ]
    return min(min(best), _NEVER)


def _by_pairs(fitting: Sequence[Sequence[int]], held: Sequence[int], need: int) -> int:
    """Fewest pairs of a set and an insert that serve `need` valves."""
    pairs = []
    for column, left in enumerate(held):
        for fits in sorted((row[column] for row in fitting), reverse=True):
            taken = min(fits, left)
            if taken <= 0:
                break
            pairs.append(taken)
            left -= taken
    pairs.sort(reverse=True)
    count = 0
    while need > 0 and count < len(pairs):
        need -= pairs[count]
        count += 1
    return count


def whole_lots(
    costs: Sequence[Sequence[object]], given: Sequence[int | None], sets: Sequence[Sequence[int]]
) -> list[set[int]]:
    """The same pieces of each insert shared out among the sets, all of an insert to one of them where there is room.

    costs, sets : as `assign_sets` [whole numbers; places in `costs`]
    given : the column of each row, None where it gets none, in a choice that looks at no sets
    Returns : the columns that each set takes; a proposal, in which not every piece may find a place

    The inserts that fit the fewest valves first. Each goes to the set with the least room for it that takes all of it,
    to the valves there that the fewest inserts fit; where no set takes all, what has the most room takes its part.
    Errors : none; fewer sizes may do, but no fewer than `sizes_at_least`.
    Source : best fit, as bins are packed; derived here.

    Of two heads each gets both pieces of one size, and not one of each:

    >>> whole_lots([[1, 2]] * 4, [0, 1, 0, 1], [[0, 1], [2, 3]])
    [{0}, {1}]
    """
    in_sets = [row for rows in sets for row in rows]
    pieces = Counter(column for row in in_sets if (column := given[row]) is not None)
    fits = {column: {row for row in in_sets if costs[row][column] is not None} for column in pieces}
    choosy = Counter(row for rows in fits.values() for row in rows)
    waiting = [set(rows) for rows in sets]
    taken: list[set[int]] = [set() for _ in sets]
    for column in sorted(pieces, key=lambda each: (len(fits[each]), each)):
        left = pieces[column]
        while left:
            room = [(len(rows & fits[column]), place) for place, rows in enumerate(waiting)]
            enough = [each for each in room if each[0] >= left]
            most, place = min(enough) if enough else max(room, key=lambda each: (each[0], -each[1]))
            if not most:
                break
            served = sorted(waiting[place] & fits[column], key=lambda row: (choosy[row], row))[:left]
            waiting[place].difference_update(served)
            taken[place].add(column)
            left -= len(served)
    return taken
