"""What the cutter, its gauge and the depth stop are set to."""

from __future__ import annotations

from msgspec import Struct

from seatwright.planning.plan.figure import Figure


class Overcut(Struct, frozen=True):
    """What a cutter bores bigger than it is set. from_: shop, trial, or bore for what the cut to be opened told.

    trials: how many.
    """

    value: Figure
    from_: str
    trials: int
    spread: Figure | None = None


class Correction(Struct, frozen=True):
    """What makes the reading from the aim: their sum. All mm on diameter."""

    temperature: Figure
    master: Figure
    overcut: Figure


class FirstCut(Struct, frozen=True):
    """The first cut, below size: bore and the reading that gives it, None without a setting gauge.

    stop : of the depth, short of it, in mm; None where no step of the dial is left for that. from_parallel: the travel
    to it from where the tip touches the parallel.
    """

    bore: Figure
    reading: Figure | None
    stop: Figure | None = None
    from_parallel: Figure | None = None


class PassBelow(Struct, frozen=True):
    """A pass to full depth before the first cut, where the tip is narrower than the floor: no bigger than bore.

    bore: at 20 °C. reading: the whole step of the setting gauge at or below it, None without one or beyond its range.
    valves: those it is taken in.
    """

    bore: Figure
    reading: Figure | None
    valves: tuple[str, ...]


class DepthStop(Struct, frozen=True):
    """One position of the machine's depth stop: stop is the depth in mm, dial what the dial shows in dial_unit.

    from_parallel : the travel to it from where the tip touches the parallel that the zero is taken on.
    """

    number: int
    stop: Figure
    valves: tuple[str, ...]
    dial: Figure | None = None
    dial_unit: str | None = None  # mm | in
    from_parallel: Figure | None = None


class Setting(Struct, frozen=True):
    """One setting of the cutter. reading: mm on diameter at gauge temperature, whole gauge steps.

    name: `C2 at 41.014`, what it is called everywhere; its number only counts those that are still to do.

    reading_unit: what the gauge is marked in, mm | in; both None without a setting gauge. aim: the bore that the
    reading gives; least, most: those that its valves allow in common, at 20 °C. rounding_left: aim less the one wanted.
    valves: in the order in which they are bored, the one for the first cut first; waits: those of them that are not to
    be bored yet, as their plans say. bench_aim: what the bore gauge shows
    of aim at the bench, for the sum after the first cut. ring, ring_reads: that of the bore gauge nearest to it.
    passes: those below size, the smallest first, all of them before the first cut. parallel: thickness of the one that
    the depth is zeroed on, on each pocket's own face; dial_on_parallel: what the dial is set to there. zero_error: how
    much too deep it would be by the edge of the old pocket. gauge_checked: the last check of the setting gauge before
    the job's day, gauge_check_due: the day it holds to.
    """

    name: str
    number: int
    head: int
    cutter: str
    reading: Figure | None
    reading_unit: str | None
    aim: Figure
    least: Figure
    most: Figure
    valves: tuple[str, ...]
    rounding_left: Figure | None
    machine: str | None = None
    gauge: str | None = None
    temperature_C: Figure | None = None
    indicator: str | None = None  # radius | diameter
    indicator_step: Figure | None = None
    master: Figure | None = None
    master_reads: Figure | None = None
    first: FirstCut | None = None
    trial_under: Figure | None = None
    overcut: Overcut | None = None
    correction: Correction | None = None
    rpm: Figure | None = None
    feed_mm_rev: Figure | None = None
    pilots: tuple[tuple[str, str], ...] = ()  # (valve, pilot)
    depth_stops: tuple[DepthStop, ...] = ()
    bench_aim: Figure | None = None
    ring: Figure | None = None
    ring_reads: Figure | None = None
    passes: tuple[PassBelow, ...] = ()
    waits: tuple[str, ...] = ()
    parallel: Figure | None = None
    dial_on_parallel: Figure | None = None
    zero_error: Figure | None = None
    gauge_checked: str | None = None
    gauge_check_due: str | None = None


class TrialPlan(Struct, frozen=True):
    """A trial cut and the overcut it tells. date: of its section, ISO 8601; line: where it stands in the job file."""

    head: int
    cutter: str
    read: Figure
    bored: Figure
    overcut: Figure | None = None
    date: str | None = None
    line: int | None = None
