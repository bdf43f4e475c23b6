"""The one sentence that a machinist asks for: what to bore, and what that rests on."""

from __future__ import annotations

from collections.abc import Mapping

from seatwright.planning.basis.wording import length, said, span_inside, span_of
from seatwright.planning.plan import Plan, Status, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.told.derivation import in_units_of

_OF_THE_BORE = ("bore", "interference", "insert")
_STILL_BORED = frozenset({Status.TO_BORE, Status.BORE_AGAIN})


def in_short(plan: Plan, valve: ValvePlan, figures: Mapping[str, Figure], asked: str | None) -> str:
    """`Bore E1 33.404 to 33.428 mm because the ring is 33.498 mm and its fit 0.070 to 0.095 mm (…).`

    figures: those that were asked for, by their path. asked: the path; None for the whole valve. Limits of a bore are
    rounded inwards. A valve on hold says why instead. "" where there is nothing to say.
    """
    of_the_bore = asked is None or asked.partition(".")[0] in _OF_THE_BORE
    if of_the_bore and valve.holds:
        # No figure beside a hold: it would be cut by.
        return f"{valve.name} is on hold: {valve.holds[0].text}"
    if of_the_bore:
        return _bore(plan, valve)
    one = next(iter(figures.values()), None)
    if len(figures) != 1 or one is None:
        return ""
    rests = [f"{each.symbol} {in_units_of(plan.job, each)}" for each in one.inputs]
    because = f" because of {', '.join(rests)}" if rests else ""
    return f"{asked} of {valve.name} is {in_units_of(plan.job, one)}{because}."


def _bore(plan: Plan, valve: ValvePlan) -> str:
    job, bore, fit = plan.job, valve.bore, valve.interference
    if bore is None or fit is None:
        return ""
    least, most = bore.bench_least.value, bore.bench_most.value
    limits = span_inside(job, least, most) if least < most else length(job, most)
    ring = _ring(plan, valve)
    source = f" ({fit.source})" if fit.source else ""
    to_do = f"Bore {valve.name}" if valve.status in _STILL_BORED else f"The bore of {valve.name} was to be"
    return (
        f"{to_do} {limits} because the ring is {ring} and its fit "
        f"{span_of(job, fit.least.value, fit.most.value)}{source}."
    )


def _ring(plan: Plan, valve: ValvePlan) -> str:
    insert = valve.insert
    rests = valve.bore.most.walk() if valve.bore is not None else ()
    measured = next((each for each in rests if each.symbol == "insert_od" and each.origin), None)
    if measured is not None:
        return said(plan.job, measured)
    if insert is not None and insert.od is not None:
        return length(plan.job, insert.od.value)
    if insert is not None and insert.od_least is not None and insert.od_most is not None:
        return span_of(plan.job, insert.od_least.value, insert.od_most.value)
    return "to be turned to it"
