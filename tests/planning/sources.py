"""The demo jobs planned from their text, with lines changed on the way in."""

from __future__ import annotations

from pathlib import Path

from seatwright.job import read
from seatwright.planning.plan import Plan
from seatwright.planning.planner import plan

JOBS = Path(__file__).parents[2] / "jobs"


def planned(name: str, *changes: tuple[str, str, str]) -> Plan:
    """A demo job planned. changes : (file, what stands in it once, what is to stand there)"""

    def load(file: str) -> bytes:
        text = (JOBS / file).read_text("utf-8")
        for changed, old, new in changes:
            if changed == file:
                assert text.count(old) == 1, (file, old)
                text = text.replace(old, new)
        return text.encode()

    job, messages = read(name, load)
    assert job is not None, [message.text for message in messages]
    return plan(job)
