"""The press card: which insert goes into which bore, how warm, how cold, in which order, what is looked at with each.

On it are the valves whose insert still has to go in; kept pockets too.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from seatwright.cards.card import Box, CardTable, Column, Content, Held
from seatwright.cards.escape import Markdown
from seatwright.cards.kinds.close_out import close_out
from seatwright.cards.parts import figures
from seatwright.cards.parts.care import care
from seatwright.cards.parts.figures import Shown, as_read, digits_shown, limits
from seatwright.cards.parts.limits import allowed, stacked
from seatwright.cards.parts.standing import takers, wait
from seatwright.cards.parts.words import (
    NO_INSERT,
    NONE,
    STATUS,
    TO_BORE,
    all_or,
    blank,
    bold,
    limits_below,
    valves,
    valves_of,
)
from seatwright.job.model import Head
from seatwright.planning.basis import instruments
from seatwright.planning.plan import AssemblyPlan, Plan, Status, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.planning.pressing.heats_and_chills import NO_CHILL, room_temperature

_ACCEPTED = (Status.ACCEPTED, Status.KEPT)
_NOT_WITH_THESE_FIGURES = (Status.MEASURE_AGAIN, Status.OVERSIZE)
_OF_BORING = ("chips-and-eyes", "no-compressed-air", "sodium-filled-valves", "thin-bridge")
_KIND = {"drop-in": "drops", "push": "push", "press": "PRESS"}


def to_press(plan: Plan, head: Head) -> tuple[ValvePlan, ...]:
    """The valves of a head whose insert still has to go in, in the order in which they do; one on hold is none."""
    out = [valve for valve in valves_of(plan, head) if _still_out(valve)]
    return tuple(sorted(out, key=lambda valve: valve.assembly.order if valve.assembly is not None else len(out) + 1))


def _still_out(valve: ValvePlan) -> bool:
    if (
        valve.status in (*NO_INSERT, Status.HOLD, Status.GUIDE_FIRST, Status.FINISHED, Status.TO_CUT)
        or valve.insert is None
    ):
        return False
    # What stands high is pressed down once more.
    return valve.finished is None or dict(valve.finished.verdicts).get("stand") == "fail"


def press_card(plan: Plan, head: Head, last: bool) -> Content:
    """All from the bored head to the cold one with its inserts. last: before the record, with the close-out on it."""
    return _Card(plan, head).content(last)


def _way(way: AssemblyPlan | None) -> tuple[float, str]:
    assert way is not None
    return way.head_C.value, way.chill


def _reheat(valve: ValvePlan) -> Figure | None:
    """The head temperature below which this insert no longer goes in, where the plan says it."""
    return None if valve.assembly is None else valve.assembly.reheat_below_C


def _stays(valve: ValvePlan) -> bool:
    """Whether an insert is in this pocket, where none is to go in, while the others go in."""
    integral = valve.valve.specification.seat_integral is not None and valve.finished is None
    return valve.status not in (Status.HOLD, Status.GUIDE_FIRST, Status.NOT_PLANNED) and not integral


class _Card:
    """The boxes as they are written one after the other."""

    def __init__(self, plan: Plan, head: Head) -> None:
        self.plan, self.job, self.head = plan, plan.job, head
        self.served = to_press(plan, head)
        self.names = tuple(valve.name for valve in self.served)
        ready = [valve for valve in self.served if valve.assembly and valve.status not in _NOT_WITH_THESE_FIGURES]
        ordered = sorted(ready, key=lambda valve: valve.assembly.order if valve.assembly else 0)
        self.groups = [list(group) for _, group in groupby(ordered, key=lambda valve: _way(valve.assembly))]
        self.number = 0

    def content(self, last: bool) -> Content:
        served = set(self.names)
        others = (valve for valve in valves_of(self.plan, self.head) if valve.name not in served)
        stays = tuple(valve.name for valve in others if _stays(valve))
        strip = care(self.plan, ("clean", "heat", "chill", "press"), self.names, without=_OF_BORING)
        boxes = tuple(self._boxes())
        after = tuple(self._after(stays))
        close = (close_out(self.plan, self.head, self._next()),) if last else ()
        return Content(
            holds=tuple(self._holds()),
            boxes=boxes,
            care=strip.sentences,
            tables=(self._table(),),
            below=tuple(self._below()),
            last=(*after, *close),
            closing="Type stand under finished and the guides under measured, build again.",
            cautioned=(*strip.slugs, *(("pressure-test",) if close else ())),
        )

    def _next(self) -> int:
        self.number += 1
        return self.number

    def _box(self, sentence: str, *small: str, loud: Shown | None = None, figures_: tuple[Shown, ...] = ()) -> Box:
        return Box(self._next(), sentence, loud, figures_, tuple(each for each in small if each))

    def _holds(self) -> Iterator[Held]:
        """What keeps every insert out: bores that are not accepted, one that may want another's insert."""
        waiting: dict[str, list[str]] = {}
        for valve in self.served:
            if valve.status not in _ACCEPTED:
                words = "to be bored and accepted" if valve.status in TO_BORE else STATUS[valve.status]
                waiting.setdefault(words, []).append(valve.name)
        said = [f"{valves(names)} {words}" for words, names in waiting.items()]
        for status, words in ((Status.HOLD, "on hold"), (Status.GUIDE_FIRST, "guide first")):
            names = [valve.name for valve in valves_of(self.plan, self.head) if valve.status is status]
            said += [f"{valves(names)} {words}"] if names else []
        awaited = takers(self.plan.valves)
        waits = [f"{valve.name} waits: {why}" for valve in self.served if (why := wait(awaited, valve))]
        if said or waits:
            before = f"Nothing goes in before every bore of this head is accepted: {'; '.join(said)}."
            yield Held("NOT YET", " ".join((*([before] if said else []), *waits)))

    def _boxes(self) -> Iterator[Box]:
        yield self._box("Break the burr. Clean floor, corner and insert, dry", "Brush or vacuum, no oil. Each insert "
                        "beside its own bore, chamfer down.")  # fmt: skip
        limit = self.head.heat_limit
        never = f"Never over {figures.temperature(limit.value, self.job)}." if limit is not None else ""
        for place, group in enumerate(self.groups):
            whom = f" for {valves(valve.name for valve in group)}" if len(self.groups) > 1 else ""
            yield from self._warm_and_cold(group[0].assembly, whom, never, first=place == 0)
        kinds = {valve.assembly.kind for valve in self.served if valve.assembly is not None}
        yield self._box("One at a time, in this order, straight, until it grips", *self._going_in(kinds))
        yield self._box("With each, warm: feeler nowhere, stand at four places", f"{self._stand()} High: press down "
                        "again while it is warm.")  # fmt: skip
        yield self._box("Cool to the room by itself, deck up. Feel again, then every guide",
                        "No water, no air. Largest and smallest, each less the stem, within what is allowed; else ream "
                        "or replace.")  # fmt: skip

    def _warm_and_cold(self, way: AssemblyPlan | None, whom: str, never: str, *, first: bool) -> Iterator[Box]:
        assert way is not None
        warm = figures.temperature(way.head_C.value, self.job)
        if way.head_C.value > room_temperature(self.job, self.head).value:
            loud = Shown(warm.replace(" ", "\u00a0"), "")
            words = f"Heat the head{whom}, deck up, all through, to"
            said = (f"Measured at the pockets, not at the oven. {never}", *self._stop_below())
            yield self._box(words, *said, loud=loud) if first else self._box(words, *said, figures_=(loud,))
        else:
            yield self._box(f"No heat{whom}: the head stays at {warm}", never)
        if way.chill != NO_CHILL:
            cold = figures.temperature(way.insert_C.value, self.job) if way.insert_C is not None else ""
            there = way.arrives_C
            quick = (
                f"No warmer than {figures.temperature(there.value, self.job)} at its bore: be quick." if there else ""
            )
            name = way.chill[0].upper() + way.chill[1:]
            yield self._box(
                f"{name} {cold}{whom}, until the inserts are cold all through", f"One out at a time. {quick}"
            )

    def _stop_below(self) -> Iterator[str]:
        if any(_reheat(valve) is not None for valve in self.served):
            yield "Below the next row's reheat figure: stop, heat again."

    def _going_in(self, kinds: set[str]) -> Iterator[str]:
        if "drop-in" in kinds:
            yield "Stopped half-way: out at once, never struck."
        if "push" in kinds:
            yield "Push: under the driver by hand, without a stop."
        if "press" in kinds:
            yield "PRESS: one stroke; the force is the most it takes."

    def _stand(self) -> str:
        face = self.head.depth_from.text if self.head.depth_from is not None else "rim"
        to = {"deck": "the deck", "rim": "the rim of its pocket", "floor": "its face"}[face]
        said: dict[str, list[str]] = {}
        for valve in self.served:
            said.setdefault(limits_below(self.job, valve.stand) or "no limit given", []).append(valve.name)
        each = [one if len(said) == 1 else f"{valves(names)} {one}" for one, names in said.items()]
        return f"{'; '.join(each)}; of {to}, proud as −."

    def _below(self) -> Iterator[str]:
        may: dict[tuple[str, str], list[str]] = {}
        for valve in self.served:
            stem = as_read(self.job, valve.found.stem or valve.valve.specification.stem) or NONE
            may.setdefault((allowed(self.job, valve), stem), []).append(valve.name)
        each = "; ".join(f"{all_or(names, self.names)} {limit}, stem {stem}" for (limit, stem), names in may.items())
        yield f"Guide less stem, allowed: {each}."
        gone: dict[str, list[str]] = {}
        for valve in self.served:
            if valve.fit is not None and valve.fit.gone_at_C is not None:
                gone.setdefault(figures.about_temperature(valve.fit.gone_at_C.value, self.job), []).append(valve.name)
        if gone:
            each = "; ".join(f"{valves(names)} {warm}" for warm, names in gone.items())
            yield f"Insert and head equally hot: nothing holds the insert any more at about: {each}."
        bare = [valve.name for valve in self.served if valve.assembly is None]
        if bare:
            yield (f"How the inserts of {valves(bare)} go in is not worked out: measure the ring, see the back of the "
                   "job sheet, and build again before they go in.")  # fmt: skip

    def _after(self, stays: tuple[str, ...]) -> Iterator[Box]:
        if stays:
            yield self._box(f"Sound and feel the inserts that were in before: {valves(stays)}",
                            "One that sounds dull, weeps or turns is loose: it comes out as well.")  # fmt: skip

    def _table(self) -> CardTable:
        unit = figures.bench(self.job).unit
        ways = [valve.assembly for valve in self.served if valve.assembly is not None]
        grips = any(way.grabs_at_C is not None for way in ways)
        reheat = any(_reheat(valve) is not None for valve in self.served)
        degrees = "°F" if instruments.job_unit(self.job) == "in" else "°C"
        columns = [
            Column("Valve", "", 13), Column("Insert", f"od {unit}", 18), Column("Fit", unit, 20),
            Column("How", "clear", 18),
        ]  # fmt: skip
        columns += [Column("Grips", f"about {degrees}", 13)] if grips else []
        columns += [Column("Reheat", f"below {degrees}", 15)] if reheat else []
        columns += [Column("In", "", 7)]
        columns += [Column("Stand" if n == "1" else "", n, 14 if n == "1" else 9) for n in "1234"]
        columns += [Column("Feeler", "", 15), Column("Guide", "spring", 15), Column("now", "middle", 15)]
        columns += [Column("", "port", 15)]
        rows = tuple(self._row(valve, grips, reheat) for valve in self.served)
        return CardTable(tuple(columns), rows)

    def _row(self, valve: ValvePlan, grips: bool, reheat: bool) -> tuple[str, ...]:
        way = valve.assembly if valve.status not in _NOT_WITH_THESE_FIGURES else None
        found = valve.found
        cells = [valve.name, self._insert(valve), self._fit(valve), self._how(way)]
        if grips:
            warm = (
                figures.about_temperature(way.grabs_at_C.value, self.job)
                if way and way.grabs_at_C is not None
                else NONE
            )
            cells.append(warm.partition(" ")[0])
        if reheat:
            again = _reheat(valve) if way is not None else None
            warm = figures.at_least(again.value, self.job) if again is not None else NONE
            cells.append(bold(warm.partition(" ")[0]))
        cells.append(blank())
        cells += [blank()] * 5
        was = (found.guide_top, found.guide_middle, found.guide_bottom)
        cells += [Markdown("*{}* {}").format(as_read(self.job, cell) or NONE, blank()) for cell in was]
        return tuple(cells)

    def _insert(self, valve: ValvePlan) -> str:
        """Name and od as read; what a blank is turned to, once its bore is known; else a blank to write in."""
        cut, insert = valve.valve.cut, valve.insert
        name = insert.name if insert is not None else NONE
        read = (cut.insert_od if cut is not None else None) or valve.found.insert_od
        if read is not None:
            return Markdown("**{}** *{}*").format(name, as_read(self.job, read))
        turned = insert is not None and valve.status == Status.ACCEPTED and valve.turned
        if turned and insert is not None and insert.od_least is not None and insert.od_most is not None:
            to = stacked(limits(insert.od_least, insert.od_most, figures.bench(self.job)))
            return Markdown("turn to {} *at 20 °C* {}").format(to, blank())
        return Markdown("**{}** {}").format(name, blank())

    def _fit(self, valve: ValvePlan) -> str:
        fit, unit = valve.interference, figures.bench(self.job)
        made = valve.cut.interference if valve.cut is not None else None
        if valve.status == Status.ACCEPTED and made is not None:
            whose = "measured" if valve.at20.insert_od is not None else "by the list"
            return Markdown("**{}** *{}*").format(digits_shown(made, unit), whose)
        if valve.status in _NOT_WITH_THESE_FIGURES or fit is None:
            return NONE
        if valve.status == Status.KEPT and fit.expected is not None:
            return Markdown("**{}** *measured*").format(digits_shown(fit.expected, unit))
        return stacked(limits(fit.least, fit.most, unit))

    def _how(self, way: AssemblyPlan | None) -> str:
        if way is None:
            return NONE
        if way.kind == "press" and way.press_N is not None:
            return Markdown("**PRESS** *{}*").format(figures.force(way.press_N.value, self.job))
        free = digits_shown(way.clearance, figures.bench(self.job), "down") if way.clearance.value >= 0 else NONE
        return Markdown("**{}** *{}*").format(_KIND[way.kind], free)
