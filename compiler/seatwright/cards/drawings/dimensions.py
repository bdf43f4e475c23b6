"""Dimensions as ISO 129-1 has them: extension lines a little past the dimension line, narrow filled arrows, the figure
above the line; where the figure does not fit between the arrows they point from outside."""

from __future__ import annotations

import math

from seatwright.cards.drawings.shapes import LEADING, LETTERING, THIN, Path, Point, Sketch

ARROW = 2.6  # length [mm]
_HALF = 0.42  # half its width [mm]
PAST = 1.4  # how far an extension line runs past the dimension line [mm]
ABOVE = 0.9  # from the dimension line to the base line of its figure [mm]
_CLEAR = 3.2  # from the end of a half diameter's line to its figure, so that the axis does not run through it [mm]


def arrow(sketch: Sketch, tip: Point, towards: float) -> None:
    """A filled arrowhead that points in a direction [degrees, clockwise from the right]."""
    turn = math.radians(towards)
    cos, sin = math.cos(turn), math.sin(turn)
    x, y = tip
    back = (x - ARROW * cos, y - ARROW * sin)
    sides = ((back[0] - _HALF * sin, back[1] + _HALF * cos), (back[0] + _HALF * sin, back[1] - _HALF * cos))
    sketch.add(Path((tip, *sides), 0.05, closed=True, fill="black"))


def half(sketch: Sketch, start: float, edge: Point, level: float, words: str, *, bold: bool = False) -> None:
    """A diameter of which the paper shows one side: its line runs from beyond the axis to the edge, one arrow there."""
    x, y = edge
    sketch.line((x, y), (x, level + math.copysign(PAST, level - y)))
    sketch.line((start, level), (x, level))
    arrow(sketch, (x, level), 0)
    sketch.text(start + _CLEAR, level - ABOVE, words, "start", bold=bold)


def down(sketch: Sketch, top: Point, bottom: Point, at: float) -> None:
    """A dimension down the paper, its line at `at`, without its figure: that stands beside it.

    top, bottom: where its extension lines begin.
    """
    for x, y in (top, bottom):
        sketch.line((x, y), (at + math.copysign(PAST, at - x), y))
    if bottom[1] - top[1] >= 2 * ARROW + 1:
        sketch.line((at, top[1]), (at, bottom[1]))
        arrow(sketch, (at, top[1]), -90)
        arrow(sketch, (at, bottom[1]), 90)
    else:
        sketch.line((at, top[1] - 1.6 * ARROW), (at, bottom[1] + 1.6 * ARROW))
        arrow(sketch, (at, top[1]), 90)
        arrow(sketch, (at, bottom[1]), -90)


def lettered_beside(sketch: Sketch, x: float, y: float, *words: str, bold_last: bool = False) -> None:
    """Lines of lettering beside a dimension line, about the middle of their height."""
    first = y - (len(words) - 1) * LEADING / 2 + LETTERING * 0.35
    for index, line in enumerate(words):
        sketch.text(x, first + index * LEADING, line, "start", bold=bold_last and index == len(words) - 1)


def leader(sketch: Sketch, *points: Point, end: str = "arrow") -> None:
    """A leader from its words to what they speak of: an arrow on an outline, a dot within it."""
    sketch.line(*points, weight=THIN)
    (x1, y1), tip = points[-2], points[-1]
    if end == "arrow":
        arrow(sketch, tip, math.degrees(math.atan2(tip[1] - y1, tip[0] - x1)))
    else:
        dot = tuple(
            (tip[0] + 0.6 * math.cos(math.radians(a)), tip[1] + 0.6 * math.sin(math.radians(a)))
            for a in range(0, 360, 30)
        )
        sketch.add(Path(dot, 0.05, closed=True, fill="black"))
