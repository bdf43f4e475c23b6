"""How the machine runs: speed, feed, time and passes, valves that run alike together."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import Shown, digits_shown, plain_number
from seatwright.handbook import MM_PER_INCH
from seatwright.job.model import Job
from seatwright.planning.basis import instruments
from seatwright.planning.plan import ValvePlan


class Running(Struct, frozen=True):
    """How some valves are bored. shown: speed and feed as figures; more: sentences."""

    valves: tuple[str, ...]
    shown: tuple[Shown, ...]
    more: tuple[str, ...]

    @property
    def said(self) -> str:
        """All of it in a line."""
        return ", ".join((*(str(each) for each in self.shown), *self.more))


def running(job: Job, bored: Sequence[ValvePlan], *, passes: bool) -> tuple[Running, ...]:
    """The groups that run alike; () where nothing of it is known. passes: said too, where no other box does."""
    groups: dict[tuple[tuple[Shown, ...], tuple[str, ...]], list[str]] = {}
    for valve in bored:
        groups.setdefault((tuple(_dials(job, valve)), tuple(_more(job, valve, passes=passes))), []).append(valve.name)
    return tuple(Running(tuple(names), dials, more) for (dials, more), names in groups.items() if dials or more)


def _dials(job: Job, valve: ValvePlan) -> list[Shown]:
    found = [Shown(plain_number(valve.rpm.value, 1), "rpm")] if valve.rpm is not None else []
    feed = valve.feed_mm_rev
    if feed is not None:
        inch = instruments.job_unit(job) == "in"
        size = figures.as_typed(feed, "in" if inch else "mm") or plain_number(
            feed.value / (MM_PER_INCH if inch else 1), 5 if inch else 3
        )
        found.append(Shown(size, "in/rev" if inch else "mm/rev"))
    return found


def _more(job: Job, valve: ValvePlan, *, passes: bool) -> list[str]:
    found = []
    if valve.feed_mm_rev is None and job.machine is not None and job.machine.feeds_by_hand is not None:
        found.append("Feed by hand, slow and even.")
    if valve.minutes is not None:
        found.append(f"Cutting time {plain_number(valve.minutes.value, 1)} min.")
    elif valve.turns is not None:
        found.append(f"{plain_number(valve.turns.value, 0)} turns of the spindle.")
    if passes and len(valve.passes) > 1:
        sizes = ", ".join(digits_shown(size, figures.bench(job)) for size in valve.passes)
        found.append(f"Passes out to {sizes} {instruments.job_unit(job)}.")
    return found
