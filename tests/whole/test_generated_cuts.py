"""What holds of the verdict on any bore that was cut: no fit is accepted but that of the ring in the bore."""

from __future__ import annotations

from dataclasses import replace
from statistics import mean

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.whole.generated import Files, jobs

from seatwright.job import read
from seatwright.planning.plan import Plan, Status
from seatwright.planning.planner import plan

MADE_UP = (0.06, 0.09)  # mm: the interference of every generated job
BOTH_WARM = 0.012  # mm: what a room of 24 °C and the rounding to four digits of an inch may move od and bore apart
BESIDE, ON_LIST = "cut", "measured"
ANOTHER_SIZE = 0.1  # mm: a ring further off an insert is not taken for it

Cut = tuple[Files, dict[str, float], dict[str, float]]
"""The files; the od of the ring that stands for each valve, and the bore read of each, in mm."""


def planned(files: Files) -> Plan | None:
    job, _ = read("job.seat", files.load)
    return None if job is None else plan(job)


@st.composite
def cut(draw: st.DrawFn) -> Cut:
    """A job whose bores are cut about where they were wanted, with rings measured that are right, or another size."""
    files = draw(jobs(4))
    before = planned(files)
    assert before is not None
    rows, rings, bores = "", {}, {}
    table = draw(st.sampled_from([BESIDE, ON_LIST]))
    for valve in before.valves:
        if valve.bore is None or valve.insert is None or valve.insert.od is None:
            continue
        off = draw(st.sampled_from([0.0, 0.003, -0.003, 0.05, -0.05, 0.5, -0.5]))
        rings[valve.name] = round(valve.insert.od.value + off, 3)
        aim = valve.bore.aim.value + draw(st.sampled_from([0.0, 0.0, 0.5, -0.5]))
        reads = [round(aim + draw(st.integers(-20, 20)) / 1000, 3)] * 2
        bores[valve.name] = mean(reads)
        cells = f"{reads[0]:.3f}  {reads[1]:.3f}"
        rows += f"  {valve.name}  C1  {aim:.3f}  {cells}  {cells}"
        rows += f"  {rings[valve.name]:.3f}\n" if table == BESIDE else "\n"
    assume(rows)
    header = "  valve  cutter  read  bore-a  bore-b  bore-low-a  bore-low-b"
    job = files.job
    if table == ON_LIST:
        listed = "".join(f"  {name}  {od:.3f}\n" for name, od in rings.items())
        job += f"measured in mm\n  valve  insert-od\n{listed}"
    else:
        header += "  insert-od"
    job += f"cut 2026-11-24 in mm\n{header}\n{rows}"
    return replace(files, job=job), rings, bores


@pytest.mark.slow
@settings(max_examples=300, deadline=None)
@given(cut())
def test_no_interference_is_accepted_but_that_of_the_ring_in_the_bore_or_of_the_list_which_is_said(was: Cut) -> None:
    files, rings, bores = was
    made = planned(files)
    assume(made is not None)  # a ring of no size in stock is an error
    assert made is not None
    beside = "  insert-od\n" in files.job.partition("cut 2026-11-24")[2]
    for valve in made.valves:
        if valve.status != Status.ACCEPTED:
            continue
        assert valve.cut is not None
        assert valve.cut.interference is not None
        assert valve.insert is not None
        ring = rings[valve.name]
        if not valve.insert.measured:
            # Another size than the one that was measured goes in: its list figure, and that is said.
            assert not beside
            assert valve.insert.od is not None
            assert abs(ring - valve.insert.od.value) > ANOTHER_SIZE
            assert "list figure" in valve.cut.interference.note
            assert any(one.slug == "another-insert-measured" and valve.name in one.valves for one in made.messages)
            ring = valve.insert.od.value
        assert valve.cut.interference.value == pytest.approx(ring - bores[valve.name], abs=BOTH_WARM)
        assert MADE_UP[0] - 1e-9 <= valve.cut.interference.value <= MADE_UP[1] + 1e-9
