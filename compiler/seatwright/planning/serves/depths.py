"""How deep the pocket goes for an insert, and the metal left under it (handbook 5).

Depths are read with a depth gauge at the bench and are not corrected for temperature.
"""

from __future__ import annotations

from msgspec import Struct

from seatwright.handbook import pockets
from seatwright.job.model import Job
from seatwright.planning.plan import Depth
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.wants import Wants
from seatwright.text.slugs import ReasonSlug

_SOURCE = "handbook 5"
_SLACK = 1e-9


class NoDepth(Struct, frozen=True):
    """Why no depth suits an insert: a slug, the figure and its limit."""

    slug: ReasonSlug
    figure: Figure
    limit: Figure


class DepthNotGiven(Struct, frozen=True):
    """What is missing for a depth to be computed: a slug."""

    slug: ReasonSlug


def depth_for(job: Job, wants: Wants, height: Figure | None) -> Depth | NoDepth | DepthNotGiven:
    """The depths at which an insert stands as wanted, the floor cleans up and enough metal is left.

    The floor goes down to damage where the other limits allow it; else the damage stays, which rules nothing out. Under
    the maker's depth alone, with no `stand`, no insert stands proud.

    height : of the insert; None where it is not known: then only the maker's depth or the old floor can tell
    """
    stands = _by_stand(wants, height)
    if stands is None and wants.maker_depth is None:
        if wants.face != "floor":
            return DepthNotGiven("height-not-given" if wants.below is not None else "stand-not-given")
        stands = _from_old_floor(job, wants)
        if stands is None:
            return DepthNotGiven("depth-tolerance-not-given")
    windows = tuple(window for window in (stands, wants.maker_depth) if window is not None)
    clean = _floor_reached(wants)
    flush = height.called("height") if stands is None and wants.face != "floor" and height is not None else None
    most = _extreme("depth_most", (*(window[1] for window in windows), *_present(wants.deepest)), largest=False)
    deep = wants.damage_depth
    if deep is not None and pockets.damage_stays(deep.value, most.value):
        deep = None
    lowest = (*(window[0] for window in windows), *_present(clean), *_present(flush), *_present(deep))
    least = _extreme("depth_least", lowest, largest=True)
    if least.value <= most.value + _SLACK:
        middle = (least.value + most.value) / 2
        aim = computed("depth", "mm", middle, "(depth_least + depth_most)/2", (least, most), _SOURCE)
        return Depth(aim, least, most, wants.face)
    if wants.deepest is not None and wants.deepest.value < least.value - _SLACK:
        return NoDepth("floor-thin", least, wants.deepest)
    if flush is not None and flush.value >= least.value:
        return NoDepth("stands-proud", flush, most)
    if clean is not None and clean.value >= least.value:
        return NoDepth("floor-does-not-clean-up", most, clean)
    return NoDepth("depth-limits-disagree", least, most)


def no_depth(job: Job, wants: Wants, height: Figure | None) -> NoDepth | None:
    """Why no depth suits an insert; None where one does, or where something for it is not given."""
    if _at_some_depth(wants, height):
        return None
    found = depth_for(job, wants, height)
    return found if isinstance(found, NoDepth) else None


def _at_some_depth(wants: Wants, height: Figure | None) -> bool:
    """Whether an insert of this height stands as wanted at some depth, in bare numbers: most on a long shelf do, and
    no more is asked of them. False as well where not the stand alone tells."""
    if wants.below is None or height is None:
        return False
    floor = None if wants.pocket_depth is None or wants.integral else wants.pocket_depth.value
    stock = None if wants.floor_clean_up is None else wants.floor_clean_up.value
    deepest = None if wants.deepest is None else wants.deepest.value
    below = wants.below
    least, most = pockets.depth_window(height.value, below[0].value, below[1].value, floor, stock, deepest)
    if wants.maker_depth is not None:
        least, most = max(least, wants.maker_depth[0].value), min(most, wants.maker_depth[1].value)
    deep = wants.damage_depth
    if deep is not None and not pockets.damage_stays(deep.value, most):
        least = max(least, deep.value)
    return least <= most + _SLACK


def floor_left(wants: Wants, depth: Depth) -> Figure | None:
    """Metal between the new floor, at its deepest, and the water."""
    if wants.floor_thickness is None or wants.pocket_depth is None:
        return None
    deepest = depth.most.called("depth_most")
    return floor_under(wants.floor_thickness, wants.pocket_depth, deepest, "at the deepest that is allowed")


def floor_under(floor: Figure, pocket_depth: Figure, deepest: Figure, note: str) -> Figure:
    """Metal between a floor and the water. floor: under the old one, which lies at `pocket_depth`."""
    value = pockets.floor_left(floor.value, deepest.value, pocket_depth.value)
    formula = f"floor - ({deepest.symbol} - {pocket_depth.symbol})"
    return computed("floor_left", "mm", value, formula, (floor, deepest, pocket_depth), _SOURCE, note)


def _by_stand(wants: Wants, height: Figure | None) -> tuple[Figure, Figure] | None:
    if wants.below is None or height is None:
        return None
    least, most = pockets.depth_window(height.value, wants.below[0].value, wants.below[1].value, None, None, None)
    return (
        computed("depth_least", "mm", least, f"{height.symbol} + below_least", (height, wants.below[0]), _SOURCE),
        computed("depth_most", "mm", most, f"{height.symbol} + below_most", (height, wants.below[1]), _SOURCE),
    )


def _from_old_floor(job: Job, wants: Wants) -> tuple[Figure, Figure] | None:
    """Depth counted from the old floor: what cleans it up, and the shop's depth tolerance twice above it."""
    tolerance = job.shop.practice.depth_tolerance
    clean = _floor_reached(wants)
    if tolerance is None or clean is None:
        return None
    either_way = given("depth_tolerance", "mm", tolerance)
    most = clean.value + 2 * either_way.value
    formula = f"{clean.symbol} + 2*depth_tolerance"
    return clean, computed("depth_most", "mm", most, formula, (clean, either_way), _SOURCE)


def _floor_reached(wants: Wants) -> Figure | None:
    """The least depth at which the old floor is gone, or at least reached; an integral seat has none."""
    if wants.pocket_depth is None or wants.integral:
        return None
    stock = wants.floor_clean_up
    if stock is None:
        return wants.pocket_depth.called("floor_reached")
    value = wants.pocket_depth.value + stock.value
    formula = f"{wants.pocket_depth.symbol} + floor_clean_up"
    return computed("floor_cleaned", "mm", value, formula, (wants.pocket_depth, stock), _SOURCE)


def _extreme(symbol: str, figures: tuple[Figure, ...], *, largest: bool) -> Figure:
    """The largest (or smallest) of several limits, written out down to what was given."""
    if len(figures) == 1:
        return figures[0].called(symbol)
    pick = max if largest else min
    parts: list[Figure] = []
    for figure in figures:
        parts += [each for each in (figure.inputs or (figure,)) if each not in parts]
    names = ", ".join(figure.formula or figure.symbol for figure in figures)
    value = pick(figure.value for figure in figures)
    return computed(symbol, "mm", value, f"{pick.__name__}({names})", parts, _SOURCE)


def _present(figure: Figure | None) -> tuple[Figure, ...]:
    return () if figure is None else (figure,)
