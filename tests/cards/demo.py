"""The demo jobs' documents, and all of their sheets on one page, so that one start of a browser looks at them all."""

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


def together(pages: dict[str, str]) -> str:
    """One page with the sheets of many, for one paper: each sheet says whose it is."""
    first = next(iter(pages.values()))
    sheets = "".join(
        section.replace("<section ", f'<section data-name="{name}" ', 1)
        for name, page in pages.items()
        for section in re.findall(r"<section .*?</section>\n", page, re.S)
    )
    return re.sub(r"<section .*</section>\n", lambda _: sheets, first, flags=re.S)


def headings(page: str) -> list[str]:
    """The number on each sheet: 1, 2a, 2b, with its full stop."""
    return re.findall(r'<h1><span class="number">([^<]+)</span>', page)
