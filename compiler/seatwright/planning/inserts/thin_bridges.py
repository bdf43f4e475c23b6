"""Bridges while inserts are being chosen (handbook 4b): what is ruled out whatever the neighbour gets, and which pairs
of valves limit each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from seatwright.handbook import pockets, seats
from seatwright.job.model import Head, Hole, Job, Valve
from seatwright.planning.basis.wording import length, said
from seatwright.planning.inserts.choice import ThinPair
from seatwright.planning.inserts.neighbours import Neighbours, neighbourhood
from seatwright.planning.plan import Piloted
from seatwright.planning.plan.figure import Figure, assumed, computed, given
from seatwright.planning.serves.candidates import Candidate
from seatwright.planning.serves.reasons import Reason

_SOURCE = "handbook 5"
_SLACK = 1e-9
_INSIDE_RIM = assumed("least", "mm", 0.0, "language: an insert stays inside the rim")


class BridgeSide(Struct, frozen=True):
    """One side of a bridge: its diameter and how far that can stand off its axis.

    bored: it is cut in this job. as_cut: it was, and stays as it is. as_made: only the maker's size is known of what is
    there, which may have grown since.
    """

    diameter: Figure
    lean: Figure | None
    bored: bool
    as_cut: bool = False
    as_made: bool = False


def unbored(plan: Piloted | None, valve: Valve) -> BridgeSide | None:
    """What is there of a valve that is not bored; None where nobody knows.

    Its measured pocket, with what that stands off; else the insert that is in it; a seat that was cut in the casting
    by its own outer diameter; else the pocket as its maker made it. An insert's pocket is not seen from above, so no
    seat tells of it.

    plan : None for a neighbour, which nothing is planned of
    """
    found, spec = valve.measured, valve.specification
    off = None if found.pocket_offset is None else given("offset", "mm", found.pocket_offset)
    if plan is not None and plan.at20.pocket is not None:
        return BridgeSide(plan.at20.pocket, off, False)
    readings = [one for one in (found.pocket_a, found.pocket_b) if one is not None]
    if readings:
        widest = max(readings, key=lambda one: one.largest)
        return BridgeSide(given("pocket", "mm", widest, widest.largest), off, False)
    if found.old_insert_od is not None:
        return BridgeSide(given("old_insert_od", "mm", found.old_insert_od, found.old_insert_od.largest), off, False)
    if spec.seat_integral is not None:
        return _cut_in_casting(valve)
    standard = spec.standard_size
    made = None if standard is None or standard.bore is None else standard.bore.most
    made = made or spec.oversize_of
    return None if made is None else BridgeSide(given("makers_pocket", "mm", made), None, False, as_made=True)


def _cut_in_casting(valve: Valve) -> BridgeSide | None:
    found, spec = valve.measured, valve.specification
    head_diameter = found.head_diameter or spec.head_diameter
    if head_diameter is None:
        return None
    across = given("head_diameter", "mm", head_diameter)
    if spec.setback is None:
        return BridgeSide(across, None, False)
    setback = given("setback", "mm", spec.setback)
    outer = seats.contact_outer(across.value, setback.value)
    formula = "head_diameter - 2*setback"
    return BridgeSide(computed("seat_outer", "mm", outer, formula, (across, setback), "handbook 12"), None, False)


def metal_left(pair: Neighbours, first: BridgeSide, second: BridgeSide | Hole) -> Figure:
    """Least metal of a bridge: between two sides, a side and a hole, or inside a rim."""
    lean = first.lean.value if first.lean else 0.0
    one = first.diameter.called("bore_1")
    leans = [] if first.lean is None else [first.lean.called("e_1")]
    if isinstance(second, Hole):
        across = given("diameter", "mm", second.diameter)
        off = "".join(f" - {each.symbol}" for each in leans)
        if second.kind == "cylinder":
            value = pockets.rim_left(across.value, pair.centres.value, one.value, lean)
            formula = f"diameter/2 - centres - bore_1/2{off}"
        else:
            value = pockets.bridge_left(pair.centres.value, one.value, across.value, lean, 0.0)
            formula = f"centres - (bore_1 + diameter)/2{off}"
        return computed("left", "mm", value, formula, (pair.centres, one, across, *leans), _SOURCE)
    two = second.diameter.called("bore_2")
    leans += [] if second.lean is None else [second.lean.called("e_2")]
    value = pockets.bridge_left(
        pair.centres.value, one.value, two.value, lean, second.lean.value if second.lean else 0.0
    )
    formula = "centres - (bore_1 + bore_2)/2" + "".join(f" - {each.symbol}" for each in leans)
    return computed("left", "mm", value, formula, (pair.centres, one, two, *leans), _SOURCE)


def least_metal(head: Head, pair: Neighbours) -> Figure | None:
    """What must be left: `least-bridge`; inside a rim, nothing less than nothing."""
    if pair.hole is not None and pair.hole.kind == "cylinder":
        return _INSIDE_RIM
    return None if head.least_bridge is None else given("least_bridge", "mm", head.least_bridge)


class Thin(Struct, frozen=True):
    """A bridge to a neighbour, hole or rim: what is left of it, and the least."""

    to: str
    left: Figure
    least: Figure


class Bridges:
    """What the bridges of one head allow while inserts are being chosen.

    fixed : bores that are already settled (turned inserts), as sides
    """

    def __init__(
        self,
        job: Job,
        head: Head,
        plans: Sequence[Piloted],
        candidates: Mapping[str, Sequence[Candidate]],
        fixed: Mapping[str, BridgeSide],
    ) -> None:
        self.job, self.head, self.candidates, self.fixed = job, head, candidates, fixed
        self.plans = {plan.name: plan for plan in plans}
        self.valves = {valve.name: valve for valve in (*head.valves, *head.neighbours)}
        self.there = {name: unbored(self.plans.get(name), each) for name, each in self.valves.items()}
        self.smallest = {name: self._smallest(name) for name in self.valves}
        sizes = {name: self._largest(name) for name in self.valves}
        known = {name: size for name, size in sizes.items() if size is not None}
        self.pairs = neighbourhood(head, known).pairs
        self.of: dict[str, list[Neighbours]] = {}
        for pair in self.pairs:
            self.of.setdefault(pair.first, []).append(pair)
            if pair.hole is None:
                self.of.setdefault(pair.second, []).append(pair)

    def rules_out(self, valve: str, candidate: Candidate) -> Reason | None:
        """Whether a bore is too large for a bridge even beside the smallest that the neighbour can have."""
        if candidate.bore is None:
            return None
        own = BridgeSide(candidate.bore.most, self._lean(valve), True)
        for found in self._beside(valve, own, self.smallest):
            if found.left.value < found.least.value - _SLACK:
                return Reason(
                    "bridge-thin",
                    f"{candidate.offer.name} would leave {length(self.job, found.left.value)} to {found.to}; "
                    f"{said(self.job, found.least) if found.least.value else 'it must stay inside'}"
                    f"{' is the least' if found.least.value else ''}.",
                    found.left,
                    found.least,
                )
        return None

    def as_found(self, valve: str) -> Thin | None:
        """The bridge beside this pocket that is too thin already, before anything is bored; None where none is."""
        plan = self.plans.get(valve)
        own = None if plan is None or plan.at20.pocket is None else unbored(plan, self.valves[valve])
        return None if own is None else self._thinnest(valve, own, self.there)

    def cleaned_up(self, valve: str, needed: Figure) -> Thin | None:
        """The bridge that does not bear even the smallest bore that cleans this pocket up; None where all do."""
        return self._thinnest(valve, BridgeSide(needed, self._lean(valve), True), self.smallest)

    def _thinnest(self, valve: str, own: BridgeSide, others: Mapping[str, BridgeSide | None]) -> Thin | None:
        thin = [found for found in self._beside(valve, own, others) if found.left.value < found.least.value - _SLACK]
        return min(thin, key=lambda one: one.left.value - one.least.value, default=None)

    def _beside(self, valve: str, own: BridgeSide, others: Mapping[str, BridgeSide | None]) -> Iterator[Thin]:
        """Every bridge of a valve that is known. others : what its neighbours count with"""
        for pair in self.of.get(valve, ()):
            least = least_metal(self.head, pair)
            other = pair.hole or others[_other(pair, valve)]
            if least is not None and other is not None:
                yield Thin(_other(pair, valve), metal_left(pair, own, other), least)

    def limits(self, choosing: Mapping[str, object]) -> tuple[ThinPair, ...]:
        """The pairs of valves that are both being chosen for, and the room for their two bores together."""
        found = []
        for pair in self.pairs:
            least = least_metal(self.head, pair)
            if pair.hole is not None or least is None or pair.first not in choosing or pair.second not in choosing:
                continue
            leans = sum(lean.value for lean in (self._lean(pair.first), self._lean(pair.second)) if lean is not None)
            found.append(ThinPair(pair.first, pair.second, 2 * (pair.centres.value - leans - least.value)))
        return tuple(found)

    def _lean(self, valve: str) -> Figure | None:
        plan = self.plans.get(valve)
        return None if plan is None or plan.pilot is None else plan.pilot.offset

    def _smallest(self, name: str) -> BridgeSide | None:
        """The least that a valve can come to: its settled bore, its smallest candidate, or what is there now."""
        if name in self.fixed:
            return self.fixed[name]
        offered = [one.bore.most for one in self.candidates.get(name, ()) if one.bore is not None]
        if not offered or any(one.keep for one in self.candidates.get(name, ())):
            return unbored(self.plans.get(name), self.valves[name])
        return BridgeSide(min(offered, key=lambda bore: bore.value), self._lean(name), True)

    def _largest(self, name: str) -> float | None:
        bores = [one.largest_bore for one in self.candidates.get(name, ()) if one.largest_bore is not None]
        smallest = self.smallest[name]
        if smallest is not None:
            bores.append(smallest.diameter.value)
        return max(bores, default=None)


def _other(pair: Neighbours, valve: str) -> str:
    return pair.second if pair.first == valve else pair.first
