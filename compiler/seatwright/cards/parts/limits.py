"""Cells of limits: least above most, what is inside whatever the gauge is out, what clearance a guide may have."""

from __future__ import annotations

from seatwright.cards.escape import Markdown
from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import Shown, digits_shown, shown
from seatwright.cards.parts.words import NONE
from seatwright.job.model import Job
from seatwright.planning.basis import instruments
from seatwright.planning.plan import ValvePlan
from seatwright.planning.plan.figure import Figure

NEVER = "never: measure twice"


def stacked(pair: tuple[Shown, Shown] | None, *, strong: bool = False) -> Markdown:
    """Two limits, which a narrow column sets above each other."""
    if pair is None:
        return Markdown(NONE)
    form = "**{}** **{}**" if strong else "{} {}"
    return Markdown(form).format(pair[0].text, pair[1].text)


def certain_of(job: Job, valve: ValvePlan) -> tuple[Shown, Shown] | str | None:
    """Between which readings the bore is inside, whatever the gauge is out; None where that is not known.

    Where no graduation of the gauge lies between them, no reading is.
    """
    bore = valve.bore
    if bore is None or bore.accept_least is None or bore.accept_most is None:
        return None
    gauge = instruments.bore_gauge(job)
    low, high = shown(bore.accept_least, gauge, "up"), shown(bore.accept_most, gauge, "down")
    return (low, high) if float(low.text) <= float(high.text) else NEVER


def allowed(job: Job, valve: ValvePlan) -> str:
    """What clearance a guide may have: `0.020 to 0.110`, `most 0.110`."""
    guide = valve.guide
    most = guide.wear_limit or guide.most
    if guide.least is not None and most is not None:
        return f"{bench_length(job, guide.least)} to {bench_length(job, most)}"
    if most is not None:
        return f"most {bench_length(job, most)}"
    return f"least {bench_length(job, guide.least)}" if guide.least is not None else NONE


def bench_length(job: Job, figure: Figure | None) -> str:
    """A length that no instrument of the shop reads, as all cards print it."""
    return digits_shown(figure, figures.bench(job)) if figure is not None else NONE
