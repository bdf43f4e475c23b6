"""Inserts that stay in a head that is heated for others: heat loosens them too (handbook 10)."""

from __future__ import annotations

from seatwright.handbook import fit_stress
from seatwright.job.model import Given, Head, Job, Material, Reading, Valve
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.temperatures import expansion_lines
from seatwright.planning.basis.wording import degrees, listed, name_key
from seatwright.planning.metal.peaks import loss
from seatwright.planning.plan import Judged
from seatwright.planning.plan.figure import Figure


def inserts_that_stay(job: Job, head: Head, plans: tuple[Judged, ...], heat: Figure, findings: Findings) -> None:
    """Warn of the inserts that are in the head while it is heated; where their fit is known, when it is gone."""
    stay = [plan.valve for plan in plans if not plan.gets_insert] + list(head.neighbours)
    stay = [valve for valve in stay if valve.specification.seat_integral is None]
    if not stay:
        return
    gone = {valve.name: _gone_at(job, head, valve) for valve in stay}
    loose = [f"{name} from about {degrees(job, round(t / 5) * 5.0)}" for name, t in gone.items() if t is not None]
    known = f" Their least fit would be gone: {listed(loose)}, all of the head warm." if loose else ""
    findings.warning(
        "heat-loosens-inserts",
        f"Heating the head to {degrees(job, heat.value)} loosens the inserts that stay in it.{known}",
        "Heat it with the deck up, do not knock it, and check those inserts with a feeler when it is cold again.",
        head.span,
        tuple(gone),
    )


def _gone_at(job: Job, head: Head, valve: Valve) -> float | None:
    """When head and insert are both this warm the least fit is gone [°C]; None where fit, od or alloy is not known."""
    spec, od = valve.specification, _diameter(valve)
    least = spec.interference.least if spec.interference else None
    alloy = _alloy(job, valve)
    if least is None or od is None or alloy is None or head.material is None:
        return None
    lost = loss(job)
    holds = least.value if lost is None else max(least.value - lost.value, 0.0)
    return fit_stress.gone_temperature(holds, od, expansion_lines(alloy), expansion_lines(head.material))


def _diameter(valve: Valve) -> float | None:
    measured: Reading | None = valve.measured.old_insert_od
    if measured is not None:
        return measured.value
    standard = valve.specification.standard_size
    limits = None if standard is None else standard.insert_od
    aim = limits.aim if limits else None
    nominal: Given | None = valve.specification.oversize_of
    return aim if aim is not None else nominal.value if nominal else None


def _alloy(job: Job, valve: Valve) -> Material | None:
    names = valve.specification.alloys
    if len(names) != 1:
        return None
    return next((one for one in job.shop.alloys if name_key(one.name) == name_key(names[0].text)), None)
