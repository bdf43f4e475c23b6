"""What lies near what in a head: pairs of valves, holes and rims, and the distance of their axes (handbook 5).

Only what is near counts: two things between whose edges there is more than 10 mm of metal, or three times the least
bridge where that is more, are no bridge to speak of and are left out. Pairs that `spacing` names always count. The
things are sorted into squares first, so that a long head costs no more a valve than a short one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from msgspec import Struct

from seatwright.job.model import Head, Hole, Place, Spacing
from seatwright.planning.plan.figure import Figure, computed, given

NEAR = 10.0
"""Metal between two edges up to which a bridge is computed [mm]; this program's own bound."""

_SOURCE = "handbook 5, layout"


class Neighbours(Struct, frozen=True):
    """Two things near each other. second may be a hole or a rim. apart: layout and spacing differ by so much [mm]."""

    first: str
    second: str
    centres: Figure
    hole: Hole | None = None
    apart: float = 0.0


class Neighbourhood(Struct, frozen=True):
    """All pairs of a head that are near, each once, in the order of its valves; tilted: pairs of different
    `valve-tilt` that the layout alone cannot tell the distance of."""

    pairs: tuple[Neighbours, ...]
    tilted: tuple[tuple[str, str], ...]


def neighbourhood(head: Head, sizes: Mapping[str, float]) -> Neighbourhood:
    """The pairs of a head whose edges may be near.

    sizes : largest diameter that each valve may come to [mm]; one that is missing counts as the largest of all
    """
    order = {valve.name: place for place, valve in enumerate((*head.valves, *head.neighbours))}
    tilts = {
        valve.name: None if valve.specification.valve_tilt is None else valve.specification.valve_tilt.value
        for valve in (*head.valves, *head.neighbours)
    }
    places = {place.valve: place for place in head.layout if place.valve in order}
    largest = max(sizes.values(), default=0.0)
    margin = max(NEAR, 3 * head.least_bridge.value if head.least_bridge else 0.0)
    spaced = {_key(spacing.first, spacing.second, order): spacing for spacing in head.spacings}
    pairs, tilted = [], []
    seen = set()
    for first, second in _near(places, largest + margin, order):
        gap = _distance(places[first], places[second]) - _half(sizes, first, largest) - _half(sizes, second, largest)
        key = (first, second)
        if gap > margin and key not in spaced:
            continue
        seen.add(key)
        if key not in spaced and tilts[first] != tilts[second]:
            tilted.append(key)
            continue
        pairs.append(_pair(first, second, places, spaced.get(key)))
    pairs += [_pair(*key, places, spacing) for key, spacing in spaced.items() if key not in seen]
    pairs.sort(key=lambda pair: (order.get(pair.first, 0), order.get(pair.second, 0)))
    for hole, place in _near_holes(head, places, sizes, largest, margin):
        pairs.append(Neighbours(place.valve, hole.name, _to_hole(place, hole), hole))
    return Neighbourhood(tuple(pairs), tuple(tilted))


def _key(first: str, second: str, order: Mapping[str, int]) -> tuple[str, str]:
    return (first, second) if order.get(first, 0) <= order.get(second, 0) else (second, first)


def _half(sizes: Mapping[str, float], name: str, largest: float) -> float:
    return sizes.get(name, largest) / 2


def _distance(first: Place, second: Place) -> float:
    return math.hypot(first.x.value - second.x.value, first.y.value - second.y.value)


def _near(places: Mapping[str, Place], reach: float, order: Mapping[str, int]) -> Iterator[tuple[str, str]]:
    """Pairs that lie in the same or neighbouring squares of the side `reach`, in the head's order."""
    if reach <= 0:
        return
    squares: dict[tuple[int, int], list[str]] = {}
    for name, place in places.items():
        squares.setdefault(_square(place.x.value, place.y.value, reach), []).append(name)
    for name in sorted(places, key=lambda each: order[each]):
        column, row = _square(places[name].x.value, places[name].y.value, reach)
        for across in (-1, 0, 1):
            for along in (-1, 0, 1):
                for other in squares.get((column + across, row + along), ()):
                    if order[name] < order[other]:
                        yield name, other


def _square(x: float, y: float, side: float) -> tuple[int, int]:
    return math.floor(x / side), math.floor(y / side)


def _near_holes(
    head: Head, places: Mapping[str, Place], sizes: Mapping[str, float], largest: float, margin: float
) -> Iterator[tuple[Hole, Place]]:
    """Holes near a valve; rims that hold its axis. Both are looked for square by square."""
    if not head.holes or not places:
        return
    side = max(hole.diameter.value for hole in head.holes) / 2 + largest / 2 + margin
    squares: dict[tuple[int, int], list[Hole]] = {}
    for hole in head.holes:
        squares.setdefault(_square(hole.x.value, hole.y.value, side), []).append(hole)
    names = {hole.name: number for number, hole in enumerate(head.holes)}
    for place in places.values():
        column, row = _square(place.x.value, place.y.value, side)
        around = (squares.get((column + a, row + b), []) for a in (-1, 0, 1) for b in (-1, 0, 1))
        for hole in sorted((hole for found in around for hole in found), key=lambda each: names[each.name]):
            distance = math.hypot(place.x.value - hole.x.value, place.y.value - hole.y.value)
            if hole.kind == "cylinder":
                near = distance < hole.diameter.value / 2
            else:
                near = distance - hole.diameter.value / 2 - _half(sizes, place.valve, largest) <= margin
            if near:
                yield hole, place


def _pair(first: str, second: str, places: Mapping[str, Place], spacing: Spacing | None) -> Neighbours:
    """The distance by layout, by spacing, or the smaller where both are given."""
    if spacing is None:
        return Neighbours(first, second, _by_layout(places[first], places[second]))
    by_spacing = given("centres", "mm", spacing.distance)
    if first not in places or second not in places:
        return Neighbours(first, second, by_spacing)
    by_layout = _by_layout(places[first], places[second])
    smaller = min(by_layout.value, by_spacing.value)
    both = computed(
        "centres", "mm", smaller, "min(layout, spacing)",
        (by_layout.called("layout"), by_spacing.called("spacing")), "language, spacing",
    )  # fmt: skip
    return Neighbours(first, second, both, apart=abs(by_layout.value - by_spacing.value))


def _by_layout(first: Place, second: Place) -> Figure:
    inputs = (
        given("x_1", "mm", first.x),
        given("y_1", "mm", first.y),
        given("x_2", "mm", second.x),
        given("y_2", "mm", second.y),
    )
    return computed("centres", "mm", _distance(first, second), "hypot(x_1 - x_2, y_1 - y_2)", inputs, _SOURCE)


def _to_hole(place: Place, hole: Hole) -> Figure:
    inputs = (
        given("x_1", "mm", place.x),
        given("y_1", "mm", place.y),
        given("x_2", "mm", hole.x),
        given("y_2", "mm", hole.y),
    )
    distance = math.hypot(place.x.value - hole.x.value, place.y.value - hole.y.value)
    return computed("centres", "mm", distance, "hypot(x_1 - x_2, y_1 - y_2)", inputs, _SOURCE)
