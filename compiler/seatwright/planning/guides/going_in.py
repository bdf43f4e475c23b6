"""How the guides of a head go in (handbook 10): one heat and one chill for all of them, or the press and its force.

A liner is thin and is pressed in cold (common practice, no source): no head is heated for it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from seatwright.job.model import Head, Job, Material
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import listed
from seatwright.planning.certainty.as_made import MadePair
from seatwright.planning.guides.closing import elastic_of_guide, length_in_head, middle_od
from seatwright.planning.guides.serving import ServingGuide, alloy_of_guide
from seatwright.planning.metal.thick_rings import WIDE, friction, press_in, pressure
from seatwright.planning.plan import AssemblyPlan, ValvePlan
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.pressing.heats_and_chills import (
    Way,
    chills,
    heats,
    ways,
)
from seatwright.planning.pressing.way_in import in_order_of_press, one_for_all, say_press_too_weak, way_in
from seatwright.planning.pressing.while_hot import grabs_at

_SOURCE = "handbook 10, 16"


class _Ready(Struct, frozen=True):
    """A guide with every way in."""

    plan: ValvePlan
    chosen: ServingGuide
    made: MadePair
    metal: Material
    alloy: Material
    ways: tuple[Way, ...]


def going_in(
    job: Job, head: Head, chosen: Mapping[str, ServingGuide], plans: Sequence[ValvePlan], findings: Findings
) -> Mapping[str, AssemblyPlan]:
    """The way in of each guide of a head that still goes in.

    chosen : the guides of those valves; plans : every valve of the head
    """
    renewed = [plan for plan in plans if plan.name in chosen]
    slip = job.shop.practice.slip
    if not renewed:
        return {}
    missing = [] if slip is not None else ["`slip` of the shop's practice"]
    hot = heats(job, head, findings)
    cold = chills(job, hot[0], findings)
    ready = []
    for plan in renewed:
        one = chosen[plan.name]
        metal, alloy = head.material, alloy_of_guide(job, one.guide)
        if metal is None or alloy is None:
            missing.append(f"the alloy of {one.guide.name.text}")
        elif slip is not None:
            made = _pair(one)
            lined = one.guide.kind == "liner"
            heat, chill = (hot[:1], cold[:1]) if lined else (hot, cold)
            found = ways(job, plan, made, metal, alloy, heat, chill, given("slip", "mm", slip), findings)
            if found:
                ready.append(_Ready(plan, one, made, metal, alloy, found))
    if missing:
        findings.unchecked(
            "guide-way-not-computed",
            f"Not given: {listed(dict.fromkeys(missing))}. How the guides go in was not worked out.",
            "Give it in the shop file: `slip` under `practice`, `alloy` in the table of guides.",
            head.span,
            [plan.name for plan in renewed],
        )
    if not ready or slip is None:
        return {}
    return _done(job, head, ready, given("slip", "mm", slip), plans, findings)


def _done(
    job: Job, head: Head, ready: Sequence[_Ready], slip: Figure, plans: Sequence[ValvePlan], findings: Findings
) -> Mapping[str, AssemblyPlan]:
    chosen = one_for_all({one.plan.name: one.ways for one in ready}, slip.value)
    done = {
        one.plan.name: _way_in(job, head, one, chosen[one.plan.name], slip, findings)
        for one in ready
        if one.plan.name in chosen
    }
    return in_order_of_press(job, head, done, plans, findings)


def _pair(one: ServingGuide) -> MadePair:
    """The hole as the guide will find it, and the guide."""
    least, most = one.least or one.hole.least, one.most or one.hole.most
    hole = computed("hole", "mm", (least.value + most.value) / 2, f"({least.symbol} + {most.symbol})/2",
                    (least, most), _SOURCE)  # fmt: skip
    od = middle_od((one.od_least, one.od_most))

    def grip(symbol: str, over: Figure, under: Figure) -> Figure:
        return computed(
            symbol, "mm", over.value - under.value, f"{over.symbol} - {under.symbol}", (over, under), _SOURCE
        )

    return MadePair(
        least,
        hole,
        one.od_least.called("od_least"),
        od,
        one.od_most.called("od_most"),
        grip("I_least", one.od_least.called("od_least"), most),
        grip("I", od, hole),
        grip("I_most", one.od_most.called("od_most"), least),
        one.hole.measured,
    )


def _way_in(job: Job, head: Head, one: _Ready, at: int, slip: Figure, findings: Findings) -> AssemblyPlan:
    way, force, grabs = one.ways[at], None, None
    if way.pair.kind == "press":
        force, press = _force(head, one, way, findings), job.shop.assembly.press
        say_press_too_weak(job, one.plan, "guide", force, None if press is None else press.value, findings)
    else:
        # Where the alloy's table ends before it grabs, that is said of inserts; a guide is in by then.
        grabs = grabs_at(job, one.plan, one.made, one.alloy, way, Findings())
    return way_in(job, head, one.made, one.metal, one.ways, at, slip, force, grabs)


def _force(head: Head, one: _Ready, way: Way, findings: Findings) -> Figure | None:
    """The force for what interference is left, with the most friction."""
    guide = one.chosen.guide
    parts = elastic_of_guide(head, guide, one.alloy)
    mu, grip = friction(head, one.alloy, findings), length_in_head(one.plan, guide)
    if parts is None or mu is None or grip is None:
        return None
    left = computed("I_left", "mm", -way.pair.clearance.value, "-clearance", (way.pair.clearance,), _SOURCE)
    return press_in(mu, pressure(left, one.made.od, WIDE, parts), one.made.od, grip).called("press")
