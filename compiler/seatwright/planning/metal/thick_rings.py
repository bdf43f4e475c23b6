"""An insert in a ring of the head (handbook 9): pressure, hoop stresses and forces, with how they came about.

Plane stress, free ends, nothing yields: an estimate. A short insert in a deep block has 10 to 38 % more pressure than
this, so these figures bear two digits, and messages say no more (`about`).
"""

from __future__ import annotations

import math

from msgspec import Struct

from seatwright.handbook import fit_stress
from seatwright.job.model import Head, Job, Material, Stated
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import listed, name_key
from seatwright.planning.plan import InsertPlan, Judged
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_RINGS = "handbook 9, thick rings, a machine-design textbook"
_NOTE = "an estimate: two figures count"

WIDE = assumed("Do", "mm", math.inf, "wide metal: no end near")
"""Where the metal around an insert ends, when nothing is near."""


class Elastic(Struct, frozen=True):
    """What gives between insert and head. hole: of the insert."""

    hole: Figure
    stiff_insert: Figure
    poisson_insert: Figure
    stiff_head: Figure
    poisson_head: Figure


def about(value: float) -> str:
    """An estimate with two figures that count: `87`, `190`, `3500`, `0.45`."""
    if value == 0:
        return "0"
    decimals = 1 - math.floor(math.log10(abs(value)))
    return f"{round(value, decimals):.{max(decimals, 0)}f}"


def alloy_of(job: Job, insert: InsertPlan | None) -> Material | None:
    """The alloy of an insert, out of the shop's and the built-in ones."""
    if insert is None or insert.alloy is None:
        return None
    return next((one for one in job.shop.alloys if name_key(one.name) == name_key(insert.alloy)), None)


def elastic(job: Job, head: Head, plan: Judged, findings: Findings) -> Elastic | None:
    """What the stresses of this valve's fit are computed with; None where a figure is missing, which is said."""
    alloy = alloy_of(job, plan.insert)
    missing = []
    if plan.insert is None or plan.insert.id is None:
        missing.append("the insert's `id`")
    if alloy is None:
        missing.append("the insert's alloy")
    if head.material is None:
        missing.append("the head's material")
    found: dict[str, Figure] = {}
    for part, material in (("insert", alloy), ("head", head.material)):
        for symbol, field in (("E", "stiffness"), ("nu", "poisson")):
            if material is None:
                continue
            stated: Stated | None = getattr(material, field)
            if stated is None:
                missing.append(f"`{field}` of {material.name}")
            else:
                found[f"{symbol}_{part}"] = given(f"{symbol}_{part}", "MPa" if symbol == "E" else "1", stated)
    if missing or plan.insert is None or plan.insert.id is None:
        findings.unchecked(
            "stress-not-computed",
            f"Not given: {listed(missing)}. Pressure, stresses and forces of the fit were not computed.",
            "Give it in the shop file: `id` and `alloy` in the table of inserts, the rest under `material` or `alloy`.",
            head.span,
            (plan.name,),
        )
        return None
    return Elastic(
        plan.insert.id.called("id"), found["E_insert"], found["nu_insert"], found["E_head"], found["nu_head"]
    )


def pressure(interference: Figure, od: Figure, outer: Figure, parts: Elastic, symbol: str = "p") -> Figure:
    """Pressure between insert and head [MPa]."""
    inputs = (
        *(interference, od, parts.hole, *((outer,) if outer is not WIDE else ())),
        *(parts.stiff_insert, parts.poisson_insert, parts.stiff_head, parts.poisson_head),
    )
    value = fit_stress.contact_pressure(
        interference.value,
        od.value,
        parts.hole.value,
        outer.value,
        parts.stiff_insert.value,
        parts.poisson_insert.value,
        parts.stiff_head.value,
        parts.poisson_head.value,
    )
    i, d, hole = interference.symbol, od.symbol, parts.hole.symbol
    head = (
        f"(({outer.symbol}^2 + {d}^2)/({outer.symbol}^2 - {d}^2) + nu_head)" if outer is not WIDE else "(1 + nu_head)"
    )
    formula = f"{i} / ({d}*({head}/E_head + (({d}^2 + {hole}^2)/({d}^2 - {hole}^2) - nu_insert)/E_insert))"
    return computed(symbol, "MPa", value, formula, inputs, _RINGS, _NOTE)


def hoop_head(at: Figure, od: Figure, outer: Figure, symbol: str = "hoop_head") -> Figure:
    """Hoop stress in the head at the bore [MPa], tension positive, without the factor of the open face."""
    value = fit_stress.hoop_head_at_bore(at.value, od.value, outer.value)
    if outer is WIDE:
        return computed(symbol, "MPa", value, at.symbol, (at,), _RINGS, f"{_NOTE}; wide metal")
    formula = f"{at.symbol}*({outer.symbol}^2 + {od.symbol}^2)/({outer.symbol}^2 - {od.symbol}^2)"
    return computed(symbol, "MPa", value, formula, (at, outer, od), _RINGS, _NOTE)


def hoop_insert(at: Figure, od: Figure, parts: Elastic) -> Figure:
    """Hoop stress in the insert at its hole [MPa], compression negative."""
    value = fit_stress.hoop_insert_at_bore(at.value, od.value, parts.hole.value)
    hole = parts.hole.symbol
    formula = f"-2*{at.symbol}*{od.symbol}^2/({od.symbol}^2 - {hole}^2)"
    return computed("hoop_insert", "MPa", value, formula, (at, od, parts.hole), _RINGS, _NOTE)


def contact_length(insert: InsertPlan | None) -> Figure | None:
    """How much of the insert's height grips [mm]: less its chamfer, where that is known."""
    if insert is None or insert.height is None:
        return None
    if insert.chamfer is None or not insert.height.value > insert.chamfer.value:
        return insert.height
    value = insert.height.value - insert.chamfer.value
    formula = f"{insert.height.symbol} - {insert.chamfer.symbol}"
    return computed("L", "mm", value, formula, (insert.height, insert.chamfer), "handbook 9")


def push_out(head: Head, at: Figure, od: Figure, length: Figure) -> Figure | None:
    """Force that pushes the insert out [N], with the least friction."""
    stated = head.material.friction_least if head.material else None
    if stated is None:
        return None
    friction = given("mu_least", "1", stated)
    value = fit_stress.push_out_force(friction.value, at.value, od.value, length.value)
    return _force("push_out", value, friction, at, od, length)


def press_in(head: Head, at: Figure, od: Figure, length: Figure) -> Figure | None:
    """Force that presses the insert home [N], with the greatest friction."""
    stated = head.material.friction_most if head.material else None
    if stated is None:
        return None
    friction = given("mu_most", "1", stated)
    value = fit_stress.press_in_force(friction.value, at.value, od.value, length.value)
    return _force("press_in", value, friction, at, od, length)


def _force(symbol: str, value: float, friction: Figure, at: Figure, od: Figure, length: Figure) -> Figure:
    formula = f"{friction.symbol}*{at.symbol}*pi*{od.symbol}*{length.symbol}"
    return computed(
        symbol, "N", value, formula, (friction, at, od, length), "handbook 9, a machine-design textbook", _NOTE
    )
