"""Setting the cutter with the setting gauge, and rounding to what an instrument can read."""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import Decimal
from functools import lru_cache

from seatwright.handbook.straight_line import between_neighbours

_WHOLE = 1_000_000
"""One in so many of a step is what a float may be off and still count as a whole step (2 picometres in 0.002 mm)."""


def gauge_error(masters: Sequence[tuple[float, float]], size: float) -> float | None:
    """How much the setting gauge shows too much at a size.

        error = reading − master

    One master: its error holds at every size. Several: a straight line between neighbours; nothing
    beyond the ends. Several readings of one master count with their mean.

    masters : (size of the master, what the gauge reads on it) [mm], in any order
    size : where the error is wanted [mm]
    Returns : error [mm], or None without a master or beyond the last one

    Errors : none.
    Source : common practice.

    >>> round(gauge_error([(40.0, 40.002)], 44.02), 4), gauge_error([(40.0, 40.002), (50.0, 50.004)], 51.0)
    (0.002, None)
    """
    errors = _mean_errors(tuple(masters))
    if not errors:
        return None
    if len(errors) == 1:
        return errors[0][1]
    if not errors[0][0] <= size <= errors[-1][0]:
        return None
    return between_neighbours(errors, size)


def reading(aim_at_bench: float, error: float, overcut: float) -> float:
    """What the setting gauge must show so that the bore comes out at the aim.

        reading = aim + error − overcut

    aim_at_bench : diameter wanted, at bench temperature [mm]
    error : of the setting gauge at that size [mm]
    overcut : how much bigger the cutter bores than it is set [mm]; may be negative
    Returns : reading [mm]

    Errors : none.
    Source : the meaning of error and overcut.

    >>> round(reading(44.020, 0.002, 0.006), 3)
    44.016
    """
    return aim_at_bench + error - overcut


def bore_from_reading(read: float, error: float, overcut: float) -> float:
    """The bore to be expected from a setting: the inverse of `reading`.

        bore = reading − error + overcut

    read : what the setting gauge shows [mm]
    error : of the setting gauge at that size [mm]
    overcut : how much bigger the cutter bores than it is set [mm]
    Returns : diameter at bench temperature [mm]

    Errors : none.
    Source : as `reading`.

    >>> round(bore_from_reading(44.016, 0.002, 0.006), 3)
    44.02
    """
    return read - error + overcut


def overcut_from_trial(read: float, bored: float, error: float) -> float:
    """How much bigger the cutter bored than it was set, from a trial cut.

        overcut = bored − (read − error)

    read : what the setting gauge showed [mm], brought to 20 °C
    bored : what the trial bore measures [mm], brought to 20 °C
    error : of the setting gauge at that size [mm]
    Returns : overcut [mm]; negative where it bored smaller

    Valid when both figures were brought to 20 °C first: see `thermal.at20`.
    Errors : none.
    Source : the meaning of overcut.

    >>> round(overcut_from_trial(44.480, 44.487, 0.002), 3)
    0.009
    """
    return bored - (read - error)


def whole_steps(least: float, most: float, step: float) -> tuple[int, int] | None:
    """Which readings of an instrument lie inside two limits, counted in its steps from 0.

    least, most : limits [mm]
    step : of the instrument [mm]
    Returns : (first, last) whole step inside [counts of step], or None when none is

    Errors : ValueError for a step that is not above nothing.
    Source : common practice: limits on a card are rounded inwards.

    >>> whole_steps(44.0103, 44.0185, 0.002)
    (22006, 22009)
    """
    first, last = _counts(least, most, step)
    return (first, last) if first <= last else None


def at_step(count: int, step: float) -> float:
    """The reading that is a whole number of steps above 0, free of the crumbs of floating point.

    count : number of steps
    step : of the instrument [mm]
    Returns : reading [mm]

    Errors : ValueError for a step that is not above nothing.
    Source : arithmetic.

    >>> at_step(22008, 0.002)
    44.016
    """
    over, under = _step(step)
    return count * over / under


def round_inwards(least: float, most: float, step: float) -> tuple[float, float] | None:
    """Limits drawn in to readings that the instrument can show.

    least, most : limits [mm]
    step : of the instrument that will read them [mm]
    Returns : (least, most) [mm], whole steps inside the limits, or None when nothing is left between them

    Errors : ValueError for a step that is not above nothing.
    Source : common practice.

    >>> round_inwards(44.0103, 44.0185, 0.002), round_inwards(44.0183, 44.0197, 0.002)
    ((44.012, 44.018), None)
    """
    inside = whole_steps(least, most, step)
    return None if inside is None else (at_step(inside[0], step), at_step(inside[1], step))


def round_to_step(value: float, step: float) -> float:
    """A figure rounded to the nearest reading that the instrument can show; half a step goes away from 0.

    value : wanted [mm]
    step : of the instrument [mm]
    Returns : reading [mm]

    Errors : ValueError for a step that is not above nothing.
    Source : common practice; half away from zero is rule B of ISO 80000-1, annex B (from memory).

    >>> round_to_step(44.016, 0.002), round_to_step(44.015, 0.002), round_to_step(-0.005, 0.01)
    (44.016, 44.016, -0.01)
    """
    over, under = _in_steps(abs(value), step)
    count = (2 * _WHOLE * over + (_WHOLE + 2) * under) // (2 * _WHOLE * under)
    return math.copysign(at_step(count, step), value) if count else 0.0


def trial_is_round(bore: float, trial_under: float, pocket: float, offset: float, pilot_offset: float) -> bool:
    """Whether a first cut below size takes the old pocket away all round, so that it can be measured.

        bore − trial-under ≥ pocket + 2·(offset + e)

    bore : finished diameter [mm]
    trial_under : how far below it the trial is cut [mm]
    pocket : largest diameter of the old pocket [mm]
    offset : how far the old pocket stands off the guide [mm]
    pilot_offset : how far the new bore can stand off the guide, e [mm]
    Returns : True when the trial can be measured in this pocket

    Errors : ValueError for a negative trial-under.
    Source : geometry of two eccentric circles.

    >>> trial_is_round(44.32, 0.10, 44.10, 0.05, 0.01), trial_is_round(44.30, 0.10, 44.10, 0.05, 0.01)
    (True, False)
    """
    if trial_under < 0:
        raise ValueError(f"a trial {-trial_under:g} mm above size cannot be: it is cut below size")
    return bore - trial_under >= pocket + 2 * (offset + pilot_offset) - 1e-9


def zero_error_of_corner(over_edge: float, corner_radius: float) -> float:
    """How much too deep a cutter is zeroed that meets the edge of the old pocket with the corner of its tip.

        error = R − √(R² − (R − x)²)

    The tip stands over the edge by only a part of its corner, and the round of the corner, not its end, touches. So
    zero is taken on a parallel laid across, or on the old floor, never by the edge.

    over_edge : how far the tip reaches out over the edge of the old pocket, x, radial [mm]
    corner_radius : of the tip, R [mm]; 0 for a sharp corner
    Returns : how much lower than the face the tip's end stands when it touches [mm]; 0 from x = R up

    Valid while the tip meets the face at all: x above nothing.
    Errors : ValueError for a tip that does not reach over the edge, or a negative corner.
    Source : geometry of a circle and a square edge.

    >>> round(zero_error_of_corner(0.10, 0.40), 3)
    0.135
    """
    if corner_radius < 0:
        raise ValueError(f"a corner of {corner_radius:g} mm cannot be")
    if not over_edge > 0:
        raise ValueError("a tip that does not reach over the edge of the pocket finds no face to touch")
    inside = max(corner_radius - over_edge, 0.0)
    return corner_radius - math.sqrt(corner_radius**2 - inside**2)


def dial_on_parallel(thickness: float) -> float:
    """What the depth dial is set to while the tip touches a parallel that lies on the face.

        dial = 0 − thickness

    thickness : of the parallel [mm]
    Returns : reading of the dial, before 0 [mm]

    Errors : ValueError for a parallel of no thickness.
    Source : geometry.

    >>> dial_on_parallel(10.0)
    -10.0
    """
    if not thickness > 0:
        raise ValueError(f"a parallel {thickness:g} mm thick cannot be")
    return -thickness


def stop_from_parallel(depth: float, thickness: float) -> float:
    """How far the depth stop is set from where the tip touches a parallel that lies on the face.

        stop = depth + thickness

    depth : to be bored, from the face [mm]
    thickness : of the parallel [mm]
    Returns : travel from touching the parallel to the stop [mm]

    Errors : ValueError for a parallel of no thickness.
    Source : geometry.

    >>> stop_from_parallel(8.5, 10.0)
    18.5
    """
    return depth - dial_on_parallel(thickness)


@lru_cache(256)
def _mean_errors(masters: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    """(master, what the gauge shows too much on it), smallest first, each size once."""
    read: dict[float, list[float]] = {}
    for master, shown in masters:
        read.setdefault(master, []).append(shown - master)
    return tuple((master, sum(found) / len(found)) for master, found in sorted(read.items()))


@lru_cache(1024)
def _counts(least: float, most: float, step: float) -> tuple[int, int]:
    low, below = _in_steps(least, step)
    high, above = _in_steps(most, step)
    # Rounded up is what is over, rounded down, with its sign turned.
    return -((below - _WHOLE * low) // (_WHOLE * below)), (_WHOLE * high + above) // (_WHOLE * above)


def _in_steps(value: float, step: float) -> tuple[int, int]:
    """How many steps a figure is, as a fraction."""
    over, under = _as_written(value)
    step_over, step_under = _step(step)
    return over * step_under, under * step_over


@lru_cache(64)
def _step(step: float) -> tuple[int, int]:
    if step <= 0:
        raise ValueError(f"an instrument with a step of {step:g} mm reads nothing")
    return _as_written(step)


def _as_written(value: float) -> tuple[int, int]:
    """A figure as a fraction, 0.1 as 1/10 and not as the binary fraction beside it. In whole numbers, which are exact
    as `Fraction` is, at a tenth of its time: each bore is rounded several times."""
    return Decimal(repr(value)).as_integer_ratio()
