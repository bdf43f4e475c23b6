"""Dimensions as ISO 129-1 has them: extension lines a little past the dimension line, narrow filled arrows, the figure
above the line; where the figure does not fit between the arrows they point from outside."""

from __future__ import annotations

import math

from seatwright.cards.drawings.shapes import LEADING, LETTERING, THIN, Path, Point, Sketch, words_width

ARROW = 2.6  # length [mm]
_HALF = 0.42  # half its width [mm]
PAST = 1.4  # how far an extension line runs past the dimension line [mm]
ABOVE = 0.9  # from the dimension line to the base line of its figure [mm]


def arrow(sketch: Sketch, tip: Point, towards: float) -> None:
    """A filled arrowhead that points in a direction [degrees, clockwise from the right]."""
    turn = math.radians(towards)
    cos, sin = math.cos(turn), math.sin(turn)
    x, y = tip
    back = (x - ARROW * cos, y - ARROW * sin)
    sides = ((back[0] - _HALF * sin, back[1] + _HALF * cos), (back[0] + _HALF * sin, back[1] - _HALF * cos))
    sketch.add(Path((tip, *sides), 0.05, closed=True, fill="black"))


def across(
    sketch: Sketch, left: Point, right: Point, level: float, figure: str, *, room: float, bold: bool = False
) -> None:
    """A dimension across the paper, its line at a level. left, right: where its extension lines begin. room: of the
    paper [mm], so that a figure longer than its line stays on it."""
    for x, y in (left, right):
        sketch.line((x, y), (x, level + math.copysign(PAST, level - y)))
    length = right[0] - left[0]
    if length >= 2 * ARROW + 1:
        sketch.line((left[0], level), (right[0], level))
        arrow(sketch, (left[0], level), 180)
        arrow(sketch, (right[0], level), 0)
    else:
        sketch.line((left[0] - 2 * ARROW, level), (right[0] + 2 * ARROW, level))
        arrow(sketch, (left[0], level), 0)
        arrow(sketch, (right[0], level), 180)
    half = words_width(figure, bold) / 2
    middle = min(max((left[0] + right[0]) / 2, half), room - half)
    sketch.text(middle, level - ABOVE, figure, bold=bold)


def down(sketch: Sketch, top: Point, bottom: Point, at: float) -> None:
    """A dimension down the paper, its line at `at`, without its figure: that stands level in the margin, led to it.

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


def block(sketch: Sketch, x: float, y: float, words: tuple[str, ...], anchor: str) -> None:
    """Lines of lettering about the middle of their height."""
    first = y - (len(words) - 1) * LEADING / 2 + LETTERING * 0.35
    sketch.lines(x, first, words, anchor)


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


def apart(wanted: list[float], sizes: list[float], low: float, high: float) -> list[float]:
    """Middles of things in a row, in the order given, as near to where they are wanted as their sizes allow.

    low, high: ends of the row; what does not all fit runs past the high one.
    """
    blocks: list[list[float]] = []  # of a run that touches: wanted start of it (sum), how many, size
    for want, size in zip(wanted, sizes, strict=True):
        blocks.append([want - size / 2, 1.0, size])
        while len(blocks) > 1:
            before, last = blocks[-2], blocks[-1]
            start = before[0] / before[1]
            if start + before[2] <= last[0] / last[1]:
                break
            blocks[-2:] = [[before[0] + last[0] - last[1] * before[2], before[1] + last[1], before[2] + last[2]]]
    starts = [(total / count, size) for total, count, size in blocks]
    runs = [[max(start, low), size] for start, size in starts]
    edge = high
    for run in reversed(runs):
        run[0] = min(run[0], edge - run[1])
        edge = run[0]
    edge = low
    for run in runs:
        run[0] = max(run[0], edge)
        edge = run[0] + run[1]
    middles: list[float] = []
    counts = [int(count) for _, count, _ in blocks]
    at = 0
    for (start, _), count in zip(runs, counts, strict=True):
        edge = start
        for size in sizes[at : at + count]:
            middles.append(edge + size / 2)
            edge += size
        at += count
    return middles
