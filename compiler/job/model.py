"""The job as the compiler understands it: one typed value for every figure, each with the place where it was typed.

Lengths are in mm, angles in degrees from the plane square to the stem, temperatures in °C, forces in N, pressures and
stiffness in MPa, torque in N·m, speeds in rpm, m/min and mm/rev, expansions per °C, times in s. None means: not given.
What a figure defaults to, if anything, is the business of planning, which says so in a notice.
"""

from __future__ import annotations

from dataclasses import dataclass

from seatwright.text import Source, Span


@dataclass(frozen=True, slots=True)
class Given:
    """A figure that somebody gave.

    value: in the units of this module. typed: digits and unit as their owner wrote them. half_digit: half of the last
    digit typed, in the units of value (0 for a fraction). source: the text that stands behind it, if any.
    """

    value: float
    typed: str
    span: Span
    half_digit: float = 0.0
    source: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """A cell of a table: one value, or several readings of one thing.

    value: the mean, for size; largest: for wear; smallest: for entry. at: what head and gauge were at, where the table
    says so. date: that of the section, ISO 8601. earlier: what the cell held before, newest first.
    """

    value: float
    largest: float
    smallest: float
    typed: str
    span: Span
    half_digit: float = 0.0
    count: int = 1
    at: Given | None = None
    date: str | None = None
    earlier: tuple[Reading, ...] = ()


@dataclass(frozen=True, slots=True)
class Limits:
    """Two limits, one limit, or an aim.

    nominal: the figure of a tolerance, or a single figure. source: the text behind it (`"manual"`).
    """

    least: Given | None
    most: Given | None
    nominal: Given | None
    typed: str
    span: Span
    source: str = ""

    @property
    def aim(self) -> float | None:
        """The middle of the two limits, else the single figure, else None."""
        if self.least is not None and self.most is not None:
            return (self.least.value + self.most.value) / 2
        return None if self.nominal is None else self.nominal.value


@dataclass(frozen=True, slots=True)
class Spread:
    """A standard uncertainty (k = 1). `+/- a` was typed for a rectangular one: value = a/√3, rectangular = True."""

    value: float
    typed: str
    span: Span
    rectangular: bool = False


@dataclass(frozen=True, slots=True)
class Named:
    """A name, word or text with the place where it stands."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Note:
    """A note that is printed; valves: those it speaks of, () for the whole head or job."""

    text: str
    span: Span
    valves: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Extra:
    """An `x-` field or cell, kept as typed for the record."""

    word: str
    text: str
    span: Span
    valve: str | None = None


# --- what the shop has ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Stated:
    """A property of a material: its value and who says so. given: the shop's line, None for a built-in figure."""

    value: float
    source: str
    given: Given | None = None


@dataclass(frozen=True, slots=True)
class ExpansionLine:
    """Mean expansion from 20 °C to a temperature. per_degree in 1/°C."""

    to: float
    per_degree: float
    source: str
    given: Given | None = None


@dataclass(frozen=True, slots=True)
class Material:
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


@dataclass(frozen=True, slots=True)
class Machine:
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
    centring: Given | None = None
    level: Given | None = None  # mm/mm


@dataclass(frozen=True, slots=True)
class Master:
    """A master or ring of known size and what the instrument shows on it."""

    size: Given
    reads: Given


@dataclass(frozen=True, slots=True)
class Gauge:
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


@dataclass(frozen=True, slots=True)
class BoreGauge:
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


@dataclass(frozen=True, slots=True)
class Cutter:
    """An adjustable counterbore cutter."""

    name: Named
    range: Limits | None = None
    tip_width: Given | None = None
    tips: Given | None = None
    tip: Named | None = None  # carbide | cbn | hss
    corner: Given | None = None
    deepest_cut: Given | None = None
    overcut: Given | None = None
    overcut_spread: Spread | None = None


@dataclass(frozen=True, slots=True)
class Pilot:
    """A pilot. kind: dead, live, expanding, tapered; kind_given is None where `dead` was left to be assumed.

    A dead or live one has a diameter; an expanding or tapered one grips from smallest to largest.
    """

    name: Named
    kind: str
    kind_given: Span | None
    diameter: Given | None = None
    smallest: Given | None = None
    largest: Given | None = None
    length: Given | None = None
    tir_offset: Given | None = None  # axis to axis, mm (half of the tir typed)


@dataclass(frozen=True, slots=True)
class Insert:
    """An insert in stock. od: with limits where they are known. on_hand None: not counted. seat: intake|exhaust|any."""

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
    on_hand: Given | None = None


@dataclass(frozen=True, slots=True)
class InterferenceRow:
    """A line of an interference table: over < od ≤ to; None is no bound, "any" fits all. built_in: not the shop's."""

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


@dataclass(frozen=True, slots=True)
class Leak:
    """How tight a seat must be: the least time, and the words that say from what to what."""

    seconds: Given
    text: str


@dataclass(frozen=True, slots=True)
class Practice:
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
    tip_grind_most: Given | None = None


@dataclass(frozen=True, slots=True)
class Chill:
    """A way to chill an insert: its name, its temperature, and what the insert arrives at in the bore."""

    name: str
    temperature: Given
    arrives: Given | None
    span: Span


@dataclass(frozen=True, slots=True)
class Assembly:
    """What the shop heats, chills and presses with."""

    oven: Given | None = None
    chills: tuple[Chill, ...] = ()
    press: Given | None = None  # N


@dataclass(frozen=True, slots=True)
class Shop:
    """All that the shop files bring, later files laid over earlier ones, and the built-in tables under them.

    interference: the shop's rows only. materials, alloys: the shop's over the built-in ones, sorted by name.
    """

    names: tuple[Named, ...] = ()
    machines: tuple[Machine, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    bore_gauges: tuple[BoreGauge, ...] = ()
    cutters: tuple[Cutter, ...] = ()
    pilots: tuple[Pilot, ...] = ()
    inserts: tuple[Insert, ...] = ()
    interference: tuple[InterferenceRow, ...] = ()
    practice: Practice = Practice()
    assembly: Assembly = Assembly()
    materials: tuple[Material, ...] = ()
    alloys: tuple[Material, ...] = ()


# --- the head and its valves ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class InsertWish:
    """What goes into a pocket. kind: stock (a named insert), choose, turned, none."""

    kind: str
    name: str | None
    span: Span


@dataclass(frozen=True, slots=True)
class Stand:
    """The insert's face against the depth face after pressing, as "below": most ≥ least; proud is negative.

    single: True for one figure, which wants the shop's depth-tolerance.
    """

    below_least: Given
    below_most: Given
    single: bool
    typed: str
    span: Span


@dataclass(frozen=True, slots=True)
class Specification:
    """What `valves` sections and the cells that are narrower say of one valve, the narrowest having won."""

    insert: InsertWish | None = None
    alloys: tuple[Named, ...] = ()
    pocket: Named | None = None  # keep | bore
    seat_integral: Span | None = None
    interference: Limits | None = None
    bore: Limits | None = None
    depth: Limits | None = None
    insert_od: Limits | None = None
    stand: Stand | None = None
    head_diameter: Given | None = None
    margin: Given | None = None
    stem: Given | None = None
    stem_limits: Limits | None = None
    valve_tilt: Given | None = None
    face_angle: Given | None = None
    seat_angle: Given | None = None
    top_angle: Given | None = None
    throat_angle: Given | None = None
    seat_width: Limits | None = None
    setback: Given | None = None
    guide_clearance: Limits | None = None
    guide_wear_limit: Given | None = None
    guide_length: Given | None = None
    guide_to_floor: Given | None = None
    recession: Limits | None = None
    tip_height: Limits | None = None
    spring_height: Limits | None = None
    seat_runout: Given | None = None  # tir, mm
    pilot: Named | None = None
    cutter: Named | None = None
    sodium_filled: bool | None = None
    oversize_of: Given | None = None
    metal_around: Given | None = None


@dataclass(frozen=True, slots=True)
class Measured:
    """What was found on one valve, column by column; offsets are axis to axis (half of a tir)."""

    insert: Named | None = None
    insert_od: Reading | None = None
    insert_height: Reading | None = None
    old_insert_od: Reading | None = None
    guide_top: Reading | None = None
    guide_middle: Reading | None = None
    guide_bottom: Reading | None = None
    pocket_a: Reading | None = None
    pocket_b: Reading | None = None
    pocket_low_a: Reading | None = None
    pocket_low_b: Reading | None = None
    pocket_depth: Reading | None = None
    pocket_offset: Reading | None = None
    throat: Reading | None = None
    throat_offset: Reading | None = None
    floor: Reading | None = None
    damage: Reading | None = None
    damage_depth: Reading | None = None
    metal_around: Reading | None = None
    head_diameter: Reading | None = None
    margin: Reading | None = None
    stem: Reading | None = None
    recession: Reading | None = None
    tip_height: Reading | None = None
    spring_height: Reading | None = None


@dataclass(frozen=True, slots=True)
class CutReadings:
    """What was cut in one pocket. earlier: the same pocket's cuts before, newest first."""

    cutter: Named | None = None
    read: Reading | None = None
    bore_a: Reading | None = None
    bore_b: Reading | None = None
    bore_low_a: Reading | None = None
    bore_low_b: Reading | None = None
    depth_a: Reading | None = None
    depth_b: Reading | None = None
    depth_c: Reading | None = None
    depth_d: Reading | None = None
    insert_od: Reading | None = None
    date: str | None = None
    earlier: tuple[CutReadings, ...] = ()


@dataclass(frozen=True, slots=True)
class Finished:
    """What was found on the finished valve. leak: "pass", "fail" or None with leak_seconds."""

    stand: Reading | None = None
    seat_tir: Reading | None = None  # full needle movement, mm
    seat_width: Reading | None = None
    recession: Reading | None = None
    tip_height: Reading | None = None
    spring_height: Reading | None = None
    leak: Named | None = None
    leak_seconds: Reading | None = None
    pressure_test: Named | None = None
    date: str | None = None


@dataclass(frozen=True, slots=True)
class Valve:
    """A valve of a head. planned: False for a neighbour, named only in `layout` or `spacing`.

    kind: intake | exhaust. letter: "" where a cylinder has one of the kind. holds: by hand, from `hold` lines.
    """

    name: str
    kind: str
    cylinder: int
    letter: str
    planned: bool
    span: Span
    specification: Specification = Specification()
    measured: Measured = Measured()
    cut: CutReadings | None = None
    finished: Finished | None = None
    holds: tuple[Note, ...] = ()


@dataclass(frozen=True, slots=True)
class Place:
    """Where a valve's axis lies in the seat plane, mm."""

    valve: str
    x: Given
    y: Given
    span: Span


@dataclass(frozen=True, slots=True)
class Hole:
    """What else is near the pockets. kind: hole (injector, plug), or rim (a cylinder: the insert stays inside)."""

    name: str
    x: Given
    y: Given
    diameter: Given
    kind: str
    span: Span


@dataclass(frozen=True, slots=True)
class Spacing:
    """The distance between the axes of two valves."""

    first: str
    second: str
    distance: Given
    span: Span


@dataclass(frozen=True, slots=True)
class Trial:
    """A trial cut: what the gauge read, what the bore came to. at: of that table."""

    cutter: Named
    read: Reading
    bored: Reading
    span: Span


@dataclass(frozen=True, slots=True)
class Skim:
    """Metal taken, or to be taken, off the deck. when: before-measuring, after-measuring, still-to-come, or None."""

    amount: Given
    when: str | None
    span: Span


@dataclass(frozen=True, slots=True)
class Head:
    """A cylinder head. number counts from 1; name is its own word (`left`) or ""; valves in rising order:
    by cylinder, intake before exhaust, letter; neighbours likewise."""

    number: int
    name: str
    text: str
    span: Span
    material: Material | None
    valves: tuple[Valve, ...] = ()
    neighbours: tuple[Valve, ...] = ()
    fuel: Named | None = None
    temperature: Given | None = None
    temperature_limits: Given | None = None
    depth_from: Named | None = None
    least_bridge: Given | None = None
    least_floor: Given | None = None
    metal_around: Given | None = None
    skim: Skim | None = None
    recession_limit_follows_valve_train: Span | None = None
    heat_limit: Given | None = None
    hot_head: Given | None = None
    hot_insert: Given | None = None
    crack_test: Named | None = None
    pressure_test: Named | None = None
    inserts_not_allowed: Named | None = None  # the reason
    layout: tuple[Place, ...] = ()
    holes: tuple[Hole, ...] = ()
    spacings: tuple[Spacing, ...] = ()
    trials: tuple[Trial, ...] = ()
    notes: tuple[Note, ...] = ()
    extras: tuple[Extra, ...] = ()


@dataclass(frozen=True, slots=True)
class Job:
    """A job with its heads and the shop it is done in. units: "mm" | "inch". machine, gauge, bore_gauge are the
    ones this job uses, already looked up, None where the shop has none."""

    number: str
    title: str
    span: Span
    units: str
    sources: tuple[Source, ...]
    heads: tuple[Head, ...]
    shop: Shop
    customer: Named | None = None
    machinist: Named | None = None
    received: Named | None = None
    due: Named | None = None
    paper: str | None = None
    machine: Machine | None = None
    gauge: Gauge | None = None
    bore_gauge: BoreGauge | None = None
    notes: tuple[Note, ...] = ()
    extras: tuple[Extra, ...] = ()
