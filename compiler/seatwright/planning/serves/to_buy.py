"""What to order where nothing in stock fits, and which oversize would serve if a pocket is lost (handbook 4)."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.handbook import fits as fit_sums
from seatwright.job.model import Head, Job, PocketSize
from seatwright.planning.basis.wording import listed, not_over, not_under
from seatwright.planning.plan import Found, Next, Order
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.candidates import Candidate
from seatwright.planning.serves.makers_sizes import size_to_come
from seatwright.planning.serves.wants import Wants
from seatwright.planning.serves.whose_interference import fit_limits

_SOURCE = "handbook 4"
_SLACK = 1e-9


def order_for(job: Job, head: Head, plan: Found, wants: Wants) -> Order:
    """An insert that would serve: od at least, height between two, hole at most, alloys; None for what is not known.

    Where the maker has sizes it is of the smallest that cleans the pocket up.
    """
    size = size_to_come(wants.sizes, wants.needed)
    wants = wants.of(size)
    return Order(
        od=_least_od(job, head, plan, wants, None if size is None else size.row),
        height=_least_height(wants),
        id=wants.seat_inner,
        alloy=tuple(alloy.text for alloy in plan.valve.specification.alloys),
        height_most=_most_height(wants),
        valves=(plan.name,),
    )


def order_text(job: Job, order: Order) -> str:
    """`an insert of at least 44.35 mm od and 7.1 mm height, at most 7.4 mm high, its hole at most 36 mm, of …`."""
    least = []
    if order.od is not None:
        least.append(f"{not_under(job, order.od.value)} od")
    if order.height is not None:
        least.append(f"{not_under(job, order.height.value)} height")
    text = f"an insert of at least {listed(least)}" if least else "an insert"
    if order.height_most is not None:
        text += f", at most {not_over(job, order.height_most.value)} high"
    if order.id is not None:
        text += f", its hole at most {not_over(job, order.id.value)}"
    if order.alloy:
        text += f", of {listed(order.alloy, 'or')}"
    return text


def next_oversize(job: Job, candidates: Sequence[Candidate], chosen: Candidate) -> Next | None:
    """The smallest insert that would clean up a pocket lost at the chosen size, and its bore; None where none would."""
    if chosen.bore is None:
        lost, stock = None, 0.0
    else:
        lost = chosen.bore.most.value
        stock = 0.0 if job.shop.practice.clean_up is None else job.shop.practice.clean_up.value
    larger = [
        (one.offer, one.bore)
        for one in candidates
        if one.bore is not None
        and one.offer.od.value > chosen.offer.od.value + _SLACK
        and (lost is None or one.bore.least.value >= lost + stock - _SLACK)
    ]
    if not larger:
        return None
    offer, bore = min(larger, key=lambda one: (one[0].od.value, one[0].name))
    return Next(offer.name, bore.aim)


def _least_od(job: Job, head: Head, plan: Found, wants: Wants, size: PocketSize | None) -> Figure | None:
    """What cleans the pocket up in the worst case, and covers the seat; of a maker's size its own least."""
    makers = None if size is None or size.name is None or size.insert_od is None else size.insert_od.least
    if makers is not None:
        return given("od", "mm", makers)
    alloys = plan.valve.specification.alloys
    ods = [] if wants.cover is None else [wants.cover]
    if wants.needed is not None:
        fit = fit_limits(job, head, plan, alloys[0].text if len(alloys) == 1 else None, wants.needed.value, size=size)
        if fit is not None:
            value = fit_sums.least_od_for(wants.needed.value, fit.most.value)
            ods.append(computed("od", "mm", value, "D_clean + I_most", (wants.needed, fit.most), _SOURCE))
            smallest = None if wants.maker_bore is None else wants.maker_bore[0]
            if smallest is not None:
                # His bore is no smaller, so what suits the pocket alone would lie loose in it.
                ods.append(
                    computed("od", "mm", smallest.value + fit.least.value, f"{smallest.symbol} + I_least",
                             (smallest, fit.least), _SOURCE)
                )  # fmt: skip
    if len(ods) < 2:
        return ods[0] if ods else None
    value = max(figure.value for figure in ods)
    names = ", ".join(figure.formula for figure in ods)
    inputs: list[Figure] = []
    for figure in ods:
        inputs += [each for each in figure.inputs if each not in inputs]
    return computed("od", "mm", value, f"max({names})", inputs, _SOURCE, "od_least of the insert")


def _least_height(wants: Wants) -> Figure | None:
    """What is tall enough at its lowest stand for the floor to clean up and for the maker's depth, and at its highest
    for the metal under the seat."""
    if wants.below is None:
        return None
    highest, lowest = wants.below
    bounds = []
    if wants.pocket_depth is not None and not wants.integral:
        stock = (wants.floor_clean_up,) if wants.floor_clean_up is not None else ()
        bounds.append(_height((wants.pocket_depth, *stock), lowest))
    if wants.maker_depth is not None:
        bounds.append(_height((wants.maker_depth[0],), lowest))
    if wants.seat_bottom is not None and wants.least_under_seat is not None:
        bounds.append(_height((wants.seat_bottom, wants.least_under_seat), highest))
    return _extreme("height", bounds, largest=True)


def _most_height(wants: Wants) -> Figure | None:
    """What is low enough, standing as high as it may, for the metal under the floor and the maker's depth."""
    if wants.below is None:
        return None
    deepest = (wants.deepest, wants.maker_depth[1] if wants.maker_depth else None)
    bounds = [_height((depth,), wants.below[0]) for depth in deepest if depth is not None]
    return _extreme("height_most", bounds, largest=False)


def _height(depths: Sequence[Figure], below: Figure) -> Figure:
    """An insert's height, as it reaches from how far its face stands below down to a depth, which is a sum."""
    value = sum(depth.value for depth in depths) - below.value
    formula = f"{' + '.join(depth.symbol for depth in depths)} - {below.symbol}"
    return computed("height", "mm", value, formula, (*depths, below), _SOURCE)


def _extreme(symbol: str, bounds: Sequence[Figure], *, largest: bool) -> Figure | None:
    """The bound that rules, written out beside the others."""
    if len(bounds) < 2:
        return bounds[0].called(symbol) if bounds else None
    pick = max if largest else min
    names = ", ".join(bound.formula for bound in bounds)
    inputs: list[Figure] = []
    for bound in bounds:
        inputs += [each for each in bound.inputs if each not in inputs]
    value = pick(bound.value for bound in bounds)
    return computed(symbol, "mm", value, f"{pick.__name__}({names})", inputs, _SOURCE)
