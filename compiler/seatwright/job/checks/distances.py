"""Where the valves stand, held against the other cylinders and the size of the valves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from msgspec import Struct

from seatwright.handbook import MM_PER_INCH
from seatwright.handbook.outliers import median
from seatwright.job.head.places import apart
from seatwright.job.model import Given, Head, Hole, Place, Valve
from seatwright.job.typed.names import valve_parts
from seatwright.job.wording import of_distances as say
from seatwright.text import Message, Span

ALIKE = 0.3  # one cylinder is laid out as the next, within this, mm (common practice)
SPOT = 5.0  # no two stems stand nearer than a thin one is thick, mm
_WIDE = 1.8  # the nearest valve of the same cylinder stands within so many mean valve diameters (common practice)


class Distance(Struct, frozen=True):
    """How far the axes of two valves of one cylinder lie apart.

    pair: their kinds and letters. typed: as it stands in the file, "" where it follows from two places.
    """

    pair: tuple[str, ...]
    first: str
    second: str
    mm: float
    typed: str
    span: Span

    @property
    def shown(self) -> str:
        """The distance for a message."""
        return self.typed or f"{self.mm:.2f} mm ({self.mm / MM_PER_INCH:.3f} in)"


def check(head: Head) -> Iterator[Message]:
    """The places and distances that no head has; one message for a valve, the surest first."""
    said: set[str] = set()
    distances = (*_laid(head), *_measured(head))
    for found in (*_on_one_spot(head), *_rows(head), *_from_others(distances), *_by_size(head, distances)):
        if not said & set(found.valves):
            said |= set(found.valves)
            yield found
    if not said:
        yield from _holes(head)


def _on_one_spot(head: Head) -> Iterator[Message]:
    """Two valves whose stems would stand in one another."""
    places = sorted(head.layout, key=lambda place: place.x.value)
    for number, one in enumerate(places):
        for other in places[number + 1 :]:
            if other.x.value - one.x.value >= SPOT:
                break
            if apart(one, other) < SPOT:
                first, second = sorted((one, other), key=lambda place: place.span)
                yield say.on_one_spot(first, second)


def _laid(head: Head) -> list[Distance]:
    """The distances of `layout`, each at the place of its later valve."""
    by_cylinder: dict[int, list[Place]] = {}
    for place in head.layout:
        by_cylinder.setdefault(valve_parts(place.valve)[1], []).append(place)
    return [
        Distance(
            _pair(one.valve, other.valve),
            one.valve,
            other.valve,
            mm,
            "",
            max(one.span, other.span),
        )
        for places in by_cylinder.values()
        for one, other in combinations(places, 2)
        for mm in (apart(one, other),)
    ]


def _measured(head: Head) -> list[Distance]:
    return [
        Distance(_pair(pair.first, pair.second), pair.first, pair.second, pair.distance.value, pair.distance.typed,
                 pair.distance.span)
        for pair in head.spacings
        if valve_parts(pair.first)[1] == valve_parts(pair.second)[1]
    ]  # fmt: skip


def _pair(first: str, second: str) -> tuple[str, ...]:
    return tuple(sorted(f"{kind}{letter}" for kind, _, letter in (valve_parts(first), valve_parts(second))))


def _from_others(distances: Iterable[Distance]) -> Iterator[Message]:
    """A cylinder whose valves stand otherwise than those of the others; with one other nothing says which is wrong."""
    by_pair: dict[tuple[str, ...], list[Distance]] = {}
    for distance in distances:
        by_pair.setdefault(distance.pair, []).append(distance)
    said: set[int] = set()
    for alike in by_pair.values():
        middle = median(each.mm for each in alike)
        odd = [each for each in alike if abs(each.mm - middle) > ALIKE]
        if len(alike) == 2 and odd:
            odd = [max(alike, key=lambda each: each.span)]
        elif 2 * len(odd) >= len(alike):
            continue  # no two cylinders are alike: a head of its own kind
        apart_from = set(odd)
        others = [each for each in alike if each not in apart_from][:4]
        for distance in odd:
            cylinder = valve_parts(distance.first)[1]
            if cylinder not in said and others:
                said.add(cylinder)
                yield say.unlike_cylinders(distance.first, distance.second, distance.shown, distance.span,
                                           [(f"{each.first} and {each.second}", each.shown) for each in others],
                                           others[0].span, unsure=len(alike) == 2)  # fmt: skip


def _rows(head: Head) -> Iterator[Message]:
    """A valve whose y leaves the row of its kind, either side of the middle of the head."""
    rows: dict[tuple[str, str], list[Place]] = {}
    for place in head.layout:
        kind, _, letter = valve_parts(place.valve)
        rows.setdefault((kind, letter), []).append(place)
    for row in rows.values():
        odd = _odd([abs(place.y.value) for place in row])
        if odd is not None:
            place, other = row[odd], row[0 if odd else 1]
            yield say.out_of_row(place.valve, "y", place.y, other.valve, other.y, (place.valve,))


def _holes(head: Head) -> Iterator[Message]:
    """A hole that is not as wide, or does not stand to its valves, as the others of its kind do."""
    middles: dict[int, list[float]] = {}
    for place in head.layout:
        middles.setdefault(valve_parts(place.valve)[1], []).append(place.x.value)
    centres = [sum(found) / len(found) for found in middles.values()]
    kinds: dict[str, list[Hole]] = {}
    for hole in head.holes:
        kinds.setdefault(hole.kind, []).append(hole)
    for holes in kinds.values():
        figures = {
            "diameter": [hole.diameter.value for hole in holes],
            "y": [abs(hole.y.value) for hole in holes],
            "x": [_from_nearest(hole.x.value, centres) for hole in holes],
        }
        for column, values in figures.items():
            odd = _odd(values)
            if odd is not None:
                hole, other = holes[odd], holes[0 if odd else 1]
                yield say.out_of_row(hole.name, column, getattr(hole, column), other.name, getattr(other, column), ())


def _from_nearest(x: float, centres: list[float]) -> float:
    return min((x - centre for centre in centres), key=abs, default=0.0)


def _odd(values: list[float]) -> int | None:
    """The place of the one figure that leaves all the others, which are alike."""
    if len(values) < 3:
        return None
    middle = median(values)
    odd = [place for place, value in enumerate(values) if abs(value - middle) > ALIKE]
    return odd[0] if len(odd) == 1 else None


def _by_size(head: Head, distances: Iterable[Distance]) -> Iterator[Message]:
    """Valves of one cylinder that stand much further apart than valves of their size do."""
    valves = {valve.name: valve for valve in head.valves}
    from_valve: dict[str, list[tuple[str, Distance]]] = {}
    for each in distances:
        from_valve.setdefault(each.first, []).append((each.second, each))
        from_valve.setdefault(each.second, []).append((each.first, each))
    said: set[frozenset[str]] = set()
    for name, found in from_valve.items():
        mm, other = min((each.mm, beside) for beside, each in found)
        sizes = [size for valve in (valves.get(name), valves.get(other)) if (size := _size(valve)) is not None]
        if (
            len(sizes) == 2
            and mm > _WIDE * sum(size.value for size in sizes) / 2
            and frozenset((name, other)) not in said
        ):
            said.add(frozenset((name, other)))
            shown, span = min((each.shown, each.span) for beside, each in found if (each.mm, beside) == (mm, other))
            yield say.far_for_size(name, other, shown, span, sizes)


def _size(valve: Valve | None) -> Given | None:
    return valve.specification.head_diameter if valve is not None else None
