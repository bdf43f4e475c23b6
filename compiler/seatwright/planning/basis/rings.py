"""How much metal there is around an insert (handbook 9): as given, else the nearest metal and wide metal."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.job.model import Head
from seatwright.planning.basis.findings import Findings
from seatwright.planning.plan import Bridge, Judged
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 9"


class NearRing(Struct, frozen=True):
    """A ring as thick as one bridge. outer: where it ends. other: what stands on the far side of the bridge."""

    outer: Figure
    other: str
    bridge: Bridge


class Rings(Struct, frozen=True):
    """The metal around one insert.

    around : where the metal ends, as given; then near is ()
    near : one ring for each bridge, the thinnest first; () where no bridge is known
    nearest : where the metal ends at the thinnest of all bridges; it rests on all of them
    """

    around: Figure | None
    near: tuple[NearRing, ...]
    nearest: Figure | None = None


def bridges_beside(head: Head, bridges: Sequence[Bridge]) -> dict[str, list[Bridge]]:
    """The bridges of a head by the valve, hole or rim that they end at."""
    found: dict[str, list[Bridge]] = {}
    for bridge in bridges:
        if bridge.head == head.number:
            for name in dict.fromkeys(bridge.between):
                found.setdefault(name, []).append(bridge)
    return found


def rings(head: Head, plan: Judged, od: Figure, bridges: Sequence[Bridge], findings: Findings) -> Rings:
    """The rings that the stresses of a valve are computed for.

    Bridges that are cut through carry nothing; they are on hold elsewhere.

    bridges : those that end at this valve
    """
    as_given = ring_as_given(head, plan, od)
    if as_given is not None:
        return Rings(as_given, ())
    near = [
        NearRing(_outer(od, bridge.left), _other(bridge, plan.name), bridge)
        for bridge in sorted(bridges, key=lambda bridge: bridge.left.value)
        if bridge.left.value > 0
    ]
    if not near:
        findings.unchecked(
            "metal-around-not-known",
            "Neither `metal-around` nor any bridge is known: stresses and forces are those of wide metal, and "
            "thin metal near the pocket was not looked at.",
            "Give `metal-around` under `head`, or the `layout` of the valves and the `holes` near them.",
            head.span,
            (plan.name,),
        )
    return Rings(None, tuple(near), _nearest(od, near))


def ring_as_given(head: Head, plan: Judged, od: Figure) -> Figure | None:
    """Where the metal around a valve ends, as somebody wrote it; None where nobody did.

    The cell of `measured` and the field of `valves` are narrower than the head's.
    """
    found, spec = plan.found.metal_around, plan.valve.specification.metal_around
    typed = found or spec or head.metal_around
    return None if typed is None else _outer(od, given("metal_around", "mm", typed))


def _nearest(od: Figure, near: Sequence[NearRing]) -> Figure | None:
    if len(near) < 2:
        return near[0].outer if near else None
    left = [ring.bridge.left.called(f"left_{ring.other.replace('-', '_')}") for ring in near]
    formula = f"min({', '.join(each.symbol for each in left)})"
    return _outer(od, computed("left", "mm", left[0].value, formula, left, _SOURCE))


def _outer(od: Figure, metal: Figure) -> Figure:
    value = od.value + 2 * metal.value
    return computed("Do", "mm", value, f"{od.symbol} + 2*{metal.symbol}", (od, metal), _SOURCE)


def _other(bridge: Bridge, name: str) -> str:
    first, second = bridge.between
    return second if first == name else first
