"""Planning costs no more a valve in a long head than in a short one."""

from __future__ import annotations

import cProfile
import pstats
import time
from pathlib import Path

import pytest
from tests.bench.speed import JOBS, many_valves

from seatwright.job import read
from seatwright.job.model import Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.planner import plan


def long_job(folder: Path, valves: int) -> Job:
    for shop in JOBS.glob("*.shop"):
        (folder / shop.name).write_bytes(shop.read_bytes())
    name = many_valves(folder, valves).name
    job, messages = read(name, lambda file: (folder / file).read_bytes())
    assert job is not None, messages
    assert {valve.status for valve in plan(job).valves} == {"to-bore"}
    return job


def calls(job: Job) -> int:
    profile = cProfile.Profile()
    profile.enable()
    plan(job)
    profile.disable()
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


@pytest.mark.slow
def test_ten_times_the_valves_take_ten_times_the_calls(tmp_path):
    # Calls, not seconds: they are the same on every machine, however busy.
    few, many = (calls(long_job(tmp_path, valves)) / valves for valves in (32, 320))
    assert many / few < 1.1


def test_a_message_of_ten_thousand_valves_is_gathered_a_valve_at_a_time():
    findings = Findings()
    start = time.process_time()
    for number in range(10_000):
        findings.unchecked("slug", "text", "help", None, (f"I{number}",))
    assert len(findings.messages()[0].valves) == 10_000
    # Gathered anew with every valve it takes many seconds.
    assert time.process_time() - start < 1.0
