"""What a command over many jobs adds to reading and planning a job, told without a clock; and that jobs are let go."""

from __future__ import annotations

import cProfile
import gc
import pstats
from collections.abc import Callable

from msgspec.structs import replace
from tests.whole.shop import JOBS

from seatwright.job import read
from seatwright.over_jobs.history.read_off import history_of
from seatwright.over_jobs.history.whole import whole_history
from seatwright.over_jobs.stock.pieces import pieces_of
from seatwright.over_jobs.stock.shelves import standings
from seatwright.over_jobs.stock.to_order import ordering_of
from seatwright.over_jobs.table.paths import paths_below
from seatwright.over_jobs.table.rows import table_rows
from seatwright.planning.plan import Plan
from seatwright.planning.planner import plan


def planned(name: str) -> Plan:
    job, _ = read(name, lambda each: (JOBS / each).read_bytes())
    assert job is not None
    return plan(job)


def calls(work: Callable[[], object]) -> int:
    work()  # what is made ready once is made ready
    profile = cProfile.Profile()
    profile.runcall(work)
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


def test_the_rows_of_a_job_cost_a_small_part_of_its_plan() -> None:
    made = planned("four-valve-aluminium.seat")
    shelves = {each.path: each.path for each in made.job.sources}
    paths = [path for word in ("bore", "cut", "insert") for path in paths_below(word)]
    whole = calls(lambda: plan(made.job))
    assert calls(lambda: pieces_of(made, "a.seat", shelves, replace)) < 0.05 * whole
    assert calls(lambda: table_rows(made, "a.seat", paths, inch=False)) < 0.18 * whole, f"{len(paths)} columns"


def test_the_history_of_a_job_costs_a_small_part_of_its_plan_most_where_all_is_cut() -> None:
    for name in ("four-valve-aluminium.seat", "half-way.seat", "ready-to-leave.seat"):
        made = planned(name)
        shelves = {each.path: each.path for each in made.job.sources}
        whole = calls(lambda made=made: plan(made.job))  # type: ignore[misc]
        told = calls(lambda made=made, shelves=shelves: history_of(made, "a.seat", shelves, replace))  # type: ignore[misc]
        assert told < 0.12 * whole, name


def test_the_history_of_four_times_as_many_jobs_takes_four_times_as_long() -> None:
    made = planned("half-way.seat")
    one = history_of(made, "a.seat", {each.path: each.path for each in made.job.sources}, replace)

    def summed(count: int) -> Callable[[], object]:
        jobs = [replace(one, number=str(at), file=f"{at}.seat") for at in range(count)]
        return lambda: whole_history(jobs)

    summed(400)()  # the factors of so many bores are reckoned with a root finder, once each
    assert calls(summed(400)) < 4.5 * calls(summed(100))


def test_summing_up_grows_with_the_jobs_and_not_faster() -> None:
    made = planned("half-way.seat")
    shelves = {each.path: each.path for each in made.job.sources}
    one = pieces_of(made, "a.seat", shelves, replace)

    def summed(count: int) -> Callable[[], object]:
        jobs = [replace(one, number=str(at), file=f"{at}.seat") for at in range(count)]
        return lambda: ordering_of(standings(jobs), jobs)

    assert calls(summed(400)) < 4.5 * calls(summed(100))


def test_the_rows_of_a_job_hold_nothing_of_its_plan() -> None:
    made = planned("half-way.seat")
    pieces = pieces_of(made, "a.seat", {each.path: each.path for each in made.job.sources}, replace)
    rows = table_rows(made, "a.seat", ["bore.aim"], inch=False)
    told = history_of(made, "a.seat", {each.path: each.path for each in made.job.sources}, replace)
    kept = {type(each).__module__ for each in _reached((pieces, rows, told))}
    assert not {module for module in kept if module.startswith(("seatwright.planning", "seatwright.job"))}


def _reached(start: object) -> list[object]:
    found: dict[int, object] = {}
    waiting = [start]
    while waiting:
        each = waiting.pop()
        if id(each) not in found and not isinstance(each, type):
            found[id(each)] = each
            waiting += gc.get_referents(each)
    return list(found.values())
