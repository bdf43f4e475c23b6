"""The seat card, one for each set of valves with the same cuts: seat, top, throat, a last light pass, then the tests.

Angles on it count from the plane square to the stem, and the card says so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from seatwright.cards.card import Box, Content, DrawingOnCard
from seatwright.cards.kinds.close_out import close_out
from seatwright.cards.kinds.seat_table import moved, seat_table
from seatwright.cards.kinds.spring_table import spring_table
from seatwright.cards.parts import figures
from seatwright.cards.parts.care import care
from seatwright.cards.parts.figures import Shown, digits_shown, limits, shown, typed
from seatwright.cards.parts.words import NO_INSERT, valves, valves_of
from seatwright.job.model import Head
from seatwright.planning.plan import Plan, SeatCut, SeatPlan, Status, ValvePlan
from seatwright.planning.plan.figure import Figure

SEAT = "seat"
_WITH_A_SECTION = 3  # valves beside whose springs, and the close-out, the section still has room
_NOT_YET = (Status.HOLD, Status.GUIDE_FIRST, Status.FINISHED, Status.OVERSIZE)


def sets(plan: Plan, head: Head) -> tuple[tuple[ValvePlan, ...], ...]:
    """The valves of a head whose seats are still to be cut, those with the same cuts together."""
    found: dict[tuple[object, ...], list[ValvePlan]] = {}
    for valve in valves_of(plan, head):
        seat = valve.seat
        if seat is None or valve.status in NO_INSERT or valve.status in _NOT_YET or not _is_known(seat):
            continue
        found.setdefault(_cuts(seat), []).append(valve)
    return tuple(tuple(group) for group in found.values())


def _is_known(seat: SeatPlan) -> bool:
    """Whether anything of the seat itself is: a card of blanks would say nothing that the record does not ask for."""
    return seat.angle is not None or seat.outer is not None or seat.recession is not None


def _cuts(seat: SeatPlan) -> tuple[object, ...]:
    sizes = (seat.angle, seat.outer, seat.inner, seat.width_least, seat.width_most, seat.runout_limit)
    angles = tuple((cut.name, round(cut.angle.value, 6)) for cut in seat.cuts)
    return (*(None if each is None else round(each.value, 6) for each in sizes), *angles)


def seat_title(plan: Plan, group: Sequence[ValvePlan], several: bool) -> str:
    """`Seat 45°, intake`, with its size where there are several sets of one kind."""
    seat = group[0].seat
    assert seat is not None
    angle = f" {figures.angle(seat.angle.value)}" if seat.angle is not None else ""
    kinds = dict.fromkeys(valve.kind for valve in group)
    size = f", Ø{digits_shown(seat.outer, figures.seat_gauge(plan.job))}" if several and seat.outer is not None else ""
    return f"Seat{angle}, {' and '.join(kinds)}{size}"


def seat_card(
    plan: Plan, head: Head, group: Sequence[ValvePlan], drawings: Sequence[DrawingOnCard], last: bool
) -> Content:
    """All of a set of seats. last: of the head, with the pressure test of the whole head after it."""
    return _Card(plan, head, tuple(group)).content(tuple(drawings), last)


def angles_and_depths(plan: Plan, head: Head, group: Sequence[ValvePlan]) -> str:
    """What the second line of the head says: how angles count, and from where depths do."""
    said = "angles from the plane square to the stem"
    if any(valve.valve_tilt is not None for valve in group):
        said += "; depths along the stem"
    skim = head.skim
    if skim is not None and skim.when == "still-to-come":
        said += f"; {typed(skim.amount)} still to be skimmed: depths count from what the deck will be"
    return said


class _Card:
    """The boxes as they are written one after the other."""

    def __init__(self, plan: Plan, head: Head, group: tuple[ValvePlan, ...]) -> None:
        self.plan, self.job, self.head, self.group = plan, plan.job, head, group
        self.names = tuple(valve.name for valve in group)
        assert group[0].seat is not None
        self.seat = group[0].seat
        self.gauge = figures.seat_gauge(self.job)
        self.number = 0

    def content(self, drawings: tuple[DrawingOnCard, ...], last: bool) -> Content:
        strip = care(self.plan, ("seat",), self.names)
        boxes = (self._seat(), self._top(), self._throat())
        of_springs = spring_table(self.job, self.group, self.number + 3)  # behind the light pass and the seats
        springs = () if of_springs is None else (of_springs,)
        if springs and last and len(self.group) > _WITH_A_SECTION:
            drawings = ()
        light = self._last_pass(drawings[0].name if drawings else "")
        table = seat_table(self.job, self.head, self.group, self._next(), springs_apart=bool(springs))
        self.number += len(springs)
        after = (*self._each("Grind the stem of {} by at least", lambda seat: seat.grind, self._grind_most()),
                 *self._each("Shims under the spring of {}", lambda seat: seat.shim, self._shim_most()))  # fmt: skip
        close = (close_out(self.plan, self.head, self._next()),) if last else ()
        return Content(
            boxes=boxes,
            care=("Head cold, guides measured again; a pilot that rocks cuts a seat that leaks.", *strip.sentences),
            first=(light,),
            tables=(table, *springs),
            below=(self._leak(),),
            drawings=drawings,
            last=(*after, *close),
            cautioned=(*strip.slugs, *(("pressure-test",) if close else ())),
        )

    def _next(self) -> int:
        self.number += 1
        return self.number

    def _cut(self, name: str) -> SeatCut | None:
        return next((cut for cut in self.seat.cuts if cut.name == name), None)

    def _box(self, name: str, until: str, loud: Shown | None, *small: str) -> Box:
        """One of the three cuts: its angle, until what, the figure that it is cut to, what a deeper cut moves."""
        cut = self._cut(name)
        angle = f" {figures.angle(cut.angle.value)}" if cut is not None else ""
        if cut is not None and loud is None:
            loud, angle = Shown(figures.angle(cut.angle.value), ""), ""
        deeper = moved(self.job, cut) if cut is not None else ""
        return Box(
            self._next(), f"{name.capitalize()}{angle}{until}", loud, small=tuple(x for x in (*small, deeper) if x)
        )

    def _seat(self) -> Box:
        aims = {
            shown(valve.seat.recession.aim, self.gauge)
            for valve in self.group
            if valve.seat is not None and valve.seat.recession is not None and valve.seat.recession.aim is not None
        }
        one = aims.pop() if len(aims) == 1 else None
        if one is not None:
            side = "PROUD of" if one.text.startswith("-") else "Below"
            return self._box("seat", ", bright all round, until the valve sits", Shown(one.text.lstrip("-"), one.unit),
                             f"{side} the deck; stop a last light pass short of it.")  # fmt: skip
        if aims:
            return self._box("seat", ", bright all round, a light pass short of its aim in the table", None)
        return self._box("seat", ", until it is bright all round", None)

    def _top(self) -> Box:
        outer = self.seat.outer
        deep = [valve.seat.gauge_depth for valve in self.group if valve.seat and valve.seat.gauge_depth is not None]
        gauge = "Only then there is an edge to measure the gauge depth to: see the table." if deep else ""
        if outer is None:
            return self._box("top", "", None, gauge)
        across = shown(outer, self.gauge)
        return self._box("top", ", until the outside is", Shown(f"Ø{across.text}", across.unit), gauge)

    def _throat(self) -> Box:
        seat = self.seat
        inner = f"Inside then Ø{digits_shown(seat.inner, self.gauge)}." if seat.inner is not None else ""
        loud = None
        if seat.width_least is not None and seat.width_most is not None:
            low, high = limits(seat.width_least, seat.width_most, self.gauge)
            loud = Shown(f"{low.text}–{high.text}", f"{low.unit} wide")
        else:
            for word, figure, way in (
                ("at least", seat.width_least, "up"), ("at most", seat.width_most, "down"),
                ("", seat.width, "nearest"),
            ):  # fmt: skip
                if figure is not None and loud is None:
                    width = shown(figure, self.gauge, way)
                    loud = Shown(width.text, f"{width.unit} wide {word}".strip())
        return self._box("throat", ", until the seat is" if loud is not None else "", loud, inner)

    def _last_pass(self, drawing: str) -> Box:
        angle = f" at {figures.angle(self.seat.angle.value)}" if self.seat.angle is not None else ""
        carries = {
            "outer": " The valve touches the outer edge first.",
            "inner": " The valve touches the INNER edge first: that is what these angles give.",
        }.get(self.seat.carries or "", "")
        included = "; ".join(
            f"{figures.angle(cut.angle.value)} is {figures.plain_number(180 - 2 * cut.angle.value, 2)}°"
            for cut in self.seat.cuts
        )
        return Box(
            self._next(),
            f"A last light pass{angle}, burrs off",
            small=(
                f"Width again. Blue: the ring whole and even all round.{carries}",
                f"Included: {included}." if included else "",
            ),
            drawing=drawing,
        )

    def _leak(self) -> str:
        leak = self.job.shop.practice.leak
        test = f"Leak: {leak.text}, no sooner than {typed(leak.seconds)}. " if leak is not None else ""
        return (f"{test}Runout: the full movement of the needle. Leaks at the face: a light pass. Leaks between insert "
                "and head: the insert comes out. Type what was measured under finished, build again.")  # fmt: skip

    def _each(self, sentence: str, of: Callable[[SeatPlan], Figure | None], check: str) -> Iterator[Box]:
        """A box for each size, with the valves that need it."""
        needs: dict[Shown, list[str]] = {}
        for valve in self.group:
            size = of(valve.seat) if valve.seat is not None else None
            if size is not None:
                needs.setdefault(shown(size, self.gauge, "up"), []).append(valve.name)
        for least, names in needs.items():
            yield Box(self._next(), sentence.format(valves(names)), figures=(least,), small=(check,) if check else ())

    def _grind_most(self) -> str:
        most = self.job.shop.practice.stem_grind_most
        return f"Most {typed(most)}, square and cool; measure again." if most is not None else ""

    def _shim_most(self) -> str:
        most = self.job.shop.practice.shim_limit
        return f"Most {typed(most)} in all; measure again." if most is not None else ""
