"""Built-in surface speeds: general tables for drills and reamers, not for a cutter on a long pilot.

The card names whose figure it is; the shop's own `surface-speed` or `top-speed` comes first.
"""

from __future__ import annotations

from msgspec import Struct

__all__ = ["SURFACE_SPEEDS", "SurfaceSpeed", "built_in_speed"]


class SurfaceSpeed(Struct, frozen=True):
    """Surface speed [m/min] that a published table gives for a head material and a tip (hss, carbide)."""

    head: str
    tip: str
    speed: float
    source: str


_FOOT = 0.3048
_BOOK = "a machinist's reference book, ferrous cast metals"
_CHART = "a shop chart of cutting speeds"

# The chart is the slower of two tables that disagree on grey iron (50 against 80 to 90 ft/min). For ductile iron only
# the reaming row of a reference book was found; its carbide figure is for reamers and is left out. Nothing on
# compacted iron, and nothing on cbn.
SURFACE_SPEEDS: tuple[SurfaceSpeed, ...] = (
    SurfaceSpeed("grey iron", "hss", 50 * _FOOT, f"{_CHART}, iron, 50 ft/min"),
    SurfaceSpeed("grey iron", "carbide", 100 * _FOOT, f"{_CHART}, iron, 50 ft/min doubled for carbide"),
    SurfaceSpeed("ductile iron", "hss", 45 * _FOOT, f"{_BOOK}, HB 190-225, reaming"),
    SurfaceSpeed("aluminium", "hss", 300 * _FOOT, f"{_CHART}, aluminium, 300 ft/min"),
    SurfaceSpeed("aluminium", "carbide", 600 * _FOOT, f"{_CHART}, aluminium, 300 ft/min doubled for carbide"),
)


def built_in_speed(head: str, tip: str) -> SurfaceSpeed | None:
    """The built-in surface speed [m/min] for `head` and `tip`, or None where no table gives one.

    Raises no error. Source: a shop chart of cutting speeds, and a machinist's reference book, as each row says.

    >>> row = built_in_speed("grey iron", "hss")
    >>> row is not None and round(row.speed, 2)
    15.24
    >>> built_in_speed("compacted iron", "carbide") is None
    True
    """
    for row in SURFACE_SPEEDS:
        if row.head == head and row.tip == tip:
            return row
    return None
