"""Fast enough, told without a clock: what a command loads, and how many calls it makes for a fixed job.

Counts are the same on every machine, however busy. Where one of them grows on purpose, the figure here is changed, and
the commit says why; where it falls, the figure is brought down, so that what was won stays won.
"""

from __future__ import annotations

import cProfile
import pstats
import subprocess
import sys
from pathlib import Path

import pytest
from tests.whole.shop import JOBS

from seatwright.job import read
from seatwright.planning.planner import plan

JOB = JOBS / "four-valve-aluminium.seat"
LOADED = """
import contextlib, io, sys
from seatwright.commands.main import main
with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
    main(sys.argv[1:])
print(*sys.modules)
"""


def loaded(*words: str) -> set[str]:
    done = subprocess.run([sys.executable, "-c", LOADED, *words, str(JOB)], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


@pytest.mark.parametrize(
    ("words", "never", "of_the_house"),
    [
        (
            ("check",),
            {"pint", "lark", "jinja2", "markdown_it", "seatwright.cards.render", "statistics", "hashlib"},
            286,
        ),
        (
            ("format", "--check"),
            {"pint", "lark", "jinja2", "markdown_it", "seatwright.planning", "seatwright.cards", "hashlib"},
            67,
        ),
        (("plan",), {"pint", "lark", "jinja2", "markdown_it", "seatwright.cards.render", "weasyprint"}, 313),
    ],
    ids=lambda one: one[0] if isinstance(one, tuple) else "",
)
def test_a_command_loads_what_it_uses_and_no_more(words: tuple[str, ...], never: set[str], of_the_house: int) -> None:
    modules = loaded(*words)
    assert not never & modules
    assert sum(name.startswith("seatwright") for name in modules) < 1.1 * of_the_house


def calls(work: object) -> int:
    assert callable(work)
    work()  # patterns compiled, tables made ready
    profile = cProfile.Profile()
    profile.runcall(work)
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


def files(name: str) -> bytes:
    return (Path(JOB).parent / name).read_bytes()


READ, PLAN, CARDS = 58_600, 57_300, 114_700


def test_the_calls_of_reading_planning_and_printing_are_no_more_than_a_tenth_over_what_is_recorded() -> None:
    from seatwright.cards.render import documents

    job, _ = read(JOB.name, files)
    assert job is not None
    made = plan(job)
    counted = (calls(lambda: read(JOB.name, files)), calls(lambda: plan(job)), calls(lambda: documents(made)))
    for now, recorded in zip(counted, (READ, PLAN, CARDS), strict=True):
        assert now < 1.1 * recorded, counted
