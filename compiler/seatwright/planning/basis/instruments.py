"""What an instrument of the shop shows: its unit, its graduation, a length in the digits that it has."""

from __future__ import annotations

import math
from functools import lru_cache

from msgspec import Struct

from seatwright.handbook import MM_PER_INCH
from seatwright.job.model import Job

_DECIMALS = {"mm": 3, "in": 4}  # of a length for which nobody named an instrument, and of the small figure beside
_FINEST = 8  # decimals
_INSTRUMENTS = 256  # whose decimals are not counted again for each figure
_SLACK = 1e-6  # of a step: how far a binary fraction may lie beside the decimal that it stands for


class Instrument(Struct, frozen=True):
    """What a figure is read on. unit: mm | in, as its dial is marked. step: one graduation, in mm; None: not named."""

    unit: str
    step: float | None = None

    @property
    def decimals(self) -> int:
        """Decimals that show one step."""
        return _DECIMALS[self.unit] if self.step is None else _decimals(self.step / in_mm(1.0, self.unit))

    @property
    def graduation(self) -> float:
        """One step in mm; of the last decimal where none is named."""
        return self.step if self.step is not None else in_mm(1.0, self.unit) / 10**self.decimals


@lru_cache(_INSTRUMENTS)
def _decimals(step: float) -> int:
    whole = (round(step * 10**decimals) for decimals in range(_FINEST))
    return next((at for at, n in enumerate(whole) if n and abs(step * 10**at / n - 1) < _SLACK), _FINEST)


def digits(value: float, instrument: Instrument, towards: str = "nearest") -> str:
    """A length in mm in the digits of an instrument. towards: nearest, up, down."""
    per = in_mm(1.0, instrument.unit)
    step = instrument.graduation / per
    steps = value / per / step
    if towards == "up":
        whole = math.ceil(steps - _SLACK)
    elif towards == "down":
        whole = math.floor(steps + _SLACK)
    else:
        whole = math.floor(steps + 0.5 + _SLACK)
    return f"{whole * step + 0.0:.{instrument.decimals}f}"


def setting_gauge(job: Job, unit: str | None = None) -> Instrument:
    """The gauge that sets the cutter. unit: what it is marked in, mm | in; None: as the job."""
    step = job.gauge.step.value if job.gauge is not None and job.gauge.step is not None else None
    return Instrument(unit or job_unit(job), step)


def bore_gauge(job: Job) -> Instrument:
    """The gauge that measures the bore, or the job's own unit where the shop has none."""
    gauge = job.bore_gauge
    if gauge is None:
        return Instrument(job_unit(job))
    return Instrument("in" if gauge.marked == "inch" else "mm", gauge.step.value if gauge.step is not None else None)


def in_mm(value: float, unit: str) -> float:
    """A length in mm. unit: mm | in, what the value is in."""
    return value * (MM_PER_INCH if unit == "in" else 1.0)


def job_unit(job: Job) -> str:
    """mm | in: what the job's figures are in."""
    return "in" if job.units == "inch" else "mm"
