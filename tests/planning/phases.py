"""Valves made by hand, brought to the phase that a stage takes."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.planning.plan import Phase, Started


def at(phase: type[Phase], plans: Iterable[Started]) -> tuple[Phase, ...]:
    """The valves as they stand in this phase: what later ones find is left out."""
    return tuple(phase(**{name: getattr(plan, name) for name in phase.__struct_fields__}) for plan in plans)
