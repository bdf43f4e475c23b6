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


def two_figures(value: float) -> str:
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
    found, not_stated = findings.once(("stiffness", id(head), id(alloy)), lambda: _stiffness(alloy, head.material))
    missing = []
    if plan.insert is None or plan.insert.id is None:
        missing.append("the insert's `id`")
    if alloy is None:
        missing.append("the insert's alloy")
    if head.material is None:
        missing.append("the head's material")
    missing += not_stated
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


def _stiffness(alloy: Material | None, metal: Material | None) -> tuple[dict[str, Figure], list[str]]:
    """What is stated of the stiffness of insert and head, and what is not."""
    found: dict[str, Figure] = {}
    missing = []
    for part, material in (("insert", alloy), ("head", metal)):
        for symbol, field in (("E", "stiffness"), ("nu", "poisson")):
            if material is None:
                continue
            stated: Stated | None = getattr(material, field)
            if stated is None:
                missing.append(f"`{field}` of {material.name}")
            else:
                found[f"{symbol}_{part}"] = given(f"{symbol}_{part}", "MPa" if symbol == "E" else "1", stated)
    return found, missing


def pressure(interference: Figure, od: Figure, outer: Figure, parts: Elastic, symbol: str = "p") -> Figure:
    """Pressure between insert and head [MPa]."""
    inputs = (
        *(interference, od, parts.hole, *((outer,) if outer is not WIDE else ())),
        *(parts.stiff_insert, parts.poisson_insert, parts.stiff_head, parts.poisson_head),
    )
    value = pressure_in(outer.value, interference.value, od.value, parts)
    i, d, hole = interference.symbol, od.symbol, parts.hole.symbol
    head = (
        f"(({outer.symbol}^2 + {d}^2)/({outer.symbol}^2 - {d}^2) + nu_head)" if outer is not WIDE else "(1 + nu_head)"
    )
    E, nu = parts.stiff_insert.symbol, parts.poisson_insert.symbol
    formula = f"{i} / ({d}*({head}/E_head + (({d}^2 + {hole}^2)/({d}^2 - {hole}^2) - {nu})/{E}))"
    return computed(symbol, "MPa", value, formula, inputs, _RINGS, _NOTE)


def pressure_in(outer: float, interference: float, od: float, parts: Elastic) -> float:
    """The bare figure of `pressure` [MPa], for what is only held against a limit. outer: where the metal ends [mm]."""
    return fit_stress.contact_pressure(
        interference,
        od,
        parts.hole.value,
        outer,
        parts.stiff_insert.value,
        parts.poisson_insert.value,
        parts.stiff_head.value,
        parts.poisson_head.value,
    )


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


class Friction(Struct, frozen=True):
    """The lower and the higher friction of the two partners, each the unfavourable one."""

    least: Figure
    most: Figure


def friction(head: Head, alloy: Material | None, findings: Findings) -> Friction | None:
    """Friction of head and insert; where only one of them has a figure that one counts; None where neither has."""
    return findings.once(("friction", id(head), id(alloy)), lambda: _friction(head, alloy))


def _friction(head: Head, alloy: Material | None) -> Friction | None:
    known = [
        (given(f"mu_least_{part}", "1", one.friction_least), given(f"mu_most_{part}", "1", one.friction_most))
        for part, one in (("head", head.material), ("insert", alloy))
        if one is not None and one.friction_least is not None and one.friction_most is not None
    ]
    if not known:
        return None
    if len(known) == 1:
        return Friction(known[0][0].called("mu_least"), known[0][1].called("mu_most"))
    (least_h, most_h), (least_i, most_i) = known
    least, most = fit_stress.friction_of_both((least_h.value, most_h.value), (least_i.value, most_i.value))
    source = "handbook 9, the unfavourable of both partners"
    return Friction(
        computed("mu_least", "1", least, "min(mu_least_head, mu_least_insert)", (least_h, least_i), source),
        computed("mu_most", "1", most, "max(mu_most_head, mu_most_insert)", (most_h, most_i), source),
    )


def push_out(mu: Friction, at: Figure, od: Figure, length: Figure) -> Figure:
    """Force that pushes the insert out [N], with the least friction."""
    value = fit_stress.push_out_force(mu.least.value, at.value, od.value, length.value)
    return _force("push_out", value, mu.least, at, od, length)


def press_in(mu: Friction, at: Figure, od: Figure, length: Figure) -> Figure:
    """Force that presses the insert home [N], with the greatest friction."""
    value = fit_stress.press_in_force(mu.most.value, at.value, od.value, length.value)
    return _force("press_in", value, mu.most, at, od, length)


def _force(symbol: str, value: float, mu: Figure, at: Figure, od: Figure, length: Figure) -> Figure:
    formula = f"{mu.symbol}*{at.symbol}*pi*{od.symbol}*{length.symbol}"
    source = "handbook 9, a machine-design textbook"
    return computed(symbol, "N", value, formula, (mu, at, od, length), source, _NOTE)
