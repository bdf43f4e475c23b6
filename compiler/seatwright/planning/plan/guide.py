"""A valve's guide: what it is like, and what is planned where it is renewed; its spring."""

from __future__ import annotations

from msgspec import Struct

from seatwright.planning.plan.figure import Figure
from seatwright.planning.plan.fit import AssemblyPlan
from seatwright.planning.plan.seat import HeightLimits


class GuideHole(Struct, frozen=True):
    """The hole that a guide goes into, at 20 °C; of a liner the old guide's bore.

    found, smallest: largest and smallest reading; where nothing was measured yet, the maker's limits (measured False).
    least, most: what it is cut to, None where the guide goes in as it is; bench_*: as read at the bench.
    """

    found: Figure
    smallest: Figure
    measured: bool
    least: Figure | None = None
    most: Figure | None = None
    bench_least: Figure | None = None
    bench_most: Figure | None = None


class GuideFit(Struct, frozen=True):
    """Interference of a guide in its hole, diametral. expected: of the middles. source: whose figure it is."""

    least: Figure
    most: Figure
    source: str
    expected: Figure | None = None


class GuideBore(Struct, frozen=True):
    """Limits of a guide's bore. reamer: of the shop, that cuts it."""

    least: Figure
    most: Figure
    reamer: str | None = None


class GuidePlan(Struct, frozen=True):
    """What the guide is like, and what becomes of it. port_end, spring_end: clearances there.

    verdict: fit, worn, tight, not-checked; of one that is to be renewed that of the old one. action: keep, replace,
    line (a liner goes into the old guide). name, alloy: of the guide or liner that goes in. reamer: for its hole; None
    where the hole is bored on the machine. closes: how much the fit closes its bore. bore: finished, after pressing.
    bought: what one that is not reamed must measure before it goes in. holds: whether it holds the force asked for.
    serves: where none went in, those of the shop's list that would serve if they were on hand.
    """

    verdict: str
    clearance: Figure | None = None
    bell_mouth: Figure | None = None
    port_end: Figure | None = None
    spring_end: Figure | None = None
    least: Figure | None = None
    most: Figure | None = None
    wear_limit: Figure | None = None
    action: str = "keep"
    name: str | None = None
    alloy: str | None = None
    hole: GuideHole | None = None
    reamer: str | None = None
    fit: GuideFit | None = None
    closes: Figure | None = None
    bore: GuideBore | None = None
    bought: GuideBore | None = None
    stand: HeightLimits | None = None
    assembly: AssemblyPlan | None = None
    push_out: Figure | None = None
    tightness: Figure | None = None
    holds: bool | None = None
    serves: tuple[str, ...] = ()


class SpringPlan(Struct, frozen=True):
    """The spring where it will stand. measured: its force was read; else it is reckoned by the maker's line.

    height: finished, over any shim. force_shut, force_open: there; force_unshimmed: shut, without the shim. loss: by
    sinking. least: force that it is held against. bind_room, retainer_room: at full lift, with bind_least and
    retainer_least asked for. verdicts: (force | shut | bind_room | retainer_room, pass | fail) pairs.
    """

    measured: bool = False
    rate: Figure | None = None
    height: Figure | None = None
    force_shut: Figure | None = None
    force_unshimmed: Figure | None = None
    force_open: Figure | None = None
    loss: Figure | None = None
    least: Figure | None = None
    bind_room: Figure | None = None
    bind_least: Figure | None = None
    retainer_room: Figure | None = None
    retainer_least: Figure | None = None
    shim: Figure | None = None
    verdicts: tuple[tuple[str, str], ...] = ()
