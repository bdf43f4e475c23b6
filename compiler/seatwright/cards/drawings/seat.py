"""The finished seat in section: its three cuts, and the valve lying on it. A detail to the right of the axis."""

from __future__ import annotations

import math

from msgspec import Struct

from seatwright.cards import figures
from seatwright.cards.drawings.dimensions import ABOVE, PAST, arrow, down
from seatwright.cards.drawings.hatching import hatching, scale_said, scale_that_fits
from seatwright.cards.drawings.sections import Axis, Margin, below, broken, in_margin, small, unit_word
from seatwright.cards.drawings.shapes import LEADING, THICK, Drawing, Point, Sketch, words_width, wrapped
from seatwright.planning.plan import HeightLimits, Plan, SeatPlan, ValvePlan

_TOP, _BODY = 7.0, 38.0  # above the section, and its height [mm]
_RULE = 5.0  # from the section to a dimension line, and from one to the next [mm]
_INWARDS, _OUTWARDS, _BELOW = 2.0, 2.4, 1.6  # drawn beyond the seat's inner edge, its outer edge, below it [mm of part]


class _Cones(Struct, frozen=True):
    """Radii and depths below the deck (or below the seat's own outer edge, where its depth is not known) [mm]."""

    outer: Point
    inner: Point
    top: Point | None
    throat: Point | None


class _Valve(Struct, frozen=True):
    """The valve: radius and depth of its edge, depth of its flat, where its face is broken off inwards."""

    edge: Point
    flat: float
    broken_off: Point


def seat_in_section(plan: Plan, valve: ValvePlan, width: float) -> Drawing | None:
    """The drawing at a width [mm]; None without the seat's edges and angle."""
    seat = valve.seat
    if seat is None or seat.outer is None or seat.inner is None or seat.angle is None:
        return None
    cones = _cones(seat, seat.outer.value / 2, seat.inner.value / 2, seat.angle.value)
    head = _valve(valve, seat, cones)
    points = [cones.outer, cones.inner, *(each for each in (cones.top, cones.throat) if each is not None)]
    depths = [depth for _, depth in points]
    radii = [radius for radius, _ in points]
    if head is not None:
        depths += [head.flat, head.edge[1], head.broken_off[1]]
        radii += [head.edge[0], head.broken_off[0]]
    if seat.gauge_depth is not None:
        depths.append(0.0)
    low, high = min(depths), max(depths)
    left, right = min(radii), max(radii)
    margin = min(36.0, width / 4.2)
    free = width - 2 * margin - 2 * _RULE - 8.0
    scale = scale_that_fits(min(free / (right - left), _BODY / (high - low)))
    start = margin + 3.0 + (free - (right - left) * scale) / 2
    axis = Axis(start - left * scale, _TOP - low * scale, scale)
    sketch = Sketch()
    _seat(sketch, cones, axis)
    if head is not None:
        _valve_head(sketch, head, axis)
    bottom = axis(0, high)[1]
    says = _labels(sketch, plan, valve, seat, cones, head, axis, (axis(left, 0)[0], axis(right, 0)[0], bottom))
    notes = _notes(plan, valve, seat, scale, head is not None)
    level = max(bottom + 2 * 6.4 + 2.0, sketch.lowest) + 0.6
    for line in wrapped(notes, width):
        level += LEADING
        sketch.text(0.0, level, line, "start")
    title = f"Section of the seat of {valve.name}"
    return sketch.done(width, level + 1.2, title, " ".join((*says, notes)))


def _angle_of(seat: SeatPlan, name: str) -> float | None:
    return next((cut.angle.value for cut in seat.cuts if cut.name == name), None)


def _cones(seat: SeatPlan, outer: float, inner: float, angle: float) -> _Cones:
    deep = seat.gauge_depth.value if seat.gauge_depth is not None else 0.0
    lower = deep + (outer - inner) * math.tan(math.radians(angle))
    top = throat = None
    above, below = _angle_of(seat, "top"), _angle_of(seat, "throat")
    if above is not None and above < angle:
        slope = math.tan(math.radians(above))
        run = _OUTWARDS
        if seat.gauge_depth is not None and slope > 0:
            run = min(run, max(deep, 0.2) / slope)
        top = (outer + run, deep - run * slope)
    if below is not None and below > angle:
        fall = _BELOW
        throat = (inner - fall / math.tan(math.radians(below)) if below < 90 else inner, lower + fall)
    return _Cones((outer, deep), (inner, lower), top, throat)


def _valve(valve: ValvePlan, seat: SeatPlan, cones: _Cones) -> _Valve | None:
    """The valve as it lies on the edge that carries; None where its head, its margin or its face is not known."""
    said, found = valve.valve.specification, valve.found
    across = found.head_diameter or said.head_diameter
    margin = found.margin or said.margin
    if across is None or margin is None or said.face_angle is None or seat.carries is None:
        return None
    slope = math.tan(math.radians(said.face_angle.value))
    touch = cones.inner if seat.carries == "inner" else cones.outer
    radius = across.value / 2
    if radius <= touch[0]:
        return None
    edge = (radius, touch[1] - (radius - touch[0]) * slope)
    off = cones.inner[0] - _INWARDS
    return _Valve(edge, edge[1] - margin.value, (off, touch[1] + (touch[0] - off) * slope))


def _seat(sketch: Sketch, cones: _Cones, axis: Axis) -> None:
    profile = [each for each in (cones.top, cones.outer, cones.inner, cones.throat) if each is not None]
    right = cones.top[0] if cones.top is not None else cones.outer[0] + 0.6
    bottom = profile[-1][1] if cones.throat is not None else cones.inner[1] + 0.6
    corners = [axis(right, profile[0][1]), *(axis(*each) for each in profile), axis(profile[-1][0], bottom)]
    corners.append(axis(right, bottom))
    sketch.add(*hatching(corners, 45, 2.2))
    sketch.line(*(axis(*each) for each in profile), weight=THICK)
    sketch.line(axis(*cones.outer), axis(*cones.inner), weight=1.1)
    broken(sketch, axis(right, profile[0][1]), axis(right, bottom))
    broken(sketch, axis(profile[-1][0], bottom), axis(right, bottom))


def _valve_head(sketch: Sketch, head: _Valve, axis: Axis) -> None:
    """Its outline; a valve is not hatched, as shafts and pins are not."""
    off, deep = head.broken_off
    sketch.line(axis(off, head.flat), axis(head.edge[0], head.flat), axis(*head.edge), axis(off, deep), weight=THICK)
    broken(sketch, axis(off, head.flat), axis(off, deep))


def _labels(
    sketch: Sketch,
    plan: Plan,
    valve: ValvePlan,
    seat: SeatPlan,
    cones: _Cones,
    head: _Valve | None,
    axis: Axis,
    edges: tuple[float, float, float],
) -> list[str]:
    """All figures; returned in words."""
    left, right, bottom = edges
    job, says = plan.job, []
    first, second = right + _RULE, right + 2 * _RULE
    outside, inside = [], []
    if seat.gauge_depth is not None:
        deck = axis(0, 0)[1]
        sketch.line((left, deck), (second + PAST, deck))
        inside.append(Margin(("deck level",), (left, deck), "line"))
        gauge = small(job, seat.gauge_depth.value)
        down(sketch, (right, deck), axis(*cones.outer), second)
        outside.append(Margin(("gauge depth", gauge), (second, (deck + axis(*cones.outer)[1]) / 2), "line"))
        says.append(f"Gauge depth {gauge} from the deck to the outer edge of the seat.")
        recession = _heights(plan, seat.recession)
        if head is not None and recession:
            flat = axis(0, head.flat)[1]
            if abs(flat - deck) > 0.3:
                high, low = ((right, deck), axis(head.edge[0], head.flat))
                if flat < deck:
                    high, low = low, high
                down(sketch, high, low, first)
            outside.append(Margin(("recession", recession), (first, (deck + flat) / 2), "line"))
            says.append(f"Recession {recession}.")
    for name, lies in (("top", cones.top), ("throat", cones.throat)):
        angle = _angle_of(seat, name)
        if angle is not None and lies is not None:
            near = cones.outer if name == "top" else cones.inner
            middle = axis(near[0] * 0.4 + lies[0] * 0.6, near[1] * 0.4 + lies[1] * 0.6)
            cut = f"{name} {angle:.4g}°"
            (outside if name == "top" else inside).append(Margin((cut,), middle))
            says.append(f"{cut}.")
    assert seat.angle is not None
    middle = axis((cones.outer[0] + cones.inner[0]) / 2, (cones.outer[1] + cones.inner[1]) / 2)
    words = (f"seat {seat.angle.value:.4g}°", *_wide(plan, seat))
    outside.append(Margin(words, middle))
    says.append(f"{', '.join(words)}.")
    if head is not None:
        said, found = valve.valve.specification, valve.found
        margin = found.margin or said.margin
        if margin is not None:
            figure = f"margin {small(job, margin.value)}"
            inside.append(Margin((figure,), axis(head.edge[0], head.flat + margin.value / 2)))
            says.append(f"Valve {figure}.")
        if said.face_angle is not None:
            figure = f"{said.face_angle.value:.4g}°"
            off = head.broken_off
            tip = axis(off[0] * 0.6 + cones.inner[0] * 0.4, off[1] * 0.6 + _on_face(head, cones.inner[0]) * 0.4)
            inside.append(Margin(("valve face", figure), tip))
            says.append(f"Valve face {figure}.")
    in_margin(sketch, inside, left - 3.0, "end", 1.0, bottom + 3.0)
    in_margin(sketch, outside, second + 3.0, "start", 1.0, bottom + 16.0)
    return says + _diameters(sketch, plan, seat, cones, axis, bottom)


def _on_face(head: _Valve, radius: float) -> float:
    (x1, y1), (x2, y2) = head.edge, head.broken_off
    return y1 + (radius - x1) / (x2 - x1) * (y2 - y1)


def _diameters(sketch: Sketch, plan: Plan, seat: SeatPlan, cones: _Cones, axis: Axis, bottom: float) -> list[str]:
    """Outer and inner diameter of the seat, below; the axis is not on the paper, so each line has one arrow."""
    assert seat.outer is not None
    assert seat.inner is not None
    says = []
    pairs = ((cones.inner, seat.inner.value, "inside"), (cones.outer, seat.outer.value, "outside"))
    for row, ((radius, depth), value, name) in enumerate(pairs):
        words = f"{name} Ø{small(plan.job, value)}"
        x, y = axis(radius, depth)
        level = bottom + 6.4 * (row + 1)
        sketch.line((x, y), (x, level + PAST))
        sketch.line((x - words_width(words) - 6.0, level), (x, level))
        arrow(sketch, (x, level), 0)
        sketch.text(x - 3.6, level - ABOVE, words, "end")
        says.append(f"Seat {words}.")
    return says


def _wide(plan: Plan, seat: SeatPlan) -> tuple[str, ...]:
    job = plan.job
    if seat.width_least is not None and seat.width_most is not None:
        return (f"{small(job, seat.width_least.value)} to {small(job, seat.width_most.value)}", "wide")
    return (f"{small(job, seat.width.value)} wide",) if seat.width is not None else ()


def _heights(plan: Plan, limits: HeightLimits | None) -> str:
    if limits is None:
        return ""
    job = plan.job
    if limits.least is not None and limits.most is not None:
        return below(job, limits.least.value, limits.most.value, "")
    for word, figure in (("most", limits.most), ("least", limits.least), ("aim", limits.aim)):
        if figure is not None:
            return f"{word} {below(job, figure.value, figure.value, '')}"
    return ""


def _notes(plan: Plan, valve: ValvePlan, seat: SeatPlan, scale: float, lies: bool) -> str:
    unit = unit_word(figures.job_unit(plan.job))
    notes = f"Seat of {valve.name}, {scale_said(scale)}, {unit}; the axis of the valve lies to the left."
    notes += " Angles from the plane square to the stem."
    if valve.valve_tilt is not None and seat.gauge_depth is not None:
        notes += " The valve leans to the deck: depths count along its stem."
    if lies:
        touches = "the whole of it" if seat.carries == "whole" else f"its {seat.carries} edge first"
        notes += f" Heavy: the seat; the valve touches {touches}."
    return notes
