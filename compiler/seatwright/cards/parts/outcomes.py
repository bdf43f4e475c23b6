"""What to do with a bore once it is measured: inside, in between, small, big, out of round."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import digits_shown
from seatwright.cards.parts.limits import certain_of
from seatwright.cards.parts.words import valves
from seatwright.job.model import Job
from seatwright.planning.basis import instruments
from seatwright.planning.plan import IfBig, Setting, ValvePlan


def outcomes(job: Job, setting: Setting, bored: Sequence[ValvePlan]) -> tuple[tuple[str, str], ...]:
    """The outcomes and what each calls for, in the order in which they are looked at."""
    half = {"radius": "half on the needle", "diameter": "all on the needle"}.get(
        setting.indicator or "", "half on radius"
    )
    aim = digits_shown(setting.bench_aim or setting.aim, instruments.bore_gauge(job))
    found = [("Inside", _inside(job))]
    if any(certain_of(job, valve) is not None for valve in bored):
        found.append(("In between", "No cut. Cool, clean, ring, measure again."))
    found.append(("Small", f"Open by {aim}{_own(job, bored)} − measured, {half}. Never past {aim}."))
    found.append(("Big", f"Stop. {_if_big(bored)} No staking."))
    practice = job.shop.practice
    limits = (("round", practice.bore_round), ("taper", practice.bore_taper), ("floor", practice.floor_square))
    form = [f"{what} {digits_shown(most, figures.bench(job), 'down')}" for what, most in limits if most is not None]
    if form:
        found.append(("Out of round", f"Over {', '.join(form)}: stop. Pilot, level, tip."))
    return tuple(found)


def _inside(job: Job) -> str:
    """The rule of the program: the mean carries the fit, and each reading may lie half of `bore-round` beyond."""
    if (most := job.shop.practice.bore_round) is None:
        return "Mean of all: next pocket."
    half = digits_shown(most.value / 2, figures.bench(job), "down")
    return f"Mean of all, each reading ±{half}: next."


def _own(job: Job, bored: Sequence[ValvePlan]) -> str:
    """Of a bore with a trial cut of its own, its own aim."""
    gauge = instruments.bore_gauge(job)
    own = [
        f"{valve.name} {digits_shown(valve.bore.bench_aim, gauge)}"
        for valve in bored
        if valve.trial_here and valve.bore is not None
    ]
    return f" ({', '.join(own)})" if own else ""


def _if_big(bored: Sequence[ValvePlan]) -> str:
    """The way on; where it is not the same for all, valve by valve."""
    ways: dict[str, list[str]] = {}
    for valve in bored:
        ways.setdefault("; ".join(_said(way) for way in valve.if_big if way.do != "measure-again"), []).append(
            valve.name
        )
    if len(ways) == 1:
        return f"Measure again; {next(iter(ways)) or 'hold'}."
    said = " ".join(f"{valves(names)}: {way or 'hold'}." for way, names in ways.items())
    return f"Measure again. {said}"


def _said(way: IfBig) -> str:
    return {
        "insert": f"another {way.insert} that fits" if way.insert else "another insert that fits",
        "turned": "a turned ring",
        # Without its bore: that is meant at 20 °C, and a figure on a card is one to cut by.
        "oversize": f"oversize {way.insert}, build again" if way.insert else "the next oversize",
        "hold": "hold",
    }[way.do]
