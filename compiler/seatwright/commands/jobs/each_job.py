"""The same work on every job of a command: one after another, or many of them side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

from seatwright.commands.disk.files import STANDARD_INPUT

_Result = TypeVar("_Result")


def each_job(
    work: Callable[[str], _Result],
    jobs: Sequence[str],
    at_once: int | None,
    fewest: int,
    warm: Callable[[], object],
    lost: Callable[[str, str], _Result],
    done: Callable[[int], None] = lambda _: None,
) -> Iterator[_Result]:
    """What the work comes to for each job, in their order.

    at_once: how many side by side; None: as many as there are processors. fewest: below so many jobs one process has
    done them before others have begun. warm: loads what the work needs, before it is split up. lost: what a job comes
    to whose process ended over it, and how it ended. done: told after each job how many are done. A job from standard
    input is read by this process alone, so that one and the others are done here.
    """
    if at_once == 1 or len(jobs) < fewest or STANDARD_INPUT in jobs:
        for count, job in enumerate(jobs, 1):
            yield work(job)
            done(count)
        return
    from seatwright.commands.jobs.side_by_side import processors, shared_out

    warm()
    yield from shared_out(work, jobs, at_once or processors(), lost, done)
