"""What to do with a bore once it is measured: inside, cannot be told, small, big."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.cards import figures
from seatwright.cards.card import Table
from seatwright.cards.figures import shown
from seatwright.cards.setting_tables import certain_of
from seatwright.cards.words import bold
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
    form = [f"{what} not over {shown(most, bench)}" for what, most in limits_of_form if most is not None]
    doubt = "between what is inside for certain and the limit. Let it cool, clean it, gauge on its ring, measure again."
    aims = _aims(job, setting, bored)
    small = f"open by {aims}, less measured, {half}, and take the wall again. Never open past that aim."
    found = [
        ("Inside:", "write it down and go on to the next valve."),
        ("Cannot be told:", doubt),
        ("Small:", small),
        ("Big:", f"stop. {_if_big(bored)} No punching and no locking compound."),
    ]
    if form:
        wrong = f"{'; '.join(form)}. Else stop: pilot, level and tip, in this order."
        found.append(("Out of round, tapered, not square:", wrong))
    if all(certain_of(job, valve) is None for valve in bored):
        found.pop(1)
    return tuple(found)


def _aims(job: Job, setting: Setting, bored: Sequence[ValvePlan]) -> str:
    """Whose aim, and which figure: the setting's, since its tip cuts the other bores too; of a bore with a trial cut
    of its own, its own."""
    gauge = figures.bore_gauge(job)
    aim = f"the aim of this setting, {shown(setting.bench_aim or setting.aim, gauge)}"
    own = [
        f"in {valve.name} its own, {shown(valve.bore.bench_aim, gauge)}"
        for valve in bored
        if valve.trial_here and valve.bore is not None
    ]
    return ", ".join((aim, *own))


def _if_big(bored: Sequence[ValvePlan]) -> str:
    """The way on, where it is the same for all; else where it stands."""
    ways = {_way_on(valve.if_big) for valve in bored}
    return f"Then, in this order: {ways.pop()}." if len(ways) == 1 else "Go by the table below, in its order."


def if_big(bored: Sequence[ValvePlan]) -> tuple[Table, ...]:
    """The way on where a bore came out big, valve by valve; nothing where it is the same for all."""
    rows = tuple((bold(valve.name), _way_on(valve.if_big)) for valve in bored if valve.bore is not None)
    if len({way for _, way in rows}) < 2:
        return ()
    return (Table(("Valve", "If big"), rows, "Each valve"),)


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
