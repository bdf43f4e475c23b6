"""Whether the top cut stays on the insert: its cone carried up to the insert's face (handbook 12)."""

from __future__ import annotations

from seatwright.handbook import seats
from seatwright.job.model import Head, Job
from seatwright.planning.basis.faces import below_limits, depth_face
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, said
from seatwright.planning.plan import Pocketed
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.seat.heights import along_stem

_SOURCE = "handbook 12"


def top_on_insert(
    job: Job, head: Head, plan: Pocketed, outer: Figure | None, depth: Figure | None, findings: Findings
) -> Figure | None:
    """Outer diameter of the top cut at the insert's face, as high as that may stand; a warning where it runs over the
    land that must stay outside it.

    outer : of the seat. depth : gauge depth of that edge, along the stem. None where stand and depth are not both from
    the deck, or not known.
    """
    top = plan.valve.specification.top_angle
    if outer is None or depth is None or top is None or depth_face(head, findings) != "deck":
        return None
    below = below_limits(job, head, plan)
    if below is None:
        return None
    stand = below[0]
    if head.skim is not None and head.skim.when == "still-to-come":
        # The gauge depth counts from the deck as it will be; the stand from the deck as it is.
        skim = given("skim", "mm", head.skim.amount)
        stand = computed(
            "stand_skimmed", "mm", stand.value - skim.value, f"{stand.symbol} - skim", (stand, skim), _SOURCE
        )
    stand, angle = along_stem(plan, stand), given("top_angle", "deg", top)
    value = seats.top_cut_outer(outer.value, depth.value, stand.value, angle.value)
    formula = f"{outer.symbol} + 2*max({depth.symbol} - {stand.symbol}, 0)/tan(top_angle)"
    found = computed("top_outer", "mm", value, formula, (outer, depth, stand, angle), _SOURCE)
    _check(job, plan, found, findings)
    return found


def _check(job: Job, plan: Pocketed, found: Figure, findings: Findings) -> None:
    land, insert = job.shop.practice.least_land, plan.insert
    od = None if insert is None else insert.od_least or insert.od
    if land is None or od is None:
        return
    room = seats.top_cut_room(od.value, land.value, found.value)
    if room >= -1e-9:
        return
    at = plan.valve.specification.top_angle
    # No figure of the single insert in the text: the valves of one line of the job are told in one message.
    findings.warning(
        "top-cut-off-insert",
        f"The top cut comes up to the insert's face at a diameter of {length(job, found.value)}, over the land of "
        f"{said(job, land)} that must stay outside it: the cutter would run off the insert, into the head.",
        "Take a steeper top cutter, let the insert stand lower, or take one of at least "
        f"{length(job, found.value + 2 * land.value)}.",
        plan.valve.span if at is None else at.span,
        (plan.name,),
    )
