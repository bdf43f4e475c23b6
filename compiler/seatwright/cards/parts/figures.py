"""Figures as an instrument shows them: rounded once, here, and limits inwards; one that somebody typed, as typed."""

from __future__ import annotations

import math
import re
from functools import lru_cache

from msgspec import Struct

from seatwright.handbook import MM_PER_INCH, NEWTONS_PER_LBF
from seatwright.job.model import Given, Job, Reading
from seatwright.planning.basis import instruments
from seatwright.planning.basis.instruments import Instrument, digits, in_mm, job_unit
from seatwright.planning.plan import Setting
from seatwright.planning.plan.figure import Figure

_DEPTH_STEP = {"mm": 0.01, "in": 0.001 * MM_PER_INCH}  # a depth micrometer; a dial whose step is not given
_SEAT_STEP = {"mm": 0.01, "in": 0.001 * MM_PER_INCH}
_OTHER = {"mm": Instrument("in"), "in": Instrument("mm")}  # whose figure stands small beside
_ABOUT = {"mm": 5.0, "in": 10.0}  # degrees Celsius, Fahrenheit: as near as a temperature of a warming insert is known
_PLAIN = re.compile(r"([+-]?)(\d*\.\d+|\d+) ?(mm|in|inch|\")?")  # a figure typed as a decimal, with or without its unit
_BARE_POINT = re.compile(r"(?<![\d.])\.(?=\d)")
_UNIT = {"mm": "mm", "in": "in", "inch": "in", '"': "in"}
_A_NUMBER = (float, int)
_KEPT = 4096  # figures in their digits: each stands on a handful of cards
_SLACK = 1e-6  # of a step: how far a binary fraction may lie beside the decimal that it stands for


class Shown(Struct, frozen=True):
    """A figure as printed: large in the dial's own unit, the other unit small beside it.

    text, unit: `44.016`, `mm`. other: `1.7329 in`, "" where there is none. at: the temperature it is meant at, or "".
    """

    text: str
    unit: str
    other: str = ""
    at: str = ""

    def __str__(self) -> str:
        return f"{self.text} {self.unit}"


def shown(figure: Figure | Given | float, instrument: Instrument, towards: str = "nearest", at: str = "") -> Shown:
    """A length in mm as the instrument shows it; one that was typed in that unit, in the digits of its owner.

    towards: nearest, up (a least limit), down (a most limit).
    """
    other = _OTHER[instrument.unit]
    small = f"{digits_shown(figure, other, towards)} {other.unit}"
    return Shown(digits_shown(figure, instrument, towards), instrument.unit, small, at)


def digits_shown(figure: Figure | Given | float, instrument: Instrument, towards: str = "nearest") -> str:
    """The digits alone of what is `shown`."""
    value = figure if isinstance(figure, _A_NUMBER) else figure.value
    return _digits_shown(value, _words(figure), instrument, towards)


@lru_cache(_KEPT)
def _digits_shown(value: float, words: str, instrument: Instrument, towards: str) -> str:
    return _digits_typed(words, value, instrument.unit) or digits(value, instrument, towards)


def as_typed(figure: Figure | Given | float, unit: str) -> str:
    """The digits in which somebody typed this figure in this unit; "" where it was reckoned, or typed otherwise."""
    return _digits_typed(_words(figure), figure if isinstance(figure, _A_NUMBER) else figure.value, unit)


def _words(figure: Figure | Given | float) -> str:
    """What somebody typed for a figure, "" where it was reckoned."""
    if isinstance(figure, _A_NUMBER):
        return ""
    return figure.typed if isinstance(figure, Given) else figure.origin.typed if figure.origin is not None else ""


def _digits_typed(words: str, value: float, unit: str) -> str:
    # A figure may stand there in both units: `0.064 mm = .0025 in`.
    for part in words.split("="):
        found = _PLAIN.fullmatch(part.strip())
        if found is None:
            continue
        sign, text, marked = found.groups()
        last = 10.0 ** -len(text.partition(".")[2]) * in_mm(1.0, unit)
        apart = abs(float(sign + text) * in_mm(1.0, unit) - value)
        if apart <= (last if marked and _UNIT[marked] == unit else 1e-9):
            return f"{'-' if sign == '-' else ''}{'0' if text.startswith('.') else ''}{text}"
    return ""


def limits(least: Figure, most: Figure, instrument: Instrument, at: str = "") -> tuple[Shown, Shown]:
    """Two limits, each rounded inwards; to a tenth of the step where a whole step does not fit between them. Of a bore
    as it was cut both are one figure, to the nearest step."""
    if least.value == most.value:
        return shown(least, instrument, at=at), shown(most, instrument, at=at)
    finer = instrument
    for _ in range(3):
        low, high = shown(least, finer, "up", at), shown(most, finer, "down", at)
        if float(low.text) <= float(high.text):
            return low, high
        finer = Instrument(instrument.unit, finer.graduation / 10)
    return shown(least, finer, at=at), shown(most, finer, at=at)


def without_zeros(figure: Figure, instrument: Instrument, towards: str = "nearest") -> str:
    """A limit in a sentence or a column's head, without zeros behind: `0.05`."""
    text = digits_shown(figure, instrument, towards)
    return plain_number(float(text), len(text.partition(".")[2]))


def gauge_of_setting(job: Job, setting: Setting) -> Instrument:
    """The gauge that sets the cutter."""
    return instruments.setting_gauge(job, setting.reading_unit)


def indicator(job: Job, setting: Setting) -> Instrument:
    """The indicator that the tip is set to."""
    step = setting.indicator_step.value if setting.indicator_step is not None else None
    return Instrument(setting.reading_unit or job_unit(job), step)


def depth_gauge(job: Job) -> Instrument:
    """What a depth is measured with: the unit of the job, to the step of a depth micrometer."""
    return Instrument(job_unit(job), _DEPTH_STEP[job_unit(job)])


def dial(job: Job, unit: str | None) -> Instrument:
    """The dial of the machine's depth stop."""
    step = job.machine.dial_step.value if job.machine is not None and job.machine.dial_step is not None else None
    unit = unit or job_unit(job)
    return Instrument(unit, step if step is not None else _DEPTH_STEP[unit])


def bench(job: Job) -> Instrument:
    """A length that no instrument of the shop reads, in the unit of the job."""
    return Instrument(job_unit(job))


def _judged(job: Job) -> Instrument:
    """What was measured and held against a limit: a digit more, so that none is rounded onto the limit it is over."""
    unit = job_unit(job)
    return Instrument(unit, Instrument(unit).graduation / 10)


def seat_gauge(job: Job) -> Instrument:
    """What a seat, a recession, a tip or a spring is measured with: hundredths of a mm, thousandths of an inch."""
    return Instrument(job_unit(job), _SEAT_STEP[job_unit(job)])


def temperature(value: float, job: Job) -> str:
    """`22 °C`, or `68 °F` in an inch job."""
    if job.units == "inch":
        return f"{plain_number(value * 9 / 5 + 32, 1)} °F".replace("-", "−")
    return f"{plain_number(value, 1)} °C".replace("-", "−")


def at_least(value: float, job: Job) -> str:
    """A temperature under which something must not fall: up to the whole degree."""
    unit, degrees = job_unit(job), value
    if unit == "in":
        degrees = value * 9 / 5 + 32
    return f"{math.ceil(degrees - 1e-9):.0f} °{'F' if unit == 'in' else 'C'}".replace("-", "−")


def about_temperature(value: float, job: Job) -> str:
    """A temperature that is reckoned and not measured: to the nearest 5 °C, or 10 °F in an inch job."""
    unit = job_unit(job)
    degrees = value * 9 / 5 + 32 if unit == "in" else value
    return f"{round(degrees / _ABOUT[unit]) * _ABOUT[unit] + 0.0:.0f} °{'F' if unit == 'in' else 'C'}".replace("-", "−")


def angle(value: float) -> str:
    """`45°`, `45.5°`."""
    return f"{plain_number(value, 2)}°"


def force(value: float, job: Job) -> str:
    """A force in N with two digits, upwards: `13 kN`, or `2900 lbf` in an inch job."""
    size, unit = (value / NEWTONS_PER_LBF, "lbf") if job_unit(job) == "in" else (value / 1000, "kN")
    if size <= 0:
        return f"0 {unit}"
    step = 10.0 ** (math.floor(math.log10(size)) - 1)
    return f"{plain_number(math.ceil(size / step - _SLACK) * step, 3)} {unit}"


def plain_number(value: float, decimals: int) -> str:
    """A number with at most so many decimals and no zeros behind: `70`, `0.1`."""
    text = f"{round(value, decimals) + 0.0:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def typed(cell: Reading | Given | None) -> str:
    """A reading as its owner wrote it, a nought before its point; "" where there is none."""
    return _BARE_POINT.sub("0.", cell.typed) if cell is not None else ""


def as_read(job: Job, cell: Reading | Given | None, value: float | None = None) -> str:
    """A reading in the job's unit with the digits of its owner, the largest of several; "" where there is none."""
    if cell is None:
        return ""
    unit = job_unit(job)
    step = 2 * cell.half_digit / in_mm(1.0, unit)
    decimals = 3 if step <= 0 else min(max(math.ceil(-math.log10(step) - 0.01), 0), 4)
    largest = cell.largest if isinstance(cell, Reading) else cell.value
    return f"{(largest if value is None else value) / in_mm(1.0, unit):.{decimals}f}"
