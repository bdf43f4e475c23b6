"""Opening a bore that came out small: from what that very setting bored (handbook 6)."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from seatwright.job import read
from seatwright.planning.planner import plan

MESSAGES = Path(__file__).parents[1] / "messages"


def opened(reads: float, bored: float, more=()):
    """The job of `bore-small`, E1 read and bored so; more: (what, by what) in any of its files."""
    text = (MESSAGES / "bore-small.seat").read_text("utf-8")
    cells = [bored, bored, bored, bored]
    row = f"  E1 C2 {reads:.3f} {' '.join(f'{each:.4f}' for each in cells)} 8.05 8.05 8.05 8.05"
    text = re.sub(r"(?m)^  E1 +C2 .*$", row, text)

    def load(name: str) -> bytes:
        found = text if name == "job.seat" else (MESSAGES / name).read_text("utf-8")
        for what, by in more:
            found = found.replace(what, by)
        return found.encode()

    job, messages = read("job.seat", load)
    assert job is not None, messages
    made = plan(job)
    return made, next(valve for valve in made.valves if valve.name == "E1")


def test_it_starts_from_the_reading_that_bored_it_and_not_from_the_overcut_of_the_shop():
    # Read 40.502, came to 40.5065: opened by what is missing to 40.536, whatever the shop's overcut of 0.006 would say.
    made, valve = opened(40.502, 40.5065)
    setting = next(each for each in made.settings if "E1" in each.valves)
    assert valve.cut.new_reading.value == setting.reading.value
    assert valve.cut.new_reading.value - 40.502 == pytest.approx(valve.cut.open_by.value, abs=1e-4)
    assert valve.cut.new_reading.value == pytest.approx(40.502 + 40.536 - 40.5065, abs=0.0011)
    assert setting.overcut.from_ == "bore"
    assert setting.first is None
    assert "setting-moved" not in {each.slug for each in made.messages}


@settings(max_examples=15, deadline=None)
@given(off=some.integers(-4, 4), small=some.integers(15, 60))
def test_followed_the_bore_comes_inside_its_limits_whatever_the_cutter_did_over_its_setting(off, small):
    bored = 40.536 - small / 1000
    reads = round(bored - 0.006 - off / 1000, 3)
    made, valve = opened(reads, bored)
    if valve.cut.verdict != "bore-again":
        return
    assert "setting-moved" not in {each.slug for each in made.messages}
    again = bored + valve.cut.new_reading.value - reads
    assert valve.bore.bench_least.value <= again <= valve.bore.bench_most.value


def test_far_off_the_overcut_in_use_something_moved_and_it_is_opened_by_half():
    # Meant to bore 0.006 over, bored 0.024 under: three spreads are 0.006, twice the step 0.004.
    made, valve = opened(40.530, 40.5065)
    setting = next(each for each in made.settings if "E1" in each.valves)
    missing = setting.bench_aim.value - 40.5065
    assert valve.cut.open_by.value == pytest.approx(missing / 2, abs=1e-4)
    assert valve.cut.new_reading.value == setting.first.reading.value
    assert valve.cut.new_reading.value - 40.530 == pytest.approx(missing / 2, abs=0.0021)
    assert setting.valves == ("E1",)
    (said,) = (each for each in made.messages if each.slug == "setting-moved")
    assert "something moved" in said.text
    assert "half" in said.help


def test_a_cutter_without_an_overcut_has_none_to_be_far_from():
    made, _ = opened(40.530, 40.5065, [("  overcut         0.006\n", "")])
    assert "setting-moved" not in {each.slug for each in made.messages}
