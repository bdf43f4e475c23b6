"""A valve whose insert is turned to the bore as cut: bore, depth and blank filled in (handbook 5)."""

from __future__ import annotations

from seatwright.job.model import Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, said
from seatwright.planning.found.pilots import over_bore
from seatwright.planning.inserts.chosen import say_depth, say_fit, say_not_kept, say_retired
from seatwright.planning.inserts.passed_over import hold_beyond_maker
from seatwright.planning.plan import CleanUp, Depth, Found, InsertPlan, Pocketed, into
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.bores import BoreWindow, bore_at_bench
from seatwright.planning.serves.candidates import ledge_of
from seatwright.planning.serves.cutter_choice import cutter_for_bore
from seatwright.planning.serves.depths import NoDepth, depth_for, floor_left
from seatwright.planning.serves.makers_sizes import as_planned, size_to_come
from seatwright.planning.serves.reasons import Reason
from seatwright.planning.serves.turned import turned_height, turned_insert
from seatwright.planning.serves.wants import Wants
from seatwright.planning.serves.whose_interference import FitLimits


def filled_turned(
    job: Job,
    head: Head,
    plan: Found,
    wants: Wants,
    settled: tuple[BoreWindow, FitLimits] | None,
    findings: Findings,
) -> Pocketed:
    """The valve with its bore and blank. settled : None where no fit or no D_clean is known, which is said"""
    if (beyond := wants.beyond_makers_bore) is not None:
        hold_beyond_maker(job, plan, wants, *beyond, findings)
        return into(Pocketed, plan)
    if settled is None:
        if plan.clean_up is not None:
            findings.unchecked(
                "turned-not-computed",
                "The interference is not known: the bore for a turned insert is not computed.",
                "Give `interference` with its source.",
                head.span,
                (plan.name,),
            )
        return into(Pocketed, plan)
    window, fit = settled
    say_fit(head, plan, fit, findings)
    say_not_kept(job, plan, window, findings)
    wants = wants.of_depth(size_to_come(wants.sizes, window.aim))
    height = turned_height(plan, wants)
    depth = depth_for(job, wants, height)
    found = depth if isinstance(depth, Depth) else None
    if isinstance(depth, NoDepth):
        findings.hold(
            plan.name,
            depth.slug,
            f"No depth suits {plan.name}: the floor must clean up, the insert must stand as wanted, and enough metal "
            "must be left under it.",
            "Look at `stand`, `floor-clean-up` and `least-floor`.",
            head.span,
            depth.figure,
            depth.limit,
        )
    else:
        say_depth(job, head, plan, wants, depth, findings)
    cutter = cutter_for_bore(job, plan, wants, window)
    if isinstance(cutter, Reason):
        findings.hold(
            plan.name, cutter.slug, cutter.text, "Take another cutter.", head.span, cutter.figure, cutter.limit
        )
    tool = None if cutter is None or isinstance(cutter, Reason) else cutter
    say_retired(plan, tool, findings)
    insert = turned_insert(plan, window, fit, height)
    ledge = ledge_of(wants, None, window)
    _hold_unfit(job, plan, wants, insert, ledge, findings)
    bore = bore_at_bench(job, head, window, plan.name, findings)
    needed = None if plan.clean_up is None else plan.clean_up.needed
    left = None
    if needed is not None:
        left = computed(
            "clean_up_left", "mm", bore.aim.value - needed.value, "bore - D_clean", (bore.aim, needed), "handbook 3"
        )
    return into(
        Pocketed,
        plan,
        maker=as_planned(job, size_to_come(wants.sizes, bore.aim), binds=False),
        insert=insert,
        ledge=ledge,
        interference=fit.interference(),
        clean_up=None if needed is None else CleanUp(needed, left),
        bore=bore,
        depth=found,
        floor_left=None if found is None else floor_left(wants, found),
        cutter=None if tool is None else tool.name.text,
        corner_radius=None
        if tool is None or tool.corner_radius is None
        else given("corner_radius", "mm", tool.corner_radius),
        pilot=over_bore(job, head, plan, bore.aim, findings),
    )


def _hold_unfit(
    job: Job, plan: Found, wants: Wants, insert: InsertPlan, ledge: Figure | None, findings: Findings
) -> None:
    """A blank turned to the smallest bore that cleans up may still be too small for the seat, or have no ledge."""
    wish = plan.valve.specification.insert
    where = None if wish is None else wish.span
    if wants.cover is not None and insert.od_least is not None and insert.od_least.value < wants.cover.value - 1e-9:
        findings.hold(
            plan.name,
            "does-not-cover-seat",
            f"An insert turned to this bore would be {length(job, insert.od_least.value)}; the seat with its land "
            f"needs {length(job, wants.cover.value)}.",
            "Choose a larger insert from the stock, or look at `setback` and `least-land`.",
            where,
            insert.od_least,
            wants.cover,
        )
    if ledge is not None and wants.least_ledge is not None and ledge.value < wants.least_ledge.value - 1e-9:
        findings.hold(
            plan.name,
            "ledge-narrow",
            f"An insert turned to this bore would stand on {length(job, ledge.value)}, before any chamfer; "
            f"{said(job, wants.least_ledge)} is the least.",
            "Choose a larger insert from the stock.",
            where,
            ledge,
            wants.least_ledge,
        )
