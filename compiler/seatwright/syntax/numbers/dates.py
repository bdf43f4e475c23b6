"""Days of the calendar."""

from __future__ import annotations

from calendar import monthrange
from datetime import date


def is_day(text: str) -> bool:
    """Whether `2026-11-16` is a day that there was or will be."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def months_later(day: str, months: int) -> str:
    """The same day of the month, months later; the last of that month where it has no such day."""
    begin = date.fromisoformat(day)
    years, month = divmod(begin.month - 1 + months, 12)
    last = monthrange(begin.year + years, month + 1)[1]
    return begin.replace(begin.year + years, month + 1, min(begin.day, last)).isoformat()
