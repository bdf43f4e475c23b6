"""Gauges that were not checked in time, over many jobs: one message a gauge, with the jobs that it was used in."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from msgspec import Struct

from seatwright.job.model import Job
from seatwright.over_jobs.serving import number_key
from seatwright.planning.whole_job.overdue import HAVE_IT_CHECKED, OverdueGauge, overdue_gauges
from seatwright.text import Message, Severity
from seatwright.text.source import Span


class OverdueCheck(Struct, frozen=True):
    """A gauge that was not checked in time for one job, and that job's number. line: where `check-every` stands."""

    number: str
    gauge: OverdueGauge
    line: Span | None


def overdue_of(job: Job, seen: Callable[[Span], Span]) -> tuple[OverdueCheck, ...]:
    """What one job has to say of its gauges. seen: a place in a file as it is seen from where the command runs."""
    return tuple(OverdueCheck(job.number, gauge, seen(gauge.every.span)) for gauge in overdue_gauges(job))


def overdue_messages(checks: Iterable[OverdueCheck]) -> tuple[Message, ...]:
    """One message a gauge and last check, its jobs by their number."""
    alike: dict[tuple[Span | None, str], list[OverdueCheck]] = {}
    for each in checks:
        alike.setdefault((each.line, each.gauge.checked), []).append(each)
    return tuple(_one(of_gauge) for of_gauge in alike.values())


def _one(checks: list[OverdueCheck]) -> Message:
    gauge = checks[0].gauge
    days = sorted(each.gauge.day for each in checks)
    between = days[0] if days[0] == days[-1] else f"{days[0]} to {days[-1]}"
    numbers = sorted({each.number for each in checks}, key=number_key)
    jobs = f"job{'s' * (len(numbers) > 1)} {' '.join(numbers)}"
    return Message(
        Severity.WARNING,
        "check-overdue",
        checks[0].line,
        f'The gauge "{gauge.name}" was last checked on {gauge.checked} and is checked every {gauge.every.typed}; it '
        f"was overdue for {jobs}, {'day' if days[0] == days[-1] else 'days'} {between}.",
        HAVE_IT_CHECKED,
    )
