"""When an instrument was last checked outside the daily work, and until when that holds."""

from __future__ import annotations

from calendar import monthrange
from datetime import date

from msgspec import Struct

from seatwright.job.model import BoreGauge, Gauge


class CheckState(Struct, frozen=True):
    """The last check before a day, and the day it holds to, ISO 8601. overdue: whether that day is over by then."""

    checked: str
    due: str
    overdue: bool


def check_state(gauge: Gauge | BoreGauge, day: str) -> CheckState | None:
    """How an instrument stood on a day; None where it has no `check-every`, or no check by that day is written."""
    before = [check.date for check in gauge.checks if check.date <= day]
    if gauge.check_every is None or not before:
        return None
    due = months_later(before[-1], int(gauge.check_every.value))
    return CheckState(before[-1], due, day > due)


def months_later(day: str, months: int) -> str:
    """The same day of the month, months later; the last of that month where it has no such day."""
    begin = date.fromisoformat(day)
    years, month = divmod(begin.month - 1 + months, 12)
    last = monthrange(begin.year + years, month + 1)[1]
    return begin.replace(begin.year + years, month + 1, min(begin.day, last)).isoformat()
