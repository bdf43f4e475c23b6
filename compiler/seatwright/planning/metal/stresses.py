"""The fit of each insert (handbook 9): pressure, stresses and forces when cold, and what running heat makes of it.

The figures are those of the interference to be expected (or as made, once the bore is cut); warnings look at the most
that the limits allow. How many digits a figure bears is in its note; cards and messages show no more.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from seatwright.handbook import fit_stress
from seatwright.job.model import Head, Job, Material
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.rings import Rings, bridges_beside, rings
from seatwright.planning.certainty.as_made import pair
from seatwright.planning.metal import fit_warnings as warn
from seatwright.planning.metal.hot_fit import hot_fit
from seatwright.planning.metal.peaks import loss, that_holds
from seatwright.planning.metal.shared_bridges import Delta, InBore, shared_hoops
from seatwright.planning.metal.thick_rings import (
    WIDE,
    Elastic,
    alloy_of,
    contact_length,
    elastic,
    friction,
    hoop_head,
    hoop_insert,
    press_in,
    pressure,
    pressure_in,
    push_out,
)
from seatwright.planning.plan import Bridge, Fit, Fitted, Machined, into
from seatwright.planning.plan.figure import Figure


class _Seated(InBore, frozen=True):
    """An insert in its bore, and the metal around it. bridges: those that end at it."""

    alloy: Material | None
    around: Rings
    bridges: tuple[Bridge, ...]


def fit(
    job: Job, head: Head, plans: tuple[Machined, ...], bridges: Sequence[Bridge], findings: Findings
) -> tuple[Fitted, ...]:
    """The valves of a head with their fit. A valve without bore, insert or interference is handed on as it came."""
    near = bridges_beside(head, bridges)
    seated = {
        plan.name: found
        for plan in plans
        if (found := _seated(job, head, plan, near.get(plan.name, ()), findings)) is not None
    }
    return tuple(
        into(Fitted, plan, fit=_fit(head, seated[plan.name], seated, findings) if plan.name in seated else None)
        for plan in plans
    )


def _seated(job: Job, head: Head, plan: Machined, bridges: Sequence[Bridge], findings: Findings) -> _Seated | None:
    if not plan.gets_insert:
        return None
    measured = pair(job, head, plan, findings)
    if measured is None:
        return None
    lost = loss(job)
    made = that_holds(measured, lost)
    parts = elastic(job, head, plan, findings)
    around = rings(head, plan, made.od, bridges, findings) if parts else Rings(None, ())
    alloy = alloy_of(job, plan.insert)
    hot = replace(hot_fit(job, head, plan, made, alloy, parts, around, findings), roughness_loss=lost)
    return _Seated(plan, made, parts, hot, alloy, around, tuple(bridges))


def _fit(head: Head, one: _Seated, seated: dict[str, _Seated], findings: Findings) -> Fit:
    made = replace(
        one.hot,
        **(_cold(head, one, one.parts, seated, findings) if one.parts is not None else {}),
    )
    if one.parts is not None:
        _warn(head, one, one.parts, seated, findings)
    return made


def _cold(
    head: Head, one: _Seated, parts: Elastic, seated: dict[str, _Seated], findings: Findings
) -> dict[str, Figure | None]:
    """The fields of the cold fit: one figure each where the metal around is given, else the range of two rings.

    A bridge with an insert on both sides makes a range of the hoop stress in any case.
    """
    od, delta = one.made.od, one.made.interference
    length, mu = contact_length(one.plan.insert), friction(head, one.alloy, findings)
    if length is None or mu is None:
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
    shared = shared_hoops(one, one.bridges, seated, lambda side: side.made.interference)
    found = {
        **_range("pressure", pressures, one.around),
        **_range("hoop_head", (*hoops, *shared), one.around, bool(shared)),
        **_range("hoop_insert", [hoop_insert(p, od, parts) for p in pressures], one.around),
    }
    if length is None or mu is None:
        return found
    return {
        **found,
        **_range("push_out", [push_out(mu, p, od, length) for p in pressures], one.around),
        **_range("press_in", [press_in(mu, p, od, length) for p in pressures], one.around),
    }


def _outers(around: Rings) -> list[Figure]:
    """Where the metal ends: as given; else at the nearest metal, and nowhere."""
    if around.around is not None:
        return [around.around]
    return [WIDE] if around.nearest is None else [around.nearest, WIDE]


def _range(name: str, figures: Sequence[Figure], around: Rings, ranged: bool = False) -> dict[str, Figure | None]:
    """NAME where there is one ring; NAME_least and NAME_most of several; wide metal alone is one end of a range."""
    if around.around is not None and not ranged:
        return {name: figures[0]}
    least, most = min(figures, key=lambda figure: figure.value), max(figures, key=lambda figure: figure.value)
    if around.near or ranged:
        return {f"{name}_least": least, f"{name}_most": most}
    # Wide metal alone: it grips hardest, and stresses the head least.
    return {f"{name}_least": least} if name in ("hoop_head", "hoop_insert") else {f"{name}_most": most}


def _warn(head: Head, one: _Seated, parts: Elastic, seated: dict[str, _Seated], findings: Findings) -> None:
    """The most interference that the limits allow, cold and running, against strength and yield: the worst is said.

    sure: what the head carries even with wide metal around; worst: with the nearest metal, or in a shared bridge.
    """

    def cold(side: InBore) -> Figure:
        return side.made.interference_most

    def running(side: InBore) -> Figure:
        hot = side.hot.hot_most
        return hot if hot is not None and hot.value > cold(side).value else cold(side)

    # Nothing of this stands in the plan, so it is reckoned in bare figures.
    od, outers = one.made.od.value, [outer.value for outer in _outers(one.around)]
    sure = worst = warn.Stress(0.0)
    which: tuple[Delta, ...] = (cold, running)
    for delta in which:
        pressures = [pressure_in(outer, delta(one).value, od, parts) for outer in outers]
        own = [fit_stress.hoop_head_at_bore(p, od, outer) for p, outer in zip(pressures, outers, strict=True)]
        found = [warn.Stress(hoop, delta is running) for hoop in own]
        sure = max((sure, min(found, key=_size)), key=_size)
        shared = shared_hoops(one, one.bridges, seated, delta)
        found += [warn.Stress(hoop.value, delta is running, shared=True) for hoop in shared]
        worst = max((worst, *found), key=_size)
        if delta is cold:
            deepest = min(fit_stress.hoop_insert_at_bore(p, od, parts.hole.value) for p in pressures)
            warn.insert_stress(head, one.plan, one.alloy, deepest, findings)
    warn.head_stress(head, one.plan, sure, worst, findings)


def _size(stress: warn.Stress) -> float:
    return stress.hoop
