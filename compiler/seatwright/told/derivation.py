"""How a figure came about, written out: symbols = substituted = result, with the place of every line it rests on."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from msgspec import Struct

from seatwright.handbook import MM_PER_INCH
from seatwright.job.model import Job
from seatwright.planning import plan as parts_of_a_plan
from seatwright.planning.plan.figure import Figure

_PARTS = frozenset(part for part in vars(parts_of_a_plan).values() if isinstance(part, type))
_SYMBOL = re.compile(r"[^\W\d]\w*")
_OF_SPRINGS = "handbook 17"  # the force of a spring is a sum of forces that were read
_UNIT_WORDS = {"1": "", "mm/mm": "mm/mm", "deg": "°", "C": "°C", "1/C": "per °C", "Nm": "N·m", "mm/rev": "mm/rev"}


class Step(Struct, frozen=True):
    """One line of a derivation.

    symbol: how the formulas call the figure. result: its value and unit. formula: in symbols, "" for a given figure.
    substituted: the formula with its inputs' values. origin: file, line and what was typed, or who says so.
    """

    symbol: str
    result: str
    formula: str
    substituted: str
    origin: str
    source: str
    note: str


def _number(value: float) -> str:
    """A value with at most six decimals and at least four figures that count, no trailing zeros."""
    size = abs(value)
    if size != 0 and (size < 1e-3 or size >= 1e7):
        return f"{value:.4g}"
    decimals = 6 if size < 1 else 5 if size < 1000 else 2
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def borne(figure: Figure) -> str:
    """A figure's value with no more digits than what it rests on bears.

    A stress, a force of a fit and a pressure that were reckoned bear two figures, a probability whole per cent, a
    temperature that was reckoned the nearest 5 °C, one that was read hundredths of a degree, the force of a spring
    whole newtons. All else is written out, so that a sum can be followed.
    """
    if figure.unit == "C" and not figure.formula and math.isfinite(figure.value):
        return _number(round(figure.value, 2))
    if not figure.formula or not math.isfinite(figure.value):
        return _number(figure.value)
    if figure.symbol == "P":
        return _probability(figure.value)
    if figure.unit == "N" and figure.source == _OF_SPRINGS:
        return f"{figure.value:.0f}"
    if figure.unit in ("MPa", "N"):
        return _two_figures(figure.value)
    if figure.unit == "C":
        return f"{round(figure.value / 5) * 5:d}"
    return _number(figure.value)


def _probability(value: float) -> str:
    """Whole per cent, and no surer than 99."""
    if value > 0.99:
        return "over 99 %"
    return "under 1 %" if value < 0.01 else f"{value * 100:.0f} %"


def _two_figures(value: float) -> str:
    """`87`, `190`, `3500`, `0.45`."""
    if value == 0:
        return "0"
    decimals = 1 - math.floor(math.log10(abs(value)))
    return f"{round(value, decimals):.{max(decimals, 0)}f}"


def with_unit(figure: Figure) -> str:
    """A figure's value, as far as it is borne, and its unit."""
    unit = _UNIT_WORDS.get(figure.unit, figure.unit)
    space = "" if unit in ("", "°") else " "
    return f"{borne(figure)}{space}{unit}"


def in_units_of(job: Job, figure: Figure) -> str:
    """A figure's value in the units of the job's reader; of a job in inches with the metric one behind it, in which the
    formulas are.
    """
    metric = with_unit(figure)
    if job.units != "inch":
        return metric
    match figure.unit:
        case "mm":
            return f"{_inches(figure.value / MM_PER_INCH)} in ({metric})"
        case "C":
            degrees = float(borne(figure)) * 9 / 5 + 32 if math.isfinite(figure.value) else figure.value
            return f"{_number(round(degrees, 1))} °F ({metric})"
    return metric


def _inches(value: float) -> str:
    """A length with a digit more than .0001 in is read to; one below .01 in with two."""
    if not math.isfinite(value):
        return _number(value)
    text = f"{value:.{5 if abs(value) >= 0.01 else 6}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def derivation_steps(job: Job, figure: Figure) -> tuple[Step, ...]:
    """The whole chain from a figure down to the lines that were measured, nearest first, each figure once."""
    seen: set[tuple[str, str, str]] = set()
    found = []
    for part in figure.walk():
        step = _step(job, part)
        key = (step.symbol, step.result, step.origin)
        if key not in seen:
            seen.add(key)
            found.append(step)
    return tuple(found)


def _step(job: Job, figure: Figure) -> Step:
    values = {one.symbol: borne(one) for one in figure.inputs}

    def substitute(match: re.Match[str]) -> str:
        value = values.get(match.group())
        if value is None:
            return match.group()
        return f"({value})" if value.startswith("-") else value

    return Step(
        symbol=figure.symbol,
        result=in_units_of(job, figure),
        formula=figure.formula,
        substituted=_SYMBOL.sub(substitute, figure.formula) if figure.inputs else "",
        origin=_origin(figure),
        source=figure.source,
        note=figure.note,
    )


def _origin(figure: Figure) -> str:
    origin = figure.origin
    if origin is None:
        return ""
    place = f"{origin.span.file}:{origin.span.line}" if origin.span else ""
    typed = f"typed {origin.typed}" if origin.typed else ""
    instead = f"in place of {origin.in_place_of}" if origin.in_place_of else ""
    return ", ".join(part for part in (place, typed, origin.source, instead) if part)


def step_lines(step: Step) -> list[str]:
    """One step: `symbol = formula = substituted = result`, each on its own line, then where it comes from."""
    source = f"   [{step.source}]" if step.source else ""
    note = f"   ({step.note})" if step.note else ""
    if not step.formula:
        origin = f"   {step.origin}" if step.origin else ""
        return [f"{step.symbol} = {step.result}{origin}{note}"]
    pad = " " * len(step.symbol)
    lines = [f"{step.symbol} = {step.formula}{source}"]
    if step.substituted and step.substituted != step.formula:
        lines.append(f"{pad} = {step.substituted}")
    lines.append(f"{pad} = {step.result}{note}")
    return lines


def named_figures(part: object, path: str = "") -> Iterator[tuple[str, Figure]]:
    """Every figure below a part of the plan, with its dotted path as in plan.json (`bore.aim`)."""
    if isinstance(part, Figure):
        yield path, part
    elif isinstance(part, tuple):
        for place, each in enumerate(part, start=1):
            yield from named_figures(each, f"{path}.{getattr(each, 'name', place)}")
    elif isinstance(part, Struct) and type(part) in _PARTS:
        for field in part.__struct_fields__:
            name = field.rstrip("_")
            yield from named_figures(getattr(part, field), f"{path}.{name}" if path else name)
