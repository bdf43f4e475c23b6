"""What sections share: where a radius and a depth lie on the paper, breaks, labels in margins, figures as measured."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from seatwright.cards import figures
from seatwright.cards.drawings.dimensions import apart, block, leader
from seatwright.cards.drawings.shapes import LEADING, Point, Sketch
from seatwright.handbook import MM_PER_INCH
from seatwright.job.model import Given, Job, Reading


class Axis(Struct, frozen=True):
    """An axis on the paper. x: where it stands; y: of depth 0; scale: mm on the paper for one of the part."""

    x: float
    y: float
    scale: float

    def __call__(self, radius: float, depth: float) -> Point:
        """A point of the part: radius to the right of the axis, depth downwards [mm]."""
        return (self.x + radius * self.scale, self.y + depth * self.scale)


class Margin(Struct, frozen=True):
    """A label in the margin of a section. tip: what it points at; end: arrow, dot, or line for a dimension line."""

    lines: tuple[str, ...]
    tip: Point
    end: str = "arrow"

    @property
    def size(self) -> float:
        """Height that it takes [mm]."""
        return len(self.lines) * LEADING + 1.2


def in_margin(sketch: Sketch, labels: Sequence[Margin], x: float, anchor: str, low: float, high: float) -> None:
    """Labels under each other in a margin, each near the height of what it points at. x: their edge to the drawing."""
    if not labels:
        return
    ordered = sorted(labels, key=lambda label: label.tip[1])
    levels = apart([label.tip[1] for label in ordered], [label.size for label in ordered], low, high)
    out = 0.8 if anchor == "end" else -0.8
    for label, level in zip(ordered, levels, strict=True):
        block(sketch, x, level, label.lines, anchor)
        if label.end == "line":
            sketch.line((x + out, level), label.tip)
        else:
            leader(sketch, (x + out, level), label.tip, end=label.end)


def broken(sketch: Sketch, start: Point, end: Point) -> None:
    """A thin break line: straight, with one zigzag in its middle (ISO 128)."""
    (x1, y1), (x2, y2) = start, end
    length = math.hypot(x2 - x1, y2 - y1)
    if length < 6:
        sketch.line(start, end)
        return
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    middle = length / 2

    def along(distance: float, off: float) -> Point:
        return (x1 + ux * distance - uy * off, y1 + uy * distance + ux * off)

    zigzag = (along(middle - 1.2, 0), along(middle - 0.5, 1.4), along(middle + 0.5, -1.4), along(middle + 1.2, 0))
    sketch.line(start, *zigzag, end)


def as_measured(job: Job, what: Reading | Given, value: float | None = None) -> str:
    """A figure in the job's unit with the digits that it was typed with; a fraction of an inch with three decimals."""
    unit = figures.job_unit(job)
    per = MM_PER_INCH if unit == "in" else 1.0
    step = 2 * what.half_digit / per
    decimals = 3 if step <= 0 else min(max(math.ceil(-math.log10(step) - 0.01), 0), 4)
    return f"{(what.value if value is None else value) / per:.{decimals}f}"


def below(job: Job, least: float, most: float, word: str = " below") -> str:
    """How a face lies to another between two limits, below counted positive: `0.05 proud to 0.10 below`."""
    low, high = small(job, abs(least)), small(job, abs(most))
    if least == most:
        return f"{low} proud" if least < 0 else f"{low}{word}"
    if most <= 0 and least < 0:
        return f"{high} to {low} proud"
    return f"{low} proud to {high} below" if least < 0 else f"{low} to {high}{word}"


def unit_word(unit: str) -> str:
    """`mm`, `inch`: a unit in a sentence, where `in` would be read as a word."""
    return "inch" if unit == "in" else unit


def small(job: Job, value: float) -> str:
    """A length of which hundredths are enough, in the job's unit: `8.15`, `0.321`."""
    return figures.shown(value, figures.seat_gauge(job)).text
