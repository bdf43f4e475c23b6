"""A particular of a plan in the words and digits of its card, for a listing or a comparison."""

from __future__ import annotations

from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import limits, plain_number, shown, temperature
from seatwright.cards.parts.words import STATUS
from seatwright.handbook import MM_PER_INCH
from seatwright.job.model import Job
from seatwright.planning.basis import instruments
from seatwright.planning.basis.instruments import Instrument
from seatwright.planning.plan import Plan
from seatwright.planning.plan.figure import Figure
from seatwright.told.differences import Words
from seatwright.told.printed_fact import Particular

_FINE = {"mm": 1e-6, "in": 1e-7 * MM_PER_INCH}
_NEWTONS = 1000.0


def printed(plan: Plan, particular: Particular, *, finely: bool = False) -> Words:
    """What the card prints. finely: more digits than any instrument shows, where two plans print alike and differ."""
    if particular.form == "text":
        return Words(particular.text)
    if particular.form == "slug":
        return Words(STATUS.get(particular.text, particular.text.replace("-", " ")))
    given = [figure for figure in particular.figures if figure is not None]
    if given[0].unit != "mm":
        return _no_length(plan.job, given[0], finely)
    instrument = _instrument(plan.job, particular)
    if finely:
        instrument = Instrument(instrument.unit, _FINE[instrument.unit])
    return _length(particular, instrument)


def _length(particular: Particular, instrument: Instrument) -> Words:
    if particular.form == "limits":
        least, most = particular.figures
        if least is None or most is None:
            side, towards = ("at least", "up") if most is None else ("at most", "down")
            one = shown(least or most or 0.0, instrument, towards)
            return Words(f"{side} {one.text}", one.unit)
        low, high = limits(least, most, instrument)
        return Words(f"{low.text} to {high.text}", low.unit)
    sizes = [shown(figure, instrument) for figure in particular.figures if figure is not None]
    return Words(", ".join(size.text for size in sizes), instrument.unit)


def _instrument(job: Job, particular: Particular) -> Instrument:
    match particular.read_on:
        case "bore gauge":
            return instruments.bore_gauge(job)
        case "depth gauge":
            return figures.depth_gauge(job)
        case "dial":
            return figures.dial(job, particular.marked)
        case "setting gauge":
            gauge = job.gauge
            if gauge is None:
                return figures.bench(job)
            unit = particular.marked or ("in" if gauge.marked == "inch" else "mm")
            return Instrument(unit, gauge.step.value if gauge.step is not None else None)
    return figures.bench(job)


def _no_length(job: Job, figure: Figure, finely: bool) -> Words:
    more = 6 if finely else 0
    value = figure.value
    match figure.unit:
        case "C":
            text, unit = temperature(value, job).split(" ")
            if finely:
                text = plain_number(value * 9 / 5 + 32 if unit == "°F" else value, more)
        case "deg":
            text, unit = plain_number(value, more or 2), "°"
        case "mm/rev":
            inch = job.units == "inch"
            text = plain_number(value / MM_PER_INCH, more or 5) if inch else plain_number(value, more or 3)
            unit = "in/rev" if inch else "mm/rev"
        case "N":
            text, unit = plain_number(value / _NEWTONS, more or 1), "kN"
        case "turns":
            text, unit = plain_number(value, more), "turns"
        case other:
            text, unit = plain_number(value, more or 1), "" if other == "1" else other
    return Words(text, unit)
