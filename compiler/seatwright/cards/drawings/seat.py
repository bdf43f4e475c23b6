"""The finished seat in section: its three cuts, and the valve lying on it in phantom lines."""

from __future__ import annotations

import math
from textwrap import wrap

from msgspec import Struct

from seatwright.cards.drawings.dimensions import down, half, leader, lettered_beside
from seatwright.cards.drawings.hatching import hatching, scale_said, scale_that_fits
from seatwright.cards.drawings.sections import Axis, broken, lies_below, small, to_check, unit_word
from seatwright.cards.drawings.shapes import PHANTOM, THICK, Drawing, Point, Sketch
from seatwright.cards.parts import figures
from seatwright.planning.basis import instruments
from seatwright.planning.plan import HeightLimits, Plan, SeatPlan, ValvePlan

_LEFT, _TOP = 34.0, 9.0  # lettering on the left, above the section [mm]
_WIDE, _HIGH = 44.0, 38.0  # of the section, at most [mm]
_INWARDS, _OUTWARDS, _BELOW = 2.0, 2.4, 1.6  # drawn beyond the seat's inner edge, its outer edge, below it [mm of part]

_BELOW_THE_ARROW = 5.5  # from an extension line to lettering that its arrow does not reach [mm]
_BESIDE_THE_GAUGE = 14  # letters that have room between the section and the gauge depth: `0.024 to 0.040`


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


def seat_in_section(plan: Plan, valve: ValvePlan) -> Drawing | None:
    """The drawing; None without the seat's edges and angle."""
    seat = valve.seat
    if seat is None or seat.outer is None or seat.inner is None or seat.angle is None:
        return None
    cones = _cones(seat, seat.outer.value / 2, seat.inner.value / 2, seat.angle.value)
    head = _valve(valve, seat, cones)
    points = [each for each in (cones.outer, cones.inner, cones.top, cones.throat) if each is not None]
    if head is not None:
        points += [(head.edge[0], head.flat), head.edge, head.broken_off]
    if seat.gauge_depth is not None:
        points.append((cones.outer[0], 0.0))
    radii, depths = [radius for radius, _ in points], [depth for _, depth in points]
    scale = scale_that_fits(min(_WIDE / (max(radii) - min(radii)), _HIGH / (max(depths) - min(depths))))
    axis = Axis(_LEFT - min(radii) * scale, _TOP - min(depths) * scale, scale)
    sketch = Sketch()
    right, bottom = axis(max(radii), 0)[0], axis(0, max(depths))[1]
    _seat(sketch, cones, axis, right, bottom)
    if head is not None:
        _valve_head(sketch, head, axis)
    says, lowest = _labels(sketch, plan, valve, seat, cones, head, axis, (right, bottom))
    foot = max(bottom + 9.5, lowest + 6.0)
    to_check(sketch, right + 6.0, foot, instruments.job_unit(plan.job))
    unit = unit_word(instruments.job_unit(plan.job))
    lies = " Dash and two dots: the valve." if head is not None else ""
    caption = f"{scale_said(scale)}, {unit}. Heavy: the seat.{lies}"
    title = f"Section of the seat of {valve.name}"
    return sketch.done(right + 40.0, foot + 3.5, title, " ".join((*says, caption)), caption)


def _angle_of(seat: SeatPlan, name: str) -> float | None:
    return next((cut.angle.value for cut in seat.cuts if cut.name == name), None)


def _cones(seat: SeatPlan, outer: float, inner: float, angle: float) -> _Cones:
    deep = seat.gauge_depth.value if seat.gauge_depth is not None else 0.0
    lower = deep + (outer - inner) * math.tan(math.radians(angle))
    top = throat = None
    above, below_ = _angle_of(seat, "top"), _angle_of(seat, "throat")
    if above is not None and above < angle:
        slope = math.tan(math.radians(above))
        run = _OUTWARDS
        if seat.gauge_depth is not None and slope > 0:
            run = min(run, max(deep, 0.2) / slope)
        top = (outer + run, deep - run * slope)
    if below_ is not None and below_ > angle:
        fall = _BELOW
        throat = (inner - fall / math.tan(math.radians(below_)) if below_ < 90 else inner, lower + fall)
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


def _seat(sketch: Sketch, cones: _Cones, axis: Axis, right: float, bottom: float) -> None:
    profile = [axis(*each) for each in (cones.top, cones.outer, cones.inner, cones.throat) if each is not None]
    end = right if cones.top is None else min(right, profile[0][0])
    outline = [(end, profile[0][1]), *profile, (profile[-1][0], bottom), (end, bottom)]
    sketch.add(*hatching(outline, 45, 2.4))
    sketch.line(*profile, weight=THICK)
    sketch.line(axis(*cones.outer), axis(*cones.inner), weight=1.1)
    broken(sketch, (end, profile[0][1]), (end, bottom))
    broken(sketch, (profile[-1][0], bottom), (end, bottom))


def _valve_head(sketch: Sketch, head: _Valve, axis: Axis) -> None:
    """Its outline; a neighbouring part, so drawn in phantom lines."""
    off, deep = head.broken_off
    sketch.line(axis(off, head.flat), axis(head.edge[0], head.flat), axis(*head.edge), axis(off, deep), dashes=PHANTOM)


def _labels(
    sketch: Sketch,
    plan: Plan,
    valve: ValvePlan,
    seat: SeatPlan,
    cones: _Cones,
    head: _Valve | None,
    axis: Axis,
    corner: tuple[float, float],
) -> tuple[list[str], float]:
    """All figures; returned in words, with how far down those beside the section reach [mm]."""
    job, (right, bottom), says = plan.job, corner, []
    outer, deck = axis(*cones.outer), axis(0, 0)[1]
    level = deck
    if seat.gauge_depth is not None:
        gauge = small(job, seat.gauge_depth.value)
        sketch.line((outer[0], deck), (right + 26.0, deck))
        sketch.text(right + 8.0, deck - 1.2, "deck", "start")
        down(sketch, (right, deck), outer, right + 24.5)
        lettered_beside(sketch, right + 26.0, (deck + outer[1]) / 2, "gauge", "depth", gauge)
        says.append(f"Gauge depth {gauge} from the deck to the outer edge of the seat.")
        recession = _heights(plan, seat.recession)
        if head is not None and recession:
            flat = axis(0, head.flat)[1]
            if abs(flat - deck) > 0.3:
                edges = ((right, deck), axis(head.edge[0], head.flat))
                down(sketch, *(edges if flat > deck else edges[::-1]), right + 3.5)
            level = max(flat, deck, outer[1]) + _BELOW_THE_ARROW
            sketch.text(right + 5.0, level, "recession", "start")
            for line in wrap(recession, _BESIDE_THE_GAUGE):
                level += 4.2
                sketch.text(right + 5.0, level, line, "start", bold=True)
            level -= 4.2
            says.append(f"Recession {recession}.")
    level = max(level + 4.2, outer[1]) + 6.0
    top, throat = _angle_of(seat, "top"), _angle_of(seat, "throat")
    assert seat.angle is not None
    wide = _wide(plan, seat)
    lines = [(f"seat {seat.angle.value:.4g}°", False), *([(wide, True)] if wide else [])]
    lines += [(f"above it: top {top:.4g}°", False)] if top is not None and cones.top is not None else []
    for index, (words, heavy) in enumerate(lines):
        sketch.text(right + 5.0, level + 4.2 * index, words, "start", bold=heavy)
    says.append(f"{', '.join(words for words, _ in lines)}.")
    if throat is not None and cones.throat is not None:
        middle = axis((cones.inner[0] + cones.throat[0]) / 2, (cones.inner[1] + cones.throat[1]) / 2)
        words = f"throat {throat:.4g}°"
        sketch.text(1.0, middle[1] + 1.2, words, "start")
        leader(sketch, (24.0, middle[1]), middle)
        says.append(f"{words}.")
    if head is not None:
        face = valve.valve.specification.face_angle
        flat = axis(0, head.flat)[1]
        words = f"valve face {face.value:.4g}°" if face is not None else "valve"
        sketch.text(1.0, flat - 1.5, words, "start")
        leader(sketch, (26.0, flat - 1.5), (axis(head.broken_off[0], 0)[0] + 4.0, flat))
        says.append(f"{words}.")
    half(sketch, 1.0, axis(*cones.inner), bottom + 5.0, f"inside Ø{small(job, seat.inner.value if seat.inner else 0)}")
    half(sketch, 1.0, outer, bottom + 10.5, f"outside Ø{small(job, seat.outer.value if seat.outer else 0)}")
    return says, level + 4.2 * (len(lines) - 1)


def _wide(plan: Plan, seat: SeatPlan) -> str:
    job = plan.job
    if seat.width_least is not None and seat.width_most is not None:
        low, high = figures.limits(seat.width_least, seat.width_most, figures.seat_gauge(job))
        return f"{low.text} to {high.text} wide"
    return f"{small(job, seat.width.value)} wide" if seat.width is not None else ""


def _heights(plan: Plan, limits: HeightLimits | None) -> str:
    if limits is None:
        return ""
    job = plan.job
    if limits.least is not None and limits.most is not None:
        return lies_below(job, limits.least.value, limits.most.value, "")
    for word, figure in (("most", limits.most), ("least", limits.least), ("aim", limits.aim)):
        if figure is not None:
            return f"{word} {lies_below(job, figure.value, figure.value, '')}"
    return ""
