"""What to do with a bore once it is measured: inside, cannot be told, small, big."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.cards import figures
from seatwright.cards.card import Table
from seatwright.cards.figures import limits, shown
from seatwright.cards.words import NONE, bold, span
from seatwright.job.model import Job
from seatwright.planning.plan import IfBig, Setting, ValvePlan


def outcomes(job: Job, setting: Setting, bored: Sequence[ValvePlan]) -> tuple[tuple[str, str], ...]:
    """The four outcomes and what each calls for, in the order in which they are looked at."""
    half = "half of that on the needle" if setting.indicator == "radius" else "that on the needle"
    if setting.indicator is None:
        half = "half of that on radius"
    practice = job.shop.practice
    limits_of_form = (
        ("largest less smallest at one height", practice.bore_round),
        ("rim against low", practice.bore_taper),
        ("depths apart", practice.floor_square),
    )
    bench = figures.bench(job)
    form = [f"{what} not over {shown(most.value, bench)}" for what, most in limits_of_form if most is not None]
    doubt = "between what is inside for certain and the limit. Let it cool, clean it, gauge on its ring, measure again."
    found = [
        ("Inside:", "write it down and go on to the next valve."),
        ("Cannot be told:", doubt),
        ("Small:", f"open by aim less measured, {half}, and take the wall again. Never open past the aim."),
        ("Big:", f"stop. {_if_big(bored)} No punching and no locking compound."),
    ]
    if form:
        wrong = f"{'; '.join(form)}. Else stop: pilot, level and tip, in this order."
        found.append(("Out of round, tapered, not square:", wrong))
    if all(_certain(job, valve) is None for valve in bored):
        found.pop(1)
    return tuple(found)


def _if_big(bored: Sequence[ValvePlan]) -> str:
    """The way on, where it is the same for all; else where it stands."""
    ways = {_way_on(valve.if_big) for valve in bored}
    return f"Then, in this order: {ways.pop()}." if len(ways) == 1 else "Go down the last column below, in its order."


def judging(job: Job, bored: Sequence[ValvePlan]) -> tuple[Table, ...]:
    """Each valve's aim, where it is inside for certain, and the way on where it came out big."""
    unit = figures.bore_gauge(job).unit
    rows: list[tuple[str, ...]] = []
    for valve in bored:
        if valve.bore is None:
            continue
        aim = shown(valve.bore.bench_aim, figures.bore_gauge(job)).text
        rows.append((bold(valve.name), aim, _certain(job, valve) or NONE, _way_on(valve.if_big)))
    head: tuple[str, ...] = ("Valve", f"Aim {unit}", f"Inside for certain {unit}", "If big")
    wanted = [0, 1]
    if any(row[2] != NONE for row in rows):
        wanted.append(2)
    if len({row[3] for row in rows}) > 1:
        wanted.append(3)
    chosen = tuple(tuple(row[column] for column in wanted) for row in rows)
    return (Table(tuple(head[column] for column in wanted), chosen, "Each valve"),) if rows else ()


def _certain(job: Job, valve: ValvePlan) -> str | None:
    bore = valve.bore
    if bore is None or bore.accept_least is None or bore.accept_most is None:
        return None
    if bore.accept_least.value > bore.accept_most.value:
        return "never: measure twice"
    return span(limits(bore.accept_least, bore.accept_most, figures.bore_gauge(job)))


def _way_on(ways: Sequence[IfBig]) -> str:
    said = [_said(way) for way in ways]
    return ", then ".join(said) if said else "measure again, then hold"


def _said(way: IfBig) -> str:
    return {
        "measure-again": "measure again",
        "insert": f"insert {way.insert}, if its own od fits" if way.insert else "another insert whose own od fits",
        "turned": "a ring turned to the bore",
        # Without its bore: that is meant at 20 °C, and a figure on a card is one to cut by.
        "oversize": f"oversize {way.insert} (build again for its bore)" if way.insert else "the next oversize",
        "hold": "hold",
    }[way.do]
