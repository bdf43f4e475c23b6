"""A valve that leans is not bored to a depth from the deck, which is higher on one side of its bore (handbook 6)."""

from __future__ import annotations

import math

from seatwright.job.model import Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import still_to_bore
from seatwright.planning.basis.wording import length
from seatwright.planning.plan import Closed
from seatwright.planning.plan.figure import Figure, assumed, computed

STEEPEST = 1.0
"""Lean of a valve to the deck up to which a depth may be measured from it [°]: 0.7 mm across a bore of 40 mm."""


def leaning(job: Job, head: Head, plan: Closed, findings: Findings) -> None:
    """Hold the bore of a valve that leans by more than a degree where depths are measured from the deck."""
    tilt, bore = plan.valve_tilt, plan.bore
    if head.depth_from is None or head.depth_from.text != "deck" or tilt is None or bore is None:
        return
    if abs(tilt.value) <= STEEPEST or not still_to_bore(plan):
        return
    across = bore.aim.value * math.tan(math.radians(abs(tilt.value)))
    findings.hold(
        plan.name,
        "deck-leans",
        f"The valve leans {tilt.value:g}° to the deck, and depths are measured from the deck: across this bore the "
        f"deck is {length(job, across, 1 if job.units == 'mm' else 2)} higher on one side than on the other.",
        "Measure depths from the pocket's own rim or from its old floor, and say `depth-from rim` or `depth-from "
        "floor` under `head`.",
        head.depth_from.span,
        _across(bore.aim, tilt, across),
        assumed("tilt_most", "deg", STEEPEST, "common practice, no source"),
    )


def _across(aim: Figure, tilt: Figure, value: float) -> Figure:
    return computed("across", "mm", value, "D * tan(tilt)", (aim.called("D"), tilt.called("tilt")), "geometry")
