"""What a verdict on a cut bore means for what comes next (handbook 11): what stands, and what is still to be bored."""

from __future__ import annotations

from msgspec import Struct

from seatwright.handbook import uncertainty as sums
from seatwright.job.model import Job
from seatwright.planning.basis.wording import length
from seatwright.planning.plan import Judged, Pocketed, Status
from seatwright.planning.plan.figure import Figure

# A verdict is the word for how its valve then stands. What boring to its own size does not put right has none: a bore
# that is big, and one that, twice measured, is out of form or too deep.
ACCEPTED, MEASURE_AGAIN, REWORK = Status.ACCEPTED, Status.MEASURE_AGAIN, Status.BORE_AGAIN
BIG, STOP = "big", "stop"

_OF_BORE = {"accepted": ACCEPTED, "cannot-be-told": MEASURE_AGAIN, "small": REWORK, "big": BIG}
_NO_LIMIT = 1e6
"""A bore that has no upper limit, since the insert follows it, is held against this [mm]."""


class BoreLimits(Struct, frozen=True):
    """What a bore is judged by, at 20 °C: its limits, guard and standard uncertainty of acceptance.

    most : None where the blank is turned to whatever the bore comes to
    u : None without a bore gauge; then the bare limits count
    """

    least: Figure
    most: Figure | None
    guard: Figure
    u: Figure | None

    @property
    def drawn(self) -> float:
        """How far a limit is drawn in, and how far beyond it nothing can be told [mm]."""
        return 0.0 if self.u is None else self.guard.value * self.u.value

    def verdict(self, bore: float) -> str:
        """accepted, measure-again, bore-again for a bore that is small, or big."""
        most = max(_NO_LIMIT, self.least.value) if self.most is None else self.most.value
        if most < self.least.value:
            return MEASURE_AGAIN  # an insert known too loosely for its fit: no bore can be told from another
        u = 0.0 if self.u is None else self.u.value
        return _OF_BORE[sums.verdict(bore, self.least.value, most, self.guard.value, u)]

    def settled(self, bore: float) -> str:
        """The verdict when a second reading does not tell either: small at the small limit, big at the big one, so that
        no bore waits for ever; measure-again only where no bore at all could be accepted."""
        first = self.verdict(bore)
        if first != MEASURE_AGAIN or self.none_accepted:
            return first
        return REWORK if self.most is None or bore < (self.least.value + self.most.value) / 2 else BIG

    @property
    def none_accepted(self) -> bool:
        """Whether insert and gauge are known too loosely for any bore to be accepted."""
        return self.most is not None and self.most.value - self.least.value < 2 * self.drawn


def still_to_bore(plan: Pocketed) -> bool:
    """Whether the cutter has still to be set for this valve: planned, or bored and small or shallow."""
    return plan.bore is not None and plan.status in (Status.TO_BORE, Status.BORE_AGAIN)


def to_cut_again(plan: Judged) -> bool:
    """Whether the cutter goes into this pocket once more: it was bored, and is small or shallow."""
    return plan.bore is not None and plan.cut is not None and plan.cut.verdict == REWORK


def fine(job: Job, mm: float) -> str:
    """A length where the last thousandth of a millimetre decides: one digit more than at the bench."""
    return length(job, mm, 5 if job.units == "inch" else 4)
