"""What the new bore must clean up, or cover where the seat was cut in the casting (handbook 3)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, TypeAlias

from seatwright.handbook import pockets, seats
from seatwright.job.model import Given, Head, Job, Limits, PocketSize, Specification
from seatwright.planning.basis.bore_gauge import bore_at20
from seatwright.planning.basis.faces import is_integral
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, name_key, said
from seatwright.planning.found.brought_to_20 import pocket_readings
from seatwright.planning.plan import CleanUp, Found, Piloted, Started, into
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.text import Span

EARLIER_OVERSIZE = 0.10
"""How much a pocket may stand over its maker's size before an earlier oversize is in it [mm]; common practice."""

EARLIER_OVERSIZE_INCH = 0.1016
"""The same in a job in inches, .004 in [mm]; common practice."""

AT_A_SIZE = 0.03
"""How near a found pocket lies to the bore of one of the maker's sizes that it was bored to [mm]; common practice."""

AT_A_SIZE_INCH = 0.0254
"""The same in a job in inches, .001 in [mm]; common practice."""

ANOTHER_SIZE = 0.25
"""An insert that is over a bore by more than this [mm] is of another size than the one it was cut for: no fit is as
wide, and oversizes step by as much again; common practice."""

_SOURCE = "handbook 3"


def clean_up(job: Job, head: Head, plans: tuple[Piloted, ...], findings: Findings) -> tuple[Found, ...]:
    """The smallest bore that leaves fresh metal all round, for each valve that is to be bored."""
    done = []
    for plan in plans:
        if not plan.gets_insert:
            done.append(into(Found, plan))
            continue
        size = _earlier_oversize(job, plan, findings)
        # What stands on a guide that is still to be measured is measured after it: nothing of it is missing yet.
        quiet = Findings() if plan.waits_for_guide else findings
        needed = _covers_seat(head, plan, quiet) if is_integral(plan) else _cleans(job, head, plan, quiet)
        done.append(into(Found, plan, clean_up=None if needed is None else CleanUp(needed), found_size=size))
    return tuple(done)


def seat_outer(plan: Started) -> Figure | None:
    """Outer diameter of the seat's contact: head-diameter - 2*setback; None where one is not given."""
    spec, found = plan.valve.specification, plan.found
    if spec.setback is None:
        return None
    if found.head_diameter is not None:
        head_diameter = given("head_diameter", "mm", found.head_diameter)
    elif spec.head_diameter is not None:
        head_diameter = given("head_diameter", "mm", spec.head_diameter)
    else:
        return None
    setback = given("setback", "mm", spec.setback)
    value = seats.contact_outer(head_diameter.value, setback.value)
    return computed("seat_outer", "mm", value, "head_diameter - 2*setback", (head_diameter, setback), "handbook 12")


def _cleans(job: Job, head: Head, plan: Piloted, findings: Findings) -> Figure | None:
    readings = pocket_readings(job, head, plan.valve, findings, largest=True)
    if not readings:
        _nothing_to_bore_by(
            plan,
            "pocket-not-measured",
            "The pocket is not measured",
            "With the old insert out, measure `pocket-a` and `pocket-b`; or say `seat integral` if none was there.",
            head.span,
            findings,
        )
        return None
    needed, stock = _needed(job, head, plan, readings, plan.at20.damage, findings)
    bored = _bored_to_another_size(job, head, plan)
    return needed if bored is None else _cleans_cut_too(plan, needed, bored, stock)


def _bored_to_another_size(job: Job, head: Head, plan: Piloted) -> Figure | None:
    """The largest reading of a bore that was cut for a smaller insert than the one named now; None for one that is at
    its own size, or is opened to it: that needs no stock."""
    wish, cut = plan.valve.specification.insert, plan.valve.cut
    if wish is None or wish.kind != "stock" or cut is None:
        return None
    listed = next((one for one in job.shop.inserts if name_key(one.name.text) == name_key(wish.name or "")), None)
    od = plan.at20.insert_od.value if plan.at20.insert_od else listed.od.value if listed and listed.od else None
    cells = (
        ("bore_a", cut.bore_a),
        ("bore_b", cut.bore_b),
        ("bore_low_a", cut.bore_low_a),
        ("bore_low_b", cut.bore_low_b),
    )
    figures = [
        bore_at20(job, head, cell, cell.at, f"cut_{symbol}", cell.largest, Findings())
        for symbol, cell in cells
        if cell is not None
    ]
    if od is None or not figures:
        return None
    largest = max(figure.value for figure in figures)
    if od - largest <= ANOTHER_SIZE:
        return None
    names = ", ".join(figure.symbol for figure in figures)
    return computed("cut_largest", "mm", largest, f"max({names})", figures, _SOURCE)


def _cleans_cut_too(plan: Piloted, needed: Figure, bored: Figure, stock: Figure | None) -> Figure:
    """D_clean of a pocket that was bored before: of the pocket as found, and of that bore, whichever asks for more."""
    lean = None if plan.pilot is None else plan.pilot.offset
    over = _clean_up_figure((bored,), None, None, lean, stock).called("D_clean_cut")
    found = needed.called("D_clean_found")
    value = max(found.value, over.value)
    return computed("D_clean", "mm", value, "max(D_clean_found, D_clean_cut)", (found, over), _SOURCE)


_NotKnown: TypeAlias = Literal["pocket-not-measured", "seat-outer-not-known"]


def _nothing_to_bore_by(
    plan: Piloted, slug: _NotKnown, what: str, help: str, where: Span | None, findings: Findings
) -> None:
    """What must be cleaned up, or covered, is not known: nothing to choose an insert or a bore by; one that is named
    is bored for at its owner's risk."""
    wish = plan.valve.specification.insert
    if wish is not None and wish.kind == "stock":
        text = f"{what}: whether the bore for {wish.name} is large enough is not checked."
        findings.unchecked_risk(slug, text, help, where, (plan.name,))
        return
    nothing = "an insert" if wish is not None and wish.kind == "choose" else "a bore"
    findings.hold(plan.name, slug, f"{what}: there is nothing to choose {nothing} by.", help, where)


def _needed(
    job: Job, head: Head, plan: Piloted, readings: Sequence[Figure], damage: Figure | None, findings: Findings
) -> tuple[Figure, Figure | None]:
    """D_clean of the pocket as found, and the stock in it."""
    offset = None if plan.found.pocket_offset is None else given("offset", "mm", plan.found.pocket_offset)
    if offset is None:
        findings.unchecked(
            "pocket-runout-not-measured",
            "`pocket-tir` is not measured: how far the old pocket stands off the guide is not counted.",
            "Sweep the pocket with an indicator from the guide, after the guide is done.",
            head.span,
            (plan.name,),
        )
    stock = None if job.shop.practice.clean_up is None else given("clean_up", "mm", job.shop.practice.clean_up)
    if stock is None:
        findings.unchecked(
            "clean-up-not-given",
            "The shop has no `clean-up`: the bore is only asked to reach the old pocket's wall.",
            "Write the least stock on diameter under `practice` in the shop file.",
            head.span,
            (plan.name,),
        )
    return _clean_up_figure(readings, damage, offset, _lean(head, plan, findings), stock), stock


def _covers_seat(head: Head, plan: Piloted, findings: Findings) -> Figure | None:
    """An integral seat is covered, not cleaned up: no stock is asked for beyond the lean of the pilot."""
    outer = seat_outer(plan)
    if outer is None:
        _nothing_to_bore_by(
            plan,
            "seat-outer-not-known",
            "The seat is cut in the casting, and `head-diameter` or `setback` is not given",
            "Give both under `valves`: the bore must cover the old seat.",
            plan.valve.specification.seat_integral,
            findings,
        )
        return None
    offset = None if plan.found.pocket_offset is None else given("offset", "mm", plan.found.pocket_offset)
    return _clean_up_figure((outer,), plan.at20.damage, offset, _lean(head, plan, findings), None)


def _lean(head: Head, plan: Piloted, findings: Findings) -> Figure | None:
    if plan.pilot is not None and plan.pilot.offset is not None:
        return plan.pilot.offset
    findings.unchecked(
        "lean-not-counted",
        "How far the bore can stand off the guide is not known: it is counted neither in the clean-up nor in the "
        "bridges.",
        "Give the guide's readings, `guide-length`, `guide-to-floor` and the shop's pilots.",
        head.span,
        (plan.name,),
    )
    return None


def _clean_up_figure(
    readings: Sequence[Figure], damage: Figure | None, offset: Figure | None, lean: Figure | None, stock: Figure | None
) -> Figure:
    widest = (*readings, *((damage,) if damage is not None else ()))
    value = pockets.clean_up_diameter(
        [figure.value for figure in widest],
        None,
        0.0 if offset is None else offset.value,
        0.0 if lean is None else lean.value,
        0.0 if stock is None else stock.value,
    )
    names = ", ".join(figure.symbol for figure in widest)
    sides = [figure for figure in (offset, lean) if figure is not None]
    formula = f"max({names})" if len(widest) > 1 else names
    if sides:
        formula += f" + 2*({' + '.join(figure.symbol for figure in sides)})"
    if stock is not None:
        formula += f" + {stock.symbol}"
    inputs = (*widest, *sides, *((stock,) if stock is not None else ()))
    return computed("D_clean", "mm", value, formula, inputs, _SOURCE)


def _earlier_oversize(job: Job, plan: Piloted, findings: Findings) -> str | None:
    """What the pocket was bored to before, said where it can be told; the maker's name of that size, else None."""
    pocket = plan.at20.pocket
    if pocket is None:
        return None
    help = "Look what the bridges and the floor still bear before it grows again."
    spec, inch = plan.valve.specification, job.units == "inch"
    found = _of_another_size(spec, pocket.value, AT_A_SIZE_INCH if inch else AT_A_SIZE)
    if found is not None and found.name is not None:
        text = (
            f"The pocket of {plan.name} is {length(job, pocket.value)}, the maker's {found.name.text}: an earlier "
            "oversize is in there."
        )
        findings.notice("earlier-oversize", text, help, found.name.span, (plan.name,))
        return found.name.text
    made = _as_made(spec)
    if made is None:
        return None
    over = pocket.value - made.value
    if over > (EARLIER_OVERSIZE_INCH if inch else EARLIER_OVERSIZE) + 1e-9:
        findings.notice(
            "earlier-oversize",
            f"The pocket of {plan.name} is {length(job, pocket.value)}, {length(job, over)} over the maker's "
            f"{said(job, made)}: an earlier oversize is in there.",
            help,
            made.span,
            (plan.name,),
        )
    return None


def _of_another_size(spec: Specification, pocket: float, near: float) -> PocketSize | None:
    """The maker's size, other than the standard, that a pocket as found is bored to."""
    standard = spec.standard_size
    if standard is not None and standard.bore is not None and _off(standard.bore, pocket) <= near + 1e-9:
        return None
    others = [
        row for row in spec.pocket_sizes if not row.standard and row.bore is not None and row.bore.least is not None
    ]
    bored = [(_off(row.bore, pocket), place) for place, row in enumerate(others) if row.bore is not None]
    off, place = min(bored, default=(near + 1.0, 0))
    return others[place] if off <= near + 1e-9 else None


def _off(bore: Limits, pocket: float) -> float:
    """How far a pocket lies outside a bore's limits [mm]."""
    ends = [end.value for end in (bore.least, bore.most) if end is not None]
    return max(min(ends, default=pocket) - pocket, pocket - max(ends, default=pocket), 0.0)


def _as_made(spec: Specification) -> Given | None:
    """The pocket as the maker made it: said by hand, else the middle of his standard size."""
    if spec.oversize_of is not None:
        return spec.oversize_of
    row = next((row for row in spec.pocket_sizes if row.standard), None)
    if row is None or row.bore is None or row.bore.aim is None:
        return None
    return Given(row.bore.aim, row.bore.typed, row.bore.span, source=row.bore.source)
