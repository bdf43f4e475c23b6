"""The fit of each insert (handbook 9): pressure, stresses and forces when cold, and what running heat makes of it.

The figures are those of the interference to be expected (or as made, once the bore is cut); warnings look at the most
that the limits allow. How many digits a figure bears is in its note; cards and messages show no more.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Head, Job, Material
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.rings import NearRing, Rings, beside, rings
from seatwright.planning.certainty.as_made import Pair, pair
from seatwright.planning.metal import fit_warnings as warn
from seatwright.planning.metal.hot_fit import hot_fit
from seatwright.planning.metal.thick_rings import (
    WIDE,
    Elastic,
    alloy_of,
    contact_length,
    elastic,
    hoop_head,
    hoop_insert,
    press_in,
    pressure,
    push_out,
)
from seatwright.planning.plan import Bridge, Fit, Fitted, Machined, into
from seatwright.planning.plan.figure import Figure, computed


class InBore(Struct, frozen=True):
    """An insert in its bore, with what its stresses are computed with; parts None where that is not known.

    hot : the hot part of its fit, the rest of it empty
    """

    plan: Machined
    made: Pair
    alloy: Material | None
    around: Rings
    parts: Elastic | None
    hot: Fit


Delta = Callable[[InBore], Figure]
"""Which interference of an insert counts."""


def fit(
    job: Job, head: Head, plans: tuple[Machined, ...], bridges: Sequence[Bridge], findings: Findings
) -> tuple[Fitted, ...]:
    """The valves of a head with their fit. A valve without bore, insert or interference is handed on as it came."""
    near = beside(head, bridges)
    seated = {
        plan.name: found
        for plan in plans
        if (found := _seated(job, head, plan, near.get(plan.name, ()), findings)) is not None
    }
    return tuple(
        into(Fitted, plan, fit=_fit(head, seated[plan.name], seated, findings) if plan.name in seated else None)
        for plan in plans
    )


def _seated(job: Job, head: Head, plan: Machined, bridges: Sequence[Bridge], findings: Findings) -> InBore | None:
    if not plan.gets_insert:
        return None
    made = pair(job, head, plan, findings)
    if made is None:
        return None
    parts = elastic(job, head, plan, findings)
    around = rings(head, plan, made.od, bridges, findings) if parts else Rings(None, ())
    alloy = alloy_of(job, plan.insert)
    hot = hot_fit(job, head, plan, made, alloy, parts, around, findings)
    return InBore(plan, made, alloy, around, parts, hot)


def _fit(head: Head, one: InBore, seated: dict[str, InBore], findings: Findings) -> Fit:
    made = replace(
        one.hot,
        **(_cold(head, one, one.parts, seated, findings) if one.parts is not None else {}),
    )
    if one.parts is not None:
        _warn(head, one, one.parts, seated, findings)
    return made


def _cold(
    head: Head, one: InBore, parts: Elastic, seated: dict[str, InBore], findings: Findings
) -> dict[str, Figure | None]:
    """The fields of the cold fit: one figure each where the metal around is given, else the range of two rings."""
    od, delta = one.made.od, one.made.interference
    length = contact_length(one.plan.insert)
    if length is None or head.material is None or head.material.friction_least is None:
        findings.unchecked(
            "force-not-computed",
            "The insert's height or the friction in this metal is not known: push-out and press-in were not computed.",
            "Give `height` in the table of inserts, and `friction 0.10 to 0.16` of the head's material.",
            head.span,
            (one.plan.name,),
        )
    outers = _outers(one.around)
    pressures = [pressure(delta, od, outer, parts) for outer in outers]
    hoops = [hoop_head(p, od, outer) for p, outer in zip(pressures, outers, strict=True)]
    hoops += _shared_hoops(one, seated, lambda side: side.made.interference)
    return {
        **_range("pressure", pressures, one.around),
        **_range("hoop_head", hoops, one.around),
        **_range("hoop_insert", [hoop_insert(p, od, parts) for p in pressures], one.around),
        **_range("push_out", [push_out(head, p, od, length) for p in pressures] if length else [], one.around),
        **_range("press_in", [press_in(head, p, od, length) for p in pressures] if length else [], one.around),
    }


def _outers(around: Rings) -> list[Figure]:
    """Where the metal ends: as given; else at the nearest metal, and nowhere."""
    if around.around is not None:
        return [around.around]
    return [WIDE] if around.nearest is None else [around.nearest, WIDE]


def _shared_hoops(one: InBore, seated: dict[str, InBore], delta: Delta) -> list[Figure]:
    """The hoop stress in each bridge with an insert on both sides: the two add up. delta: which interference counts."""
    shared = (_shared(one, ring, seated, delta) for ring in one.around.near)
    return [hoop for hoop in shared if hoop is not None]


def _shared(one: InBore, ring: NearRing, seated: dict[str, InBore], delta: Delta) -> Figure | None:
    other = seated.get(ring.other)
    if one.parts is None or other is None or other.parts is None:
        return None
    across = next((each for each in other.around.near if each.bridge is ring.bridge), None)
    if across is None:
        return None
    sides = []
    for side, parts, outer in ((one, one.parts, ring.outer), (other, other.parts, across.outer)):
        at = pressure(delta(side), side.made.od, outer, parts)
        sides.append(hoop_head(at, side.made.od, outer, f"hoop_{side.plan.name}"))
    # In the order of their names, so that both valves of a bridge carry the same sum and one message.
    sides.sort(key=lambda figure: figure.symbol)
    here, there = sides
    return computed(
        "hoop_head",
        "MPa",
        here.value + there.value,
        f"{here.symbol} + {there.symbol}",
        sides,
        "handbook 9, an insert on both sides of the bridge",
        "an estimate: two figures count",
    )


def _range(name: str, figures: Sequence[Figure | None], around: Rings) -> dict[str, Figure | None]:
    """NAME where there is one ring; NAME_least and NAME_most of several; wide metal alone is one end of a range."""
    known = [figure for figure in figures if figure is not None]
    if not known:
        return {}
    if around.around is not None:
        return {name: known[0]}
    least, most = min(known, key=lambda figure: figure.value), max(known, key=lambda figure: figure.value)
    if around.near:
        return {f"{name}_least": least, f"{name}_most": most}
    # Wide metal alone: it grips hardest, and stresses the head least.
    return {f"{name}_least": least} if name in ("hoop_head", "hoop_insert") else {f"{name}_most": most}


def _warn(head: Head, one: InBore, parts: Elastic, seated: dict[str, InBore], findings: Findings) -> None:
    """The most interference that the limits allow, cold and running, against strength and yield: the worst is said.

    sure: what the head carries even with wide metal around; worst: with the nearest metal, or in a shared bridge.
    """

    def cold(side: InBore) -> Figure:
        return side.made.interference_most

    def running(side: InBore) -> Figure:
        hot = side.hot.hot_most
        return hot if hot is not None and hot.value > cold(side).value else cold(side)

    od, outers = one.made.od, _outers(one.around)
    sure = worst = warn.Stress(Figure(0.0, "MPa", "hoop_head"))
    for delta in (cold, running):
        pressures = [pressure(delta(one), od, outer, parts) for outer in outers]
        own = [hoop_head(p, od, outer) for p, outer in zip(pressures, outers, strict=True)]
        found = [warn.Stress(hoop, delta is running) for hoop in own]
        sure = max((sure, min(found, key=_size)), key=_size)
        found += [warn.Stress(hoop, delta is running, shared=True) for hoop in _shared_hoops(one, seated, delta)]
        worst = max((worst, *found), key=_size)
        if delta is cold:
            deepest = min((hoop_insert(p, od, parts) for p in pressures), key=lambda figure: figure.value)
            warn.insert_stress(head, one.plan, one.alloy, deepest, findings)
    warn.head_stress(head, one.plan, sure, worst, findings)


def _size(stress: warn.Stress) -> float:
    return stress.hoop.value
