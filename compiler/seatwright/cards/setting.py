"""The setting card: one setting of the cutter, from the head on the machine to the last bore measured."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.cards import figures
from seatwright.cards.card import Content, Drawing
from seatwright.cards.escape import Markdown
from seatwright.cards.figures import shown
from seatwright.cards.outcomes import if_big, outcomes
from seatwright.cards.setting_tables import ONE_PASS, full_set, order, running
from seatwright.cards.standing import takers, wait
from seatwright.cards.words import (
    Steps,
    at,
    bench_at,
    beside,
    blank,
    fitted,
    named,
    valves,
)
from seatwright.job.model import Head
from seatwright.planning.plan import DepthStop, PassBelow, Plan, Setting, ValvePlan

INDICATOR, POCKET = "indicator", "pocket"
_DWELL = "three turns"


def setting_card(plan: Plan, head: Head, setting: Setting, narrow: bool, drawings: Sequence[Drawing]) -> Content:
    """All steps of a setting. drawings: those of this card, called `indicator` and `pocket` and its number."""
    return _Card(plan, head, setting, narrow, tuple(drawings)).content()


class _Card:
    """The steps as they are written one after the other."""

    def __init__(self, plan: Plan, head: Head, setting: Setting, narrow: bool, drawings: tuple[Drawing, ...]) -> None:
        self.plan, self.job, self.head, self.setting = plan, plan.job, head, setting
        self.narrow, self.drawings = narrow, drawings
        self.bored = tuple(named(plan, name) for name in setting.valves)
        self.first = self.bored[0]
        self.bench = bench_at(self.job, head)
        self.gauge = figures.setting_gauge(self.job, setting)
        self.bore_gauge = figures.bore_gauge(self.job)
        self.steps = Steps(plan, setting.valves, drawings)
        self.step = self.steps.step

    def content(self) -> Content:
        self._wait()
        self._head_on_the_machine()
        self._cutter()
        self._speed()
        self._depth()
        self._passes()
        if self.setting.first is not None:
            self._first_cut()
        self._bores()
        return Content(
            lines=self._lines(),
            steps=tuple(self.steps.written),
            drawings=self.drawings,
            outcomes=outcomes(self.job, self.setting, self.bored),
            tables=if_big(self.bored),
            closing="Bore all and measure all before any insert goes in; type the readings under cut, build again.",
            cautioned=tuple(caution.slug for caution in beside(self.plan, "bore", self.setting.valves)),
        )

    def _lines(self) -> tuple[tuple[str, str], ...]:
        found = [("Cutter", self.setting.cutter)]
        if self.setting.machine:
            found.append(("Machine", self.setting.machine))
        if self.setting.gauge:
            found.append(("Set with", self.setting.gauge))
        if self.job.bore_gauge is not None:
            found.append(("Measured with", self.job.bore_gauge.name.text))
        if self.setting.overcut is not None:
            found.append(("Counts on", self._overcut()))
        found.append(
            ("Temperature", f"bench figures are meant{at(self.bench)}" if self.bench else "not given: no correction")
        )
        return tuple(found)

    def _overcut(self) -> str:
        overcut = self.setting.overcut
        assert overcut is not None
        size = shown(overcut.value, figures.bench(self.job))
        whose = (
            "the shop's figure"
            if overcut.from_ == "shop"
            else f"{overcut.trials} trial cut{'s' * (overcut.trials != 1)}"
        )
        return f"the cutter boring {size} over its setting, by {whose}"

    def _wait(self) -> None:
        """Before anything is set up: which of these bores is not to be cut yet, and why."""
        awaited = takers(self.plan.valves)
        for valve in self.bored:
            why = wait(awaited, valve)
            if why:
                begin = " It has the first cut: do not begin this card." if valve is self.first else ""
                self.step(f"{why} Until then {valve.name} is NOT bored.{begin}")

    def _head_on_the_machine(self) -> None:
        machine = self.job.machine
        level = f" to {figures.typed(machine.level)}" if machine is not None and machine.level is not None else ""
        self.step(f"Level the head both ways{level} and clamp it.", "Level again after clamping. No chip under it.")
        passes = self.setting.passes
        first = named(self.plan, passes[0].valves[0]) if passes else self.first
        if self.setting.pilots:
            pilot = dict(self.setting.pilots).get(first.name)
            which = f"the pilot {pilot}" if pilot else "its pilot"
            self.step(
                f"Put {which} into the guide of {first.name}. Centre the spindle over it and lock.",
                f"{_seated(first)} Turn the spindle by hand, a full turn: nothing binds. So for every pocket.",
            )
        else:
            to = figures.typed(machine.centring) if machine is not None and machine.centring is not None else ""
            self.step(
                f"Centre the spindle over the guide of {first.name}{' to ' + to if to else ''} and lock.",
                "Turn it by hand, a full turn. So for every pocket.",
            )

    def _cutter(self) -> None:
        setting = self.setting
        if setting.master is not None and setting.master_reads is not None:
            master = shown(setting.master, self.gauge)
            self.step(
                f"Put the setting gauge on its master {master}. It must read",
                Markdown(
                    "Found {}. If that is anything else, stop: enter what the master reads, and build again."
                ).format(blank()),
                (shown(setting.master_reads, self.gauge, at=self._gauge_at()),),
            )
        if setting.passes:
            self._wind_pass(setting.passes[0])
        else:
            self._wind_first()
        if setting.reading is not None:
            self.step(
                f"Set the tip of {setting.cutter} to the indicator: sweep for the largest reading, lock, sweep again.",
                self._needle(),
                drawing="" if setting.passes else self._drawn(INDICATOR),
            )

    def _wind_first(self) -> None:
        """To the first cut where there is one, else to the bore."""
        setting = self.setting
        if setting.first is not None and setting.first.reading is not None:
            self.step(
                "First cut: wind the setting gauge to",
                "Always from below, so that no play is left in the screw.",
                (shown(setting.first.reading, self.gauge, at=self._gauge_at()),),
            )
        elif setting.reading is not None:
            self._wind("Wind the setting gauge to")

    def _wind_pass(self, one: PassBelow) -> None:
        size = shown(one.bore, figures.bench(self.job), "down")
        if one.reading is None:
            self.step(f"Pass below size in {valves(one.valves)}: set the tip to bore no more than", read=(size,))
            return
        self.step(
            f"Pass below size in {valves(one.valves)}, {size} across: wind the setting gauge to",
            "Always from below, so that no play is left in the screw.",
            (shown(one.reading, self.gauge, at=self._gauge_at()),),
        )

    def _wind(self, sentence: str) -> None:
        assert self.setting.reading is not None
        self.step(
            sentence,
            "Always from below. Lock, sweep once more, read again.",
            (shown(self.setting.reading, self.gauge, at=self._gauge_at()),),
        )

    def _gauge_at(self) -> str:
        warm = self.setting.temperature_C
        return figures.temperature(warm.value, self.job) if warm is not None else ""

    def _needle(self) -> str:
        step = self.setting.indicator_step
        if self.setting.indicator is None:
            return "Whether the needle shows radius or diameter is not said: find out before it is trusted."
        one = f"one division is {shown(step, figures.indicator(self.job, self.setting))}" if step is not None else ""
        if self.setting.indicator == "radius":
            return f"The needle shows RADIUS{': ' + one if one else ''}. What it moves counts double in the bore."
        return f"The needle shows DIAMETER{': ' + one if one else ''}. What it moves is what the bore grows."

    def _speed(self) -> None:
        table = running(self.job, self.bored)
        if table is None:
            return
        if len(table.rows) > 1:
            self.step("Set speed and feed.", tables=(table,))
            return
        # All run alike: said in the step itself, which spares the page a table of one row.
        speed, feed, time, passes = table.rows[0][1:]
        to = "" if passes == ONE_PASS else "passes out to "
        self.step(f"Set the speed: {speed}; the feed: {feed}.", f"Cutting time {time}; {to}{passes}.")

    def _depth(self) -> None:
        stops = self.setting.depth_stops
        face = self._face()
        if len(stops) == 1:
            self._one_stop(stops[0], f"Touch off on the {face}, then set the depth stop to")
        elif stops:
            for stop in stops:
                self._one_stop(stop, f"Depth stop for {valves(stop.valves)}: touch off on the {face}, then set")
        elif any(valve.depth is not None for valve in self.bored):
            self.step(f"Touch off on the {face} and set the depth stop by the limits of the table below.")

    def _one_stop(self, stop: DepthStop, sentence: str) -> None:
        # The dial's figure is in the dial's own unit; where it is not known, the depth itself is set.
        depth = stop.stop.value if stop.dial is None else figures.in_mm(stop.dial.value, stop.dial_unit or "mm")
        read = shown(depth, figures.dial(self.job, stop.dial_unit))
        self.step(sentence, f"At the stop let the cutter dwell, {_DWELL}, so that the floor is flat.", (read,))

    def _face(self) -> str:
        depth = next((valve.depth for valve in self.bored if valve.depth is not None), None)
        face = depth.from_ if depth is not None else "rim"
        return "old floor" if face == "floor" else face

    def _passes(self) -> None:
        """The floor is wider than the tip: its middle is cut first, each width by a setting of its own."""
        for place, one in enumerate(self.setting.passes):
            if place:
                self._wind_pass(one)
                self._set_again("")
            self.step(
                f"Bore {valves(one.valves)} with it, down to the stop{_own(self.setting.depth_stops)}.",
                "The floor is wider than the tip: without this pass the tip goes into solid metal and leaves a ridge. "
                "Nothing is measured yet.",
                places=("bore",),
            )
        if self.setting.passes:
            self._wind_first()
            self._set_again(INDICATOR)

    def _set_again(self, drawing: str) -> None:
        if self.setting.reading is not None:
            again = f"Set the tip of {self.setting.cutter} to the indicator again: sweep, lock, sweep again."
            self.step(again, drawing=self._drawn(drawing))

    def _drawn(self, drawing: str) -> str:
        return f"{drawing}-{self.setting.number}"

    def _ring(self) -> None:
        """The limits count on what the bore gauge shows on its ring: it is looked at before it measures anything."""
        setting, name = self.setting, self.job.bore_gauge.name.text if self.job.bore_gauge is not None else ""
        if setting.ring is not None and setting.ring_reads is not None:
            counts = "All limits on this card count on it."
            if self._beyond_rings():
                counts = "These bores lie beyond its rings: the limits take the gauge as it reads there."
            self.step(
                f"Set the {name} on its ring {shown(setting.ring, self.bore_gauge)}. It must read",
                Markdown(
                    "Found {}. {} If it cannot be set so, stop: enter what it reads on the ring, and build again."
                ).format(blank(), counts),
                (shown(setting.ring_reads, self.bore_gauge),),
            )
        elif name:
            self.step(
                f"Check the {name} on a ring near the size before it measures anything.",
                "No ring of it is given: the limits on this card take it as it reads.",
            )

    def _beyond_rings(self) -> bool:
        """Whether the error of the bore gauge is not in the limits: of several rings, it is known between them only."""
        rings = [ring.size.value for ring in self.job.bore_gauge.rings] if self.job.bore_gauge is not None else []
        aim = (self.setting.bench_aim or self.setting.aim).value
        return len(set(rings)) > 1 and not min(rings) <= aim <= max(rings)

    def _first_cut(self) -> None:
        setting, first = self.setting, self.setting.first
        assert first is not None
        under = (
            f", {shown(setting.trial_under, figures.bench(self.job))} under size"
            if setting.trial_under is not None
            else ""
        )
        self.step(
            f"First cut{under}: bore {self.first.name}, deep enough to measure at two heights and short of the stop.",
            "Stop the spindle. Let it cool, brush and vacuum the chips out, wipe the wall.",
            places=("bore",),
        )
        self._ring()
        if setting.bench_aim is None:
            return
        aim = shown(setting.bench_aim, self.bore_gauge, at=self.bench)
        half = {"radius": "; half on the needle {}", "diameter": " on the needle"}.get(
            setting.indicator or "", " on diameter; half on radius {}"
        )
        reckoned = Markdown("Setting's aim **{}** {} − measured {} = open by {}" + half).format(
            aim.text, aim.unit, blank(5), blank(5), *([blank(5)] if "{}" in half else [])
        )
        needle = {"radius": "The needle shows radius: move it by the half",
                  "diameter": "The needle shows diameter: move it by the whole"}  # fmt: skip
        by = needle.get(setting.indicator or "", "Open the tip by the half on radius")
        self.step(
            f"Measure the first cut{at(self.bench)}, do the sum, and open the tip by it.",
            f"{by}, outwards, sweeping for the largest reading.",
            reckoned=reckoned,
        )
        if setting.reading is not None:
            self.step(
                "Read the setting gauge. For the full bore it was planned to read",
                Markdown(
                    "Found {}. It may differ by what the first cut told. By more: something moved, set anew."
                ).format(blank()),
                (shown(setting.reading, self.gauge, at=self._gauge_at()),),
            )

    def _bores(self) -> None:
        if self.setting.first is None:
            self._ring()
        awaited = takers(self.plan.valves)
        waits = [valve.name for valve in self.bored if wait(awaited, valve)]
        here = [valve.name for valve in self.bored if valve.trial_here and valve is not self.first]
        trial = f" A trial cut of its own first in {valves(here)}." if here else ""
        self.step(
            f"Bore in this order, measure each before the next.{trial}"
            f"{' WAIT for ' + valves(waits) + ': see step 1.' if waits else ''}",
            f"Limits as the bore gauge shows them{at(self.bench)}; depth from the {self._face()}. Write the largest "
            "and the smallest of what you read, not the mean.",
            tables=fitted(order(self.job, self.bored), self.narrow, 2),
            places=("bore",),
        )
        self.step(
            "Write the full set for the first and the last bore, and wherever in doubt: two ways at right angles, at "
            "the rim and low; depth at four places.",
            tables=fitted(full_set(self.bored), self.narrow),
            drawing=self._drawn(POCKET),
        )


def _own(stops: Sequence[DepthStop]) -> str:
    return " that belongs to the valve" if len(stops) > 1 else ""


def _seated(valve: ValvePlan) -> str:
    kind = valve.pilot.kind if valve.pilot is not None else ""
    if kind == "expanding":
        return "Set the pilot down on its shoulder and expand it; it must not turn or rock."
    if kind == "tapered":
        return "Push the pilot in by hand until it holds; it must not rock."
    if kind == "live":
        return "It slides in by its own weight and turns freely."
    return "It drops in by its own weight and does not rock."
