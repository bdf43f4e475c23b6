"""Spindle speed, time and torque of the cut."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

DWELL_TURNS = 3.0
"""Turns that the cutter stands on the floor; common practice, no printed source."""


class MachineStep(Struct, frozen=True):
    """A speed that the machine has [rpm], and whether even its lowest is faster than wanted."""

    step: float
    below_lowest: bool


class WallAndFloor(Struct, frozen=True):
    """Torque at the spindle [N·m] while the wall is cut, and while the floor is."""

    wall: float
    floor: float

    @property
    def larger(self) -> float:
        """The one to set against the machine's limit [N·m]."""
        return max(self.wall, self.floor)


def spindle_speed(surface_speed_m_min: float, diameter: float) -> float:
    """Spindle speed for a surface speed.

        n = 1000·v/(π·D)

    surface_speed_m_min : v [m/min]
    diameter : of the cut, D [mm]
    Returns : n [rpm]

    Errors : ValueError for a speed or diameter that is not above nothing.
    Source : the definition of surface speed; a machinist's reference book.

    >>> round(spindle_speed(6.9, 44.0), 1)
    49.9
    """
    _above_nothing("surface speed", surface_speed_m_min, "m/min")
    _above_nothing("diameter", diameter, "mm")
    return 1000 * surface_speed_m_min / (math.pi * diameter)


def spindle_speed_inch(surface_ft_min: float, diameter_in: float) -> float:
    """Spindle speed for a surface speed, in feet and inches.

        n = 12·v/(π·D)

    surface_ft_min : v [ft/min]
    diameter_in : of the cut, D [in]
    Returns : n [rpm]

    Errors : ValueError for a speed or diameter that is not above nothing.
    Source : the definition of surface speed; a machinist's reference book.

    >>> round(spindle_speed_inch(100.0, 0.5))
    764
    """
    _above_nothing("surface speed", surface_ft_min, "ft/min")
    _above_nothing("diameter", diameter_in, "in")
    return 12 * surface_ft_min / (math.pi * diameter_in)


def surface_speed(rpm: float, diameter: float) -> float:
    """Surface speed at a spindle speed.

        v = π·D·n/1000

    rpm : spindle speed, n [rpm]
    diameter : of the cut, D [mm]
    Returns : v [m/min]

    Errors : ValueError for a speed or diameter that is not above nothing.
    Source : the definition of surface speed.

    >>> round(surface_speed(50.0, 44.0), 1)
    6.9
    """
    _above_nothing("spindle speed", rpm, "rpm")
    _above_nothing("diameter", diameter, "mm")
    return math.pi * diameter * rpm / 1000


def machine_step(rpm_wanted: float, steps: Sequence[float]) -> MachineStep:
    """The largest speed of a geared machine that does not exceed the wanted one.

    rpm_wanted : [rpm]
    steps : speeds that the machine has [rpm], in any order
    Returns : the step [rpm]; the lowest, marked so, where even that is faster than wanted

    Errors : ValueError for a machine without speeds.
    Source : common practice.

    >>> machine_step(60.0, [35.0, 50.0, 70.0])
    MachineStep(step=50.0, below_lowest=False)
    """
    if not steps:
        raise ValueError("the machine has no speeds to choose from")
    slow_enough = [step for step in steps if step <= rpm_wanted * (1 + 1e-12)]
    return MachineStep(max(slow_enough), False) if slow_enough else MachineStep(min(steps), True)


def machine_range(rpm_wanted: float, least: float, most: float) -> MachineStep:
    """The speed of a stepless machine that comes nearest the wanted one and does not exceed it.

    rpm_wanted : [rpm]
    least, most : speeds that the machine runs between [rpm]
    Returns : the speed [rpm]; the lowest, marked so, where even that is faster than wanted

    Errors : ValueError when the limits are the wrong way round.
    Source : common practice.

    >>> machine_range(50.0, 30.0, 400.0)
    MachineStep(step=50.0, below_lowest=False)
    """
    if least > most:
        raise ValueError(f"the machine's speeds are the wrong way round: {least:g} to {most:g} rpm")
    if rpm_wanted < least:
        return MachineStep(least, True)
    return MachineStep(min(rpm_wanted, most), False)


def turns(depth: float, feed: float, dwell_turns: float = DWELL_TURNS) -> float:
    """Turns of the spindle for a cut, with its dwell: what counts where the feed is by hand.

        turns = depth/feed + dwell

    depth : to be cut [mm]
    feed : [mm/rev]
    dwell_turns : on the floor [rev]
    Returns : turns [rev]

    Errors : ValueError for a feed that is not above nothing, or a negative depth.
    Source : the definition of feed; three turns of dwell are common practice.

    >>> turns(6.5, 0.10)
    68.0
    """
    _above_nothing("feed", feed, "mm/rev")
    if depth < 0:
        raise ValueError(f"a cut {depth:g} mm deep cannot be")
    return depth / feed + dwell_turns


def boring_minutes(depth: float, feed: float, rpm: float, dwell_turns: float = DWELL_TURNS) -> float:
    """Time that the cutter is in the cut.

        t = (depth/feed + dwell)/n

    depth : to be cut [mm]
    feed : [mm/rev]
    rpm : spindle speed, n [rpm]
    dwell_turns : on the floor [rev]
    Returns : t [min]

    Errors : ValueError for a feed or speed that is not above nothing, or a negative depth.
    Source : the definition of feed; three turns of dwell are common practice.

    >>> round(boring_minutes(6.5, 0.10, 50.0), 2)
    1.36
    """
    _above_nothing("spindle speed", rpm, "rpm")
    return turns(depth, feed, dwell_turns) / rpm


def specific_force(kc11: float, mc: float, chip_thickness: float) -> float:
    """Specific cutting force at a chip thickness.

        kc = kc1.1 · h^(−mc)

    kc11 : at 1 mm chip width and thickness, kc1.1 [N/mm², the same as MPa]
    mc : exponent of the material [-]
    chip_thickness : h [mm]
    Returns : kc [N/mm²]

    Valid for about 0.05 ≤ h ≤ 1 mm; thinner chips need more, and the table says nothing of them.
    Errors : ValueError for a force or thickness that is not above nothing.
    Source : force by chip thickness, a metal-cutting textbook; figures by VDI 3323 group, published cutting data.

    >>> round(specific_force(1150.0, 0.20, 0.10))
    1823
    """
    _above_nothing("specific cutting force", kc11, "MPa")
    _above_nothing("chip thickness", chip_thickness, "mm")
    return float(kc11 * chip_thickness**-mc)


def cutting_torque(
    kc11: float,
    mc: float,
    feed: float,
    tips: int,
    width: float,
    inner_diameter: float,
    outer_diameter: float,
) -> float:
    """Torque at the spindle while tips cut a ring.

        F = kc1.1 · b · h^(1−mc) for each tip, h = feed/tips        M = tips · F · (Di + Do)/4 / 1000

    The force is taken at the middle of the ring. A tip that stands along the axis or square to it is
    meant, so that the chip is as thick as the feed of one tip.

    kc11 : specific cutting force, kc1.1 [N/mm², the same as MPa]
    mc : its exponent [-]
    feed : of the spindle [mm/rev]
    tips : that cut at once, each the whole width [-]
    width : of the chip, radial, b [mm]
    inner_diameter, outer_diameter : of the ring that is cut, Di and Do [mm]
    Returns : M [N·m]

    Errors : ValueError for a feed or force not above nothing, no tip, or a ring turned inside out.
    Source : as `specific_force`.

    >>> round(cutting_torque(1150.0, 0.20, 0.10, 1, 4.76, 38.0, 47.52), 1)
    18.5
    """
    _above_nothing("feed", feed, "mm/rev")
    if tips < 1:
        raise ValueError("a cutter without a tip cuts nothing")
    if not 0 <= inner_diameter <= outer_diameter or width < 0:
        raise ValueError(f"there is no ring to cut from {inner_diameter:g} to {outer_diameter:g} mm, {width:g} mm wide")
    chip = feed / tips
    force = specific_force(kc11, mc, chip) * width * chip
    return tips * force * (inner_diameter + outer_diameter) / 4 / 1000


def wall_and_floor_torque(
    kc11: float,
    mc: float,
    feed: float,
    tips: int,
    bore: float,
    old: float,
    throat: float,
    tip_width: float,
) -> WallAndFloor:
    """Torque on the wall, where only the old bore is opened, and on the floor, where the tip cuts its width.

        wall: b = (bore − old)/2        floor: b = (bore − throat)/2        neither wider than the tip

    The ring that is cut lies outermost: from bore − 2·b to the bore. An integral seat has no old bore to
    open: give the throat as `old`, then both are the same.

    kc11 : specific cutting force, kc1.1 [N/mm², the same as MPa]
    mc : its exponent [-]
    feed : of the spindle [mm/rev]
    tips : that cut at once [-]
    bore, old, throat : new bore, old pocket, hole in the floor, diameters [mm]
    tip_width : how wide a tip cuts, radial [mm]
    Returns : torque on wall and floor [N·m]

    Errors : ValueError as `cutting_torque`, and for an old pocket or throat larger than the bore.
    Source : as `specific_force`.

    >>> torque = wall_and_floor_torque(1150.0, 0.20, 0.10, 1, 44.0, 43.0, 37.0, 7.5)
    >>> round(torque.wall, 1), round(torque.floor, 1)
    (2.0, 12.9)
    """
    _above_nothing("width of the tip", tip_width, "mm")
    for name, inner in (("old pocket", old), ("throat", throat)):
        if inner > bore:
            raise ValueError(f"the {name}, {inner:g} mm, is larger than the new bore, {bore:g} mm")

    def torque(inner: float) -> float:
        width = min((bore - inner) / 2, tip_width)
        return cutting_torque(kc11, mc, feed, tips, width, bore - 2 * width, bore)

    return WallAndFloor(torque(old), torque(throat))


def _above_nothing(what: str, figure: float, unit: str) -> None:
    if figure <= 0:
        raise ValueError(f"the {what} is {figure:g} {unit}; it must be above nothing")
