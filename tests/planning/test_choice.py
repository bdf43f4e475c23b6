"""The choice over one stock with bridges between, held against every choice there is."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as some
from msgspec.structs import replace
from tests.planning import jobs

from seatwright.planning.inserts.choice import ThinPair, ToServe, choose
from seatwright.planning.plan.figure import assumed
from seatwright.planning.serves.bores import BoreWindow
from seatwright.planning.serves.candidates import Candidate
from seatwright.planning.serves.offers import stock_offers
from seatwright.planning.serves.whose_interference import FitLimits

SIZES = (44.0, 44.5, 45.0, 45.5)


def candidates(fitting):
    """A candidate of each size that fits, its bore at 0.1 below its od."""
    shop = jobs.shop(inserts=tuple(jobs.insert(f"S{place}", od) for place, od in enumerate(SIZES)))
    fit = FitLimits(assumed("I_least", "mm", 0.1, "test"), assumed("I_most", "mm", 0.1, "test"), "test")
    made = []
    for offer in stock_offers(jobs.job(shop=shop)):
        if offer.stock in fitting:
            bore = replace(offer.od, value=offer.od.value - 0.1)
            made.append(Candidate(offer, fit, BoreWindow(bore, bore, bore), None))
    return tuple(made)


def every_choice(rows, on_hand, pairs):
    """The best worth of all choices: valves without, sizes in the set, sum of ods."""
    best = None
    for picked in product(*([None, *row.candidates] for row in rows)):
        counts = {}
        for one in picked:
            if one is not None:
                counts[one.offer.stock] = counts.get(one.offer.stock, 0) + 1
        if any(on_hand[place] is not None and count > on_hand[place] for place, count in counts.items()):
            continue
        bores = {row.valve: one.bore.most.value for row, one in zip(rows, picked, strict=True) if one}
        if any(
            pair.first in bores and pair.second in bores and bores[pair.first] + bores[pair.second] > pair.room + 1e-9
            for pair in pairs
        ):
            continue
        worth = worth_of(rows, picked)
        best = worth if best is None or worth < best else best
    return best


def worth_of(rows, picked):
    members = [row for row in rows if row.in_set and row.candidates]
    counts = len(members) > 1  # a set of one valve has nothing to share
    in_set = {one.offer.stock for row, one in zip(rows, picked, strict=True) if one and row.in_set and counts}
    ods = sum(round(one.offer.od.value * 10) for one in picked if one)
    return -sum(one is not None for one in picked), len(in_set), ods


@given(some.data())
def test_no_choice_there_is_beats_the_one_that_is_made(data):
    count = data.draw(some.integers(1, 4))
    fits = some.sets(some.integers(0, len(SIZES) - 1), max_size=len(SIZES))
    rows = [
        ToServe(f"E{number}", candidates(data.draw(fits)), ("set",) if data.draw(some.booleans()) else None)
        for number in range(count)
    ]
    on_hand = {place: data.draw(some.sampled_from([0, 1, 2, None])) for place in range(len(SIZES))}
    pairs = [
        ThinPair(f"E{number}", f"E{number + 1}", data.draw(some.sampled_from([87.8, 88.3, 88.8, 89.3, 91.0])))
        for number in range(count - 1)
    ]
    found = choose(rows, on_hand, pairs)
    picked = [found.chosen[row.valve] for row in rows]
    assert found.exact
    assert not found.left_thin
    assert worth_of(rows, picked) == every_choice(rows, on_hand, pairs)


def test_without_bridges_each_takes_its_smallest():
    rows = [ToServe("E1", candidates({1, 2})), ToServe("E2", candidates({0, 3}))]
    found = choose(rows, dict.fromkeys(range(4)), ())
    assert [found.chosen[name].offer.name for name in ("E1", "E2")] == ["S1", "S0"]
