"""Getting the insert in: clearance with a hot head and a cold insert, and how long it lasts."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

from msgspec import Struct

from seatwright.handbook.growth import Course, course_of, first_temperature
from seatwright.handbook.thermal import mean_expansion

__all__ = [
    "DRY_ICE",
    "NITROGEN",
    "HeatChillPair",
    "WayIn",
    "assembly_clearance",
    "best_way",
    "grab_temperature",
    "head_temperature_for",
    "kind",
    "reheat_below",
]

DRY_ICE = -78.5
"""Dry ice at one atmosphere [°C]. Source: an equation of state for carbon dioxide, from memory: −78.465."""

NITROGEN = -195.8
"""Boiling nitrogen at one atmosphere [°C]; 2 °C lower at 80 kPa.

Source: an equation of state for nitrogen: −195.795.
"""

WayIn = Literal["drop-in", "push", "press"]
"""How the insert goes in."""

_ROOM = 20.0


class HeatChillPair(Struct, frozen=True):
    """One pair of heat and chill: `head` and `insert` as it arrives [°C], and the worst `clearance` of all it serves
    [mm]."""

    head: float
    insert: float
    clearance: float


def assembly_clearance(
    bore_least: float, od_most: float, mean_h: float, rise_h: float, mean_i: float, rise_i: float
) -> float:
    """Clearance [mm] while the insert goes in; negative is interference that is left.

    bore·(1 + ᾱ_h·ΔT_h) − od·(1 + ᾱ_i·ΔT_i)

    `bore_least`, `od_most`: worst case at 20 °C [mm]; `mean_h`, `mean_i`: mean expansion from 20 °C [1/°C]; `rise_h`,
    `rise_i`: head and insert above 20 °C, cold negative [°C]; the insert as it arrives in the bore.
    Raises ValueError for a diameter that is not positive. Source: the meaning of a mean expansion.

    >>> round(assembly_clearance(38.02, 38.10, 22e-6, 140, 11e-6, 0), 3)
    0.037
    """
    if not (bore_least > 0 and od_most > 0):
        raise ValueError(f"a bore and an insert need diameters: {bore_least}, {od_most}")
    return bore_least * (1 + mean_h * rise_h) - od_most * (1 + mean_i * rise_i)


def kind(clearance: float, slip: float) -> WayIn:
    """How the insert goes in: dropped in from `slip` up, pushed from nothing up, else pressed.

    `clearance`: worst case [mm]; `slip`: clearance that the shop wants for dropping in [mm].
    Raises ValueError for a negative slip. Source: common practice.

    >>> kind(0.037, 0.030), kind(0.017, 0.030), kind(-0.010, 0.030)
    ('drop-in', 'push', 'press')
    """
    if not slip >= 0:
        raise ValueError(f"slip is a clearance and cannot be negative: {slip}")
    if clearance >= slip:
        return "drop-in"
    return "push" if clearance >= 0 else "press"


def best_way(ways: Sequence[HeatChillPair], slip: float) -> int | None:
    """The heat and chill to take: the coolest head that lets the insert drop in; else the pair of most clearance.

    Of equally cool heads the warmest insert is taken. Where nothing drops in, the most clearance decides between a push
    and a press, so that nothing is pressed cold that the shop could heat or chill; of equal clearances (to a tenth of a
    micrometre) the coolest head, then the warmest insert.

    `ways`: every pair that the shop has and the head may take, the room's own temperature among them; `slip`: clearance
    wanted for dropping in [mm]. Returns the place in `ways`, or None of none. Raises ValueError for a negative slip.
    Source: common practice.

    Oven and dry ice leave less than slip, the room a press: the pair is taken.

    >>> clearances = {(22.0, 22.0): -0.094, (120.0, 22.0): -0.020, (120.0, -40.0): 0.008}
    >>> best_way([HeatChillPair(*pair, clearance) for pair, clearance in clearances.items()], 0.030)
    2
    """
    if not slip >= 0:
        raise ValueError(f"slip is a clearance and cannot be negative: {slip}")
    dropping = [at for at, way in enumerate(ways) if way.clearance >= slip]
    if dropping:
        return min(dropping, key=lambda at: (ways[at].head, -ways[at].insert, at))
    if not ways:
        return None
    return min(range(len(ways)), key=lambda at: (-round(ways[at].clearance, 4), ways[at].head, -ways[at].insert, at))


def reheat_below(
    how: WayIn, slip: float, bore_least: float, od_cold: float, table_h: Sequence[tuple[float, float]]
) -> float | None:
    """The head's temperature [°C] under which the next insert no longer goes in the way that was meant.

    bore·(1 + ᾱ_h(T)·(T − 20)) = od + slip  for a drop-in,  = od  for a push

    `how`: as `kind` says; `slip`: clearance wanted for dropping in [mm]; `bore_least`: at 20 °C [mm]; `od_cold`:
    largest od as the insert arrives [mm]; `table_h`: (temperature [°C], mean expansion from 20 °C [1/°C]) of the head.
    None for a press, which no heat decides, and where no temperature in the table gives it. 20 °C where the chill alone
    gives it. On a card it goes up to the whole degree.
    Raises ValueError for a negative slip or a diameter that is not positive. Source: as `head_temperature_for`.

    >>> round(reheat_below("drop-in", 0.030, 38.02, 38.10, [(300.0, 22e-6)]), 1)
    151.5
    """
    if not slip >= 0:
        raise ValueError(f"slip is a clearance and cannot be negative: {slip}")
    if how == "press":
        return None
    return head_temperature_for(slip if how == "drop-in" else 0.0, bore_least, od_cold, table_h)


def grab_temperature(
    bore_hot: float, od_most: float, table_i: Sequence[tuple[float, float]], arrives: float
) -> float | None:
    """The temperature [°C] of the insert at which it grabs, the head still hot.

    od·(1 + ᾱ_i(T)·(T − 20)) = bore as the hot head has it

    `bore_hot`: least bore in the hot head [mm]; `od_most`: at 20 °C [mm]; `table_i`: (temperature [°C], mean expansion
    from 20 °C [1/°C]) of the insert; `arrives`: its temperature in the bore [°C]. An insert that has no clearance as
    it arrives grabs there. None when it is still free at the end of its table, or `arrives` is outside the table.
    Raises ValueError for a diameter that is not positive. Source: the meaning of a mean expansion.

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
    return first_temperature(_course(tuple(table_i), arrives), wanted)


def head_temperature_for(
    clearance: float, bore_least: float, od_cold: float, table_h: Sequence[tuple[float, float]]
) -> float | None:
    """The coolest head [°C], from 20 °C up, that gives the insert this clearance.

    `clearance`: wanted [mm]; `bore_least`: at 20 °C [mm]; `od_cold`: largest od as the insert arrives [mm];
    `table_h`: (temperature [°C], mean expansion from 20 °C [1/°C]) of the head. None when the table ends first.
    Raises ValueError for a diameter that is not positive. Source: the meaning of a mean expansion.

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
    return first_temperature(_course(tuple(table_h), _ROOM), wanted)


@lru_cache(64)
def _course(table: tuple[tuple[float, float], ...], start: float) -> Course:
    """What a part grows by from 20 °C, from `start` upwards."""
    return course_of(lambda t: _growth(table, t), _lines_from(table, start))


def _growth(table: Sequence[tuple[float, float]], t: float) -> float:
    mean = mean_expansion(table, t)
    if mean is None:
        raise ValueError(f"no expansion at {t:g} °C")
    return mean * (t - _ROOM)


def _lines_from(table: Sequence[tuple[float, float]], start: float) -> list[float]:
    """`start`, and the temperatures above it at which the table's course may bend (20 °C is one)."""
    return sorted({start, *(t for t in (_ROOM, *(t for t, _ in table)) if t > start)})
