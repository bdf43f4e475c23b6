"""The insert of each valve, its fit, bore and depth, over all heads of a job: there is one stock (handbook 4 and 5)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.job.model import Head, InsertWish, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.inserts.choice import Choice, ThinPair, ToServe, choose
from seatwright.planning.inserts.chosen import filled, kept_pocket, say_ring
from seatwright.planning.inserts.passed_over import (
    PassedOverReasons,
    hold_thin_as_found,
    hold_thin_cleaned_up,
    hold_without,
)
from seatwright.planning.inserts.thin_bridges import Bridges, BridgeSide
from seatwright.planning.inserts.turned_to_bore import filled_turned
from seatwright.planning.plan import Found, Pocketed, into
from seatwright.planning.plan.figure import Figure
from seatwright.planning.serves import turned
from seatwright.planning.serves.bores import BoreWindow
from seatwright.planning.serves.candidates import Candidate, OwnBores, consider
from seatwright.planning.serves.cutter_choice import cutter_for_bore
from seatwright.planning.serves.keep import NOT_KNOWN, keep_with, pocket_faults
from seatwright.planning.serves.offers import Offer, missing_already, offers_for, stock_offers
from seatwright.planning.serves.reasons import Reason
from seatwright.planning.serves.ring_in_hand import Ring, ring_in_hand
from seatwright.planning.serves.setting_step import SettingGauge
from seatwright.planning.serves.wants import Wants, wants_of
from seatwright.planning.serves.whose_interference import FitLimits

SAME_POCKET = 0.6
"""Valves of a set have the same pocket when their D_clean follow each other by no more than this [mm]: a little over
the half millimetre that oversizes commonly step by; this program's own bound."""


class _Case(Struct):
    """What is known of one valve while inserts are being chosen."""

    head: Head
    plan: Found
    wish: InsertWish
    wants: Wants
    offers: tuple[Offer, ...]
    ring: Ring | None = None
    bored: list[Candidate] = field(default_factory=list)
    keeping: list[Candidate] = field(default_factory=list)
    reasons: dict[str, Reason] = field(default_factory=dict)
    not_kept: Reason | None = None

    @property
    def candidates(self) -> tuple[Candidate, ...]:
        """Keeping wins: where the pocket can be kept, only that is offered; one that is told before one that is not."""
        return tuple([one for one in self.keeping if one.untold is None] or self.keeping or self.bored)


def inserts(job: Job, plans: tuple[Found, ...], findings: Findings) -> tuple[Pocketed, ...]:
    """Choose for all valves of all heads at once and fill in insert, fit, bore, depth, floor, ledge, cutter and next;
    say what to order where nothing fits.

    plans : of every head of the job, as `clean_up` left them
    """
    heads = {head.number: head for head in job.heads}
    gauges = {head.number: SettingGauge(job, head) for head in job.heads}
    stock, own_bores = stock_offers(job), OwnBores(job)
    cases: dict[str, _Case] = {}
    for plan in plans:
        wish = plan.valve.specification.insert
        if wish is not None and plan.gets_insert and not plan.waits_for_guide:
            head, ring = heads[plan.head], ring_in_hand(job, plan, stock)
            in_hand = None if ring is None or ring.doubt else ring.stock
            offers = offers_for(plan, stock, in_hand)
            if in_hand is not None and plan.valve.cut is not None and plan.valve.cut.insert_od is not None:
                # Measured beside its bore, it is the ring that goes in there.
                offers = tuple(offer for offer in offers if offer.stock == in_hand)
            cases[plan.name] = _Case(head, plan, wish, wants_of(job, head, plan, findings), offers, ring)
    for case in cases.values():
        _look(job, case, gauges[case.plan.head], own_bores, findings)
    turning = _turned_bores(job, cases, gauges)
    bridges = _rule_out_thin(job, plans, cases, turning)
    choice = _choose(job, cases, tuple(bridges.values()))
    if not choice.exact:
        findings.notice(
            "choice-not-proved",
            "So many inserts and bridges depend on each other that the best choice was not proved.",
            "Name the inserts of some valves by hand: the rest is then proved.",
            job.span,
        )
    used = _used(choice.chosen)
    done = []
    for plan in plans:
        known = cases.get(plan.name)
        if known is None:
            done.append(into(Pocketed, plan))
        elif plan.turned:
            done.append(filled_turned(job, known.head, plan, known.wants, turning.get(plan.name), findings))
        else:
            chosen_for = _finished(job, known, choice, used, bridges.get(plan.head), findings)
            if chosen_for.order is not None:
                serves = _would_serve(job, known, gauges[plan.head], own_bores, bridges.get(plan.head))
                chosen_for = replace(chosen_for, order=replace(chosen_for.order, serves=serves))
            done.append(chosen_for)
    return tuple(done)


def _look(job: Job, case: _Case, gauge: SettingGauge, own_bores: OwnBores, findings: Findings) -> None:
    """Every insert held against the valve, for a kept pocket and for a bored one."""
    wish = case.plan.valve.specification.pocket
    how = None if wish is None else wish.text
    if how != "bore" and case.offers:
        faults = pocket_faults(job, case.head, case.plan, case.wants, findings)
        case.not_kept = next((fault for fault in faults if how is None or fault.slug not in NOT_KNOWN), None)
        for offer in case.offers if case.not_kept is None else ():
            found = keep_with(job, case.head, case.plan, case.wants, offer, by_hand=how == "keep")
            if isinstance(found, Candidate):
                case.keeping.append(found)
            elif how == "keep":
                case.reasons[offer.name] = found
    for offer in case.offers if how != "keep" else ():
        result = consider(job, case.head, case.plan, case.wants, offer, gauge, own_bores)
        if isinstance(result, Candidate):
            case.bored.append(result)
        else:
            case.reasons[offer.name] = result


def _turned_bores(
    job: Job, cases: Mapping[str, _Case], gauges: Mapping[int, SettingGauge]
) -> dict[str, tuple[BoreWindow, FitLimits]]:
    """Bore and fit of every valve whose insert is turned, where they are known."""
    turning = {name: case for name, case in cases.items() if case.plan.turned}
    fits = {name: turned.turned_fit(job, case.head, case.plan, case.wants) for name, case in turning.items()}
    sets: dict[int, list[tuple[turned.Needed, _Case, FitLimits]]] = {}
    for name, case in turning.items():
        fit, bare = fits[name], turned.needed_of(case.plan, case.wants)
        if fit is None or bare is None:
            continue
        first = turned.turned_bore(bare, turned.turned_aims(job, [bare])[name], case.wants, fit)
        sure = _sure(job, case, first, gauges[case.plan.head])
        sets.setdefault(case.plan.head, []).append((replace(bare, sure=sure), case, fit))
    found = {}
    for members in sets.values():
        aims = turned.turned_aims(job, [own for own, _, _ in members])
        for own, case, fit in members:
            found[own.valve] = (turned.turned_bore(own, aims[own.valve], case.wants, fit), fit)
    return found


def _sure(job: Job, case: _Case, bore: BoreWindow, gauge: SettingGauge) -> tuple[Figure, Figure] | None:
    """Guard and uncertainty of the bore for a blank; what there is to say of them is said when the cutter is set."""
    cutter = cutter_for_bore(job, case.plan, case.wants, bore)
    return None if cutter is None or isinstance(cutter, Reason) else gauge.sure(case.plan, bore.aim, cutter)


def _rule_out_thin(
    job: Job,
    plans: Sequence[Found],
    cases: Mapping[str, _Case],
    turning: Mapping[str, tuple[BoreWindow, FitLimits]],
) -> dict[int, Bridges]:
    """Take out what a bridge does not bear whatever its neighbour gets. Returns the bridges by their head's number."""
    made = {}
    for head in job.heads:
        if head.least_bridge is None and not any(hole.kind == "cylinder" for hole in head.holes):
            continue
        of_head = [plan for plan in plans if plan.head == head.number]
        fixed = {
            plan.name: BridgeSide(turning[plan.name][0].most, plan.pilot.offset if plan.pilot else None, True)
            for plan in of_head
            if plan.name in turning
        }
        candidates = {plan.name: cases[plan.name].candidates for plan in of_head if plan.name in cases}
        bridges = Bridges(job, head, of_head, candidates, fixed)
        made[head.number] = bridges
        for name in candidates:
            case = cases[name]
            ruled_out = set()
            for one in sorted(case.bored, key=lambda each: each.largest_bore or 0.0, reverse=True):
                thin = bridges.rules_out(name, one)
                if thin is None:
                    break  # what leaves a larger bore room leaves it to the smaller ones
                ruled_out.add(id(one))
                case.reasons[one.offer.name] = thin
            case.bored = [one for one in case.bored if id(one) not in ruled_out]
    return made


def _choose(job: Job, cases: Mapping[str, _Case], bridges: Sequence[Bridges]) -> Choice:
    """The choice; valves that went without because a kept pocket's insert had run out may then be bored."""
    sets = _sets(cases)
    in_hand = Counter(case.ring.stock for case in cases.values() if case.ring is not None and not case.ring.doubt)
    on_hand = {
        place: None if insert.told is None else max(insert.told, in_hand[place])
        for place, insert in enumerate(job.shop.inserts)
    }
    choosing = {name: case for name, case in cases.items() if case.candidates}
    pairs = [pair for one in bridges for pair in one.limits(choosing)]

    def rows(bored: frozenset[str]) -> list[ToServe]:
        return [
            ToServe(name, tuple(case.bored) if name in bored else case.candidates, sets.get(name))
            for name, case in choosing.items()
        ]

    plans = {name: case.plan for name, case in choosing.items()}
    found = _share_out(rows(frozenset()), plans, on_hand, pairs)
    without = frozenset(
        name for name, case in choosing.items() if found.chosen[name] is None and case.keeping and case.bored
    )
    return _share_out(rows(without), plans, on_hand, pairs) if without else found


def _share_out(
    rows: list[ToServe], plans: Mapping[str, Found], on_hand: Mapping[int, int | None], pairs: Sequence[ThinPair]
) -> Choice:
    """The choice. What was missing already when the pieces were counted is not taken from them again: which inserts
    those were is settled first, as if they still lay there, and then the rest is shared among the other valves."""
    gone = {
        row.valve: {
            one.offer.stock
            for one in row.candidates
            if one.offer.stock is not None and missing_already(plans[row.valve], one.offer)
        }
        for row in rows
    }
    if not any(gone.values()):
        return choose(rows, on_hand, pairs)
    first = choose(rows, _with_pieces(on_hand, [place for places in gone.values() for place in places]), pairs)
    taken = {
        valve: one
        for valve, one in first.chosen.items()
        if one is not None and one.offer.stock is not None and one.offer.stock in gone[valve]
    }
    settled = [replace(row, candidates=(taken[row.valve],)) if row.valve in taken else row for row in rows]
    pieces = [one.offer.stock for one in taken.values() if one.offer.stock is not None]
    return choose(settled, _with_pieces(on_hand, pieces), pairs)


def _with_pieces(on_hand: Mapping[int, int | None], places: Sequence[int]) -> dict[int, int | None]:
    more = Counter(places)
    return {place: None if count is None else count + more[place] for place, count in on_hand.items()}


def _sets(cases: Mapping[str, _Case]) -> dict[str, tuple[object, ...]]:
    """The valves that should share one size: chosen for and bored, of one head, kind, valve head and pocket."""
    groups: dict[tuple[object, ...], list[tuple[float, str]]] = {}
    for case in cases.values():
        spec = case.plan.valve.specification
        if case.wish.kind != "choose" or case.keeping or case.wants.needed is None:
            continue
        across = None if spec.head_diameter is None else spec.head_diameter.value
        groups.setdefault((case.plan.head, case.plan.kind, across), []).append(
            (case.wants.needed.value, case.plan.name)
        )
    found: dict[str, tuple[object, ...]] = {}
    for key, members in groups.items():
        number, before = 0, min(members)[0]
        for needed, name in sorted(members, key=lambda member: member[0]):
            number += needed - before > SAME_POCKET
            before = needed
            found[name] = (*key, number)
    return found


def _used(chosen: Mapping[str, Candidate | None]) -> dict[str, int]:
    used: dict[str, int] = {}
    for one in chosen.values():
        if one is not None:
            used[one.offer.name] = used.get(one.offer.name, 0) + 1
    return used


def _finished(
    job: Job, case: _Case, choice: Choice, used: Mapping[str, int], bridges: Bridges | None, findings: Findings
) -> Pocketed:
    """The valve with what was chosen, or on hold with what to order."""
    chosen = choice.chosen.get(case.plan.name)
    say_ring(job, case.plan, case.ring, chosen, findings)
    if case.ring is not None and (chosen is None or not chosen.offer.measured):
        # What was measured of another ring is not counted with.
        case.plan = replace(case.plan, at20=replace(case.plan.at20, insert_od=None))
    reasons = PassedOverReasons(case.offers, case.reasons, case.candidates, used)
    if chosen is None:
        if _bridge_bears_none(job, case, bridges, findings):
            return into(Pocketed, case.plan)
        return hold_without(job, case.head, case.plan, case.wish, case.wants, reasons, case.not_kept, findings)
    if chosen.bore is None:
        plan = kept_pocket(job, case.head, case.plan, case.wants, chosen, case.bored, findings)
    else:
        plan = filled(job, case.head, case.plan, case.wants, chosen, chosen.bore, case.bored, findings)
    size = None if plan.maker is None else plan.maker.size
    return replace(plan, insert=replace(chosen.offer.plan(), passed_over=reasons.beside(job, chosen), size=size))


def _would_serve(
    job: Job, case: _Case, gauge: SettingGauge, own_bores: OwnBores, bridges: Bridges | None
) -> tuple[str, ...]:
    """The listed inserts that would serve a valve which got none, whatever is on hand, in the order of the list."""
    serve = {one.offer.name for one in case.candidates}
    for offer in case.offers:
        reason = case.reasons.get(offer.name)
        if reason is not None and reason.slug == "none-on-hand":
            found = consider(job, case.head, case.plan, case.wants, replace(offer, on_hand=None), gauge, own_bores)
            thin = bridges is not None and isinstance(found, Candidate) and bridges.rules_out(case.plan.name, found)
            if isinstance(found, Candidate) and not thin:
                serve.add(offer.name)
    return tuple(offer.name for offer in case.offers if offer.name in serve)


def _bridge_bears_none(job: Job, case: _Case, bridges: Bridges | None, findings: Findings) -> bool:
    """Whether a bridge bears no larger bore here, so that no insert that could be ordered would serve; then it is
    said, and no oversize offered."""
    keep, needed = case.plan.valve.specification.pocket, case.wants.needed
    if bridges is None or needed is None or (keep is not None and keep.text == "keep"):
        return False
    if (found := bridges.as_found(case.plan.name)) is not None:
        hold_thin_as_found(job, case.head, case.plan, found, findings)
        return True
    if (cleaned := bridges.cleaned_up(case.plan.name, needed)) is not None:
        hold_thin_cleaned_up(job, case.head, case.plan, needed, cleaned, findings)
        return True
    return False
