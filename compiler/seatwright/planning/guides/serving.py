"""One guide of the shop in one valve: whether it serves, and what its hole must be cut to for it (handbook 16)."""

from __future__ import annotations

from msgspec import Struct

from seatwright.handbook import guides as sums
from seatwright.job.model import Head, Job, Material, StockGuide
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.temperatures import insert_at20
from seatwright.planning.basis.wording import length, name_key, said, span_inside, span_of
from seatwright.planning.found.finished_bore import reamers
from seatwright.planning.guides.closing import closes
from seatwright.planning.guides.holes import FoundHole
from seatwright.planning.plan import GuideBore, Started
from seatwright.planning.plan.figure import Figure, assumed, computed, given
from seatwright.planning.serves.whose_interference import FitLimits, given_limits, row_limits, shop_row

AS_FOUND, REAMED, BORED = 0, 1, 2
"""How much is done to a hole, the least first: nothing, a reamer of the shop, the machine."""

_SOURCE = "handbook 16"


class ServingGuide(Struct, frozen=True):
    """A guide that serves a valve. place: in the shop's list. cut: as it is, reamed, bored. least, most: what its hole
    is cut to, None where it goes in as it is. cuts: what the reamer cuts. closes: how much its fit closes its bore."""

    place: int
    guide: StockGuide
    od_least: Figure
    od_most: Figure
    fit: FitLimits
    hole: FoundHole
    cut: int
    least: Figure | None = None
    most: Figure | None = None
    reamer: str | None = None
    cuts: Figure | None = None
    closes: Figure | None = None


class GuideNotServing(Struct, frozen=True):
    """Why a guide does not serve, in a sentence without its name; missing: nobody gave what it is judged by; order:
    the bore of one that would, where it is its bore that is wrong."""

    text: str
    missing: str = ""
    order: str = ""


def alloy_of_guide(job: Job, guide: StockGuide) -> Material | None:
    """The alloy of a guide, out of the shop's and the built-in ones."""
    if guide.alloy is None:
        return None
    return next((one for one in job.shop.alloys if name_key(one.name) == name_key(guide.alloy.text)), None)


def od_of_guide(
    job: Job, head: Head, plan: Started, guide: StockGuide, *, in_hand: bool
) -> tuple[Figure, Figure] | None:
    """Least and most od of a guide at 20 °C; a measured one is both."""
    if in_hand and plan.found.guide_od is not None:
        alloy = None if guide.alloy is None else guide.alloy.text
        # That a guide of no known alloy is taken as read moves its od by less than a gauge shows.
        one = insert_at20(job, head, plan.found.guide_od, alloy, "guide_od", Findings())
        return one, one
    least, most = guide.od_least or guide.od, guide.od_most or guide.od
    if least is None or most is None:
        return None
    return given("od_least", "mm", least), given("od_most", "mm", most)


def fit_of_guide(job: Job, head: Head, plan: Started, guide: StockGuide, od: float) -> FitLimits | None:
    """Limits of the fit: of the valve, else the row of the shop; a liner that is chosen has its own row alone.

    `guide-fit` is the maker's for his guide in the head: it counts for a liner only where that is named.
    """
    spec = plan.valve.specification
    named = spec.guide is not None and spec.guide.kind == "stock"
    if spec.guide_fit is not None and (guide.kind == "guide" or named):
        return given_limits(spec.guide_fit)
    if head.material is None:
        return None
    alloy = None if guide.alloy is None else guide.alloy.text
    row = shop_row(job.shop.guide_fits, name_key(head.material.name), alloy, guide.kind, od)
    return None if row is None else row_limits(row)


def serve(
    job: Job, head: Head, plan: Started, place: int, hole: FoundHole | None, bore: GuideBore | None, *, in_hand: bool,
    findings: Findings,
) -> ServingGuide | GuideNotServing:  # fmt: skip
    """A guide held against a valve. hole: what it would go into; bore: what it is to be sized to, None: not known."""
    guide = job.shop.guides[place]
    od = od_of_guide(job, head, plan, guide, in_hand=in_hand)
    out = (plan.found.guide_hole_top, plan.found.guide_hole_middle, plan.found.guide_hole_bottom)
    if guide.kind == "liner" and any(out):
        return GuideNotServing("it goes into the old guide, and that one is out: its hole was measured")
    if od is None:
        return GuideNotServing("its `od` is not listed", "od")
    fit = fit_of_guide(job, head, plan, guide, (od[0].value + od[1].value) / 2)
    if hole is None:
        return GuideNotServing("what it would go into is not measured", "hole")
    if fit is None:
        return GuideNotServing("no fit is given for it", "fit")
    closing = closes(job, head, guide, alloy_of_guide(job, guide), od, fit)
    wrong = _bore_wrong(job, guide, bore, closing)
    if wrong is not None:
        return wrong
    made = ServingGuide(place, guide, *od, fit, hole, AS_FOUND, closes=closing)
    figures = (hole.least.value, hole.most.value, od[0].value, od[1].value, fit.least.value, fit.most.value)
    if sums.fits_as_found(*figures):
        return made
    return _cut_out(job, made, findings)


def stock_to_ream(job: Job) -> Figure:
    """Least stock that a reamer must take; nothing where the shop does not say, which is said once."""
    given_room = job.shop.practice.guide_room
    if given_room is None:
        return assumed("room", "mm", 0.0, "guide-room not given")
    return given("room", "mm", given_room)


def _cut_out(job: Job, made: ServingGuide, findings: Findings) -> ServingGuide | GuideNotServing:
    """The hole opened for a guide that does not suit it as it is."""
    low, high, fit, hole = made.od_least, made.od_most, made.fit, made.hole
    stock = stock_to_ream(job)
    window = sums.hole_to_cut(hole.most.value, low.value, high.value, fit.least.value, fit.most.value, stock.value)
    if window is None:
        loose, tight = low.value - hole.most.value, high.value - hole.least.value
        grips = f"its fit would be {span_of(job, loose, tight)}"
        text = f"{grips}, and {span_of(job, fit.least.value, fit.most.value)} is wanted"
        top = low.value - fit.least.value
        if 0 < top - hole.most.value < stock.value:
            left = length(job, top - hole.most.value)
            text += f"; its hole may be {length(job, top)} at most, which leaves a reamer {left}"
        return GuideNotServing(text)
    least = computed(
        "hole_cut_least", "mm", window[0], "max(od_most - I_most, hole_most + room)",
        (high.called("od_most"), fit.most, hole.most, stock), _SOURCE,
    )  # fmt: skip
    most = computed(
        "hole_cut_most", "mm", window[1], "od_least - I_least", (low.called("od_least"), fit.least), _SOURCE
    )
    ready = reamers(job, "hole", findings)
    at = sums.reamer_for(window[0], window[1], [cut.value for _, cut in ready])
    if at is None:
        return _with_cut(made, BORED, least, most)
    return _with_cut(made, REAMED, least, most, ready[at][0].name.text, ready[at][1])


def _with_cut(
    made: ServingGuide, cut: int, least: Figure, most: Figure, reamer: str | None = None, cuts: Figure | None = None
) -> ServingGuide:
    return ServingGuide(
        made.place, made.guide, made.od_least, made.od_most, made.fit, made.hole, cut, least, most, reamer, cuts,
        made.closes,
    )  # fmt: skip


def _bore_wrong(job: Job, guide: StockGuide, bore: GuideBore | None, closing: Figure | None) -> GuideNotServing | None:
    """Whether the bore of a guide leaves nothing to ream, or, of one that is not reamed, comes out of its limits."""
    if bore is None or guide.id is None:
        return None
    shut = 0.0 if closing is None else closing.value
    left = sums.left_to_ream(bore.least.value, guide.id.value, shut)
    comes_to = length(job, guide.id.value - shut)
    if guide.id_finished:
        if bore.least.value - 1e-9 <= guide.id.value - shut <= bore.most.value + 1e-9:
            return None
        bought = span_inside(job, *sums.bought_bore(bore.least.value, bore.most.value, shut))
        return GuideNotServing(
            f"its finished bore of {said(job, guide.id)} comes to {comes_to} once it is in: it must be bought {bought}",
            order=f"with a bore of {bought}",
        )
    stock = stock_to_ream(job)
    if left >= stock.value - 1e-9 and left > 0:
        return None
    wants = f", and {said(job, stock)} is the least" if stock.value else ""
    return GuideNotServing(
        f"its bore of {said(job, guide.id)} comes to {comes_to} once it is in, which leaves "
        f"{length(job, max(left, 0.0))} to ream{wants}",
        order=f"with a bore of {length(job, bore.least.value - stock.value + shut)} at most",
    )
