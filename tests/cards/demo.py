"""The demo jobs' documents."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from seatwright.cards.render import Documents, documents
from seatwright.job import read
from seatwright.planning import planner
from seatwright.planning.plan import Plan

JOBS = Path(__file__).parents[2] / "jobs"
DEMO_JOBS = sorted(path.stem for path in JOBS.glob("*.seat"))


@cache
def plan_of(name: str) -> Plan:
    """The plan of a demo job."""
    job, messages = read(f"{name}.seat", lambda path: (JOBS / path).read_bytes())
    assert job is not None, messages
    return planner.plan(job)


@cache
def made(name: str, paper: str) -> Documents:
    """Its documents, as from a clean tree."""
    return documents(plan_of(name), paper=paper, commit="0" * 40)


def headings(page: str) -> list[str]:
    """The number on each sheet."""
    return re.findall(r'<h1><span class="no">([^<]+)</span>', page)
