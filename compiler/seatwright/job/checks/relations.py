"""Figures that cannot both be true, and maker's figures that disagree among themselves.

Only what no real head can show is an error; what merely is out of its limits is for planning to judge.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians

from seatwright.job.checks import distances, guides_and_springs, instruments, plausible
from seatwright.job.checks.plausible import APART, UNREAMED, too_far_apart
from seatwright.job.head.places import apart
from seatwright.job.model import Given, Head, Insert, Limits, PocketSize, Reading, Shop, Specification, Valve
from seatwright.job.wording import of_relations as say
from seatwright.job.wording.of_engines import bore_most_alone, size_unknown
from seatwright.job.wording.of_valves import outside_cylinders, spacing_differs
from seatwright.text import Message

AGREE = 0.00508  # .0002 in, which language.md gives as the same as 0.005 mm
_SPACING = 0.1016  # .004 in, likewise for 0.10 mm


def check(heads: tuple[Head, ...], shop: Shop) -> Iterator[Message]:
    """What is wrong between figures that are right each for itself."""
    inserts = {insert.name.text: insert for insert in shop.inserts}
    for head in heads:
        for valve in (*head.valves, *head.neighbours):
            yield from _valve(valve, inserts)
        yield from _spacings(head)
        outside = tuple(_in_cylinders(head))
        yield from outside or distances.check(head)
    yield from instruments.check(heads, shop)


def _valve(valve: Valve, inserts: dict[str, Insert]) -> Iterator[Message]:
    stock = inserts.get((valve.specification.insert and valve.specification.insert.name) or "")
    yield from _measured(valve)
    yield from plausible.measured(valve)
    yield from plausible.stem_and_guide(valve)
    yield from plausible.loose_stem(valve)
    yield from plausible.damage_in_pocket(valve)
    yield from plausible.length_of_guide(valve)
    yield from plausible.stand_of_insert(valve)
    yield from guides_and_springs.check(valve)
    yield from plausible.depth_and_floor(valve, stock)
    yield from plausible.makers_limits(valve.name, valve.specification)
    yield from _seat(valve.name, valve.specification)
    yield from _fit(valve, stock)
    yield from _insert_in_hand(valve)


def _measured(valve: Valve) -> Iterator[Message]:
    found, wanted = valve.measured, valve.specification
    guides = [one for one in (found.guide_top, found.guide_middle, found.guide_bottom) if one is not None]
    if wanted.stem is not None and guides:
        tightest = min(guides, key=lambda guide: guide.smallest)
        if wanted.stem.value > tightest.smallest + UNREAMED:
            yield say.stem_over_guide(valve.name, wanted.stem, tightest)
    if wanted.seat_integral is not None:
        return
    pockets = [one for one in (found.pocket_a, found.pocket_b) if one is not None]
    if pockets and max(pocket.value for pocket in pockets) - min(pocket.value for pocket in pockets) <= APART:
        smallest = min(pockets, key=lambda pocket: pocket.smallest)
        if found.throat is not None and found.throat.value >= smallest.smallest:
            yield say.throat_over_pocket(valve.name, found.throat, smallest)


def _seat(name: str, wanted: Specification) -> Iterator[Message]:
    head, setback, angle, width = wanted.head_diameter, wanted.setback, wanted.seat_angle, wanted.seat_width
    if head is not None and setback is not None and 2 * setback.value >= head.value:
        yield say.setback_wide(name, setback, head)
    elif head is not None and angle is not None and width is not None:
        outer = head.value - 2 * (setback.value if setback else 0.0)
        narrow, wide = (
            outer - 2 * one.value * cos(radians(angle.value)) if one is not None else outer
            for one in (width.least or width.nominal or width.most, width.most or width.nominal or width.least)
        )
        # At its least it must clear the stem; at its most there must at least be something left of the port.
        if narrow <= (wanted.stem.value if wanted.stem else 0.0):
            yield say.seat_wide(name, width, head, narrow)
        elif wide <= 0:
            yield say.seat_wide(name, width, head, wide)
    for upper, one, lower, other in (
        ("top-angle", wanted.top_angle, "seat-angle", angle),
        ("seat-angle", angle, "throat-angle", wanted.throat_angle),
    ):
        if one is not None and other is not None and one.value >= other.value:
            yield say.angles_order(name, upper, one, lower, other)
    clearance = wanted.guide_clearance.least if wanted.guide_clearance else None
    worn = wanted.guide_wear_limit
    if worn is not None and clearance is not None and worn.value < clearance.value:
        yield say.wear_limit_small(name, worn, clearance)


def _fit(valve: Valve, stock: Insert | None) -> Iterator[Message]:
    """The maker's od, bore and interference of one size must say the same; a size that is asked for must be there."""
    wanted = valve.specification
    if wanted.size is not None and not wanted.size.any and not wanted.sizes_asked_for:
        names = [size.name.text for size in wanted.pocket_sizes if size.name is not None]
        yield size_unknown(wanted.size.span, wanted.size.text, valve.name, names)
    for size in wanted.makers_sizes:
        turned = wanted.insert is not None and wanted.insert.kind == "turned"
        if size.name is None and size.bore is not None and size.bore.least is None and not turned:
            yield bore_most_alone(size.bore.span, size.bore.typed, valve.name)
        yield from _fit_of_size(valve.name, size, stock)


def _fit_of_size(name: str, size: PocketSize, stock: Insert | None) -> Iterator[Message]:
    bore, od = size.bore, size.insert_od or (_stock_limits(stock) if size.name is None else None)
    if bore is None or od is None or too_far_apart(bore) or too_far_apart(od):
        return
    if bore.least is None or bore.most is None or od.least is None or od.most is None:
        return
    least, most = od.least.value - bore.most.value, od.most.value - bore.least.value
    if most <= 0:
        yield say.od_under_bore(name, od, bore)
        return
    given = size.interference
    if given is None or size.insert_od is None or given.least is None or given.most is None:
        return
    # What a job says in place of the maker need not agree with him.
    if given.least.in_place_of or given.span.file != bore.span.file:
        return
    if abs(given.least.value - least) > AGREE + 1e-9 or abs(given.most.value - most) > AGREE + 1e-9:
        yield say.fit_disagrees(name, given, od, bore, least, most)


def _stock_limits(stock: Insert | None) -> Limits | None:
    if stock is None or stock.od_least is None or stock.od_most is None:
        return None
    typed = f"{stock.od_least.typed} to {stock.od_most.typed}"
    return Limits(stock.od_least, stock.od_most, None, typed, stock.od_least.span)


def _insert_in_hand(valve: Valve) -> Iterator[Message]:
    """A measured insert outside the maker's limits: a warning, for the measuring may be what is wrong."""
    od = valve.measured.insert_od
    if od is None:
        return
    limits = valve.specification.insert_od
    if limits is not None and limits.least is not None and limits.most is not None:
        yield from _outside(valve.name, od, limits.least, limits.most)


def _outside(name: str, od: Reading, least: Given, most: Given) -> Iterator[Message]:
    # Half a last digit either way: 44.10 measured is not outside 44.098.
    if od.smallest + od.half_digit < least.value or od.largest - od.half_digit > most.value:
        yield say.od_measured(name, od, least.typed, most.typed, least.span)


def _in_cylinders(head: Head) -> Iterator[Message]:
    """Where cylinders are given every valve stands in one."""
    cylinders = [hole for hole in head.holes if hole.kind == "cylinder"]
    if not cylinders:
        return
    for place in head.layout:
        beyond = [(apart(place, each) - each.diameter.value / 2, each) for each in cylinders]
        away, nearest = min(beyond, key=lambda one: one[0])
        if away > 0:
            yield outside_cylinders(place.span, place.valve, nearest.name, f"{away:.1f} mm", nearest.span)


def _spacings(head: Head) -> Iterator[Message]:
    places = {place.valve: place for place in head.layout}
    for pair in head.spacings:
        one, other = places.get(pair.first), places.get(pair.second)
        if one is None or other is None:
            continue
        drawn = apart(one, other)
        if abs(drawn - pair.distance.value) > _SPACING + 1e-9:
            names = f"{pair.first} and {pair.second}"
            yield spacing_differs(pair.distance.span, names, pair.distance.typed, f"{drawn:.2f} mm", one.span)
