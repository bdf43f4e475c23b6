"""How a figure of plan.json is printed, reckoned a second time and in fractions: for tests of the cards only."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

INCH = Fraction(254, 10)
_SLACK = Fraction(1, 10**5)  # plan.json has six decimals of a mm: so much of a step they may lie beside it


def printed(value: float, step: str, unit: str = "mm", towards: str = "nearest") -> str:
    """A length in mm, as an instrument shows it that is graduated in `step` of its own unit: `44.016`."""
    return in_unit(Fraction(str(value)) / (INCH if unit == "in" else 1), step, towards)


def in_unit(value: Fraction, step: str, towards: str = "nearest") -> str:
    """A value that is already in the unit of the instrument."""
    steps = value / Fraction(step)
    if towards == "up":
        whole = ceil(steps - _SLACK)
    elif towards == "down":
        whole = floor(steps + _SLACK)
    else:
        whole = floor(steps + Fraction(1, 2) + _SLACK)
    text = whole * Fraction(step)
    decimals = len(step.partition(".")[2])
    return f"{'-' if text < 0 else ''}{_digits(abs(text), decimals)}"


def _digits(value: Fraction, decimals: int) -> str:
    scaled = value * 10**decimals
    assert scaled.denominator == 1, "a step has as many decimals as are printed"
    whole = str(scaled.numerator).rjust(decimals + 1, "0")
    return f"{whole[:-decimals]}.{whole[-decimals:]}" if decimals else whole


def limits(least: float, most: float, step: str, unit: str = "mm") -> tuple[str, str]:
    """Two limits inwards; a finer step where none of the whole ones lies between them."""
    low, high = printed(least, step, unit, "up"), printed(most, step, unit, "down")
    if Fraction(low) <= Fraction(high):
        return low, high
    return limits(least, most, f"{step.partition('.')[0]}.{step.partition('.')[2][:-1]}01", unit)
