"""What a figure was probably meant to be: tenfold, a tenth, the other unit, radius for diameter, two digits swapped."""

from __future__ import annotations

import re
from decimal import Decimal
from itertools import pairwise

from seatwright.job.declarations import Field
from seatwright.job.model import Reading

_PLAIN = re.compile(r"(-?)([0-9]*\.?[0-9]+)(.*)")
_FACTORS: tuple[tuple[str, str], ...] = (
    ("0.1", "the point stands one place too far right"),
    ("10", "the point stands one place too far left"),
    ("2", "it looks like a radius"),
    ("0.5", "it looks doubled"),
    ("25.4", "it looks typed in inches"),
    ("0.03937007874", "it looks typed in millimetres"),
)
_HALVED = (0.5, 12.7, 0.0127)  # mm of axis offset for one mm, inch or thousandth of needle movement


def slip_meant(reading: Reading, fits: tuple[float, float]) -> str | None:
    """The one slip that explains a figure, with what was meant; None where none or several do.

    fits: between what a true figure lies, in the unit of the reading's value.
    """
    match = _PLAIN.fullmatch(reading.typed)
    if match is None or reading.count > 1 or "=" in reading.typed or not float(match[2]):
        return None
    sign, digits, unit = match[1], match[2], match[3]
    share = reading.value / float(sign + digits)
    found: dict[str, str] = {}
    for factor, why in _FACTORS:
        typed = _scaled(digits, factor)
        if fits[0] <= float(sign + typed) * share <= fits[1]:
            found[sign + typed + unit] = why
    for typed in _swapped(digits):
        if fits[0] <= float(sign + typed) * share <= fits[1]:
            found[sign + typed + unit] = "two digits look swapped"
    if sign and fits[0] <= float(digits) * share <= fits[1]:
        found[digits + unit] = "its sign looks wrong"
    if len(found) != 1:
        return None
    ((typed, why),) = found.items()
    return f"{why}: was `{typed}` meant?"


def word_of(column: Field, reading: Reading, columns: tuple[Field, ...]) -> str:
    """The word of the column in which a reading was typed: runout and offset are one figure of the model."""
    match = _PLAIN.match(reading.typed)
    if column.to == column.word.replace("-", "_") or match is None or not float(match[2]):
        return column.word
    share = reading.value / float(match[2])
    halved = any(abs(share / each - 1) < 0.01 for each in _HALVED)
    return column.word if halved == column.halved else column.to.replace("_", "-")


def _scaled(digits: str, factor: str) -> str:
    """A figure made tenfold, halved, ...; with its own decimals, and as many more as that leaves it."""
    made = Decimal(digits) * Decimal(factor)
    places = -int(Decimal(digits).as_tuple().exponent)
    more = {"0.1": 1, "10": -1, "0.5": 1, "25.4": -1, "2": 0}.get(factor, 2)
    if factor == "0.5" and made == round(made, places):
        more = 0
    return f"{made:.{max(0, places + more)}f}"


def _swapped(digits: str) -> set[str]:
    """A figure with two digits that stand side by side changed over, each way once; a leading nought stays."""
    first = len(digits) - len(digits.lstrip("0"))
    places = [place for place, mark in enumerate(digits) if mark.isdigit() and place >= first]
    found = set()
    for one, other in pairwise(places):
        if digits[one] != digits[other]:
            marks = list(digits)
            marks[one], marks[other] = marks[other], marks[one]
            found.add("".join(marks))
    return found
