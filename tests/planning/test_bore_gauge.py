"""The bore gauge is freed of what its rings say that it shows too much: by hand, and there and back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.bores import figure
from tests.planning.sources import JOBS, planned

from seatwright.job.model import Master
from seatwright.planning.basis.bore_gauge import bore_at20, shows
from seatwright.planning.basis.findings import Findings


def bench(*rings, temperature=20.0):
    gauge = replace(
        jobs.bore_gauge(), rings=tuple(Master(jobs.given(size), jobs.given(reads)) for size, reads in rings)
    )
    head = jobs.head([jobs.valve()], material_name="aluminium", temperature=jobs.degrees(temperature))
    return jobs.job(head, shop=jobs.shop(), bore_gauge=gauge), head


def test_what_it_shows_is_the_size_and_what_it_shows_too_much_on_its_ring():
    job, head = bench((44.0, 44.001))
    found = shows(job, head, figure(44.020), "bench_aim", Findings())
    assert found.value == pytest.approx(44.021, abs=1e-9)


def test_between_two_rings_the_error_is_taken_in_a_straight_line():
    # By hand: 0 at 35, 0.001 at 44: 0.0003333 at 38.
    job, head = bench((35.0, 35.0), (44.0, 44.001))
    found = shows(job, head, figure(38.0), "bench_aim", Findings())
    assert found.value == pytest.approx(38.0003333, abs=1e-7)


def test_beyond_its_rings_nothing_is_taken_off_and_it_is_said():
    job, head = bench((35.0, 35.002), (44.0, 44.001))
    findings = Findings()
    assert shows(job, head, figure(45.0), "bench_aim", findings, ("E1",)).value == 45.0
    assert jobs.slugs(findings) == ["beyond-rings"]
    assert "beyond the rings of the bore gauge, 35.00 to 44.00 mm" in jobs.texts(findings, "beyond-rings")


def test_without_a_ring_it_is_said_that_its_error_is_not_known():
    job, head = bench()
    findings = Findings()
    assert shows(job, head, figure(45.0), "bench_aim", findings, ("E1",)).value == 45.0
    assert jobs.slugs(findings) == ["bore-gauge-not-on-ring"]


@given(st.floats(35.5, 43.5), st.floats(-0.005, 0.005), st.floats(-0.005, 0.005), st.floats(5.0, 40.0))
def test_what_it_is_to_show_and_what_is_read_with_it_are_each_others_inverse(size, low, high, temperature):
    job, head = bench((35.0, 35.0 + low), (44.0, 44.0 + high), temperature=temperature)
    shown = shows(job, head, figure(size), "bench", Findings()).value
    back = bore_at20(job, head, jobs.reading(shown), None, "bore", shown, Findings()).value
    assert back == pytest.approx(size, abs=2e-5)


RING = ("bench.shop", "ring              44.000 reads 44.001", "ring              44.000 reads 44.010")


def test_a_ring_that_reads_more_moves_what_the_cards_show_and_frees_what_was_read():
    # By hand: 0.009 more at 44 is 0.003 more at 38, whatever else counts.
    before, after = planned("half-way.seat"), planned("half-way.seat", RING)
    one, other = ({valve.name: valve for valve in each.valves} for each in (before, after))
    assert other["I1"].cut.bore.value - one["I1"].cut.bore.value == pytest.approx(-0.003, abs=2e-5)
    assert other["I1"].bore.bench_least.value - one["I1"].bore.bench_least.value == pytest.approx(0.003, abs=1.1e-3)
    assert other["I1"].bore.accept_most.value - one["I1"].bore.accept_most.value == pytest.approx(0.003, abs=1.1e-3)
    assert other["I1"].bore.aim.value == one["I1"].bore.aim.value
    assert other["I1"].bore.u_accept.value == pytest.approx(one["I1"].bore.u_accept.value, abs=1e-9)
    told = [trial.overcut.value for each in (before, after) for trial in each.trials]
    assert told[3] - told[1] == pytest.approx(-0.0029, abs=1e-4)


def test_what_is_shown_and_what_was_read_name_the_lines_of_the_rings():
    valves = {valve.name: valve for valve in planned("half-way.seat").valves}
    for shown in (valves["I1"].cut.bore, valves["I1"].bore.bench_aim, valves["I1"].bore.accept_least):
        lines = (_line(span) for span in shown.lines())
        assert {"ring 35.000 reads 35.000", "ring 44.000 reads 44.001"} <= set(lines)


def _line(span):
    return " ".join((JOBS / span.file).read_text("utf-8").splitlines()[span.line - 1].split())
