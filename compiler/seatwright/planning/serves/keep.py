"""Whether a pocket may be kept as found and an insert simply pressed in (handbook 3).

It must be round, straight, true to the guide, undamaged, in the fit for an insert whose od is known, and of a depth
that lets the insert stand as wanted. Its fit is judged as that of a bore that was cut: freed of what the gauge shows
wrong on its ring, the mean inside the limits, drawn in by the guard. One that cannot be told is measured again. The
corner at its floor and the flatness of the floor cannot be read from a table: the card asks the hand to look.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from seatwright.handbook import pilots as pilot_sums
from seatwright.job.model import Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import BIG, MEASURE_AGAIN, REWORK, BoreLimits, fine
from seatwright.planning.basis.wording import length, said, span_of
from seatwright.planning.certainty import budgets
from seatwright.planning.certainty.uncertainty import guard_of
from seatwright.planning.found.brought_to_20 import PocketCell, pocket_cells
from seatwright.planning.plan import Depth, Found, Interference, Pocketed, into
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.bores import BoreWindow
from seatwright.planning.serves.candidates import Candidate, allowed_bores, covers_seat, suits
from seatwright.planning.serves.makers_sizes import size_of
from seatwright.planning.serves.offers import Offer
from seatwright.planning.serves.reasons import Reason
from seatwright.planning.serves.wants import Wants
from seatwright.planning.serves.whose_interference import FitLimits, fit_limits

_SOURCE = "handbook 3"
_SLACK = 1e-9


def keep_with(job: Job, head: Head, plan: Found, wants: Wants, offer: Offer, *, by_hand: bool) -> Candidate | Reason:
    """An insert for the pocket as found, or why the pocket cannot be kept with it.

    by_hand : `pocket keep` was said, so that what cannot be checked does not stand in the way
    """
    wrong = suits(plan, wants, offer) or covers_seat(job, wants, offer)
    if wrong is not None:
        return wrong
    if not offer.limits_known:
        return Reason("insert-od-not-known", f"The od of {offer.name} is a list figure without limits: measure it.")
    size = size_of(job, head, plan, wants.sizes, offer)
    if isinstance(size, Reason):
        return size
    wants, row = wants.of(size), None if size is None else size.row
    fit = fit_limits(job, head, plan, offer.alloy, offer.od.value, (offer.od_least, offer.od_most), row)
    if fit is None:
        return Reason("no-interference", f"No interference is given for {offer.name}.", offer.od)
    allowed = allowed_bores(job, wants, offer, fit)
    if isinstance(allowed, Reason):
        return allowed
    in_fit = _in_fit(job, head, plan, offer, fit, allowed)
    wrong = in_fit if in_fit is not None and in_fit.slug != CANNOT_BE_TOLD else _stands(job, wants, offer)
    if wrong is not None and (wrong.slug not in NOT_KNOWN or not by_hand):
        return wrong
    if in_fit is not None and any(cell.again for cell in pocket_cells(job, head, plan.valve, Findings())):
        return in_fit
    return Candidate(offer, fit, None, wants, keep=True, untold=in_fit, size=size)


CANNOT_BE_TOLD: Final = "kept-fit-cannot-be-told"
"""What a pocket is that lies nearer to a limit of its fit than it is known."""


NOT_KNOWN = frozenset(
    {
        "no-limits-for-kept-pocket",
        "pocket-measured-once",
        "pocket-not-measured-low",
        "pocket-runout-not-known",
        "kept-stand-not-known",
    }
)
"""Reasons that say that something was not measured or has no limit, not that it is bad."""


_NOT_MEASURED = Reason("pocket-not-measured", "The pocket is not measured.")


def pocket_faults(job: Job, head: Head, plan: Found, wants: Wants, findings: Findings) -> tuple[Reason, ...]:
    """All that speaks against keeping this pocket whatever the insert; () for a good one.

    findings : of the plan, in which the pocket's cells were brought to 20 °C when it began
    """
    if wants.integral:
        return (Reason("seat-integral", "The seat is cut in the casting: there is no pocket to keep."),)
    if plan.at20.pocket is None:
        return (_NOT_MEASURED,)
    found = [*_round_and_straight(job, head, plan, findings), *_true_to_guide(job, plan), *_floor(job, wants)]
    if plan.at20.damage is not None:
        found.insert(0, Reason("pocket-damaged", "The pocket is damaged.", plan.at20.damage))
    # What is bad comes before what is not known.
    return tuple(sorted(found, key=lambda reason: reason.slug in NOT_KNOWN))


def kept_interference(plan: Found, candidate: Candidate) -> Interference:
    """The limits of the fit, and what is to be expected in the pocket as found, at the mean of its readings."""
    limits = candidate.fit.interference()
    pocket, od = plan.at20.pocket_mean, candidate.offer.od
    if pocket is None:
        return limits
    formula = f"{od.symbol} - {pocket.symbol}"
    expected = computed("I_expected", "mm", od.value - pocket.value, formula, (od, pocket), _SOURCE)
    return Interference(limits.least, limits.most, limits.aim, limits.source, expected)


def kept_depth(wants: Wants) -> Depth | None:
    """The depth of a kept pocket: as found."""
    if wants.pocket_depth is None:
        return None
    return Depth(wants.pocket_depth, wants.pocket_depth, wants.pocket_depth, wants.face)


def _round_and_straight(job: Job, head: Head, plan: Found, findings: Findings) -> Iterator[Reason]:
    practice, found = job.shop.practice, plan.found
    if practice.bore_round is None or practice.bore_taper is None:
        text = "The shop has no `bore-round` or no `bore-taper` to judge the pocket by."
        yield Reason("no-limits-for-kept-pocket", text)
    if found.pocket_a is None or found.pocket_b is None:
        text = "The pocket is measured one way only: whether it is round is not known."
        yield Reason("pocket-measured-once", text)
    if found.pocket_low_a is None and found.pocket_low_b is None:
        text = "The pocket is not measured low: whether it is straight is not known."
        yield Reason("pocket-not-measured-low", text)
    cells = pocket_cells(job, head, plan.valve, findings)
    upper, lower = [cell for cell in cells if not cell.low], [cell for cell in cells if cell.low]
    if practice.bore_round is not None:
        limit = given("bore_round", "mm", practice.bore_round)
        for level in (upper, lower):
            yield from _apart(job, level, limit)
    if practice.bore_taper is not None and upper and lower:
        means = [cell.mean for cell in upper], [cell.mean for cell in lower]
        yield from _taper(job, *means, given("bore_taper", "mm", practice.bore_taper))


def _taper(job: Job, upper: list[Figure], lower: list[Figure], limit: Figure) -> Iterator[Reason]:
    mean_upper = sum(figure.value for figure in upper) / len(upper)
    mean_lower = sum(figure.value for figure in lower) / len(lower)
    formula = "abs(mean of upper - mean of lower)"
    taper = computed("taper", "mm", abs(mean_upper - mean_lower), formula, (*upper, *lower), _SOURCE)
    if taper.value > limit.value + _SLACK:
        text = f"The pocket tapers by {length(job, taper.value)}; {said(job, limit)} is the most."
        yield Reason("pocket-tapers", text, taper, limit)


def _apart(job: Job, cells: list[PocketCell], limit: Figure) -> Iterator[Reason]:
    """Largest less smallest of all readings at one height."""
    readings = [figure for cell in cells for figure in dict.fromkeys((cell.largest, cell.smallest))]
    if len(readings) < 2:
        return
    values = [figure.value for figure in readings]
    apart = max(values) - min(values)
    if apart > limit.value + _SLACK:
        names = ", ".join(figure.symbol for figure in readings)
        figure = computed("out_of_round", "mm", apart, f"max({names}) - min({names})", readings, _SOURCE)
        text = f"The pocket is {length(job, apart)} out of round; {said(job, limit)} is the most."
        yield Reason("pocket-not-round", text, figure, limit)


def _true_to_guide(job: Job, plan: Found) -> Iterator[Reason]:
    limit, offset = job.shop.practice.runout, plan.found.pocket_offset
    if limit is None or offset is None:
        text = "Whether the pocket is true to the guide is not measured, or has no limit."
        yield Reason("pocket-runout-not-known", text)
        return
    found, most = given("offset", "mm", offset), given("runout_limit", "mm", limit)
    runout = computed("pocket_runout", "mm", pilot_sums.runout_of(found.value), "2*offset", (found,), _SOURCE)
    if runout.value > most.value + _SLACK:
        text = f"The pocket runs out {length(job, runout.value)} to the guide; {said(job, most)} is the most."
        yield Reason("pocket-runs-out", text, runout, most)


def _floor(job: Job, wants: Wants) -> Iterator[Reason]:
    if wants.floor_thickness is None or wants.least_floor is None:
        return
    if wants.floor_thickness.value < wants.least_floor.value - _SLACK:
        text = (
            f"There is {said(job, wants.floor_thickness)} under the floor; {said(job, wants.least_floor)} is the least."
        )
        yield Reason("floor-thin", text, wants.floor_thickness, wants.least_floor)


def _in_fit(job: Job, head: Head, plan: Found, offer: Offer, fit: FitLimits, allowed: BoreWindow) -> Reason | None:
    """The pocket as found, judged as a bore that was cut: its mean, and each reading by itself."""
    mean, widest, narrowest = plan.at20.pocket_mean, plan.at20.pocket, plan.at20.pocket_smallest
    if mean is None or widest is None or narrowest is None:
        return _NOT_MEASURED
    u = budgets.accepted(job, head, into(Pocketed, plan), Findings(), mean)
    limits = BoreLimits(allowed.least, allowed.most, guard_of(job, Findings()), u)
    loosest = computed("I_found_least", "mm", offer.od_least.value - mean.value,
                       f"{offer.od_least.symbol} - pocket_mean", (offer.od_least, mean), _SOURCE)  # fmt: skip
    tightest = computed("I_found_most", "mm", offer.od_most.value - mean.value,
                        f"{offer.od_most.symbol} - pocket_mean", (offer.od_most, mean), _SOURCE)  # fmt: skip
    pocket = f"{offer.name} in the pocket as found, {length(job, mean.value)} at 20 °C,"
    verdict = limits.verdict(mean.value)
    if verdict == BIG:
        text = f"{pocket} has {length(job, loosest.value)} at its loosest; {length(job, fit.least.value)} is the least."
        return Reason("kept-fit-loose", text, loosest, fit.least)
    if verdict == REWORK:
        text = f"{pocket} has {length(job, tightest.value)} at its tightest; {length(job, fit.most.value)} is the most."
        return Reason("kept-fit-tight", text, tightest, fit.most)
    between = span_of(job, allowed.least.value, allowed.most.value)
    if not offer.measured and allowed.most.value - allowed.least.value < 2 * limits.drawn:
        text = f"The list limits of {offer.name} leave no pocket that could be accepted for sure: measure the insert."
        return Reason("insert-od-not-known", text)
    if verdict == MEASURE_AGAIN:
        text = (
            f"{pocket} lies nearer than {fine(job, limits.drawn)} to a limit of {between}: it cannot be told on which "
            "side."
        )
        return Reason(CANNOT_BE_TOLD, text, mean)
    half = 0.0 if job.shop.practice.bore_round is None else job.shop.practice.bore_round.value / 2
    if job.shop.practice.bore_round is not None:
        for reading in (widest, narrowest):
            if not allowed.least.value - half - _SLACK <= reading.value <= allowed.most.value + half + _SLACK:
                text = (
                    f"One reading, {length(job, reading.value)} at 20 °C, lies outside {between} by more than half of "
                    "`bore-round`."
                )
                return Reason(CANNOT_BE_TOLD, text, reading)
    return None


def _stands(job: Job, wants: Wants, offer: Offer) -> Reason | None:
    """The insert stands as wanted on the floor as found."""
    if wants.face == "floor":
        return None
    if wants.pocket_depth is None or wants.below is None or offer.height is None:
        return Reason(
            "kept-stand-not-known", "Whether the insert stands as wanted is not known without depth and height."
        )
    depth, height = wants.pocket_depth, offer.height
    below = computed(
        "below", "mm", depth.value - height.value, f"{depth.symbol} - {height.symbol}", (depth, height), _SOURCE
    )
    least, most = wants.below
    if least.value - _SLACK <= below.value <= most.value + _SLACK:
        return None
    text = (
        f"{offer.name} on the floor as found stands {length(job, below.value)} below; "
        f"{length(job, least.value)} to {length(job, most.value)} is wanted."
    )
    return Reason("kept-stand-wrong", text, below, least if below.value < least.value else most)
