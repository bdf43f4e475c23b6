"""What would have to change for a valve on hold: what is short, what would clean up, what metal would be left."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.job.model import Job
from seatwright.planning.basis.wording import length, listed, not_over, not_under
from seatwright.planning.plan import Hold, Order, Plan, ValvePlan
from seatwright.planning.plan.figure import Figure


def lifting(plan: Plan, valve: ValvePlan, hold: Hold) -> tuple[str, ...]:
    """Sentences with the figures that would lift a hold, the nearest first; () where no figure is behind it."""
    return tuple(_said(plan, valve, hold))


def _said(plan: Plan, valve: ValvePlan, hold: Hold) -> Iterator[str]:
    job = plan.job
    if hold.figure is not None and hold.limit is not None and hold.figure.unit == "mm" == hold.limit.unit:
        apart = hold.limit.value - hold.figure.value
        side = "short of" if apart > 0 else "over"
        yield (
            f"It is {length(job, hold.figure.value)} against {length(job, hold.limit.value)}: "
            f"{length(job, abs(apart))} {side} it."
        )
    needed = None if valve.clean_up is None else valve.clean_up.needed
    if needed is not None and valve.bore is None:
        yield f"The least bore that cleans up is {length(job, needed.value)}."
        yield from _fits(job, valve, needed)
        yield from _bridges(plan, valve, needed)
    if valve.order is not None:
        yield from _order(job, valve.order)
    if valve.next is not None and valve.next.bore is not None:
        bore = length(job, valve.next.bore.value)
        yield f"The next insert that cleans up is {valve.next.insert}, in a bore of {bore}."


def _fits(job: Job, valve: ValvePlan, needed: Figure) -> Iterator[str]:
    """The interference with which an insert that is there would go into the least bore."""
    for insert in job.shop.inserts:
        od = insert.od_least or insert.od
        wish = valve.valve.specification.insert
        own = wish is not None and wish.name is not None and wish.name.lower() == insert.name.text.lower()
        if od is None or not (own or insert.seat in ("any", valve.kind)):
            continue
        left = od.value - needed.value
        if own or 0 < left < 0.5:
            what = f"{insert.name.text}, {length(job, od.value)} at its least,"
            if left > 0:
                yield f"In that bore {what} has {length(job, left)} interference."
            else:
                yield f"{what} would lie loose in that bore."


def _bridges(plan: Plan, valve: ValvePlan, needed: Figure) -> Iterator[str]:
    """The metal that the least bore would leave beside it."""
    for bridge in plan.bridges:
        if valve.name not in bridge.between:
            continue
        side = "bore_1" if bridge.between[0] == valve.name else "bore_2"
        now = next((each for each in bridge.left.inputs if each.symbol == side), None)
        if now is None:
            continue
        left = bridge.left.value - (needed.value - now.value) / 2
        other = bridge.between[1] if bridge.between[0] == valve.name else bridge.between[0]
        least = "" if bridge.least is None else f"; {length(plan.job, bridge.least.value)} is the least"
        yield f"That bore would leave {length(plan.job, left)} to {other}{least}."


def _order(job: Job, order: Order) -> Iterator[str]:
    wants = []
    if order.od is not None:
        wants.append(f"an od of at least {not_under(job, order.od.value)}")
    if order.height is not None:
        wants.append(f"a height of at least {not_under(job, order.height.value)}")
    if order.id is not None:
        wants.append(f"a hole of at most {not_over(job, order.id.value)}")
    if order.alloy:
        wants.append(f"{listed(order.alloy, 'or')}")
    if wants:
        yield f"The least oversize that serves has {listed(wants)}."
