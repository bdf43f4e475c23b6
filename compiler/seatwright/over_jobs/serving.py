"""In which order jobs are served where there is not enough for all: the one that is due first comes first."""

from __future__ import annotations

import re

_LAST = "9999-99-99"
_DIGITS = re.compile(r"(\d+)")


def serving_key(due: str | None, received: str | None, number: str, file: str) -> tuple[object, ...]:
    """By due date, then by the day it came in, those without last; then by number, then by path."""
    return due or _LAST, received or _LAST, number_key(number), file


def number_key(number: str) -> tuple[tuple[int, int, str], ...]:
    """By which job numbers are sorted: runs of digits as numbers, so that 99 comes before 100 and 7a before 7b."""
    parts = _DIGITS.split(number)
    return tuple((0, int(part), part) if part.isdecimal() else (1, 0, part) for part in parts if part)
