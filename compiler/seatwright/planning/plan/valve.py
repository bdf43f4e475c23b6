"""Everything decided for one valve."""

from __future__ import annotations

from msgspec import Struct

from seatwright.job.model import Measured, Valve
from seatwright.planning.plan.figure import Figure
from seatwright.planning.plan.cut import CutPlan, FinishedPlan, IfBig, Waits
from seatwright.planning.plan.fit import AssemblyPlan, Fit
from seatwright.planning.plan.found import At20, GuidePlan, PilotPlan, Position
from seatwright.planning.plan.pocket import Bore, CleanUp, Depth, InsertPlan, Interference, Next, Order
from seatwright.planning.plan.seat import HeightLimits, SeatPlan

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


class Hold(Struct, frozen=True):
    """Why a valve cannot be cut: slug, what is wrong with the figures, what would lift it, the figure behind it."""

    slug: str
    text: str
    help: str
    figure: Figure | None = None
    limit: Figure | None = None


class ValvePlan(Struct, frozen=True):
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
