"""The pocket in section: one side of it, bored, the insert that goes in and the pocket as found in phantom lines."""

from __future__ import annotations

import math

from msgspec import Struct

from seatwright.cards.drawings.dimensions import down, half, leader, lettered_beside
from seatwright.cards.drawings.hatching import hatching, scale_said, scale_that_fits
from seatwright.cards.drawings.sections import Axis, broken, small, to_check, unit_word
from seatwright.cards.drawings.shapes import CHAIN, DASHED, PHANTOM, THICK, Drawing, Point, Sketch, around, words_width
from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import as_read
from seatwright.cards.parts.words import at, bench_at
from seatwright.planning.basis import instruments
from seatwright.planning.plan import Bore, Depth, InsertPlan, Plan, ValvePlan

_AXIS, _TOP, _WALL = 3.0, 8.0, 9.0  # axis from the left, deck from the top, metal beside the bore [mm]
_WIDEST, _HIGHEST = 58.0, 26.0  # of the metal drawn, from the axis and from the edge [mm]
_UNKNOWN = 7.0  # of metal drawn under a floor whose metal was not measured, before it is broken off [mm]
_RULE, _FIGURE = 3.5, 1.5  # metal to dimension line, that to its figure [mm]
_BAR = 0.7  # weight of the new bore's wall and floor [mm]


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


def pocket_in_section(plan: Plan, valve: ValvePlan) -> Drawing | None:
    """The drawing; None without a bore and a depth."""
    if valve.bore is None or valve.depth is None:
        return None
    part = _part(valve, valve.bore, valve.depth)
    high = part.depth - part.top
    scale = scale_that_fits(min((_WIDEST - _WALL) / (part.bore / 2), (_HIGHEST - _UNKNOWN) / high))
    under = min(part.floor_left if part.floor_left is not None else math.inf, (_HIGHEST - high * scale) / scale)
    whole = part.floor_left is not None and under >= part.floor_left
    axis = Axis(_AXIS, _TOP - part.top * scale, scale)
    sketch = Sketch()
    edge = axis(part.bore / 2, 0)[0] + _WALL
    bottom = axis(0, part.depth + under)[1]
    _metal(sketch, part, axis, edge, bottom, whole=whole)
    over = _insert(sketch, plan, part, valve.insert, axis) if valve.insert is not None else []
    sketch.line((axis.x, 1.5), (axis.x, bottom + 2), dashes=CHAIN)
    says = _dimensions(sketch, plan, valve, part, axis, (edge, bottom))
    unit = instruments.job_unit(plan.job)
    to_check(sketch, 5.0, bottom + 5.0, unit)
    caption = _caption(plan, valve, part, scale, over)
    title = f"Section of the pocket of {valve.name}"
    return sketch.done(edge + 22.0, bottom + 6.8, title, " ".join((*says, caption)), caption)


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


def _metal(sketch: Sketch, part: _Part, axis: Axis, edge: float, bottom: float, *, whole: bool) -> None:
    """The head, cut through: hatched, the new bore heaviest; broken off where it goes on or is not known."""
    r = part.bore / 2
    inner = axis(part.throat / 2 if part.throat is not None else r * 0.6, 0)[0]
    top, floor, wall = axis(0, part.top)[1], axis(0, part.depth)[1], axis(r, 0)[0]
    arc: list[Point] = [(wall, floor)]
    if part.corner > 0:
        x, y = axis(r - part.corner, part.depth - part.corner)
        arc = list(around(x, y, part.corner * axis.scale, 0, 90, 6))
    outline = [(edge, top), (wall, top), *arc, (inner, floor), (inner, bottom), (edge, bottom)]
    sketch.add(*hatching(outline, 135, 2.6))
    sketch.line((wall, top), *arc, (inner, floor), weight=_BAR)
    sketch.line((wall, top), (edge, top), weight=THICK)
    if part.throat is not None:
        sketch.line((inner, floor), (inner, bottom), weight=THICK)
    else:
        broken(sketch, (inner, floor), (inner, bottom))
    if whole:
        sketch.line((inner, bottom), (edge, bottom), weight=THICK)
    else:
        broken(sketch, (inner, bottom), (edge, bottom))
    broken(sketch, (edge, top), (edge, bottom))
    # The edges of the bore behind the cut.
    sketch.line((axis.x, top), (wall, top))
    sketch.line((axis.x, floor), (inner, floor))
    if part.old is not None and part.old_depth is not None:
        x, y = axis(part.old / 2, part.old_depth)
        sketch.line((x, top), (x, y), (inner, y), dashes=DASHED)


def _insert(sketch: Sketch, plan: Plan, part: _Part, insert: InsertPlan, axis: Axis) -> list[str]:
    """The insert that goes in, in phantom lines, and its name; only with its height and its id. Words that have no room
    in it are returned."""
    if insert.height is None or insert.id is None:
        return []
    r, inner, top = part.bore / 2, insert.id.value / 2, part.depth - insert.height.value
    outline = [axis(r, top), axis(inner, top), axis(inner, part.depth)]
    if insert.chamfer is not None:
        angle = insert.chamfer_angle.value if insert.chamfer_angle is not None else 45.0
        along, in_ = insert.chamfer.value, insert.chamfer.value * math.tan(math.radians(angle))
        outline += [axis(r - in_, part.depth), axis(r, part.depth - along)]
    sketch.line(*outline, dashes=PHANTOM)
    words = [insert.name, f"{small(plan.job, insert.height.value)} high"]
    if insert.chamfer is not None and insert.chamfer_angle is not None:
        words.append(f"{small(plan.job, insert.chamfer.value)} × {insert.chamfer_angle.value:.3g}°")
    room = axis(inner, 0)[0] - axis.x - 4.0
    if axis(0, part.depth)[1] - axis(0, top)[1] < 4.2 * len(words) + 1.5 or max(map(words_width, words)) > room:
        return words
    level = axis(0, top)[1] + 4.6
    for index, line in enumerate(words):
        made = sketch.text(axis.x + 2.0, level + 4.2 * index, line, "start")
        if not index:
            middle = axis((r + inner) / 2, part.depth - insert.height.value / 2)
            leader(sketch, (made.box.right + 0.8, level - 1.2), middle, end="dot")
    return []


def _dimensions(
    sketch: Sketch, plan: Plan, valve: ValvePlan, part: _Part, axis: Axis, corner: tuple[float, float]
) -> list[str]:
    """All figures; returned in words."""
    assert valve.bore is not None
    assert valve.depth is not None
    job, (edge, bottom) = plan.job, corner
    head = next(head for head in plan.heads if head.number == valve.head)
    low, high = figures.limits(valve.bore.bench_least, valve.bore.bench_most, instruments.bore_gauge(job))
    bore = f"Ø{low.text} to {high.text}"
    half(sketch, 1.0, axis(part.bore / 2, part.top), _TOP - 3.5, bore, bold=True)
    says = [f"Bore {bore} {low.unit}{at(bench_at(job, head))}."]
    if valve.found.throat is not None and part.throat is not None:
        throat = f"Ø{as_read(job, valve.found.throat)}"
        level = bottom - 2.0
        sketch.line((1.0, level), (axis(part.throat / 2, 0)[0], level))
        half(sketch, 1.0, (axis(part.throat / 2, 0)[0], level), level, f"throat {throat}")
        says.append(f"Throat {throat}.")
    shallow, deep = figures.limits(valve.depth.least, valve.depth.most, figures.depth_gauge(job))
    rule, floor = edge + _RULE, axis(0, part.depth)[1]
    face = axis(0, 0)[1]
    down(sketch, (edge + 0.6, face), (edge + 0.6, floor), rule)
    lettered_beside(sketch, rule + _FIGURE, (face + floor) / 2, shallow.text, deep.text)
    where = "old floor" if valve.depth.from_ == "floor" else valve.depth.from_
    says.append(f"Depth {shallow.text} to {deep.text} from the {where}.")
    if part.floor_left is not None and bottom - floor > 6.0:
        left = small(job, part.floor_left)
        down(sketch, (edge + 0.6, floor), (edge + 0.6, bottom), rule)
        lettered_beside(sketch, rule + _FIGURE, (floor + bottom) / 2, "metal", left)
        says.append(f"Metal left under the floor {left}.")
    insert = valve.insert
    if insert is not None and insert.height is not None:
        says.append(f"Insert {insert.name}, {small(job, insert.height.value)} high.")
    return says


def _caption(plan: Plan, valve: ValvePlan, part: _Part, scale: float, over: list[str]) -> str:
    job = plan.job
    unit, gauge = instruments.job_unit(job), instruments.bore_gauge(job).unit
    units = unit_word(unit) if gauge == unit else f"{unit_word(unit)}, the bore {unit_word(gauge)}"
    said = [f"{scale_said(scale)}, {units}."]
    if over:
        said.append(f"Insert {', '.join(over)}.")
    if part.corner > 0:
        said.append(f"Corner R{small(job, part.corner)}.")
    found = valve.found
    cells = [cell for cell in (found.pocket_a, found.pocket_b) if cell is not None]
    if part.old is not None and part.old_depth is not None and cells:
        largest = max(cells, key=lambda cell: cell.largest)
        said.append(f"Dashed: as found, Ø{as_read(job, largest)}.")
    if part.floor_left is not None:
        said.append("Below it water.")
    return " ".join(said)
