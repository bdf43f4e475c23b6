"""Figures of guides and springs that cannot be true together: a slip of the pen, of a column, of a line."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.job.model import ForceAt, Specification, Valve
from seatwright.job.wording import of_guides_and_springs as say
from seatwright.text import Message

OVER_HOLE = 1.0
"""No guide is so much larger than its hole, not even the largest oversize, mm (common practice)."""

_SAME_HEIGHT = 0.005


def check(valve: Valve) -> Iterator[Message]:
    """What is wrong between the figures of one valve's guide and spring."""
    yield from _guide(valve)
    yield from _spring(valve.name, valve.specification)
    found = valve.measured
    at, free = found.spring_at, found.spring_free
    if at is not None and free is not None and at.value >= free.value:
        yield say.spring_at_free(valve.name, at, free)


def _guide(valve: Valve) -> Iterator[Message]:
    found, wanted = valve.measured, valve.specification
    holes = [one for one in (found.guide_hole_top, found.guide_hole_middle, found.guide_hole_bottom) if one is not None]
    bores = [one for one in (found.guide_top, found.guide_middle, found.guide_bottom) if one is not None]
    if holes and bores:
        smallest = min(holes, key=lambda hole: hole.smallest)
        widest = max(bores, key=lambda bore: bore.largest)
        if smallest.smallest <= widest.largest:
            yield say.hole_small(valve.name, smallest, widest)
    if holes and found.guide_od is not None:
        largest = max(holes, key=lambda hole: hole.largest)
        if not largest.largest < found.guide_od.value <= largest.largest + OVER_HOLE:
            yield say.od_odd(valve.name, found.guide_od, largest)
    bore, stem = wanted.guide_bore, wanted.stem
    if bore is not None and bore.least is not None and stem is not None and stem.value >= bore.least.value:
        yield say.bore_under_stem(valve.name, bore, stem)


def _spring(name: str, wanted: Specification) -> Iterator[Message]:
    points = wanted.spring_force
    if len(points) > 2:
        yield say.points_many(name, points)
    elif len(points) == 2:
        low, high = sorted(points, key=lambda point: point.at.value)
        if high.at.value - low.at.value < _SAME_HEIGHT or low.force.value <= high.force.value:
            yield say.points_crossed(name, low, high)
    for used in wanted.spring_least:
        new = next((one for one in points if _at_one_height(one, used)), None)
        if new is not None and used.force.value > new.force.value:
            yield say.least_over_new(name, used, new)
    bind = wanted.coil_bind
    if bind is not None:
        short = min((*points, *wanted.spring_least), key=lambda point: point.at.value, default=None)
        if short is not None and short.at.value <= bind.value:
            yield say.bind_high(name, bind, short)


def _at_one_height(one: ForceAt, other: ForceAt) -> bool:
    return abs(one.at.value - other.at.value) < _SAME_HEIGHT
