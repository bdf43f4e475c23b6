"""The head seen from the deck, to scale from its layout."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct

from seatwright.cards.drawings.hatching import scale_said, scale_that_fits
from seatwright.cards.drawings.head_plan import NEAR_LIMIT, Round, Spot, Tight, rounds, spots, tight_bridges
from seatwright.cards.drawings.sections import to_check, unit_word
from seatwright.cards.drawings.shapes import (
    DASHED,
    LEADING,
    LETTERING,
    THICK,
    Circle,
    Drawing,
    Lettering,
    Path,
    Point,
    Sketch,
    words_width,
)
from seatwright.cards.escape import in_one_line
from seatwright.cards.parts.words import at, bench_at
from seatwright.job.model import Head
from seatwright.planning.basis import instruments
from seatwright.planning.plan import Plan

_WIDEST, _HIGHEST = 117.0, 60.0  # of the head on the paper [mm]
_BAR = 3.2  # length of the bar across a bridge [mm]
_GAP = 1.2  # between two labels of a row [mm]


class _Sheet(Struct, frozen=True):
    """Where the head lies on the paper. turned: x of the layout runs up it, y to the right."""

    scale: float
    left: float
    top: float
    turned: bool
    x0: float
    y0: float
    high: float

    def __call__(self, x: float, y: float) -> Point:
        u, v = (y, x) if self.turned else (x, y)
        return (self.left + (u - self.x0) * self.scale, self.top + (self.y0 - v) * self.scale)


def head_from_deck(plan: Plan, head: Head) -> Drawing | None:
    """The drawing; None where the head has no layout, or one so crowded that names have no room."""
    valves, others, tight = spots(plan, head), rounds(head), tight_bridges(plan, head)
    if not valves:
        return None
    sheet = _sheet(valves, others, 0.0)
    above, below = _sides(valves, sheet)
    inside = all(
        math.hypot(words_width(spot.name, True) + 0.6, LETTERING) < 2 * _radius(spot, sheet) for spot in valves
    ) and not _run_together(valves, sheet)
    labelled = inside and all(_fits(side, sheet) for side in (above, below))
    lines = max(len(spot.lines) for spot in valves) if labelled else 0 if inside else 1
    room = lines * LEADING + 1.6 if lines else 0.0
    sheet = _sheet(valves, others, room)
    sketch = Sketch()
    _circles(sketch, valves, others, sheet)
    sketch.add(*_bars(tight, valves, others, sheet))
    for side, up in ((above, True), (below, False)):
        for spot in side:
            x, y = sheet(spot.x, spot.y)
            words = spot.lines if labelled else () if inside else (spot.name,)
            if inside:
                sketch.text(x, y + LETTERING * 0.36, spot.name, bold=True)
            first = sheet.top - 1.6 - (len(words) - 1) * LEADING if up else sheet.top + sheet.high + LETTERING + 0.6
            if not labelled and not inside:
                radius = _radius(spot, sheet)
                first = y - radius - 1.0 if up else y + radius + LETTERING
            for index, line in enumerate(words):
                sketch.text(x, first + index * LEADING, line, bold=line in ("HOLD", spot.name))
    if _crowded(sketch):
        return None
    bottom = sheet.top + sheet.high + (room if below else 0.0)
    to_check(sketch, sheet.left, bottom + 4.0, instruments.job_unit(plan.job))
    caption = _caption(plan, head, sheet, valves, others, tight, labelled=labelled)
    says = "; ".join(" ".join((spot.name, *spot.lines)) for spot in valves)
    name = f"Head {head.name or head.number} from the deck"
    return sketch.done(_WIDEST + 6.0, bottom + 6.0, name, f"{says}. {caption}", caption)


def _sheet(valves: Sequence[Spot], others: Sequence[Round], room: float) -> _Sheet:
    """Scale and place of everything. room: above the head, for labels."""
    discs = [(spot.x, spot.y, (spot.diameter or 8.0) / 2) for spot in valves]
    discs += [(each.x, each.y, each.diameter / 2) for each in others]
    wide = max(x + r for x, _, r in discs) - min(x - r for x, _, r in discs)
    high = max(y + r for _, y, r in discs) - min(y - r for _, y, r in discs)
    turned = high > wide * 1.2
    if turned:
        discs = [(y, x, r) for x, y, r in discs]
        wide, high = high, wide
    scale = scale_that_fits(min(_WIDEST / wide, _HIGHEST / high))
    x0, y0 = min(x - r for x, _, r in discs), max(y + r for _, y, r in discs)
    return _Sheet(scale, 3.0 + (_WIDEST - wide * scale) / 2, room + 0.5, turned, x0, y0, high * scale)


def _sides(valves: Sequence[Spot], sheet: _Sheet) -> tuple[list[Spot], list[Spot]]:
    """The valves whose words stand above and below: by rows, or every other one where they lie in one row."""
    ordered = sorted(valves, key=lambda spot: (sheet(spot.x, spot.y), spot.name))
    levels = [sheet(spot.x, spot.y)[1] for spot in ordered]
    middle = (min(levels) + max(levels)) / 2
    if max(levels) - min(levels) < 3.0:
        return ordered[::2], ordered[1::2]
    up = [spot for spot, level in zip(ordered, levels, strict=True) if level <= middle]
    return up, [spot for spot, level in zip(ordered, levels, strict=True) if level > middle]


def _fits(side: Sequence[Spot], sheet: _Sheet) -> bool:
    """Whether the labels of a side have room beside each other, each in line with its circle."""
    places = [
        (sheet(spot.x, spot.y)[0], max(words_width(line, line == "HOLD") for line in spot.lines)) for spot in side
    ]
    for (one, first), (other, second) in pairwise(places):
        if other - one < (first + second) / 2 + _GAP:
            return False
    return all(width / 2 <= x <= _WIDEST + 6.0 - width / 2 for x, width in places)


def _run_together(valves: Sequence[Spot], sheet: _Sheet) -> bool:
    places = [sheet(spot.x, spot.y) for spot in valves]
    wide = [words_width(spot.name, True) for spot in valves]
    return any(
        abs(x1 - x2) < (wide[i] + wide[j]) / 2 + 0.4 and abs(y1 - y2) < LETTERING
        for i, (x1, y1) in enumerate(places)
        for j, (x2, y2) in enumerate(places[:i])
    )


def _crowded(sketch: Sketch) -> bool:
    """Whether words lie over each other, or beside the paper: a drawing that cannot be read is none."""
    boxes = [shape.box for shape in sketch.shapes if isinstance(shape, Lettering)]
    return any(one.meets(other) for at, one in enumerate(boxes) for other in boxes[:at]) or any(
        box.left < 0 or box.right > _WIDEST + 6.0 for box in boxes
    )


def _radius(spot: Spot, sheet: _Sheet) -> float:
    return spot.diameter / 2 * sheet.scale if spot.diameter is not None else 1.2


def _circles(sketch: Sketch, valves: Sequence[Spot], others: Sequence[Round], sheet: _Sheet) -> None:
    for each in others:
        x, y = sheet(each.x, each.y)
        sketch.add(Circle(x, y, each.diameter / 2 * sheet.scale, dashes=DASHED if each.rim else ""))
    for spot in valves:
        x, y = sheet(spot.x, spot.y)
        radius = _radius(spot, sheet)
        if spot.diameter is None:
            sketch.line((x - radius, y), (x + radius, y))
            sketch.line((x, y - radius), (x, y + radius))
        else:
            sketch.add(Circle(x, y, radius, 2 * THICK if spot.planned else 0.25))


def _gap(one: tuple[Point, float, bool], other: tuple[Point, float, bool]) -> tuple[Point, float]:
    """The middle of the metal between two circles, or between a circle and the rim round it, and which way it lies."""
    (x1, y1), r1, rim1 = one
    (x2, y2), r2, rim2 = other
    if rim1:
        return _gap(other, one)
    away = math.atan2(y1 - y2, x1 - x2) if rim2 else math.atan2(y2 - y1, x2 - x1)
    distance = math.hypot(x2 - x1, y2 - y1)
    far = r2 - distance if rim2 else distance - r2
    reach = (r1 + far) / 2
    return (x1 + reach * math.cos(away), y1 + reach * math.sin(away)), away


def _bars(tight: Sequence[Tight], valves: Sequence[Spot], others: Sequence[Round], sheet: _Sheet) -> list[Path]:
    """A heavy bar across the middle of each bridge near its limit."""
    known = {spot.name: (sheet(spot.x, spot.y), _radius(spot, sheet), False) for spot in valves}
    known |= {each.name: (sheet(each.x, each.y), each.diameter / 2 * sheet.scale, each.rim) for each in others}
    bars = []
    for bridge in tight:
        if bridge.between[0] in known and bridge.between[1] in known:
            (x, y), along = _gap(known[bridge.between[0]], known[bridge.between[1]])
            dx, dy = -math.sin(along) * _BAR / 2, math.cos(along) * _BAR / 2
            bars.append(Path(((x - dx, y - dy), (x + dx, y + dy)), 1.1))
    return bars


def _caption(
    plan: Plan, head: Head, sheet: _Sheet, valves: Sequence[Spot], others: Sequence[Round], tight: Sequence[Tight],
    *, labelled: bool,
) -> str:  # fmt: skip
    """What the drawing shows and how."""
    said = [scale_said(sheet.scale)]
    if any(spot.planned for spot in valves):
        where = f"{unit_word(instruments.bore_gauge(plan.job).unit)}{at(bench_at(plan.job, head))}"
        said.append(f"thick: the new bore, Ø its aim, {where}" if labelled else "thick: the new bore, see the table")
    if any(spot.diameter is not None and not spot.planned for spot in valves):
        said.append("thin: a pocket that is not bored")
    if any(spot.diameter is None for spot in valves):
        said.append("cross: an axis, no diameter known")
    if any(each.rim for each in others):
        said.append("dashed: cylinder")
    text = f"{'; '.join(said)}."
    if tight:
        unit = unit_word(instruments.job_unit(plan.job))
        each = ", ".join(f"{first} to {second} {one.left}" for one in tight for first, second in [one.between])
        least = " or ".join(dict.fromkeys(one.least for one in tight))
        text += f" Heavy bar: a bridge with at most {NEAR_LIMIT:g} times its least left, {unit}, least {least}: {each}."
    return in_one_line(text)
