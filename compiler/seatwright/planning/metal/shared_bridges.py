"""A bridge with an insert on both sides carries both (handbook 9): the exact plane stress of two press fits.

Each insert counts with its own size, alloy and interference. The edge of the head, holes and a third insert are not in
it, nor the floor that helps to carry. It is reckoned whether or not `metal-around` is given: a ring of metal round one
insert does not know of the other.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from msgspec import Struct

from seatwright.handbook.bridge_stress import PressedInsert, bridge_stress
from seatwright.planning.certainty.as_made import MadePair
from seatwright.planning.metal.thick_rings import Elastic
from seatwright.planning.plan import Bridge, Fit, Machined
from seatwright.planning.plan.figure import Figure, computed

_SOURCE = "handbook 9, plane stress of two inserts in a wide plate, from an elasticity textbook"


class InBore(Struct, frozen=True):
    """An insert in its bore, with what its stresses are computed with; parts None where that is not known.

    made : with what holds of its interferences
    hot : the hot part of its fit, the rest of it empty
    """

    plan: Machined
    made: MadePair
    parts: Elastic | None
    hot: Fit


Delta = Callable[[InBore], Figure]
"""Which interference of an insert counts."""


def shared_hoops(
    one: InBore, bridges: Sequence[Bridge], seated: Mapping[str, InBore], delta: Delta
) -> tuple[Figure, ...]:
    """The hoop stress in the head in each bridge of this valve that has an insert on both sides [MPa].

    bridges : those that end at this valve. One that is cut through carries nothing; it is on hold elsewhere.
    """
    found = (_in_bridge(bridge, seated, delta) for bridge in bridges if one.plan.name in bridge.between)
    return tuple(hoop for hoop in found if hoop is not None)


def _in_bridge(bridge: Bridge, seated: Mapping[str, InBore], delta: Delta) -> Figure | None:
    # In the order of their names, so that both valves of a bridge carry the same figure and one message.
    names = sorted(set(bridge.between))
    sides = [seated[name] for name in names if name in seated]
    if len(sides) < 2 or bridge.left.value <= 0:
        return None
    first, second = sides
    if first.parts is None or second.parts is None:
        return None
    head = (first.parts.stiff_head, first.parts.poisson_head)
    found = bridge_stress(
        _pressed(first, first.parts, delta),
        _pressed(second, second.parts, delta),
        bridge.left.value,
        head[0].value,
        head[1].value,
    )
    inputs = (*_inputs(first, first.parts, delta), *_inputs(second, second.parts, delta), bridge.left, *head)
    lifts = "; an insert would lift off on the far side, so this is too high" if min(found.pressure_least) < 0 else ""
    formula = f"two inserts {bridge.left.symbol} apart in a wide plate, the larger of the hoop stresses at both bores"
    note = f"an estimate: two figures count{lifts}"
    return computed("hoop_head", "MPa", found.highest, formula, inputs, _SOURCE, note)


def _pressed(side: InBore, parts: Elastic, delta: Delta) -> PressedInsert:
    tight = max(delta(side).value, 0.0)
    return PressedInsert(tight, side.made.od.value, parts.hole.value, parts.stiff_insert.value,
                         parts.poisson_insert.value)  # fmt: skip


def _inputs(side: InBore, parts: Elastic, delta: Delta) -> tuple[Figure, ...]:
    figures = (delta(side), side.made.od, parts.hole, parts.stiff_insert, parts.poisson_insert)
    return tuple(figure.called(f"{figure.symbol}_{side.plan.name}") for figure in figures)
