"""What the shop has: instruments, cutters, pilots, inserts, materials, and its own practice."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from msgspec import Struct

from seatwright.job.model.values import Given, Limits, Named, Spread
from seatwright.text import Span


class Stated(Struct, frozen=True):
    """A property of a material: its value and who says so. given: the shop's line, None for a built-in figure."""

    value: float
    source: str
    given: Given | None = None


class ExpansionLine(Struct, frozen=True):
    """Mean expansion from 20 °C to a temperature. per_degree in 1/°C."""

    to: float
    per_degree: float
    source: str
    given: Given | None = None


class Material(Struct, frozen=True):
    """A head material or an insert's alloy. expansion: sorted by temperature. built_in: nothing of it is the shop's."""

    name: str
    built_in: bool
    stiffness: Stated | None = None
    poisson: Stated | None = None
    expansion: tuple[ExpansionLine, ...] = ()
    strength: Stated | None = None
    yield_strength: Stated | None = None
    friction_least: Stated | None = None
    friction_most: Stated | None = None
    cutting_force: Stated | None = None
    cutting_exponent: Stated | None = None
    hazard: Named | None = None
    span: Span | None = None


class Machine(Struct, frozen=True):
    """The machine that bores. speeds, feeds: steps in rising order; a range has two Given and stepless = True."""

    name: Named
    speeds: tuple[Given, ...] = ()
    speeds_stepless: bool = False
    feeds: tuple[Given, ...] = ()
    feeds_stepless: bool = False
    feeds_by_hand: Span | None = None
    torque_limit: Given | None = None
    dial: str | None = None  # "mm" | "inch": what its depth stop is marked in; the file's units where not said
    dial_step: Given | None = None
    guides_by: Named | None = None  # "pilot" | "spindle"
    parallel: Given | None = None  # thickness of the one on which depths are zeroed
    centring: Given | None = None
    level: Given | None = None  # mm/mm
    formerly: tuple[Named, ...] = ()


class Master(Struct, frozen=True):
    """A master or ring of known size and what the instrument shows on it (the mean of several readings).

    since: the day from which on it shows that, ISO 8601; None: ever since. A later one of that size replaces it.
    """

    size: Given
    reads: Given
    since: str | None = None


def standing_masters(masters: tuple[Master, ...], day: str | None = None) -> tuple[Master, ...]:
    """Of each size what stood on a day, in the order of the sizes; the latest of each where no day is given.

    A size that was first read after that day is left out.
    """
    for master in masters:
        if master.since is not None:
            return _of_day(masters, day)
    return masters


def _of_day(masters: tuple[Master, ...], day: str | None) -> tuple[Master, ...]:
    last: dict[float, str] = {}
    for master in masters:
        since = master.since or ""
        if day is None or since <= day:
            last[master.size.value] = max(since, last.get(master.size.value, ""))
    return tuple(master for master in masters if last.get(master.size.value) == (master.since or ""))


class Dated(Struct, frozen=True):
    """What was done on a day, ISO 8601: a check of an instrument, a change of a tip. text: "" where none stands."""

    date: str
    text: str
    span: Span


class Gauge(Struct, frozen=True):
    """The setting gauge of the cutter. marked: "mm" | "inch"."""

    name: Named
    marked: str
    range: Limits | None = None
    step: Given | None = None
    masters: tuple[Master, ...] = ()
    master_uncertainty: Spread | None = None
    repeatability: Spread | None = None
    indicator: Named | None = None  # "radius" | "diameter"
    indicator_step: Given | None = None
    temperature: Given | None = None
    temperature_limits: Given | None = None  # the ± of `24 C +/- 1`, in °C
    expansion: Given | None = None
    checks: tuple[Dated, ...] = ()  # outside the daily work, the oldest first
    check_every: Given | None = None  # months of the calendar
    formerly: tuple[Named, ...] = ()


class BoreGauge(Struct, frozen=True):
    """The gauge that measures the bore. marked: "mm" | "inch"."""

    name: Named
    marked: str
    range: Limits | None = None
    step: Given | None = None
    rings: tuple[Master, ...] = ()
    ring_uncertainty: Spread | None = None
    repeatability: Spread | None = None
    temperature: Given | None = None
    temperature_limits: Given | None = None
    expansion: Given | None = None
    checks: tuple[Dated, ...] = ()
    check_every: Given | None = None
    formerly: tuple[Named, ...] = ()


class OvercutLine(Struct, frozen=True):
    """What a cutter bores bigger than it is set, in one head material, or (None) in any that has no line of its own."""

    material: Named | None
    overcut: Given


class SpreadLine(Struct, frozen=True):
    """How much that varies from bore to bore, likewise."""

    material: Named | None
    spread: Spread


_Line = TypeVar("_Line", OvercutLine, SpreadLine)


def _of_material(lines: Iterable[_Line], material: str | None) -> _Line | None:
    """The line of a head material, else the bare one, None without either."""
    bare = None
    for line in lines:
        if line.material is None:
            bare = line
        elif line.material.text == material:
            return line
    return bare


class Cutter(Struct, frozen=True):
    """An adjustable counterbore cutter. units: of its file. tip_changes: the oldest first; what is cut that day is of
    the new tip. retired: the day from which on it is no longer used, ISO 8601.
    """

    name: Named
    range: Limits | None = None
    tip_width: Given | None = None
    tips: Given | None = None
    tip: Named | None = None  # carbide | cbn | hss
    corner_radius: Given | None = None
    reach: Given | None = None
    overcuts: tuple[OvercutLine, ...] = ()
    overcut_spreads: tuple[SpreadLine, ...] = ()
    tip_changes: tuple[Dated, ...] = ()
    units: str = "mm"
    formerly: tuple[Named, ...] = ()
    retired: Named | None = None

    def overcut(self, material: str | None) -> Given | None:
        """What it bores bigger than it is set in a head of that material, None where nobody says."""
        line = _of_material(self.overcuts, material)
        return None if line is None else line.overcut

    def overcut_spread(self, material: str | None) -> Spread | None:
        """How much that varies from bore to bore, None where nobody says."""
        line = _of_material(self.overcut_spreads, material)
        return None if line is None else line.spread

    def tip_since(self, day: str) -> str | None:
        """The day on which the tip that cut on a day went in; None: nobody says since when."""
        return max((change.date for change in self.tip_changes if change.date <= day), default=None)


class Pilot(Struct, frozen=True):
    """A pilot. kind: dead, live, expanding, tapered; kind_given is None where `dead` was left to be assumed.

    A dead or live one has a diameter; an expanding or tapered one grips from smallest to largest. tir_at: height above
    the port end of the guide at which its tir was read.
    """

    name: Named
    kind: str
    kind_given: Span | None
    diameter: Given | None = None
    smallest: Given | None = None
    largest: Given | None = None
    length: Given | None = None
    tir_offset: Given | None = None  # axis to axis, mm (half of the tir typed)
    tir_at: Given | None = None  # above the port end of the guide: where the tir was read
    formerly: tuple[Named, ...] = ()


class Pieces(Struct, frozen=True):
    """So many pieces of a thing in stock, counted at the end of a day or delivered on it, ISO 8601; None: undated."""

    count: Given
    date: str | None


class InStock(Struct, frozen=True, kw_only=True):
    """What is counted on a shelf.

    shelf: the shop file that it stands in. on_hand: in its own table, None where not counted there. counts, deliveries:
    by day, those of `stock` and an `on_hand` with a date.
    """

    on_hand: Given | None = None
    formerly: tuple[Named, ...] = ()
    shelf: str = ""
    counts: tuple[Pieces, ...] = ()
    deliveries: tuple[Pieces, ...] = ()

    @property
    def counted(self) -> Pieces | None:
        """The latest count; without a dated one `on-hand` as it stands; None: nobody counted."""
        if self.counts:
            return self.counts[-1]
        return None if self.on_hand is None else Pieces(self.on_hand, None)

    @property
    def delivered(self) -> int:
        """What came in since the latest count."""
        since = (self.counts[-1].date or "") if self.counts else ""
        return sum(round(each.count.value) for each in self.deliveries if (each.date or "") > since)

    @property
    def told(self) -> int | None:
        """How many the shop's own file tells of: the latest count and what came in since; None: nobody counted."""
        counted = self.counted
        return None if counted is None else round(counted.count.value) + self.delivered


class Insert(InStock, frozen=True):
    """An insert in stock. od: with limits where they are known. seat: intake|exhaust|any."""

    name: Named
    od: Given | None = None
    od_least: Given | None = None
    od_most: Given | None = None
    height: Given | None = None
    id: Given | None = None
    chamfer: Given | None = None
    chamfer_angle: Given | None = None  # degrees from the od
    alloy: Named | None = None
    seat: str = "any"


class StockGuide(InStock, frozen=True):
    """A guide or liner in stock. kind: guide | liner (it goes into the old guide). id_finished: it needs no reaming.
    od: with limits where they are known."""

    name: Named
    kind: str = "guide"
    od: Given | None = None
    od_least: Given | None = None
    od_most: Given | None = None
    length: Given | None = None
    id: Given | None = None
    id_finished: bool = False
    alloy: Named | None = None


class Reamer(Struct, frozen=True):
    """A reamer. serves: hole (in the head) | guide | any. overcut None: left out, so 0."""

    name: Named
    diameter: Given | None = None
    serves: str = "any"
    overcut: Given | None = None


class InterferenceLine(Struct, frozen=True):
    """A line of an interference table: over < od ≤ to; None is no bound, "any" fits all. built_in: not the shop's.
    seat: of a fit of guides its kind, guide | liner | any."""

    head: str
    alloy: str
    seat: str
    over: Given | None
    to: Given | None
    least: Given
    most: Given
    source: str
    span: Span | None
    built_in: bool = False


class Leak(Struct, frozen=True):
    """How tight a seat must be: the least time, and the words that say from what to what."""

    seconds: Given
    text: str


class Practice(Struct, frozen=True):
    """The shop's own practice. Every figure is the shop's: None where it has none."""

    clean_up: Given | None = None
    floor_clean_up: Given | None = None
    trial_under: Given | None = None
    top_speed: Given | None = None
    surface_speed: Given | None = None
    feed: Given | None = None
    slip: Given | None = None
    bore_round: Given | None = None
    bore_taper: Given | None = None
    floor_square: Given | None = None
    runout: Given | None = None  # tir, mm (full needle movement)
    least_land: Given | None = None
    least_ledge: Given | None = None
    least_under_seat: Given | None = None
    pilot_clearance: Given | None = None
    depth_tolerance: Given | None = None
    insert_uncertainty: Spread | None = None
    guard: Given | None = None
    leak: Leak | None = None
    shims: tuple[Given, ...] = ()
    shim_limit: Given | None = None
    stem_grind_most: Given | None = None
    guide_room: Given | None = None
    roughness: tuple[Given, Given] | None = None  # Rz of the bore, of the insert


class Chill(Struct, frozen=True):
    """A way to chill an insert: its name, its temperature, and what the insert arrives at in the bore."""

    name: str
    temperature: Given
    arrives: Given | None
    span: Span


class Assembly(Struct, frozen=True):
    """What the shop heats, chills and presses with."""

    oven: Given | None = None
    chills: tuple[Chill, ...] = ()
    press: Given | None = None  # N


class Shop(Struct, frozen=True):
    """All that the shop files bring, later files laid over earlier ones, and the built-in tables under them.

    interference, guide_fits: the shop's rows only. materials, alloys: the shop's over the built-in ones, by name.
    """

    names: tuple[Named, ...] = ()
    machines: tuple[Machine, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    bore_gauges: tuple[BoreGauge, ...] = ()
    cutters: tuple[Cutter, ...] = ()
    pilots: tuple[Pilot, ...] = ()
    inserts: tuple[Insert, ...] = ()
    interference: tuple[InterferenceLine, ...] = ()
    practice: Practice = Practice()
    assembly: Assembly = Assembly()
    materials: tuple[Material, ...] = ()
    alloys: tuple[Material, ...] = ()
    guides: tuple[StockGuide, ...] = ()
    reamers: tuple[Reamer, ...] = ()
    guide_fits: tuple[InterferenceLine, ...] = ()
