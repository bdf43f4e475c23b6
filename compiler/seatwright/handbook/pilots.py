"""The guide and the pilot that stands in it: how far the new bore can stand off the guide."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

Station = tuple[float, float]
"""A place along the guide [mm from the port end, inwards negative] and the diametral clearance there [mm]."""

_SLACK = 1e-9
"""Far below any gauge [mm]: keeps 9.020 − 9.017 from missing 0.003 by the last bit of a float."""


def stem_clearance(largest_station: float, stem: float) -> float:
    """Clearance of a stem in its guide, by which the guide is judged worn.

    largest_station : the guide where it is widest [mm]
    stem : diameter of the valve stem [mm]
    Returns : diametral clearance [mm]; negative where the stem does not enter

    Errors : none.
    Source : common practice.

    >>> round(stem_clearance(9.052, 8.965), 3)
    0.087
    """
    return largest_station - stem


def bell_mouth(spring_end: float, middle: float, port_end: float) -> float:
    """How much wider a guide is at its wider end than in the middle.

    spring_end, middle, port_end : diameters of the guide [mm]
    Returns : bell-mouth on diameter [mm]; negative for a guide tight at both ends

    Errors : none.
    Source : common practice.

    >>> round(bell_mouth(9.022, 9.020, 9.047), 3)
    0.027
    """
    return max(spring_end, port_end) - middle


def clearances(guide: Sequence[tuple[float, float]], pilot: float) -> tuple[Station, ...]:
    """Diametral clearance of a pilot at each place where the guide was measured.

    A guide is not round: of several readings at one place the largest counts here, since the pilot leans that way,
    while it is the smallest that it must enter (`largest_entering`).

    guide : (place from the port end, inwards negative [mm], diameter of the guide there, the largest read [mm])
    pilot : diameter of the pilot [mm]
    Returns : the same places with the clearance c = guide − pilot [mm]

    Errors : ValueError where the pilot is larger than the guide: it does not enter.
    Source : common practice.

    >>> [(x, round(c, 3)) for x, c in clearances([(0.0, 9.047), (-62.0, 9.020)], 9.017)]
    [(0.0, 0.03), (-62.0, 0.003)]
    """
    for place, diameter in guide:
        if diameter < pilot - _SLACK:
            raise ValueError(
                f"a pilot of {pilot:.3f} mm does not enter: the guide measures {diameter:.3f} mm "
                f"{abs(place):g} mm from its port end"
            )
    return tuple((place, max(diameter - pilot, 0.0)) for place, diameter in guide)


def stations_within(stations: Sequence[Station], length: float) -> tuple[Station, ...]:
    """The stations that a pilot reaches, closed by the pilot's own end where that lies between two.

    A pilot shorter than the guide is not held by what lies beyond its end; between two stations the
    clearance at its end is taken in a straight line.

    stations : (place from the port end, inwards negative [mm], diametral clearance [mm])
    length : of the pilot that stands in the guide, from the port end [mm]
    Returns : stations from the port end inwards, none further than the pilot reaches [mm, mm]

    Errors : ValueError when two stations are at one place.
    Source : geometry; the straight line between stations is common practice.

    >>> stations_within([(0.0, 0.010), (-31.0, 0.010), (-62.0, 0.010)], 40.0)
    ((0.0, 0.01), (-31.0, 0.01), (-40.0, 0.01))
    """
    inwards = _from_port_end(stations)
    reached = [station for station in inwards if station[0] >= -length]
    for near, far in pairwise(inwards):
        if near[0] > -length > far[0]:
            share = (near[0] + length) / (near[0] - far[0])
            reached.append((-length, near[1] + share * (far[1] - near[1])))
    return tuple(reached)


def dead_pilot_offset(stations: Sequence[Station], height: float) -> float:
    """How far the axis of a dead pilot can stand off the guide's axis at a height.

        e = min over pairs (i nearer the port end than j) of ci/2 + (ci + cj)/2 · (h − xi)/(xi − xj)

    The pilot may lie anywhere in the guide, touching at one side near the port and at the other further
    in; each pair of stations forbids more than its figure, and the least of these can be reached. A
    bell-mouthed port end therefore does not count as if the pilot leaned on it.

    stations : (place from the port end, inwards negative, xi [mm], diametral clearance ci [mm])
    height : above the port end of the guide, h [mm]: to the rim, guide-to-floor + depth
    Returns : e [mm], a radius; the runout of the bore to the guide is twice that

    Valid for a straight, stiff pilot and a height at or above the station nearest the port.
    Errors : ValueError with fewer than two stations (the lean of the pilot is then unknown), two at one
    place, a negative clearance, or a height below the nearest station.
    Source : exact optimum of the linear programme max |a + b·h| with |a + b·xi| ≤ ci/2; derived here.

    >>> round(dead_pilot_offset([(0.0, 0.030), (-31.0, 0.003), (-62.0, 0.003)], 35.0), 4)
    0.0079
    """
    nearest = _from_port_end(stations)[0][0] if stations else 0.0
    if height < nearest:
        raise ValueError(f"the height {height:g} mm lies inside the guide; it is counted above its port end")
    return min(
        near[1] / 2 + (near[1] + far[1]) / 2 * (height - near[0]) / (near[0] - far[0]) for near, far in _pairs(stations)
    )


def dead_pilot_tilt_over(stations: Sequence[Station], bore: float) -> float:
    """How much a dead pilot's lean squares the floor of the pocket off, from edge to edge of the bore.

        tilt = min over pairs (i nearer the port end than j) of (ci + cj)/(2·(xi − xj)) · bore

    stations : (place from the port end, inwards negative, xi [mm], diametral clearance ci [mm])
    bore : diameter over which the floor is judged [mm]
    Returns : height of one edge of the floor over the other [mm]

    Valid for a straight, stiff pilot: the pair that allows the least lean governs.
    Errors : ValueError as `dead_pilot_offset`.
    Source : exact optimum of the linear programme max |b| with |a + b·xi| ≤ ci/2; derived here.

    A clearance of 0.010 over 62 mm, seen over a bore of 44 mm:

    >>> round(dead_pilot_tilt_over([(0.0, 0.010), (-62.0, 0.010)], 44.0), 4)
    0.0071
    """
    return bore * min((near[1] + far[1]) / (2 * (near[0] - far[0])) for near, far in _pairs(stations))


def gripping_pilot_offset(tir: float, height: float, tir_at: float | None = None) -> float:
    """How far the axis of an expanding or tapered pilot can stand off the guide's axis at a height.

        e = tir/2 · h/tir-at        without tir-at: tir/2, at any height

    Such a pilot has no clearance where it grips; what it runs out by is its own, and grows in a straight line from
    the port end.

    tir : what an indicator showed on the pilot in one turn [mm]
    height : above the port end of the guide, h [mm]: to the rim, guide-to-floor + depth
    tir_at : height above the port end at which it was read [mm], or None where that is not known
    Returns : e [mm], a radius

    Valid for a straight pilot that grips at the port end. Without `tir_at` a tall pocket is judged too kindly.
    Errors : ValueError for a negative tir or height, or a tir read at no height.
    Source : the meaning of a total indicator reading; the straight line is geometry.

    Read 0.010 at 25 mm, and a rim 40 mm above the guide:

    >>> round(gripping_pilot_offset(0.010, 40.0, 25.0), 4), gripping_pilot_offset(0.010, 40.0)
    (0.008, 0.005)
    """
    if tir < 0:
        raise ValueError(f"a total indicator reading of {tir:g} mm cannot be: it is largest less smallest")
    if height < 0:
        raise ValueError(f"the height {height:g} mm lies inside the guide; it is counted above its port end")
    if tir_at is None:
        return tir / 2
    _above_the_port(tir_at)
    return tir / 2 * height / tir_at


def gripping_pilot_tilt_over(tir: float, tir_at: float, bore: float) -> float:
    """How much the lean of an expanding or tapered pilot squares the floor of the pocket off, across the bore.

        tilt = tir/2/tir-at · bore

    tir : what an indicator showed on the pilot in one turn [mm]
    tir_at : height above the port end at which it was read [mm]
    bore : diameter over which the floor is judged [mm]
    Returns : height of one edge of the floor over the other [mm]

    Valid for a straight pilot that grips at the port end.
    Errors : ValueError for a negative tir, or a tir read at no height.
    Source : as `gripping_pilot_offset`.

    >>> round(gripping_pilot_tilt_over(0.010, 25.0, 44.0), 4)
    0.0088
    """
    return gripping_pilot_offset(tir, bore, tir_at)


def spindle_tilt_over(level: float, bore: float) -> float:
    """How much a leaning spindle squares the floor of the pocket off, from edge to edge of the bore.

        tilt = level · bore

    level : how far the spindle leans, as a slope [mm/mm]; 0.2 mm/m is 0.0002
    bore : diameter over which the floor is judged [mm]
    Returns : height of one edge of the floor over the other [mm]

    Errors : ValueError for a negative slope.
    Source : geometry.

    >>> round(spindle_tilt_over(0.0002, 44.0), 4)
    0.0088
    """
    if level < 0:
        raise ValueError(f"the level is given as {level:g}; it cannot be less than nothing")
    return level * bore


def spindle_offset(centring: float, level: float, height: float, guide_length: float) -> float:
    """How far the bore can stand off the guide where the spindle guides: a live pilot or a levelled machine.

        e = centring + level · (h + L/2)

    centring : how far the spindle is off the guide at the middle of the guide [mm]
    level : how far the spindle leans, as a slope [mm/mm]; 0.2 mm/m is 0.0002
    height : above the port end of the guide, h [mm]
    guide_length : L [mm]
    Returns : e [mm], a radius

    Errors : ValueError for a negative figure.
    Source : geometry.

    >>> round(spindle_offset(0.0, 0.0002, 35.0, 60.0), 4)
    0.013
    """
    figures = (("centring", centring), ("level", level), ("height", height), ("guide length", guide_length))
    for name, figure in figures:
        if figure < 0:
            raise ValueError(f"the {name} is given as {figure:g}; it cannot be less than nothing")
    return centring + level * (height + guide_length / 2)


def runout_of(offset: float) -> float:
    """Runout that an indicator shows for a bore that stands off its axis: twice the offset.

    offset : of the axes, a radius [mm]
    Returns : total indicator reading [mm]

    Errors : ValueError for a negative offset.
    Source : the meaning of a total indicator reading.

    >>> runout_of(0.010)
    0.02
    """
    if offset < 0:
        raise ValueError(f"an offset of {offset:g} mm cannot be: it is a distance")
    return 2 * offset


def largest_entering(diameters: Sequence[float], tightest_station: float, clearance: float) -> float | None:
    """The largest pilot that enters a guide with its working clearance.

    diameters : of the pilots on the shelf [mm], in any order
    tightest_station : the guide where it is narrowest, the smallest reading of all that the pilot reaches [mm]
    clearance : that a pilot must have to slide in and not seize, diametral [mm]
    Returns : diameter of the pilot [mm], or None when none enters

    Errors : none.
    Source : common practice.

    >>> largest_entering([9.012, 9.017, 9.022], 9.020, 0.003)
    9.017
    """
    entering = [diameter for diameter in diameters if diameter <= tightest_station - clearance + _SLACK]
    return max(entering, default=None)


def _above_the_port(tir_at: float) -> None:
    if not tir_at > 0:
        raise ValueError(f"a pilot's tir is read above the port end of the guide, not at {tir_at:g} mm")


def _from_port_end(stations: Sequence[Station]) -> list[Station]:
    inwards = sorted(stations, reverse=True)
    for near, far in pairwise(inwards):
        if near[0] == far[0]:
            raise ValueError(f"two clearances are given {abs(near[0]):g} mm from the port end; keep one")
    for place, clearance in inwards:
        if clearance < 0:
            raise ValueError(
                f"the pilot does not enter: {-clearance:.3f} mm too large {abs(place):g} mm from the port end"
            )
    return inwards


def _pairs(stations: Sequence[Station]) -> Iterator[tuple[Station, Station]]:
    """Every two stations, the one nearer the port end first."""
    inwards = _from_port_end(stations)
    if len(inwards) < 2:
        raise ValueError("the guide must be measured in two places within the pilot's length to know its lean")
    return ((near, far) for at, near in enumerate(inwards) for far in inwards[at + 1 :])
