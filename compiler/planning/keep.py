"""Whether a pocket may be kept as found and an insert simply pressed in (handbook 3).

It must be round, straight, true to the guide, undamaged, in the fit at its widest and narrowest for an insert whose
od is known, and of a depth that lets the insert stand as wanted. The corner at its floor and the flatness of the floor
cannot be read from a table: the card asks the hand to look.
"""

from __future__ import annotations

from seatwright.job.model import Head, Job
from seatwright.planning.candidates import Candidate, Reason, covers_seat, suits
from seatwright.planning.figure import Figure, computed, given
from seatwright.planning.findings import Findings
from seatwright.planning.fits import FitLimits, fit_limits
from seatwright.planning.offers import Offer
from seatwright.planning.plan import Depth, Interference, ValvePlan
from seatwright.planning.start import pocket_readings
from seatwright.planning.wants import Wants
from seatwright.planning.wording import length, said

_SOURCE = "handbook 3"
_SLACK = 1e-9


def keep_with(job: Job, head: Head, plan: ValvePlan, wants: Wants, offer: Offer) -> Candidate | Reason:
    """An insert for the pocket as found, or why the pocket cannot be kept with it."""
    wrong = suits(plan, wants, offer) or covers_seat(job, wants, offer)
    if wrong is not None:
        return wrong
    if not offer.limits_known:
        return Reason("insert-od-not-known", f"The od of {offer.name} is a list figure without limits: measure it.")
    fit = fit_limits(job, head, plan, offer.alloy, offer.od.value, (offer.od_least, offer.od_most))
    if fit is None:
        return Reason("no-interference", f"No interference is given for {offer.name}.", offer.od)
    wrong = _in_fit(job, plan, offer, fit) or _deep_enough(job, wants, offer)
    if wrong is not None:
        return wrong
    return Candidate(offer, fit, None, None, None, None, None, None, keep=True)


def pocket_good(job: Job, head: Head, plan: ValvePlan, wants: Wants) -> Reason | None:
    """Why this pocket cannot be kept whatever the insert; None for a good one. What was not measured, or has no limit,
    is not known to be good."""
    if wants.integral:
        return Reason("seat-integral", "The seat is cut in the casting: there is no pocket to keep.")
    if plan.at20.pocket is None:
        return Reason("pocket-not-measured", "The pocket is not measured.")
    if plan.at20.damage is not None:
        return Reason("pocket-damaged", "The pocket is damaged.", plan.at20.damage)
    return _round_and_straight(job, head, plan) or _true_to_guide(job, plan) or _floor(job, wants)


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


def _round_and_straight(job: Job, head: Head, plan: ValvePlan) -> Reason | None:
    practice, found = job.shop.practice, plan.found
    if practice.bore_round is None or practice.bore_taper is None:
        return Reason("no-limits-for-kept-pocket", "The shop has no `bore-round` or no `bore-taper` to judge it by.")
    if found.pocket_a is None or found.pocket_b is None:
        return Reason("pocket-measured-once", "The pocket is measured one way only: whether it is round is not known.")
    if found.pocket_low_a is None and found.pocket_low_b is None:
        return Reason("pocket-not-measured-low", "The pocket is not measured low: whether it is straight is not known.")
    readings = pocket_readings(job, head, plan.valve, Findings(), largest=True)
    upper = [figure for figure in readings if "low" not in _root(figure)]
    lower = [figure for figure in readings if "low" in _root(figure)]
    for level in (upper, lower):
        wrong = _apart(job, "pocket-not-round", "out of round", level, given("bore_round", "mm", practice.bore_round))
        if wrong is not None:
            return wrong
    limit = given("bore_taper", "mm", practice.bore_taper)
    mean_upper = sum(figure.value for figure in upper) / len(upper)
    mean_lower = sum(figure.value for figure in lower) / len(lower)
    taper = computed(
        "taper", "mm", abs(mean_upper - mean_lower), "abs(mean of upper - mean of lower)", (*upper, *lower), _SOURCE
    )
    if taper.value <= limit.value + _SLACK:
        return None
    text = f"The pocket tapers by {length(job, taper.value)}; {said(job, limit)} is the most."
    return Reason("pocket-tapers", text, taper, limit)


def _root(figure: Figure) -> str:
    """The column that a reading comes from."""
    return figure.inputs[0].symbol if figure.inputs else figure.symbol


def _apart(job: Job, slug: str, what: str, readings: list[Figure], limit: Figure) -> Reason | None:
    if len(readings) < 2:
        return None
    values = [figure.value for figure in readings]
    apart = max(values) - min(values)
    if apart <= limit.value + _SLACK:
        return None
    names = ", ".join(figure.symbol for figure in readings)
    figure = computed("out_of_round", "mm", apart, f"max({names}) - min({names})", readings, _SOURCE)
    return Reason(slug, f"The pocket is {length(job, apart)} {what}; {said(job, limit)} is the most.", figure, limit)


def _true_to_guide(job: Job, plan: ValvePlan) -> Reason | None:
    limit, offset = job.shop.practice.runout, plan.found.pocket_offset
    if limit is None or offset is None:
        return Reason(
            "pocket-runout-not-known", "Whether the pocket is true to the guide is not measured, or not limited."
        )
    found, most = given("offset", "mm", offset), given("runout_limit", "mm", limit)
    runout = computed("pocket_runout", "mm", 2 * found.value, "2*offset", (found,), _SOURCE)
    if runout.value <= most.value + _SLACK:
        return None
    text = f"The pocket runs out {length(job, runout.value)} to the guide; {said(job, most)} is the most."
    return Reason("pocket-runs-out", text, runout, most)


def _floor(job: Job, wants: Wants) -> Reason | None:
    if wants.floor is None or wants.least_floor is None or wants.floor.value >= wants.least_floor.value - _SLACK:
        return None
    text = f"There is {said(job, wants.floor)} under the floor; {said(job, wants.least_floor)} is the least."
    return Reason("floor-thin", text, wants.floor, wants.least_floor)


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


def _deep_enough(job: Job, wants: Wants, offer: Offer) -> Reason | None:
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
