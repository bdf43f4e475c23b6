"""Recession, tip and spring: what sinking the valve does, and where all three allow it to be.

Recession is the flat of the valve head below the deck, proud negative. Sinking the valve raises the tip, lengthens the
spring and takes up lash by the same amount. Signs: published manuals (tests/published).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations_with_replacement

from msgspec import Struct

__all__ = [
    "Aim",
    "Window",
    "aim_of_recession",
    "lash_after",
    "limits_after_skim",
    "recession_now",
    "shims_for",
    "spring_after",
    "spring_window",
    "tip_after",
    "tip_window",
]


class Window(Struct, frozen=True):
    """Recessions that one limit allows [mm]; `name` says which (recession, tip, spring). A missing side is infinite."""

    name: str
    least: float
    most: float


class Aim(Struct, frozen=True):
    """Where the recession should come to [mm], what is allowed together, and the windows that had to give way.

    `aim` is None when one side is open: there is no middle to aim at.
    """

    aim: float | None
    least: float
    most: float
    gives_way: tuple[str, ...]


def recession_now(found: float, skim_since: float) -> float:
    """Recession before the seat is touched [mm]: as found, less what was skimmed since it was measured.

    `found`: as measured [mm]; `skim_since`: taken off the deck after that, along the stem, 0 for none [mm].
    Raises ValueError for a negative skim. Source: handbook, section 12.

    >>> round(recession_now(0.90, 0.20), 2)
    0.7
    """
    if not skim_since >= 0:
        raise ValueError(f"a skim takes metal off and cannot be negative: {skim_since}")
    return found - skim_since


def tip_after(tip_found: float, recession_finished: float, recession_now: float) -> float:
    """Height of the stem tip over its spring seat when finished [mm]: tip + R_finished − R_now.

    `tip_found` [mm]; `recession_finished`, `recession_now`: both against the deck as it is now [mm].
    Source: handbook, section 12; the tip rises by what the valve sinks.

    >>> round(tip_after(41.20, 0.90, 0.70), 2)
    41.4
    """
    return tip_found + recession_finished - recession_now


def spring_after(spring_found: float, recession_finished: float, recession_now: float) -> float:
    """Installed height of the spring when finished [mm]: spring + R_finished − R_now.

    `spring_found` [mm]; `recession_finished`, `recession_now` [mm]. Source: as `tip_after`.

    >>> round(spring_after(38.0, 0.90, 0.70), 2)
    38.2
    """
    return spring_found + recession_finished - recession_now


def lash_after(lash_found: float, recession_finished: float, recession_now: float) -> float:
    """Lash at the valve when finished [mm]: lash − (R_finished − R_now); negative holds the valve open.

    `lash_found` [mm]; `recession_finished`, `recession_now` [mm]. Source: as `tip_after`.

    >>> round(lash_after(0.30, 0.90, 0.70), 2)
    0.1
    """
    return lash_found - (recession_finished - recession_now)


def limits_after_skim(least: float, most: float, skim: float) -> tuple[float, float]:
    """Limits of recession after a skim, where the greatest is one of the valve train [mm].

    The most falls by the skim. The least keeps the valve off the piston and never moves.
    `least`, `most` [mm]; `skim`: along the stem [mm].
    Raises ValueError for a negative skim or when nothing is left. Source: handbook, section 12; M110 job 05-291 [S83].

    >>> low, high = limits_after_skim(0.45, 0.90, 0.20)
    >>> round(low, 2), round(high, 2)
    (0.45, 0.7)
    """
    if not skim >= 0:
        raise ValueError(f"a skim takes metal off and cannot be negative: {skim}")
    if not most - skim >= least:
        raise ValueError(f"a skim of {skim} leaves nothing between {least} and {most}")
    return least, most - skim


def tip_window(recession_now: float, tip_found: float, least: float, most: float, grind_most: float = 0.0) -> Window:
    """Recessions at which the tip stands within its limits [mm], ground by `grind_most` at most.

    R_now + least − tip_found  to  R_now + most + grind_most − tip_found

    `recession_now`, `tip_found` [mm]; `least`, `most`: limits of the tip height, an open side infinite [mm];
    `grind_most`: what may come off the tip, 0 where nothing is said [mm]. Raises ValueError for crossed limits or a
    negative grind. Source: handbook, section 12.

    >>> window = tip_window(0.70, 41.20, 40.95, 41.45)
    >>> round(window.least, 2), round(window.most, 2)
    (0.45, 0.95)
    """
    return _height_window("tip", recession_now, tip_found, least, most, grind_most)


def spring_window(
    recession_now: float, spring_found: float, least: float, most: float, shims_most: float = 0.0
) -> Window:
    """Recessions at which the spring has its installed height [mm], with shims of `shims_most` together at most.

    R_now + least − spring_found  to  R_now + most + shims_most − spring_found

    `recession_now`, `spring_found` [mm]; `least`, `most`: limits of the installed height, an open side infinite [mm];
    `shims_most`: greatest stack the shop allows [mm]. A stack may not come in every thickness: `shims_for` decides.
    Raises ValueError for crossed limits or a negative stack. Source: handbook, section 12.

    >>> window = spring_window(0.70, 38.00, 37.7, 38.3, 0.4)
    >>> round(window.least, 2), round(window.most, 2)
    (0.4, 1.4)
    """
    return _height_window("spring", recession_now, spring_found, least, most, shims_most)


def _height_window(name: str, recession_now: float, found: float, least: float, most: float, slack: float) -> Window:
    if not least <= most:
        raise ValueError(f"the least {name} height ({least}) is over the most ({most})")
    if not slack >= 0:
        raise ValueError(f"what brings a {name} back cannot be negative: {slack}")
    return Window(name, recession_now + least - found, recession_now + most + slack - found)


def aim_of_recession(windows: Sequence[Window]) -> Aim:
    """The middle of what all windows allow together, the more important first.

    A window that would leave nothing gives way and is named; so put recession first (the piston), then tip, then
    spring. `windows`: at least one [mm]. Raises ValueError for none, or a window with crossed sides.
    Source: handbook, section 12.

    >>> aim_of_recession([Window("recession", 0.5, 0.9), Window("tip", 0.6, 1.1)])
    Aim(aim=0.75, least=0.6, most=0.9, gives_way=())
    >>> aim_of_recession([Window("recession", 0.5, 0.9), Window("tip", 1.0, 1.3)]).gives_way
    ('tip',)
    """
    if not windows:
        raise ValueError("there is no limit of recession, tip or spring to aim by")
    least, most = windows[0].least, windows[0].most
    gives_way: list[str] = []
    for window in windows:
        if not window.least <= window.most:
            raise ValueError(f"{window.name}: the least ({window.least}) is over the most ({window.most})")
        low, high = max(least, window.least), min(most, window.most)
        if low <= high:
            least, most = low, high
        else:
            gives_way.append(window.name)
    closed = least != -math.inf and most != math.inf
    return Aim((least + most) / 2 if closed else None, least, most, tuple(gives_way))


def shims_for(
    spring_height: float, least: float, most: float, shims: Sequence[float], limit: float
) -> tuple[float, ...] | None:
    """Shims that bring an installed height between its limits [mm]: the fewest, then nearest to the middle.

    `spring_height`: without shims [mm]; `least`, `most`: limits [mm]; `shims`: thicknesses on the shelf, any number of
    each [mm]; `limit`: greatest stack [mm]. No shims is the empty answer; None when no stack will do.
    Raises ValueError for a shim without thickness or crossed limits. Source: handbook, section 12.

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
