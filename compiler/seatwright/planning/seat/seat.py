"""The seat (handbook 12): its three cuts, what each of them moves, how deep it lies, and which edge carries."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from seatwright.handbook import seats
from seatwright.job.model import Given, Head, Job
from seatwright.planning.basis.faces import below_limits, depth_face
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, listed
from seatwright.planning.found.clean_up import seat_outer
from seatwright.planning.plan import Edges, Pocketed, SeatCut, Seated, SeatPlan, into
from seatwright.planning.plan.figure import Figure, assumed, computed, given
from seatwright.planning.seat.heights import Heights, along_stem, heights
from seatwright.planning.seat.top_cut import top_on_insert
from seatwright.text.slugs import NoticeSlug

STEP = 0.10
"""How much deeper a cut is spoken of as going: 0.10 mm along the stem."""

_SOURCE = "handbook 12"
_CONES = "handbook 12, cones cut with each other"


def seat(job: Job, head: Head, plans: tuple[Pocketed, ...], findings: Findings) -> tuple[Seated, ...]:
    """The seat of each valve that is planned; what is missing is not computed and is said once."""
    return tuple(
        into(Seated, plan, seat=None if plan.left_alone else _seat(job, head, plan, findings)) for plan in plans
    )


def _seat(job: Job, head: Head, plan: Pocketed, findings: Findings) -> SeatPlan:
    spec = plan.valve.specification
    _say_aim_alone(head, plan, findings)
    angle = _angle("seat_angle", spec.seat_angle)
    outer = seat_outer(plan)
    width, least, most = _width(head, plan, findings)
    inner = _inner(plan, outer, width, angle, findings)
    high = heights(job, head, plan, findings)
    depth, carries = _gauge_depth(job, head, plan, high.aim, width, angle, findings)
    top = top_on_insert(job, head, plan, outer, depth, findings)
    made = SeatPlan(
        outer=outer,
        inner=inner,
        width=width,
        width_least=least,
        width_most=most,
        angle=angle,
        cuts=_cuts(plan, outer, inner, width, angle, top, findings),
        gauge_depth=depth,
        carries=carries,
        runout_limit=None if spec.seat_runout is None else given("seat_runout", "mm", spec.seat_runout),
        leak_limit_s=_leak(job, plan, findings),
    )
    if spec.seat_runout is None:
        _unchecked(plan, "seat-runout-not-given", "`seat-runout` is not given: the finished seat has no limit to be "
                   "judged by.", "Give the most it may run out to the guide, as `seat-runout 0.05 tir`.",
                   findings)  # fmt: skip
    return _with_heights(made, high)


def _with_heights(made: SeatPlan, high: Heights) -> SeatPlan:
    return replace(
        made,
        sink=high.sink,
        recession=high.recession,
        stem=high.stem,
        spring=high.spring,
        stem_change=high.stem_change,
        stem_after=high.stem_after,
        spring_after=high.spring_after,
        shim=high.shim,
        grind=high.grind,
    )


def _angle(symbol: str, angle: Given | None) -> Figure | None:
    return None if angle is None else given(symbol, "deg", angle)


def _say_aim_alone(head: Head, plan: Pocketed, findings: Findings) -> None:
    spec = plan.valve.specification
    aims = (spec.seat_width, spec.recession, spec.stem_height, spec.spring_height)
    if any(one is not None and one.least is None and one.most is None for one in aims):
        findings.unchecked(
            "aim-not-a-limit",
            "A single figure for `seat-width`, `recession`, `stem-height` or `spring-height` is an aim: nothing is "
            "judged by it.",
            "Give two limits, or `most` or `least`, to be judged by.",
            head.span,
            (plan.name,),
        )


def _width(head: Head, plan: Pocketed, findings: Findings) -> tuple[Figure | None, Figure | None, Figure | None]:
    """Width to aim at, least and most. One limit alone gives nothing to aim at."""
    limits = plan.valve.specification.seat_width
    if limits is None:
        _unchecked(plan, "seat-width-not-given", "`seat-width` is not given: the inner edge of the seat was not "
                   "computed, and its width has no limit.", "Give it under `valves`.", findings)  # fmt: skip
        return None, None, None
    least = None if limits.least is None else given("w_least", "mm", limits.least)
    most = None if limits.most is None else given("w_most", "mm", limits.most)
    if least is not None and most is not None:
        middle = (least.value + most.value) / 2
        return computed("w", "mm", middle, "(w_least + w_most)/2", (least, most), _SOURCE), least, most
    if limits.nominal is not None and least is None and most is None:
        return given("w", "mm", limits.nominal), None, None
    _unchecked(plan, "seat-width-no-aim", "`seat-width` has one limit only, and no width to aim at: the inner edge of "
               "the seat was not computed.", "Give it two limits, or an aim.", findings)  # fmt: skip
    return None, least, most


def _inner(
    plan: Pocketed, outer: Figure | None, width: Figure | None, angle: Figure | None, findings: Findings
) -> Figure | None:
    if outer is None or width is None or angle is None:
        return None
    try:
        value = seats.contact_inner(outer.value, width.value, angle.value)
    except ValueError as wrong:
        findings.warning(
            "seat-wide",
            f"{str(wrong)[:1].upper()}{str(wrong)[1:]}.",
            "Look at `head-diameter`, `setback` and `seat-width`.",
            plan.valve.span,
            (plan.name,),
        )
        return None
    return computed("seat_inner", "mm", value, f"{outer.symbol} - 2*w*cos(seat_angle)", (outer, width, angle), _SOURCE)


def _leak(job: Job, plan: Pocketed, findings: Findings) -> Figure | None:
    leak = job.shop.practice.leak
    if leak is not None:
        return given("leak_limit", "s", replace(leak.seconds, source=leak.text))
    _unchecked(plan, "leak-limit-not-given", "The shop has no `leak`: a time that is written for a seat cannot be "
               "judged.", 'Write it under `practice`, as `leak 3 s "85 to 58 kPa"`.', findings)  # fmt: skip
    return None


def _cuts(
    plan: Pocketed, outer: Figure | None, inner: Figure | None, width: Figure | None, angle: Figure | None,
    top_outer: Figure | None, findings: Findings,
) -> tuple[SeatCut, ...]:  # fmt: skip
    """Top, seat and throat: the top brings the outside to diameter, the throat the inside, and so the width."""
    spec = plan.valve.specification
    top, throat = _angle("top_angle", spec.top_angle), _angle("throat_angle", spec.throat_angle)
    missing = [
        f"`{name}`"
        for name, each in (("top-angle", top), ("seat-angle", angle), ("throat-angle", throat))
        if each is None
    ]
    if missing:
        what = listed(missing)
        _unchecked(plan, "cut-angle-not-given", f"{what} {'is' if len(missing) == 1 else 'are'} not given: what a cut "
                   "moves was not computed where it is needed.", "Give the angles of all three cuts under `valves`.",
                   findings)  # fmt: skip
    top_moves = _moves_outer(plan, top, angle, findings)
    throat_moves = _moves_inner(plan, angle, throat, findings)
    cuts = []
    if top is not None:
        deeper = None if top_moves is None else Edges(outer=top_moves)
        cuts.append(SeatCut("top", top, outer=top_outer, inner=outer, deeper_0_1=deeper))
    if angle is not None:
        both = None
        if top_moves is not None or throat_moves is not None:
            both = Edges(_back(top_moves), _back(throat_moves))
        cuts.append(SeatCut("seat", angle, outer, inner, width, both))
    if throat is not None:
        moves = None if throat_moves is None else Edges(inner=throat_moves)
        cuts.append(SeatCut("throat", throat, outer=inner, deeper_0_1=moves))
    return tuple(cuts)


def _moves_outer(plan: Pocketed, top: Figure | None, angle: Figure | None, findings: Findings) -> Figure | None:
    if top is None or angle is None or not _in_order(plan, "top", top, "seat", angle, findings):
        return None
    t = _deeper()
    value = seats.top_cutter_deeper(t.value, top.value, angle.value)
    return computed("top_moves", "mm", value, "-2*t/(tan(seat_angle) - tan(top_angle))", (t, angle, top), _CONES)


def _moves_inner(plan: Pocketed, angle: Figure | None, throat: Figure | None, findings: Findings) -> Figure | None:
    if throat is None or angle is None or not _in_order(plan, "seat", angle, "throat", throat, findings):
        return None
    t = _deeper()
    value = seats.throat_cutter_deeper(t.value, angle.value, throat.value)
    formula = "2*t/(tan(throat_angle) - tan(seat_angle))"
    return computed("throat_moves", "mm", value, formula, (t, throat, angle), _CONES)


def _deeper() -> Figure:
    return assumed("t", "mm", STEP, "what the seat card speaks of")


def _back(moves: Figure | None) -> Figure | None:
    """The seat cutter moves the same edge by as much the other way."""
    if moves is None:
        return None
    return computed("seat_moves", "mm", -moves.value, f"-{moves.symbol}", (moves,), _CONES)


def _in_order(plan: Pocketed, flatter: str, flat: Figure, steeper: str, steep: Figure, findings: Findings) -> bool:
    if flat.value < steep.value:
        return True
    findings.warning(
        "angles-order",
        f"The {flatter} cut at {flat.value:g}° must be flatter than the {steeper} cut at {steep.value:g}°,"
        " both from the plane square to the stem: what they move was not computed.",
        "Look whether one of them was meant `from-axis` or `included`.",
        plan.valve.span,
        (plan.name,),
    )
    return False


def _gauge_depth(
    job: Job, head: Head, plan: Pocketed, aim: Figure | None, width: Figure | None, angle: Figure | None,
    findings: Findings,
) -> tuple[Figure | None, str | None]:  # fmt: skip
    """Depth of the seat's outer edge below the deck, along the stem, and which edge carries."""
    spec = plan.valve.specification
    face = _angle("face_angle", spec.face_angle)
    margin_cell = plan.found.margin or spec.margin
    needed: Sequence[tuple[str, object]] = (
        ("face-angle", face),
        ("seat-angle", angle),
        ("margin", margin_cell),
        ("setback", spec.setback),
    )
    missing = [f"`{name}`" for name, each in needed if each is None]
    if missing:
        _unchecked(plan, "gauge-depth-not-computed", f"{listed(missing)} {'is' if len(missing) == 1 else 'are'} not "
                   "given: how deep the seat must lie below the deck was not computed.", "Give it under `valves`.",
                   findings)  # fmt: skip
    if face is None or angle is None:
        return None, None
    edge = seats.carrying_edge(angle.value, face.value)
    if edge == "inner":
        _warn_inner(plan, angle, face, findings)
    if aim is None or margin_cell is None or spec.setback is None:
        return None, edge
    margin, setback = given("margin", "mm", margin_cell), given("setback", "mm", spec.setback)
    if edge != "inner":
        value = seats.gauge_depth(aim.value, margin.value, setback.value, 0.0, angle.value, face.value).depth
        inputs: tuple[Figure, ...] = (aim, margin, setback, face)
        formula = f"{aim.symbol} + margin + setback*tan(face_angle)"
    elif width is None:
        return None, edge
    else:
        value = seats.gauge_depth(aim.value, margin.value, setback.value, width.value, angle.value, face.value).depth
        formula = f"{aim.symbol} + margin + (setback + w*cos(seat_angle))*tan(face_angle) - w*sin(seat_angle)"
        inputs = (aim, margin, setback, face, width, angle)
    depth = computed("gauge_depth", "mm", value, formula, inputs, _SOURCE, "below the deck, along the stem")
    _inside_insert(job, head, plan, depth, findings)
    if head.skim is not None and head.skim.when == "still-to-come":
        findings.notice(
            "gauge-depth-after-skim",
            "A skim is still to come: recession and gauge depth of the seats count from the deck as it will then be.",
            f"Skim first and cut the seats then; or reckon {head.skim.amount.typed} more below the deck as it is now.",
            head.skim.span,
            (plan.name,),
        )
    return depth, edge


def _warn_inner(plan: Pocketed, angle: Figure, face: Figure, findings: Findings) -> None:
    findings.warning(
        "inner-edge-carries",
        f"The seat at {angle.value:g}° is flatter than the valve's face at {face.value:g}°, so the inner "
        "edge of the seat carries, and the valve sits higher than on the outer edge.",
        "If the outer edge is to carry, the seat is cut steeper than the face. Some makers want it as it is here: "
        "the engine maker's angle counts.",
        plan.valve.span,
        (plan.name,),
    )


def _inside_insert(job: Job, head: Head, plan: Pocketed, depth: Figure, findings: Findings) -> None:
    """The seat's outer edge must lie below the insert's face, or there is no metal for it."""
    if depth_face(head, findings) != "deck":
        return
    below = below_limits(job, head, plan)
    if below is None:
        return
    most = below[1].value
    if head.skim is not None and head.skim.when == "still-to-come":
        most -= head.skim.amount.value
    face = along_stem(plan, replace(below[1], value=most)).value
    if depth.value < face:
        findings.warning(
            "seat-above-insert",
            f"The outer edge of the seat lies {length(job, depth.value)} below the deck, and the insert "
            f"may stand {length(job, face)} below it: there would be no metal for the seat.",
            "Let the insert stand higher, or let the valve sit deeper.",
            plan.valve.span,
            (plan.name,),
        )


def _unchecked(plan: Pocketed, slug: NoticeSlug, text: str, help: str, findings: Findings) -> None:
    findings.unchecked(slug, text, help, None, (plan.name,))
