"""The card of guides and pilots: guides first, replaced and sized before any pocket is measured for runout."""

from __future__ import annotations

from seatwright.cards.card import Content, Table
from seatwright.cards.figures import bench, shown, typed
from seatwright.cards.words import NO_INSERT, NONE, NOT_BORED, Steps, blank, bold, fitted, held, valves, valves_of
from seatwright.job.model import Head, Job
from seatwright.planning.plan import Plan, Status, ValvePlan
from seatwright.planning.plan.figure import Figure

# With the head deck up the port end is on top: a station is called by the end of the guide, never top or bottom.
STATIONS = ("Spring end", "Middle", "Port end")
_VERDICT = {"fit": "fit", "worn": "WORN: replace", "tight": "TIGHT: ream", "not-checked": "not checked"}


def guided(plan: Plan, head: Head) -> list[ValvePlan]:
    """The valves of a head whose guide still has to lead something: a pilot, a cutter, a seat."""
    return [valve for valve in valves_of(plan, head) if valve.status not in (*NO_INSERT, Status.FINISHED)]


def guides(plan: Plan, head: Head, narrow: bool) -> Content:
    """Readings, clearance and verdict of each guide; the pilot it gets and what that can lean."""
    of_head = guided(plan, head)
    worn = [valve.name for valve in of_head if valve.guide.verdict == "worn"]
    tight = [valve.name for valve in of_head if valve.guide.verdict == "tight"]
    unknown = [valve.name for valve in of_head if valve.guide.verdict == "not-checked"]
    steps = Steps(plan, ())
    step = steps.step
    if worn:
        step(
            f"Replace or sleeve the guides of {valves(worn)} and size them, before any pocket of this head is "
            "measured for runout.",
            "The pilot stands in the guide: a bore from a worn one follows the wear. Then measure and build again.",
        )
    if tight:
        step(f"Ream the guides of {valves(tight)} to size, then measure them again and build again.")
    if unknown:
        step(
            f"The guides of {valves(unknown)} are not judged: measure them, or give the limit.",
            initial=False,
        )
    step(
        "Read the guides over once against the table.",
        "Clearance is the largest station less the stem. Where a guide was changed, the figures here are old.",
        tables=fitted(_readings(plan.job, of_head), narrow),
    )
    # A worn guide gets its pilot once it is replaced; a pocket that is kept gets none.
    led = [valve for valve in of_head if valve.guide.verdict != "worn" and valve.status not in NOT_BORED]
    if any(valve.pilot is not None and valve.pilot.name for valve in led):
        step(
            "Brush every guide clean and dry, then try its pilot.",
            "A dead pilot drops in by its own weight and does not rock; an expanding or tapered one grips when it is "
            "set. One that has to be forced, or that rocks, is the wrong one: stop, and measure that guide again.",
            tables=fitted(_pilots(plan.job, led), narrow),
        )
    elif any(valve.pilot is not None for valve in led):
        step(
            "The spindle is the guide on this machine: centre it over every guide before that pocket is bored.",
            "What the bore can stand off the guide is in the table.",
            tables=fitted(_pilots(plan.job, led), narrow),
        )
    return Content(
        holds=held(valve for valve in of_head if valve.guide.verdict == "worn"),
        steps=tuple(steps.written),
        said=tuple(sorted({hold.slug for valve in of_head if valve.guide.verdict == "worn" for hold in valve.holds})),
    )


def _readings(job: Job, of_head: list[ValvePlan]) -> Table:
    unit = bench(job).unit
    head = ("Valve", *STATIONS, "Stem", f"Clearance {unit}", f"Allowed {unit}", "Verdict")
    rows = []
    for valve in of_head:
        found, stem = valve.found, valve.found.stem or valve.valve.specification.stem
        rows.append(
            (
                valve.name,
                *(typed(cell) or NONE for cell in (found.guide_top, found.guide_middle, found.guide_bottom, stem)),
                bold(_length(job, valve.guide.clearance)),
                allowed(job, valve),
                bold(_VERDICT[valve.guide.verdict]),
            )
        )
    return Table(head, tuple(rows), "Guides as measured")


def allowed(job: Job, valve: ValvePlan) -> str:
    """What clearance a guide may have: `0.020 to 0.110`, `most 0.110`."""
    guide = valve.guide
    most = guide.wear_limit or guide.most
    if guide.least is not None and most is not None:
        return f"{_length(job, guide.least)} to {_length(job, most)}"
    if most is not None:
        return f"most {_length(job, most)}"
    return f"least {_length(job, guide.least)}" if guide.least is not None else NONE


def _pilots(job: Job, of_head: list[ValvePlan]) -> Table:
    unit = bench(job).unit
    head = ("Valve", "Pilot", f"Size {unit}", "Kind", f"Bore to guide, most, {unit} tir", f"Limit {unit} tir", "Tried")
    rows = []
    for valve in of_head:
        pilot = valve.pilot
        if pilot is None:
            rows.append((valve.name, NONE, NONE, NONE, NONE, NONE, NONE))
            continue
        rows.append(
            (
                valve.name,
                bold(pilot.name or "spindle"),
                _length(job, pilot.diameter),
                pilot.kind,
                _length(job, pilot.runout),
                _length(job, pilot.runout_limit),
                blank(4),
            )
        )
    return Table(head, tuple(rows), "The pilot of each guide")


def _length(job: Job, figure: Figure | None) -> str:
    return shown(figure, bench(job)).text if figure is not None else NONE
