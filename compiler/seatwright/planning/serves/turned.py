"""Inserts turned to the bore as cut: bore first, measure, then turn (handbook 5).

Each is bored to its own D_clean, and as much more as makes sure that it is reached, on a step of the setting gauge;
those of a head that lie within half of `clean-up` of each other share one size, so that one damaged pocket takes no
metal out of the sound ones. What the bore comes out at above that does not matter to the fit, since the blank follows
it: its upper limit, with which the bridges are reckoned, is as far above the aim as the fit is wide. The maker's bore
binds here too.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.handbook.bore_windows import shared_bores
from seatwright.job.model import Head, Job
from seatwright.planning.certainty.windows import NO_STEP
from seatwright.planning.plan import Found, InsertPlan
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.bores import BoreWindow
from seatwright.planning.serves.makers_sizes import size_to_come
from seatwright.planning.serves.wants import Wants
from seatwright.planning.serves.whose_interference import FitLimits, fit_limits

_SOURCE = "handbook 5, turned"


def turned_fit(job: Job, head: Head, plan: Found, wants: Wants) -> FitLimits | None:
    """The fit of a turned insert: a table's row is found by the bore that is needed, and by the one alloy asked for."""
    size = size_to_come(wants.sizes, wants.needed)
    alloys = plan.valve.specification.alloys
    near = plan.clean_up.needed.value if plan.clean_up else 0.0
    alloy = alloys[0].text if len(alloys) == 1 else None
    return fit_limits(job, head, plan, alloy, near, size=None if size is None else size.row)


class Needed(Struct, frozen=True):
    """What the bore of one turned insert must reach: D_clean, or the maker's least, and the guard on top of it.

    sure : guard and the standard uncertainty of a planned bore; without it a bore would fall short as often as not
    """

    valve: str
    least: Figure
    sure: tuple[Figure, Figure] | None

    @property
    def value(self) -> float:
        """Where the bore is aimed at [mm], before it shares a size or a step."""
        return self.least.value + (0.0 if self.sure is None else self.sure[0].value * self.sure[1].value)


def needed_of(plan: Found, wants: Wants, sure: tuple[Figure, Figure] | None = None) -> Needed | None:
    """What the bore for a turned insert must reach; None where D_clean is not known or beyond the maker's bore."""
    if wants.needed is None or wants.beyond_makers_bore:
        return None
    least = wants.needed
    low = None if wants.maker_bore is None else wants.maker_bore[0]
    if low is not None and low.value > least.value:
        formula = f"max(D_clean, {low.symbol})"
        least = computed("bore_least", "mm", low.value, formula, (wants.needed, low), f"{_SOURCE}, the maker's bore")
    return Needed(plan.name, least, sure)


def turned_aims(job: Job, set_: Sequence[Needed]) -> dict[str, Figure]:
    """Where the bore of each valve is aimed at, by its name. set_ : all valves of a head that are turned"""
    step = None if job.gauge is None or job.gauge.step is None else given("step", "mm", job.gauge.step)
    stock = None if job.shop.practice.clean_up is None else given("clean_up", "mm", job.shop.practice.clean_up)
    apart = 0.0 if stock is None else stock.value
    bores = shared_bores([one.value for one in set_], apart, NO_STEP if step is None else step.value)
    sharing: dict[float, list[Needed]] = {}
    for one, bore in zip(set_, bores, strict=True):
        sharing.setdefault(bore, []).append(one)
    aims = {bore: _shared(members, bore, stock, step) for bore, members in sharing.items()}
    return {one.valve: aims[bore] for one, bore in zip(set_, bores, strict=True)}


def turned_bore(own: Needed, aim: Figure, wants: Wants, fit: FitLimits) -> BoreWindow:
    """The bore of a valve for a turned insert. aim : of `turned_aims`"""
    width = fit.most.value - fit.least.value
    most = computed(
        "bore_most", "mm", aim.value + width, "bore + (I_most - I_least)", (aim, fit.most, fit.least), _SOURCE
    )
    if wants.maker_bore is not None:
        end = wants.maker_bore[1]
        formula = f"min({most.formula}, {end.symbol})"
        most = computed("bore_most", "mm", min(most.value, end.value), formula, (*most.inputs, end), _SOURCE)
        if aim.value > end.value:
            aim = computed("bore", "mm", end.value, f"min({aim.formula}, {end.symbol})", (*aim.inputs, end), _SOURCE)
    return BoreWindow(own.least.called("bore_least"), most, aim)


def _shared(sharing: Sequence[Needed], bore: float, stock: Figure | None, step: Figure | None) -> Figure:
    """The size that several pockets share, with all that it rests on."""
    largest = max(sharing, key=lambda one: one.value)
    needs = [one.least.called(f"D_clean_{one.valve}") for one in sharing]
    formula = needs[0].symbol if len(needs) == 1 else f"max({', '.join(each.symbol for each in needs)})"
    inputs = list(needs)
    if len(needs) > 1 and stock is not None:
        inputs.append(stock)
    if largest.sure is not None:
        formula = f"{formula} + guard * u"
        inputs += largest.sure
    if step is not None:
        formula = f"{formula}, up to a step"
        inputs.append(step)
    note = "they lie within half of the clean-up of each other" if len(needs) > 1 else ""
    return computed("bore", "mm", bore, formula, inputs, _SOURCE, note)


def turned_insert(plan: Found, bore: BoreWindow, fit: FitLimits, height: Figure | None) -> InsertPlan:
    """The blank as it would be turned for a bore that comes out at its aim: od = bore + interference."""
    middle = fit.interference().aim
    alloys = plan.valve.specification.alloys
    return InsertPlan(
        name="turned",
        measured=False,
        od=computed("od", "mm", bore.aim.value + middle.value, "bore + I_aim", (bore.aim, middle), _SOURCE),
        od_least=computed(
            "od_least", "mm", bore.aim.value + fit.least.value, "bore + I_least", (bore.aim, fit.least), _SOURCE
        ),
        od_most=computed(
            "od_most", "mm", bore.aim.value + fit.most.value, "bore + I_most", (bore.aim, fit.most), _SOURCE
        ),
        height=height,
        alloy=alloys[0].text if len(alloys) == 1 else None,
    )


def turned_height(plan: Found, wants: Wants) -> Figure | None:
    """The height of the blank: as measured, else what stands as wanted at the depth that cleans the floor up."""
    if plan.found.insert_height is not None:
        return given("height", "mm", plan.found.insert_height)
    if wants.below is None or wants.pocket_depth is None or wants.floor_clean_up is None or wants.integral:
        return None
    deep, stock, below = wants.pocket_depth, wants.floor_clean_up, wants.below[0]
    value = deep.value + stock.value - below.value
    formula = f"{deep.symbol} + floor_clean_up - below_least"
    return computed("height", "mm", value, formula, (deep, stock, below), _SOURCE)
