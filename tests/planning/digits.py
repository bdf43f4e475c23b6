"""Job files with one measured digit changed, and plans made of their text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from seatwright.job import read
from seatwright.planning.plan import Plan
from seatwright.planning.planner import plan

JOBS = Path(__file__).parents[2] / "jobs"
_CELL = re.compile(r"(?<=[\s/])\d+\.\d+(?=[\s/]|$)")


def text_of(name: str) -> str:
    return (JOBS / name).read_text("utf-8")


def planned(text: str) -> Plan:
    """The plan of a job's text with the shop files of the demo jobs."""
    made = plan_or_none(text)
    assert made is not None, "the job has errors"
    return made


def plan_or_none(text: str, name: str = "job.seat") -> Plan | None:
    """The same, None where the text has an error."""

    def load(path: str) -> bytes:
        return text.encode("utf-8") if path == name else (JOBS / path).read_bytes()

    job, _ = read(name, load)
    return None if job is None else plan(job)


def one_digit_changed(text: str, sections: tuple[str, ...] = ("measured",)) -> Iterator[tuple[str, str]]:
    """The text with the last digit of one cell put up by one (a 9 down), for every cell; and the valve of that cell."""
    at, section = 0, ""
    for line in text.splitlines(keepends=True):
        said = line.split("#")[0]
        words = said.split()
        if words and not line[0].isspace():
            section = words[0]
        elif words and section in sections and words[0] != "valve":
            for cell in _CELL.finditer(said):
                last = cell.group()[-1]
                other = str(int(last) + 1) if last != "9" else "8"
                place = at + cell.end() - 1
                yield text[:place] + other + text[place + 1 :], words[0]
        at += len(line)
