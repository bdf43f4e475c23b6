"""Bridges while inserts are being chosen (handbook 4b): what is ruled out whatever the neighbour gets, and which pairs
of valves limit each other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from seatwright.handbook import pockets, seats
from seatwright.job.model import Head, Job, Valve
from seatwright.planning.serves.candidates import Candidate
from seatwright.planning.inserts.choice import ThinPair
from seatwright.planning.plan.figure import Figure, assumed, computed, given
from seatwright.planning.inserts.neighbours import Pair, neighbourhood
from seatwright.planning.plan import ValvePlan
from seatwright.planning.serves.reasons import Reason
from seatwright.planning.basis.wording import length, said

_SOURCE = "handbook 5"
_SLACK = 1e-9
_INSIDE_RIM = assumed("least", "mm", 0.0, "language: an insert stays inside the rim")


class Side(Struct, frozen=True):
    """One side of a bridge: its diameter and how far that can stand off its axis.

    bored: it is cut in this job. as_cut: it was, and stays as it is.
    """

    diameter: Figure
    lean: Figure | None
    bored: bool
    as_cut: bool = False


def unbored(plan: ValvePlan | None, valve: Valve) -> Side | None:
    """A valve that is not bored counts with its pocket, else its seat's outer diameter, else the valve's head.

    The pocket stands off the axis by what was measured of it. plan : None for a neighbour, which nothing is planned of
    """
    found, spec = valve.measured, valve.specification
    if plan is not None and plan.at20.pocket is not None:
        off = None if found.pocket_offset is None else given("offset", "mm", found.pocket_offset)
        return Side(plan.at20.pocket, off, False)
    if plan is None:
        readings = [one for one in (found.pocket_a, found.pocket_b) if one is not None]
        if readings:
            widest = max(readings, key=lambda one: one.largest)
            return Side(given("pocket", "mm", widest, widest.largest), None, False)
    head_diameter = found.head_diameter or spec.head_diameter
    if head_diameter is None:
        return None
    across = given("head_diameter", "mm", head_diameter)
    if spec.setback is None:
        return Side(across, None, False)
    setback = given("setback", "mm", spec.setback)
    outer = seats.contact_outer(across.value, setback.value)
    formula = "head_diameter - 2*setback"
    return Side(computed("seat_outer", "mm", outer, formula, (across, setback), "handbook 12"), None, False)


def metal_left(pair: Pair, first: Side, second: Side | None) -> Figure:
    """Least metal of a bridge: between two sides, a side and a hole, or inside a rim (second None for those)."""
    lean = first.lean.value if first.lean else 0.0
    one = first.diameter.called("bore_1")
    leans = [] if first.lean is None else [first.lean.called("e_1")]
    if pair.hole is not None:
        across = given("diameter", "mm", pair.hole.diameter)
        off = "".join(f" - {each.symbol}" for each in leans)
        if pair.hole.kind == "rim":
            value = pockets.rim_left(across.value, pair.centres.value, one.value, lean)
            formula = f"diameter/2 - centres - bore_1/2{off}"
        else:
            value = pockets.bridge_left(pair.centres.value, one.value, across.value, lean, 0.0)
            formula = f"centres - (bore_1 + diameter)/2{off}"
        return computed("left", "mm", value, formula, (pair.centres, one, across, *leans), _SOURCE)
    assert second is not None
    two = second.diameter.called("bore_2")
    leans += [] if second.lean is None else [second.lean.called("e_2")]
    value = pockets.bridge_left(
        pair.centres.value, one.value, two.value, lean, second.lean.value if second.lean else 0.0
    )
    formula = "centres - (bore_1 + bore_2)/2" + "".join(f" - {each.symbol}" for each in leans)
    return computed("left", "mm", value, formula, (pair.centres, one, two, *leans), _SOURCE)


def least_metal(head: Head, pair: Pair) -> Figure | None:
    """What must be left: `least-bridge`; inside a rim, nothing less than nothing."""
    if pair.hole is not None and pair.hole.kind == "rim":
        return _INSIDE_RIM
    return None if head.least_bridge is None else given("least_bridge", "mm", head.least_bridge)


class Bridges:
    """What the bridges of one head allow while inserts are being chosen.

    fixed : bores that are already settled (turned inserts), as sides
    """

    def __init__(
        self,
        job: Job,
        head: Head,
        plans: Sequence[ValvePlan],
        candidates: Mapping[str, Sequence[Candidate]],
        fixed: Mapping[str, Side],
    ) -> None:
        self.job, self.head, self.candidates, self.fixed = job, head, candidates, fixed
        self.plans = {plan.name: plan for plan in plans}
        self.valves = {valve.name: valve for valve in (*head.valves, *head.neighbours)}
        self.smallest = {name: self._smallest(name) for name in self.valves}
        sizes = {name: self._largest(name) for name in self.valves}
        known = {name: size for name, size in sizes.items() if size is not None}
        self.pairs = neighbourhood(head, known).pairs
        self.of: dict[str, list[Pair]] = {}
        for pair in self.pairs:
            self.of.setdefault(pair.first, []).append(pair)
            if pair.hole is None:
                self.of.setdefault(pair.second, []).append(pair)

    def rules_out(self, valve: str, candidate: Candidate) -> Reason | None:
        """Whether a bore is too large for a bridge even beside the smallest that the neighbour can have."""
        if candidate.bore is None:
            return None
        own = Side(candidate.bore.most, self._lean(valve), True)
        for pair in self.of.get(valve, ()):
            least = least_metal(self.head, pair)
            other = None if pair.hole is not None else self.smallest[_other(pair, valve)]
            if least is None or (pair.hole is None and other is None):
                continue
            left = metal_left(pair, own, other)
            if left.value < least.value - _SLACK:
                return Reason(
                    "bridge-thin",
                    f"{candidate.offer.name} would leave {length(self.job, left.value)} to {_other(pair, valve)}; "
                    f"{said(self.job, least) if least.value else 'it must stay inside'}"
                    f"{' is the least' if least.value else ''}.",
                    left,
                    least,
                )
        return None

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

    def _smallest(self, name: str) -> Side | None:
        """The least that a valve can come to: its settled bore, its smallest candidate, or what is there now."""
        if name in self.fixed:
            return self.fixed[name]
        offered = [one for one in self.candidates.get(name, ()) if one.bore is not None]
        if not offered or any(one.keep for one in self.candidates.get(name, ())):
            return unbored(self.plans.get(name), self.valves[name])
        least = min(offered, key=lambda one: one.largest_bore or 0.0)
        assert least.bore is not None
        return Side(least.bore.most, self._lean(name), True)

    def _largest(self, name: str) -> float | None:
        bores = [one.largest_bore for one in self.candidates.get(name, ()) if one.largest_bore is not None]
        smallest = self.smallest[name]
        if smallest is not None:
            bores.append(smallest.diameter.value)
        return max(bores, default=None)


def _other(pair: Pair, valve: str) -> str:
    return pair.second if pair.first == valve else pair.first
