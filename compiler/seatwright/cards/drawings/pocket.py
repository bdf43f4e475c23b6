"""The pocket in section: bored on the right of the axis, with its insert pressed in on the left."""

from __future__ import annotations

import math

from msgspec import Struct

from seatwright.cards import figures
from seatwright.cards.drawings.dimensions import across, down, leader
from seatwright.cards.drawings.hatching import hatching, scale_said, scale_that_fits
from seatwright.cards.drawings.sections import Axis, Margin, as_measured, below, broken, in_margin, small, unit_word
from seatwright.cards.drawings.shapes import (
    CHAIN,
    DASHED,
    LEADING,
    THICK,
    Drawing,
    Point,
    Sketch,
    around,
    words_width,
    wrapped,
)
from seatwright.cards.words import at, bench_at
from seatwright.job.model import Head
from seatwright.planning.plan import Bore, Depth, InsertPlan, Plan, ValvePlan

_MARGIN = 30.0  # for labels, on either side [mm]
_WALL = 6.0  # of metal drawn beside the bore [mm]
_LEFT_GAP, _RULE, _RULE_GAP = 3.0, 4.5, 3.0  # metal to label, metal to dimension line, that to its figure [mm]
_TOP, _BODY, _BELOW = 9.5, 36.0, 8.5  # for the bore's dimension, for the section, for the throat's [mm]
_UNKNOWN = 7.0  # of metal drawn under a floor whose metal was not measured, before it is broken off [mm on paper]
_BAR = 0.9  # weight of the new bore's wall and floor [mm]


class _Part(Struct, frozen=True):
    """The figures of the pocket [mm]; None: not known, so not drawn. top: depth of the edge drawn on top."""

    bore: float
    depth: float
    top: float
    throat: float | None
    floor_left: float | None
    corner: float
    old: float | None
    old_depth: float | None


def pocket_in_section(plan: Plan, valve: ValvePlan, width: float) -> Drawing | None:
    """The drawing at a width [mm]; None without a bore and a depth."""
    if valve.bore is None or valve.depth is None:
        return None
    part = _part(valve, valve.bore, valve.depth)
    high = part.depth - part.top + (part.floor_left or 0.0)
    room = _BODY - (0.0 if part.floor_left is not None else _UNKNOWN)
    margin = min(_MARGIN, width / 5)
    free = width - margin - max(margin, _widest_at_right(plan, valve.depth)) - 2 * _WALL - _LEFT_GAP - _RULE - _RULE_GAP
    scale = scale_that_fits(min(free / part.bore, room / high))
    axis = Axis(margin + _WALL + _LEFT_GAP + free / 2, _TOP - part.top * scale, scale)
    under = part.floor_left if part.floor_left is not None else _UNKNOWN / scale
    bottom = axis(0, part.depth + under)[1]
    sketch = Sketch()
    _metal(sketch, part, axis, under)
    if valve.insert is not None:
        _insert(sketch, part, valve.insert, axis)
    _old_pocket(sketch, part, axis)
    sketch.line((axis.x, _TOP - 3), (axis.x, bottom + 3), dashes=CHAIN)
    says = _dimensions(sketch, plan, valve, part, axis, bottom, width)
    level = max(bottom + (_BELOW if part.throat is not None else 3.0), sketch.lowest) + 0.6
    notes = _notes(plan, valve, part, scale)
    for note in notes:
        for line in wrapped(note, width):
            level += LEADING
            sketch.text(0.0, level, line, "start")
    return sketch.done(width, level + 1.2, f"Section of the pocket of {valve.name}", " ".join((*says, *notes)))


def _depth_words(plan: Plan, depth: Depth) -> tuple[str, str]:
    """`from the deck`, `8.20 to 8.30`."""
    shallow, deep = figures.limits(depth.least, depth.most, figures.depth_gauge(plan.job))
    face = "old floor" if depth.from_ == "floor" else depth.from_
    return f"from the {face}", f"{shallow.text} to {deep.text}"


def _widest_at_right(plan: Plan, depth: Depth) -> float:
    return max(words_width(words) for words in (*_depth_words(plan, depth), "metal left"))


def _part(valve: ValvePlan, bore: Bore, depth: Depth) -> _Part:
    old = valve.at20.pocket.value if valve.at20.pocket is not None else None
    found = valve.found.pocket_depth.value if valve.found.pocket_depth is not None else None
    top, old_depth = 0.0, found
    if depth.from_ == "floor":
        tall = valve.insert.height.value if valve.insert is not None and valve.insert.height is not None else None
        top, old_depth = -(found or tall or 0.0), 0.0
    return _Part(
        bore.bench_aim.value,
        depth.aim.value,
        top,
        valve.at20.throat.value if valve.at20.throat is not None else None,
        valve.floor_left.value if valve.floor_left is not None and valve.floor_left.value > 0 else None,
        valve.corner_radius.value if valve.corner_radius is not None else 0.0,
        old if old is not None and old < bore.bench_aim.value else None,
        old_depth,
    )


def _metal(sketch: Sketch, part: _Part, axis: Axis, under: float) -> None:
    """The head, cut through: hatched, the new bore heaviest; broken off where it goes on or is not known."""
    r, wall = part.bore / 2, _WALL / axis.scale
    inner = part.throat / 2 if part.throat is not None else r * 0.6
    bottom = part.depth + under
    for side in (1.0, -1.0):

        def point(radius: float, depth: float, side: float = side) -> Point:
            return axis(side * radius, depth)

        arc: list[Point] = [point(r, part.depth)]
        if part.corner > 0:
            x, y = axis(r - part.corner, part.depth - part.corner)
            arc = list(around(x, y, part.corner * axis.scale, 0, 90, 6))
            if side < 0:
                arc = [(2 * axis.x - u, v) for u, v in arc]
        outline = [point(r + wall, part.top), point(r, part.top), *arc, point(inner, part.depth)]
        outline += [point(inner, bottom), point(r + wall, bottom)]
        sketch.add(*hatching(outline, 45, 2.6))
        sketch.line(point(r + wall, part.top), point(r, part.top), weight=THICK)
        sketch.line(point(r, part.top), *arc, point(inner, part.depth), weight=_BAR)
        if part.throat is not None:
            sketch.line(point(inner, part.depth), point(inner, bottom), weight=THICK)
        else:
            broken(sketch, point(inner, part.depth), point(inner, bottom))
        if part.floor_left is not None:
            sketch.line(point(inner, bottom), point(r + wall, bottom), weight=THICK)
        else:
            broken(sketch, point(inner, bottom), point(r + wall, bottom))
        broken(sketch, point(r + wall, part.top), point(r + wall, bottom))
    # The edge of the bore behind the cut.
    sketch.line(axis(0, part.top), axis(r, part.top), weight=THICK)
    sketch.line(axis(0, part.depth), axis(inner, part.depth), weight=THICK)


def _insert(sketch: Sketch, part: _Part, insert: InsertPlan, axis: Axis) -> None:
    """The insert on the left, hatched the other way; only with its height and its id."""
    if insert.height is None or insert.id is None:
        return
    r, inner, top = -part.bore / 2, -insert.id.value / 2, part.depth - insert.height.value
    outline = [axis(inner, top), axis(r, top)]
    if insert.chamfer is not None:
        angle = insert.chamfer_angle.value if insert.chamfer_angle is not None else 45.0
        along, in_ = insert.chamfer.value, insert.chamfer.value * math.tan(math.radians(angle))
        outline += [axis(r, part.depth - along), axis(r + in_, part.depth)]
    else:
        outline.append(axis(r, part.depth))
    outline.append(axis(inner, part.depth))
    sketch.area(*outline, fill="white")
    sketch.add(*hatching(outline, -45, 1.7))
    sketch.area(*outline)
    sketch.line(axis(inner, top), axis(0, top), weight=THICK)
    sketch.line(axis(inner, part.depth), axis(0, part.depth), weight=THICK)


def _old_pocket(sketch: Sketch, part: _Part, axis: Axis) -> None:
    """The pocket as found, on the right, dashed."""
    if part.old is None or part.old_depth is None:
        return
    inner = part.throat / 2 if part.throat is not None else 0.0
    sketch.line(
        axis(part.old / 2, part.top), axis(part.old / 2, part.old_depth), axis(inner, part.old_depth), dashes=DASHED
    )


def _dimensions(
    sketch: Sketch, plan: Plan, valve: ValvePlan, part: _Part, axis: Axis, bottom: float, width: float
) -> list[str]:
    """All figures; returned in words."""
    assert valve.bore is not None
    assert valve.depth is not None
    job, r = plan.job, part.bore / 2
    low, high = figures.limits(valve.bore.bench_least, valve.bore.bench_most, figures.bore_gauge(job))
    bore = f"Ø{low.text} to {high.text}"
    across(sketch, axis(-r, part.top), axis(r, part.top), _TOP - 4.0, bore, room=width, bold=True)
    says = [f"Bore {bore} {low.unit}{at(bench_at(job, _head(plan, valve)))}."]
    if valve.at20.throat is not None and valve.found.throat is not None:
        throat = f"throat Ø{as_measured(job, valve.found.throat)}"
        half = valve.at20.throat.value / 2
        left, right = axis(-half, 0)[0], axis(half, 0)[0]
        across(sketch, (left, bottom), (right, bottom), bottom + 7.0, throat, room=width)
        says.append(f"{throat}.")
    face, depth = _depth_words(plan, valve.depth)
    edge = axis(r, 0)[0] + _WALL
    rule = edge + _RULE
    face_level, floor_level = axis(0, 0)[1], axis(0, part.depth)[1]
    down(sketch, (edge, face_level), (axis(r - part.corner, 0)[0], floor_level), rule)
    right_margin = [Margin((face, depth), (rule, (face_level + floor_level) / 2), "line")]
    says.append(f"Depth {depth} {face}.")
    if part.floor_left is not None:
        left_under = small(job, part.floor_left)
        down(sketch, (edge, floor_level), (edge, bottom), rule)
        right_margin.append(Margin(("metal left", left_under), (rule, (floor_level + bottom) / 2), "line"))
        says.append(f"Metal left under the floor {left_under}.")
    if part.corner > 0:
        corner = f"R{small(job, part.corner)}"
        level = (axis(0, part.top)[1] + floor_level) / 2 + 1.3
        made = sketch.text(axis.x + 3.0, level, corner, "start")
        leader(sketch, (made.box.right + 0.8, level - 1.2), axis(r - part.corner * 0.3, part.depth - part.corner * 0.3))
        says.append(f"Corner {corner} left at the floor.")
    in_margin(sketch, right_margin, rule + _RULE_GAP, "start", 2.0, bottom + 8.0)
    return says + _of_insert(sketch, plan, valve, part, axis, bottom)


def _of_insert(sketch: Sketch, plan: Plan, valve: ValvePlan, part: _Part, axis: Axis, bottom: float) -> list[str]:
    """The insert's labels, in the left margin; returned in words."""
    insert, job = valve.insert, plan.job
    if insert is None or insert.height is None or insert.id is None:
        return []
    r, inner, top = -part.bore / 2, -insert.id.value / 2, part.depth - insert.height.value
    left = axis(r, 0)[0] - _WALL - _LEFT_GAP
    room = min(left - 0.8, _MARGIN)
    name = wrapped(f"insert {insert.name}", room)
    tall = small(job, insert.height.value)
    labels = [Margin((*name, f"{tall} high"), axis((r + inner) / 2, part.depth - insert.height.value * 0.4), "dot")]
    says = [f"Insert {insert.name}, {tall} high."]
    stand = valve.valve.specification.stand
    if stand is not None:
        figure = below(job, stand.below_least.value, stand.below_most.value)
        labels.append(Margin(("stands", *wrapped(figure, room)), axis(r * 0.98, top), "arrow"))
        says.append(f"It stands {figure}.")
    if insert.chamfer is not None and insert.chamfer_angle is not None:
        chamfer = f"{small(job, insert.chamfer.value)} × {insert.chamfer_angle.value:.3g}°"
        leg = insert.chamfer.value
        labels.append(Margin((chamfer,), axis(r + leg * 0.3, part.depth - leg * 0.4), "arrow"))
        says.append(f"Its chamfer is {chamfer}.")
    in_margin(sketch, labels, left, "end", 2.0, bottom + 8.0)
    return says


def _head(plan: Plan, valve: ValvePlan) -> Head:
    return next(head for head in plan.heads if head.number == valve.head)


def _notes(plan: Plan, valve: ValvePlan, part: _Part, scale: float) -> list[str]:
    unit = figures.job_unit(plan.job)
    gauge = figures.bore_gauge(plan.job).unit
    units = unit_word(unit) if gauge == unit else f"{unit_word(unit)}, the bore {unit_word(gauge)}"
    first = f"{valve.name} on its axis, {scale_said(scale)}; {units}{at(bench_at(plan.job, _head(plan, valve)))}."
    sides = "Right: as bored, the wall heavy." if valve.insert is None else "Left: the insert in. Right: as bored."
    found = valve.found
    if part.old is not None and part.old_depth is not None and found.pocket_a is not None:
        largest = max(cell.largest for cell in (found.pocket_a, found.pocket_b) if cell is not None)
        old = f"Ø{as_measured(plan.job, found.pocket_a, largest)}"
        deep = f", {as_measured(plan.job, found.pocket_depth)} deep" if found.pocket_depth is not None else ""
        sides += f" Dashed: the pocket as found, {old}{deep}."
    return [f"{first} {sides}"]
