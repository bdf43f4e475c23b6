"""The pocket: what must be cleaned up, what metal is left, how deep, in how many passes."""

from __future__ import annotations

import math
from collections.abc import Sequence

PASS_OVERLAP = 0.5
"""How much of the tip overlaps the pass before it [mm, radial]; common practice, no printed source."""

_SLACK = 1e-9
"""What the last bits of a float are worth [mm, or of a figure's own size]: far below any instrument."""


def offset_from_tir(tir: float) -> float:
    """How far an axis stands off, from what an indicator showed in one turn: half of it.

    tir : total indicator reading [mm]
    Returns : offset of the axes, a radius [mm]

    Errors : ValueError for a negative reading.
    Source : the meaning of a total indicator reading.

    >>> offset_from_tir(0.10)
    0.05
    """
    if tir < 0:
        raise ValueError(f"a total indicator reading of {tir:g} mm cannot be: it is largest less smallest")
    return tir / 2


def clean_up_diameter(
    readings: Sequence[float], damage: float | None, throw_offset: float, pilot_offset: float, clean_up: float
) -> float:
    """Smallest bore that takes the old pocket, or the damage, away all round.

        D_clean = max(readings, damage) + 2·(offset + e) + clean-up

    readings : diameters of the old pocket [mm]; for an integral seat the old seat's outer diameter
    damage : diameter that damage reaches [mm], or None
    throw_offset : how far the old pocket stands off the guide, half its tir [mm]
    pilot_offset : how far the new bore can stand off the guide, e [mm]
    clean_up : least stock that must come off on diameter [mm]
    Returns : D_clean [mm]

    Errors : ValueError without any reading, or for a negative offset or stock.
    Source : geometry of two eccentric circles; the stock is the shop's.

    >>> round(clean_up_diameter([44.08, 44.10], None, 0.05, 0.01, 0.05), 3)
    44.27
    """
    if not readings:
        raise ValueError("the old pocket was not measured: what must be cleaned up is not known")
    figures = (("offset of the pocket", throw_offset), ("offset of the pilot", pilot_offset), ("stock", clean_up))
    for name, figure in figures:
        if figure < 0:
            raise ValueError(f"the {name} is given as {figure:g} mm; it cannot be less than nothing")
    widest = max(readings) if damage is None else max(*readings, damage)
    return widest + 2 * (throw_offset + pilot_offset) + clean_up


def bridge_left(centre_distance: float, bore_a: float, bore_b: float, offset_a: float, offset_b: float) -> float:
    """Least metal between two neighbouring bores.

        bridge = centre distance − (bore a + bore b)/2 − ea − eb

    centre_distance : between the two axes [mm]
    bore_a, bore_b : diameters at their upper limits [mm]; for a neighbour that is not bored what is there
    offset_a, offset_b : how far each bore can stand off its axis [mm]; 0 for one that is not bored
    Returns : metal left in the worst case [mm]; negative where the bores meet

    Errors : ValueError for a centre distance that is not above nothing.
    Source : geometry.

    >>> round(bridge_left(50.0, 47.52, 41.0, 0.0, 0.0), 2)
    5.74
    """
    if centre_distance <= 0:
        raise ValueError(f"a centre distance of {centre_distance:g} mm cannot be")
    return centre_distance - (bore_a + bore_b) / 2 - offset_a - offset_b


def rim_left(rim_diameter: float, centre_distance: float, bore: float, offset: float) -> float:
    """Least room between a bore and a rim around it, such as the cylinder's, that it must stay inside.

        room = rim/2 − centre distance − bore/2 − e

    rim_diameter : of the rim [mm]
    centre_distance : from the rim's centre to the bore's [mm]; 0 when they share it
    bore : diameter at its upper limit [mm]
    offset : how far the bore can stand off its axis, e [mm]
    Returns : room left in the worst case [mm]; negative where the bore breaks out

    Errors : ValueError for a negative centre distance.
    Source : geometry.

    >>> round(rim_left(96.0, 22.0, 44.02, 0.01), 2)
    3.98
    """
    if centre_distance < 0:
        raise ValueError(f"a centre distance of {centre_distance:g} mm cannot be")
    return rim_diameter / 2 - centre_distance - bore / 2 - offset


def floor_left(floor: float, depth: float, pocket_depth: float) -> float:
    """Metal left between the new floor of the pocket and the water.

        left = floor − (depth − pocket depth)

    floor : metal under the present floor [mm]
    depth : of the new pocket [mm]
    pocket_depth : of the pocket as found, from the same face [mm]; 0 where there was none
    Returns : metal left [mm]; negative where the cutter breaks through

    Errors : none.
    Source : geometry.

    >>> round(floor_left(13.0, 8.0, 0.0), 2)
    5.0
    """
    return floor - (depth - pocket_depth)


def ledge(bore: float, throat: float, chamfer_radial: float) -> float:
    """Width of floor that the insert really stands on.

        ledge = (bore − throat)/2 − chamfer

    bore, throat : diameters [mm]
    chamfer_radial : radial leg of the chamfer at the bottom of the insert [mm]
    Returns : width of the ledge [mm]; negative where there is nothing to stand on

    Errors : none.
    Source : geometry.

    >>> round(ledge(44.02, 41.0, 0.9), 2)
    0.61
    """
    return (bore - throat) / 2 - chamfer_radial


def chamfer_legs(length_along_od: float, angle_from_od: float) -> tuple[float, float]:
    """Both legs of an insert's chamfer.

        axial = length along the od        radial = length · tan(angle)

    length_along_od : as the list gives it, measured along the outer diameter [mm]
    angle_from_od : between the chamfer and the outer diameter [degrees]
    Returns : (axial leg, radial leg) [mm]

    Valid for 0 < angle < 90 degrees.
    Errors : ValueError for an angle outside that, or a negative length.
    Source : geometry.

    >>> [round(leg, 2) for leg in chamfer_legs(0.9, 30.0)]
    [0.9, 0.52]
    """
    if not 0 < angle_from_od < 90:
        raise ValueError(f"a chamfer at {angle_from_od:g}° to the od cannot be; it lies between 0° and 90°")
    if length_along_od < 0:
        raise ValueError(f"a chamfer of {length_along_od:g} mm cannot be")
    return length_along_od, length_along_od * math.tan(math.radians(angle_from_od))


def chamfer_clears(corner: float, legs: tuple[float, float]) -> bool:
    """Whether an insert goes down past the radius that the cutter leaves at the floor.

    Both legs must be at least the radius: a shorter leg has its edge on the curve and rides on it.

    corner : radius that the cutter leaves between wall and floor [mm]
    legs : (axial, radial) legs of the chamfer [mm]
    Returns : True when the insert reaches the floor

    Errors : none.
    Source : geometry of a chamfer in a fillet.

    >>> chamfer_clears(0.4, (0.9, 0.52)), chamfer_clears(0.8, (0.5, 0.5))
    (True, False)
    """
    return min(legs) >= corner - _SLACK


def depth_window(
    height: float,
    below_least: float,
    below_most: float,
    pocket_depth: float | None,
    floor_clean_up: float | None,
    deepest: float | None,
    damage_depth: float | None = None,
) -> tuple[float, float]:
    """Depths at which the insert stands as wanted, the floor cleans up and enough metal is left.

        least = max(height + below_least, pocket depth + floor clean-up, damage depth if most allows)
        most = min(height + below_most, deepest)

    height : of the insert [mm]
    below_least, below_most : of the insert's face under the depth face [mm]; proud is negative
    pocket_depth : as found [mm], or None: then the floor's clean-up is not counted
    floor_clean_up : least stock that must come off the floor [mm], or None: none is asked for
    deepest : what the metal under the floor allows [mm], or None where that is not known
    damage_depth : depth that damage reaches, from the same face [mm], or None; damage deeper than `most` stays
        (`damage_stays`), and rules no insert out
    Returns : (least, most) [mm]; least > most when no depth does it: a taller insert, or hold

    Errors : ValueError when the limits of the stand are the wrong way round.
    Source : geometry.

    >>> [round(depth, 2) for depth in depth_window(6.50, 0.0, 0.10, 6.52, 0.05, None)]
    [6.57, 6.6]
    """
    if below_least > below_most:
        raise ValueError(f"the limits of the stand are the wrong way round: {below_least:g} to {below_most:g} mm below")
    least, most = height + below_least, height + below_most
    if pocket_depth is not None:
        least = max(least, pocket_depth + (floor_clean_up or 0.0))
    if deepest is not None:
        most = min(most, deepest)
    if damage_depth is not None and not damage_stays(damage_depth, most):
        least = max(least, min(damage_depth, most))
    return least, most


def damage_stays(damage_depth: float, most: float) -> bool:
    """Whether damage reaches deeper than the new floor may lie, so that some of it stays and the card says so.

    damage_depth : depth that damage reaches [mm]
    most : greatest depth that the window allows, from the same face [mm]
    Returns : True where the floor cannot be taken down to it

    Errors : none.
    Source : geometry.

    >>> damage_stays(9.20, 9.17), damage_stays(9.17, 9.17)
    (True, False)
    """
    return damage_depth - most > _SLACK * abs(most)


def passes(bore: float, throat: float, throat_offset: float, tip_width: float) -> tuple[float, ...]:
    """Settings, smallest first, with which a tip narrower than the floor clears it down to the throat.

    One pass is enough when the tip reaches from the wall to the throat: bore − 2·tip ≤ throat − 2·offset.
    Else the first goes to full depth at throat + 2·tip − 2·offset, and equal steps of at most
    2·(tip − 0.5) on diameter follow, the wall last.

    bore : finished diameter [mm]
    throat : diameter of the hole in the floor [mm]
    throat_offset : how far the throat stands off the axis [mm]
    tip_width : how wide the tip cuts, radial [mm]
    Returns : diameters [mm], the bore last; the bore alone when the tip reaches

    Errors : ValueError for a tip of no width, a throat not smaller than the bore, or a tip too narrow to
    overlap its own passes.
    Source : geometry; the 0.5 mm overlap is common practice.

    >>> passes(44.0, 37.0, 0.0, 7.5), passes(47.5, 30.0, 0.25, 4.0)
    ((44.0,), (37.5, 42.5, 47.5))
    """
    if tip_width <= 0:
        raise ValueError(f"a tip {tip_width:g} mm wide cannot cut")
    if throat >= bore:
        raise ValueError(f"the throat, {throat:g} mm, is not smaller than the bore, {bore:g} mm: there is no floor")
    first = throat + 2 * tip_width - 2 * throat_offset
    if bore <= first + _SLACK:
        return (bore,)
    most_step = 2 * (tip_width - PASS_OVERLAP)
    if most_step <= 0 or first <= 0:
        raise ValueError(
            f"a tip {tip_width:g} mm wide cannot clear a floor from {throat:g} to {bore:g} mm "
            f"with {PASS_OVERLAP:g} mm overlap: take a wider tip"
        )
    count = math.ceil((bore - first) / most_step - _SLACK)
    return (*(first + (bore - first) * done / count for done in range(count)), bore)


def shared_passes(bore: float, throats: Sequence[tuple[float, float]], tip_width: float) -> tuple[float, ...]:
    """Settings, smallest first, that clear the floors of all valves of one setting: one winding serves them all.

    The smallest first pass of any valve that needs one serves every other, since a tip that reaches down to the
    smallest throat overlaps the wider ones.

        first = least of (throat + 2·tip − 2·offset)        then steps of at most 2·(tip − 0.5), the wall last

    bore : the setting's finished diameter [mm]
    throats : (diameter of the hole in the floor, how far it stands off the axis) of each valve [mm, mm]
    tip_width : how wide the tip cuts, radial [mm]
    Returns : diameters [mm], the bore last; the bore alone when the tip reaches in every valve

    The smallest may lie under the cutter's range: then, and only then, it is a hold.
    Errors : ValueError as `passes`, and without a valve.
    Source : geometry, as `passes`.

    Three valves whose own first passes were 35.294, 35.594 and 35.794 (by hand):

    >>> [round(d, 3) for d in shared_passes(41.0, [(27.794, 0.25), (28.094, 0.25), (28.294, 0.25)], 4.0)]
    [35.294, 41.0]
    """
    if not throats:
        raise ValueError("without a valve there is nothing to clear")
    each = [passes(bore, throat, offset, tip_width) for throat, offset in throats]
    return min(each, key=lambda own: own[0])


def insert_seat_cover(seat_outer: float, least_land: float) -> float:
    """Least outer diameter of an insert that carries the seat with a land outside it.

        od ≥ seat outer + 2·least-land

    seat_outer : outer diameter of the seat's contact [mm]
    least_land : of insert outside the seat, radial [mm]
    Returns : least outer diameter [mm]

    Errors : ValueError for a negative land.
    Source : common practice; the land is the shop's.

    >>> round(insert_seat_cover(36.4, 0.8), 2)
    38.0
    """
    if least_land < 0:
        raise ValueError(f"a land of {least_land:g} mm cannot be")
    return seat_outer + 2 * least_land
