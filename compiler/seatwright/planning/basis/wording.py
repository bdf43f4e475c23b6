"""How planning says a figure in a message: in the job's unit, with the digits of a bench or those that were typed."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Protocol

from seatwright.handbook import MM_PER_INCH, NEWTONS_PER_LBF, setting
from seatwright.job.model import Given, Job
from seatwright.job.typed import names
from seatwright.planning.plan.figure import Figure

_OF_A_DIGIT = 1e-6  # how far a binary fraction may lie beside the decimal that it stands for


class InUnits(Protocol):
    """A job, or what is kept of one. units: mm | inch."""

    @property
    def units(self) -> str:
        """What its bare lengths are in."""


def length(job: InUnits, mm: float, decimals: int | None = None) -> str:
    """A length in the job's unit: `44.02 mm`, `1.7331 in`, `.0035 in`.

    mm : the length [mm]
    decimals : how many; left out: 3 in mm, without idle zeros below 2, and 4 in inch
    """
    if job.units == "inch":
        places = 4 if decimals is None else decimals
        text = f"{abs(mm) / MM_PER_INCH:.{places}f}"
        text = text[1:] if text.startswith("0.") else text
        unit = "in"
    else:
        text = f"{abs(mm):.3f}" if decimals is None else f"{abs(mm):.{decimals}f}"
        if decimals is None and text.endswith("0"):
            text = text[:-1]
        unit = "mm"
    minus = "-" if mm < 0 and any(digit in text for digit in "123456789") else ""
    return f"{minus}{text} {unit}"


def said(job: Job, what: Figure | Given) -> str:
    """A length as its owner typed it, with its unit; a computed one as `length` says it."""
    typed = what.typed if isinstance(what, Given) else what.origin.typed if what.origin else ""
    try:
        bare = float(typed)
    except ValueError:
        one_figure = typed and "/" not in typed and " to " not in typed and "=" not in typed and typed[-1].isalpha()
        return typed if one_figure else length(job, what.value)
    # A bare figure is in its file's unit, which for a shop's file may be another than the job's.
    unit = "in" if abs(bare * MM_PER_INCH - what.value) < abs(bare - what.value) else "mm"
    return f"{typed} {unit}"


def span_of(job: Job, least: float, most: float) -> str:
    """Two limits in the job's unit: `44.01 to 44.03 mm`."""
    low, _, unit = length(job, least).rpartition(" ")
    high = length(job, most).rpartition(" ")[0]
    return f"{low} to {high} {unit}"


def span_inside(job: Job, least: float, most: float) -> str:
    """Two limits that a part is made between, each rounded inwards to the last digit that is said."""
    inside = setting.round_inwards(least, most, _last_digit(job))
    return span_of(job, *(inside or (least, most)))


def not_under(job: InUnits, mm: float) -> str:
    """A length that must be reached, rounded up: what is bought by it serves."""
    digit = _last_digit(job)
    return length(job, math.ceil(mm / digit - _OF_A_DIGIT) * digit)


def not_over(job: InUnits, mm: float) -> str:
    """A length that must not be passed, rounded down."""
    digit = _last_digit(job)
    return length(job, math.floor(mm / digit + _OF_A_DIGIT) * digit)


def _last_digit(job: InUnits) -> float:
    return MM_PER_INCH * 1e-4 if job.units == "inch" else 1e-3


def degrees(job: Job, celsius: float) -> str:
    """A temperature in the units of the job: `24 °C`, `22.5 °C`, of one in inches `75 °F`."""
    if job.units == "inch":
        return f"{celsius * 9 / 5 + 32:.0f} °F"
    return f"{celsius:.1f}".removesuffix(".0") + " °C"


def spring_force(job: Job, newtons: float, beside: float | None = None) -> str:
    """A force of a spring in the units of the job: `271 N`, of one in inches `61 lbf`.

    beside : the limit that it is held against; so near to it, it has a digit more
    """
    size, unit = (newtons / NEWTONS_PER_LBF, "lbf") if job.units == "inch" else (newtons, "N")
    per = newtons / size if size else 1.0
    return f"{size:.{int(beside is not None and abs(newtons - beside) < per)}f} {unit}"


def listed(words: Iterable[str], last: str = "and") -> str:
    """`E1`, `E1 and E2`, `E1, E2 and E3`."""
    each = list(words)
    return each[0] if len(each) == 1 else f"{', '.join(each[:-1])} {last} {each[-1]}" if each else ""


name_key = names.key
"""A name as it is compared, which is as the reader compares it."""
