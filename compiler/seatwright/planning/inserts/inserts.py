"""The insert of each valve, its fit, bore and depth, over all heads of a job: there is one stock (handbook 4 and 5)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.job.model import Head, Job
from seatwright.planning.serves import turned
from seatwright.planning.serves.bores import BoreWindow
from seatwright.planning.serves.candidates import Candidate, consider
from seatwright.planning.inserts.choice import Choice, Row, choose
from seatwright.planning.inserts.chosen import filled, kept
from seatwright.planning.serves.cutter_choice import cutter_for_bore
from seatwright.planning.plan.figure import Figure
from seatwright.planning.basis.findings import Findings
from seatwright.planning.serves.whose_interference import FitLimits
from seatwright.planning.serves.keep import NOT_KNOWN, keep_with, pocket_faults
from seatwright.planning.serves.offers import Offer, insert_in_hand, offers_for, stock_offers
from seatwright.planning.basis.overcut import of_cutter, trials
from seatwright.planning.inserts.passed_over import PassedOverReasons, hold_without, measured_unknown
from seatwright.planning.plan import Bore, ValvePlan
from seatwright.planning.serves.reasons import Reason, rank
from seatwright.planning.inserts.thin_bridges import Bridges, Side
from seatwright.planning.inserts.turned_to_bore import filled_turned
from seatwright.planning.certainty.uncertainty import guard_of, planned_u
from seatwright.planning.serves.wants import Wants, wants_of

SAME_POCKET = 0.6
"""Valves of a set have the same pocket when their D_clean follow each other by no more than this [mm]: a little over
the half millimetre that oversizes commonly step by; this program's own bound."""


class _Case(Struct):
    """What is known of one valve while inserts are being chosen."""

    head: Head
    plan: ValvePlan
    wants: Wants
    offers: tuple[Offer, ...]
    bored: list[Candidate] = field(default_factory=list)
    keeping: list[Candidate] = field(default_factory=list)
    reasons: dict[str, Reason] = field(default_factory=dict)
    not_kept: Reason | None = None

    @property
    def candidates(self) -> tuple[Candidate, ...]:
        """Keeping wins: where the pocket can be kept, only that is offered."""
        return tuple(self.keeping or self.bored)


def inserts(job: Job, plans: tuple[ValvePlan, ...], findings: Findings) -> tuple[ValvePlan, ...]:
    """Choose for all valves of all heads at once and fill in insert, fit, bore, depth, floor, ledge, cutter and next;
    say what to order where nothing fits.

    plans : of every head of the job, as `clean_up` left them
    """
    heads = {head.number: head for head in job.heads}
    stock = stock_offers(job)
    cases: dict[str, _Case] = {}
    for plan in plans:
        if plan.status not in ("left-alone", "not-planned") and plan.valve.specification.insert is not None:
            head = heads[plan.head]
            cases[plan.name] = _Case(head, plan, wants_of(job, head, plan, findings), offers_for(job, plan, stock))
    for case in cases.values():
        wish = case.plan.valve.specification.insert
        choosing = wish is not None and wish.kind == "choose"
        if choosing and case.plan.at20.insert_od is not None and insert_in_hand(job, case.plan, stock) is None:
            measured_unknown(job, case.plan, findings)
        _look(job, case)
    turning = _turned_bores(job, cases)
    bridges = _rule_out_thin(job, plans, cases, turning)
    choice = _choose(job, cases, bridges)
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
            done.append(plan)
        elif turned.is_turned(plan):
            done.append(filled_turned(job, known.head, plan, known.wants, turning.get(plan.name), findings))
        else:
            done.append(_finished(job, known, choice, used, findings))
    return tuple(done)


def _look(job: Job, case: _Case) -> None:
    """Every insert held against the valve, for a kept pocket and for a bored one."""
    wish = case.plan.valve.specification.pocket
    how = None if wish is None else wish.text
    if how != "bore" and case.offers:
        faults = pocket_faults(job, case.head, case.plan, case.wants)
        case.not_kept = next((fault for fault in faults if how is None or fault.slug not in NOT_KNOWN), None)
        for offer in case.offers if case.not_kept is None else ():
            found = keep_with(job, case.head, case.plan, case.wants, offer, by_hand=how == "keep")
            if isinstance(found, Candidate):
                case.keeping.append(found)
            elif how == "keep":
                case.reasons[offer.name] = found
    for offer in case.offers if how != "keep" else ():
        result = consider(job, case.head, case.plan, case.wants, offer)
        if isinstance(result, Candidate):
            case.bored.append(result)
        else:
            case.reasons[offer.name] = result


def _turned_bores(job: Job, cases: Mapping[str, _Case]) -> dict[str, tuple[BoreWindow, FitLimits]]:
    found = {}
    for name, case in cases.items():
        if not turned.is_turned(case.plan):
            continue
        group = [
            other.plan
            for other in cases.values()
            if turned.is_turned(other.plan) and (other.plan.head, other.plan.kind) == (case.plan.head, case.plan.kind)
        ]
        fit = turned.turned_fit(job, case.head, case.plan)
        bore = None if fit is None else turned.turned_bore(job, case.plan, group, fit)
        if bore is not None and fit is not None:
            bore = turned.turned_bore(job, case.plan, group, fit, _sure(job, case, bore))
        if bore is not None and fit is not None:
            found[name] = (bore, fit)
    return found


def _sure(job: Job, case: _Case, bore: BoreWindow) -> tuple[Figure, Figure] | None:
    """Guard and uncertainty of the bore for a blank; what there is to say of them is said when the cutter is set."""
    cutter = cutter_for_bore(job, case.plan, case.wants, bore)
    if cutter is None or isinstance(cutter, Reason):
        return None
    planned = replace(case.plan, bore=Bore(bore.least, bore.most, bore.aim, bore.least, bore.most, bore.aim))
    made = of_cutter(trials(job, case.head, Findings()), cutter)
    u = planned_u(job, case.head, planned, cutter, made, Findings())
    return None if u is None else (guard_of(job, Findings()), u)


def _rule_out_thin(
    job: Job,
    plans: Sequence[ValvePlan],
    cases: Mapping[str, _Case],
    turning: Mapping[str, tuple[BoreWindow, FitLimits]],
) -> list[Bridges]:
    """Take out what a bridge does not bear whatever its neighbour gets."""
    made = []
    for head in job.heads:
        if head.least_bridge is None and not any(hole.kind == "rim" for hole in head.holes):
            continue
        of_head = [plan for plan in plans if plan.head == head.number]
        fixed = {
            plan.name: Side(turning[plan.name][0].most, plan.pilot.offset if plan.pilot else None, True)
            for plan in of_head
            if plan.name in turning
        }
        candidates = {plan.name: cases[plan.name].candidates for plan in of_head if plan.name in cases}
        bridges = Bridges(job, head, of_head, candidates, fixed)
        made.append(bridges)
        for name in candidates:
            case = cases[name]
            for one in tuple(case.bored):
                thin = bridges.rules_out(name, one)
                if thin is not None:
                    case.bored.remove(one)
                    case.reasons[one.offer.name] = thin
    return made


def _choose(job: Job, cases: Mapping[str, _Case], bridges: Sequence[Bridges]) -> Choice:
    """The choice; valves that went without because a kept pocket's insert had run out may then be bored."""
    sets = _sets(cases)
    on_hand = {
        place: None if insert.on_hand is None else round(insert.on_hand.value)
        for place, insert in enumerate(job.shop.inserts)
    }
    choosing = {name: case for name, case in cases.items() if case.candidates}
    pairs = [pair for one in bridges for pair in one.limits(choosing)]

    def rows(bored: frozenset[str]) -> list[Row]:
        return [
            Row(name, tuple(case.bored) if name in bored else case.candidates, sets.get(name))
            for name, case in choosing.items()
        ]

    found = choose(rows(frozenset()), on_hand, pairs)
    without = frozenset(
        name for name, case in choosing.items() if found.chosen[name] is None and case.keeping and case.bored
    )
    return choose(rows(without), on_hand, pairs) if without else found


def _sets(cases: Mapping[str, _Case]) -> dict[str, tuple[object, ...]]:
    """The valves that should share one size: chosen for and bored, of one head, kind, valve head and pocket."""
    groups: dict[tuple[object, ...], list[_Case]] = {}
    for case in cases.values():
        wish, spec = case.plan.valve.specification.insert, case.plan.valve.specification
        if wish is None or wish.kind != "choose" or case.keeping or case.wants.needed is None:
            continue
        across = None if spec.head_diameter is None else spec.head_diameter.value
        groups.setdefault((case.plan.head, case.plan.kind, across), []).append(case)
    found: dict[str, tuple[object, ...]] = {}
    for key, members in groups.items():
        number, before = 0, None
        for case in sorted(members, key=lambda one: one.wants.needed.value if one.wants.needed else 0.0):
            assert case.wants.needed is not None
            if before is not None and case.wants.needed.value - before > SAME_POCKET:
                number += 1
            before = case.wants.needed.value
            found[case.plan.name] = (*key, number)
    return found


def _used(chosen: Mapping[str, Candidate | None]) -> dict[str, int]:
    used: dict[str, int] = {}
    for one in chosen.values():
        if one is not None:
            used[one.offer.name] = used.get(one.offer.name, 0) + 1
    return used


def _finished(job: Job, case: _Case, choice: Choice, used: Mapping[str, int], findings: Findings) -> ValvePlan:
    """The valve with what was chosen, or on hold with what to order."""
    chosen = choice.chosen.get(case.plan.name)
    reasons = PassedOverReasons(case.offers, case.reasons, case.candidates, used)
    if chosen is None:
        worst = max(case.reasons.values(), key=rank, default=None)
        return hold_without(job, case.head, case.plan, case.wants, reasons, worst, case.not_kept, findings)
    if chosen.keep:
        plan = kept(job, case.head, case.plan, case.wants, chosen, case.bored, findings)
    else:
        plan = filled(job, case.head, case.plan, case.wants, chosen, case.bored, findings)
    assert plan.insert is not None
    return replace(plan, insert=replace(plan.insert, passed_over=reasons.beside(job, chosen)))
