"""The seat: where it touches the valve, how deep it lies, what each cut moves.

Angles are in degrees from the plane square to the stem; widths along the seat; diameters across. `setback` is radial,
from the valve's edge in to the outer edge of the contact. Sources: geometry of cones; signs of recession, tip and
spring from published service manuals.
"""

from __future__ import annotations

import math
from typing import Literal

from msgspec import Struct

__all__ = [
    "Edge",
    "GaugeDepth",
    "along_stem",
    "carrying_edge",
    "contact_height",
    "contact_inner",
    "contact_outer",
    "contact_width",
    "gauge_depth",
    "metal_under_seat",
    "seat_cutter_deeper",
    "sinking_of_stock",
    "throat_cutter_deeper",
    "top_cut_outer",
    "top_cut_room",
    "top_cutter_deeper",
]

Edge = Literal["outer", "inner", "whole"]
"""Which edge of the seat carries the valve; the whole width where seat and face have one angle."""

_SAME = 1e-9
"""Angles that differ by less are one angle [°]."""


class GaugeDepth(Struct, frozen=True):
    """Depth of the seat's outer edge below the deck, along the stem [mm], and the edge that carries."""

    depth: float
    edge: Edge


def contact_outer(head_diameter: float, setback: float) -> float:
    """Outer diameter of the contact [mm]: head diameter − 2·setback.

    `head_diameter`: of the valve [mm]; `setback`: radial [mm]. Raises ValueError when nothing is left of the valve.
    Source: geometry.

    >>> contact_outer(35.0, 0.8)
    33.4
    """
    if not setback >= 0:
        raise ValueError(f"setback counts inwards from the valve's edge and cannot be negative: {setback}")
    outer = head_diameter - 2 * setback
    if not outer > 0:
        raise ValueError(f"a setback of {setback} leaves nothing of a valve of {head_diameter}")
    return outer


def contact_inner(outer: float, width: float, angle: float) -> float:
    """Inner diameter of the contact [mm]: Do − 2·w·cos θ.

    `outer`: Do [mm]; `width`: w along the seat [mm]; `angle`: θ of the seat [°]. Raises ValueError for an angle outside
    0 to 90 or a seat wider than its diameter. Source: geometry.

    >>> round(contact_inner(33.4, 1.8, 45), 4)
    30.8544
    """
    _check_angle("seat", angle)
    inner = outer - 2 * width * math.cos(math.radians(angle))
    if not inner > 0:
        raise ValueError(f"a seat of {width} is wider than its diameter of {outer} allows")
    return inner


def contact_height(width: float, angle: float) -> float:
    """Height of the contact along the stem [mm]: w·sin θ.

    `width`: w along the seat [mm]; `angle`: θ of the seat [°]. Raises ValueError for an angle outside 0 to 90.
    Source: geometry.

    >>> round(contact_height(1.8, 45), 4)
    1.2728
    """
    _check_angle("seat", angle)
    return width * math.sin(math.radians(angle))


def contact_width(outer: float, inner: float, angle: float) -> float:
    """Width of the contact along the seat [mm]: (Do − Di)/(2·cos θ).

    `outer`, `inner`: its diameters [mm]; `angle`: θ of the seat [°]. Raises ValueError for an angle outside 0 to 90.
    Source: geometry.

    >>> round(contact_width(33.4, 30.8544, 45), 3)
    1.8
    """
    _check_angle("seat", angle)
    return (outer - inner) / (2 * math.cos(math.radians(angle)))


def carrying_edge(seat_angle: float, face_angle: float) -> Edge:
    """The edge of the seat that the valve touches: outer when the seat is steeper than the face, inner when flatter.

    `seat_angle`: θ [°]; `face_angle`: β of the valve's face [°]. Angles that are equal touch over the whole width.
    Raises ValueError for an angle outside 0 to 90. Source: geometry of two cones.

    >>> carrying_edge(46, 45), carrying_edge(44.5, 45), carrying_edge(45, 45)
    ('outer', 'inner', 'whole')
    """
    _check_angle("seat", seat_angle)
    _check_angle("valve face", face_angle)
    if abs(seat_angle - face_angle) <= _SAME:
        return "whole"
    return "outer" if seat_angle > face_angle else "inner"


def gauge_depth(
    recession: float, margin: float, setback: float, width: float, seat_angle: float, face_angle: float
) -> GaugeDepth:
    """How deep the outer edge of the seat must lie below the deck for the valve to sink by `recession`.

    outer edge or whole width carries (θ ≥ β):  R + margin + setback·tan β
    inner edge carries (θ < β):  R + margin + (setback + w·cos θ)·tan β − w·sin θ

    `recession`: R, flat of the valve head below the deck, along the stem, proud negative [mm]; `margin`: of the valve
    [mm]; `setback`: radial [mm]; `width`: w along the seat [mm]; `seat_angle`: θ [°]; `face_angle`: β [°].
    A tilted valve: bring deck figures along the stem first (`along_stem`). Raises ValueError for an angle outside 0 to
    90. Source: geometry of two cones.

    >>> round(gauge_depth(0.7, 1.5, 0.8, 1.8, 45, 45).depth, 3)
    3.0
    >>> flatter = gauge_depth(0.7, 1.5, 0.8, 1.8, 44, 45)
    >>> round(flatter.depth, 3), flatter.edge
    (3.044, 'inner')
    """
    edge = carrying_edge(seat_angle, face_angle)
    slope = math.tan(math.radians(face_angle))
    if edge != "inner":
        return GaugeDepth(recession + margin + setback * slope, edge)
    across = width * math.cos(math.radians(seat_angle))
    along = width * math.sin(math.radians(seat_angle))
    return GaugeDepth(recession + margin + (setback + across) * slope - along, edge)


def along_stem(deck_figure: float, tilt: float) -> float:
    """A figure square to the deck, counted along the stem of a tilted valve [mm]: figure/cos(tilt).

    `deck_figure`: such as a skim [mm]; `tilt`: of the valve to the deck's square [°], below 90.
    Raises ValueError for a tilt of 90 or more. Source: geometry.

    >>> round(along_stem(0.20, 20), 3)
    0.213
    """
    if not -90 < tilt < 90:
        raise ValueError(f"a valve cannot be tilted by {tilt}°: the tilt is counted from square to the deck")
    return deck_figure / math.cos(math.radians(tilt))


def metal_under_seat(height: float, below: float, depth: float, contact_height: float) -> float:
    """Insert left below the seat [mm]: height + below − (gauge depth + height of the contact).

    `height`: of the insert [mm]; `below`: its face below the deck, proud negative [mm]; `depth`: `gauge_depth` [mm];
    `contact_height`: along the stem [mm]. Source: geometry.

    >>> round(metal_under_seat(6.5, 0.0, 4.7, contact_height(2.0, 45)), 2)
    0.39
    """
    return height + below - (depth + contact_height)


def seat_cutter_deeper(t: float, top: float, seat: float, throat: float) -> tuple[float, float]:
    """What cutting the seat t deeper does to its outer and inner diameter [mm].

    outer +2t/(tan θ − tan φ), inner −2t/(tan ψ − tan θ)

    `t`: along the stem [mm]; `top`: φ, 0 where the seat breaks out in a flat face [°]; `seat`: θ [°]; `throat`: ψ, 90
    for a straight throat [°]. Raises ValueError unless φ < θ < ψ. Source: geometry of cones.

    >>> tuple(round(d, 3) for d in seat_cutter_deeper(0.10, 30, 45, 60))
    (0.473, -0.273)
    """
    return -top_cutter_deeper(t, top, seat), -throat_cutter_deeper(t, seat, throat)


def top_cutter_deeper(t: float, top: float, seat: float) -> float:
    """What cutting the top t deeper does to the seat's outer diameter [mm]: −2t/(tan θ − tan φ).

    `t`: along the stem [mm]; `top`: φ [°]; `seat`: θ [°]. Raises ValueError unless φ < θ. Source: geometry of cones.

    >>> round(top_cutter_deeper(0.10, 30, 45), 3)
    -0.473
    """
    _check_cuts("top", top, "seat", seat)
    return -2 * t / (math.tan(math.radians(seat)) - math.tan(math.radians(top)))


def throat_cutter_deeper(t: float, seat: float, throat: float) -> float:
    """What cutting the throat t deeper does to the seat's inner diameter [mm]: +2t/(tan ψ − tan θ).

    `t`: along the stem [mm]; `seat`: θ [°]; `throat`: ψ, 90 for a straight throat [°]. A straight throat does not move
    with depth. Raises ValueError unless θ < ψ. Source: geometry of cones.

    >>> round(throat_cutter_deeper(0.10, 45, 60), 3)
    0.273
    """
    _check_cuts("seat", seat, "throat", throat)
    if throat == 90:
        return 0 * t
    return 2 * t / (math.tan(math.radians(throat)) - math.tan(math.radians(seat)))


def top_cut_outer(outer: float, gauge_depth: float, stand: float, top: float) -> float:
    """Outer diameter of the top cut where its cone comes up to the insert's face [mm]: Do + 2·(depth − stand)/tan φ.

    `outer`: Do, outer diameter of the seat's contact [mm]; `gauge_depth`: of that edge [mm]; `stand`: of the insert's
    face, below the same deck, proud negative [mm]; both along the stem; `top`: φ [°]. A face below the seat's edge has
    no top cut: then Do itself. Raises ValueError for an angle outside 0 to 90. Source: geometry of a cone.

    A seat 3.3 mm under the face and a top of 30° run 11.4 mm out:

    >>> round(top_cut_outer(33.4, 3.3, 0.0, 30), 2)
    44.83
    """
    _check_angle("top", top)
    rise = gauge_depth - stand
    if rise < 0 * rise:
        return outer
    return outer + 2 * rise / math.tan(math.radians(top))


def top_cut_room(od: float, least_land: float, top_outer: float) -> float:
    """Room [mm, on diameter] between the top cut and the land that must stay outside it; negative: off the insert.

    od − 2·least-land − outer diameter of the top cut

    `od`: of the insert [mm]; `least_land`: radial [mm]; `top_outer`: `top_cut_outer` [mm].
    Raises ValueError for a negative land. Source: geometry; the land is the shop's.

    >>> round(top_cut_room(44.32, 0.5, 44.83), 2)
    -1.51
    """
    if least_land < 0 * least_land:
        raise ValueError(f"a land of {least_land} cannot be")
    return od - 2 * least_land - top_outer


def sinking_of_stock(stock: float, angle: float) -> float:
    """How far the valve sinks when `stock` is taken off square to the seat [mm]: stock/cos θ.

    `stock`: square to the seat's surface [mm]; `angle`: θ [°]. Raises ValueError for an angle outside 0 to 90.
    Source: geometry (1.41 times at 45°).

    >>> round(sinking_of_stock(0.10, 45), 3)
    0.141
    """
    _check_angle("seat", angle)
    return stock / math.cos(math.radians(angle))


def _check_angle(name: str, angle: float) -> None:
    if not 0 < angle < 90:
        raise ValueError(
            f"a {name} angle of {angle}° is none: it counts from the plane square to the stem, between 0 and 90"
        )


def _check_cuts(flatter: str, flat: float, steeper: str, steep: float) -> None:
    if not 0 <= flat < steep <= 90:
        raise ValueError(
            f"the {flatter} angle ({flat}°) must be flatter than the {steeper} angle ({steep}°), both from the plane "
            "square to the stem, from 0 to 90"
        )
