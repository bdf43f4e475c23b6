"""Where depths are counted from at the machine (handbook 6): a parallel on the pocket's own face, or the old floor.

The tip stands over the edge of the old pocket by a part of its corner only: zeroed by that edge it would go too deep.
So it is zeroed on a parallel laid across deck or rim, whose thickness the dial is set back by, or, where depths are
counted from the old floor, where the tip first marks it. The first pocket is bored short of depth, measured, and the
rest put on the stop.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from seatwright.handbook import setting
from seatwright.job.model import Head, Job
from seatwright.planning.basis.faces import is_integral, pocket_depth_now
from seatwright.planning.basis.findings import Findings
from seatwright.planning.plan import DepthStop, Passed
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 6, depth zero"


def parallel_of(job: Job, head: Head) -> Figure | None:
    """The parallel that the tip is zeroed on; None where depths are from the old floor, or the shop names none."""
    from_floor = head.depth_from is not None and head.depth_from.text == "floor"
    thick = job.machine.parallel if job.machine is not None else None
    return None if from_floor or thick is None else given("parallel", "mm", thick)


def from_parallel(stop: Figure, parallel: Figure | None) -> Figure | None:
    """The travel to a depth from where the tip touches the parallel."""
    if parallel is None:
        return None
    value = setting.stop_from_parallel(stop.value, parallel.value)
    return computed("from_parallel", "mm", value, f"{stop.symbol} + parallel", (stop, parallel), _SOURCE)


def on_parallel(stops: Sequence[DepthStop], parallel: Figure | None) -> tuple[DepthStop, ...]:
    """The stops with their travel from the parallel."""
    return tuple(replace(stop, from_parallel=from_parallel(stop.stop, parallel)) for stop in stops)


def dial_back(parallel: Figure | None) -> Figure | None:
    """What the dial is set to while the tip touches the parallel: that much before 0."""
    if parallel is None:
        return None
    return computed(
        "dial_on_parallel", "mm", setting.dial_on_parallel(parallel.value), "-parallel", (parallel,), _SOURCE
    )


def short_of_depth(job: Job, head: Head, first: Passed, stops: Sequence[DepthStop]) -> Figure | None:
    """The stop for the first pocket of a setting: short of depth, so that it can be measured and the rest put on.

    Short by as much as the first cut is under size, but by no more than half of what the floor is cut, in whole steps
    of the dial. None without a `trial-under`, for a pocket that was cut before, or where not a step is left for it:
    then the stop is crept up to.
    """
    stop = next((one.stop for one in stops if first.name in one.valves), None)
    under = job.shop.practice.trial_under
    if stop is None or under is None or first.cut is not None:
        return None
    parts = [stop.called("stop"), given("trial_under", "mm", under)]
    short, formula = parts[1].value, "trial_under"
    old = pocket_depth_now(head, first, Findings())  # what is missing was said with the depth
    if old is not None and not is_integral(first):
        parts.append(old.called("pocket_depth"))
        short, formula = min(short, (stop.value - old.value) / 2), "min(trial_under, (stop - pocket_depth) / 2)"
    dial = job.machine.dial_step if job.machine is not None else None
    if dial is not None:
        step = given("dial_step", "mm", dial)
        whole = setting.whole_steps(step.value, short, step.value) if short >= step.value else None
        if whole is None:
            return None
        parts.append(step)
        short, formula = setting.at_step(whole[1], step.value), f"{formula}, in whole steps of the dial"
    if not short > 0:
        return None
    return computed("first_stop", "mm", stop.value - short, f"stop - {formula}", parts, _SOURCE)


def corner_error(members: Sequence[Passed], first: Figure) -> Figure | None:
    """How much too deep the tip would be zeroed by the edge of an old pocket, the worst of these; 0 where the whole
    corner stands over it, None where the tip stands over none of them, or that is not known."""
    worst: Figure | None = None
    for plan in members:
        cut = plan.cut.bore if plan.cut is not None else None
        old, corner = cut or plan.at20.pocket, plan.corner_radius
        if old is None or corner is None or (cut is None and is_integral(plan)) or first.value <= old.value:
            continue
        value = setting.zero_error_of_corner((first.value - old.value) / 2, corner.value)
        if worst is None or value > worst.value + 1e-9:  # none is said too: a larger corner would make one
            inputs = (first.called("D"), old.called("pocket"), corner.called("R"))
            formula = "R - sqrt(R^2 - max(R - (D - pocket)/2, 0)^2)"
            worst = computed("zero_error", "mm", value, formula, inputs, _SOURCE, "why zero is not taken by the edge")
    return worst
