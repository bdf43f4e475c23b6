"""Recession, stem and spring: what sinking the valve does, and where all three allow it to be.

Recession is the flat of the valve head below the deck, proud negative. Sinking the valve raises the tip, lengthens the
spring and takes up lash by the same amount. Signs: published service manuals.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations_with_replacement

from msgspec import Struct

__all__ = [
    "Aim",
    "Missed",
    "RecessionWindow",
    "aim_of_recession",
    "deeper_only",
    "lash_after",
    "limits_after_skim",
    "recession_now",
    "shims_for",
    "spring_after",
    "spring_window",
    "stem_after",
    "stem_to_edge_after",
    "stem_to_edge_window",
    "stem_window",
]


_SLACK = 1e-9
"""Windows that are apart by less than this meet [mm]: far below any instrument."""


class RecessionWindow(Struct, frozen=True):
    """Recessions that one limit allows [mm]; name: recession, stem, spring. A missing side is infinite."""

    name: str
    least: float
    most: float


class Missed(Struct, frozen=True):
    """A window that gives way, and by how much the aim misses it [mm].

    `by` under nothing: the aim lies under the window's least, so a stem or spring that grows as the valve sinks comes
    out too low or too short, and is neither ground nor shimmed. Over nothing: too high or too long by that much beyond
    what may be ground or shimmed.
    """

    name: str
    by: float


class Aim(Struct, frozen=True):
    """Where the recession should come to [mm], what is allowed together, and the windows that had to give way.

    `aim` is the middle; where a window gives way, the end of what holds that is nearest to it. None when one side is
    open and nothing gives way: there is no middle to aim at.
    """

    aim: float | None
    least: float
    most: float
    missed: tuple[Missed, ...] = ()

    @property
    def gives_way(self) -> tuple[str, ...]:
        """Names of the windows that give way."""
        return tuple(each.name for each in self.missed)


def deeper_only(window: RecessionWindow, found: float) -> RecessionWindow | None:
    """What a window leaves to a seat that only goes deeper: one that stays, or any that is cut already [mm].

    max(least, R_found)  to  most

    `window`: of the recession; `found`: with the valve that goes in [mm]. None where it lies at the most or over it
    already: a new insert or valve, no light cut. Raises no error. Source: geometry, metal that is cut off stays off.

    >>> deeper_only(RecessionWindow("recession", 0.5, 0.9), 0.7)
    RecessionWindow(name='recession', least=0.7, most=0.9)
    >>> deeper_only(RecessionWindow("recession", 0.5, 0.9), 0.9) is None
    True
    """
    if found >= window.most:
        return None
    return RecessionWindow(window.name, max(window.least, found), window.most)


def recession_now(found: float, skim_since: float) -> float:
    """Recession before the seat is touched [mm]: as found, less what was skimmed since it was measured.

    `found`: as measured [mm]; `skim_since`: taken off the deck after that, along the stem, 0 for none [mm].
    Raises ValueError for a negative skim. Source: geometry, the deck comes down to the valve.

    >>> round(recession_now(0.90, 0.20), 2)
    0.7
    """
    if not skim_since >= 0:
        raise ValueError(f"a skim takes metal off and cannot be negative: {skim_since}")
    return found - skim_since


def stem_after(stem_found: float, recession_finished: float, recession_now: float) -> float:
    """Height of the stem tip over its spring seat when finished [mm]: tip + R_finished − R_now.

    `stem_found` [mm]; `recession_finished`, `recession_now`: both against the deck as it is now [mm].
    Raises no error. Source: geometry; the tip rises by what the valve sinks, a published service manual.

    >>> round(stem_after(41.20, 0.90, 0.70), 2)
    41.4
    """
    return stem_found + recession_finished - recession_now


def stem_to_edge_after(found: float, recession_finished: float, recession_now: float) -> float:
    """Distance from the stem's end to the head's edge or the cam when finished [mm]: found − (R_finished − R_now).

    Where the maker measures so, the distance shrinks as the seat sinks. `found` [mm]; `recession_finished`,
    `recession_now`: both against the deck as it is now [mm]. Raises no error. Source: geometry, the stem comes up.

    >>> round(stem_to_edge_after(8.00, 0.90, 0.70), 2)
    7.8
    """
    return found - (recession_finished - recession_now)


def spring_after(spring_found: float, recession_finished: float, recession_now: float) -> float:
    """Installed height of the spring when finished [mm]: spring + R_finished − R_now.

    `spring_found` [mm]; `recession_finished`, `recession_now` [mm]. Raises no error. Source: as `stem_after`.

    >>> round(spring_after(38.0, 0.90, 0.70), 2)
    38.2
    """
    return spring_found + recession_finished - recession_now


def lash_after(lash_found: float, recession_finished: float, recession_now: float) -> float:
    """Lash at the valve when finished [mm]: lash − (R_finished − R_now); negative holds the valve open.

    `lash_found` [mm]; `recession_finished`, `recession_now` [mm]. Raises no error. Source: as `stem_after`.

    >>> round(lash_after(0.30, 0.90, 0.70), 2)
    0.1
    """
    return lash_found - (recession_finished - recession_now)


def limits_after_skim(least: float, most: float, skim: float) -> tuple[float, float]:
    """Limits of recession after a skim, where the greatest is one of the valve train [mm].

    The most falls by the skim. The least keeps the valve off the piston and never moves.
    `least`, `most` [mm]; `skim`: along the stem [mm].
    Raises ValueError for a negative skim or when nothing is left. Source: a published service manual; an army technical
    manual for the piston's side.

    >>> low, high = limits_after_skim(0.45, 0.90, 0.20)
    >>> round(low, 2), round(high, 2)
    (0.45, 0.7)
    """
    if not skim >= 0:
        raise ValueError(f"a skim takes metal off and cannot be negative: {skim}")
    if not most - skim >= least:
        raise ValueError(f"a skim of {skim} leaves nothing between {least} and {most}")
    return least, most - skim


def stem_window(
    recession_now: float, stem_found: float, least: float, most: float, grind_most: float = 0.0
) -> RecessionWindow:
    """Recessions at which the tip stands within its limits [mm], ground by `grind_most` at most.

    R_now + least − stem_found  to  R_now + most + grind_most − stem_found

    `recession_now`, `stem_found` [mm]; `least`, `most`: limits of the stem height, an open side infinite [mm];
    `grind_most`: what may come off the tip, 0 where nothing is said [mm]. Raises ValueError for crossed limits or a
    negative grind. Source: geometry.

    >>> window = stem_window(0.70, 41.20, 40.95, 41.45)
    >>> round(window.least, 2), round(window.most, 2)
    (0.45, 0.95)
    """
    return _height_window("stem", recession_now, stem_found, least, most, grind_most)


def stem_to_edge_window(
    recession_now: float, found: float, least: float, most: float, grind_most: float = 0.0
) -> RecessionWindow:
    """Recessions at which the stem's end stands within its limits under the head's edge or the cam [mm].

    R_now + found − most  to  R_now + found − least + grind_most

    Sinking makes the distance smaller, grinding the stem makes it longer: so grinding counts below the least.
    `recession_now`, `found` [mm]; `least`, `most`: limits of the distance, an open side infinite [mm]; `grind_most`:
    what may come off the stem, 0 where nothing is said [mm]. Raises ValueError for crossed limits or a negative grind.
    Source: geometry, the stem comes up.

    Found 8.0, least 7.6: the valve may sink by 0.4.

    >>> round(stem_to_edge_window(0.70, 8.0, 7.6, 9.0).most - 0.70, 2)
    0.4
    """
    _check_heights("stem", least, most, grind_most)
    return RecessionWindow("stem", recession_now + found - most, recession_now + found - least + grind_most)


def spring_window(
    recession_now: float, spring_found: float, least: float, most: float, shims_most: float = 0.0
) -> RecessionWindow:
    """Recessions at which the spring has its installed height [mm], with shims of `shims_most` together at most.

    R_now + least − spring_found  to  R_now + most + shims_most − spring_found

    `recession_now`, `spring_found` [mm]; `least`, `most`: limits of the installed height, an open side infinite [mm];
    `shims_most`: greatest stack the shop allows [mm]. A stack may not come in every thickness: `shims_for` decides.
    Raises ValueError for crossed limits or a negative stack. Source: common practice.

    >>> window = spring_window(0.70, 38.00, 37.7, 38.3, 0.4)
    >>> round(window.least, 2), round(window.most, 2)
    (0.4, 1.4)
    """
    return _height_window("spring", recession_now, spring_found, least, most, shims_most)


def _height_window(
    name: str, recession_now: float, found: float, least: float, most: float, slack: float
) -> RecessionWindow:
    _check_heights(name, least, most, slack)
    return RecessionWindow(name, recession_now + least - found, recession_now + most + slack - found)


def _check_heights(name: str, least: float, most: float, slack: float) -> None:
    if not least <= most:
        raise ValueError(f"the least {name} height ({least}) is over the most ({most})")
    if not slack >= 0:
        raise ValueError(f"what brings a {name} back cannot be negative: {slack}")


def aim_of_recession(windows: Sequence[RecessionWindow]) -> Aim:
    """The middle of what all windows allow together, the more important first; windows that meet in one figure meet.

    A window that would leave nothing gives way and is named; so put recession first (the piston), then the stem, then
    the spring: the spring gives way before the stem, recession never. The aim is then the end of what holds that is
    nearest to the most important window that gave way. `windows`: at least one [mm]. Raises ValueError for none, or a
    window with crossed sides. Source: common practice; a piston stands behind the recession.

    >>> aim_of_recession([RecessionWindow("recession", 0.5, 0.9), RecessionWindow("stem", 0.6, 1.1)])
    Aim(aim=0.75, least=0.6, most=0.9, missed=())

    The stem would want more than the piston side allows: as deep as that goes, and the stem 0.1 too low.

    >>> aim = aim_of_recession([RecessionWindow("recession", 0.5, 0.9), RecessionWindow("stem", 1.0, 1.3)])
    >>> aim.aim, aim.gives_way, round(aim.missed[0].by, 3)
    (0.9, ('stem',), -0.1)
    """
    if not windows:
        raise ValueError("there is no limit of recession, stem or spring to aim by")
    least, most = windows[0].least, windows[0].most
    gave: list[RecessionWindow] = []
    for window in windows:
        if not window.least <= window.most:
            raise ValueError(f"{window.name}: the least ({window.least}) is over the most ({window.most})")
        low, high = max(least, window.least), min(most, window.most)
        if low <= high:
            least, most = low, high
        elif low - high <= _SLACK:
            least = most = high
        else:
            gave.append(window)
    if gave:
        aim = most if gave[0].least > most else least
        return Aim(aim, least, most, tuple(Missed(each.name, _off(each, aim)) for each in gave))
    closed = least != -math.inf and most != math.inf
    return Aim((least + most) / 2 if closed else None, least, most)


def _off(window: RecessionWindow, aim: float) -> float:
    return aim - window.least if aim < window.least else aim - window.most


def shims_for(
    spring_height: float, least: float, most: float, shims: Sequence[float], limit: float
) -> tuple[float, ...] | None:
    """Shims that bring an installed height between its limits [mm]: the fewest, then nearest to the middle.

    `spring_height`: without shims [mm]; `least`, `most`: limits [mm]; `shims`: thicknesses on the shelf, any number of
    each [mm]; `limit`: greatest stack [mm]. No shims is the empty answer; None when no stack will do.
    Raises ValueError for a shim without thickness or crossed limits. Source: common practice.

    >>> shims_for(39.0, 37.7, 38.3, [0.381, 0.762, 1.524], 1.524)
    (0.762,)
    """
    if not least <= most:
        raise ValueError(f"the least spring height ({least}) is over the most ({most})")
    if any(not shim > 0 for shim in shims):
        raise ValueError("a shim needs a thickness")
    middle = (least + most) / 2
    best: tuple[float, ...] | None = None
    best_key: tuple[int, float] | None = None
    slack = 1e-9 * middle
    deepest = int(limit / min(shims) + 1e-9) if shims else 0
    for count in range(deepest + 1):
        for stack in combinations_with_replacement(sorted(shims), count):
            total = sum(stack, 0 * limit)
            height = spring_height - total
            if total > limit + slack or not least - slack <= height <= most + slack:
                continue
            key = (count, round(abs(height - middle), 9))
            if best_key is None or key < best_key:
                best, best_key = stack, key
    return best
