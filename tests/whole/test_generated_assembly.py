"""How inserts go in, for any job: nothing is pressed that heat and chill of the shop let in."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from tests.whole.generated import Files, jobs

from seatwright.job import read
from seatwright.planning.plan import AssemblyPlan
from seatwright.planning.planner import plan

SLIP = 0.03


def ways(files: Files) -> list[AssemblyPlan]:
    job, messages = read("job.seat", files.load)
    assert job is not None, [message.text for message in messages if message.severity == "error"]
    return [valve.assembly for valve in plan(job).valves if valve.assembly is not None]


@pytest.mark.slow
@settings(max_examples=300, deadline=None)
@given(jobs(most_valves=4))
def test_no_insert_is_pressed_where_a_pair_of_heat_and_chill_gives_a_push(files: Files) -> None:
    for way in ways(files):
        rooms = [pair.clearance.value for pair in way.pairs]
        if max(rooms) >= 0:
            assert way.kind != "press" or way.clearance.value >= max(rooms) - 1e-4
        assert way.kind == "drop-in" or way.clearance.value == max(rooms) or way.clearance.value > max(rooms) - 1e-4


@pytest.mark.slow
@settings(max_examples=300, deadline=None)
@given(jobs(most_valves=4))
def test_the_head_is_heated_again_only_between_the_room_and_what_it_was_heated_to(files: Files) -> None:
    for way in ways(files):
        if way.reheat_below_C is not None:
            assert way.kind != "press"
            assert min(pair.heat_C.value for pair in way.pairs) < way.reheat_below_C.value <= way.head_C.value
