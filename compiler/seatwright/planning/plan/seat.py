"""The seat, and the heights that it is cut to."""

from __future__ import annotations

from msgspec import Struct

from seatwright.planning.plan.figure import Figure


class Edges(Struct, frozen=True):
    """How far an edge of the contact moves on diameter."""

    outer: Figure | None = None
    inner: Figure | None = None


class SeatCut(Struct, frozen=True):
    """One of the three cuts."""

    name: str  # top | seat | throat
    angle: Figure
    outer: Figure | None = None
    inner: Figure | None = None
    width: Figure | None = None
    deeper_0_1: Edges | None = None


class HeightLimits(Struct, frozen=True):
    """Limits of a height, None where there is none on that side."""

    least: Figure | None = None
    most: Figure | None = None
    aim: Figure | None = None
    expected: Figure | None = None


class SeatPlan(Struct, frozen=True):
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
    stem: HeightLimits | None = None
    spring: HeightLimits | None = None
    stem_change: Figure | None = None
    stem_after: Figure | None = None
    spring_after: Figure | None = None
    shim: Figure | None = None
    grind: Figure | None = None
    runout_limit: Figure | None = None
    leak_limit_s: Figure | None = None
