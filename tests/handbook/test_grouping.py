"""Fewest settings, against every possible set of settings."""

from __future__ import annotations

import itertools
import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seatwright.handbook.grouping import Grouping, fewest_points

STEPS = range(11)


@st.composite
def valves(draw):
    ends = st.tuples(st.integers(0, 10), st.integers(0, 10)).map(lambda pair: tuple(sorted(pair)))
    windows = draw(st.lists(ends, max_size=8))
    return windows, [draw(st.floats(lo - 2, hi + 2, allow_nan=False)) for lo, hi in windows]


def fewest_by_trying_all(windows):
    def serve_all(points):
        return all(any(lo <= p <= hi for p in points) for lo, hi in windows)

    return next(n for n in itertools.count() if any(map(serve_all, itertools.combinations(STEPS, n))))


@settings(max_examples=400, deadline=None)
@given(valves())
def test_no_fewer_settings_can_serve_all_valves(given_valves):
    windows, aims = given_valves
    assert len(fewest_points(windows, aims).groups) == fewest_by_trying_all(windows)


@settings(max_examples=400, deadline=None)
@given(valves())
def test_the_proof_names_as_many_windows_as_groups_and_no_two_share_a_step(given_valves):
    windows, aims = given_valves
    grouping = fewest_points(windows, aims)
    assert len(grouping.proof) == len(grouping.groups)
    for one, other in itertools.combinations(grouping.proof, 2):
        assert windows[one][1] < windows[other][0] or windows[other][1] < windows[one][0]


@settings(max_examples=400, deadline=None)
@given(valves())
def test_every_valve_is_in_one_group_whose_setting_its_window_holds(given_valves):
    windows, aims = given_valves
    groups = fewest_points(windows, aims).groups
    assert sorted(at for group in groups for at in group.members) == list(range(len(windows)))
    for group in groups:
        assert all(windows[at][0] <= group.point <= windows[at][1] for at in group.members)
        assert group.least <= group.point <= group.most
    assert [group.point for group in groups] == sorted({group.point for group in groups})


@settings(max_examples=400, deadline=None)
@given(valves())
def test_within_a_group_no_other_step_departs_less(given_valves):
    windows, aims = given_valves
    for group in fewest_points(windows, aims).groups:
        shared = [p for p in STEPS if all(windows[at][0] <= p <= windows[at][1] for at in group.members)]
        least = min(max(abs(aims[at] - p) for at in group.members) for p in shared)
        assert group.departure == pytest.approx(least, abs=1e-8)
        assert (group.least, group.most) == (shared[0], shared[-1])


def test_of_two_equally_good_steps_the_smaller_is_taken():
    assert fewest_points([(0, 9)], [4.5]).groups[0].point == 4
    assert fewest_points([(0, 9), (0, 9)], [2, 5]).groups[0].point == 3


def test_a_window_that_holds_a_neighbouring_setting_goes_where_it_departs_least():
    # By upper ends alone the third valve falls to the lower setting, 3.5 steps from its aim.
    groups = fewest_points([(0, 4), (8, 10), (4, 9)], [2, 9, 8.5]).groups
    assert [(group.point, group.members) for group in groups] == [(2, (0,)), (9, (1, 2))]


def test_windows_that_overlap_only_between_steps_need_two_settings():
    # Worked check 25: 44.0103-44.0185 and 44.0183-44.0245 share 44.0184, but no 0.002 step.
    windows = [(22006, 22009), (22010, 22012)]
    assert len(fewest_points(windows, [22007.2, 22010.7]).groups) == 2


def test_no_valves_need_no_setting():
    assert fewest_points([], []) == Grouping((), ())


def test_a_window_without_a_step_is_refused_in_words():
    with pytest.raises(ValueError, match="holds no step"):
        fewest_points([(5, 4)], [4.5])


def test_lists_of_different_length_are_refused():
    with pytest.raises(ValueError, match="1 windows but 0 aims"):
        fewest_points([(1, 2)], [])


class Counted(int):
    """A step that counts how often it is compared."""

    comparisons = 0

    def _compare(self, other, result):
        Counted.comparisons += 1
        return result

    def __lt__(self, other):
        return self._compare(other, int(self) < other)

    def __gt__(self, other):
        return self._compare(other, int(self) > other)

    def __le__(self, other):
        return self._compare(other, int(self) <= other)

    def __ge__(self, other):
        return self._compare(other, int(self) >= other)

    def __eq__(self, other):
        return self._compare(other, int(self) == other)

    __hash__ = int.__hash__


def comparisons_for(count):
    dice = random.Random(count)
    starts = [dice.randint(0, 50 * count) for _ in range(count)]
    windows = [(Counted(start), Counted(start + dice.randint(0, 200))) for start in starts]
    aims = [(lo + hi) / 2 for lo, hi in windows]
    Counted.comparisons = 0
    grouping = fewest_points(windows, aims)
    assert len(grouping.groups) > count // 20
    return Counted.comparisons


def test_ten_thousand_windows_take_work_that_grows_as_n_log_n():
    small, large = comparisons_for(1_000), comparisons_for(10_000)
    assert large <= 8 * 10_000 * math.log2(10_000)
    assert large / small <= 10 * math.log2(10_000) / math.log2(1_000) * 1.15
