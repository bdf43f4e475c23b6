"""What the fit does to a guide (handbook 9, 16): pressure in wide metal, how much its bore closes, what it holds.

The metal around a pocket is not that around a guide: a guide stands in wide metal, which closes its bore the most.
"""

from __future__ import annotations

from seatwright.handbook import guides as sums
from seatwright.job.model import Head, Job, Limits, Material, StockGuide
from seatwright.planning.basis.findings import Findings
from seatwright.planning.metal.thick_rings import WIDE, Elastic, friction, pressure, push_out
from seatwright.planning.plan import Started
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.whose_interference import FitLimits

_SOURCE = "handbook 16, thick rings"


def elastic_of_guide(head: Head, guide: StockGuide, alloy: Material | None) -> Elastic | None:
    """What gives between guide and head; None where a figure is missing."""
    metal = head.material
    if guide.id is None or alloy is None or metal is None:
        return None
    if alloy.stiffness is None or alloy.poisson is None or metal.stiffness is None or metal.poisson is None:
        return None
    return Elastic(
        given("id", "mm", guide.id),
        given("E_guide", "MPa", alloy.stiffness),
        given("nu_guide", "1", alloy.poisson),
        given("E_head", "MPa", metal.stiffness),
        given("nu_head", "1", metal.poisson),
    )


def closes(
    job: Job, head: Head, guide: StockGuide, alloy: Material | None, od: tuple[Figure, Figure], fit: FitLimits
) -> Figure | None:
    """How much the middle of the fit closes the guide's bore; None for a liner, whose closing is not computed."""
    parts = elastic_of_guide(head, guide, alloy)
    if parts is None or guide.kind == "liner":
        return None
    across = middle_od(od)
    middle = computed("I_middle", "mm", (fit.least.value + fit.most.value) / 2, "(I_least + I_most)/2",
                      (fit.least, fit.most), _SOURCE)  # fmt: skip
    if not parts.hole.value < across.value:
        return None
    at = pressure(middle, across, WIDE, parts)
    value = sums.bore_closes(at.value, across.value, parts.hole.value, parts.stiff_insert.value)
    formula = f"2*{at.symbol}*od^2*id/(E_guide*(od^2 - id^2))"
    return computed("closes", "mm", value, formula, (at, across, parts.hole, parts.stiff_insert), _SOURCE,
                    "in wide metal, the most that it can close")  # fmt: skip


def middle_od(od: tuple[Figure, Figure]) -> Figure:
    """The od that a guide is reckoned with."""
    low, high = od
    if low is high:
        return low.called("od")
    return computed("od", "mm", (low.value + high.value) / 2, "(od_least + od_most)/2",
                    (low.called("od_least"), high.called("od_most")), _SOURCE)  # fmt: skip


def length_in_head(plan: Started, guide: StockGuide) -> Figure | None:
    """How much of a guide grips: its length, less what stands out above the spring seat; all of it where that is not
    known, which is the most that it can want to go in, and can hold."""
    spec = plan.valve.specification
    whole = guide.length or spec.guide_length
    if whole is None:
        return None
    long = given("guide_length", "mm", whole)
    stands: Limits | None = None if spec.guide_stand is None else spec.guide_stand.limits
    most = None if stands is None else stands.most or stands.nominal
    if most is None:
        return long
    out = given("guide_stand", "mm", most)
    if not long.value > out.value:
        return long
    return computed("L", "mm", long.value - out.value, "guide_length - guide_stand", (long, out), _SOURCE)


def grip_known(plan: Started) -> bool:
    """Whether it is known how much of a guide stands out above the spring seat, and so does not grip."""
    stand = plan.valve.specification.guide_stand
    return stand is not None and stand.limits is not None and (stand.limits.most or stand.limits.nominal) is not None


def holds_with(
    head: Head, plan: Started, guide: StockGuide, alloy: Material | None, od: tuple[Figure, Figure], least: Figure,
    findings: Findings,
) -> Figure | None:  # fmt: skip
    """The force that pushes a guide out, with its least fit and the least friction, in wide metal."""
    parts, mu = elastic_of_guide(head, guide, alloy), friction(head, alloy, findings)
    grip = length_in_head(plan, guide)
    if parts is None or mu is None or grip is None:
        return None
    across = middle_od(od)
    at = pressure(least, across, WIDE, parts)
    return push_out(mu, at, across, grip)
