"""What heat makes of a fit (handbook 9): running, soaked, where it is gone, and the set that an insert may take.

Creep of aluminium is not computed, and said. Expansions come from tables of the mean from 20 °C; where a table ends,
there is no figure.
"""

from __future__ import annotations

from msgspec.structs import replace

from seatwright.handbook import fit_stress
from seatwright.job.model import Head, Job, Material
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.rings import Rings
from seatwright.planning.basis.temperatures import mean_expansion
from seatwright.planning.basis.wording import degrees
from seatwright.planning.certainty.as_made import MadePair
from seatwright.planning.metal import fit_warnings as warn
from seatwright.planning.metal.thick_rings import WIDE, Elastic, pressure
from seatwright.planning.plan import Fit, Judged
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 9, mean expansion from 20 °C"


def hot_fit(
    job: Job, head: Head, plan: Judged, made: MadePair, alloy: Material | None, parts: Elastic | None, around: Rings,
    findings: Findings,
) -> Fit:  # fmt: skip
    """The hot part of a fit, the rest of it empty."""
    metal = head.material
    if metal is None or alloy is None or not alloy.expansion or not metal.expansion:
        _no_expansion(head, plan, metal, alloy, findings)
        return Fit()
    gone = gone_at(made, alloy, metal)
    t_head = given("T_head", "C", head.hot_head) if head.hot_head else None
    t_insert = given("T_insert", "C", head.hot_insert) if head.hot_insert else None
    if t_head is None or t_insert is None:
        which = " and ".join(
            word for word, known in (("`hot-head`", t_head), ("`hot-insert`", t_insert)) if known is None
        )
        findings.unchecked(
            "running-temperature-not-given",
            f"{which} {'is' if t_head or t_insert else 'are'} not given: what running heat leaves of the fits was not "
            "computed.",
            "Give both under `head`, from the engine's maker or a measurement near the pockets.",
            head.span,
            (plan.name,),
        )
    soaked = None if t_head is None else _soaked(job, head, plan, made, alloy, metal, t_head, gone, findings)
    known = (
        Fit(gone_at_C=gone) if soaked is None else Fit(soaked_least=soaked[0], soaked_most=soaked[1], gone_at_C=gone)
    )
    if t_head is None or t_insert is None:
        return known
    least = _running(made.interference_least, made.od, alloy, t_insert, metal, t_head, "delta_hot_least")
    most = _running(made.interference_most, made.od, alloy, t_insert, metal, t_head, "delta_hot_most")
    if least is None or most is None:
        short = [one.name for one, t in ((metal, t_head), (alloy, t_insert)) if _mean(one, "", t) is None]
        _table_ends(job, head, plan, short, max(t_head.value, t_insert.value), findings)
        return known
    if least.value <= 0:
        warn.gone_running(job, plan, least, t_head, t_insert, findings)
    left = None
    if parts is not None and most.value > 0:
        left = _set_left(job, plan, made, alloy, parts, around, most, findings)
    return replace(known, hot_least=least, hot_most=most, set_left=left)


def gone_at(made: MadePair, alloy: Material, metal: Material) -> Figure | None:
    """The common temperature of head and insert at which the least fit is gone; None where it outlasts the tables."""
    delta, od = made.interference_least, made.od
    value = fit_stress.gone_temperature(delta.value, od.value, _table(alloy), _table(metal))
    if value is None:
        return None
    symbol, unit, note = "T_gone", "C", "shown to the nearest 5 °C"
    if delta.value <= 0:
        return computed(symbol, unit, value, "20, as there is no interference", (delta,), _SOURCE, note)
    at = Figure(value, "C", "T")
    used = []
    for material, part in ((alloy, "insert"), (metal, "head")):
        mean = _mean(material, part, at)
        if mean is None:
            return None
        used.append(replace(mean, inputs=tuple(each for each in mean.inputs if each is not at)))
    formula = f"T at which {delta.symbol} = {od.symbol}*(a_head - a_insert)*(T - 20)"
    return computed(symbol, unit, value, formula, (delta, od, *used), _SOURCE, note)


def _soaked(
    job: Job, head: Head, plan: Judged, made: MadePair, alloy: Material, metal: Material,
    t: Figure, gone: Figure | None,
    findings: Findings,
) -> tuple[Figure, Figure] | None:  # fmt: skip
    """The least and the most fit with head and insert both at the head's running temperature: after stopping, or
    overheated. A least fit that is gone then is a warning."""
    least = _running(made.interference_least, made.od, alloy, t, metal, t, "delta_soaked_least")
    most = _running(made.interference_most, made.od, alloy, t, metal, t, "delta_soaked_most")
    if least is None or most is None:
        short = [one.name for one in (metal, alloy) if _mean(one, "", t) is None]
        _table_ends(job, head, plan, short, t.value, findings)
        return None
    if least.value <= 0:
        warn.gone_soaked(job, plan, least, t, gone, findings)
    if gone is not None:
        return least, most
    reach = min(line.to for one in (alloy, metal) for line in one.expansion[-1:])
    return replace(least, note=f"the least fit lasts to {degrees(job, reach)}, where the tables end"), most


def _running(
    delta: Figure, od: Figure, alloy: Material, t_insert: Figure, metal: Material, t_head: Figure, symbol: str
) -> Figure | None:
    a_insert, a_head = _mean(alloy, "insert", t_insert), _mean(metal, "head", t_head)
    if a_insert is None or a_head is None:
        return None
    value = fit_stress.hot_interference(
        delta.value, od.value, a_insert.value, t_insert.value, a_head.value, t_head.value
    )
    hot = "T_head" if t_insert is t_head else "T_insert"
    formula = f"{delta.symbol} + {od.symbol}*(a_insert*({hot} - 20) - a_head*(T_head - 20))"
    inputs = (delta, od, a_insert, *(() if t_insert is t_head else (t_insert,)), a_head, t_head)
    note = "what hot aluminium gives way in hours is not in it" if "aluminium" in metal.name else ""
    return computed(symbol, "mm", value, formula, inputs, _SOURCE, note)


def _set_left(
    job: Job, plan: Judged, made: MadePair, alloy: Material, parts: Elastic, around: Rings, hot: Figure,
    findings: Findings,
) -> Figure | None:  # fmt: skip
    """The interference left when the insert takes a set with the most fit hot, which is a warning; else None."""
    od, cold = made.od, made.interference_most
    outers = [around.around] if around.around is not None else [around.nearest or WIDE, WIDE]
    pressures = [pressure(hot, od, outer, parts, "p_hot") for outer in outers]
    most = max(pressures, key=lambda figure: figure.value)
    if alloy.yield_strength is None:
        return None
    strength = given("yield", "MPa", alloy.yield_strength)
    value = fit_stress.ring_limit_pressure(strength.value, od.value, parts.hole.value)
    if not most.value > value > 0:
        return None
    limit = computed("p_lim", "MPa", value, f"yield*({od.symbol} - id)/{od.symbol}", (strength, od, parts.hole),
                     "handbook 9, equilibrium of half a ring")  # fmt: skip
    left = computed(
        "set_left",
        "mm",
        fit_stress.set_left(cold.value, hot.value, most.value, limit.value),
        f"{cold.symbol} - {hot.symbol}*(1 - p_lim/p_hot)",
        (cold, hot, limit, most),
        "handbook 9",
        "an estimate: what passes the limit is lost as set",
    )
    warn.takes_a_set(job, plan, most, limit.value, left, findings)
    return left


def _mean(material: Material, part: str, at: Figure) -> Figure | None:
    return mean_expansion(material, part, at)


def _table(material: Material) -> list[tuple[float, float]]:
    return [(line.to, line.per_degree) for line in material.expansion]


def _no_expansion(head: Head, plan: Judged, metal: Material | None, alloy: Material | None, findings: Findings) -> None:
    missing = [
        f"the {part}'s {'material' if part == 'head' else 'alloy'}" if one is None else one.name
        for part, one in (("head", metal), ("insert", alloy))
        if one is None or not one.expansion
    ]
    findings.unchecked(
        "expansion-not-known",
        f"No expansion is known of {' and '.join(missing)}: what heat leaves of the fit was not computed.",
        "Give `expansion 21.4 um/m/C to 100 C`, a line for each temperature, under `material` or `alloy`.",
        head.span,
        (plan.name,),
    )


def _table_ends(job: Job, head: Head, plan: Judged, names: list[str], at: float, findings: Findings) -> None:
    findings.unchecked(
        "expansion-table-ends",
        f"The expansion of {' and '.join(names)} is not known up to {degrees(job, at)}: "
        "the fit there was not computed.",
        "Give `expansion` lines that reach this temperature in the shop file.",
        head.span,
        (plan.name,),
    )
