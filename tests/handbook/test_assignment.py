"""The choice over finite stock, against every choice tried out and against an independent solver."""

from __future__ import annotations

import itertools
import random

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from seatwright.handbook.assignment import assign, assign_sets


def every_choice(costs, on_hand):
    """All choices that the stock allows, as tuples of columns with None last."""
    columns = [[c for c, cost in enumerate(row) if cost is not None] + [None] for row in costs]
    for choice in itertools.product(*columns):
        if all(n is None or choice.count(c) <= n for c, n in enumerate(on_hand)):
            yield choice


def as_tuple(cost):
    return cost if isinstance(cost, tuple) else (cost,)


def worth(costs, choice):
    """Served (more first), cost place by place."""
    taken = [as_tuple(costs[r][c]) for r, c in enumerate(choice) if c is not None]
    return (-len(taken), tuple(map(sum, zip(*taken, strict=True))))


def tie(choice, width):
    return tuple(width if c is None else c for c in choice)


@st.composite
def stocks(draw, rows=5, columns=4):
    n, m = draw(st.integers(0, rows)), draw(st.integers(1, columns))
    whole = st.integers(-2, 4)
    cost = draw(st.sampled_from([whole, st.tuples(whole, whole), st.tuples(whole, whole, whole)]))
    row = st.lists(st.none() | cost, min_size=m, max_size=m)
    on_hand = st.lists(st.none() | st.integers(0, 2), min_size=m, max_size=m)
    return draw(st.lists(row, min_size=n, max_size=n)), draw(on_hand)


@settings(max_examples=400, deadline=None)
@given(stocks())
def test_the_choice_is_the_best_of_all_with_ties_to_the_earliest_valve_and_lowest_column(stock):
    costs, on_hand = stock
    best = min(every_choice(costs, on_hand), key=lambda c: (worth(costs, c), tie(c, len(on_hand))))
    found = assign(costs, on_hand)
    assert found.columns == best
    assert found.served == sum(column is not None for column in best)


@settings(max_examples=300, deadline=None)
@given(stocks(), st.data())
def test_sets_get_the_fewest_sizes_that_serve_as_many_valves(stock, data):
    costs, on_hand = stock
    label = [data.draw(st.sampled_from(["a", "b", "free"])) for _ in costs]
    sets = [[r for r, name in enumerate(label) if name == which] for which in "ab"]

    def sizes(choice):
        return sum(len({choice[r] for r in rows} - {None}) for rows in sets)

    def order(choice):
        served, cost = worth(costs, choice)
        return served, sizes(choice), cost

    best = min(map(order, every_choice(costs, on_hand)))
    found = assign_sets(costs, on_hand, sets)
    assert found.exact
    assert found.columns in set(every_choice(costs, on_hand))
    assert order(found.columns) == best
    assert (found.served, found.sizes) == (-best[0], best[1])


@pytest.mark.parametrize("seed", range(60))
def test_the_total_cost_equals_that_of_an_independent_solver(seed):
    # Oracle: scipy.optimize.linear_sum_assignment, every piece in stock a column of its own.
    dice = random.Random(seed)
    rows, columns = dice.randint(1, 24), dice.randint(1, 12)
    on_hand = [dice.randint(0, 4) for _ in range(columns)]
    costs = [[dice.randint(0, 500) if dice.random() < 0.6 else None for _ in on_hand] for _ in range(rows)]
    pieces = [c for c, n in enumerate(on_hand) for _ in range(n)]
    unserved = 10**6
    square = numpy.full((rows, len(pieces) + rows), unserved)
    for r, row in enumerate(costs):
        for p, c in enumerate(pieces):
            square[r, p] = 10**7 if row[c] is None else row[c]
    at = linear_sum_assignment(square)
    found = assign(costs, on_hand)
    total = sum(costs[r][c] for r, c in enumerate(found.columns) if c is not None)
    assert total + unserved * (rows - found.served) == square[at].sum()


def test_equal_valves_take_the_lowest_columns_in_their_order():
    assert assign([[0, 0, 0]] * 4, [1, 2, None]).columns == (0, 1, 1, 2)


def test_a_valve_that_nothing_fits_stays_without_and_hinders_no_other():
    assert assign([[None, None], [3, 1]], [None, 1]).columns == (None, 1)


def test_serving_one_more_valve_is_worth_any_cost():
    found = assign([[0, 10**12], [0, None]], [1, 1])
    assert (found.columns, found.served) == ((1, 0), 2)


def test_costs_are_compared_first_place_first_however_large_the_second():
    assert assign([[(1, 0), (0, 10**9)]], [None, None]).columns == (1,)


def test_thirty_two_valves_and_a_large_fleet_agree_with_the_independent_solver():
    # Oracle: scipy.optimize.linear_sum_assignment. 32 valves x 60 inserts as on a bench; 400 x 80 as a batch.
    for rows, columns, each in ((32, 60, 1), (400, 80, 6)):
        dice = random.Random(rows)
        costs = [[dice.randint(0, 10_000) for _ in range(columns)] for _ in range(rows)]
        found = assign(costs, [each] * columns)
        matrix = numpy.repeat(numpy.array(costs), each, axis=1)
        assert found.served == rows
        at = linear_sum_assignment(matrix)
        assert sum(costs[r][c] for r, c in enumerate(found.columns)) == matrix[at].sum()


def test_one_size_for_a_set_is_found_where_each_valve_alone_would_take_another():
    costs = [[0, None, 5], [None, 0, 5], [0, None, 5]]
    found = assign_sets(costs, [None, None, 3], [[0, 1, 2]])
    assert (found.columns, found.sizes, found.exact) == ((2, 2, 2), 1, True)


def test_two_sets_that_want_the_same_pieces_share_them_out_with_fewest_sizes():
    costs = [[0, 1, 9]] * 4
    found = assign_sets(costs, [2, 2, 2], [[0, 1], [2, 3]])
    assert (found.columns, found.sizes) == ((0, 0, 1, 1), 2)


def test_a_search_that_is_given_up_says_so_and_still_serves_as_many():
    found = assign_sets([[0, 1], [1, 0]], [2, 1], [[0, 1]], most_trials=0)
    assert (found.exact, found.served, found.columns) == (False, 2, (0, 0))


def test_a_search_that_is_given_up_gives_what_is_short_out_in_whole_lots():
    # Three sets of two, five pieces for them: two pairs each to one set are three sizes in all; valve by valve, five.
    costs, sets = [[1, 2, 3]] * 6, [[0, 3], [1, 4], [2, 5]]
    found = assign_sets(costs, [2, 2, 1], sets, most_trials=0)
    assert (found.exact, found.served, found.sizes) == (True, 5, 3)
    # Three pieces that fit one valve of each set alone go to a set each: no lot is whole then, and five sizes it is.
    costs = [[1 if row < 3 else None, 2, 3] for row in range(6)]
    found = assign_sets(costs, [3, 1, 1], sets, most_trials=0)
    assert (found.served, found.sizes) == (5, 5)


def test_a_search_that_is_given_up_still_strikes_out_sizes_that_nobody_needs():
    # Twelve valves, each with a favourite of its own, three pieces of each insert: four sizes do.
    costs = [[0 if row == column else 1 for column in range(12)] for row in range(12)]
    found = assign_sets(costs, [3] * 12, [range(12)], most_trials=5)
    assert (found.exact, found.served, found.sizes) == (False, 12, 4)


@pytest.mark.parametrize(
    ("costs", "on_hand", "says"),
    [
        ([[1, 2]], [1], "one figure for each insert"),
        ([[1]], [-1], "fewer than no pieces"),
        ([[1, (1, 2)]], [1, 1], "same number of places"),
        ([[(1, 2, 3), (1, 2)]], [1, 1], "same number of places"),
    ],
)
def test_a_table_that_cannot_be_read_is_refused_in_words(costs, on_hand, says):
    with pytest.raises(ValueError, match=says):
        assign(costs, on_hand)


def test_a_valve_in_two_sets_is_refused():
    with pytest.raises(ValueError, match="two sets"):
        assign_sets([[1]], [1], [[0], [0]])
