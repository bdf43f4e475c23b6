"""One insert held against one valve: it serves, or the first condition that it fails (handbook 4, a to g)."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import bore_windows, pockets, seats
from seatwright.handbook import fits as fit_sums
from seatwright.job.model import Cutter, Head, Job
from seatwright.planning.basis.wording import length, name_key, said, span_of
from seatwright.planning.plan import Found
from seatwright.planning.plan.figure import Figure, computed
from seatwright.planning.serves.bores import BoreWindow
from seatwright.planning.serves.cutter_choice import cutter_for
from seatwright.planning.serves.depths import NoDepth, no_depth
from seatwright.planning.serves.makers_sizes import MakersSize, size_of
from seatwright.planning.serves.offers import Offer, missing_already
from seatwright.planning.serves.reasons import Reason
from seatwright.planning.serves.setting_step import SettingGauge
from seatwright.planning.serves.wants import Wants
from seatwright.planning.serves.whose_interference import FitLimits, fit_limits

_SLACK = 1e-9


class Candidate(Struct, frozen=True):
    """An insert that serves a valve.

    keep: pressed into the pocket as found, which is not bored. untold: why that pocket must be measured again first.

    wants: what it was held against, of its own size. cutter: None where the shop lists none, or the pocket is kept.
    size: the maker's that it is of. own: the bores that it allows by itself, where the maker's narrow them. Depth and
    ledge follow from these: few of those that serve are chosen, so they are made for the chosen one alone.
    """

    offer: Offer
    fit: FitLimits
    bore: BoreWindow | None
    wants: Wants
    cutter: Cutter | None = None
    keep: bool = False
    untold: Reason | None = None
    size: MakersSize | None = None
    own: BoreWindow | None = None

    @property
    def largest_bore(self) -> float | None:
        """The bore at its upper limit [mm], None where the pocket is kept."""
        return None if self.bore is None else self.bore.most.value


class OwnBores:
    """The bores that the inserts of a shelf allow by themselves, each worked out once: most valves of a job ask for the
    same fit."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.known: dict[tuple[Offer, FitLimits], BoreWindow | Reason] = {}

    def of(self, offer: Offer, fit: FitLimits) -> BoreWindow | Reason:
        """od_most - I_most to od_least - I_least."""
        known = self.known.get((offer, fit))
        if known is None:
            known = self.known[offer, fit] = own_bores(self.job, offer, fit)
        return known


def consider(
    job: Job, head: Head, plan: Found, wants: Wants, offer: Offer, gauge: SettingGauge, bores: OwnBores
) -> Candidate | Reason:
    """An insert for a bored pocket, or the first condition that it fails."""
    unsuited = suits(plan, wants, offer)
    if unsuited is not None:
        return unsuited
    size = size_of(job, head, plan, wants.sizes, offer)
    if isinstance(size, Reason):
        return size
    wants, offer = wants.of(size), _as_tall(offer, size)
    named = (offer.od_least, offer.od_most) if _named(plan) else None
    fit = fit_limits(job, head, plan, offer.alloy, offer.od.value, named, None if size is None else size.row)
    if fit is None:
        return Reason(
            "no-interference", f"No interference is given for {offer.name}: its bore is not computed.", offer.od
        )
    if wants.needed is None and not _named(plan):
        return Reason("clean-up-unknown", "What the bore must clean up is not known.")
    own = bores.of(offer, fit)
    if isinstance(own, Reason):
        return own
    allowed = within_makers(job, wants, offer, own)
    if isinstance(allowed, Reason):
        return allowed
    bore = cleaning_up(job, allowed, wants, offer)
    if isinstance(bore, Reason):
        return bore
    wrong = covers_seat(job, wants, offer)
    if wrong is not None:
        return wrong
    depth = no_depth(job, wants, offer.height)
    if depth is not None:
        return _no_depth(job, offer, depth)
    wrong = _narrow_ledge(job, wants, offer, bore) or _under_seat(job, wants, offer)
    if wrong is not None:
        return wrong
    cutter = cutter_for(job, plan, wants, offer, bore)
    if isinstance(cutter, Reason):
        return cutter
    wrong = _cannot_be_set(job, plan, wants, offer, allowed, bore, cutter, gauge)
    if wrong is not None:
        return wrong
    binds = allowed.least.value > own.least.value + _SLACK or allowed.most.value < own.most.value - _SLACK
    return Candidate(offer, fit, bore, wants, cutter, size=size, own=own if binds else None)


def _as_tall(offer: Offer, size: MakersSize | None) -> Offer:
    """The insert with the height that the maker prints for its size, where the list has none."""
    if size is None or size.height is None or offer.height is not None:
        return offer
    return replace(offer, height=size.height)


def suits(plan: Found, wants: Wants, offer: Offer) -> Reason | None:
    """Condition g: for this seat, of a wished alloy, on hand. A named insert need only be on hand and of the alloy."""
    if offer.seat not in ("any", plan.kind) and not _named(plan):
        return Reason("for-another-seat", f"{offer.name} is for {offer.seat} seats.")
    if wants.alloys and (offer.alloy is None or name_key(offer.alloy) not in wants.alloys):
        of = f"of {offer.alloy}" if offer.alloy else "of an alloy that is not given"
        return Reason("other-alloy", f"{offer.name} is {of}; {' or '.join(wants.alloys)} is asked for.")
    if offer.on_hand is not None and offer.on_hand < 1 and not offer.measured and not missing_already(plan, offer):
        return Reason("none-on-hand", f"None of {offer.name} is on hand.")
    return None


def allowed_bores(job: Job, wants: Wants, offer: Offer, fit: FitLimits) -> BoreWindow | Reason:
    """The bores that an insert allows, and the maker's, which bind whatever insert is chosen."""
    own = own_bores(job, offer, fit)
    return own if isinstance(own, Reason) else within_makers(job, wants, offer, own)


def own_bores(job: Job, offer: Offer, fit: FitLimits) -> BoreWindow | Reason:
    """od_most - I_most to od_least - I_least."""
    least, most, _ = fit_sums.bore_window(offer.od_least.value, offer.od_most.value, fit.least.value, fit.most.value)
    low = computed(
        "bore_least", "mm", least, f"{offer.od_most.symbol} - I_most", (offer.od_most, fit.most), "handbook 5"
    )
    high = computed(
        "bore_most", "mm", most, f"{offer.od_least.symbol} - I_least", (offer.od_least, fit.least), "handbook 5"
    )
    if low.value > high.value:
        return Reason(
            "od-too-wide-for-fit",
            f"{offer.name}: its od may be {span_of(job, offer.od_least.value, offer.od_most.value)}, wider than the "
            f"fit of {span_of(job, fit.least.value, fit.most.value)} allows; measure the insert in hand.",
            low,
            high,
        )
    return _middle(low, high)


def within_makers(job: Job, wants: Wants, offer: Offer, own: BoreWindow) -> BoreWindow | Reason:
    """What the bores that an insert allows have in common with the maker's of its size."""
    if wants.maker_bore is None:
        return own
    least, most = wants.maker_bore
    low, high = own.least, own.most
    if low.value > most.value + _SLACK or (least is not None and high.value < least.value - _SLACK):
        makers = f"{length(job, most.value)} at most" if least is None else span_of(job, least.value, most.value)
        over = least is None or low.value > most.value
        return Reason(
            "outside-makers-bore",
            f"{offer.name} wants {span_of(job, low.value, high.value)}; the maker's bore is {makers}.",
            low if over else high,
            most if over else least,
        )
    return _middle(*_cut_to(low, high, least, most))


def cleaning_up(job: Job, allowed: BoreWindow, wants: Wants, offer: Offer) -> BoreWindow | Reason:
    """The bores that are allowed, cut off below at D_clean; why not, where none of them cleans up."""
    needed, low, high = wants.needed, allowed.least, allowed.most
    if needed is None or needed.value <= low.value:
        return allowed
    left = bore_windows.cut_off_below(low.value, high.value, needed.value)
    if left is None:
        return Reason(
            "does-not-clean-up",
            f"{offer.name}: its bore may be {length(job, high.value)} at most, and "
            f"{length(job, needed.value)} is needed to clean up.",
            high,
            needed,
        )
    formula = f"max({low.formula}, D_clean)"
    return _middle(
        computed("bore_least", "mm", left[0], formula, (*low.inputs, needed), "handbook 5, cut off at D_clean"), high
    )


def _middle(low: Figure, high: Figure) -> BoreWindow:
    aim = (low.value + high.value) / 2
    return BoreWindow(low, high, computed("bore", "mm", aim, "(bore_least + bore_most)/2", (low, high), "handbook 5"))


def _cannot_be_set(
    job: Job,
    plan: Found,
    wants: Wants,
    offer: Offer,
    allowed: BoreWindow,
    bore: BoreWindow,
    cutter: Cutter | None,
    gauge: SettingGauge,
) -> Reason | None:
    """A window that was cut off must still hold a step of the setting gauge, its ends drawn in by the guard."""
    needed = wants.needed
    if bore is allowed or needed is None:
        return None
    known = gauge.sure(plan, bore.aim, cutter)
    drawn = 0.0 if known is None else known[0].value * known[1].value
    if gauge.can_be_set((allowed.least.value, allowed.most.value), needed.value, drawn, bore.aim, cutter):
        return None
    sure = f", drawn in by {length(job, drawn)} for what is not known," if drawn else ""
    return Reason(
        "does-not-clean-up",
        f"{offer.name}: between the {length(job, needed.value)} that clean up and the "
        f"{length(job, bore.most.value)} of its fit{sure} the setting gauge has no reading to be set to.",
        bore.most,
    )


def _named(plan: Found) -> bool:
    wish = plan.valve.specification.insert
    return wish is not None and wish.kind == "stock"


def _cut_to(low: Figure, high: Figure, least: Figure | None, most: Figure) -> tuple[Figure, Figure]:
    source = "handbook 5, the maker's bore"
    if least is not None:
        low = computed(
            "bore_least", "mm", max(low.value, least.value), f"max({low.formula}, {least.symbol})",
            (*low.inputs, least), source,
        )  # fmt: skip
    high = computed(
        "bore_most", "mm", min(high.value, most.value), f"min({high.formula}, {most.symbol})",
        (*high.inputs, most), source,
    )  # fmt: skip
    return low, high


def covers_seat(job: Job, wants: Wants, offer: Offer) -> Reason | None:
    """Condition c: the insert covers the seat, and its hole is small enough."""
    if wants.cover is not None and offer.od_least.value < wants.cover.value - _SLACK:
        return Reason(
            "does-not-cover-seat",
            f"{offer.name}, {length(job, offer.od_least.value)} at its least, does not carry the seat with its land; "
            f"{length(job, wants.cover.value)} is needed.",
            offer.od_least,
            wants.cover,
        )
    if wants.seat_inner is not None and offer.id is not None and offer.id.value > wants.seat_inner.value + _SLACK:
        return Reason(
            "hole-too-wide",
            f"{offer.name} has a hole of {said(job, offer.id)}; the seat, at its widest, begins at "
            f"{length(job, wants.seat_inner.value)}.",
            offer.id,
            wants.seat_inner,
        )
    return None


def _no_depth(job: Job, offer: Offer, depth: NoDepth) -> Reason:
    shallow, deep = length(job, depth.figure.value), length(job, depth.limit.value)
    texts = {
        "floor-thin": f"{offer.name} needs a depth of {shallow}; the metal under the floor allows {deep}.",
        "floor-does-not-clean-up": f"{offer.name} may go {shallow} deep; the floor cleans up at {deep}: it takes a "
        "taller insert.",
        "stands-proud": f"{offer.name} is {shallow} high; at the maker's depth of {deep} at most it would stand proud, "
        "and no `stand` says that it may.",
        "depth-limits-disagree": f"{offer.name} needs {shallow} at least to stand as wanted, and the maker's depth "
        f"ends at {deep}.",
    }
    return Reason(depth.slug, texts[depth.slug], depth.figure, depth.limit)


def _narrow_ledge(job: Job, wants: Wants, offer: Offer, bore: BoreWindow) -> Reason | None:
    """Condition e: the insert stands on enough."""
    if wants.throat is None or wants.least_ledge is None:
        return None
    if _ledge(wants.throat, wants.throat_offset, offer, bore) >= wants.least_ledge.value - _SLACK:
        return None
    ledge = ledge_of(wants, offer, bore)
    assert ledge is not None
    text = (
        f"{offer.name} would stand on a ledge of {length(job, ledge.value)}; {said(job, wants.least_ledge)} is "
        "the least."
    )
    return Reason("ledge-narrow", text, ledge, wants.least_ledge)


def ledge_of(wants: Wants, offer: Offer | None, bore: BoreWindow) -> Figure | None:
    """What the insert stands on, the bore at its least and the throat, where it stands off, on its worst
    side; a chamfer that is not known is not counted."""
    if wants.throat is None:
        return None
    formula, inputs = f"(bore_least - {wants.throat.symbol})/2", [bore.least, wants.throat]
    if offer is not None and offer.chamfer is not None and offer.chamfer_angle is not None:
        formula += " - chamfer*tan(chamfer_angle)"
        inputs += [offer.chamfer, offer.chamfer_angle]
    if wants.throat_offset is not None:
        formula += " - throat_offset"
        inputs.append(wants.throat_offset)
    value = _ledge(wants.throat, wants.throat_offset, offer, bore)
    return computed("ledge", "mm", value, formula, inputs, "handbook 4e")


def _ledge(throat: Figure, throat_offset: Figure | None, offer: Offer | None, bore: BoreWindow) -> float:
    leg = 0.0
    if offer is not None and offer.chamfer is not None and offer.chamfer_angle is not None:
        leg = pockets.chamfer_legs(offer.chamfer.value, offer.chamfer_angle.value)[1]
    left = pockets.ledge(bore.least.value, throat.value, leg)
    return left if throat_offset is None else left - throat_offset.value


def _under_seat(job: Job, wants: Wants, offer: Offer) -> Reason | None:
    """Condition e: insert below the seat, the insert at its highest."""
    if wants.seat_bottom is None or wants.least_under_seat is None or wants.below is None or offer.height is None:
        return None
    below = wants.below[0]
    value = seats.metal_under_seat(offer.height.value, below.value, wants.seat_bottom.value, 0.0)
    if value >= wants.least_under_seat.value - _SLACK:
        return None
    left = computed(
        "under_seat", "mm", value, f"{offer.height.symbol} + below_least - seat_bottom",
        (offer.height, below, wants.seat_bottom), "handbook 4e",
    )  # fmt: skip
    return Reason(
        "under-seat-thin",
        f"{offer.name} would have {length(job, left.value)} left below the seat; {said(job, wants.least_under_seat)} "
        "is the least.",
        left,
        wants.least_under_seat,
    )
