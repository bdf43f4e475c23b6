"""Overcut for the head's own material, and instruments that were not checked in time."""

from __future__ import annotations

import pytest
from tests.planning.sources import planned

from seatwright.planning.basis.check_dates import months_later

GAUGE = "  indicator-step      0.001\n  temperature         22 C +/- 1\n"
CUTTER = "  overcut         0.007  # bores this much bigger than it is set\n"


def test_the_overcut_of_the_heads_material_moves_the_reading_and_no_other() -> None:
    as_it_is = planned("single-cylinder.seat").settings[0]
    of_iron = ("bench.shop", CUTTER, CUTTER + "  overcut grey iron 0.001\n")
    of_aluminium = ("bench.shop", CUTTER, CUTTER + '  overcut aluminium 0.003 "12 bores"\n')
    assert planned("single-cylinder.seat", of_iron).settings[0].reading.value == as_it_is.reading.value
    moved = planned("single-cylinder.seat", of_aluminium).settings[0]
    assert moved.overcut is not None
    assert (moved.overcut.value.value, moved.overcut.from_) == (0.003, "shop")
    assert moved.reading is not None
    assert as_it_is.reading is not None
    assert moved.reading.value == pytest.approx(as_it_is.reading.value + 0.004)


def test_the_spread_of_the_heads_material_is_in_the_certainty_of_the_bore() -> None:
    spread = "  overcut-spread  0.002\n"
    wide = planned("single-cylinder.seat", ("bench.shop", spread, spread + "  overcut-spread aluminium 0.004\n"))
    [share] = [one for one in wide.valves[0].bore.u.inputs if one.symbol == "u_overcut"]
    assert share.value == pytest.approx(0.004)


@pytest.mark.parametrize(
    ("checks", "said"),
    [
        ("checked 2025-09-01\n check-every 12 months", {"check-overdue"}),
        ("checked 2025-09-01\n check-every 15 months", set()),
        ("checked 2025-11-25\n check-every 12 months", set()),  # due that very day
        ("checked 2025-11-24\n check-every 12 months", {"check-overdue"}),
        ("checked 2026-12-01\n check-every 12 months", {"check-not-judged"}),  # after the work
        ("check-every 12 months", {"check-not-judged"}),
        ("checked 2025-09-01", set()),
    ],
)
def test_an_instrument_is_overdue_by_the_jobs_own_day(checks: str, said: set[str]) -> None:
    # The last cut of this job is of 2026-11-25.
    plan = planned("half-way.seat", ("bench.shop", GAUGE, f"{GAUGE} {checks}\n"))
    assert plan.job.day == "2026-11-25"
    assert {message.slug for message in plan.messages if message.slug.startswith("check-")} == said
    assert all(setting.gauge_checked != "2026-12-01" for setting in plan.settings)


def test_a_job_without_a_day_judges_no_check() -> None:
    plan = planned(
        "single-cylinder.seat", ("bench.shop", GAUGE, GAUGE + " checked 2025-09-01\n check-every 12 months\n")
    )
    assert plan.job.day is None
    assert "check-not-judged" in plan.not_checked


def test_a_bore_that_is_not_to_count_says_why_in_the_plan() -> None:
    line = '\nnot-counted E3 "a chip under the tip"\n'
    first = "# Two first cuts."
    plan = planned("half-way.seat", ("half-way.seat", first, line + first))
    of = {valve.name: valve.cut for valve in plan.valves}
    assert of["E3"] is not None
    assert of["E3"].not_counted == "a chip under the tip"
    assert of["E2"] is not None
    assert of["E2"].not_counted is None


@pytest.mark.parametrize(
    ("day", "months", "due"),
    [
        ("2025-09-01", 12, "2026-09-01"),
        ("2026-01-31", 1, "2026-02-28"),  # that month's last
        ("2024-02-29", 12, "2025-02-28"),
        ("2024-01-31", 1, "2024-02-29"),
        ("2026-12-15", 1, "2027-01-15"),
        ("2026-05-31", 18, "2027-11-30"),
    ],
)
def test_a_check_is_due_on_the_same_day_of_the_month_or_on_its_last(day: str, months: int, due: str) -> None:
    assert months_later(day, months) == due
