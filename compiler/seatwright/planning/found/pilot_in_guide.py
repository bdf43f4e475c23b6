"""One pilot in one guide: whether it goes in, and how far the bore's axis can stand off the guide's (handbook 2)."""

from __future__ import annotations

from msgspec import Struct

from seatwright.handbook import pilots as sums
from seatwright.job.model import Head, Job, Machine, Pilot
from seatwright.planning.basis.faces import depth_face, is_integral, pocket_depth_now
from seatwright.planning.basis.findings import Findings
from seatwright.planning.found.brought_to_20 import guide_stations
from seatwright.planning.plan import PilotPlan, Started
from seatwright.planning.plan.figure import Figure, assumed, computed, given
from seatwright.text.slugs import NoticeSlug

_SOURCE = "handbook 2"
_SLACK = 1e-9


class Guide(Struct, frozen=True):
    """A guide that a pilot may stand in.

    stations: (place from the port end, inwards negative [mm], smallest reading there), which a pilot must enter.
    widest_at: the same places at their largest reading, towards which it leans. length and height: of the guide, and
    of the rim above its port end; None where not given.
    """

    stations: tuple[tuple[float, Figure], ...]
    widest_at: tuple[tuple[float, Figure], ...]
    length: Figure | None
    height: Figure | None

    def leans_in(self, pilot: Pilot) -> tuple[tuple[float, float], ...] | None:
        """Largest diameters of the guide where this pilot reaches; None where its length or the guide's is not
        given."""
        return self._within(pilot, self.widest_at)

    def tightest(self, pilot: Pilot) -> float:
        """The narrowest place that the pilot has to pass; of the whole guide where its reach is not known."""
        reached = self._within(pilot, self.stations) or tuple((place, one.value) for place, one in self.stations)
        return min(diameter for _, diameter in reached)

    def widest(self, pilot: Pilot) -> float:
        """The widest place within the pilot's reach."""
        reached = self._within(pilot, self.widest_at) or tuple((place, one.value) for place, one in self.widest_at)
        return max(diameter for _, diameter in reached)

    @property
    def readings(self) -> tuple[Figure, ...]:
        """The readings by which a pilot enters, port end first."""
        return tuple(figure for _, figure in self.stations)

    @property
    def widest_readings(self) -> tuple[Figure, ...]:
        """The readings by which it leans, port end first."""
        return tuple(figure for _, figure in self.widest_at)

    def _within(self, pilot: Pilot, at: tuple[tuple[float, Figure], ...]) -> tuple[tuple[float, float], ...] | None:
        if self.length is None or pilot.length is None:
            return None
        return sums.stations_within([(place, figure.value) for place, figure in at], pilot.length.value)


def guide_of(head: Head, plan: Started, findings: Findings) -> Guide:
    """The guide of a valve with all that is known of it; what is missing is said."""
    return findings.once(("guide", id(head), id(plan.valve)), lambda: _guide_of(head, plan, findings))


def _guide_of(head: Head, plan: Started, findings: Findings) -> Guide:
    length = plan.valve.specification.guide_length
    of_guide = None if length is None else given("guide_length", "mm", length)
    if of_guide is None:
        findings.unchecked(
            "guide-length-not-given",
            "`guide-length` is not given: how far the pilot can lean is not computed.",
            "Measure the guide from its port end to its spring end.",
            head.span,
            (plan.name,),
        )
    # The stations' places need the length; without it any will do, since only the tightest is then asked for.
    full = 1.0 if of_guide is None else of_guide.value
    places = {"guide_bottom": 0.0, "guide_middle": -full / 2, "guide_top": -full}

    def stations(largest: bool) -> tuple[tuple[float, Figure], ...]:
        readings = guide_stations(plan.valve, findings, largest=largest)
        return tuple(sorted(((places[figure.symbol], figure) for figure in readings), key=lambda one: -one[0]))

    return Guide(stations(largest=False), stations(largest=True), of_guide, rim_height(head, plan, findings))


def rim_height(head: Head, plan: Started, findings: Findings) -> Figure | None:
    """Height of the pocket's rim above the port end of the guide: guide-to-floor + depth.

    The depth is that of the pocket as it stands now, since `guide-to-floor` ends at its floor: as found, less a skim
    made since; the maker's depth where it was not measured; nothing for an integral seat; the insert's height where
    depths are counted from the old floor. A skim made nobody knows when: None, which `pocket_depth_now` says.
    """
    spec, found = plan.valve.specification, plan.found
    face = depth_face(head, findings)
    missing: NoticeSlug = "pocket-depth-not-given"
    deep: Figure | None = None
    printed = None if spec.standard_size is None else spec.standard_size.depth
    if spec.guide_to_floor is None:
        missing = "guide-to-floor-not-given"
    elif is_integral(plan):
        deep = assumed("pocket_depth", "mm", 0.0, "an integral seat has no pocket")
    elif face == "floor":
        deep = None if found.insert_height is None else given("insert_height", "mm", found.insert_height)
        missing = "insert-height-not-given"
    elif found.pocket_depth is not None:
        deep = pocket_depth_now(head, plan, findings)
        if deep is None:
            return None
    elif printed is not None and printed.most is not None:
        deep = given("depth_most", "mm", printed.most)
    elif printed is not None and printed.nominal is not None:
        deep = given("maker_depth", "mm", printed.nominal)
    if deep is None or spec.guide_to_floor is None:
        word = missing.removesuffix("-not-given")
        findings.unchecked(
            missing,
            f"`{word}` is not given: how far the pilot can lean at the rim is not computed.",
            f"Give `{word}`.",
            head.span,
            (plan.name,),
        )
        return None
    below = given("guide_to_floor", "mm", spec.guide_to_floor)
    formula = f"guide_to_floor + {deep.symbol}"
    return computed("h", "mm", below.value + deep.value, formula, (below, deep), _SOURCE, "to the rim")


def enters(pilot: Pilot, guide: Guide, clearance: Figure) -> bool:
    """Whether a pilot goes into this guide: with its clearance, or, if it grips, by its range."""
    if pilot.kind == "tapered":
        if guide.stations[0][0] != 0.0:
            return _in_range(pilot, guide.tightest(pilot), guide.tightest(pilot))
        return _in_range(pilot, guide.stations[0][1].value, guide.widest_at[0][1].value)
    if pilot.kind == "expanding":
        return _in_range(pilot, guide.tightest(pilot), guide.widest(pilot))
    if pilot.diameter is None:
        return False
    tightest = guide.tightest(pilot)
    return sums.largest_entering([pilot.diameter.value], tightest, clearance.value) is not None


def _in_range(pilot: Pilot, least: float, most: float) -> bool:
    if pilot.smallest is None or pilot.largest is None:
        return False
    return pilot.smallest.value <= least + _SLACK and most <= pilot.largest.value + _SLACK


def standing(job: Job, pilot: Pilot, guide: Guide, over: Figure | None, findings: Findings) -> PilotPlan:
    """A pilot that enters, as it stands: its clearance, offset e, runout 2e, and the lean of the floor.

    over : diameter over which the floor is judged, None where it is not known
    """
    tightest = min(guide.readings, key=lambda figure: figure.value)
    diameter = None if pilot.diameter is None else given("pilot", "mm", pilot.diameter)
    clearance = None
    offset: Figure | None
    tilt: Figure | None
    if diameter is not None:
        names = ", ".join(figure.symbol for figure in guide.readings)
        clearance = computed(
            "pilot_clearance",
            "mm",
            tightest.value - diameter.value,
            f"min({names}) - pilot",
            (*guide.readings, diameter),
            _SOURCE,
        )
    if pilot.kind in ("expanding", "tapered"):
        offset, tilt = _gripping(pilot, guide, over, findings)
    elif pilot.kind == "live":
        offset = spindle_offset(job.machine, guide)
        tilt = spindle_tilt(job.machine, over)
    else:
        offset, tilt = _dead(pilot, guide, over, findings)
    return PilotPlan(
        name=pilot.name.text,
        kind=pilot.kind,
        diameter=diameter,
        clearance=clearance,
        offset=offset,
        runout=None if offset is None else pilot_runout(offset),
        runout_limit=runout_limit(job),
        tilt=tilt,
    )


def pilot_runout(offset: Figure) -> Figure:
    """Runout that an indicator would show: 2e."""
    return computed("pilot_runout", "mm", sums.runout_of(offset.value), "2*e", (offset,), _SOURCE)


def runout_limit(job: Job) -> Figure | None:
    """The shop's `runout`, full needle movement."""
    limit = job.shop.practice.runout
    return None if limit is None else given("runout_limit", "mm", limit)


def spindle_offset(machine: Machine | None, guide: Guide) -> Figure | None:
    """e of a bore that the spindle guides; None where `centring`, `level`, the guide or its height is not given."""
    height, length = guide.height, guide.length
    if machine is None or machine.centring is None or machine.level is None or height is None or length is None:
        return None
    centring, level = given("centring", "mm", machine.centring), given("level", "mm/mm", machine.level)
    value = sums.spindle_offset(centring.value, level.value, height.value, length.value)
    formula = "centring + level*(h + guide_length/2)"
    return computed("e", "mm", value, formula, (centring, level, height, length), _SOURCE)


def spindle_tilt(machine: Machine | None, over: Figure | None) -> Figure | None:
    """How much a spindle that is out of level squares the floor off over the bore."""
    if machine is None or machine.level is None or over is None:
        return None
    level = given("level", "mm/mm", machine.level)
    value = sums.spindle_tilt_over(level.value, over.value)
    return computed("tilt", "mm", value, f"level*{over.symbol}", (level, over), _SOURCE)


def _gripping(
    pilot: Pilot, guide: Guide, over: Figure | None, findings: Findings
) -> tuple[Figure | None, Figure | None]:
    """A pilot that grips has no clearance; its own runout grows with the height above where it was read."""
    own = _own_offset(pilot, findings)
    if own.value == 0.0:
        return own, None
    if pilot.tir_at is None:
        findings.unchecked(
            "pilot-tir-at-not-given",
            f"At which height the `tir` of the pilot {pilot.name.text} was read is not given: half of it is taken at "
            "any height, and the lean of the floor is not computed.",
            "Read it at a known height above the port end of a guide, and write that as `tir-at` in the shop file.",
            pilot.name.span,
        )
        return own, None
    at, tir = given("tir_at", "mm", pilot.tir_at), own.called("tir_offset")
    tilt = None
    if over is not None:
        value = sums.gripping_pilot_tilt_over(2 * tir.value, at.value, over.value)
        tilt = computed("tilt", "mm", value, f"tir_offset/tir_at*{over.symbol}", (tir, at, over), _SOURCE)
    if guide.height is None:
        return None, tilt
    value = sums.gripping_pilot_offset(2 * tir.value, guide.height.value, at.value)
    return computed("e", "mm", value, "tir_offset*h/tir_at", (tir, guide.height, at), _SOURCE), tilt


def _own_offset(pilot: Pilot, findings: Findings) -> Figure:
    if pilot.tir_offset is not None:
        return given("e", "mm", pilot.tir_offset)
    findings.notice(
        "pilot-tir-left-out",
        f"The `tir` of the pilot {pilot.name.text} is left out: 0 is used.",
        "Turn the pilot in a good guide under an indicator and write its `tir` in the shop file.",
        pilot.name.span,
    )
    return assumed("e", "mm", 0.0, "language: tir left out")


def _dead(pilot: Pilot, guide: Guide, over: Figure | None, findings: Findings) -> tuple[Figure | None, Figure | None]:
    if pilot.length is None:
        findings.unchecked(
            "pilot-length-not-given",
            f"The length of the pilot {pilot.name.text} is not given: how far it can lean is not computed.",
            "Write its `length` in the shop file.",
            pilot.name.span,
        )
        return None, None
    reached = guide.leans_in(pilot)
    if reached is None or guide.length is None or pilot.diameter is None:
        return None, None
    if len(reached) < 2:
        findings.unchecked(
            "guide-measured-once",
            "The guide is measured at one place within the pilot's length: how far the pilot leans is not computed.",
            "Measure both ends of the guide and its middle.",
            guide.readings[0].origin.span if guide.readings[0].origin else None,
        )
        return None, None
    clearances = sums.clearances(reached, pilot.diameter.value)
    used = (*guide.widest_readings, given("pilot", "mm", pilot.diameter), guide.length)
    if pilot.length.value < guide.length.value:
        used = (*used, given("pilot_length", "mm", pilot.length))
    pairs = "pairs i nearer the port than j"
    offset = None
    if guide.height is not None:
        value = sums.dead_pilot_offset(clearances, guide.height.value)
        formula = f"least over {pairs} of c_i/2 + (c_i + c_j)/2*(h - x_i)/(x_i - x_j)"
        offset = computed("e", "mm", value, formula, (*used, guide.height), _SOURCE, "c: guide less pilot")
    tilt = None
    if over is not None:
        value = sums.dead_pilot_tilt_over(clearances, over.value)
        formula = f"least over {pairs} of (c_i + c_j)/(2*(x_i - x_j))*{over.symbol}"
        tilt = computed("tilt", "mm", value, formula, (*used, over), _SOURCE, "c: guide less pilot")
    return offset, tilt
