"""The fit and its stresses, and how the insert goes in."""

from __future__ import annotations

from msgspec import Struct

from seatwright.planning.plan.figure import Figure


class Fit(Struct, frozen=True):
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
    soaked_most: Figure | None = None
    roughness_loss: Figure | None = None
    gone_at_C: Figure | None = None
    set_left: Figure | None = None
    in_limits_probability: Figure | None = None


class HeatAndChill(Struct, frozen=True):
    """One pair of heat and chill, the clearance it gives, and what that makes of the assembly."""

    heat_C: Figure
    chill: str
    clearance: Figure
    kind: str


class AssemblyPlan(Struct, frozen=True):
    """How the insert goes in (handbook 10). order counts from 1 on the press card. reheat_below_C: a head cooled under
    this takes the insert no more as planned; None for a press, and where no heat is needed."""

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
    reheat_below_C: Figure | None = None
