"""Days of the calendar."""

from __future__ import annotations

from datetime import date


def is_day(text: str) -> bool:
    """Whether `2026-11-16` is a day that there was or will be."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
