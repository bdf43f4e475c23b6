"""What cards say of a head's engine: which it is and where its limits are printed, and what the job overrides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from seatwright.cards.parts.words import all_or
from seatwright.job.model import Engine, Head, Overridden
from seatwright.planning.plan import Plan, ValvePlan


def engine_of_head(plan: Plan, head: Head) -> Engine | None:
    """The engine that a head is of, None for one of none."""
    return next((one for one in plan.job.engines if one.name == head.engine), None)


def engine_named(engine: Engine) -> str:
    """`TC3, three cylinder, overhaul manual 3, 2014-06-01`."""
    return ", ".join(part for part in (engine.name, engine.text, engine.source, engine.date) if part)


def in_place_of_maker(head: Head, valves: Sequence[ValvePlan]) -> Iterator[str]:
    """What the job says in place of the maker, both figures, and for which valves."""
    for one in head.overridden:
        yield _said(one)
    whose: dict[str, list[str]] = {}
    for valve in valves:
        of = valve.valve.of_engine
        for one in of.overridden if of is not None else ():
            whose.setdefault(_said(one), []).append(valve.name)
    every = [valve.name for valve in valves]
    for said, names in whose.items():
        yield f"{said} ({all_or(names, every)})"


def _said(one: Overridden) -> str:
    word = one.field.replace("-", " ")
    if one.reason:
        return f"{word}: the maker's {one.engine} is not used, {one.reason}"
    return f"{word} {one.job} in place of the maker's {one.engine}"
