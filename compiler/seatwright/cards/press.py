"""The press card: which insert goes into which bore, how warm, how cold, in which order, and what is looked at after.

On it are the valves whose insert still has to go in; kept pockets too. How warm and how cold is one pair for the head;
where a valve needs another, it has steps of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from seatwright.cards import figures
from seatwright.cards.card import Content, Drawing, Table
from seatwright.cards.escape import Markdown
from seatwright.cards.figures import Shown, limits, shown, typed
from seatwright.cards.guides import allowed
from seatwright.cards.standing import takers, wait
from seatwright.cards.words import (
    NO_INSERT,
    NONE,
    STATUS,
    Steps,
    below,
    blank,
    bold,
    fitted,
    span,
    valves,
    valves_of,
)
from seatwright.job.model import Head
from seatwright.planning.plan import AssemblyPlan, Plan, Status, ValvePlan
from seatwright.planning.pressing.heats_and_chills import NO_CHILL
from seatwright.planning.whole_job.caution_conditions import BURNS_FROM

CLEARANCE = "clearance"
_ACCEPTED = (Status.ACCEPTED, Status.KEPT)
_NOT_WITH_THESE_FIGURES = (Status.MEASURE_AGAIN, Status.OVERSIZE)
_KIND = {"drop-in": "drops in", "push": "push by hand", "press": "PRESS"}


def to_press(plan: Plan, head: Head) -> tuple[ValvePlan, ...]:
    """The valves of a head whose insert still has to go in, in the order in which they do; one on hold is none."""
    out = [valve for valve in valves_of(plan, head) if _still_out(valve)]
    return tuple(sorted(out, key=lambda valve: valve.assembly.order if valve.assembly is not None else len(out) + 1))


def _still_out(valve: ValvePlan) -> bool:
    if valve.status in NO_INSERT or valve.status in (Status.HOLD, Status.FINISHED) or valve.insert is None:
        return False
    # What stands high is pressed down once more.
    return valve.finished is None or dict(valve.finished.verdicts).get("stand") == "fail"


def groups(served: Sequence[ValvePlan]) -> tuple[tuple[ValvePlan, ...], ...]:
    """The valves that go in together: those of one heat and one chill, in the order of the card."""
    ready = [valve for valve in served if valve.assembly is not None and valve.status not in _NOT_WITH_THESE_FIGURES]
    return tuple(tuple(group) for _, group in groupby(ready, key=lambda valve: _way(valve.assembly)))


def tightest(group: Sequence[ValvePlan]) -> ValvePlan:
    """The valve of a group that has least clearance as it goes in."""
    return min(group, key=lambda valve: valve.assembly.clearance.value if valve.assembly is not None else 0.0)


def _way(way: AssemblyPlan | None) -> tuple[float, str]:
    assert way is not None
    return way.head_C.value, way.chill


def press_card(plan: Plan, head: Head, narrow: bool, drawings: Sequence[Drawing]) -> Content:
    """All steps from the bored head to the cold one with its inserts. drawings: `clearance`, a number a group."""
    return _Card(plan, head, narrow, tuple(drawings)).content()


class _Card:
    """The steps as they are written one after the other."""

    def __init__(self, plan: Plan, head: Head, narrow: bool, drawings: tuple[Drawing, ...]) -> None:
        self.plan, self.job, self.head = plan, plan.job, head
        self.narrow, self.drawings = narrow, drawings
        self.served = to_press(plan, head)
        self.names = tuple(valve.name for valve in self.served)
        self.steps = Steps(plan, self.names, drawings)
        self.step = self.steps.step

    def content(self) -> Content:
        self._before()
        for number, group in enumerate(groups(self.served), start=1):
            self._together(number, group)
        self._without_a_way()
        self._after()
        return Content(
            lines=self._lines(),
            steps=tuple(self.steps.written),
            drawings=self.drawings,
            closing="Type how each insert stands into the job file, under finished, as stand, and build again.",
            cautioned=tuple(self.steps.cautioned),
        )

    def _lines(self) -> tuple[tuple[str, str], ...]:
        words = [self.head.text, self.head.material.name if self.head.material is not None else ""]
        found = [("Head", ", ".join(word for word in words if word))]
        if self.head.heat_limit is not None:
            limit = figures.temperature(self.head.heat_limit.value, self.job)
            found.append(("Never warmer than", limit))
        press = self.job.shop.assembly.press
        if press is not None and any(valve.assembly and valve.assembly.kind == "press" for valve in self.served):
            found.append(("The shop's press", typed(press)))
        return tuple(found)

    def _before(self) -> None:
        self.step(
            f"Nothing goes in before every bore of this head is measured and accepted.{self._not_yet()}",
            "The fit is made to the ring in the hand: each ring goes into its own bore and no other.",
            tables=fitted(self._which(), self.narrow),
        )
        self.step(
            "Break the edge of each pocket lightly, no more than takes the burr off.",
            "The bore itself is not touched, nor the floor.",
        )
        self.step(
            "Clean pockets and inserts, the corner at the floor above all, and dry them. No oil.",
            "A chip under an insert lifts it off its floor. Lay each insert beside its bore, chamfer down.",
            places=("clean",),
        )

    def _not_yet(self) -> str:
        """Which bores are not, once some are; before that every bore is still to come."""
        waits: dict[str, list[str]] = {}
        for valve in self.served:
            if valve.status not in _ACCEPTED:
                waits.setdefault(STATUS[valve.status], []).append(valve.name)
        said = [f"{valves(names)} {words}" for words, names in waits.items()]
        if list(waits) == [STATUS[Status.TO_BORE]] and not any(
            valve.status == Status.ACCEPTED for valve in self.served
        ):
            said = []
        awaited = takers(self.plan.valves)
        said += [f"{valve.name}: {why.rstrip('.')}" for valve in self.served
                 if (why := wait(awaited, valve))]  # fmt: skip
        on_hold = [valve.name for valve in valves_of(self.plan, self.head) if valve.status == Status.HOLD]
        said += [f"{valves(on_hold)} on HOLD"] if on_hold else []
        return f" Not yet: {'; '.join(said)}." if said else ""

    def _which(self) -> Table:
        unit = figures.bench(self.job).unit
        head = ("Valve", "Insert", "Its od as read", f"Interference {unit}", "Bore accepted")
        return Table(head, tuple(self._row_which(valve) for valve in self.served), "Which insert into which bore")

    def _row_which(self, valve: ValvePlan) -> tuple[str, ...]:
        accepted = {Status.ACCEPTED: "yes", Status.KEPT: "kept as found"}.get(valve.status) or blank(4)
        name = valve.insert.name if valve.insert is not None else NONE
        return (bold(valve.name), bold(name), self._od(valve), self._interference(valve), accepted)

    def _od(self, valve: ValvePlan) -> str:
        """As read; what a blank is turned to, once its bore is known; else a blank to write in."""
        cut, insert = valve.valve.cut, valve.insert
        read = (cut.insert_od if cut is not None else None) or valve.found.insert_od
        if read is not None and valve.at20.insert_od is not None:
            return read.typed
        if insert is None or valve.status != Status.ACCEPTED or not valve.turned:
            return blank(5)
        if insert.od_least is not None and insert.od_most is not None:
            to = span(limits(insert.od_least, insert.od_most, figures.bench(self.job)))
            return Markdown("turn to {} at 20 °C: {}").format(to, blank(5))
        return blank(5)

    def _interference(self, valve: ValvePlan) -> str:
        fit, unit = valve.interference, figures.bench(self.job)
        made = valve.cut.interference if valve.cut is not None else None
        if valve.status == Status.ACCEPTED and made is not None:
            whose = "measured" if valve.at20.insert_od is not None else "by the list"
            return Markdown("**{}** {}").format(shown(made, figures.judged(self.job)).text, whose)
        if valve.status in _NOT_WITH_THESE_FIGURES or fit is None:
            return NONE
        if valve.status == Status.KEPT and fit.expected is not None:
            return Markdown("**{}** measured").format(shown(fit.expected, figures.judged(self.job)).text)
        return f"{span(limits(fit.least, fit.most, unit))} planned"

    def _together(self, number: int, group: Sequence[ValvePlan]) -> None:
        way, names = group[0].assembly, tuple(valve.name for valve in group)
        assert way is not None
        whom = "" if len(groups(self.served)) == 1 else f" for {valves(names)}"
        if way.head_C.value > BURNS_FROM:
            self.step(
                f"Heat the head{whom}, deck up, until it is as warm all through as",
                "Measure at the pockets, not at the oven. Every sum on this card counts on it.",
                (self._warm(way.head_C.value),),
                places=("heat",),
                served=names,
            )
        else:
            self.step(f"The head stays as it is{whom}, at {figures.temperature(way.head_C.value, self.job)}: no heat.")
        if way.chill != NO_CHILL:
            cold = figures.temperature(way.insert_C.value, self.job) if way.insert_C is not None else ""
            arrives = (
                f" The sums count on an insert no warmer than {figures.temperature(way.arrives_C.value, self.job)} "
                "when it reaches its bore: be quick."
                if way.arrives_C is not None
                else ""
            )
            self.step(
                f"Chill the inserts{' of ' + valves(names) if whom else ''} in {way.chill}{', ' + cold if cold else ''}"
                ", until they are cold all through.",
                f"Take out one at a time.{arrives}",
                places=("chill",),
                served=names,
            )
        self.step(
            "Put the inserts in, from the top of this list down, chamfer down and straight. Hold each down until it "
            "has gripped.",
            self._going_in(group),
            tables=fitted(self._ways(group), self.narrow),
            places=("press",),
            served=names,
            drawing=f"{CLEARANCE}-{self.head.number}-{number}",
        )

    def _warm(self, value: float) -> Shown:
        text, unit = figures.temperature(value, self.job).split(" ")
        return Shown(text, unit)

    def _going_in(self, group: Sequence[ValvePlan]) -> str:
        kinds = {valve.assembly.kind for valve in group if valve.assembly is not None}
        says = []
        if "drop-in" in kinds:
            says.append("One that drops in and stops on its way comes out again at once; it is never struck.")
        if "push" in kinds:
            says.append("One to push goes down under the driver by hand, straight and without a stop.")
        if "press" in kinds:
            says.append("One to press goes down in one stroke of the press; the force is what it takes at most.")
        if any(valve.assembly is not None and valve.assembly.grabs_at_C is not None for valve in group):
            says.append("It grabs once it has warmed to what the table says, the head still hot; after that nothing "
                        "moves it.")  # fmt: skip
        return " ".join(says)

    def _ways(self, group: Sequence[ValvePlan]) -> Table:
        unit = figures.bench(self.job).unit
        head = ("Valve", "How", f"Clearance {unit}", "Grabs at about", "In, held down")
        rows = []
        for valve in group:
            way = valve.assembly
            assert way is not None
            kind = _KIND[way.kind]
            if way.kind == "press" and way.press_N is not None:
                kind = f"{kind}, {figures.force(way.press_N.value, self.job)}"
            free = way.clearance.value >= 0
            clearance = shown(way.clearance, figures.bench(self.job), "down").text if free else NONE
            grabs = figures.about(way.grabs_at_C.value, self.job) if way.grabs_at_C is not None else NONE
            rows.append((bold(valve.name), bold(kind), clearance, grabs, blank(4)))
        return Table(head, tuple(rows))

    def _without_a_way(self) -> None:
        bare = [valve.name for valve in self.served if valve.assembly is None]
        if bare:
            self.step(
                f"How the inserts of {valves(bare)} go in is not worked out: measure the ring, see what the job sheet "
                "says is not given, and build again before they go in."
            )

    def _after(self) -> None:
        self.step(
            "Feel all round each insert with the thinnest feeler: it goes in nowhere. Measure how the "
            "insert stands, at four places.",
            self._face(),
            tables=fitted(self._stand(), self.narrow),
        )
        self.step("Let the head cool to the room by itself, deck up.", "No water and no air on it. Then feel again.")
        self.step(
            "Measure every guide again: heat and press move it.",
            "Was: before the heat. Largest and smallest, each less the stem, are to lie within what is allowed. Ream "
            "or replace what has closed or opened.",
            tables=fitted(self._guides(), self.narrow),
        )
        stays = [valve.name for valve in valves_of(self.plan, self.head) if self._stays(valve)]
        if stays:
            self.step(
                f"Sound and feel the inserts that were in before: {valves(stays)}.",
                "One that sounds dull, weeps or turns is loose: it goes on the next card.",
                places=("heat",),
                served=tuple(stays),
            )

    def _stays(self, valve: ValvePlan) -> bool:
        """Whether an insert is in this valve's pocket while the others go in."""
        integral = valve.valve.specification.seat_integral is not None and valve.finished is None
        return valve.name not in self.names and valve.status not in (Status.HOLD, Status.NOT_PLANNED) and not integral

    def _face(self) -> str:
        face = self.head.depth_from.text if self.head.depth_from is not None else "rim"
        to = {"deck": "Below the deck", "rim": "Below the rim of its pocket", "floor": "Below its face"}[face]
        return f"{to}, proud as −. What stands high is pressed down again while it is warm."

    def _stand(self) -> Table:
        unit = figures.seat_gauge(self.job).unit
        head = ("Valve", f"To stand {unit}", "1", "2", "3", "4", "Feeler")
        rows = [
            (
                bold(valve.name),
                bold(below(self.job, valve.stand)) if valve.stand else "not given",
                *(blank(4) for _ in range(5)),
            )
            for valve in self.served
        ]
        return Table(head, tuple(rows))

    def _guides(self) -> Table:
        unit = figures.bench(self.job).unit
        head = ("Valve", f"Spring end was {unit}", "Now", "Middle was", "Now", "Port end was", "Now", "Stem", "Allowed")
        rows = []
        for valve in self.served:
            found = valve.found
            cells = (found.guide_top, found.guide_middle, found.guide_bottom)
            pairs = ((typed(cell) or NONE, blank(5)) for cell in cells)
            stem = typed(found.stem or valve.valve.specification.stem) or NONE
            limit = bold(allowed(self.job, valve))
            rows.append((bold(valve.name), *(each for pair in pairs for each in pair), stem, limit))
        return Table(head, tuple(rows))
