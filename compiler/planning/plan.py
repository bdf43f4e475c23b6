"""The plan: all that was decided and computed for a job. Names are those of plan.json.

A field that holds None was not computed or does not concern the job; it is left out of plan.json. A `Figure` is written
as its value, six decimals.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from seatwright.job.model import Head, Job, Measured, Valve
from seatwright.planning.figure import Figure
from seatwright.text import Message

STATUSES = (
    "plan",
    "hold",
    "accepted",
    "measure-again",
    "rework",
    "oversize",
    "finished",
    "left-alone",
    "not-planned",
    "kept",
)


@dataclass(frozen=True, slots=True)
class At20:
    """The figures that were computed with, at 20 °C."""

    guide: Figure | None = None  # the largest station
    guide_tightest: Figure | None = None
    stem: Figure | None = None
    pocket: Figure | None = None  # the largest reading
    pocket_smallest: Figure | None = None
    throat: Figure | None = None
    damage: Figure | None = None
    insert_od: Figure | None = None


@dataclass(frozen=True, slots=True)
class PassedOver:
    """An insert that was not chosen: the reason (a slug), the figure that ruled it out, a sentence, the limit."""

    name: str
    reason: str
    text: str
    figure: Figure | None = None
    limit: Figure | None = None


@dataclass(frozen=True, slots=True)
class InsertPlan:
    """The insert that goes in. od_least, od_most, height, id at 20 °C. measured: its own od was measured."""

    name: str
    measured: bool
    od: Figure | None = None
    od_least: Figure | None = None
    od_most: Figure | None = None
    height: Figure | None = None
    id: Figure | None = None
    chamfer: Figure | None = None
    chamfer_angle: Figure | None = None
    alloy: str | None = None
    passed_over: tuple[PassedOver, ...] = ()


@dataclass(frozen=True, slots=True)
class Next:
    """The next oversize that would serve if this pocket is lost: insert and its bore."""

    insert: str
    bore: Figure | None = None


@dataclass(frozen=True, slots=True)
class Interference:
    """Diametral. expected: with the bore that the rounded reading gives. source: whose figure it is."""

    least: Figure
    most: Figure
    aim: Figure
    source: str
    expected: Figure | None = None


@dataclass(frozen=True, slots=True)
class CleanUp:
    """needed: the smallest bore that leaves fresh metal all round. left: bore.aim - needed."""

    needed: Figure
    left: Figure | None = None


@dataclass(frozen=True, slots=True)
class Bore:
    """Limits and aim at 20 °C, and as the bore gauge shows them at the bench, rounded inwards to its step.

    u: standard uncertainty of a planned bore. accept_*: bench limits drawn in by guard times u_accept.
    """

    least: Figure
    most: Figure
    aim: Figure
    bench_least: Figure
    bench_most: Figure
    bench_aim: Figure
    u: Figure | None = None
    accept_least: Figure | None = None
    accept_most: Figure | None = None
    u_accept: Figure | None = None


@dataclass(frozen=True, slots=True)
class Depth:
    """Depth of the pocket from a face (rim, deck, floor), measured at the bench."""

    aim: Figure
    least: Figure
    most: Figure
    from_: str


@dataclass(frozen=True, slots=True)
class GuidePlan:
    """What the guide is like. verdict: fit, worn, tight, not-checked. port_end, spring_end: clearances there."""

    verdict: str
    clearance: Figure | None = None
    bell_mouth: Figure | None = None
    port_end: Figure | None = None
    spring_end: Figure | None = None
    least: Figure | None = None
    most: Figure | None = None
    wear_limit: Figure | None = None


@dataclass(frozen=True, slots=True)
class PilotPlan:
    """The pilot that stands in the guide, and how far the bore's axis can stand off."""

    name: str | None
    kind: str
    diameter: Figure | None = None
    clearance: Figure | None = None
    offset: Figure | None = None
    runout: Figure | None = None
    runout_limit: Figure | None = None
    tilt: Figure | None = None  # lean of the floor over the bore, mm


@dataclass(frozen=True, slots=True)
class Position:
    """Where the axis lies in the seat plane."""

    x: Figure
    y: Figure


@dataclass(frozen=True, slots=True)
class Order:
    """What to order when nothing in stock fits: od at least, height at least and at most, id at most, alloys.

    valves: that it is for.
    """

    od: Figure | None = None
    height: Figure | None = None
    id: Figure | None = None
    alloy: tuple[str, ...] = ()
    height_most: Figure | None = None
    valves: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class IfBig:
    """What to do, in this order, when a bore came out too big.

    insert: the one that would fit; valve: that it was measured for, None from the shelf; od: its diameter, or the
    middle of what a blank is turned to; interference: what it would give in the bore as cut.
    """

    do: str  # measure-again | insert | turned | oversize | hold
    insert: str | None = None
    bore: Figure | None = None
    valve: str | None = None
    od: Figure | None = None
    interference: Figure | None = None


@dataclass(frozen=True, slots=True)
class Waits:
    """Why a valve is not to be gone on with yet: its insert may be needed in bores that came out big. for_: theirs."""

    for_: tuple[str, ...]
    text: str


@dataclass(frozen=True, slots=True)
class Fit:
    """Stresses and the hot fit (handbook 9). NAME_least and NAME_most where the metal around is not known."""

    pressure: Figure | None = None
    pressure_least: Figure | None = None
    pressure_most: Figure | None = None
    hoop_head: Figure | None = None
    hoop_head_least: Figure | None = None
    hoop_head_most: Figure | None = None
    hoop_insert: Figure | None = None
    hoop_insert_least: Figure | None = None
    hoop_insert_most: Figure | None = None
    push_out: Figure | None = None
    push_out_least: Figure | None = None
    push_out_most: Figure | None = None
    press_in: Figure | None = None
    press_in_least: Figure | None = None
    press_in_most: Figure | None = None
    hot_least: Figure | None = None
    hot_most: Figure | None = None
    soaked_least: Figure | None = None
    gone_at_C: Figure | None = None
    set_left: Figure | None = None
    in_limits_probability: Figure | None = None


@dataclass(frozen=True, slots=True)
class HeatAndChill:
    """One pair of heat and chill, the clearance it gives, and what that makes of the assembly."""

    heat_C: Figure
    chill: str
    clearance: Figure
    kind: str


@dataclass(frozen=True, slots=True)
class AssemblyPlan:
    """How the insert goes in (handbook 10). order counts from 1 on the press card."""

    head_C: Figure
    chill: str
    kind: str  # drop-in | push | press
    clearance: Figure
    pairs: tuple[HeatAndChill, ...]
    order: int
    insert_C: Figure | None = None
    arrives_C: Figure | None = None
    press_N: Figure | None = None
    grabs_at_C: Figure | None = None


@dataclass(frozen=True, slots=True)
class Edges:
    """How far an edge of the contact moves on diameter."""

    outer: Figure | None = None
    inner: Figure | None = None


@dataclass(frozen=True, slots=True)
class SeatCut:
    """One of the three cuts."""

    name: str  # top | seat | throat
    angle: Figure
    outer: Figure | None = None
    inner: Figure | None = None
    width: Figure | None = None
    deeper_0_1: Edges | None = None


@dataclass(frozen=True, slots=True)
class HeightLimits:
    """Limits of a height, None where there is none on that side."""

    least: Figure | None = None
    most: Figure | None = None
    aim: Figure | None = None
    expected: Figure | None = None


@dataclass(frozen=True, slots=True)
class SeatPlan:
    """The seat (handbook 12)."""

    outer: Figure | None = None
    inner: Figure | None = None
    width: Figure | None = None
    width_least: Figure | None = None
    width_most: Figure | None = None
    angle: Figure | None = None
    sink: Figure | None = None
    cuts: tuple[SeatCut, ...] = ()
    gauge_depth: Figure | None = None
    carries: str | None = None
    recession: HeightLimits | None = None
    tip: HeightLimits | None = None
    spring: HeightLimits | None = None
    tip_change: Figure | None = None
    tip_after: Figure | None = None
    spring_after: Figure | None = None
    shim: Figure | None = None
    grind: Figure | None = None
    runout_limit: Figure | None = None
    leak_limit_s: Figure | None = None


@dataclass(frozen=True, slots=True)
class CutPlan:
    """What was cut, judged (handbook 11, 13). At 20 °C unless named a reading.

    verdict: accepted | measure-again | rework | big. open_by: on diameter, at the bench, for a bore that is small,
    to the aim of the setting that it stands in; new_reading: that setting's. In no setting: to its own aim, and from
    the reading that it was cut at.
    """

    bore: Figure | None = None
    bore_a: Figure | None = None
    bore_b: Figure | None = None
    round: Figure | None = None
    taper: Figure | None = None
    depth: Figure | None = None
    floor_square: Figure | None = None
    cutter: str | None = None
    read: Figure | None = None
    insert_od: Figure | None = None
    overcut: Figure | None = None
    interference: Figure | None = None
    u: Figure | None = None
    verdict: str | None = None
    open_by: Figure | None = None
    date: str | None = None
    new_reading: Figure | None = None
    earlier: tuple[CutPlan, ...] = ()


@dataclass(frozen=True, slots=True)
class FinishedPlan:
    """What was found on the finished valve, judged. verdicts: (name, pass|fail) pairs."""

    stand: Figure | None = None
    seat_tir: Figure | None = None
    seat_width: Figure | None = None
    recession: Figure | None = None
    tip_height: Figure | None = None
    spring_height: Figure | None = None
    leak: str | None = None
    leak_s: Figure | None = None
    pressure_test: str | None = None
    verdicts: tuple[tuple[str, str], ...] = ()
    verdict: str | None = None


@dataclass(frozen=True, slots=True)
class Hold:
    """Why a valve cannot be cut: slug, what is wrong with the figures, what would lift it, the figure behind it."""

    slug: str
    text: str
    help: str
    figure: Figure | None = None
    limit: Figure | None = None


@dataclass(frozen=True, slots=True)
class ValvePlan:
    """Everything decided for one valve. valve: as the job gave it. head: number of its head."""

    name: str
    head: int
    kind: str
    status: str
    valve: Valve
    found: Measured
    at20: At20
    guide: GuidePlan
    notes: tuple[str, ...] = ()
    insert: InsertPlan | None = None
    next: Next | None = None
    interference: Interference | None = None
    clean_up: CleanUp | None = None
    bore: Bore | None = None
    depth: Depth | None = None
    stand: HeightLimits | None = None  # of the insert's face below its depth face, proud negative
    floor_left: Figure | None = None
    ledge: Figure | None = None
    pilot: PilotPlan | None = None
    cutter: str | None = None
    setting: int | None = None
    depth_stop: int | None = None
    corner: Figure | None = None
    passes: tuple[Figure, ...] = ()
    rpm: Figure | None = None
    surface_speed_m_min: Figure | None = None
    feed_mm_rev: Figure | None = None
    minutes: Figure | None = None
    turns: Figure | None = None
    torque_Nm: Figure | None = None
    fit: Fit | None = None
    assembly: AssemblyPlan | None = None
    seat: SeatPlan | None = None
    cut: CutPlan | None = None
    finished: FinishedPlan | None = None
    position: Position | None = None
    valve_tilt: Figure | None = None
    trial_here: bool | None = None
    if_big: tuple[IfBig, ...] = ()
    waits: Waits | None = None
    order: Order | None = None
    holds: tuple[Hold, ...] = ()


@dataclass(frozen=True, slots=True)
class Overcut:
    """What a cutter bores bigger than it is set. from_: shop, trial; trials: how many."""

    value: Figure
    from_: str
    trials: int
    spread: Figure | None = None


@dataclass(frozen=True, slots=True)
class Correction:
    """What makes the reading from the aim: their sum. All mm on diameter."""

    temperature: Figure
    master: Figure
    overcut: Figure


@dataclass(frozen=True, slots=True)
class FirstCut:
    """The first cut, below size: bore and the reading that gives it, None without a setting gauge."""

    bore: Figure
    reading: Figure | None


@dataclass(frozen=True, slots=True)
class PassBelow:
    """A pass to full depth before the first cut, where the tip is narrower than the floor: no bigger than bore.

    bore: at 20 °C. reading: the whole step of the setting gauge at or below it, None without one or beyond its range.
    valves: those it is taken in.
    """

    bore: Figure
    reading: Figure | None
    valves: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DepthStop:
    """One position of the machine's depth stop: stop is the depth in mm, dial what the dial shows in dial_unit."""

    number: int
    stop: Figure
    valves: tuple[str, ...]
    dial: Figure | None = None
    dial_unit: str | None = None  # mm | in


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting of the cutter. reading: mm on diameter at gauge temperature, whole gauge steps.

    reading_unit: what the gauge is marked in, mm | in; both None without a setting gauge. aim: the bore that the
    reading gives; least, most: those that its valves allow in common, at 20 °C. rounding_left: aim less the one wanted.
    valves: in the order in which they are bored, the one for the first cut first; waits: those of them that are not to
    be bored yet, as their plans say. bench_aim: what the bore gauge shows
    of aim at the bench, for the sum after the first cut. ring, ring_reads: that of the bore gauge nearest to it.
    passes: those below size, the smallest first, all of them before the first cut.
    """

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


@dataclass(frozen=True, slots=True)
class TrialPlan:
    """A trial cut and the overcut it tells."""

    head: int
    cutter: str
    read: Figure
    bored: Figure
    overcut: Figure | None = None


@dataclass(frozen=True, slots=True)
class Bridge:
    """The metal left between two bores (or a bore and a hole or rim), worst case."""

    between: tuple[str, str]
    head: int
    centres: Figure
    left: Figure
    least: Figure | None = None


@dataclass(frozen=True, slots=True)
class FetchInsert:
    """An insert to fetch: how many, and how many stay on the shelf, None where not counted."""

    name: str
    count: int
    left: int | None = None


@dataclass(frozen=True, slots=True)
class FetchChill:
    """A chill to fetch."""

    name: str
    C: Figure


@dataclass(frozen=True, slots=True)
class Fetch:
    """What to fetch from the rack for this job."""

    cutters: tuple[str, ...] = ()
    pilots: tuple[str, ...] = ()
    gauge: str | None = None
    bore_gauge: str | None = None
    master: Figure | None = None
    ring: Figure | None = None
    inserts: tuple[FetchInsert, ...] = ()
    order: tuple[Order, ...] = ()
    heat_C: Figure | None = None
    chill: FetchChill | None = None
    press_N: Figure | None = None


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution that this job calls for, its valves (() for all) and the steps that it stands beside.

    steps: names of card steps, such as `clean`, `remove`, `bore`, `heat`, `chill`, `press`, `seat`, `test`, `lift`.
    """

    slug: str
    text: str
    agency: str
    valves: tuple[str, ...]
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole plan. valves in the order of the heads; not_checked: slugs of what was not given and so not checked."""

    job: Job
    heads: tuple[Head, ...]
    valves: tuple[ValvePlan, ...]
    settings: tuple[Setting, ...] = ()
    trials: tuple[TrialPlan, ...] = ()
    fewest_settings_proof: tuple[str, ...] = ()
    bridges: tuple[Bridge, ...] = ()
    fetch: Fetch = field(default_factory=Fetch)
    cautions: tuple[Caution, ...] = ()
    not_checked: tuple[str, ...] = ()
    messages: tuple[Message, ...] = ()
