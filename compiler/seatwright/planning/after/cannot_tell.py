"""A bore that lies nearer to a limit than it is known: what its machinist is told (handbook 11)."""

from __future__ import annotations

from seatwright.job.model import Job
from seatwright.planning.after.cut_limits import between, fit_made
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import BoreLimits, fine
from seatwright.planning.plan import Judged
from seatwright.planning.plan.figure import Figure


def say_cannot_tell(job: Job, plan: Judged, bore: Figure, limits: BoreLimits, findings: Findings) -> None:
    """To measure again; the insert, where no bore could be accepted with what is known of it; where one is in, what is
    left to do."""
    findings.warning(
        "bore-cannot-be-told",
        f"The bore is {fine(job, bore.value)} at 20 °C{fit_made(job, plan, plan.cut)}; its limits are "
        f"{between(job, limits)}, and nearer than {fine(job, limits.drawn)} to a limit it cannot be told on "
        "which side it lies.",
        _help(plan, limits),
        plan.valve.span,
        (plan.name,),
    )


def _help(plan: Judged, limits: BoreLimits) -> str:
    if plan.valve.finished is not None:
        return (
            "Its row under `finished` says that an insert is in it, so it can be measured no more: put right what was "
            "mistyped, under a later `cut`; else the insert has to come out."
        )
    if limits.none_accepted:
        return (
            "No bore could be accepted by what is known of insert and gauge: measure the insert in hand and write its "
            "`insert-od` under `cut`. Take no metal off on this reading."
        )
    return (
        "Measure again, cold and clean, with the gauge checked on its ring, and write the reading behind a slash, or "
        "under a later `cut`: that settles it. Take no metal off on this reading."
    )
