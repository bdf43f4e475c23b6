"""The job, its heads and their valves: what is wanted, what was measured, cut and finished."""

from __future__ import annotations

from msgspec import Struct

from seatwright.job.model.shop import BoreGauge, Gauge, Machine, Material, Shop
from seatwright.job.model.values import Extra, Given, Limits, Named, Note, Reading, SizeName
from seatwright.text import Source, Span


class InsertWish(Struct, frozen=True):
    """What goes into a pocket. kind: stock (a named insert), choose, turned, stays (the one that is in, its
    seat cut again), none."""

    kind: str
    name: str | None
    span: Span


class GuideWish(Struct, frozen=True):
    """What becomes of a guide. kind: keep, choose, stock (a named one), none (not touched, not judged)."""

    kind: str
    name: str | None
    span: Span

    @property
    def renews(self) -> bool:
        """Whether another guide, or a liner, is asked for."""
        return self.kind in ("choose", "stock")


class GuideStand(Struct, frozen=True):
    """How a guide stands: its end above the spring seat; limits None: it stops at a shoulder."""

    limits: Limits | None
    span: Span


class ForceAt(Struct, frozen=True):
    """A force of a spring [N] at an installed height [mm]."""

    force: Given
    at: Given


class Stand(Struct, frozen=True):
    """The insert's face against the depth face after pressing, as "below": most ≥ least; proud is negative.

    single: True for one figure, which wants the shop's depth-tolerance.
    """

    below_least: Given
    below_most: Given
    single: bool
    typed: str
    span: Span


class PocketSize(Struct, frozen=True):
    """One of the maker's sizes of a pocket: the bore and all that belongs to it. name: None where it is the only one,
    from `bore`, `depth` and `insert-od`. bore: a most alone, where a blank is turned. insert: the stock's name for it.
    """

    name: SizeName | None
    span: Span
    bore: Limits | None = None
    depth: Limits | None = None
    insert_od: Limits | None = None
    insert_height: Given | None = None
    interference: Limits | None = None
    insert: Named | None = None
    source: str = ""

    @property
    def standard(self) -> bool:
        """Whether it is the size that the pocket was made to."""
        return self.name is None or self.name.standard


class Specification(Struct, frozen=True):
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
    guide: GuideWish | None = None
    guide_hole: Limits | None = None
    guide_fit: Limits | None = None
    guide_stand: GuideStand | None = None
    guide_bore: Limits | None = None
    guide_tightness: Given | None = None  # N
    guide_length: Given | None = None
    guide_to_floor: Given | None = None
    recession: Limits | None = None
    stem_height: Limits | None = None
    stem_height_from: Named | None = None  # spring-seat | head-edge | cam
    spring_height: Limits | None = None
    valve_lift: Given | None = None
    spring_force: tuple[ForceAt, ...] = ()
    spring_least: tuple[ForceAt, ...] = ()
    coil_bind: Given | None = None
    bind_room: Limits | None = None
    retainer_room: Limits | None = None
    seat_runout: Given | None = None  # tir, mm
    pilot: Named | None = None
    cutter: Named | None = None
    sodium_filled: bool | None = None
    oversize_of: Given | None = None
    metal_around: Given | None = None
    limits: Named | None = None  # new | reconditioned
    size: SizeName | None = None
    pocket_sizes: tuple[PocketSize, ...] = ()

    @property
    def makers_sizes(self) -> tuple[PocketSize, ...]:
        """The maker's sizes of the pocket: those of `pocket-sizes`, else the one that `bore`, `depth` and `insert-od`
        make, whose own interference is that of `interference`."""
        if self.pocket_sizes:
            return self.pocket_sizes
        span = next((one.span for one in (self.bore, self.depth, self.insert_od) if one is not None), None)
        if span is None:
            return ()
        return (PocketSize(None, span, self.bore, self.depth, self.insert_od, None, self.interference),)

    @property
    def standard_size(self) -> PocketSize | None:
        """The maker's size that the pocket was made to, None where he gives none."""
        return next((one for one in self.makers_sizes if one.standard), None)

    @property
    def sizes_asked_for(self) -> tuple[PocketSize, ...]:
        """The maker's sizes that the pocket may get: every one, that which `size` names, or none for `size any`."""
        if self.size is None:
            return self.makers_sizes
        return tuple(one for one in self.makers_sizes if one.name is not None and one.name.same(self.size))


class Overridden(Struct, frozen=True):
    """What a job says in place of its engine's maker. field: its word. job, engine: as typed, each with its place and
    who says so. outside: the job's reaches beyond the maker's. reason: of a field that is not used. on_whose_word: who
    stands for the job's figure."""

    field: str
    job: str
    engine: str
    job_span: Span
    engine_span: Span
    engine_source: str
    outside: str = ""
    reason: str = ""
    on_whose_word: str = ""


class OfEngine(Struct, frozen=True):
    """What a valve has of its engine's maker. valve: its name there, None where that names no such cylinder. limits:
    new | reconditioned, None where he prints one column. assumed: the line of the other, where the job says nothing."""

    name: str
    limits: str | None = None
    assumed: Span | None = None
    overridden: tuple[Overridden, ...] = ()


class Measured(Struct, frozen=True):
    """What was found on one valve, column by column; offsets are axis to axis (half of a tir)."""

    insert: Named | None = None
    insert_od: Reading | None = None
    insert_height: Reading | None = None
    insert_was: Named | None = None  # loose | tight | cracked | burnt | sunk | fallen-out | none
    old_insert_od: Reading | None = None
    guide_top: Reading | None = None
    guide_middle: Reading | None = None
    guide_bottom: Reading | None = None
    guide_end: Reading | None = None
    guide_hole_top: Reading | None = None
    guide_hole_middle: Reading | None = None
    guide_hole_bottom: Reading | None = None
    guide_od: Reading | None = None
    pocket_a: Reading | None = None
    pocket_b: Reading | None = None
    pocket_low_a: Reading | None = None
    pocket_low_b: Reading | None = None
    pocket_depth: Reading | None = None
    pocket_offset: Reading | None = None
    throat: Reading | None = None
    throat_offset: Reading | None = None
    floor_thickness: Reading | None = None
    damage: Reading | None = None
    damage_depth: Reading | None = None
    metal_around: Reading | None = None
    head_diameter: Reading | None = None
    margin: Reading | None = None
    stem: Reading | None = None
    recession: Reading | None = None
    stem_height: Reading | None = None
    spring_height: Reading | None = None
    retainer_to_seal: Reading | None = None
    spring_free: Reading | None = None
    spring_force: Reading | None = None  # N
    spring_at: Reading | None = None


class Replacement(Struct, frozen=True):
    """A part of a valve that was renewed. part: guide, valve, spring, retainer, seal. found: the readings of the old
    one, which stay on the record and count no longer."""

    part: str
    date: str
    span: Span
    found: Measured = Measured()


class NotCounted(Struct, frozen=True):
    """A bore that does not count among what a cutter does. date: of its `cut`, None for the latest."""

    valve: str
    date: str | None
    reason: str
    span: Span


class CutReadings(Struct, frozen=True):
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


class LeftShelf(Struct, frozen=True):
    """That a valve's insert was taken off the shelf: it was bored for, or is finished. date: of that row, None where
    its section has none; span: of the valve in the first such section."""

    date: str | None
    span: Span

    def before_count(self, counted_on: str | None) -> bool:
        """Whether the piece was missing already when they were counted, at the end of that day."""
        return counted_on is not None and self.date is not None and self.date <= counted_on


class Finished(Struct, frozen=True):
    """What was found on the finished valve. leak: "pass", "fail" or None with leak_seconds. earlier: what was found
    before and said again since, newest first."""

    stand: Reading | None = None
    seat_tir: Reading | None = None  # full needle movement, mm
    seat_width: Reading | None = None
    recession: Reading | None = None
    stem_height: Reading | None = None
    spring_height: Reading | None = None
    leak: Named | None = None
    leak_seconds: Reading | None = None
    pressure_test: Named | None = None
    date: str | None = None
    earlier: tuple[Finished, ...] = ()


class Valve(Struct, frozen=True):
    """A valve of a head. planned: False for a neighbour, named only in `layout` or `spacing`.

    kind: intake | exhaust. letter: "" where a cylinder has one of the kind. holds: by hand, from `hold` lines.
    replaced: what was renewed, by day. not_counted: bores that are left out of what their cutter does. left_shelf: by
    its first `cut` row with a bore, else by its first `finished` row.
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
    replaced: tuple[Replacement, ...] = ()
    not_counted: tuple[NotCounted, ...] = ()
    left_shelf: LeftShelf | None = None
    of_engine: OfEngine | None = None

    @property
    def guide_left_shelf(self) -> LeftShelf | None:
        """That its new guide was taken off the shelf, by its first `replaced` row of one."""
        renewed = next((one for one in self.replaced if one.part == "guide"), None)
        return None if renewed is None else LeftShelf(renewed.date, renewed.span)


class Place(Struct, frozen=True):
    """Where a valve's axis lies in the seat plane, mm."""

    valve: str
    x: Given
    y: Given
    span: Span


class Hole(Struct, frozen=True):
    """What else is near the pockets. kind: hole (injector, plug), or cylinder (its edge: the insert stays inside)."""

    name: str
    x: Given
    y: Given
    diameter: Given
    kind: str
    span: Span


class Spacing(Struct, frozen=True):
    """The distance between the axes of two valves."""

    first: str
    second: str
    distance: Given
    span: Span


class Trial(Struct, frozen=True):
    """A trial cut: what the gauge read, what the bore came to. at: of that table."""

    cutter: Named
    read: Reading
    bored: Reading
    span: Span


class Skim(Struct, frozen=True):
    """Metal taken, or to be taken, off the deck. when: before-measuring, after-measuring, still-to-come, or None."""

    amount: Given
    when: str | None
    span: Span


class Engine(Struct, frozen=True):
    """A head type as an engine file describes it. source: what is printed behind a figure of it. heads: numbers of the
    job's heads that are of it."""

    name: str
    text: str
    path: str
    source: str
    date: str | None
    span: Span
    notes: tuple[Note, ...] = ()
    heads: tuple[int, ...] = ()


class Head(Struct, frozen=True):
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
    recession_limit_follows: Named | None = None
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
    engine: str | None = None  # the name of the engine that it is of
    cylinders: tuple[int, ...] = ()
    overridden: tuple[Overridden, ...] = ()


class Job(Struct, frozen=True):
    """A job with its heads and the shop it is done in. units: "mm" | "inch". machine, gauge, bore_gauge are the
    ones this job uses, already looked up, None where the shop has none. day: the latest date of `cut`, `trial` and
    `finished`, else of `measured`, else of `received`, ISO 8601."""

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
    day: str | None = None
    paper: str | None = None
    machine: Machine | None = None
    gauge: Gauge | None = None
    bore_gauge: BoreGauge | None = None
    notes: tuple[Note, ...] = ()
    extras: tuple[Extra, ...] = ()
    engines: tuple[Engine, ...] = ()

    @property
    def paper_left_out(self) -> str:
        """The paper where the job names none: the language says a4 in mm, letter in inch."""
        return "letter" if self.units == "inch" else "a4"
