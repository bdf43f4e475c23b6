"""Getting the insert in: clearance with a hot head and a cold insert, and how long it lasts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from seatwright.handbook.growth import first_temperature
from seatwright.handbook.thermal import mean_expansion

__all__ = [
    "DRY_ICE",
    "NITROGEN",
    "Kind",
    "assembly_clearance",
    "grab_temperature",
    "head_temperature_for",
    "kind",
]

DRY_ICE = -78.5
"""Dry ice at one atmosphere [°C]. Source: Span and Wagner 1996, sublimation line, from memory: −78.465."""

NITROGEN = -195.8
"""Boiling nitrogen at one atmosphere [°C]. Source: CoolProp: −195.795; 2 °C lower at 80 kPa."""

Kind = Literal["drop-in", "push", "press"]
"""How the insert goes in."""

_ROOM = 20.0


def assembly_clearance(
    bore_least: float, od_most: float, mean_h: float, rise_h: float, mean_i: float, rise_i: float
) -> float:
    """Clearance [mm] while the insert goes in; negative is interference that is left.

    bore·(1 + ᾱ_h·ΔT_h) − od·(1 + ᾱ_i·ΔT_i)

    `bore_least`, `od_most`: worst case at 20 °C [mm]; `mean_h`, `mean_i`: mean expansion from 20 °C [1/°C]; `rise_h`,
    `rise_i`: head and insert above 20 °C, cold negative [°C]; the insert as it arrives in the bore.
    Raises ValueError for a diameter that is not positive. Source: handbook, section 10.

    >>> round(assembly_clearance(38.02, 38.10, 22e-6, 140, 11e-6, 0), 3)
    0.037
    """
    if not (bore_least > 0 and od_most > 0):
        raise ValueError(f"a bore and an insert need diameters: {bore_least}, {od_most}")
    return bore_least * (1 + mean_h * rise_h) - od_most * (1 + mean_i * rise_i)


def kind(clearance: float, slip: float) -> Kind:
    """How the insert goes in: dropped in from `slip` up, pushed from nothing up, else pressed.

    `clearance`: worst case [mm]; `slip`: clearance that the shop wants for dropping in [mm].
    Raises ValueError for a negative slip. Source: handbook, section 10.

    >>> kind(0.037, 0.030), kind(0.017, 0.030), kind(-0.010, 0.030)
    ('drop-in', 'push', 'press')
    """
    if not slip >= 0:
        raise ValueError(f"slip is a clearance and cannot be negative: {slip}")
    if clearance >= slip:
        return "drop-in"
    return "push" if clearance >= 0 else "press"


def grab_temperature(
    bore_hot: float, od_most: float, table_i: Sequence[tuple[float, float]], arrives: float
) -> float | None:
    """The temperature [°C] of the insert at which it grabs, the head still hot.

    od·(1 + ᾱ_i(T)·(T − 20)) = bore as the hot head has it

    `bore_hot`: least bore in the hot head [mm]; `od_most`: at 20 °C [mm]; `table_i`: (temperature [°C], mean expansion
    from 20 °C [1/°C]) of the insert; `arrives`: its temperature in the bore [°C]. An insert that has no clearance as
    it arrives grabs there. None when it is still free at the end of its table, or `arrives` is outside the table.
    Raises ValueError for a diameter that is not positive. Source: handbook, section 10.

    >>> bore = 38.02 * (1 + 22e-6 * 140)
    >>> round(grab_temperature(bore, 38.10, [(400.0, 11e-6)], 20.0), 1)
    108.5
    """
    if not (bore_hot > 0 and od_most > 0):
        raise ValueError(f"a bore and an insert need diameters: {bore_hot}, {od_most}")
    wanted = bore_hot / od_most - 1
    if mean_expansion(table_i, arrives) is None:
        return None
    if _growth(table_i, arrives) >= wanted:
        return arrives
    return first_temperature(lambda t: _growth(table_i, t), _lines_from(table_i, arrives), wanted)


def head_temperature_for(
    clearance: float, bore_least: float, od_cold: float, table_h: Sequence[tuple[float, float]]
) -> float | None:
    """The coolest head [°C], from 20 °C up, that gives the insert this clearance.

    `clearance`: wanted [mm]; `bore_least`: at 20 °C [mm]; `od_cold`: largest od as the insert arrives [mm];
    `table_h`: (temperature [°C], mean expansion from 20 °C [1/°C]) of the head. None when the table ends first.
    Raises ValueError for a diameter that is not positive. Source: handbook, section 10.

    >>> round(head_temperature_for(0.0366, 38.02, 38.10, [(300.0, 22e-6)]), 1)
    159.4
    """
    if not (bore_least > 0 and od_cold > 0):
        raise ValueError(f"a bore and an insert need diameters: {bore_least}, {od_cold}")
    wanted = (od_cold + clearance) / bore_least - 1
    if wanted <= 0:
        return _ROOM
    if not table_h:
        return None
    return first_temperature(lambda t: _growth(table_h, t), _lines_from(table_h, _ROOM), wanted)


def _growth(table: Sequence[tuple[float, float]], t: float) -> float:
    mean = mean_expansion(table, t)
    if mean is None:
        raise ValueError(f"no expansion at {t:g} °C")
    return mean * (t - _ROOM)


def _lines_from(table: Sequence[tuple[float, float]], start: float) -> list[float]:
    """`start`, and the temperatures above it at which the table's course may bend (20 °C is one)."""
    end = max(max(t for t, _ in table), _ROOM)
    return sorted({start} | {t for t in (*(t for t, _ in table), _ROOM) if start < t <= end})
