"""What to do next with a job, in a few lines: holds and what lifts them, what to measure next, what to cut next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from seatwright.cards.parts.standing import takers, wait
from seatwright.planning.plan import Plan, Status, ValvePlan

MOST = 5
"""So many lines at most."""


def to_do(plan: Plan) -> tuple[str, ...]:
    """The next steps, the most pressing first; () where nothing is left to do."""
    awaited = takers(plan.valves)
    waiting = [valve for valve in plan.valves if wait(awaited, valve)]
    free = tuple(valve for valve in plan.valves if valve not in waiting)
    work = (*_measure(free), *_wait(awaited, waiting), *_cut(free), *_finish(free))[: MOST - 1]
    held = list(_lift(plan))
    room = MOST - len(work)
    if len(held) > room:
        beyond = len(held) - room + 1
        held = [*held[: room - 1], f"Lift {beyond} more holds: see the table."]
    return (*held, *work)


def _lift(plan: Plan) -> Iterator[str]:
    """One line a kind of hold: whose, and the way out."""
    kinds: dict[tuple[str, str], list[str]] = {}
    for valve in plan.valves:
        for hold in valve.holds:
            kinds.setdefault((hold.slug, first_sentence(hold.help)), []).append(valve.name)
    for (slug, help), names in kinds.items():
        yield f"Lift {slug} of {' '.join(names)}: {help}"


def _measure(valves: Sequence[ValvePlan]) -> Iterator[str]:
    if names := _names(valves, Status.NOT_PLANNED):
        yield f"Measure {names} by the as-found sheet, write it in and say which inserts: nothing is planned there yet."
    first = [valve for valve in valves if valve.status is Status.GUIDE_FIRST]
    if renew := " ".join(valve.name for valve in first if valve.guide_to_renew):
        yield f"Renew the guide of {renew}: guides card; then measure it and the pocket from it."
    if guides := " ".join(valve.name for valve in first if not valve.guide_to_renew):
        yield f"Measure the new guide of {guides}, and build again."
    again = [valve for valve in valves if valve.status is Status.MEASURE_AGAIN]
    bored, found = ([valve.name for valve in again if (valve.cut is None) is how] for how in (False, True))
    if found:
        yield f"Measure the pocket of {' '.join(found)} again as found, cold and clean."
    if bored:
        yield f"Measure the bore of {' '.join(bored)} again, cold and clean, before any more is cut."


def _wait(awaited: Mapping[str, Sequence[str]], waiting: Sequence[ValvePlan]) -> Iterator[str]:
    """Those that must not be gone on with, since a bore that came out big may take their insert."""
    names = [valve.name for valve in waiting]
    if names:
        for_whom = dict.fromkeys(taker for name in names for taker in awaited[name])
        yield f"Wait with {' '.join(names)}: {' or '.join(for_whom)} may take the insert; settle that first."


def _cut(valves: Sequence[ValvePlan]) -> Iterator[str]:
    for status, word in ((Status.BORE_AGAIN, "Bore again"), (Status.TO_BORE, "Bore")):
        if bored := [valve for valve in valves if valve.status is status]:
            yield f"{word} {', then '.join(_by_setting(bored))}."
    if names := _names(valves, Status.OVERSIZE):
        yield f"Build again for the next size of {names} before anything is cut there."


def _by_setting(valves: Sequence[ValvePlan]) -> Iterator[str]:
    """The valves of each setting together, in the order in which the settings are made."""
    groups: dict[int | None, list[str]] = {}
    for valve in sorted(valves, key=lambda each: (each.setting is None, each.setting or 0)):
        groups.setdefault(valve.setting, []).append(valve.name)
    return (" ".join(names) for names in groups.values())


def _finish(valves: Sequence[ValvePlan]) -> Iterator[str]:
    accepted = [valve for valve in valves if valve.status is Status.ACCEPTED]
    press = [valve.name for valve in accepted if valve.finished is None]
    press += [valve.name for valve in valves if valve.status is Status.KEPT]
    if press:
        yield f"Press the insert of {' '.join(press)}: press card."
    if names := _names(valves, Status.TO_CUT):
        yield f"Cut the seat of {names}: seat card."
    if measured := [valve.name for valve in accepted if valve.finished is not None]:
        yield f"Finish {' '.join(measured)}: what is missing or fails is on the record."


def _names(valves: Sequence[ValvePlan], status: Status) -> str:
    return " ".join(valve.name for valve in valves if valve.status is status)


def first_sentence(text: str) -> str:
    """Up to the first stop that ends one."""
    head, stop, _ = text.partition(". ")
    return head + stop.rstrip()
