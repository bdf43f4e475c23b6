"""Whether a pocket may be kept as found and an insert simply pressed in (handbook 3).

It must be round, straight, true to the guide, undamaged, in the fit at its widest and narrowest for an insert whose
od is known, and of a depth that lets the insert stand as wanted. The corner at its floor and the flatness of the floor
cannot be read from a table: the card asks the hand to look.
"""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.handbook import pilots as pilot_sums
from seatwright.job.model import Head, Job
from seatwright.planning.serves.candidates import Candidate, covers_seat, suits
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.basis.findings import Findings
from seatwright.planning.serves.whose_interference import FitLimits, fit_limits
from seatwright.planning.serves.offers import Offer
from seatwright.planning.plan import Depth, Interference, ValvePlan
from seatwright.planning.serves.reasons import Reason
from seatwright.planning.found.brought_to_20 import pocket_readings
from seatwright.planning.serves.wants import Wants
from seatwright.planning.basis.wording import length, said

_SOURCE = "handbook 3"
_SLACK = 1e-9


def keep_with(
    job: Job, head: Head, plan: ValvePlan, wants: Wants, offer: Offer, *, by_hand: bool
) -> Candidate | Reason:
    """An insert for the pocket as found, or why the pocket cannot be kept with it.

    by_hand : `pocket keep` was said, so that what cannot be checked does not stand in the way
    """
    wrong = suits(plan, wants, offer) or covers_seat(job, wants, offer)
    if wrong is not None:
        return wrong
    if not offer.limits_known:
        return Reason("insert-od-not-known", f"The od of {offer.name} is a list figure without limits: measure it.")
    fit = fit_limits(job, head, plan, offer.alloy, offer.od.value, (offer.od_least, offer.od_most))
    if fit is None:
        return Reason("no-interference", f"No interference is given for {offer.name}.", offer.od)
    wrong = _in_fit(job, plan, offer, fit) or _stands(job, wants, offer)
    if wrong is not None and (wrong.slug not in NOT_KNOWN or not by_hand):
        return wrong
    return Candidate(offer, fit, None, None, None, None, None, None, keep=True)


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


def pocket_faults(job: Job, head: Head, plan: ValvePlan, wants: Wants) -> tuple[Reason, ...]:
    """All that speaks against keeping this pocket whatever the insert; () for a good one."""
    if wants.integral:
        return (Reason("seat-integral", "The seat is cut in the casting: there is no pocket to keep."),)
    if plan.at20.pocket is None:
        return (Reason("pocket-not-measured", "The pocket is not measured."),)
    found = [*_round_and_straight(job, head, plan), *_true_to_guide(job, plan), *_floor(job, wants)]
    if plan.at20.damage is not None:
        found.insert(0, Reason("pocket-damaged", "The pocket is damaged.", plan.at20.damage))
    # What is bad comes before what is not known.
    return tuple(sorted(found, key=lambda reason: reason.slug in NOT_KNOWN))


def kept_interference(plan: ValvePlan, candidate: Candidate) -> Interference:
    """The limits of the fit, and what is to be expected in the pocket as found, at the mean of its readings' span."""
    limits = candidate.fit.interference()
    pocket, smallest, od = plan.at20.pocket, plan.at20.pocket_smallest, candidate.offer.od
    assert pocket is not None
    assert smallest is not None
    value = od.value - (pocket.value + smallest.value) / 2
    formula = f"{od.symbol} - ({pocket.symbol} + {smallest.symbol})/2"
    expected = computed("I_expected", "mm", value, formula, (od, pocket, smallest), _SOURCE)
    return Interference(limits.least, limits.most, limits.aim, limits.source, expected)


def kept_depth(wants: Wants) -> Depth | None:
    """The depth of a kept pocket: as found."""
    if wants.pocket_depth is None:
        return None
    return Depth(wants.pocket_depth, wants.pocket_depth, wants.pocket_depth, wants.face)


def _round_and_straight(job: Job, head: Head, plan: ValvePlan) -> Iterator[Reason]:
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
    readings = pocket_readings(job, head, plan.valve, Findings(), largest=True)
    upper = [figure for figure in readings if "low" not in _root(figure)]
    lower = [figure for figure in readings if "low" in _root(figure)]
    if practice.bore_round is not None:
        limit = given("bore_round", "mm", practice.bore_round)
        for level in (upper, lower):
            yield from _apart(job, level, limit)
    if practice.bore_taper is not None and upper and lower:
        yield from _taper(job, upper, lower, given("bore_taper", "mm", practice.bore_taper))


def _taper(job: Job, upper: list[Figure], lower: list[Figure], limit: Figure) -> Iterator[Reason]:
    mean_upper = sum(figure.value for figure in upper) / len(upper)
    mean_lower = sum(figure.value for figure in lower) / len(lower)
    formula = "abs(mean of upper - mean of lower)"
    taper = computed("taper", "mm", abs(mean_upper - mean_lower), formula, (*upper, *lower), _SOURCE)
    if taper.value > limit.value + _SLACK:
        text = f"The pocket tapers by {length(job, taper.value)}; {said(job, limit)} is the most."
        yield Reason("pocket-tapers", text, taper, limit)


def _root(figure: Figure) -> str:
    """The column that a reading comes from."""
    return figure.inputs[0].symbol if figure.inputs else figure.symbol


def _apart(job: Job, readings: list[Figure], limit: Figure) -> Iterator[Reason]:
    if len(readings) < 2:
        return
    values = [figure.value for figure in readings]
    apart = max(values) - min(values)
    if apart > limit.value + _SLACK:
        names = ", ".join(figure.symbol for figure in readings)
        figure = computed("out_of_round", "mm", apart, f"max({names}) - min({names})", readings, _SOURCE)
        text = f"The pocket is {length(job, apart)} out of round; {said(job, limit)} is the most."
        yield Reason("pocket-not-round", text, figure, limit)


def _true_to_guide(job: Job, plan: ValvePlan) -> Iterator[Reason]:
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
    if wants.floor is None or wants.least_floor is None:
        return
    if wants.floor.value < wants.least_floor.value - _SLACK:
        text = f"There is {said(job, wants.floor)} under the floor; {said(job, wants.least_floor)} is the least."
        yield Reason("floor-thin", text, wants.floor, wants.least_floor)


def _in_fit(job: Job, plan: ValvePlan, offer: Offer, fit: FitLimits) -> Reason | None:
    """The fit at its loosest and at its tightest."""
    widest, narrowest = plan.at20.pocket, plan.at20.pocket_smallest
    assert widest is not None
    assert narrowest is not None
    loosest = computed(
        "I_found_least", "mm", offer.od_least.value - widest.value, f"{offer.od_least.symbol} - {widest.symbol}",
        (offer.od_least, widest), _SOURCE,
    )  # fmt: skip
    if loosest.value < fit.least.value - _SLACK:
        text = (
            f"{offer.name} in the pocket as found has {length(job, loosest.value)} at its loosest; "
            f"{length(job, fit.least.value)} is the least."
        )
        return Reason("kept-fit-loose", text, loosest, fit.least)
    tightest = computed(
        "I_found_most", "mm", offer.od_most.value - narrowest.value, f"{offer.od_most.symbol} - {narrowest.symbol}",
        (offer.od_most, narrowest), _SOURCE,
    )  # fmt: skip
    if tightest.value > fit.most.value + _SLACK:
        text = (
            f"{offer.name} in the pocket as found has {length(job, tightest.value)} at its tightest; "
            f"{length(job, fit.most.value)} is the most."
        )
        return Reason("kept-fit-tight", text, tightest, fit.most)
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
