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
from seatwright.planning.basis.temperatures import expansion_lines, mean_expansion, mean_expansion_where
from seatwright.planning.basis.wording import degrees
from seatwright.planning.certainty.as_made import MadePair
from seatwright.planning.metal import fit_warnings as warn
from seatwright.planning.metal.thick_rings import WIDE, Elastic, pressure, pressure_in
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
    t_head, t_insert = findings.once(("running", id(head)), lambda: _running_temperatures(head))
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
    a_insert = mean_expansion(alloy, "insert", t_insert, findings)
    a_head = mean_expansion(metal, "head", t_head, findings)
    if a_insert is None or a_head is None:
        short = [one.name for one, a in ((metal, a_head), (alloy, a_insert)) if a is None]
        _table_ends(job, head, plan, short, max(t_head.value, t_insert.value), findings)
        return known
    hot = (metal, a_insert, t_insert, a_head, t_head)
    least = _running(made.interference_least, made.od, *hot, "delta_hot_least")
    most = _running(made.interference_most, made.od, *hot, "delta_hot_most")
    if least.value <= 0:
        warn.gone_running(job, plan, least, t_head, t_insert, findings)
    left = None
    if parts is not None and most.value > 0:
        left = _set_left(job, plan, made, alloy, parts, around, most, findings)
    return replace(known, hot_least=least, hot_most=most, set_left=left)


def _running_temperatures(head: Head) -> tuple[Figure | None, Figure | None]:
    """What head and insert run at, where that is given."""
    return (
        given("T_head", "C", head.hot_head) if head.hot_head else None,
        given("T_insert", "C", head.hot_insert) if head.hot_insert else None,
    )


def gone_at(made: MadePair, alloy: Material, metal: Material) -> Figure | None:
    """The common temperature of head and insert at which the least fit is gone; None where it outlasts the tables."""
    delta, od = made.interference_least, made.od
    value = fit_stress.gone_temperature(delta.value, od.value, expansion_lines(alloy), expansion_lines(metal))
    if value is None:
        return None
    symbol, unit, note = "T_gone", "C", "shown to the nearest 5 °C"
    if delta.value <= 0:
        return computed(symbol, unit, value, "20, as there is no interference", (delta,), _SOURCE, note)
    a_insert, a_head = mean_expansion_where(alloy, "insert", value), mean_expansion_where(metal, "head", value)
    if a_insert is None or a_head is None:
        return None
    formula = f"T at which {delta.symbol} = {od.symbol}*(a_head - a_insert)*(T - 20)"
    return computed(symbol, unit, value, formula, (delta, od, a_insert, a_head), _SOURCE, note)


def _soaked(
    job: Job, head: Head, plan: Judged, made: MadePair, alloy: Material, metal: Material,
    t: Figure, gone: Figure | None,
    findings: Findings,
) -> tuple[Figure, Figure] | None:  # fmt: skip
    """The least and the most fit with head and insert both at the head's running temperature: after stopping, or
    overheated. A least fit that is gone then is a warning."""
    a_insert = mean_expansion(alloy, "insert", t, findings)
    a_head = mean_expansion(metal, "head", t, findings)
    if a_insert is None or a_head is None:
        short = [one.name for one, a in ((metal, a_head), (alloy, a_insert)) if a is None]
        _table_ends(job, head, plan, short, t.value, findings)
        return None
    soaked = (metal, a_insert, t, a_head, t)
    least = _running(made.interference_least, made.od, *soaked, "delta_soaked_least")
    most = _running(made.interference_most, made.od, *soaked, "delta_soaked_most")
    if least.value <= 0:
        warn.gone_soaked(job, plan, least, t, gone, findings)
    if gone is not None:
        return least, most
    reach = min(line.to for one in (alloy, metal) for line in one.expansion[-1:])
    return replace(least, note=f"the least fit lasts to {degrees(job, reach)}, where the tables end"), most


def _running(
    delta: Figure, od: Figure, metal: Material, a_insert: Figure, t_insert: Figure, a_head: Figure, t_head: Figure,
    symbol: str,
) -> Figure:  # fmt: skip
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
    if alloy.yield_strength is None:
        return None
    outers = [around.around] if around.around is not None else [around.nearest or WIDE, WIDE]
    value = fit_stress.ring_limit_pressure(alloy.yield_strength.value, od.value, parts.hole.value)
    if not max(pressure_in(outer.value, hot.value, od.value, parts) for outer in outers) > value > 0:
        return None
    most = max((pressure(hot, od, outer, parts, "p_hot") for outer in outers), key=lambda figure: figure.value)
    strength = given("yield", "MPa", alloy.yield_strength)
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
