"""A short stock: the quick answers held against every choice there is, and against a solver of whole-number programs.

Oracle of the small cases: every choice tried out. Of the large ones: HiGHS, and the bound that proves one-piece stock.
"""

from __future__ import annotations

import random
from itertools import product

import pytest
from tests.planning import jobs

from seatwright.handbook.assignment import assign, assign_sets, assign_sets_proved
from seatwright.handbook.short_stock import sizes_at_least, whole_lots, worth_keeping
from seatwright.planning.inserts import choice, solver
from seatwright.planning.inserts.choice import ThinPair, ToServe, choose
from seatwright.planning.plan.figure import assumed
from seatwright.planning.serves.bores import BoreWindow
from seatwright.planning.serves.candidates import Candidate
from seatwright.planning.serves.offers import stock_offers
from seatwright.planning.serves.whose_interference import FitLimits

FIT = FitLimits(assumed("I_least", "mm", 0.1, "test"), assumed("I_most", "mm", 0.1, "test"), "test")
ENDS = [choice._Effort(0, 0, 0)]
"""A search that is given up before it begins."""


def offers(ods):
    shop = jobs.shop(inserts=tuple(jobs.insert(f"S{place}", od) for place, od in enumerate(ods)))
    return stock_offers(jobs.job(shop=shop))


def candidate(offer):
    bore = assumed("bore", "mm", round(offer.od.value - 0.1, 6), "test")
    return Candidate(offer, FIT, BoreWindow(bore, bore, bore), None)


def stock_of(dice, sizes, valves, sets, pieces, *, bridges=0.0, all_above=False, loose=True):
    """Rows, stock and thin pairs by chance. all_above: a valve takes every size from its least on, as bores do."""
    made = [candidate(offer) for offer in offers([round(44 + 0.1 * place, 1) for place in range(sizes)])]
    rows = []
    for number in range(valves):
        least = dice.randrange(sizes * 2 // 3 + 1)
        fits = made[least:] if all_above else [one for one in made if dice.random() < 0.6]
        in_set = dice.randrange(sets + 1) if loose else 1 + dice.randrange(sets)
        rows.append(ToServe(f"E{number}", tuple(fits), (in_set,) if in_set else None))
    on_hand = {place: dice.choice(pieces) for place in range(sizes)}
    pairs = [
        ThinPair(f"E{number}", f"E{number + 1}", dice.choice([87.9, 88.2, 88.5, 88.8]))
        for number in range(valves - 1)
        if dice.random() < bridges
    ]
    return rows, on_hand, pairs


def shared(rows):
    """The sets of more than one valve that anything serves."""
    sets = {}
    for at, row in enumerate(rows):
        if row.in_set is not None and row.candidates:
            sets.setdefault(row.in_set, []).append(at)
    return [members for members in sets.values() if len(members) > 1]


def worth_of(rows, picked):
    """Served (more first), sizes in the sets, sum of the ods."""
    sizes = sum(len({picked[at].offer.stock for at in members if picked[at]}) for members in shared(rows))
    served = [one for one in picked if one]
    return -len(served), sizes, sum(round(one.offer.od.value * 10) for one in served)


def allowed(rows, on_hand, pairs, picked):
    """Whether there are pieces and metal enough."""
    stock = [one.offer.stock for one in picked if one]
    if any(on_hand[place] is not None and stock.count(place) > on_hand[place] for place in set(stock)):
        return False
    bores = {row.valve: one.largest_bore for row, one in zip(rows, picked, strict=True) if one}
    return not any(bores.get(p.first, -99) + bores.get(p.second, -99) > p.room + 1e-9 for p in pairs)


def best_of_all(rows, on_hand, pairs):
    every = product(*([None, *row.candidates] for row in rows))
    return min(worth_of(rows, picked) for picked in every if allowed(rows, on_hand, pairs, picked))


def picked_of(rows, found):
    return [found.chosen[row.valve] for row in rows]


def small(seed):
    dice = random.Random(seed)
    return stock_of(dice, 4, dice.randint(2, 5), dice.randint(1, 2), [1, 1, 2, 3, 4], bridges=0.5)


@pytest.mark.parametrize("first", range(0, 500, 100))
def test_no_choice_there_is_beats_the_one_that_is_made(first):
    for seed in range(first, first + 100):
        rows, on_hand, pairs = small(seed)
        found = choose(rows, on_hand, pairs)
        picked = picked_of(rows, found)
        assert found.exact, seed
        assert allowed(rows, on_hand, pairs, picked), seed
        assert worth_of(rows, picked) == best_of_all(rows, on_hand, pairs), seed


@pytest.mark.parametrize("first", range(0, 500, 100))
def test_the_solver_alone_finds_the_best_of_all(first, monkeypatch):
    pytest.importorskip("highspy")
    monkeypatch.setattr(choice, "_SHORT", ENDS[0])
    for seed in range(first, first + 100):
        rows, on_hand, pairs = small(seed)
        found = choose(rows, on_hand, pairs)
        picked = picked_of(rows, found)
        assert found.exact, seed
        assert allowed(rows, on_hand, pairs, picked), seed
        assert worth_of(rows, picked) == best_of_all(rows, on_hand, pairs), seed


@pytest.mark.slow
@pytest.mark.parametrize("first", range(0, 200, 50))
def test_one_piece_of_each_size_is_proved_by_counting_as_the_solver_has_it(first):
    highspy = pytest.importorskip("highspy")
    for seed in range(first, first + 50):
        dice = random.Random(seed)
        sizes, valves = dice.randint(20, 60), dice.randint(12, 32)
        rows, on_hand, _ = stock_of(dice, sizes, valves, 2, [1], all_above=True, loose=False)
        problem = choice._Problem(rows, on_hand, ())
        free = assign(problem.costs, problem.on_hand)
        counted = sum(len({free.columns[row] for row in members} - {None}) for members in problem.sets)
        assert counted == sizes_at_least(problem.costs, problem.on_hand, problem.sets, free.served), seed
        solved = problem.asked(highspy)
        found = choose(rows, on_hand, ())
        assert found.exact
        assert solved.exact, seed
        assert worth_of(rows, picked_of(rows, found)) == worth_of(rows, picked_of(rows, solved)), seed


def worth_of_columns(problem, found):
    sizes = sum(len({found.columns[row] for row in members} - {None}) for members in problem.sets)
    total = sum(line[at] for line, at in zip(problem.costs, found.columns, strict=True) if at is not None)
    return -found.served, sizes, total


def without_a_search(problem):
    return assign_sets_proved(problem.costs, problem.on_hand, problem.sets, 0)


def test_what_is_proved_without_a_search_is_the_best_of_all_choices():
    proved, by_lots = 0, 0
    for seed in range(500):
        dice = random.Random(seed)
        rows, on_hand, _ = stock_of(dice, 4, dice.randint(2, 5), 2, [1, 1, 2, 2], all_above=seed % 2 == 0)
        problem = choice._Problem(rows, on_hand, ())
        found = without_a_search(problem)
        if found is not None:
            proved += 1
            by_lots += found.columns != assign(problem.costs, problem.on_hand).columns
            served, sizes, total = worth_of_columns(problem, found)
            assert (served, sizes, total / 100_000) == best_of_all(rows, on_hand, ()), seed
    assert proved > 100
    assert by_lots > 5


@pytest.mark.slow
def test_many_sets_that_use_the_stock_up_are_proved_by_whole_lots_as_the_solver_has_it():
    highspy = pytest.importorskip("highspy")
    proved = 0
    for seed in range(60):
        dice = random.Random(seed)
        rows, on_hand, _ = stock_of(dice, 16, 48, 6, [1, 1, 2, 2, 3, 4], all_above=True, loose=False)
        problem = choice._Problem(rows, on_hand, ())
        found = without_a_search(problem)
        if found is not None:
            proved += 1
            solved = problem.asked(highspy)
            assert allowed(
                rows,
                on_hand,
                (),
                [problem.candidates[at][to] if to is not None else None for at, to in enumerate(found.columns)],
            ), seed
            assert solved.exact, seed
            assert problem.worth(solved) == (0, *worth_of_columns(problem, found)), seed
    assert proved > 20


def test_whole_lots_give_out_no_more_of_an_insert_than_the_choice_that_they_are_made_of():
    for seed in range(100):
        dice = random.Random(seed)
        rows, on_hand, _ = stock_of(dice, 12, 20, 4, [1, 2, 3, None])
        problem = choice._Problem(rows, on_hand, ())
        free = assign(problem.costs, problem.on_hand)
        lots = whole_lots(problem.costs, free.columns, problem.sets)
        for members, taken in zip(problem.sets, lots, strict=True):
            assert len(taken) <= len(members)
            assert all(any(problem.costs[row][column] is not None for row in members) for column in taken)
            assert taken <= set(free.columns)
        given_up = assign_sets(problem.costs, problem.on_hand, problem.sets, 0)
        assert given_up.served == free.served
        assert given_up.sizes >= sizes_at_least(problem.costs, problem.on_hand, problem.sets, free.served)


def test_a_choice_is_the_same_at_every_run_and_what_is_said_to_be_proved_is_no_worse_without_a_search(monkeypatch):
    pytest.importorskip("highspy")
    for seed in range(12):
        dice = random.Random(seed)
        rows, on_hand, pairs = stock_of(dice, 24, 16, 2, [1, 1, 2, 3, 4], bridges=0.2, all_above=True)
        found = choose(rows, on_hand, pairs)
        assert found == choose(rows, on_hand, pairs)
        with monkeypatch.context() as given_up:
            given_up.setattr(choice, "_SHORT", ENDS[0])
            solved = choose(rows, on_hand, pairs)
        assert allowed(rows, on_hand, pairs, picked_of(rows, solved))
        if found.exact and solved.exact:
            assert worth_of(rows, picked_of(rows, found)) == worth_of(rows, picked_of(rows, solved))


def test_without_the_solver_a_long_search_says_that_it_is_not_proved(monkeypatch):
    monkeypatch.setattr(choice, "installed", lambda: None)
    monkeypatch.setattr(choice, "_LONG", choice._Effort(4, 20, 10**6))
    dice = random.Random(3)
    rows, on_hand, _ = stock_of(dice, 24, 16, 2, [1, 1, 2, 3], all_above=True)
    monkeypatch.setattr(choice, "_SHORT", ENDS[0])
    found = choose(rows, on_hand, ())
    assert not found.exact
    assert allowed(rows, on_hand, (), picked_of(rows, found))


def test_the_solver_prints_nothing(capfd):
    highspy = pytest.importorskip("highspy")
    costs = [[1, 2, 3], [1, 2, 3]]
    short = solver.Short(costs, [[None] * 3] * 2, [1, 1, 1], [[0, 1]], ())
    assert solver.hint(highspy, short, assign(costs, [1, 1, 1])).proved
    assert capfd.readouterr().out == ""


def test_what_no_best_choice_takes_is_left_out_and_nothing_else():
    for seed in range(300):
        dice = random.Random(seed)
        rows, on_hand, pairs = stock_of(dice, 5, dice.randint(1, 4), 1, [0, 1, 2, None], bridges=0.5)
        limited = {valve for pair in pairs for valve in (pair.first, pair.second)}
        costs, bores = [], []
        for row in rows:
            by_place = {one.offer.stock: one for one in row.candidates}
            costs.append([round(by_place[at].offer.od.value * 10) if at in by_place else None for at in range(5)])
            there = row.valve in limited
            bores.append([by_place[at].largest_bore if at in by_place and there else None for at in range(5)])
        kept = set(worth_keeping(costs, [on_hand[at] for at in range(5)], bores))
        narrowed = [
            ToServe(row.valve, tuple(one for one in row.candidates if one.offer.stock in kept), row.in_set)
            for row in rows
        ]
        of_all = best_of_all(rows, on_hand, pairs)
        assert (
            min(
                worth_of(rows, picked)
                for picked in product(*([None, *row.candidates] for row in narrowed))
                if allowed(rows, on_hand, pairs, picked)
            )
            == of_all
        ), seed
    assert worth_keeping([[1, 2], [1, 2]], [1, 5]) == [0, 1]
