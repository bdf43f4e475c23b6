"""A share of a budget that somebody stated as an uncertainty (handbook 11)."""

from __future__ import annotations

import math

from seatwright.job.model import Spread
from seatwright.planning.plan.figure import Figure, Origin, computed

_SOURCE = "handbook 11, JCGM 100:2008"
_HALF_WIDTH = "handbook 11, JCGM 100:2008, 4.3.7"


def share(name: str, spread: Spread, what: str) -> Figure:
    """A share stated as an uncertainty: standard, or never further off than ±."""
    stated, divisor = stated_as(name, spread)
    source = _HALF_WIDTH if spread.rectangular else _SOURCE
    return computed(f"u_{name}", "mm", spread.value, f"{stated.symbol}{divisor}", (stated,), source, what)


def stated_as(name: str, spread: Spread) -> tuple[Figure, str]:
    """The uncertainty as its owner stated it, and the divisor that makes it a standard one."""
    origin = Origin(spread.typed, spread.span)
    if spread.rectangular:
        return Figure(spread.value * math.sqrt(3), "mm", f"half_{name}", origin=origin), " / sqrt(3)"
    return Figure(spread.value, "mm", f"s_{name}", origin=origin), ""
