"""The metal left between pockets, holes and rims once every bore is known, in the worst case (handbook 5)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from seatwright.job.model import Head, Job, Valve
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, listed, said
from seatwright.planning.certainty.as_made import bore_that_stays
from seatwright.planning.inserts.neighbours import Neighbourhood, Neighbours, neighbourhood
from seatwright.planning.inserts.thin_bridges import BridgeSide, least_metal, metal_left, unbored
from seatwright.planning.plan import Bridge, Closed
from seatwright.planning.plan.figure import Figure
from seatwright.text import Span

_SLACK = 1e-9


def bridges(job: Job, head: Head, plans: tuple[Closed, ...], findings: Findings) -> tuple[Bridge, ...]:
    """Every bridge of a head that is worth naming (see `neighbours`).

    A bore that was cut and stays counts as cut, at its widest; any other at its upper limit. A thin bridge puts the
    valves on hold whose bores grow into it. What cannot be computed is said.
    """
    by_name = {plan.name: plan for plan in plans}
    valves = {valve.name: valve for valve in (*head.valves, *head.neighbours)}
    sides = {name: _side(job, head, by_name.get(name), valve, findings) for name, valve in valves.items()}
    sizes = {name: side.diameter.value for name, side in sides.items() if side is not None}
    near = neighbourhood(head, sizes)
    bored = {name for name, side in sides.items() if side is not None and side.bored}
    _say_missing(head, bored, near, sides, findings)
    found = []
    for pair in near.pairs:
        first, second = sides.get(pair.first), pair.hole or sides.get(pair.second)
        if first is None or second is None:
            continue
        if pair.hole is not None and not first.bored:
            continue
        left = metal_left(pair, first, second)
        least = least_metal(head, pair)
        as_made = [name for name in (pair.first, pair.second) if (side := sides.get(name)) and side.as_made]
        found.append(Bridge((pair.first, pair.second), head.number, pair.centres, left, least, bool(as_made)))
        if as_made and bored & {pair.first, pair.second}:
            _say_at_most(job, head, found[-1], as_made, sides, findings)
        _say_waiting(job, head, found[-1], by_name, sides, findings)
        if least is not None and left.value < least.value - _SLACK:
            _thin(job, head, pair, found[-1], least, by_name, sides, findings)
    return tuple(found)


def _side(job: Job, head: Head, plan: Closed | None, valve: Valve, findings: Findings) -> BridgeSide | None:
    if plan is not None and plan.bore is not None:
        cut = bore_that_stays(job, head, plan, findings)
        lean = None if plan.pilot is None else plan.pilot.offset
        return BridgeSide(plan.bore.most if cut is None else cut.largest, lean, True, cut is not None)
    return unbored(plan, valve)


def _thin(
    job: Job,
    head: Head,
    pair: Neighbours,
    bridge: Bridge,
    least: Figure,
    plans: Mapping[str, Closed],
    sides: Mapping[str, BridgeSide | None],
    findings: Findings,
) -> None:
    """Hold the one whose bore grows, or both, those that are still to be bored before those that were; where none is
    bored the bridge is what it is, and only said."""
    grown = [name for name in bridge.between if _grows(name, plans, sides)]
    to_grow = [name for name in grown if (side := sides.get(name)) is not None and not side.as_cut]
    growing = to_grow or grown
    text = (
        f"Between {bridge.between[0]} and {bridge.between[1]} {length(job, bridge.left.value)} would be left in the "
        f"worst case; {said(job, least)} is the least."
    )
    if pair.hole is not None and pair.hole.kind == "cylinder":
        text = (
            f"The bore of {pair.first} would reach {length(job, -bridge.left.value)} beyond the rim {pair.second} in "
            "the worst case; it must stay inside."
        )
    where = pair.hole.span if pair.hole is not None else _place(head, pair)
    if not growing:
        if any(name in plans and not plans[name].left_alone for name in bridge.between):
            findings.warning(
                "bridge-thin-as-found",
                f"{text} Neither is bored: it is so as found.",
                "Look for cracks there, before and after pressing.",
                where,
                [name for name in bridge.between if name in plans],
            )
        return
    for name in growing:
        findings.hold(
            name,
            "bridge-thin",
            text,
            "Take a smaller insert here or beside it, keep the pocket, or have the bridge built up."
            if to_grow
            else "It is cut so: take a smaller insert beside it, or have the bridge built up before one is pressed in.",
            where,
            bridge.left,
            least,
        )


def _say_at_most(
    job: Job,
    head: Head,
    bridge: Bridge,
    as_made: Sequence[str],
    sides: Mapping[str, BridgeSide | None],
    findings: Findings,
) -> None:
    """Of one side the maker's size alone is known: an oversize may be in there."""
    sizes = listed(f"{name} ({said(job, side.diameter)})" for name in as_made if (side := sides.get(name)) is not None)
    findings.warning(
        "bridge-at-most",
        f"Between {bridge.between[0]} and {bridge.between[1]} at most {length(job, bridge.left.value)} would be left: "
        f"only the maker's pocket is known of {sizes}.",
        "An earlier oversize may be in there: measure its pocket, or the insert that is in it as `old-insert-od`.",
        head.span,
        [name for name in bridge.between if sides.get(name) is not None],
    )


def _say_waiting(
    job: Job,
    head: Head,
    bridge: Bridge,
    plans: Mapping[str, Closed],
    sides: Mapping[str, BridgeSide | None],
    findings: Findings,
) -> None:
    """One side is bored now, the other only when its guide is in: so far it counts as found."""
    for name, other in (bridge.between, bridge.between[::-1]):
        side, beside = sides.get(name), plans.get(other)
        if side is None or not side.bored or side.as_cut or beside is None:
            continue
        if beside.waits_for_guide and beside.gets_insert:
            findings.unchecked(
                "bridge-neighbour-waits",
                f"Between {name} and {other} {length(job, bridge.left.value)} would be left with the pocket of {other} "
                "as found: it is bored only once its guide is in, and takes its share of the metal then.",
                f"Renew the guide of {other} and build again before {name} is bored; then both bores are held against "
                "the bridge.",
                head.span,
                (name, other),
            )


def _grows(name: str, plans: Mapping[str, Closed], sides: Mapping[str, BridgeSide | None]) -> bool:
    side, plan = sides.get(name), plans.get(name)
    if side is None or plan is None or not side.bored:
        return False
    pocket = plan.at20.pocket
    return pocket is None or side.diameter.value > pocket.value + _SLACK


def _place(head: Head, pair: Neighbours) -> Span:
    return next((one.span for one in head.spacings if {one.first, one.second} == {pair.first, pair.second}), head.span)


def _say_missing(
    head: Head, bored: set[str], near: Neighbourhood, sides: Mapping[str, BridgeSide | None], findings: Findings
) -> None:
    """What of the bridges is not checked, and why."""
    names = [valve.name for valve in head.valves if valve.name in bored]
    if not names:
        return
    placed = {place.valve for place in head.layout}
    placed |= {name for spacing in head.spacings for name in (spacing.first, spacing.second)}
    unplaced = [name for name in names if name not in placed]
    if unplaced:
        findings.unchecked(
            "spacing-not-given",
            "Neither `layout` nor `spacing` says where these valves are: the bridges beside them are not checked.",
            "Measure the distance of the axes over two pins in the guides.",
            head.span,
            unplaced,
        )
    if head.least_bridge is None:
        findings.unchecked(
            "least-bridge-not-given",
            "`least-bridge` is not given: the metal between the bores is computed, but not checked.",
            "Give the least metal between two bores under `head`.",
            head.span,
            names,
        )
    for pair in near.pairs:
        unknown = [name for name in (pair.first, pair.second) if pair.hole is None and sides.get(name) is None]
        if unknown and bored & {pair.first, pair.second}:
            findings.unchecked_risk(
                "bridge-neighbour-unknown",
                f"What is in {listed(unknown)} is not known: the bridge between {pair.first} and {pair.second} is not "
                "checked. The pocket of an insert is not seen from above.",
                "Measure its pocket, or the insert that is in it as `old-insert-od`; a seat that was cut in the "
                "casting is `seat integral`.",
                head.span,
                (pair.first, pair.second),
            )
    for first, second in near.tilted:
        if bored & {first, second}:
            findings.unchecked(
                "bridge-tilted",
                "These valves stand at different tilts: the layout does not tell the metal between them.",
                "Measure the distance of their axes at the seats and give it under `spacing`.",
                head.span,
                (first, second),
            )
