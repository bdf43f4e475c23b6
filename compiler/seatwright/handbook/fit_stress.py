"""The fit of a pressed insert: pressure, stress, force, and what heat leaves of it (thick rings, plane stress).

Everything is diametral; the insert is a ring in a ring of the head. A short insert in a deep block differs: the mean
pressure is 10 to 38 % higher than here (so push-out is on the safe side) and the hoop stress at the open face 8 to
22 % higher (so a caution multiplies by `OPEN_FACE`).

Sources: a machine-design textbook (thick rings, press and shrink fits), from memory; finite elements of our own for the
short insert.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from seatwright.handbook.growth import Course, course_of, first_temperature
from seatwright.handbook.thermal import mean_expansion

__all__ = [
    "OPEN_FACE",
    "PEAKS_FLATTENED",
    "contact_pressure",
    "friction_of_both",
    "gone_temperature",
    "hoop_head_at_bore",
    "hoop_insert_at_bore",
    "hot_interference",
    "interference_that_holds",
    "press_in_force",
    "push_out_force",
    "ring_limit_pressure",
    "set_left",
]

OPEN_FACE = 1.25
"""Factor [-] on the head's hoop stress at the open face.

Finite elements of an 8 mm insert in a 20 mm block, 30/38.1/60, gave 8 to 22 % over the thick-ring figure just below
the face (106.4 against 87.03 MPa at most); 1.25 covers it.
"""

PEAKS_FLATTENED = 0.4
"""Share [-] of both roughnesses Rz that presses flat, off the diametral interference: DIN 7190-1:2017.

Editions before 2017 say 0.8, which takes twice as much off.
"""

_ROOM = 20.0


def _wall_ratio(inner: float, outer: float) -> float:
    """(outer² + inner²)/(outer² − inner²) [-]; 1 for an outer of infinity."""
    if outer == math.inf:
        return 1.0
    return (outer**2 + inner**2) / (outer**2 - inner**2)


def _check_rings(od: float, id: float, outer: float) -> None:
    if not od > 0:
        raise ValueError(f"an insert needs a diameter: {od} is none")
    if not 0 <= id < od:
        raise ValueError(f"the hole of an insert ({id}) must be smaller than its outer diameter ({od})")
    if outer != math.inf and not outer > od:
        raise ValueError(f"the metal around an insert must end outside it: {outer} is not over {od}")


def contact_pressure(
    interference: float,
    od: float,
    id: float,
    outer: float,
    E_i: float,
    nu_i: float,
    E_h: float,
    nu_h: float,
) -> float:
    """Pressure between insert and head [MPa].

    p = δ / (D·[((Do² + D²)/(Do² − D²) + ν_h)/E_h + ((D² + Di²)/(D² − Di²) − ν_i)/E_i])

    `interference`: δ, diametral [mm]; none or less gives no pressure
    `od`, `id`: D and Di, outer diameter and hole of the insert [mm]; a hole of 0 is a solid plug
    `outer`: Do, where the metal around ends [mm]; `math.inf` for wide metal
    `E_i`, `nu_i`: stiffness [MPa] and Poisson's ratio [-] of the insert
    `E_h`, `nu_h`: the same of the head

    Valid while nothing yields, for free ends. Raises ValueError for rings that do not fit into each other or a
    stiffness that is not positive. Source: a machine-design textbook, press and shrink fits.

    >>> round(contact_pressure(0.08, 38.1, 30, 60, 210e3, 0.28, 71e3, 0.33), 4)
    37.0109
    """
    _check_rings(od, id, outer)
    if not (E_i > 0 and E_h > 0):
        raise ValueError(f"stiffness must be more than nothing: insert {E_i}, head {E_h}")
    yielding = (_wall_ratio(od, outer) + nu_h) / E_h + (_wall_ratio(id, od) - nu_i) / E_i
    pressure = interference / (od * yielding)
    return pressure if pressure > 0 else 0 * pressure


def hoop_head_at_bore(pressure: float, od: float, outer: float) -> float:
    """Hoop stress in the head at the bore [MPa], tension positive: p·(Do² + D²)/(Do² − D²).

    `pressure`: p [MPa]; `od`: D [mm]; `outer`: Do, where the metal around ends [mm], or `math.inf`.
    Times `OPEN_FACE` for cautions. Raises ValueError when the metal around ends inside the insert.
    Source: a machine-design textbook, thick rings.

    >>> round(hoop_head_at_bore(37.0109, 38.1, 60), 2)
    87.03
    """
    _check_rings(od, 0 * od, outer)
    return pressure * _wall_ratio(od, outer)


def hoop_insert_at_bore(pressure: float, od: float, id: float) -> float:
    """Hoop stress in the insert at its hole [MPa], compression negative: −2·p·D²/(D² − Di²).

    `pressure`: p [MPa]; `od`, `id`: D and Di [mm], Di more than nothing (a solid plug carries −p).
    Raises ValueError for a hole that is not inside the insert. Source: a machine-design textbook, thick rings.

    >>> round(hoop_insert_at_bore(37.0109, 38.1, 30), 2)
    -194.79
    """
    _check_rings(od, id, math.inf)
    if not id > 0:
        raise ValueError("a plug without a hole has no stress at its hole")
    return -2 * pressure * od**2 / (od**2 - id**2)


def interference_that_holds(interference: float, rz_insert: float, rz_bore: float) -> float:
    """Interference left once the peaks of both surfaces have pressed flat [mm]: δ − 0.4·(Rz_i + Rz_h).

    It is what every figure of pressure and heat starts from: pressure, running, soaked, gone-at, set; never the
    interference itself, which is measured over the peaks.

    `interference`: δ, diametral, as measured [mm]; nothing or less stays as it is
    `rz_insert`, `rz_bore`: roughness Rz of the insert's outside and of the bore [mm], 0 where not given

    Never less than nothing where there was interference. Raises ValueError for a negative roughness.
    Source: DIN 7190-1:2017 (`PEAKS_FLATTENED`).

    Rz 10 and 6.3 µm:

    >>> round(interference_that_holds(0.060, 0.0100, 0.0063), 5)
    0.05348
    """
    if not (rz_insert >= 0 and rz_bore >= 0):
        raise ValueError(f"a roughness cannot be negative: {rz_insert}, {rz_bore}")
    if interference <= 0:
        return interference
    return max(interference - PEAKS_FLATTENED * (rz_insert + rz_bore), 0.0)


def friction_of_both(first: tuple[float, float], second: tuple[float, float]) -> tuple[float, float]:
    """Least and greatest friction of two partners, each known from a table of its own [-].

    The lower of the two leasts, for push-out, and the higher of the two mosts, for press-in: each the unfavourable
    one. `first`, `second`: (least, greatest) of insert and head [-]. Raises ValueError for a negative friction or a
    least over its most. Source: common practice; with one table only, that table counts.

    >>> friction_of_both((0.10, 0.16), (0.08, 0.14))
    (0.08, 0.16)
    """
    for least, most in (first, second):
        if not 0 <= least <= most:
            raise ValueError(f"friction from {least} to {most} cannot be")
    return min(first[0], second[0]), max(first[1], second[1])


def push_out_force(friction: float, pressure: float, od: float, length: float) -> float:
    """Force that pushes the insert out [N]: μ·p·π·D·L, with the least friction.

    `friction`: μ, least [-]; `pressure`: p [MPa]; `od`: D [mm]; `length`: L, in contact [mm].
    Raises ValueError for a negative friction or length. Source: a machine-design textbook, press and
    shrink fits.

    >>> round(push_out_force(0.10, 37.0109, 38.1, 8))
    3544
    """
    if not friction >= 0:
        raise ValueError(f"friction cannot be negative: {friction}")
    if not length >= 0:
        raise ValueError(f"a length in contact cannot be negative: {length}")
    return friction * pressure * math.pi * od * length


def press_in_force(friction: float, pressure: float, od: float, length: float) -> float:
    """Force that presses the insert home [N]: μ·p·π·D·L, with the greatest friction.

    `friction`: μ, greatest [-]; `pressure`: p [MPa]; `od`: D [mm]; `length`: L, in contact [mm].
    Raises ValueError for a negative friction or length. Source: as `push_out_force`.

    >>> round(press_in_force(0.16, 37.0109, 38.1, 8))
    5670
    """
    return push_out_force(friction, pressure, od, length)


def hot_interference(interference: float, od: float, mean_i: float, t_i: float, mean_h: float, t_h: float) -> float:
    """Interference left with the insert at `t_i` and the head at `t_h` [mm]; none left is negative.

    δ(T) = δ + D·(ᾱ_i·(T_i − 20) − ᾱ_h·(T_h − 20))

    `interference`: δ at 20 °C, peaks taken off (`interference_that_holds`) [mm]; `od`: D [mm]; `mean_i`, `mean_h`: mean
    expansion from 20 °C [1/°C]; `t_i`, `t_h`: temperatures [°C]. Running: both apart; soaked: both the head's. No
    creep, no yield. Raises no error. Source: the meaning of a mean expansion.

    >>> round(hot_interference(0.08, 38.1, 11.3e-6, 100, 23.2e-6, 100), 5)
    0.04373
    """
    return interference + od * (mean_i * (t_i - _ROOM) - mean_h * (t_h - _ROOM))


def gone_temperature(
    interference: float,
    od: float,
    table_i: Sequence[tuple[float, float]],
    table_h: Sequence[tuple[float, float]],
) -> float | None:
    """The common temperature [°C] of head and insert at which the interference is gone, on the way up from 20 °C.

    `interference`: δ at 20 °C, peaks taken off (`interference_that_holds`) [mm]; `od`: D [mm]; `table_i`, `table_h`:
    (temperature [°C], mean expansion from 20 °C [1/°C]) of insert and head. None when it is not gone as far as both
    tables reach, or a table does not reach above 20 °C. Without interference it is gone at 20 °C already.
    Raises ValueError for a diameter that is not positive.
    Source: the meaning of a mean expansion.

    >>> round(gone_temperature(0.08, 38.1, [(300.0, 11.3e-6)], [(300.0, 23.2e-6)]), 3)
    196.449
    """
    if not od > 0:
        raise ValueError(f"an insert needs a diameter: {od} is none")
    if not interference > 0:
        return _ROOM
    return first_temperature(_gain(tuple(table_i), tuple(table_h)), -(interference / od))


@lru_cache(64)
def _gain(table_i: tuple[tuple[float, float], ...], table_h: tuple[tuple[float, float], ...]) -> Course:
    """What an insert grows by more than its head, both at one temperature."""

    def gain(t: float) -> float:
        mean_i, mean_h = mean_expansion(table_i, t), mean_expansion(table_h, t)
        if mean_i is None or mean_h is None:
            raise ValueError(f"no expansion at {t:g} °C")
        return (mean_i - mean_h) * (t - _ROOM)

    return course_of(gain, _lines_above_room(table_i, table_h))


def _lines_above_room(*tables: Sequence[tuple[float, float]]) -> list[float]:
    """20 °C and the tables' own temperatures above it, as far as all of them reach."""
    if not all(tables):
        return []
    reach = min(max(t for t, _ in table) for table in tables)
    between = {t for table in tables for t, _ in table if _ROOM < t <= reach}
    return [_ROOM, *sorted(between)]


def ring_limit_pressure(yield_strength: float, od: float, id: float) -> float:
    """Pressure [MPa] above which the insert takes a set: σ_y·(D − Di)/D.

    `yield_strength`: σ_y [MPa]; `od`, `id`: D and Di [mm]. The whole wall yields: an estimate for thin rings.
    Raises ValueError for a hole that is not inside the insert. Source: derived here: equilibrium of half
    a ring.

    >>> round(ring_limit_pressure(410, 38.1, 30), 1)
    87.2
    """
    _check_rings(od, id, math.inf)
    return yield_strength * (od - id) / od


def set_left(cold: float, hot: float, pressure_hot: float, limit: float) -> float:
    """Interference [mm] left when cold again, after the insert was hotter than the head; an estimate.

    δ_cold − δ_hot·(1 − p_lim/p), and δ_cold where the hot pressure stays within the limit

    `cold`, `hot`: interference before and in the hot state, peaks taken off [mm]; `pressure_hot`: p in the hot state
    [MPa]; `limit`: p_lim, `ring_limit_pressure` [MPa]. Raises ValueError for a limit that is not positive.
    Source: derived here: what the pressure passes the limit by is lost as set.

    >>> round(set_left(0.080, 0.209, 110.0, 87.2), 3)
    0.037
    """
    if not limit > 0:
        raise ValueError(f"the limit pressure of a ring must be more than nothing: {limit}")
    if pressure_hot <= limit:
        return cold
    return cold - hot * (1 - limit / pressure_hot)
