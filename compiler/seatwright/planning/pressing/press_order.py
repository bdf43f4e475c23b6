"""In which order the inserts of a head go in."""

from __future__ import annotations

from collections.abc import Mapping

from seatwright.planning.plan import AssemblyPlan


def press_order(ways: Mapping[str, AssemblyPlan]) -> dict[str, int]:
    """The place of each valve on the press card, from 1.

    ways : by valve, in the order of the head

    What goes into the hottest head comes first, since heat would loosen what went in cold; of those the one with least
    clearance, since the head cools all the while; then as they stand in the head. Common practice, no source.
    """
    names = sorted(ways, key=lambda name: (-ways[name].head_C.value, round(ways[name].clearance.value, 6)))
    return {name: place for place, name in enumerate(names, start=1)}
