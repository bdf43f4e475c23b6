"""What was found, and what stands in the guide: the figures that all others are computed with."""

from __future__ import annotations

from msgspec import Struct

from seatwright.planning.plan.figure import Figure


class At20(Struct, frozen=True):
    """The figures that were computed with, at 20 °C."""

    guide: Figure | None = None  # the largest station
    guide_tightest: Figure | None = None
    stem: Figure | None = None
    pocket: Figure | None = None  # the largest reading
    pocket_smallest: Figure | None = None
    pocket_mean: Figure | None = None
    throat: Figure | None = None
    damage: Figure | None = None
    insert_od: Figure | None = None


class Renewed(Struct, frozen=True):
    """A part of the valve that was replaced on a day: guide, valve, spring, retainer or seal."""

    part: str
    date: str


class Position(Struct, frozen=True):
    """Where the axis lies in the seat plane."""

    x: Figure
    y: Figure


class PilotPlan(Struct, frozen=True):
    """The pilot that stands in the guide, and how far the bore's axis can stand off."""

    name: str | None
    kind: str
    diameter: Figure | None = None
    clearance: Figure | None = None
    offset: Figure | None = None
    runout: Figure | None = None
    runout_limit: Figure | None = None
    tilt: Figure | None = None  # lean of the floor over the bore, mm
