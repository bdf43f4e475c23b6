"""One temperature for every length: 20 °C, the reference temperature of ISO 1."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from seatwright.handbook.straight_line import between_neighbours

REFERENCE = 20.0
"""Reference temperature of lengths [°C]; source: ISO 1."""


def at20(
    reading: float,
    gauge_expansion: float,
    gauge_temperature: float,
    part_expansion: float,
    part_temperature: float,
) -> float:
    """Size at 20 °C of a part that was read warm or cold.

        x20 = x · (1 + αg·(Tg − 20)) / (1 + αp·(Tp − 20))

    The warm gauge has grown and shows too little, the warm part has grown and shows too much.

    reading : what the gauge shows, x [mm]
    gauge_expansion, part_expansion : mean expansion from 20 °C, αg and αp [1/°C], such as 11.5e-6
    gauge_temperature, part_temperature : Tg and Tp [°C]
    Returns : the size at 20 °C, x20 [mm]

    Valid while gauge and part are each at one temperature throughout.
    Errors : ValueError when an expansion figure would shrink the part to nothing (a slip of units).
    Source : ISO 1 for the 20 °C; the rest is the meaning of an expansion figure.

    Aluminium at 40 °C, read 44.02 with a gauge at 22 °C, is 18 µm smaller than it reads:

    >>> round(at20(44.02, 11.5e-6, 22.0, 21.4e-6, 40.0), 4)
    44.0022
    """
    return reading * _growth(gauge_expansion, gauge_temperature) / _growth(part_expansion, part_temperature)


def at_bench(
    size: float,
    gauge_expansion: float,
    gauge_temperature: float,
    part_expansion: float,
    part_temperature: float,
) -> float:
    """What the gauge must show at the bench for a size at 20 °C: the inverse of `at20`.

        x = x20 · (1 + αp·(Tp − 20)) / (1 + αg·(Tg − 20))

    size : wanted at 20 °C, x20 [mm]
    gauge_expansion, part_expansion : mean expansion from 20 °C, αg and αp [1/°C], such as 11.5e-6
    gauge_temperature, part_temperature : Tg and Tp [°C]
    Returns : the reading at the bench, x [mm]

    Valid while gauge and part are each at one temperature throughout.
    Errors : ValueError when an expansion figure would shrink the gauge to nothing (a slip of units).
    Source : as `at20`.

    >>> round(at_bench(44.02, 11.5e-6, 24.0, 21.4e-6, 24.0), 4)
    44.0217
    """
    return size * _growth(part_expansion, part_temperature) / _growth(gauge_expansion, gauge_temperature)


def mean_expansion(table: Sequence[tuple[float, float]], temperature: float) -> float | None:
    """Mean expansion from 20 °C to a temperature, out of a material's table.

    Between two lines the mean is taken in a straight line, also where 20 °C lies between the two. Where
    the side of 20 °C that is asked for has lines and the other has none, the line nearest to 20 °C holds
    from 20 °C up to itself. Beyond the last line nothing is computed.

    table : lines of (temperature [°C], mean expansion from 20 °C to there [1/°C]), in any order
    temperature : asked for [°C]
    Returns : mean expansion from 20 °C [1/°C], or None where the table does not reach

    Valid inside the table only; never extrapolated.
    Errors : ValueError when two lines are for one temperature.
    Source : the reading of tables of mean expansion is common practice.

    >>> lines = [(100.0, 21.4e-6), (200.0, 22.4e-6)]
    >>> round(mean_expansion(lines, 180.0) * 1e6, 2), mean_expansion(lines, 60.0), mean_expansion(lines, 230.0)
    (22.2, 2.14e-05, None)
    """
    lines = _rising(tuple(table))
    if not lines:
        return None
    coldest, hottest = lines[0], lines[-1]
    if temperature < coldest[0]:
        return coldest[1] if temperature >= REFERENCE else None
    if temperature > hottest[0]:
        return hottest[1] if temperature <= REFERENCE else None
    return between_neighbours(lines, temperature)


@lru_cache(256)
def _rising(table: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    """The lines of a table, coldest first, no two for one temperature."""
    lines = sorted(table)
    for (before, _), (after, _) in pairwise(lines):
        if before == after:
            raise ValueError(f"two lines of the expansion table are for {before:g} °C; keep one")
    return tuple(lines)


def _growth(expansion: float, temperature: float) -> float:
    growth = 1.0 + expansion * (temperature - REFERENCE)
    if growth <= 0.0:
        raise ValueError(
            f"an expansion of {expansion:g} per °C at {temperature:g} °C leaves no metal; steel is about 11.5e-6 per °C"
        )
    return growth
