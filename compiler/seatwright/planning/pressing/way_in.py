"""What inserts and guides share on the way in: one heat and chill for all, the order, the press (handbook 10)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from seatwright.job.model import Head, Job, Material
from seatwright.planning.basis.findings import Findings
from seatwright.planning.certainty.as_made import MadePair
from seatwright.planning.plan import AssemblyPlan, Judged, Started
from seatwright.planning.plan.figure import Figure
from seatwright.planning.pressing.heats_and_chills import Way, best_for_all, key_of, room_temperature
from seatwright.planning.pressing.inserts_that_stay import inserts_that_stay
from seatwright.planning.pressing.while_hot import reheat_below


def one_for_all(ways: Mapping[str, Sequence[Way]], slip: float) -> dict[str, int]:
    """Which of its ways each valve's part goes in by: the one that is best for all, where it has that, else its own
    best. A valve without any is left out. slip: the clearance that drops in [mm]."""
    chosen = best_for_all(list(ways.values()), slip)
    found = {}
    for name, each in ways.items():
        own = [key_of(way) for way in each]
        at = chosen if chosen is not None and chosen in own else best_for_all([each], slip)
        if at is not None:
            found[name] = own.index(at)
    return found


def way_in(
    job: Job, head: Head, made: MadePair, metal: Material, ways: Sequence[Way], at: int, slip: Figure,
    force: Figure | None, grabs: Figure | None,
) -> AssemblyPlan:  # fmt: skip
    """The way that was chosen, as the plan has it, its order still open."""
    way = ways[at]
    return AssemblyPlan(
        head_C=way.pair.heat_C,
        chill=way.pair.chill,
        kind=way.pair.kind,
        clearance=way.pair.clearance,
        pairs=tuple(each.pair for each in ways),
        order=0,
        insert_C=way.cold.taken,
        arrives_C=way.cold.arrives,
        press_N=force,
        grabs_at_C=grabs,
        reheat_below_C=reheat_below(made, metal, way, slip, room_temperature(job, head)),
    )


def in_order_of_press(
    job: Job, head: Head, done: Mapping[str, AssemblyPlan], plans: Sequence[Judged], findings: Findings
) -> dict[str, AssemblyPlan]:
    """The ways of a head in their order; what its heat does to the inserts that stay is said. plans: all its valves."""
    heated = [each.head_C for each in done.values() if each.head_C.value > room_temperature(job, head).value]
    if heated:
        inserts_that_stay(job, head, tuple(plans), max(heated, key=lambda figure: figure.value), findings)
    order = _press_order(done)
    return {name: replace(way, order=order[name]) for name, way in done.items()}


def say_press_too_weak(
    job: Job, plan: Started, part: str, force: Figure | None, press: float | None, findings: Findings
) -> None:
    """Warn where the shop's press gives less than the part wants. part: `insert`, `guide`; press [N]."""
    if force is None or press is None or force.value <= press:
        return
    findings.warning(
        "press-too-weak",
        f"The {part} wants about {force.value / 1000:.2g} kN to go in, and the press gives {press / 1000:g} kN.",
        f"Heat the head or chill the {part} more, within what the head bears, or use another press.",
        plan.valve.span,
        (plan.name,),
    )


def _press_order(ways: Mapping[str, AssemblyPlan]) -> dict[str, int]:
    """The place of each valve on the press card, from 1.

    ways : by valve, in the order of the head

    What goes into the hottest head comes first, since heat would loosen what went in cold; of those the one with least
    clearance, since the head cools all the while; then as they stand in the head. Common practice, no source.
    """
    names = sorted(ways, key=lambda name: (-ways[name].head_C.value, round(ways[name].clearance.value, 6)))
    return {name: place for place, name in enumerate(names, start=1)}
