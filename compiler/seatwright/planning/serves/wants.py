"""What one valve asks of any insert: gathered once, so that every insert is held against the same figures.

What is missing is said here, once, and then not checked (handbook 4 and 5).
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import pockets, seats
from seatwright.job.model import Given, Head, Job, Reading
from seatwright.planning.basis.faces import (
    below_limits,
    depth_face,
    depth_now,
    is_integral,
    pocket_depth_now,
    skim_along_stem,
)
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import name_key
from seatwright.planning.found.clean_up import seat_outer
from seatwright.planning.plan import Found
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.seat.heights import along_stem
from seatwright.planning.serves.makers_sizes import MakersSize, makers_sizes
from seatwright.text.slugs import NoticeSlug


class Wants(Struct, frozen=True):
    """The figures that an insert of this valve is held against; None: not given, so not checked.

    needed: D_clean. cover: least od that covers the seat. seat_inner: the most its id may be. below: how the insert is
    to stand, least and most. sizes: the maker's, the smallest first; maker_bore, maker_depth: of the one that an insert
    is of, else what they all allow together (the bore's least is None where he gives the most alone). deepest: what the
    metal under the floor allows.
    seat_bottom: lower edge of the finished seat below the deck.
    """

    face: str
    integral: bool
    alloys: tuple[str, ...]
    needed: Figure | None
    cover: Figure | None
    seat_inner: Figure | None
    pocket_depth: Figure | None
    floor_clean_up: Figure | None
    below: tuple[Figure, Figure] | None
    maker_depth: tuple[Figure, Figure] | None
    maker_bore: tuple[Figure | None, Figure] | None
    sizes: tuple[MakersSize, ...]
    floor_thickness: Figure | None
    least_floor: Figure | None
    deepest: Figure | None
    throat: Figure | None
    throat_offset: Figure | None
    least_ledge: Figure | None
    seat_bottom: Figure | None
    least_under_seat: Figure | None
    lean: Figure | None
    damage_depth: Figure | None

    def of(self, size: MakersSize | None) -> Wants:
        """The same of an insert that is of one of the maker's sizes."""
        return self if size is None else replace(self, maker_bore=size.bore, maker_depth=size.depth)

    def of_depth(self, size: MakersSize | None) -> Wants:
        """The same with the depth of one of the maker's sizes, as of a blank whose bore may lie between them."""
        return self if size is None else replace(self, maker_depth=size.depth)

    @property
    def beyond_makers_bore(self) -> tuple[Figure, Figure] | None:
        """The smallest bore that cleans up and the most that the maker allows, where the one is larger; else None."""
        if self.needed is None or self.maker_bore is None:
            return None
        most = self.maker_bore[1]
        return (self.needed, most) if self.needed.value > most.value + 1e-9 else None


def wants_of(job: Job, head: Head, plan: Found, findings: Findings) -> Wants:
    """All that a valve asks of its insert."""
    practice, spec, found = job.shop.practice, plan.valve.specification, plan.found
    face = depth_face(head, findings)
    pocket_depth = pocket_depth_now(head, plan, findings)
    cover, inner = _seat(job, head, plan, findings)
    floor = _maybe("floor_thickness", found.floor_thickness)
    least_floor = None if head.least_floor is None else given("least_floor", "mm", head.least_floor)
    deepest = None
    if floor is not None and least_floor is not None and pocket_depth is not None:
        value = pockets.floor_left(floor.value, least_floor.value, pocket_depth.value)
        formula = f"{pocket_depth.symbol} + floor - least_floor"
        deepest = computed("deepest", "mm", value, formula, (pocket_depth, floor, least_floor), "handbook 5")
    sizes = makers_sizes(spec, practice)
    bottom = _seat_bottom(head, plan, face, findings) if practice.least_under_seat else None
    wants = Wants(
        face=face,
        integral=is_integral(plan),
        alloys=tuple(name_key(alloy.text) for alloy in spec.alloys),
        needed=None if plan.clean_up is None else plan.clean_up.needed,
        cover=cover,
        seat_inner=inner,
        pocket_depth=pocket_depth,
        floor_clean_up=_practice("floor_clean_up", practice.floor_clean_up),
        below=below_limits(job, head, plan) if face != "floor" else None,
        maker_depth=_in_all(sizes),
        maker_bore=_over_all(sizes),
        sizes=sizes,
        floor_thickness=floor,
        least_floor=least_floor,
        deepest=deepest,
        throat=plan.at20.throat,
        throat_offset=None if found.throat_offset is None else given("throat_offset", "mm", found.throat_offset),
        least_ledge=_practice("least_ledge", practice.least_ledge),
        seat_bottom=bottom,
        least_under_seat=_practice("least_under_seat", practice.least_under_seat),
        lean=None if plan.pilot is None else plan.pilot.offset,
        damage_depth=_damage_depth(head, plan, face, findings),
    )
    _say_missing(job, head, plan, wants, findings)
    return wants


def _damage_depth(head: Head, plan: Found, face: str, findings: Findings) -> Figure | None:
    """How deep damage reaches, from the depth face as it is now."""
    damage = plan.found.damage_depth
    if damage is None:
        return None
    reaches = given("damage_depth", "mm", damage, damage.largest)
    return reaches if face == "floor" else depth_now(head, plan, reaches, findings)


def _seat(job: Job, head: Head, plan: Found, findings: Findings) -> tuple[Figure | None, Figure | None]:
    """The least od that covers the seat with its land, and the seat's inner diameter at its widest."""
    spec, land = plan.valve.specification, job.shop.practice.least_land
    outer = seat_outer(plan)
    if outer is None:
        findings.unchecked(
            "seat-cover-not-checked",
            "`head-diameter` or `setback` is not given: whether the insert covers the seat is not checked.",
            "Give both under `valves`.",
            head.span,
            (plan.name,),
        )
        return None, None
    if land is None:
        findings.unchecked(
            "least-land-not-given",
            "The shop has no `least-land`: the insert is only asked to reach the seat's outer edge.",
            "Write it under `practice` in the shop file.",
            head.span,
            (plan.name,),
        )
        cover = outer
    else:
        least_land = given("least_land", "mm", land)
        value = pockets.insert_seat_cover(outer.value, least_land.value)
        cover = computed("cover", "mm", value, "seat_outer + 2*least_land", (outer, least_land), "handbook 4c")
    width = None if spec.seat_width is None else spec.seat_width.most or spec.seat_width.nominal
    if width is None or spec.seat_angle is None:
        findings.unchecked(
            "seat-inner-not-checked",
            "`seat-width` or `seat-angle` is not given: whether the hole of the insert is small enough for the seat is "
            "not checked.",
            "Give both under `valves`.",
            head.span,
            (plan.name,),
        )
        return cover, None
    wide, angle = given("seat_width", "mm", width), given("seat_angle", "deg", spec.seat_angle)
    value = seats.contact_inner(outer.value, wide.value, angle.value)
    formula = "seat_outer - 2*seat_width*cos(seat_angle)"
    return cover, computed("seat_inner", "mm", value, formula, (outer, wide, angle), "handbook 12")


def _seat_bottom(head: Head, plan: Found, face: str, findings: Findings) -> Figure | None:
    """Lower edge of the finished seat below the deck as it is now, at its lowest: the most recession, the widest seat.

    A limit of the valve train falls by a skim; one that is still to come puts the seat as much lower in this deck. All
    is counted along the stem, as the seat stage counts it: a recession square to the deck is longer along a tilted one.
    """
    spec = plan.valve.specification
    recession = None if spec.recession is None else spec.recession.most or spec.recession.nominal
    width = None if spec.seat_width is None else spec.seat_width.most or spec.seat_width.nominal
    margin = plan.found.margin or spec.margin
    if (
        face != "deck"
        or recession is None
        or width is None
        or margin is None
        or spec.setback is None
        or spec.seat_angle is None
        or spec.face_angle is None
    ):
        reason = (
            "depths are not counted from the deck"
            if face != "deck"
            else "`recession`, `margin`, `setback`, `seat-width`, `seat-angle` or `face-angle` is not given"
        )
        findings.unchecked(
            "under-seat-not-checked",
            f"How much insert is left below the seat is not checked: {reason}.",
            "Give them all, with `depth-from deck`.",
            head.span,
            (plan.name,),
        )
        return None
    inputs = (
        along_stem(plan, given("recession_most", "mm", recession)),
        given("margin", "mm", margin),
        given("setback", "mm", spec.setback),
        given("seat_width", "mm", width),
        given("seat_angle", "deg", spec.seat_angle),
        given("face_angle", "deg", spec.face_angle),
    )
    depth = seats.gauge_depth(*(figure.value for figure in inputs))
    height = seats.contact_height(inputs[3].value, inputs[4].value)
    formula = f"{inputs[0].symbol} + margin + " + (
        "setback*tan(face_angle) + seat_width*sin(seat_angle)"
        if depth.edge != "inner"
        else "(setback + seat_width*cos(seat_angle))*tan(face_angle)"
    )
    bottom = computed("seat_bottom", "mm", depth.depth + height, formula, inputs, "handbook 12")
    return _in_this_deck(head, plan, bottom)


def _in_this_deck(head: Head, plan: Found, bottom: Figure) -> Figure:
    """The seat's lower edge, reckoned with the printed recession, in the deck that the pocket is bored from."""
    skim = head.skim
    if skim is None:
        return bottom
    falls, to_come = head.recession_limit_follows is not None, skim.when == "still-to-come"
    if falls == to_come:
        return bottom
    amount = skim_along_stem(skim, plan)
    sign, value = ("+", amount.value) if to_come else ("-", -amount.value)
    why = "handbook 12, a skim still to come" if to_come else "handbook 12, a limit of the valve train"
    printed = bottom.called("seat_bottom_printed")
    return computed(
        "seat_bottom", "mm", bottom.value + value, f"seat_bottom_printed {sign} {amount.symbol}", (printed, amount), why
    )


def _say_missing(job: Job, head: Head, plan: Found, wants: Wants, findings: Findings) -> None:
    def missing(slug: NoticeSlug, text: str, help: str) -> None:
        findings.unchecked(slug, text, help, head.span, (plan.name,))

    if wants.face == "floor" and plan.valve.specification.stand is not None:
        missing(
            "stand-not-used",
            "Depths are counted from the old floor, against which the face of the insert cannot be held: `stand` is "
            "not used.",
            "Say `depth-from rim` or `deck` where the insert is to stand by it, and measure `pocket-depth` from there.",
        )
    depth = plan.valve.specification.depth
    if (
        depth is not None
        and wants.sizes
        and wants.sizes[0].depth is None
        and plan.valve.specification.stand is not None
    ):
        findings.unchecked(
            "maker-depth-not-used",
            f"The maker's `depth` {depth.typed} is a single figure, and the shop has no `depth-tolerance`: the pocket "
            "is not held against it.",
            "Write `depth-tolerance` under `practice` in the shop file, or give two limits.",
            depth.span,
            (plan.name,),
        )
    if wants.throat is None:
        missing(
            "throat-not-measured",
            "`throat` is not measured: the ledge under the insert, and whether the tip reaches, are not checked.",
            "Measure the throat with the old insert out.",
        )
    elif wants.least_ledge is None:
        missing(
            "least-ledge-not-given",
            "The shop has no `least-ledge`: what the insert stands on is not checked.",
            "Write it under `practice` in the shop file.",
        )
    if wants.least_under_seat is None:
        missing(
            "least-under-seat-not-given",
            "The shop has no `least-under-seat`: how much insert is left below the seat is not checked.",
            "Write it under `practice` in the shop file.",
        )
    if wants.least_floor is None:
        missing(
            "least-floor-not-given",
            "`least-floor` is not given: the metal under the new floor is not checked.",
            "Give the least metal to the water under `head`.",
        )
    elif wants.floor_thickness is None:
        missing(
            "floor-not-measured",
            "`floor-thickness` is not measured: the metal under the new floor is not checked.",
            "Measure the metal to the water, by ultrasonic gauge or from a section; else cut a trial depth and test "
            "with pressure.",
        )
    if wants.pocket_depth is None and not is_integral(plan):
        missing(
            "pocket-depth-not-measured",
            "`pocket-depth` is not measured: whether the floor cleans up, and the metal left under it, are not "
            "computed.",
            "Measure the depth of the pocket with the old insert out.",
        )
    elif wants.floor_clean_up is None and not is_integral(plan):
        missing(
            "floor-clean-up-not-given",
            "The shop has no `floor-clean-up`: the new floor is only asked to reach the old one.",
            "Write it under `practice` in the shop file.",
        )
    if all(cutter.retired is not None for cutter in job.shop.cutters):
        missing(
            "cutters-not-given",
            f"The shop file has no cutters{' that are not retired' if job.shop.cutters else ''}: whether one reaches, "
            "and its corner, are not checked.",
            "Describe the cutters in the shop file.",
        )


def _maybe(symbol: str, reading: Reading | None) -> Figure | None:
    return None if reading is None else given(symbol, "mm", reading)


def _practice(symbol: str, what: Given | None) -> Figure | None:
    return None if what is None else given(symbol, "mm", what)


def _over_all(sizes: Sequence[MakersSize]) -> tuple[Figure | None, Figure] | None:
    """From the smallest of the maker's bores to the largest."""
    bores = [one.bore for one in sizes if one.bore is not None]
    if not bores:
        return None
    leasts = [least for least, _ in bores if least is not None]
    least = min(leasts, key=lambda one: one.value) if leasts else None
    return least, max((most for _, most in bores), key=lambda one: one.value)


def _in_all(sizes: Sequence[MakersSize]) -> tuple[Figure, Figure] | None:
    """The maker's depth, where it is the same for all of his sizes."""
    depths = [one.depth for one in sizes]
    first = depths[0] if depths else None
    if first is None or any(
        one is None or abs(one[0].value - first[0].value) + abs(one[1].value - first[1].value) > 1e-9 for one in depths
    ):
        return None
    return first
