"""Which cutter bores a pocket: its range, its smallest pass, the corner that it leaves (handbook 4f and 5)."""

from __future__ import annotations

from seatwright.handbook import pockets
from seatwright.job.model import Cutter, Given, Job
from seatwright.planning.basis.wording import length, name_key, said
from seatwright.planning.plan import Found
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.bores import BoreWindow
from seatwright.planning.serves.offers import Offer
from seatwright.planning.serves.reasons import Reason
from seatwright.planning.serves.wants import Wants

_SLACK = 1e-9


def cutter_for(job: Job, plan: Found, wants: Wants, offer: Offer, bore: BoreWindow) -> Cutter | Reason | None:
    """The cutter by hand, else the first not retired whose range holds the bore and its smallest pass, and past whose
    corner the insert's chamfer goes; None where the shop lists none."""
    return _first_cutter(job, plan, wants, bore, offer)


def cutter_for_bore(job: Job, plan: Found, wants: Wants, bore: BoreWindow) -> Cutter | Reason | None:
    """The cutter for an insert that is not there yet: as `cutter_for`, without its corner."""
    return _first_cutter(job, plan, wants, bore, None)


def _first_cutter(job: Job, plan: Found, wants: Wants, bore: BoreWindow, offer: Offer | None) -> Cutter | Reason | None:
    cutters = [one for one in job.shop.cutters if one.retired is None]
    by_hand = plan.valve.specification.cutter
    if by_hand is not None:
        cutters = [one for one in job.shop.cutters if name_key(one.name.text) == name_key(by_hand.text)]
        if not cutters:
            return Reason("cutter-unknown", f"The shop has no cutter {by_hand.text}.")
    if not cutters:
        return None
    wrong: Reason | None = None
    for cutter in cutters:
        if _out_of_range(cutter, bore):
            continue
        found = _first_pass(job, wants, cutter, bore) or (None if offer is None else _corner(job, offer, cutter))
        if found is None:
            return cutter
        wrong = wrong or found
    # The reason of the cutter that came furthest tells more than that of one of another size.
    return wrong or _another_size(job, cutters[0], bore)


def _out_of_range(cutter: Cutter, bore: BoreWindow) -> bool:
    limits = None if cutter.range is None else cutter.range.both
    if limits is None:
        return False
    least, most = limits
    return bore.most.value > most.value + _SLACK or bore.least.value < least.value - _SLACK


def _another_size(job: Job, cutter: Cutter, bore: BoreWindow) -> Reason | None:
    limits = None if cutter.range is None else cutter.range.both
    if limits is None:
        return None
    least, most = limits
    over = bore.most.value > most.value
    edge = bore.most if over else bore.least
    limit = given("cutter_most", "mm", most) if over else given("cutter_least", "mm", least)
    text = f"A bore of {length(job, edge.value)} is needed; {_between(job, cutter, least, most)}."
    return Reason("cutter-range", text, edge, limit)


def _first_pass(job: Job, wants: Wants, cutter: Cutter, bore: BoreWindow) -> Reason | None:
    limits = None if cutter.range is None else cutter.range.both
    if limits is None or wants.throat is None or cutter.tip_width is None:
        return None
    least, most = limits
    off = 0.0 if wants.throat_offset is None else wants.throat_offset.value
    try:
        first = pockets.passes(bore.aim.value, wants.throat.value, off, cutter.tip_width.value)[0]
    except ValueError as wrong:
        return Reason("no-floor", f"{str(wrong)[:1].upper()}{str(wrong)[1:]}.", bore.aim, wants.throat)
    if first >= least.value - _SLACK:
        return None
    between = _between(job, cutter, least, most)
    text = f"The tip must begin at {length(job, first)} to reach the throat; {between}."
    smallest = _smallest_pass(first, bore.aim, wants.throat, wants.throat_offset, cutter.tip_width)
    return Reason("cutter-first-pass", text, smallest, given("cutter_least", "mm", least))


def _between(job: Job, cutter: Cutter, least: Given, most: Given) -> str:
    return f"the cutter {cutter.name.text} goes from {said(job, least)} to {said(job, most)}"


def _smallest_pass(first: float, bore: Figure, throat: Figure, off: Figure | None, tip_width: Given) -> Figure:
    """The first of the passes that clear the floor down to the throat."""
    tip = given("tip_width", "mm", tip_width)
    inputs = (bore, throat, tip, *((off,) if off is not None else ()))
    formula = f"min({bore.symbol}, {throat.symbol} + 2*tip_width{' - 2*throat_offset' if off else ''})"
    return computed("first_pass", "mm", first, formula, inputs, "handbook 5")


def _corner(job: Job, offer: Offer, cutter: Cutter) -> Reason | None:
    """Condition f: both legs of the chamfer are at least the corner that the tip leaves."""
    if offer.chamfer is None or offer.chamfer_angle is None or cutter.corner_radius is None:
        return None
    legs = pockets.chamfer_legs(offer.chamfer.value, offer.chamfer_angle.value)
    if pockets.chamfer_clears(cutter.corner_radius.value, legs):
        return None
    corner = given("corner_radius", "mm", cutter.corner_radius)
    formula = "min(chamfer, chamfer*tan(chamfer_angle))"
    leg = computed("leg", "mm", min(legs), formula, (offer.chamfer, offer.chamfer_angle), "handbook 4f")
    return Reason(
        "rides-on-corner",
        f"The chamfer of {offer.name} has a leg of {length(job, leg.value)}; the cutter {cutter.name.text} leaves a "
        f"corner of {said(job, corner)}, and the insert would ride on it.",
        leg,
        corner,
    )
