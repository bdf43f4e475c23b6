"""Plans of the demo jobs, and the text of a card of them."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from seatwright.cards.render import documents
from seatwright.job import read
from seatwright.planning import planner
from seatwright.planning.plan import Plan

JOBS = Path(__file__).parents[2] / "jobs"


@cache
def planned(name: str, *changes: tuple[str, str]) -> Plan:
    """A demo job; changes: what stands in its files, and what stands there instead. Each must be found."""
    left = list(changes)

    def file(path: str) -> bytes:
        words = (JOBS / path).read_text("utf-8")
        for change in changes:
            if change[0] in words:
                words = words.replace(*change)
                if change in left:
                    left.remove(change)
        return words.encode()

    job, messages = read(f"{name}.seat", file)
    assert job is not None, messages
    assert not left, left
    return planner.plan(job)


def with_a_worn_guide() -> Plan:
    """The diesel as it came in: the guide of E2 is worn, nothing is planned of it, and its valve is on hold."""
    words = (JOBS / "four-cylinder-diesel.seat").read_text("utf-8")
    asks, since = words[words.index("valves E2\n") :].partition("\n\n")[0], words.index("# The old guide of E2")
    return planned("four-cylinder-diesel", (asks, ""), (words[since:], ""))


def text(plan: Plan, title: str) -> str:
    """The Markdown of all cards whose title begins so."""
    found = documents(plan).markdown.split("\n---\n")
    return "\n".join(each for each in found if re.search(rf"^# \d+\. {title}", each, re.M))
