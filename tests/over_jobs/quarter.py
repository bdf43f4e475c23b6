"""The demo folder of a quarter, read to the rows of the history; a line changed on the way in."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from msgspec.structs import replace

from seatwright.job import read
from seatwright.over_jobs.history.read_off import history_of
from seatwright.over_jobs.history.rows import JobHistory
from seatwright.over_jobs.history.runs import Run
from seatwright.over_jobs.history.whole import History, whole_history
from seatwright.planning.planner import plan

QUARTER = Path(__file__).resolve().parents[2] / "jobs" / "quarter"


def rows_of(path: str, *changes: tuple[str, str, str], folder: Path = QUARTER) -> JobHistory:
    """What one job tells. changes : (file, what stands in it once, what is to stand there)"""

    def load(file: str) -> bytes:
        text = (folder / file).read_text("utf-8")
        for changed, old, new in changes:
            if changed == file:
                assert text.count(old) == 1, (file, old)
                text = text.replace(old, new)
        return text.encode()

    job, messages = read(path, load)
    assert job is not None, [message.text for message in messages]
    return history_of(plan(job), path, {source.path: source.path for source in job.sources}, replace)


@cache
def quarter(*changes: tuple[str, str, str]) -> tuple[JobHistory, ...]:
    """All jobs of the quarter, in order of path."""
    return tuple(rows_of(path.name, *changes) for path in sorted(QUARTER.glob("*.seat")))


@cache
def quarters_history(*changes: tuple[str, str, str]) -> History:
    """What they tell together."""
    return whole_history(quarter(*changes))


def run_of(found: History, cutter: str, material: str, tip: str = "") -> Run:
    """The bores of a cutter in a material with a tip."""
    [run] = [each for each in found.runs if each.group[1:] == (cutter, material, tip)]
    return run
