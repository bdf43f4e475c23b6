"""Instruments that ought to have been checked before this job's day."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from seatwright.job.model import BoreGauge, Gauge, Given, Job
from seatwright.planning.basis.check_dates import check_state
from seatwright.planning.basis.findings import Findings

HAVE_IT_CHECKED = (
    "Have it checked, and write `checked` with the day under it. Until then look at its master or ring before each "
    "setting."
)


class OverdueGauge(Struct, frozen=True):
    """A gauge that was not checked in time. checked: its last check, day: of the job, ISO 8601."""

    name: str
    checked: str
    every: Given
    day: str


def overdue(job: Job, findings: Findings) -> None:
    """Say which of the job's two gauges was not checked in time, or that nobody can tell."""
    for gauge in (job.gauge, job.bore_gauge):
        if gauge is not None and gauge.check_every is not None:
            _cannot_tell(job, gauge, gauge.check_every, findings)
    for one in overdue_gauges(job):
        findings.warning(
            "check-overdue",
            f'The gauge "{one.name}" was last checked on {one.checked} and is checked every {one.every.typed}; the '
            f"job's day is {one.day}.",
            HAVE_IT_CHECKED,
            one.every.span,
        )


def overdue_gauges(job: Job) -> Iterator[OverdueGauge]:
    """Those of the job's two gauges that were not checked in time, by the job's day."""
    for gauge in (job.gauge, job.bore_gauge):
        if gauge is None or gauge.check_every is None or job.day is None:
            continue
        state = check_state(gauge, job.day)
        if state is not None and state.overdue:
            yield OverdueGauge(gauge.name.text, state.checked, gauge.check_every, job.day)


def _cannot_tell(job: Job, gauge: Gauge | BoreGauge, every: Given, findings: Findings) -> None:
    name = gauge.name.text
    if job.day is None:
        findings.unchecked(
            "check-not-judged",
            f'The job has no date, so whether the gauge "{name}" was checked in time is not judged.',
            "Write `received` under `job`, or the day behind `measured` and `cut`.",
            every.span,
        )
    elif check_state(gauge, job.day) is None:
        findings.unchecked(
            "check-not-judged",
            f'The gauge "{name}" is to be checked every {every.typed}, and no check before the job\'s day, {job.day}, '
            "is written.",
            "Write the day of its last check under it: `checked 2026-09-01`.",
            every.span,
        )
