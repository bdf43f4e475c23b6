"""The tables of a setting card: how the machine runs, the bores in order, the full set of readings."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.cards import figures
from seatwright.cards.card import Table
from seatwright.cards.figures import limits, plain, shown
from seatwright.cards.words import NONE, blank, bold, bold_limits, bore_limits, depth_limits, span, valves
from seatwright.handbook import MM_PER_INCH
from seatwright.job.model import Job
from seatwright.planning.plan import ValvePlan

ONE_PASS = "one pass"


def running(job: Job, bored: Sequence[ValvePlan]) -> Table | None:
    """Speed, feed, time and passes, valves that run alike on one line; None where none of it is known."""
    groups: dict[tuple[str, ...], list[str]] = {}
    for valve in bored:
        groups.setdefault((_speed(valve), _feed(job, valve), _time(valve), _passes(job, valve)), []).append(valve.name)
    rows = tuple((valves(names), *words) for words, names in groups.items())
    if all(valve.rpm is None and valve.feed_mm_rev is None and not valve.passes for valve in bored):
        return None
    return Table(("Valves", "Speed", "Feed", "Cutting time", f"Passes out to {figures.bench(job).unit}"), rows)


def order(job: Job, bored: Sequence[ValvePlan]) -> Table:
    """The valves in the order in which they are bored, each with its limits, and blanks for what was read."""
    bore, depth = figures.bore_gauge(job).unit, figures.depth_gauge(job).unit
    certain = any(certain_of(job, valve) is not None for valve in bored)
    head = (
        *("Valve", f"Bore {bore}", *(["Inside for certain"] if certain else []), "Largest", "Smallest"),
        *("Pilot", f"Depth {depth}", "Depth cut", "Initial"),
    )
    return Table(head, tuple(_row(job, valve, certain) for valve in bored))


def full_set(bored: Sequence[ValvePlan]) -> Table:
    """Blanks under the words of `cut`, for the first and the last bore and one more."""
    head = ("Valve", "bore-a", "bore-b", "bore-low-a", "bore-low-b", "depth-a", "depth-b", "depth-c", "depth-d")
    names = dict.fromkeys((bored[0].name, bored[-1].name))
    rows = [*(bold(name) for name in names), blank(3)]
    return Table(head, tuple((name, *(blank(4) for _ in head[1:])) for name in rows))


def certain_of(job: Job, valve: ValvePlan) -> str | None:
    """Between which readings the bore is inside, whatever the gauge is out; None where that is not known."""
    bore = valve.bore
    if bore is None or bore.accept_least is None or bore.accept_most is None:
        return None
    if bore.accept_least.value > bore.accept_most.value:
        return "never: measure twice"
    return span(limits(bore.accept_least, bore.accept_most, figures.bore_gauge(job)))


def _row(job: Job, valve: ValvePlan, certain: bool) -> tuple[str, ...]:
    bore, depth = bold_limits(bore_limits(job, valve)), bold_limits(depth_limits(job, valve))
    pilot = valve.pilot.name if valve.pilot is not None and valve.pilot.name else NONE
    sure = [certain_of(job, valve) or NONE] if certain else []
    return (bold(valve.name), bore, *sure, blank(5), blank(5), pilot, depth, blank(5), blank(3))


def _speed(valve: ValvePlan) -> str:
    return f"{plain(valve.rpm.value, 1)} rpm" if valve.rpm is not None else NONE


def _feed(job: Job, valve: ValvePlan) -> str:
    feed = valve.feed_mm_rev
    if feed is not None:
        inch = figures.job_unit(job) == "in"
        return f"{plain(feed.value / MM_PER_INCH, 5)} in/rev" if inch else f"{plain(feed.value, 3)} mm/rev"
    by_hand = job.machine is not None and job.machine.feeds_by_hand is not None
    return "by hand, slow and even" if by_hand else NONE


def _time(valve: ValvePlan) -> str:
    if valve.minutes is not None:
        return f"{plain(valve.minutes.value, 1)} min"
    return f"{plain(valve.turns.value, 0)} turns" if valve.turns is not None else NONE


def _passes(job: Job, valve: ValvePlan) -> str:
    if len(valve.passes) < 2:
        return ONE_PASS
    return ", ".join(shown(size, figures.bench(job)).text for size in valve.passes)
