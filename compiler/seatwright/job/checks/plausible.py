"""Readings that no one pocket, guide or insert can show together: most often a slip of the pen or of a column.

The bounds are wide on purpose, this program's own: what is merely bad is for planning to judge.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from seatwright.job.checks.likely_slips import slip_meant
from seatwright.job.model import CutReadings, Given, Insert, Limits, Measured, Reading, Specification, Valve
from seatwright.job.wording import of_plausible as say
from seatwright.text import Message

UNREAMED = 0.5  # a guide before reaming may be this much under its stem, mm
APART = 1.0  # readings of one pocket, bore or guide, or of one cell, are never further apart than this, mm
LIMITS_APART = 1.0  # nor are two limits of a bore or an insert
OVER = 8.0  # nor is an insert so much larger than the pocket that was measured
UNDER = 3.0  # nor so much smaller
EXCHANGED = 1.5  # a floor this near the height of the insert, and a depth that is not, are exchanged, mm
FIT_OF_DIAMETER = 0.01  # interference over this share of the diameter bursts or splits something
LOOSE = 0.10  # a stem looser than .004 in stands in a worn guide or is a slip, mm (common practice)
GUIDE = (4.0, 11.0)  # a guide is so many stems long (common practice)
TO_FLOOR = (0.2, 2.5)  # and its port end lies so many valve diameters from the pocket's floor (common practice)
STAND = 0.6  # no insert is asked to stand further off its face, mm (common practice: peened over, 0.25)
STANDS_APART = 0.4  # nor within wider limits, mm
_RADIUS = (1.9, 2.1)


def measured(valve: Valve) -> Iterator[Message]:
    """What is wrong between the readings of one valve."""
    found, wanted = valve.measured, valve.specification
    yield from _in_one_cell(valve.name, found)
    yield from _in_one_cell(valve.name, valve.cut)
    yield from _apart(valve.name, "pocket", (found.pocket_a, found.pocket_b, found.pocket_low_a, found.pocket_low_b))
    yield from _apart(valve.name, "guide", (found.guide_top, found.guide_middle, found.guide_bottom))
    cut = valve.cut
    if cut is not None:
        yield from _apart(valve.name, "bore", (cut.bore_a, cut.bore_b, cut.bore_low_a, cut.bore_low_b))
        yield from _apart(valve.name, "depth", (cut.depth_a, cut.depth_b, cut.depth_c, cut.depth_d))
    if wanted.seat_integral is None:
        yield from _insert_and_pocket(valve.name, found)
    yield from _guide_and_pocket(valve.name, found)


def _in_one_cell(valve: str, found: Measured | CutReadings | None) -> Iterator[Message]:
    for part in found.__struct_fields__ if found is not None else ():
        reading = getattr(found, part)
        if isinstance(reading, Reading) and reading.largest - reading.smallest > APART:
            yield say.readings_apart(valve, reading, reading.largest - reading.smallest)


def _apart(valve: str, what: str, readings: tuple[Reading | None, ...]) -> Iterator[Message]:
    """The first two readings of one thing that are too far apart."""
    there = [reading for reading in readings if reading is not None]
    for one, other in pairwise(there):
        if abs(one.value - other.value) > APART:
            yield say.far_apart(valve, what, other, one, _twice(one.value, other.value))
            return


def _insert_and_pocket(valve: str, found: Measured) -> Iterator[Message]:
    pockets = [one for one in (found.pocket_a, found.pocket_b) if one is not None]
    od = found.insert_od
    if od is None or not pockets or (len(pockets) == 2 and abs(pockets[0].value - pockets[1].value) > APART):
        return
    smallest = min(pockets, key=lambda pocket: pocket.smallest)
    if od.value < smallest.smallest - UNDER:
        meant = slip_meant(od, (smallest.smallest - UNDER, smallest.largest + OVER))
        yield say.insert_under_pocket(valve, od, smallest, meant)
    elif od.value > smallest.largest + OVER:
        yield say.insert_over_pocket(valve, od, smallest, _twice(smallest.value, od.value))


def _guide_and_pocket(valve: str, found: Measured) -> Iterator[Message]:
    guides = [one for one in (found.guide_top, found.guide_middle, found.guide_bottom) if one is not None]
    pockets = [one for one in (found.pocket_a, found.pocket_b) if one is not None]
    if guides and pockets:
        widest = max(guides, key=lambda guide: guide.largest)
        smallest = min(pockets, key=lambda pocket: pocket.smallest)
        if widest.value >= smallest.value:
            yield say.guide_over_pocket(valve, widest, smallest)


def _twice(one: float, other: float) -> bool:
    """Whether one of two sizes is the radius of the other."""
    small, large = sorted((one, other))
    return small > 0 and _RADIUS[0] <= large / small <= _RADIUS[1]


def stem_and_guide(valve: Valve) -> Iterator[Message]:
    """A stem that is larger than its guide: never a guide to be reamed to its clearance, but a slip or an oversize."""
    stem = valve.specification.stem
    guides = [
        one
        for one in (valve.measured.guide_top, valve.measured.guide_middle, valve.measured.guide_bottom)
        if one is not None
    ]
    # A new guide may still have to be reamed: that is for planning to say.
    if stem is None or not guides or any(one.part == "guide" for one in valve.replaced):
        return
    tightest = min(guides, key=lambda guide: guide.smallest)
    if 0 < stem.value - tightest.smallest <= UNREAMED:
        yield say.stem_tight(valve.name, stem, tightest)


def loose_stem(valve: Valve) -> Iterator[Message]:
    """A stem far smaller than its guide, where no limit is given that planning would judge it by."""
    wanted, found = valve.specification, valve.measured
    clearance = wanted.guide_clearance
    limited = wanted.guide_wear_limit is not None or (clearance is not None and clearance.most is not None)
    guides = [one for one in (found.guide_top, found.guide_middle, found.guide_bottom) if one is not None]
    if wanted.stem is None or not guides or limited:
        return
    tightest = min(guides, key=lambda guide: guide.smallest)
    if tightest.smallest - wanted.stem.value > LOOSE:
        yield say.stem_loose(valve.name, wanted.stem, tightest)


def damage_in_pocket(valve: Valve) -> Iterator[Message]:
    """Damage that reaches no further than the pocket does is none: most often a slip."""
    found = valve.measured
    pockets = [one for one in (found.pocket_a, found.pocket_b) if one is not None]
    if found.damage is None or not pockets or valve.specification.seat_integral is not None:
        return
    largest = max(pockets, key=lambda pocket: pocket.largest)
    if found.damage.largest <= largest.largest:
        yield say.damage_inside(valve.name, found.damage, largest)


def length_of_guide(valve: Valve) -> Iterator[Message]:
    """A guide far too short or too long for its stem, or far too near or far from a pocket of that size."""
    length, stem = valve.specification.guide_length, valve.specification.stem
    if length is not None and stem is not None and not GUIDE[0] <= length.value / stem.value <= GUIDE[1]:
        yield say.guide_length_odd(valve.name, length, stem)
    away, head = valve.specification.guide_to_floor, valve.specification.head_diameter
    if away is not None and head is not None and not TO_FLOOR[0] <= away.value / head.value <= TO_FLOOR[1]:
        yield say.guide_to_floor_odd(valve.name, away, head)


def stand_of_insert(valve: Valve) -> Iterator[Message]:
    """An insert that would stand far off its face, or whose stand is anywhere."""
    stand = valve.specification.stand
    if stand is None:
        return
    low, high = stand.below_least.value, stand.below_most.value
    if max(abs(low), abs(high)) > STAND or high - low > STANDS_APART:
        yield say.stand_far(valve.name, stand)


def depth_and_floor(valve: Valve, stock: Insert | None) -> Iterator[Message]:
    """A depth that is far from the insert's height while the floor is near it: the two cells are exchanged."""
    depth, floor = valve.measured.pocket_depth, valve.measured.floor_thickness
    known: Reading | Given | None = valve.measured.insert_height or (stock.height if stock else None)
    standard = valve.specification.standard_size
    if known is None and standard is not None and standard.depth is not None:
        known = standard.depth.most or standard.depth.nominal
    if depth is None or floor is None or known is None:
        return
    if abs(floor.value - known.value) <= EXCHANGED and abs(depth.value - known.value) > 2 * EXCHANGED:
        yield say.depth_floor(valve.name, depth, floor, known)


def makers_limits(name: str, wanted: Specification) -> Iterator[Message]:
    """Limits of one size that are too far apart, and an interference that is too much for its diameter."""
    for size in wanted.makers_sizes:
        for what, limits in (("bore", size.bore), ("insert-od", size.insert_od), ("depth", size.depth)):
            if limits is None or limits.least is None or limits.most is None:
                continue
            if too_far_apart(limits):
                yield say.limits_apart(name, what, limits, limits.least, limits.most)
    fit = wanted.interference
    across = _diameter(wanted)
    if fit is None or fit.most is None or across is None:
        return
    if fit.most.value > FIT_OF_DIAMETER * across:
        yield say.interference_large(name, fit, across)


def too_far_apart(limits: Limits) -> bool:
    """Whether two limits cannot be those of one size."""
    if limits.least is None or limits.most is None:
        return False
    return limits.most.value - limits.least.value > LIMITS_APART


def _diameter(wanted: Specification) -> float | None:
    standard = wanted.standard_size
    for limits in (standard.bore, standard.insert_od) if standard is not None else ():
        if limits is not None and limits.aim is not None:
            return limits.aim
    return wanted.oversize_of.value if wanted.oversize_of is not None else None
