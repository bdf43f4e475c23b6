"""What a finished valve is held against, figure by figure, and what is said of one that misses it (handbook 13)."""

from __future__ import annotations

from msgspec import Struct

from seatwright.job.model import Finished, Head, Job, Limits, Reading
from seatwright.planning.basis.faces import below_limits
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, said
from seatwright.planning.plan import HeightLimits, Judged
from seatwright.planning.plan.figure import Figure, given
from seatwright.planning.seat.heights import heights
from seatwright.text.slugs import NoticeSlug, WarningSlug

_SLACK = 1e-9

_SLUGS: dict[str, tuple[WarningSlug, NoticeSlug]] = {
    "stand": ("stand-fails", "stand-not-judged"),
    "seat-tir": ("seat-tir-fails", "seat-tir-not-judged"),
    "seat-width": ("seat-width-fails", "seat-width-not-judged"),
    "recession": ("recession-fails", "recession-not-judged"),
    "stem-height": ("stem-height-fails", "stem-height-not-judged"),
    "spring-height": ("spring-height-fails", "spring-height-not-judged"),
    "leak": ("leak-fails", "leak-not-judged"),
}


class Check(Struct, frozen=True):
    """One column against its limits. word: the column. low, high: what to do when under the least, over the most."""

    word: str
    figure: Figure | None
    least: Figure | None
    most: Figure | None
    low: str
    high: str

    @property
    def limited(self) -> bool:
        return self.least is not None or self.most is not None

    def missed(self, figure: Figure) -> Figure | None:
        """The limit that a figure is beyond, the least first; None where it keeps both."""
        if self.least is not None and figure.value < self.least.value - _SLACK:
            return self.least
        return self.most if self.most is not None and figure.value > self.most.value + _SLACK else None


def checks(job: Job, head: Head, plan: Judged, found: Finished) -> tuple[Check, ...]:
    """Every figure that may be measured on a finished valve, in the order of the record, with its limits."""
    spec, seat = plan.valve.specification, plan.seat
    below = below_limits(job, head, plan) if plan.gets_insert else None
    least, most = below or ((plan.stand.least, plan.stand.most) if plan.stand is not None else (None, None))
    width = _two(spec.seat_width)
    # Where no seat is planned its heights have limits all the same; what there is to say of an aim is not asked for.
    planned = seat or heights(job, head, plan, Findings())
    recession, stem, spring = planned.recession, planned.stem, planned.spring
    return (
        Check(
            "stand", maybe("stand", found.stand), least, most,
            "It stands high: press it down again, warm, and feel all round; look for a chip or a burr under it.",
            "It stands low: look whether the pocket was cut too deep; a taller insert, if it has to come up.",
        ),
        Check(
            "seat-tir", maybe("seat_tir", found.seat_tir), None,
            None if spec.seat_runout is None else given("seat_runout", "mm", spec.seat_runout),
            "", "Look at the pilot's fit in the guide and at the guide itself, then take a light cut over the seat.",
        ),
        Check(
            "seat-width", maybe("seat_width", found.seat_width), *width,
            "A light pass with the seat cutter makes it wider, and sinks the valve.",
            "Narrow it from the top or from the throat, by where the contact stands on the valve's face.",
        ),
        Check(
            "recession", maybe("recession", found.recession), *_limits(recession),
            "The valve stands too near the piston: cut the seat deeper.",
            "The valve sits too deep: another valve with more margin, or another insert.",
        ),
        Check(
            "stem-height", maybe("stem_height", found.stem_height), *_limits(stem),
            "The stem stands low: cut the seat deeper if the recession allows.",
            "The stem stands high: grind it as far as `stem-grind-most` allows, else another valve or another insert.",
        ),
        Check(
            "spring-height", maybe("spring_height", found.spring_height), *_limits(spring),
            "The spring is short: take shims out.",
            "The spring is long: shim it, up to `shim-limit`.",
        ),
    )  # fmt: skip


def _two(limits: Limits | None) -> tuple[Figure | None, Figure | None]:
    if limits is None:
        return None, None
    least = None if limits.least is None else given("w_least", "mm", limits.least)
    most = None if limits.most is None else given("w_most", "mm", limits.most)
    return least, most


def _limits(limits: HeightLimits | None) -> tuple[Figure | None, Figure | None]:
    return (None, None) if limits is None else (limits.least, limits.most)


def maybe(symbol: str, reading: Reading | None) -> Figure | None:
    """A cell as a figure; None where it is empty."""
    return None if reading is None else given(symbol, "mm", reading)


def say_failed(job: Job, plan: Judged, check: Check, figure: Figure, limit: Figure, findings: Findings) -> None:
    """A figure beyond its limit, and what to do about it."""
    side = "least" if limit is check.least else "most"
    words = said(job, limit) if limit.origin is not None else length(job, limit.value)
    findings.warning(
        _SLUGS[check.word][0],
        f"`{check.word}` is {said(job, figure)}; {words} is the {side}.",
        check.low if limit is check.least else check.high,
        figure.origin.span if figure.origin else plan.valve.span,
        (plan.name,),
    )


def say_not_judged(word: str, plan: Judged, findings: Findings) -> None:
    """A figure that has no limit."""
    findings.unchecked(
        _SLUGS[word][1],
        f"`{word}` was measured on the finished head, and has no limit: it is on the record and was not judged.",
        "Give its limits under `valves`, or in the shop's `practice`.",
        None,
        (plan.name,),
    )
