"""What to order where nothing in stock fits, and which oversize would serve if a pocket is lost (handbook 4)."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.handbook import fits as fit_sums
from seatwright.job.model import Head, Job
from seatwright.planning.candidates import Candidate
from seatwright.planning.figure import Figure, computed
from seatwright.planning.fits import fit_limits
from seatwright.planning.plan import Next, Order, ValvePlan
from seatwright.planning.wants import Wants
from seatwright.planning.wording import length, listed

_SOURCE = "handbook 4"
_SLACK = 1e-9


def order_for(job: Job, head: Head, plan: ValvePlan, wants: Wants) -> Order:
    """An insert that would serve: od and height at least, hole at most, alloys; None for what is not known."""
    return Order(
        od=_least_od(job, head, plan, wants),
        height=_least_height(wants),
        id=wants.seat_inner,
        alloy=tuple(alloy.text for alloy in plan.valve.specification.alloys),
    )


def order_text(job: Job, order: Order, wants: Wants) -> str:
    """`an insert of at least 44.35 mm od and 7.1 mm height, its hole at most 36 mm, of tool steel`.

    Where the metal under the floor is known, how high it may be at most is said too.
    """
    least = []
    if order.od is not None:
        least.append(f"{length(job, order.od.value)} od")
    if order.height is not None:
        least.append(f"{length(job, order.height.value)} height")
    text = f"an insert of at least {listed(least)}" if least else "an insert"
    if wants.deepest is not None and wants.below is not None:
        text += f", at most {length(job, wants.deepest.value - wants.below[0].value)} high"
    if order.id is not None:
        text += f", its hole at most {length(job, order.id.value)}"
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
        one
        for one in candidates
        if one.bore is not None
        and one.offer.od.value > chosen.offer.od.value + _SLACK
        and (lost is None or one.bore.least.value >= lost + stock - _SLACK)
    ]
    if not larger:
        return None
    best = min(larger, key=lambda one: (one.offer.od.value, one.offer.name))
    assert best.bore is not None
    return Next(best.offer.name, best.bore.aim)


def _least_od(job: Job, head: Head, plan: ValvePlan, wants: Wants) -> Figure | None:
    """What cleans the pocket up in the worst case, and covers the seat."""
    alloys = plan.valve.specification.alloys
    ods = [] if wants.cover is None else [wants.cover]
    if wants.needed is not None:
        fit = fit_limits(job, head, plan, alloys[0].text if len(alloys) == 1 else None, wants.needed.value)
        if fit is not None:
            value = fit_sums.least_od_for(wants.needed.value, fit.most.value)
            ods.append(computed("od", "mm", value, "D_clean + I_most", (wants.needed, fit.most), _SOURCE))
    if len(ods) < 2:
        return ods[0] if ods else None
    value = max(figure.value for figure in ods)
    names = ", ".join(figure.formula for figure in ods)
    inputs = tuple(each for figure in ods for each in figure.inputs)
    return computed("od", "mm", value, f"max({names})", inputs, _SOURCE, "od_least of the insert")


def _least_height(wants: Wants) -> Figure | None:
    """What is tall enough for the floor to clean up with the insert at its lowest."""
    if wants.below is None or wants.pocket_depth is None or wants.integral:
        return None
    below = wants.below[1]
    stock = wants.floor_clean_up
    value = wants.pocket_depth.value + (0.0 if stock is None else stock.value) - below.value
    formula = f"{wants.pocket_depth.symbol}{'' if stock is None else ' + floor_clean_up'} - below_most"
    inputs = (wants.pocket_depth, *((stock,) if stock is not None else ()), below)
    return computed("height", "mm", value, formula, inputs, _SOURCE)
