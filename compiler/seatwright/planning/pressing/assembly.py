"""How the inserts of a head go in (handbook 10): one heat and one chill for all, drop-in, push or press, and the order.

A head is in the oven as a whole and the press card names one heat and one chill, so the choice is made for the head,
by the insert that is tightest in each pair: the coolest head that lets all of them drop in, with the mildest chill;
else the pair of most clearance, so that nothing is pressed cold that the shop could heat or chill. All pairs are kept
for `explain`.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.job.model import Head, Job, Material
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.rings import ring_as_given
from seatwright.planning.certainty.as_made import MadePair, pair
from seatwright.planning.metal.thick_rings import WIDE, alloy_of, contact_length, elastic, friction, press_in, pressure
from seatwright.planning.plan import Assembled, AssemblyPlan, Fitted, into
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.pressing.heats_and_chills import (
    Cold,
    Way,
    chills,
    heats,
    ways,
)
from seatwright.planning.pressing.way_in import in_order_of_press, one_for_all, say_press_too_weak, way_in
from seatwright.planning.pressing.while_hot import grabs_at

_SOURCE = "handbook 10"


class _Able(Struct, frozen=True):
    """An insert of which all is known that heat and chill are worked out from."""

    plan: Fitted
    made: MadePair
    metal: Material
    alloy: Material
    slip: Figure


class _Ready(_Able, frozen=True):
    """An insert that can go in, and every way."""

    ways: tuple[Way, ...]


def assembly(job: Job, head: Head, plans: tuple[Fitted, ...], findings: Findings) -> tuple[Assembled, ...]:
    """The valves of a head with how their inserts go in; a valve without bore or insert is handed on as it came."""
    able = [each for plan in plans if (each := _able(job, head, plan, findings)) is not None]
    if not able:
        return tuple(into(Assembled, plan) for plan in plans)
    hot = heats(job, head, findings)
    cold = chills(job, hot[0], findings)
    ready = [one for known in able if (one := _ready(job, known, hot, cold, findings)) is not None]
    if not ready:
        return tuple(into(Assembled, plan) for plan in plans)
    chosen = one_for_all({one.plan.name: one.ways for one in ready}, ready[0].slip.value)
    done = {
        one.plan.name: _assembled(job, head, one, chosen[one.plan.name], findings)
        for one in ready
        if one.plan.name in chosen
    }
    ordered = in_order_of_press(job, head, done, plans, findings)
    return tuple(into(Assembled, plan, assembly=ordered.get(plan.name)) for plan in plans)


def _able(job: Job, head: Head, plan: Fitted, findings: Findings) -> _Able | None:
    if not plan.gets_insert:
        return None
    made = pair(job, head, plan, findings)
    if made is None:
        return None
    slip, metal, alloy = job.shop.practice.slip, head.material, alloy_of(job, plan.insert)
    if slip is None:
        findings.unchecked(
            "slip-not-given",
            "`slip` is left out of the shop's practice: how the inserts go in was not worked out.",
            "Write the clearance that an insert drops in with, such as `slip 0.03`, under `practice`.",
            None,
            (plan.name,),
        )
        return None
    if metal is None or alloy is None:
        findings.unchecked(
            "assembly-not-computed",
            "The metal of the head or the alloy of the insert is not known: how the insert goes in was not worked out.",
            "Name both; the insert's `alloy` stands in the table of inserts.",
            head.span,
            (plan.name,),
        )
        return None
    return _Able(plan, made, metal, alloy, given("slip", "mm", slip))


def _ready(job: Job, able: _Able, hot: Sequence[Figure], cold: Sequence[Cold], findings: Findings) -> _Ready | None:
    found = ways(job, able.plan, able.made, able.metal, able.alloy, hot, cold, able.slip, findings)
    return _Ready(able.plan, able.made, able.metal, able.alloy, able.slip, found) if found else None


def _force(job: Job, head: Head, one: _Ready, way: Way, findings: Findings) -> Figure | None:
    """The force for what interference is left, with the most friction, in the metal that grips hardest."""
    plan, od = one.plan, one.made.od
    parts, grip = elastic(job, head, plan, findings), contact_length(plan.insert)
    mu = friction(head, one.alloy, findings)
    if parts is None or grip is None or mu is None:
        return None
    left = computed("I_left", "mm", -way.pair.clearance.value, "-clearance", (way.pair.clearance,), _SOURCE)
    at = pressure(left, od, ring_as_given(head, plan, od) or WIDE, parts)
    return press_in(mu, at, od, grip).called("press")


def _assembled(job: Job, head: Head, one: _Ready, at: int, findings: Findings) -> AssemblyPlan:
    way, force, grabs = one.ways[at], None, None
    if way.pair.kind == "press":
        force = _force(job, head, one, way, findings)
        _check_press(job, one.plan, force, findings)
    else:
        grabs = grabs_at(job, one.plan, one.made, one.alloy, way, findings)
    return way_in(job, head, one.made, one.metal, one.ways, at, one.slip, force, grabs)


def _check_press(job: Job, plan: Fitted, force: Figure | None, findings: Findings) -> None:
    press = job.shop.assembly.press
    if force is None:
        findings.unchecked(
            "press-force-not-computed",
            "What force presses the insert home was not computed: a figure of insert, alloy or head is missing.",
            "See what else is not checked of this valve's fit.",
            plan.valve.span,
            (plan.name,),
        )
    elif press is None:
        findings.unchecked(
            "press-not-given",
            "The insert has to be pressed, and what the shop's press gives is not known: it was not checked.",
            "Write `press 40 kN` under `assembly` in the shop file.",
            plan.valve.span,
            (plan.name,),
        )
    else:
        say_press_too_weak(job, plan, "insert", force, press.value, findings)
