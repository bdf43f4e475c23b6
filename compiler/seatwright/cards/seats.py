"""The seat card, one for each set of valves with the same cuts: seat, top, throat, a last light pass, then the tests.

Angles on it count from the plane square to the stem, and the card says so.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from seatwright.cards import figures
from seatwright.cards.card import Content, Drawing
from seatwright.cards.escape import Markdown
from seatwright.cards.figures import Shown, limits, shown, typed
from seatwright.cards.seat_tables import after_cutting, heights, moved, of_each
from seatwright.cards.words import (
    NO_INSERT,
    Steps,
    blank,
    fitted,
    span,
    text,
    valves,
    valves_of,
)
from seatwright.job.model import Head
from seatwright.planning.plan import Plan, SeatCut, SeatPlan, Status, ValvePlan
from seatwright.planning.plan.figure import Figure

SEAT = "seat"
_NOT_YET = (Status.HOLD, Status.FINISHED, Status.OVERSIZE)


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


def seat_title(plan: Plan, group: Sequence[ValvePlan]) -> str:
    """`Seat at 45°, outside Ø 40.40 mm`."""
    seat = group[0].seat
    assert seat is not None
    found = "Seat" if seat.angle is None else f"Seat at {figures.angle(seat.angle.value)}"
    return found if seat.outer is None else f"{found}, outside Ø {shown(seat.outer, figures.seat_gauge(plan.job))}"


def seat_card(
    plan: Plan, head: Head, group: Sequence[ValvePlan], narrow: bool, drawings: Sequence[Drawing], last: bool
) -> Content:
    """All steps of a set of seats. last: of the head, with the pressure test of the whole head after it."""
    return _Card(plan, head, tuple(group), narrow, tuple(drawings), last).content()


class _Card:
    """The steps as they are written one after the other."""

    def __init__(
        self, plan: Plan, head: Head, group: tuple[ValvePlan, ...], narrow: bool, drawings: tuple[Drawing, ...],
        last: bool,
    ) -> None:  # fmt: skip
        self.plan, self.job, self.head = plan, plan.job, head
        self.group, self.narrow, self.drawings, self.last = group, narrow, drawings, last
        self.names = tuple(valve.name for valve in group)
        assert group[0].seat is not None
        self.seat = group[0].seat
        self.gauge = figures.seat_gauge(self.job)
        self.steps = Steps(plan, self.names, drawings)
        self.step = self.steps.step

    def content(self) -> Content:
        self._guide()
        self._cut_seat()
        self._cut_top()
        self._cut_throat()
        self._last_pass()
        self._heights()
        self._tests()
        if self.last:
            self._pressure()
        return Content(
            lines=self._lines(),
            steps=tuple(self.steps.written),
            drawings=self.drawings,
            closing="Type what was measured into the job file, under finished, and build again.",
            cautioned=tuple(self.steps.cautioned),
        )

    def _lines(self) -> tuple[tuple[str, str], ...]:
        found = [("Angles", "from the plane square to the stem"), ("Diameters and depths", self._unit())]
        if any(valve.valve_tilt is not None for valve in self.group):
            found.append(("These valves lean", "depths below the deck count along the stem"))
        skim = self.head.skim
        if skim is not None and skim.when == "still-to-come":
            found.append(("Deck", f"{typed(skim.amount)} still to be skimmed: depths count from what it will be"))
        return tuple(found)

    def _unit(self) -> str:
        return "inch" if self.gauge.unit == "in" else "mm"

    def _guide(self) -> None:
        pilots = {valve.pilot.name for valve in self.group if valve.pilot is not None and valve.pilot.name}
        pilot = f"the pilot {pilots.pop()}" if len(pilots) == 1 else "its pilot"
        self.step(
            f"See that the head is cold and its guides were measured again. Put {pilot} into the guide.",
            "The seat turns about the guide: a pilot that rocks cuts a seat that leaks.",
            places=("seat",),
        )

    def _cut(self, name: str) -> SeatCut | None:
        return next((cut for cut in self.seat.cuts if cut.name == name), None)

    def _angle(self, name: str) -> tuple[Shown, ...]:
        cut = self._cut(name)
        if cut is None:
            return ()
        return (Shown(figures.angle(cut.angle.value), "", f"{figures.plain(180 - 2 * cut.angle.value, 2)}° included"),)

    def _cut_seat(self) -> None:
        deep = any(valve.seat is not None and valve.seat.gauge_depth is not None for valve in self.group)
        until = "until it is bright all round"
        if deep:
            until += ", and stop a light pass short of the gauge depth"
        each = of_each(self.job, self.group)
        self.step(
            f"Cut the seat, {until}.",
            self._moves("seat"),
            self._angle("seat") or (Shown(blank(5), "°"),),
            tables=() if each is None else fitted(each, self.narrow),
            drawing=self.drawings[0].name if self.drawings else "",
        )

    def _cut_top(self) -> None:
        outer = self.seat.outer
        to = "Cut the top, until the outside of the seat measures" if outer is not None else "Cut the top."
        read = (self._across(outer),) if outer is not None else ()
        self.step(to, self._moves("top"), (*self._angle("top"), *read))

    def _cut_throat(self) -> None:
        seat, read = self.seat, []
        if seat.width_least is not None and seat.width_most is not None:
            low, high = limits(seat.width_least, seat.width_most, self.gauge)
            read.append(Shown(span((low, high)), f"{low.unit} wide"))
        else:
            for word, figure, way in (
                ("least", seat.width_least, "up"), ("most", seat.width_most, "down"),
                ("", seat.width if seat.width_least is None and seat.width_most is None else None, "nearest"),
            ):  # fmt: skip
                if figure is not None:
                    width = shown(figure, self.gauge, way)
                    read.append(Shown(f"{word} {width.text}".strip(), f"{width.unit} wide"))
        inner = f" That is an inside of Ø {shown(seat.inner, self.gauge)}." if seat.inner is not None else ""
        until = ", until the seat is" if read else "."
        self.step(f"Cut the throat{until}", f"{self._moves('throat')}{inner}", (*self._angle("throat"), *read))

    def _last_pass(self) -> None:
        angle = f" at {figures.angle(self.seat.angle.value)}" if self.seat.angle is not None else ""
        carries = {
            "outer": " The valve touches the outer edge first.",
            "whole": " The valve touches over the whole width.",
            "inner": " The valve touches the INNER edge first: that is what these angles give.",
        }.get(self.seat.carries or "", "")
        self.step(
            f"A last light pass with the seat cutter{angle}, to take the burrs off. Look at the width again.",
            f"Blue the seat, drop the valve on, turn it a little: the ring is whole and even all round.{carries}",
        )

    def _across(self, size: Figure) -> Shown:
        across = shown(size, self.gauge)
        return Shown(f"Ø {across.text}", across.unit, across.other)

    def _moves(self, name: str) -> str:
        cut = self._cut(name)
        return moved(self.job, cut) if cut is not None else ""

    def _heights(self) -> None:
        tables = heights(self.job, self.head, self.group)
        if tables:
            self.step(
                "Put each valve on its seat and measure how it sits. Then stem and spring.",
                "Recession: the flat of the valve's head below the deck, proud as −. Each line is a sum: as found, "
                "what cutting the seat brings, what comes out.",
                tables=[part for table in tables for part in fitted(table, self.narrow)],
            )
        self._each("Grind the stem end of {} by at least", lambda seat: seat.grind, self._grind_most())
        self._each("Put shims under the spring of {}, together", lambda seat: seat.shim, self._shim_most())

    def _each(self, sentence: str, of: Callable[[SeatPlan], Figure | None], check: str) -> None:
        """A step for each size, with the valves that need it."""
        needs: dict[Shown, list[str]] = {}
        for valve in self.group:
            size = of(valve.seat) if valve.seat is not None else None
            if size is not None:
                needs.setdefault(shown(size, self.gauge, "up"), []).append(valve.name)
        for least, names in needs.items():
            self.step(sentence.format(valves(names)), check, (least,))

    def _grind_most(self) -> str:
        most = self.job.shop.practice.stem_grind_most
        return f"No more than {typed(most)}, square, and cool. Measure the stem again." if most is not None else ""

    def _shim_most(self) -> str:
        most = self.job.shop.practice.shim_limit
        return f"No more than {typed(most)} in all. Measure the spring again." if most is not None else ""

    def _tests(self) -> None:
        leak = self.job.shop.practice.leak
        held = f" Leak: {leak.text}, no sooner than {typed(leak.seconds)}." if leak is not None else ""
        self.step(
            "Test each seat, clean and dry: runout to the guide, contact, leak.",
            f"Runout is the full movement of the needle.{held} Grease shows where it leaks: at the face, a light pass; "
            "between insert and head, the insert is to be replaced.",
            tables=fitted(after_cutting(self.job, self.group), self.narrow),
        )

    def _pressure(self) -> None:
        before = text(self.head.pressure_test)
        self.step(
            Markdown("Pressure-test the whole head, by the engine maker's pressure: {} held {}").format(
                blank(6), blank(6)
            ),
            f"Before the work: {before}." if before else "",
            places=("test",),
        )
