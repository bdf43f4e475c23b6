"""What a bore that was cut is judged by, and the words for it."""

from __future__ import annotations

from seatwright.job.model import Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import BoreLimits, fine
from seatwright.planning.basis.wording import length, span_of
from seatwright.planning.certainty.uncertainty import guard_of
from seatwright.planning.plan import CutPlan, Pocketed
from seatwright.planning.plan.figure import Figure, computed

_SOURCE = "handbook 11, 13"


def limits_of(job: Job, plan: Pocketed, u: Figure | None, findings: Findings) -> BoreLimits | None:
    """What a bore is judged by: its planned limits; a blank not yet turned follows any bore that cleans up; once it
    is turned and measured, or where no bore was planned, its fit counts."""
    guard = guard_of(job, findings)
    wanted, od = plan.interference, plan.at20.insert_od
    if (plan.turned or plan.bore is None) and od is not None and wanted is not None:
        least = computed("bore_least", "mm", od.value - wanted.most.value, "od - I_most",
                         (od.called("od"), wanted.most), _SOURCE)  # fmt: skip
        most = computed("bore_most", "mm", od.value - wanted.least.value, "od - I_least",
                        (od.called("od"), wanted.least), _SOURCE)  # fmt: skip
        return BoreLimits(least, most, guard, u)
    if plan.bore is None:
        return None
    return BoreLimits(plan.bore.least, None if plan.turned else plan.bore.most, guard, u)


def fit_made(job: Job, plan: Pocketed, cut: CutPlan | None) -> str:
    """The interference that a bore gives, beside the one wanted, to follow its diameter; "" where not known."""
    made, wanted = cut.interference if cut else None, plan.interference
    if made is None or wanted is None:
        return ""
    limits = span_of(job, wanted.least.value, wanted.most.value)
    return f", which gives an interference of {fine(job, made.value)} (wanted {limits})"


def between(job: Job, limits: BoreLimits) -> str:
    """`44.00 to 44.02 mm`, or `at least 44.00 mm`."""
    if limits.most is None:
        return f"at least {length(job, limits.least.value)}"
    return span_of(job, limits.least.value, limits.most.value)
