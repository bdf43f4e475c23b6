"""A valve with the insert that was chosen for it: everything that follows is filled in, and what to mind is said."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.handbook.pockets import damage_stays
from seatwright.job.model import Cutter, Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, said, span_of
from seatwright.planning.found.pilots import over_bore
from seatwright.planning.plan import CleanUp, Depth, Found, Pocketed, Status, into
from seatwright.planning.plan.figure import computed, given
from seatwright.planning.serves.bores import BoreWindow, bore_at_bench
from seatwright.planning.serves.candidates import Candidate, ledge_of
from seatwright.planning.serves.depths import DepthNotGiven, NoDepth, depth_for, floor_left
from seatwright.planning.serves.keep import NOT_KNOWN, kept_depth, kept_interference, pocket_faults
from seatwright.planning.serves.makers_sizes import as_planned
from seatwright.planning.serves.ring_in_hand import Ring
from seatwright.planning.serves.to_buy import next_oversize
from seatwright.planning.serves.wants import Wants
from seatwright.planning.serves.whose_interference import FitLimits

_MEASURE = "Measure it, or leave `pocket` out."
_KEPT_HELP = {"no-limits-for-kept-pocket": "Write both under `practice`, or leave `pocket` out."}


def filled(
    job: Job,
    head: Head,
    plan: Found,
    wants: Wants,
    chosen: Candidate,
    window: BoreWindow,
    bored: Sequence[Candidate],
    findings: Findings,
) -> Pocketed:
    """A pocket that is bored for the chosen insert. bored : all inserts that would serve, for the next oversize"""
    say_insert(job, head, plan, chosen, findings)
    say_fit(head, plan, chosen.fit, findings)
    found = depth_for(job, chosen.wants, chosen.offer.height)
    assert not isinstance(found, NoDepth)  # such a one does not serve
    say_depth(job, head, plan, wants, found, findings)
    depth = None if isinstance(found, DepthNotGiven) else found
    corner = None if chosen.cutter is None else chosen.cutter.corner_radius
    bore = bore_at_bench(job, head, window, plan.name, findings)
    _say_maker(job, plan, chosen, window, findings)
    return into(
        Pocketed,
        plan,
        maker=as_planned(job, chosen.size, binds=chosen.own is not None),
        insert=chosen.offer.plan(),
        interference=chosen.fit.interference(),
        clean_up=_left(plan, bore.aim.value, window),
        bore=bore,
        depth=depth,
        floor_left=None if depth is None else floor_left(wants, depth),
        ledge=ledge_of(chosen.wants, chosen.offer, window),
        cutter=None if chosen.cutter is None else chosen.cutter.name.text,
        corner_radius=None if corner is None else given("corner_radius", "mm", corner),
        next=next_oversize(job, bored, chosen),
        pilot=over_bore(job, head, plan, bore.aim, findings),
    )


def kept_pocket(
    job: Job,
    head: Head,
    plan: Found,
    wants: Wants,
    chosen: Candidate,
    bored: Sequence[Candidate],
    findings: Findings,
) -> Pocketed:
    """A pocket that is kept as found: the insert is pressed in, nothing is bored."""
    say_insert(job, head, plan, chosen, findings)
    say_fit(head, plan, chosen.fit, findings)
    for fault in pocket_faults(job, head, plan, wants, findings):
        if fault.slug in NOT_KNOWN:
            findings.unchecked(fault.slug, fault.text, _KEPT_HELP.get(fault.slug, _MEASURE), head.span, (plan.name,))
    if chosen.untold is not None:
        findings.warning(
            "kept-pocket-untold",
            f"{chosen.untold.text} Nothing is bored or pressed on these readings.",
            "Measure the pocket again, cold and clean, with the gauge checked on its ring; write the second reading "
            "behind a slash, or under a later `measured`.",
            plan.found.pocket_a.span if plan.found.pocket_a else head.span,
            (plan.name,),
        )
    else:
        findings.notice(
            "pocket-kept",
            "The pocket is kept as found: the insert is pressed in without a cut.",
            "Look at the corner and the floor first: the chamfer must clear the corner, the floor be flat and clean.",
            head.span,
            (plan.name,),
        )
    return into(
        Pocketed,
        plan,
        status=Status.KEPT if chosen.untold is None else Status.MEASURE_AGAIN,
        maker=as_planned(job, chosen.size, binds=False),
        insert=chosen.offer.plan(),
        interference=kept_interference(plan, chosen),
        clean_up=None,
        depth=kept_depth(wants),
        floor_left=wants.floor_thickness,
        next=next_oversize(job, bored, chosen),
    )


def _say_maker(job: Job, plan: Found, chosen: Candidate, window: BoreWindow, findings: Findings) -> None:
    """That the maker's bore narrows what the insert allows, or that the bore is none of his, as the job asks."""
    if chosen.own is not None and chosen.size is not None:
        before = span_of(job, chosen.own.least.value, chosen.own.most.value)
        low = chosen.own.least if chosen.bore is None else chosen.bore.least
        high = chosen.own.most if chosen.bore is None else chosen.bore.most
        findings.notice(
            "makers-bore-binds",
            f"The maker's bore narrows {before} to {span_of(job, low.value, high.value)}.",
            "Nothing is to be done; `size any` leaves the maker's bores aside.",
            chosen.size.row.span,
            (plan.name,),
        )
    say_not_kept(job, plan, window, findings)


def say_not_kept(job: Job, plan: Found, window: BoreWindow, findings: Findings) -> None:
    """That a bore is none of the maker's, as the job asks with `size any`; a most alone is for a blank."""
    spec = plan.valve.specification
    if spec.size is None or not spec.size.any:
        return
    for row in spec.makers_sizes:
        if row.bore is None or row.bore.most is None or (row.bore.least is None and not plan.turned):
            continue
        least = 0.0 if row.bore.least is None else row.bore.least.value
        if least - 1e-9 <= window.least.value and window.most.value <= row.bore.most.value + 1e-9:
            return
    findings.warning(
        "makers-bore-not-kept",
        f"`size any`: the bore {span_of(job, window.least.value, window.most.value)} is none of the maker's.",
        "Ask whether this head bears it; its maker has not said so.",
        spec.size.span,
        (plan.name,),
    )


def say_fit(head: Head, plan: Found, fit: FitLimits, findings: Findings) -> None:
    """A built-in span of interference was used."""
    if fit.built_in:
        findings.notice(
            "interference-built-in",
            "Neither the job nor the shop gives an interference: the built-in span is used, which is not the engine "
            f"maker's figure. {fit.source[:1].upper()}{fit.source[1:]}.",
            "Take the maker's figure, and write it as `interference` under `valves` with its source.",
            head.span,
            (plan.name,),
        )


def say_depth(
    job: Job, head: Head, plan: Found, wants: Wants, depth: Depth | DepthNotGiven | None, findings: Findings
) -> None:
    """Why there is no depth; damage that lies deeper than the pocket will."""
    if isinstance(depth, DepthNotGiven):
        _no_depth(head, plan, depth, findings)
        return
    reaches, damage = wants.damage_depth, plan.found.damage_depth
    if depth is None or reaches is None or damage is None:
        return
    if damage_stays(reaches.value, depth.most.value):
        findings.warning(
            "damage-below-floor",
            f"The damage in {plan.name} reaches {length(job, reaches.value)} deep, below the new floor at "
            f"{length(job, depth.most.value)}: some of it stays.",
            "Look whether the insert still stands on sound metal all round.",
            damage.span,
            (plan.name,),
        )


def say_insert(job: Job, head: Head, plan: Found, chosen: Candidate, findings: Findings) -> None:
    """What to mind about the insert: not measured, another one was measured, no chamfer, outside the maker's limits."""
    offer, wish = chosen.offer, plan.valve.specification.insert
    listed_insert = None if offer.stock is None else job.shop.inserts[offer.stock]
    where = listed_insert.name.span if listed_insert else wish.span if wish else head.span
    if offer.seat not in ("any", plan.kind):
        findings.warning(
            "insert-for-another-seat",
            f"{offer.name} is made for {offer.seat} seats and named for {plan.name}, an {plan.kind}.",
            "Look whether its alloy and its hole suit; else name one for this seat.",
            wish.span if wish else where,
            (plan.name,),
        )
    if not offer.limits_known:
        findings.warning(
            "insert-not-measured",
            f"The list gives {offer.name} no od limits: {said(job, offer.od)} is taken as it is.",
            "Measure the insert in hand and write its `insert-od` under `measured`.",
            where,
            (plan.name,),
        )
    if offer.chamfer is None:
        findings.unchecked(
            "chamfer-not-given",
            f"The chamfer of {offer.name} is not given: whether it clears the cutter's corner is not checked, and it "
            "is not counted in the ledge.",
            "Measure the chamfer and write it in the shop file.",
            where,
            (plan.name,),
        )
    elif listed_insert is not None and listed_insert.chamfer_angle is None:
        findings.notice(
            "chamfer-angle-left-out",
            f"The chamfer angle of {offer.name} is left out: 45° from the od is used.",
            "Write `chamfer-angle` in the shop file.",
            where,
            (plan.name,),
        )
    say_retired(plan, chosen.cutter, findings)
    if chosen.cutter is not None and chosen.cutter.corner_radius is None:
        findings.unchecked(
            "corner-not-given",
            f"The corner that the cutter {chosen.cutter.name.text} leaves is not given: whether the insert's chamfer "
            "clears it is not checked.",
            "Measure the tip's radius and write `corner-radius` in the shop file.",
            chosen.cutter.name.span,
            (plan.name,),
        )
    if chosen.cutter is not None and chosen.cutter.range is None:
        findings.unchecked(
            "cutter-range-not-given",
            f"The range of the cutter {chosen.cutter.name.text} is not given: whether it reaches is not checked.",
            "Write `range` in the shop file.",
            chosen.cutter.name.span,
            (plan.name,),
        )


def say_retired(plan: Found, cutter: Cutter | None, findings: Findings) -> None:
    """A cutter that is no longer used was named by hand for a bore that is still to be cut."""
    if cutter is None or cutter.retired is None or plan.valve.left_shelf is not None:
        return
    by_hand = plan.valve.specification.cutter
    findings.warning(
        "cutter-retired",
        f"{cutter.name.text} was retired on {cutter.retired.text}.",
        "Name another cutter, or leave `cutter` out to have one chosen.",
        by_hand.span if by_hand is not None else cutter.retired.span,
        (plan.name,),
    )


def say_ring(job: Job, plan: Found, ring: Ring | None, chosen: Candidate | None, findings: Findings) -> None:
    """What there is to say of the ring that was measured: nobody can tell which it is, or it is not the one chosen."""
    measured = plan.found.insert_od
    if ring is None:
        return
    if ring.doubt is not None:
        doubt = ring.doubt
        findings.hold(
            plan.name,
            doubt.slug,
            doubt.text,
            doubt.help,
            measured.span if measured else None,
            doubt.figure,
            doubt.limit,
        )
    elif measured is not None and chosen is not None and not chosen.offer.measured:
        findings.warning(
            "another-insert-measured",
            f"For {plan.name} an insert of {length(job, measured.value)} was measured, and the choice fell on "
            f"{chosen.offer.name}, {said(job, chosen.offer.od)}: its list figures are used.",
            f"Measure {chosen.offer.name} before its pocket is bored.",
            measured.span,
            (plan.name,),
        )


def _no_depth(head: Head, plan: Found, depth: DepthNotGiven, findings: Findings) -> None:
    stand, printed = plan.valve.specification.stand, plan.valve.specification.depth
    alone = "`stand`"
    if stand is None and printed is not None and depth.slug == "stand-not-given":
        alone = "the maker's `depth`"
    if (
        alone != "`stand`"
        or depth.slug == "depth-tolerance-not-given"
        or (stand is not None and stand.single and depth.slug == "stand-not-given")
    ):
        findings.hold(
            plan.name,
            "depth-tolerance-not-given",
            f"There is no tolerance for the depth of {plan.name}: {alone} is a single figure, and the shop has no "
            "`depth-tolerance`.",
            "Give it two limits, or write `depth-tolerance` under `practice` in the shop file.",
            stand.span if stand is not None else printed.span if printed is not None else head.span,
        )
        return
    texts = {
        "stand-not-given": (
            "`stand` is not given: how deep the pocket must be is not computed.",
            "Say how the insert is to stand, `stand flush` or `below 0.00 to 0.10`, or give the maker's `depth`.",
        ),
        "height-not-given": (
            "The height of the insert is not given: how deep the pocket must be is not computed.",
            "Measure `insert-height`, or write `height` in the shop file.",
        ),
    }
    findings.unchecked(depth.slug, *texts[depth.slug], head.span, (plan.name,))


def _left(plan: Found, aim: float, window: BoreWindow) -> CleanUp | None:
    if plan.clean_up is None:
        return None
    needed = plan.clean_up.needed
    left = computed("clean_up_left", "mm", aim - needed.value, "bore - D_clean", (window.aim, needed), "handbook 3")
    return CleanUp(needed, left)
