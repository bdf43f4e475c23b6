"""What the drawing of a head is made from: where everything lies, how big it is, what is written to it."""

from __future__ import annotations

from msgspec import Struct

from seatwright.cards.parts import figures
from seatwright.cards.parts.words import STATUS, TO_BORE, WITH_FIGURES
from seatwright.job.model import Head, Measured, Specification
from seatwright.planning.basis import instruments
from seatwright.planning.plan import Bridge, Plan, Status, ValvePlan

NEAR_LIMIT = 1.5
"""A bridge is marked where no more than this many times its least is left; this program's own bound, said beside it."""


class Spot(Struct, frozen=True):
    """A valve from the deck. diameter: of the bore, or of what is there where none is planned; None: not known, only
    its axis is drawn. lines: bore, insert, setting, or where it stands."""

    name: str
    x: float
    y: float
    diameter: float | None
    planned: bool
    lines: tuple[str, ...]


class Round(Struct, frozen=True):
    """A hole, or a rim that is drawn dashed."""

    name: str
    x: float
    y: float
    diameter: float
    rim: bool


class Tight(Struct, frozen=True):
    """A bridge near its limit, as printed."""

    between: tuple[str, str]
    left: str
    least: str


def spots(plan: Plan, head: Head) -> tuple[Spot, ...]:
    """The valves that `layout` places, in its order."""
    planned = {valve.name: valve for valve in plan.valves if valve.head == head.number}
    neighbours = {valve.name: valve for valve in head.neighbours}
    found = []
    for place in head.layout:
        x, y = place.x.value, place.y.value
        if place.valve in planned:
            found.append(_spot(plan, planned[place.valve], x, y))
        else:
            other = neighbours.get(place.valve)
            size = _as_found(other.measured, other.specification) if other is not None else None
            found.append(Spot(place.valve, x, y, size, False, (STATUS[Status.NOT_PLANNED],)))
    return tuple(found)


def _spot(plan: Plan, valve: ValvePlan, x: float, y: float) -> Spot:
    lines = []
    size = None
    if valve.bore is not None and valve.status in WITH_FIGURES:
        size = valve.bore.bench_aim.value
        lines.append(f"Ø{figures.digits_shown(valve.bore.bench_aim, instruments.bore_gauge(plan.job))}")
    elif valve.cut is not None and valve.cut.bore is not None and valve.status != Status.HOLD:
        size = valve.cut.bore.value
    if valve.insert is not None and (size is not None or valve.status == Status.KEPT):
        lines.append(valve.insert.name)
    setting = next((each for each in plan.settings if each.number == valve.setting), None)
    if setting is not None and valve.status in WITH_FIGURES:
        lines.append(setting.name)
    if valve.status not in TO_BORE or not lines:
        lines.append(STATUS[valve.status])
    return Spot(
        valve.name,
        x,
        y,
        size if size is not None else _as_found(valve.found, valve.valve.specification),
        size is not None,
        tuple(lines),
    )


def _as_found(found: Measured, said: Specification) -> float | None:
    """The largest circle that is known of a valve that is not bored: its pocket, its insert, the valve's head."""
    pockets = [cell.largest for cell in (found.pocket_a, found.pocket_b) if cell is not None]
    if pockets:
        return max(pockets)
    for cell in (found.insert_od, found.old_insert_od, found.head_diameter):
        if cell is not None:
            return cell.value
    return said.head_diameter.value if said.head_diameter is not None else None


def rounds(head: Head) -> tuple[Round, ...]:
    """The holes and rims."""
    return tuple(
        Round(hole.name, hole.x.value, hole.y.value, hole.diameter.value, hole.kind == "cylinder")
        for hole in head.holes
    )


def tight_bridges(plan: Plan, head: Head) -> tuple[Tight, ...]:
    """The bridges of a head that are near their limit, the narrowest first."""
    instrument = instruments.Instrument(
        instruments.job_unit(plan.job), 0.01 if instruments.job_unit(plan.job) == "mm" else 0.0254
    )
    near = [bridge for bridge in plan.bridges if bridge.head == head.number and _is_near(bridge)]
    near.sort(key=lambda bridge: (bridge.left.value, bridge.between))
    return tuple(
        Tight(
            bridge.between,
            figures.digits_shown(bridge.left, instrument, "down"),
            figures.digits_shown(bridge.least, instrument, "up"),
        )
        for bridge in near
        if bridge.least is not None
    )


def _is_near(bridge: Bridge) -> bool:
    return bridge.least is not None and bridge.left.value <= NEAR_LIMIT * bridge.least.value
