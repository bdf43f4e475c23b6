"""Passes: where the tip is narrower than the floor, and whether the cutter goes that small and that deep."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TypeVar

from msgspec.structs import replace

from seatwright.handbook import pockets, setting
from seatwright.job.model import Cutter, Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import still_to_bore
from seatwright.planning.basis.wording import length, name_key, said
from seatwright.planning.plan import Closed, Correction, PassBelow, Passed, into
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_Phase = TypeVar("_Phase", bound=Passed)

_SOURCE = "handbook 5"
_SLACK = 1e-6  # of a step


def passes(job: Job, head: Head, plans: tuple[Closed, ...], findings: Findings) -> tuple[Passed, ...]:
    """The valves of a head with the passes to each bore that is still to be cut."""
    cutters = {name_key(cutter.name.text): cutter for cutter in job.shop.cutters}
    done = []
    for plan in plans:
        leaning(job, head, plan, findings)
        cutter = cutters.get(name_key(plan.cutter)) if plan.cutter else None
        if cutter is not None and plan.bore is not None and still_to_bore(plan):
            found = passes_of(job, plan, cutter, plan.bore.aim, findings)
            done.append(into(Passed, plan, cutter=cutter.name.text, passes=found))
        else:
            done.append(into(Passed, plan))
    return tuple(done)


def passes_of(job: Job, plan: Closed, cutter: Cutter, aim: Figure, findings: Findings) -> tuple[Figure, ...]:
    """Diameters of the passes, smallest first, the aim last; () where it cannot be told, which is said.

    Holds the valve where the first pass is smaller than the cutter goes, or the pocket deeper than it reaches.
    """
    throat = plan.at20.throat
    _reach(job, plan, cutter, findings)
    if throat is None or cutter.tip_width is None:
        what = "the throat was not measured" if throat is None else f"{cutter.name.text} has no `tip-width`"
        findings.unchecked(
            "floor-not-checked",
            f"Whether the tip clears the floor down to the throat was not checked: {what}.",
            "Measure the throat, and give the cutter its `tip-width`; until then look for a ridge on the floor.",
            cutter.name.span if throat is not None else None,
            (plan.name,),
        )
        return ()
    if throat.value >= aim.value:
        findings.hold(
            plan.name,
            "no-floor",
            f"The throat, {length(job, throat.value)}, is as wide as the new bore, "
            f"{length(job, aim.value)}: the insert would have no floor to stand on.",
            "Measure the throat again; a larger insert, or a ring in the throat, is a matter for the engine maker.",
            plan.valve.span,
            aim,
            throat,
        )
        return ()
    return _passes(job, plan, cutter, aim, throat, given("tip_width", "mm", cutter.tip_width), findings)


def _passes(
    job: Job, plan: Closed, cutter: Cutter, aim: Figure, throat: Figure, tip: Figure, findings: Findings
) -> tuple[Figure, ...]:
    reading = plan.found.throat_offset
    offset = given("throat_offset", "mm", reading) if reading is not None else None
    diameters = pockets.passes(aim.value, throat.value, offset.value if offset else 0.0, tip.value)
    if len(diameters) == 1:
        return (aim,)
    if offset is None:
        findings.unchecked(
            "throat-offset-not-measured",
            "How far the throat stands off the guide was not measured: the first pass is for one that does not.",
            "Measure `throat-offset`, or look for a ridge on the floor after the first pass.",
            None,
            (plan.name,),
        )
    smallest = cutter.range.least if cutter.range else None
    inputs = (throat, tip, *((offset,) if offset else ()))
    first_formula = "throat + 2 * tip_width" + (" - 2 * throat_offset" if offset else "")
    first = computed(
        "pass_1", "mm", diameters[0], first_formula.replace("throat ", f"{throat.symbol} ", 1), inputs, _SOURCE
    )
    if smallest is not None and first.value < smallest.value:
        findings.hold(
            plan.name,
            "cutter-first-pass",
            f"The tip is {said(job, tip)} wide and the floor wider, so a first pass of at most "
            f"{length(job, first.value)} must go to full depth, and {cutter.name.text} goes no smaller than "
            f"{said(job, smallest)}.",
            "Take a cutter with a wider tip, or one that goes smaller for the first pass.",
            cutter.name.span,
            first,
            given("smallest", "mm", smallest),
        )
    return (*_steps(first, aim, diameters), aim)


def with_last_pass(passes: tuple[Figure, ...], aim: Figure) -> tuple[Figure, ...]:
    """The passes with the last at what the setting aims at."""
    return (*passes[:-1], aim) if passes else ()


def shared(plans: Sequence[_Phase], cutter: Cutter, aim: Figure) -> tuple[_Phase, ...]:
    """The valves of a setting with passes that serve all: the smallest first pass of any clears every wider throat.

    aim : of the setting. A valve whose tip reaches at once takes none, and one that was cut before needs none.
    """
    needing = [plan for plan in plans if len(plan.passes) > 1 and plan.cut is None and plan.at20.throat is not None]
    if len(needing) < 2 or cutter.tip_width is None:
        return tuple(plans)
    names = {plan.name for plan in needing}
    floors = [(plan.at20.throat.value if plan.at20.throat else 0.0, _offset(plan)) for plan in needing]
    diameters = pockets.shared_passes(aim.value, floors, cutter.tip_width.value)
    if len(diameters) < 2:
        return tuple(replace(plan, passes=(aim,)) if plan.name in names else plan for plan in plans)
    firsts = tuple(plan.passes[0].called(f"pass_{plan.name}") for plan in needing)
    formula = f"min({', '.join(each.symbol for each in firsts)})"
    first = computed("pass_1", "mm", diameters[0], formula, firsts, _SOURCE)
    served = (*_steps(first, aim, diameters), aim)
    return tuple(replace(plan, passes=served) if plan.name in names else plan for plan in plans)


def _offset(plan: Passed) -> float:
    return plan.found.throat_offset.value if plan.found.throat_offset is not None else 0.0


def _steps(first: Figure, aim: Figure, diameters: Sequence[float]) -> tuple[Figure, ...]:
    """The passes before the last, in even steps."""
    steps = len(diameters) - 1
    return (first, *(
        computed(f"pass_{place + 1}", "mm", diameter, f"pass_1 + ({aim.symbol} - pass_1) * {place} / {steps}",
                 (first, aim), _SOURCE)
        for place, diameter in enumerate(diameters[1:-1], start=1)
    ))  # fmt: skip


def below_size(
    job: Job, plans: Sequence[Passed], correction: Correction | None, step: Figure | None
) -> tuple[PassBelow, ...]:
    """The passes of a setting before its first cut, the smallest first; a bore that was cut before needs none.

    correction : of the setting: what makes the reading from the bore; None without a setting gauge
    step : of the setting gauge; readings go down to a whole one, since a bigger pass would leave a ridge
    """
    found: dict[float, tuple[Figure, list[str]]] = {}
    for plan in plans:
        for bore in plan.passes[:-1] if plan.cut is None else ():
            found.setdefault(round(bore.value, 6), (bore, []))[1].append(plan.name)
    return tuple(
        PassBelow(bore, None if correction is None else _reading(job, bore, correction, step), tuple(names))
        for bore, names in (found[size] for size in sorted(found))
    )


def _reading(job: Job, bore: Figure, correction: Correction, step: Figure | None) -> Figure | None:
    terms = (correction.temperature, correction.master, correction.overcut)
    value = bore.value + sum(term.value for term in terms)
    if step is not None:
        value = setting.at_step(math.floor(value / step.value + _SLACK), step.value)
    limits = job.gauge.range if job.gauge is not None else None
    if limits is not None and limits.least is not None and value < limits.least.value:
        return None
    formula = f"{bore.symbol} + {' + '.join(term.symbol for term in terms)}"
    down = ", down to a whole step" if step is not None else ""
    return computed("reading", "mm", value, formula + down, (bore, *terms, *((step,) if step else ())), "handbook 6")


def _reach(job: Job, plan: Closed, cutter: Cutter, findings: Findings) -> None:
    if plan.depth is None or plan.depth.from_ == "floor":
        return
    deepest = cutter.reach
    if deepest is None:
        findings.unchecked(
            "cutter-reach-not-checked",
            f"How deep {cutter.name.text} can go is not given: it was not checked against the pockets.",
            "Write `reach` under the cutter.",
            cutter.name.span,
            (plan.name,),
        )
    elif plan.depth.most.value > deepest.value:
        findings.hold(
            plan.name,
            "cutter-not-deep-enough",
            f"The pocket goes down to {length(job, plan.depth.most.value)}, and {cutter.name.text} "
            f"goes no deeper than {said(job, deepest)}.",
            "Take a cutter that reaches deeper.",
            deepest.span,
            plan.depth.most.called("depth"),
            given("reach", "mm", deepest),
        )


STEEPEST = 1.0
"""Lean of a valve to the deck up to which a depth may be measured from it [°]: 0.7 mm across a bore of 40 mm."""


def leaning(job: Job, head: Head, plan: Closed, findings: Findings) -> None:
    """Hold the bore of a valve that leans by more than a degree where depths are measured from the deck."""
    tilt, bore = plan.valve_tilt, plan.bore
    if head.depth_from is None or head.depth_from.text != "deck" or tilt is None or bore is None:
        return
    if abs(tilt.value) <= STEEPEST or not still_to_bore(plan):
        return
    across = bore.aim.value * math.tan(math.radians(abs(tilt.value)))
    findings.hold(
        plan.name,
        "deck-leans",
        f"The valve leans {tilt.value:g}° to the deck, and depths are measured from the deck: across this bore the "
        f"deck is {length(job, across, 1 if job.units == 'mm' else 2)} higher on one side than on the other.",
        "Measure depths from the pocket's own rim or from its old floor, and say `depth-from rim` or `depth-from "
        "floor` under `head`.",
        head.depth_from.span,
        _across(bore.aim, tilt, across),
        assumed("tilt_most", "deg", STEEPEST, "common practice, no source"),
    )


def _across(aim: Figure, tilt: Figure, value: float) -> Figure:
    return computed("across", "mm", value, "D * tan(tilt)", (aim.called("D"), tilt.called("tilt")), "geometry")
