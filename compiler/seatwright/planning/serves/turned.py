"""Inserts turned to the bore as cut: bore first, measure, then turn (handbook 5).

The set of a head that is turned is bored to one size: its largest D_clean, and as much more as makes sure that it is
reached, on a step of the setting gauge. What the bore comes out at above that does not matter to the fit, since the
blank follows it: its upper limit, with which the bridges are reckoned, is as far above the aim as the fit is wide.
"""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.handbook import setting
from seatwright.job.model import Head, Job
from seatwright.planning.serves.bores import BoreWindow
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.whose_interference import FitLimits, fit_limits
from seatwright.planning.plan import InsertPlan, ValvePlan
from seatwright.planning.serves.wants import Wants

_SOURCE = "handbook 5, turned"


def is_turned(plan: ValvePlan) -> bool:
    """Whether a blank is to be turned for this valve."""
    wish = plan.valve.specification.insert
    return wish is not None and wish.kind == "turned" and plan.status not in ("left-alone", "not-planned")


def turned_fit(job: Job, head: Head, plan: ValvePlan) -> FitLimits | None:
    """The fit of a turned insert: a table's row is found by the bore that is needed, and by the one alloy asked for."""
    alloys = plan.valve.specification.alloys
    near = plan.clean_up.needed.value if plan.clean_up else 0.0
    return fit_limits(job, head, plan, alloys[0].text if len(alloys) == 1 else None, near)


def turned_bore(
    job: Job, plan: ValvePlan, group: Sequence[ValvePlan], fit: FitLimits, sure: tuple[Figure, Figure] | None = None
) -> BoreWindow | None:
    """The bore of a valve for a turned insert; None where no D_clean is known.

    group : all valves of the head and kind that are turned
    sure : guard and the standard uncertainty of a planned bore, by which the aim stands above what must be cleaned up;
        without it a bore would fall short as often as not
    """
    needs = [one.clean_up.needed for one in group if one.clean_up is not None]
    if not needs or plan.clean_up is None:
        return None
    largest = max(need.value for need in needs)
    same = [need.called(f"D_clean_{one.name}") for one in group if one.clean_up for need in (one.clean_up.needed,)]
    names = ", ".join(figure.symbol for figure in same)
    formula = f"max({names})" if len(same) > 1 else names
    if sure is not None:
        guard, u = sure
        largest += guard.value * u.value
        formula, same = f"{formula} + guard * u", [*same, guard, u]
    aim = computed("bore", "mm", largest, formula, same, _SOURCE)
    if job.gauge is not None and job.gauge.step is not None:
        step = given("step", "mm", job.gauge.step)
        whole = setting.whole_steps(aim.value, aim.value + 2 * step.value, step.value)
        if whole is not None:
            value = setting.at_step(whole[0], step.value)
            aim = computed("bore", "mm", value, f"{aim.formula}, up to a step", (*same, step), _SOURCE)
    least = computed("bore_least", "mm", plan.clean_up.needed.value, "D_clean", (plan.clean_up.needed,), _SOURCE)
    width = fit.most.value - fit.least.value
    most = computed(
        "bore_most", "mm", aim.value + width, "bore + (I_most - I_least)", (aim, fit.most, fit.least), _SOURCE
    )
    return BoreWindow(least, most, aim)


def turned_insert(plan: ValvePlan, bore: BoreWindow, fit: FitLimits, height: Figure | None) -> InsertPlan:
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


def turned_height(plan: ValvePlan, wants: Wants) -> Figure | None:
    """The height of the blank: as measured, else what stands as wanted at the depth that cleans the floor up."""
    if plan.found.insert_height is not None:
        return given("height", "mm", plan.found.insert_height)
    if wants.below is None or wants.pocket_depth is None or wants.floor_clean_up is None or wants.integral:
        return None
    deep, stock, below = wants.pocket_depth, wants.floor_clean_up, wants.below[0]
    value = deep.value + stock.value - below.value
    formula = f"{deep.symbol} + floor_clean_up - below_least"
    return computed("height", "mm", value, formula, (deep, stock, below), _SOURCE)
