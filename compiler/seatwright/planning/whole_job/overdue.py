"""Instruments that ought to have been checked before this job's day."""

from __future__ import annotations

from seatwright.job.model import BoreGauge, Gauge, Given, Job
from seatwright.planning.basis.check_dates import check_state
from seatwright.planning.basis.findings import Findings


def overdue(job: Job, findings: Findings) -> None:
    """Say which of the job's two gauges was not checked in time, or that nobody can tell."""
    for gauge in (job.gauge, job.bore_gauge):
        if gauge is not None and gauge.check_every is not None:
            _say(job, gauge, gauge.check_every, findings)


def _say(job: Job, gauge: Gauge | BoreGauge, every: Given, findings: Findings) -> None:
    name = gauge.name.text
    if job.day is None:
        findings.unchecked(
            "check-not-judged",
            f'The job has no date, so whether the gauge "{name}" was checked in time is not judged.',
            "Write `received` under `job`, or the day behind `measured` and `cut`.",
            every.span,
        )
        return
    state = check_state(gauge, job.day)
    if state is None:
        findings.unchecked(
            "check-not-judged",
            f'The gauge "{name}" is to be checked every {every.typed}, and no check before the job\'s day, {job.day}, '
            "is written.",
            "Write the day of its last check under it: `checked 2026-09-01`.",
            every.span,
        )
    elif state.overdue:
        findings.warning(
            "check-overdue",
            f'The gauge "{name}" was last checked on {state.checked} and is checked every {every.typed}; the job\'s '
            f"day is {job.day}.",
            "Have it checked, and write `checked` with the day under it. Until then look at its master or ring before "
            "each setting.",
            every.span,
        )
