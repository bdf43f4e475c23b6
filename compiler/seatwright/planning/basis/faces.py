"""The face that depths are counted from, what a skim does to them, and how the insert is to stand against it."""

from __future__ import annotations

from seatwright.handbook import seats
from seatwright.job.model import Head, Job, Skim
from seatwright.planning.basis.findings import Findings
from seatwright.planning.plan import Started
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_SKIM_SOURCE = "handbook 12, a skim counted along the stem"


def depth_face(head: Head, findings: Findings) -> str:
    """rim, deck or floor; left out it is the rim, with a notice."""
    if head.depth_from is not None:
        return head.depth_from.text
    findings.notice(
        "depth-from-left-out",
        "Which face depths are measured from is left out: the rim of the pocket is meant.",
        "Say `depth-from rim`, `deck` or `floor` under `head`.",
        head.span,
    )
    return "rim"


def is_integral(plan: Started) -> bool:
    """Whether this seat was cut in the casting: there is no pocket yet."""
    return plan.valve.specification.seat_integral is not None


def skim_along_stem(skimmed: Skim, plan: Started) -> Figure:
    """A skim as it counts along the stem of this valve."""
    skim = given("skim", "mm", skimmed.amount)
    if plan.valve_tilt is None:
        return skim
    value = seats.along_stem(skim.value, plan.valve_tilt.value)
    return computed("skim_along_stem", "mm", value, "skim / cos(tilt)", (skim, plan.valve_tilt), _SKIM_SOURCE)


def pocket_depth_now(head: Head, plan: Started, findings: Findings) -> Figure | None:
    """Depth of the pocket as the head stands now, from its depth face; 0 for an integral seat or `depth-from floor`.

    None where it was not measured, or where a skim was made nobody knows when (which is said).
    """
    face = depth_face(head, findings)
    if is_integral(plan):
        return assumed("pocket_depth", "mm", 0.0, "an integral seat has no pocket")
    if face == "floor":
        return assumed("pocket_depth", "mm", 0.0, "depths are counted from the old floor")
    if plan.found.pocket_depth is None:
        return None
    return depth_now(head, plan, given("pocket_depth", "mm", plan.found.pocket_depth), findings)


def depth_now(head: Head, plan: Started, found: Figure, findings: Findings) -> Figure | None:
    """A depth that was measured from the rim or the deck, as it is now: less a skim that was made since.

    None where a skim was made nobody knows when (which is said).
    """
    if head.skim is None or head.skim.when in ("before-measuring", "still-to-come"):
        return found
    if head.skim.when is None:
        skim_when_not_said(head, plan, findings)
        return None
    skim = skim_along_stem(head.skim, plan)
    return computed(
        f"{found.symbol}_now",
        "mm",
        found.value - skim.value,
        f"{found.symbol} - {skim.symbol}",
        (found, skim),
        "handbook 12, skimmed after measuring",
    )


def skim_when_not_said(head: Head, plan: Started, findings: Findings) -> None:
    """A skim without its second word: what was measured from the deck may be of before or after."""
    findings.unchecked(
        "skim-when-not-said",
        "It is not said when the deck was skimmed: depths measured from it are not used.",
        "Say `before-measuring`, `after-measuring` or `still-to-come` behind `deck-removed`.",
        head.skim.span if head.skim else head.span,
        (plan.name,),
    )


def below_limits(job: Job, head: Head, plan: Started) -> tuple[Figure, Figure] | None:
    """How far the insert's face lies below the depth face, least and most, proud negative; a skim that is still to
    come is added to both.

    None where `stand` is not given, or is a single figure and the shop has no `depth-tolerance`.
    """
    stand = plan.valve.specification.stand
    if stand is None:
        return None
    least, most = given("below_least", "mm", stand.below_least), given("below_most", "mm", stand.below_most)
    if stand.single:
        tolerance = job.shop.practice.depth_tolerance
        if tolerance is None:
            return None
        aim, either_way = given("below", "mm", stand.below_least), given("depth_tolerance", "mm", tolerance)
        least = computed(
            "below_least",
            "mm",
            aim.value - either_way.value,
            "below - depth_tolerance",
            (aim, either_way),
            "handbook 5",
        )
        most = computed(
            "below_most", "mm", aim.value + either_way.value, "below + depth_tolerance", (aim, either_way), "handbook 5"
        )
    if head.skim is None or head.skim.when != "still-to-come":
        return least, most
    skim = skim_along_stem(head.skim, plan)
    source = "handbook 12, a skim still to come"
    return (
        computed("below_least", "mm", least.value + skim.value, f"below_least + {skim.symbol}", (least, skim), source),
        computed("below_most", "mm", most.value + skim.value, f"below_most + {skim.symbol}", (most, skim), source),
    )
