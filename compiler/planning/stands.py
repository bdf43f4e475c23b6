"""How the insert is to stand against its depth face once it is home, below counted positive (handbook 5)."""

from __future__ import annotations

from dataclasses import replace

from seatwright.job.model import Head, Job
from seatwright.planning.faces import below_limits
from seatwright.planning.findings import Findings
from seatwright.planning.plan import HeightLimits, ValvePlan


def stands(job: Job, head: Head, plans: tuple[ValvePlan, ...], findings: Findings) -> tuple[ValvePlan, ...]:
    """The valves with the limits that `stand` is measured against after pressing; what is missing was said with the
    depths."""
    done = []
    for plan in plans:
        below = below_limits(job, head, plan)
        limits = None if below is None else HeightLimits(least=below[0], most=below[1])
        done.append(replace(plan, stand=limits))
    return tuple(done)
