"""The setting card: one setting of the cutter, from the head on the machine to the last bore measured."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from seatwright.cards.card import HATCHED, Box, CardTable, Column, Content, DrawingOnCard, Held
from seatwright.cards.escape import Markdown
from seatwright.cards.parts import figures
from seatwright.cards.parts.care import care
from seatwright.cards.parts.figures import Shown, digits_shown, shown
from seatwright.cards.parts.limits import certain_of, stacked
from seatwright.cards.parts.outcomes import outcomes
from seatwright.cards.parts.running import Running, running
from seatwright.cards.parts.standing import takers, wait
from seatwright.cards.parts.words import (
    NONE,
    bench_at,
    blank,
    bold,
    bore_limits,
    depth_limits,
    valves,
)
from seatwright.job.model import BoreGauge, Gauge, Head
from seatwright.planning.basis import instruments
from seatwright.planning.basis.check_dates import check_state
from seatwright.planning.plan import PassBelow, Plan, Setting, ValvePlan

POCKET = "pocket"
_DWELL = "dwell three turns"
_THEN = "Type the readings under cut, build again."
_GOES_IN = {
    "dead": "drops in",
    "expanding": "grips",
    "tapered": "holds, pushed by hand",
    "live": "slides in and turns freely",
}


def setting_card(plan: Plan, head: Head, setting: Setting, level_as: str, drawings: Sequence[DrawingOnCard]) -> Content:
    """All of a setting. level_as: the setting for which the head was levelled and clamped, "" where it is this one."""
    return _Card(plan, head, setting).content(level_as, tuple(drawings))


class _Card:
    """The boxes as they are written one after the other."""

    def __init__(self, plan: Plan, head: Head, setting: Setting) -> None:
        self.plan, self.job, self.head, self.setting = plan, plan.job, head, setting
        planned = {valve.name: valve for valve in plan.valves}
        self.bored = tuple(planned[name] for name in setting.valves)
        self.first = self.bored[0]
        self.bench = bench_at(self.job, head)
        self.gauge = figures.gauge_of_setting(self.job, setting)
        self.bore_gauge = instruments.bore_gauge(self.job)
        awaited = takers(plan.valves)
        self.waits = {valve.name: why for valve in self.bored if (why := wait(awaited, valve))}
        self.number = 0

    def content(self, level_as: str, drawings: tuple[DrawingOnCard, ...]) -> Content:
        strip = care(self.plan, ("bore",), self.setting.valves)
        boxes = (*self._level(level_as), *self._cutter(), *self._speed(), *self._ring())
        first = tuple(self._first_pocket())
        number = self._next()
        return Content(
            holds=tuple(self._holds()),
            boxes=boxes,
            care=strip.sentences,
            first=first,
            loop_title="Every pocket, in the order of the table",
            loop_number=number,
            loop=tuple(self._loop()),
            tables=(self._table(),),
            outcomes=(*outcomes(self.job, self.setting, self.bored), ("Then", _THEN)),
            drawings=() if self.setting.passes else drawings,  # their box takes the room of the section
            reading=str(self._loud()) if self._loud() is not None else "",
            cautioned=strip.slugs,
        )

    def _next(self) -> int:
        self.number += 1
        return self.number

    def _box(self, sentence: str, *small: str, **more: object) -> Box:
        begun = self.first.name not in self.waits
        kept = tuple(each for each in small if each)
        return Box(self._next(), sentence, small=kept, initial=begun, **more)  # type: ignore[arg-type]

    def _holds(self) -> Iterator[Held]:
        for name, why in self.waits.items():
            begin = " It has the first cut: do not begin this card." if name == self.first.name else ""
            yield Held(f"WAIT {name}", f"{why} Until then {name} is not bored.{begin}")

    def _level(self, level_as: str) -> Iterator[Box]:
        machine = self.job.machine
        level = machine.level if machine is not None else None
        to = f"to {figures.typed(level)}" if level is not None else ""
        if any(valve.valve_tilt is not None for valve in self.bored):
            lean = dict.fromkeys(figures.angle(v.valve_tilt.value) for v in self.bored if v.valve_tilt is not None)
            said = f"Level on the pilot{' ' + to if to else ''}: the guide square to the table."
            yield self._box("Tilt the head, clamp, check again", said, f"It leans {' and '.join(lean)}.")
        elif level_as:
            yield self._box("Head clamped and level as before", f"As for {level_as}. Moved since: level again, {to}.")
        else:
            yield self._box("Level both ways, clamp, check again", f"Level {to}." if to else "", "No chip under it.")

    def _cutter(self) -> Iterator[Box]:
        setting, loud = self.setting, self._loud()
        if setting.master is not None and setting.master_reads is not None:
            yield self._box(
                f"Setting gauge on master {digits_shown(setting.master, self.gauge)} reads",
                Markdown("Found {} or stop.").format(blank(4)),
                self._overdue(self.job.gauge),
                figures=(shown(setting.master_reads, self.gauge),),
            )
        if setting.passes:
            yield self._passes(setting.passes)
        if loud is not None:
            what = "First cut: wind to" if setting.first is not None else "Wind to"
            yield self._box(what, "From below; lock.", loud=loud)
        elif setting.reading is None:
            yield self._box(f"Set the tip of {setting.cutter} to bore", loud=shown(setting.aim, self.bore_gauge))
        if setting.reading is not None:
            # With passes below size the boxes are one too many for two rows: how the machine runs stands here.
            runs = [f"{each.said}." for each in self._running()] if setting.passes else []
            yield self._box("Needle: sweep for the largest, lock, sweep", self._needle(), *runs)

    def _loud(self) -> Shown | None:
        """The one figure that is set."""
        setting = self.setting
        reading = setting.first.reading if setting.first is not None else setting.reading
        return shown(reading, self.gauge, at=self._gauge_at()) if reading is not None else None

    def _gauge_at(self) -> str:
        warm = self.setting.temperature_C
        said = figures.temperature(warm.value, self.job) if warm is not None else ""
        return said if said != self.bench else ""  # the head of the card says it

    def _passes(self, passes: Sequence[PassBelow]) -> Box:
        """The floor is wider than the tip: its middle is cut first, each width by a setting of its own."""
        wound, across = [], []
        for one in passes:
            size = shown(one.bore, figures.bench(self.job), "down")
            wound.append(
                Shown((size if one.reading is None else shown(one.reading, self.gauge)).text, valves(one.valves))
            )
            across.append(size.text)
        return self._box(
            "Below size first, to the stop: wind to",
            f"No more than {', '.join(across)} {instruments.job_unit(self.job)} across; the floor is wider than "
            "the tip, and without these passes it leaves a ridge. Nothing is measured yet.",
            figures=tuple(wound),
        )

    def _needle(self) -> str:
        step = self.setting.indicator_step
        one = f" division {shown(step, figures.indicator(self.job, self.setting))}." if step is not None else ""
        match self.setting.indicator:
            case "radius":
                return f"Shows RADIUS, half the gain;{one}"
            case "diameter":
                return f"Shows DIAMETER, all the gain;{one}"
        return "Whether it shows radius or diameter is not said: find out before it is trusted."

    def _running(self) -> tuple[Running, ...]:
        return running(self.job, self.bored, passes=not self.setting.passes)

    def _speed(self) -> Iterator[Box]:
        groups = () if self.setting.passes and self.setting.reading is not None else self._running()
        if len(groups) == 1:
            (alike,) = groups
            yield self._box("Speed and feed", *alike.more, figures=alike.shown)
        elif groups:
            yield self._box("Speed and feed", *(f"{valves(each.valves)}: {each.said}" for each in groups))

    def _ring(self) -> Iterator[Box]:
        """The limits count on what the bore gauge shows on its ring: it is looked at before it measures anything."""
        setting, name = self.setting, self.job.bore_gauge
        if setting.ring is not None and setting.ring_reads is not None:
            yield self._box(
                f"Bore gauge on ring {digits_shown(setting.ring, self.bore_gauge)} reads",
                Markdown("Found {} or stop.").format(blank(4)),
                "These lie beyond its rings." if self._beyond_rings() else "",
                self._overdue(name),
                figures=(shown(setting.ring_reads, self.bore_gauge),),
            )
        elif name is not None:
            yield self._box("Bore gauge on a ring near the size", "No ring of it is given: limits take it as it reads.")

    def _overdue(self, gauge: Gauge | BoreGauge | None) -> str:
        """That an instrument was not checked in time, "" where it was, or where nobody can tell."""
        state = check_state(gauge, self.job.day) if gauge is not None and self.job.day is not None else None
        return f"Its check is overdue since {state.due}." if state is not None and state.overdue else ""

    def _beyond_rings(self) -> bool:
        """Whether the error of the bore gauge is not in the limits: of several rings, it is known between them only."""
        rings = [ring.size.value for ring in self.job.bore_gauge.rings] if self.job.bore_gauge is not None else []
        aim = (self.setting.bench_aim or self.setting.aim).value
        return len(set(rings)) > 1 and not min(rings) <= aim <= max(rings)

    def _first_pocket(self) -> Iterator[Box]:
        """Bore and depth of the first pocket, both short, and the sums that bring them to size."""
        setting, first = self.setting, self.setting.first
        if first is None:
            return
        stop = first.stop
        short = f"short of depth at {digits_shown(stop, self._dial())}" if stop is not None else "short of depth"
        under = (
            f"{digits_shown(setting.trial_under, figures.bench(self.job))} under" if setting.trial_under else "short of"
        )
        own = [valve for valve in self.bored[1:] if valve.trial_here]
        again = f"Likewise in {valves(valve.name for valve in own)}, by its own aim." if own else ""
        yield self._box(
            f"First pocket {self.first.name}: bore {under} size and {short}. Cool, clean, measure.",
            again,
            table=self._sums(),
        )

    def _sums(self) -> CardTable:
        setting, first = self.setting, self.setting.first
        unit = self.bore_gauge.unit
        aim = shown(setting.bench_aim or setting.aim, self.bore_gauge)
        half = {"radius": "half, needle", "diameter": "all, needle"}.get(setting.indicator or "", "half, on radius")
        now = shown(first.reading, self.gauge) if first is not None and first.reading is not None else None
        columns = [
            Column("Sum", "", 20), Column(f"aim {unit}", "", 20), Column("− measured", "", 24),
            Column("= open by", "deeper by", 24), Column(half, "parallel, thick", 26),
        ]  # fmt: skip
        rows = [["**Bore**", aim.text, blank(), blank(), blank()]]
        if now is not None:
            columns.append(Column("gauge now", f"{now.text} + open by", 30))
            rows[0].append(blank())
        stop = setting.depth_stops[0] if setting.depth_stops else None
        if stop is not None:
            thick = setting.parallel
            over = blank() if thick is None else Markdown("{}").format(digits_shown(thick, self._dial()))
            rows.append(["**Depth**", self._stop(stop.number).text, blank(), blank(), over])
            rows[1] += [HATCHED] * (len(columns) - 5)
        made = tuple(tuple(Markdown(cell) if cell.startswith("**") else cell for cell in row) for row in rows)
        return CardTable(tuple(columns), made, by_valve=False)

    def _dial(self) -> instruments.Instrument:
        stops = self.setting.depth_stops
        return figures.dial(self.job, stops[0].dial_unit if stops else None)

    def _stop(self, number: int) -> Shown:
        """What the dial of a depth stop shows, in its own unit; where that is not known, the depth itself."""
        stop = next(stop for stop in self.setting.depth_stops if stop.number == number)
        depth = stop.stop.value if stop.dial is None else instruments.in_mm(stop.dial.value, stop.dial_unit or "mm")
        return shown(depth, figures.dial(self.job, stop.dial_unit))

    def _face(self) -> str:
        depth = next((valve.depth for valve in self.bored if valve.depth is not None), None)
        face = depth.from_ if depth is not None else "rim"
        return "old floor" if face == "floor" else face

    def _loop(self) -> Iterator[str]:
        stops = self.setting.depth_stops
        if self.setting.pilots:
            kinds: dict[str, dict[str, None]] = {}
            for valve in self.bored:
                if valve.pilot is not None and valve.pilot.name:
                    kinds.setdefault(valve.pilot.kind, {})[valve.pilot.name] = None
            ways = [
                f"{_GOES_IN[kind]} ({' '.join(names)})" if len(kinds) > 1 else f"it {_GOES_IN[kind]}"
                for kind, names in kinds.items()
                if kind in _GOES_IN
            ]
            yield f"Pilot in, no rock: {', '.join(ways)}." if ways else "Pilot in: it does not rock."
            yield "Centre, lock, a turn by hand: nothing binds."
        else:
            to = self.job.machine.centring if self.job.machine is not None else None
            yield f"Centre the spindle over its guide{f' to {figures.typed(to)}' if to is not None else ''}, lock."
            yield "A turn by hand: nothing binds."
        face = self._face()
        if face == "old floor":
            yield "Zero the depth on its own old floor."
        elif self.setting.parallel is not None:
            thick = digits_shown(self.setting.parallel, self._dial())
            yield f"Tip on {thick} parallel on its own {face}: dial to −{thick}."
        else:
            yield f"Tip on parallel on its own {face}: dial to −thickness."
        where = f" {self._stop(stops[0].number)}" if len(stops) == 1 else " of its row" if stops else ""
        yield f"Bore to the stop{where}, {_DWELL}."
        yield "Spindle off. Cool, brush, vacuum, wipe."
        yield "Measure, write, initial. Inside: next."

    def _table(self) -> CardTable:
        bore, depth = self.bore_gauge.unit, figures.depth_gauge(self.job).unit
        certain = any(certain_of(self.job, valve) is not None for valve in self.bored)
        pilots, stops = bool(self.setting.pilots), len(self.setting.depth_stops) > 1
        columns = [Column("Valve", "", 14)]
        columns += [Column("Pilot", "", 16)] if pilots else []
        columns += [Column(f"Bore {bore}", "for sure", 21)] if certain else []
        columns += [
            Column("Limits" if certain else f"Bore {bore}", "" if certain else self.bench, 18 if certain else 21)
        ]
        columns += [Column("Rim", "bore-a", 15), Column("Rim", "bore-b", 15)]
        columns += [Column("Low", "low-a", 15), Column("Low", "low-b", 15)]
        columns += [Column("Stop", "", 13)] if stops else []
        columns += [Column("Depth", depth, 15)]
        columns += [Column(number, f"-{letter}", 9) for number, letter in zip("1234", "abcd", strict=True)]
        rows = tuple(self._row(valve, certain, pilots, stops) for valve in self.bored)
        return CardTable((*columns, Column("Initial", "", 14)), rows)

    def _row(self, valve: ValvePlan, certain: bool, pilots: bool, stops: bool) -> tuple[str, ...]:
        write = HATCHED if valve.name in self.waits else blank()
        name = valve.pilot.name if valve.pilot is not None and valve.pilot.name else NONE
        sure = certain_of(self.job, valve)
        limits = bore_limits(self.job, valve)
        cells = [valve.name]
        cells += [name] if pilots else []
        cells += [bold(sure) if isinstance(sure, str) else stacked(sure, strong=True)] if certain else []
        cells += [stacked(limits, strong=not certain), *[write] * 4]
        if stops:
            cells.append(bold(self._stop(valve.depth_stop).text) if valve.depth_stop is not None else NONE)
        return (*cells, stacked(depth_limits(self.job, valve), strong=True), *[write] * 5)


def setting_title(plan: Plan, setting: Setting) -> str:
    """`Setting C2 at 41.014`."""
    return f"Setting {setting.name}"
