"""How the insert is to stand against its depth face once it is home, below counted positive (handbook 5).

As the job says it, `stand`; else what the pocket's depth leaves above an insert of this height.
"""

from __future__ import annotations

from seatwright.job.model import Head, Job
from seatwright.planning.basis.faces import below_limits
from seatwright.planning.basis.findings import Findings
from seatwright.planning.plan import HeightLimits, Pocketed, Seated, Stood, into
from seatwright.planning.plan.figure import Figure, computed


def stands(job: Job, head: Head, plans: tuple[Seated, ...], findings: Findings) -> tuple[Stood, ...]:
    """The valves with the limits that `stand` is measured against after pressing; what is missing was said with the
    depths."""
    return tuple(into(Stood, plan, stand=_limits(job, head, plan)) for plan in plans)


def _limits(job: Job, head: Head, plan: Pocketed) -> HeightLimits | None:
    if not plan.gets_insert:
        return None  # nobody sets an insert that stays
    below = below_limits(job, head, plan)
    if below is not None:
        return HeightLimits(least=below[0], most=below[1])
    height = plan.insert.height if plan.insert is not None else None
    if plan.depth is None or height is None or plan.depth.from_ == "floor":
        return None
    return HeightLimits(least=_left("least", plan.depth.least, height), most=_left("most", plan.depth.most, height))


def _left(which: str, depth: Figure, height: Figure) -> Figure:
    inputs = (depth.called(f"depth_{which}"), height.called("height"))
    value = depth.value - height.value
    return computed(f"stand_{which}", "mm", value, f"depth_{which} - height", inputs, "handbook 5")
