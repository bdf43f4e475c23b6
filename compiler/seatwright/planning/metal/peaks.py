"""What of an interference holds: the peaks of bore and insert press flat (handbook 9).

Every figure of pressure and heat starts from what holds; the interference itself is measured over the peaks.
"""

from __future__ import annotations

from msgspec.structs import replace

from seatwright.handbook import fit_stress
from seatwright.job.model import Job
from seatwright.planning.certainty.as_made import MadePair
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 9, DIN 7190-1:2017"


def loss(job: Job) -> Figure | None:
    """What presses flat of the peaks of bore and insert, on diameter; None where the shop does not give `roughness`."""
    rough = job.shop.practice.roughness
    if rough is None:
        return None
    bore, insert = given("Rz_bore", "mm", rough[0]), given("Rz_insert", "mm", rough[1])
    value = fit_stress.PEAKS_FLATTENED * (insert.value + bore.value)
    formula = f"{fit_stress.PEAKS_FLATTENED:g}*(Rz_insert + Rz_bore)"
    return computed("roughness_loss", "mm", value, formula, (insert, bore), _SOURCE)


def that_holds(made: MadePair, lost: Figure | None) -> MadePair:
    """The pair with what holds of its interferences; as it is where the roughness is not known."""
    if lost is None:
        return made
    return replace(
        made,
        interference_least=_less(made.interference_least, lost),
        interference=_less(made.interference, lost),
        interference_most=_less(made.interference_most, lost),
    )


def _less(interference: Figure, lost: Figure) -> Figure:
    rz_bore, rz_insert = (each.value for each in (lost.inputs[1], lost.inputs[0]))
    value = fit_stress.interference_that_holds(interference.value, rz_insert, rz_bore)
    formula = f"max({interference.symbol} - {lost.symbol}, 0)" if interference.value > 0 else interference.symbol
    inputs = (interference, lost) if interference.value > 0 else (interference,)
    return computed(f"{interference.symbol}_holds", "mm", value, formula, inputs, _SOURCE)
