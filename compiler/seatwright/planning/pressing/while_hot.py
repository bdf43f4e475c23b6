"""How long a hot head and a cold insert stay good for each other: when an insert grabs, and when the head has cooled
too far for the next (handbook 10)."""

from __future__ import annotations

from seatwright.handbook import assembly as sums
from seatwright.job.model import Job, Material
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.temperatures import expansion_lines, mean_expansion_where
from seatwright.planning.basis.wording import degrees
from seatwright.planning.certainty.as_made import MadePair
from seatwright.planning.plan import Judged
from seatwright.planning.plan.figure import Figure, computed
from seatwright.planning.pressing.heats_and_chills import Way

_SOURCE = "handbook 10"


def grabs_at(job: Job, plan: Judged, made: MadePair, alloy: Material, way: Way, findings: Findings) -> Figure | None:
    """What the insert has warmed to when it grabs, the head still hot; None where the alloy's table ends first."""
    od, bore, arrives = made.od_most, way.bore_hot, way.cold.arrives
    value = sums.grab_temperature(bore.value, od.value, expansion_lines(alloy), arrives.value)
    if value is None:
        reach = max((line.to for line in alloy.expansion), default=20.0)
        findings.unchecked(
            "grab-temperature-not-known",
            f"In the hot head the insert is still free at {degrees(job, reach)}, where the expansion of {alloy.name} "
            "ends: the temperature at which it grabs was not computed.",
            "Give `expansion` lines of the alloy that reach further in the shop file.",
            alloy.span or plan.valve.span,
            (plan.name,),
        )
        return None
    # Gripped as it arrives: then that is the temperature, and nothing else matters.
    if value == arrives.value:
        return computed("T_grabs", "C", value, arrives.symbol, (arrives,), _SOURCE)
    mean = mean_expansion_where(alloy, "insert", value)
    if mean is None:
        return None
    formula = f"T at which {od.symbol}*(1 + a_insert*(T - 20)) = bore_hot"
    return computed(
        "T_grabs", "C", value, formula, (bore, od, mean), _SOURCE,
        f"the head still at {degrees(job, way.pair.heat_C.value)}; shown to the nearest 5 °C",
    )  # fmt: skip


def reheat_below(made: MadePair, metal: Material, way: Way, slip: Figure, room: Figure) -> Figure | None:
    """The head's temperature under which the insert no longer goes in as planned.

    None for a press, which no heat decides, in a head that is not heated, and where the chill alone is enough at what
    the head lies at: there is nothing to heat again.
    """
    bore, od = made.bore_least, way.od_cold
    dropping = way.pair.kind == "drop-in"
    how = sums.kind(way.pair.clearance.value, slip.value)
    value = sums.reheat_below(how, slip.value, bore.value, od.value, expansion_lines(metal))
    if value is None or not room.value < value <= way.pair.heat_C.value:
        return None
    mean = mean_expansion_where(metal, "head", value)
    if mean is None:
        return None
    wanted = f"{od.symbol} + slip" if dropping else od.symbol
    formula = f"T at which {bore.symbol}*(1 + a_head*(T - 20)) = {wanted}"
    inputs = (bore, od, mean, *((slip,) if dropping else ()))
    return computed("T_reheat", "C", value, formula, inputs, _SOURCE, "shown up to the whole degree")
