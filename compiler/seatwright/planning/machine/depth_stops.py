"""Fewest positions of the machine's depth stop for the valves of one setting."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from seatwright.handbook import MM_PER_INCH, grouping, setting
from seatwright.job.model import Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import said, span_of
from seatwright.planning.certainty.windows import NO_STEP
from seatwright.planning.plan import Depth, DepthStop, Passed
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 7"


def depth_stops(job: Job, plans: Sequence[Passed], findings: Findings) -> tuple[DepthStop, ...]:
    """Positions from the shallowest down; every valve with a depth has one, on whole steps of the machine's dial."""
    deep = [(plan, plan.depth) for plan in plans if plan.depth is not None]
    step = job.machine.dial_step if job.machine else None
    if step is None and deep:
        findings.unchecked(
            "dial-step",
            "The step of the machine's depth stop is not given: depths are not brought to what its dial shows.",
            "Write `dial-step` under the machine.",
            job.machine.name.span if job.machine else None,
            tuple(plan.name for plan, _ in deep),
        )
    size = step.value if step else NO_STEP
    windows, aims = [], []
    for plan, depth in deep:
        windows.append(_window(job, plan, depth, size, findings))
        aims.append(depth.aim.value / size)
    stops = []
    for number, group in enumerate(grouping.fewest_points(windows, aims).groups, start=1):
        members = [deep[at] for at in group.members]
        stop = _stop(members, setting.at_step(group.point, size), given("dial_step", "mm", step) if step else None)
        names = tuple(plan.name for plan, _ in members)
        stops.append(_on_dial(job, DepthStop(number, stop, names), step is not None))
    return tuple(stops)


def _window(job: Job, plan: Passed, depth: Depth, step: float, findings: Findings) -> tuple[int, int]:
    inside = setting.whole_steps(depth.least.value, depth.most.value, step)
    if inside is not None:
        return inside
    nearest = round(setting.round_to_step(depth.aim.value, step) / step)
    limits = span_of(job, depth.least.value, depth.most.value)
    of = f" of {said(job, job.machine.dial_step)}" if job.machine and job.machine.dial_step else ""
    findings.warning(
        "depth-between-steps",
        f"Between the depths {limits} lies no whole step{of} of the machine's dial.",
        "The stop is set to the nearest step; measure the depth in this pocket and creep to it.",
        plan.valve.span,
        (plan.name,),
    )
    return nearest, nearest


def _stop(members: Sequence[tuple[Passed, Depth]], value: float, step: Figure | None) -> Figure:
    inputs: list[Figure] = []
    for plan, depth in members:
        for figure, what in ((depth.least, "least"), (depth.aim, "aim"), (depth.most, "most")):
            inputs.append(figure.called(f"t_{what}_{plan.name}"))
    if step is not None:
        inputs.append(step)
    aims = ", ".join(f"t_aim_{plan.name}" for plan, _ in members)
    formula = f"middle of ({aims}), inside all limits" + (", on a whole dial_step" if step else "")
    return computed("stop", "mm", value, formula, inputs, _SOURCE)


def _on_dial(job: Job, stop: DepthStop, has_step: bool) -> DepthStop:
    """What the dial shows, in its own unit; not told where the step of the dial is not."""
    if not has_step or job.machine is None:
        return stop
    if (job.machine.dial or job.units) == "inch":
        inches = round(stop.stop.value / MM_PER_INCH, 9)  # free of the crumbs of floating point
        shown = computed("dial", "in", inches, f"stop / {MM_PER_INCH}", (stop.stop,), _SOURCE)
        return replace(stop, dial=shown, dial_unit="in")
    return replace(stop, dial=stop.stop.called("dial"), dial_unit="mm")
