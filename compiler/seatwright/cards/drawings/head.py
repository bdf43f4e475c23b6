"""The head seen from the deck, to scale from its layout."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.cards import figures
from seatwright.cards.drawings.hatching import scale_said, scale_that_fits
from seatwright.cards.drawings.head_plan import NEAR_LIMIT, Round, Spot, Tight, rounds, spots, tight_bridges
from seatwright.cards.drawings.labels import Label, Side, sides
from seatwright.cards.drawings.sections import unit_word
from seatwright.cards.drawings.shapes import (
    DASHED,
    LEADING,
    LETTERING,
    THICK,
    THIN,
    Circle,
    Drawing,
    Path,
    Point,
    Sketch,
    Text,
    words_width,
    wrapped,
)
from seatwright.cards.escape import visible
from seatwright.cards.words import at, bench_at
from seatwright.job.model import Head
from seatwright.planning.plan import Plan

_BODY = 44.0  # how high the head itself may be drawn [mm]
_LONGEST_NAME = 22.0  # of an insert, in a label [mm]
_MOST_ROWS = 1  # of labels on a side, with those of bridges: further out their lines would run over valves
_BAR = 3.2  # length of the bar across a bridge [mm]


class _Sheet(Struct, frozen=True):
    """Where the head lies on the paper. turned: x of the layout runs up it, y to the right."""

    scale: float
    left: float
    top: float
    turned: bool
    x0: float
    y0: float

    def __call__(self, x: float, y: float) -> Point:
        u, v = (y, x) if self.turned else (x, y)
        return (self.left + (u - self.x0) * self.scale, self.top + (self.y0 - v) * self.scale)


def head_from_deck(plan: Plan, head: Head, width: float) -> Drawing | None:
    """The drawing at a width [mm]; None where the head has no layout."""
    valves, others, tight = spots(plan, head), rounds(head), tight_bridges(plan, head)
    if not valves:
        return None
    sheet, body = _sheet(valves, others, width)
    above, _ = _placed(valves, others, tight, sheet, width)
    sheet = replace(sheet, top=above.height + 0.5)
    above, below = _placed(valves, others, tight, sheet, width)
    sketch = Sketch()
    _circles(sketch, valves, others, sheet)
    sketch.add(*_bridge_labels(tight, valves, others, sheet)[1])
    above.draw(sketch, sheet.top, width, upwards=True)
    below.draw(sketch, sheet.top + body, width, upwards=False)
    inside = _names_inside(valves, sheet)
    if inside:
        sketch.add(*(_name(spot, sheet) for spot in valves))
    unlabelled = _hole_names(sketch, others, sheet, width)
    level = sheet.top + body + below.height + 1.5
    notes = _notes(plan, head, sheet, valves, others, tight, unlabelled)
    for note in notes:
        for line in wrapped(note, width):
            level += LEADING
            sketch.text(0.0, level, line, "start")
    name = f"Head {head.name or head.number} from the deck"
    return sketch.done(width, level + 1.2, name, _says(valves, others, notes))


def _sheet(valves: Sequence[Spot], others: Sequence[Round], width: float) -> tuple[_Sheet, float]:
    """Scale and place of everything, and the height that the head takes on the paper."""
    discs = [(spot.x, spot.y, (spot.diameter or 8.0) / 2) for spot in valves]
    discs += [(each.x, each.y, each.diameter / 2) for each in others]
    wide = max(x + r for x, _, r in discs) - min(x - r for x, _, r in discs)
    high = max(y + r for _, y, r in discs) - min(y - r for _, y, r in discs)
    turned = high > wide * 1.2
    if turned:
        discs = [(y, x, r) for x, y, r in discs]
        wide, high = high, wide
    scale = scale_that_fits(min((width - 1.0) / wide, _BODY / high))
    left = (width - wide * scale) / 2
    sheet = _Sheet(scale, left, 0.0, turned, min(x - r for x, _, r in discs), max(y + r for _, y, r in discs))
    return sheet, high * scale + 0.5


def _placed(
    valves: Sequence[Spot], others: Sequence[Round], tight: Sequence[Tight], sheet: _Sheet, width: float
) -> tuple[Side, Side]:
    """The labels above and below; bridges have theirs where that needs no second row, else only the note names them."""
    labels = _labels(valves, sheet)
    both = sides([*labels, *_bridge_labels(tight, valves, others, sheet)[0]], width)
    return both if max(side.rows for side in both) <= _MOST_ROWS else sides(labels, width)


def _radius(spot: Spot, sheet: _Sheet) -> float:
    return spot.diameter / 2 * sheet.scale if spot.diameter is not None else 1.2


def _names_inside(valves: Sequence[Spot], sheet: _Sheet) -> bool:
    """Whether every name has room in its circle, and clear of the others where a layout has circles run together."""
    if any(spot.crossed for spot in valves) or not all(
        math.hypot(words_width(spot.name, True) + 0.8, LETTERING) < 2 * _radius(spot, sheet) for spot in valves
    ):
        return False
    boxes = [_name(spot, sheet).box for spot in valves]
    return not any(one.meets(other, 0.4) for at, one in enumerate(boxes) for other in boxes[at + 1 :])


def _name(spot: Spot, sheet: _Sheet) -> Text:
    x, y = sheet(spot.x, spot.y)
    return Text(x, y + LETTERING * 0.36, visible(spot.name), bold=True)


def _labels(valves: Sequence[Spot], sheet: _Sheet) -> list[Label]:
    inside = _names_inside(valves, sheet)
    inserts_fit = all(words_width(line) <= _LONGEST_NAME for spot in valves for line in spot.lines)
    found = []
    for spot in valves:
        lines = spot.lines
        if not inserts_fit:
            lines = tuple(line for line in lines if words_width(line) <= _LONGEST_NAME)
        if not inside or not lines:
            lines = (spot.name, *lines)
        found.append(
            Label(lines, sheet(spot.x, spot.y), _radius(spot, sheet), spot.setting, 0 if not inside else len(lines) - 1)
        )
    return found


def _circles(sketch: Sketch, valves: Sequence[Spot], others: Sequence[Round], sheet: _Sheet) -> None:
    for each in others:
        x, y = sheet(each.x, each.y)
        sketch.add(Circle(x, y, each.diameter / 2 * sheet.scale, THIN, DASHED if each.rim else ""))
    for spot in valves:
        x, y = sheet(spot.x, spot.y)
        radius = _radius(spot, sheet)
        if spot.diameter is None:
            sketch.line((x - radius, y), (x + radius, y))
            sketch.line((x, y - radius), (x, y + radius))
            continue
        sketch.add(Circle(x, y, radius, THICK if spot.planned else THIN))
        if spot.inside is not None:
            sketch.add(Circle(x, y, spot.inside / 2 * sheet.scale))
        if spot.crossed:
            reach = radius * math.sqrt(0.5)
            sketch.line((x - reach, y - reach), (x + reach, y + reach), weight=THICK)
            sketch.line((x - reach, y + reach), (x + reach, y - reach), weight=THICK)


def _hole_names(sketch: Sketch, others: Sequence[Round], sheet: _Sheet, width: float) -> tuple[str, ...]:
    """Names in the holes that have room for them; those of the others are returned, for a note."""
    outside = []
    for each in others:
        if each.rim:
            continue
        x, y = sheet(each.x, each.y)
        text = Text(x, y + LETTERING * 0.36, visible(each.name))
        if math.hypot(text.width, LETTERING) < each.diameter * sheet.scale and sketch.free(text.box):
            sketch.add(text)
        else:
            outside.append(each.name)
    return tuple(outside)


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


def _bridge_labels(
    tight: Sequence[Tight], valves: Sequence[Spot], others: Sequence[Round], sheet: _Sheet
) -> tuple[list[Label], list[Path]]:
    """For each bridge near its limit what is left of it, and a heavy bar across its middle."""
    known = {spot.name: (sheet(spot.x, spot.y), _radius(spot, sheet), False) for spot in valves}
    known |= {each.name: (sheet(each.x, each.y), each.diameter / 2 * sheet.scale, each.rim) for each in others}
    labels, bars = [], []
    for bridge in tight:
        if bridge.between[0] in known and bridge.between[1] in known:
            (x, y), along = _gap(known[bridge.between[0]], known[bridge.between[1]])
            labels.append(Label(("bridge", bridge.left), (x, y), 0.0, bold_first=False))
            dx, dy = -math.sin(along) * _BAR / 2, math.cos(along) * _BAR / 2
            bars.append(Path(((x - dx, y - dy), (x + dx, y + dy)), 1.1))
    return labels, bars


def _notes(
    plan: Plan,
    head: Head,
    sheet: _Sheet,
    valves: Sequence[Spot],
    others: Sequence[Round],
    tight: Sequence[Tight],
    unlabelled: Sequence[str],
) -> list[str]:
    """What the drawing shows and how, each a sentence."""
    unit = unit_word(figures.job_unit(plan.job))
    axes = "x of the layout up, y to the right" if sheet.turned else "x of the layout to the right, y up"
    bores = any(spot.planned for spot in valves)
    marks = []
    if bores:
        where = f"{unit_word(figures.bore_gauge(plan.job).unit)}{at(bench_at(plan.job, head))}"
        aim = f", Ø its aim in {where}" if any(line.startswith("Ø") for spot in valves for line in spot.lines) else ""
        marks.append(f"thick circle: the bore{aim}")
    if any(spot.setting for spot in valves):
        marks.append("boxed: its setting")
    if any(spot.inside is not None for spot in valves):
        marks.append("within it the insert's id")
    if any(spot.diameter is not None and not spot.planned for spot in valves):
        marks.append("thin circle: as found")
    if any(spot.crossed for spot in valves):
        marks.append("crossed out: on hold")
    if any(spot.diameter is None for spot in valves):
        marks.append("cross: an axis, no diameter known")
    if any(each.rim for each in others):
        marks.append("dashed: rim of a cylinder")
    notes = [f"From the deck, {scale_said(sheet.scale)}; {axes}. {_sentence('; '.join(marks))}".strip()]
    if unlabelled:
        notes.append(f"Holes, from the left: {', '.join(unlabelled)}.")
    if tight:
        same = len({one.least for one in tight}) == 1
        each = [
            f"{first} to {second} {one.left}" + ("" if same else f" (least {one.least})")
            for one in tight
            for first, second in [one.between]
        ]
        least = f", least {tight[0].least}" if same else ""
        rule = f"Heavy bar: a bridge with {NEAR_LIMIT:g} times its least or less left, in {unit}{least}"
        notes.append(f"{rule}: {', '.join(each)}.")
    return notes


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}." if words else ""


def _says(valves: Sequence[Spot], others: Sequence[Round], notes: Sequence[str]) -> str:
    each = [
        " ".join((spot.name, *spot.lines, *((f"setting {spot.setting}",) if spot.setting else ()))) for spot in valves
    ]
    holes = [f"{'rim' if each.rim else 'hole'} {each.name}" for each in others]
    return ". ".join(("; ".join((*each, *holes)), *(note.rstrip(".") for note in notes))) + "."
