"""What sections share: where a radius and a depth lie on the paper, breaks, labels in margins, figures as measured."""

from __future__ import annotations

import math

from msgspec import Struct

from seatwright.cards.drawings.shapes import Point, Sketch
from seatwright.cards.parts import figures
from seatwright.job.model import Job

BAR = 0.35  # weight of the bar that the printer is checked by [mm]


class Axis(Struct, frozen=True):
    """An axis on the paper. x: where it stands; y: of depth 0; scale: mm on the paper for one of the part."""

    x: float
    y: float
    scale: float

    def __call__(self, radius: float, depth: float) -> Point:
        """A point of the part: radius to the right of the axis, depth downwards [mm]."""
        return (self.x + radius * self.scale, self.y + depth * self.scale)


def to_check(sketch: Sketch, x: float, y: float, unit: str) -> None:
    """A bar of 10 mm, or half an inch, to check the printer by."""
    long, words = (12.7, "1/2 in") if unit == "in" else (10.0, "10 mm")
    for end in (x, x + long):
        sketch.line((end, y - 1), (end, y + 1), weight=BAR)
    sketch.line((x, y), (x + long, y), weight=BAR)
    sketch.text(x + long + 2, y + 1.1, words, "start")


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


def lies_below(job: Job, least: float, most: float, word: str = " below") -> str:
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
    return figures.digits_shown(value, figures.seat_gauge(job))
