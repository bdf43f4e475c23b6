"""The guides that are renewed (handbook 16): which goes in, its hole, fit and finished bore, how it goes in, what it
holds.

It comes first at the bench and last in planning: nothing else rests on a guide that is not in yet. Of one that is in,
all of it stays for the record.
"""

from __future__ import annotations

from msgspec.structs import replace

from seatwright.handbook import guides as sums
from seatwright.job.model import Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.temperatures import head_at_bench
from seatwright.planning.basis.wording import length, said
from seatwright.planning.found.finished_bore import bore_when_finished
from seatwright.planning.guides.choosing import Case, allowed_guides, choose_guides
from seatwright.planning.guides.closing import grip_known, holds_with
from seatwright.planning.guides.going_in import going_in
from seatwright.planning.guides.holes import hole_of
from seatwright.planning.guides.saying import say_chosen, say_held, say_none
from seatwright.planning.guides.serving import ServingGuide, alloy_of_guide, serve
from seatwright.planning.plan import AssemblyPlan, GuideBore, GuideFit, GuideHole, GuidePlan, HeightLimits, ValvePlan
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 16"


def new_guides(job: Job, plans: tuple[ValvePlan, ...], findings: Findings) -> tuple[ValvePlan, ...]:
    """Choose for all valves of all heads at once, and fill in what is to be done with each guide.

    plans : of every head of the job. One that nothing serves is on hold, with what to order.
    """
    heads = {head.number: head for head in job.heads}
    cases = [
        _case(job, heads[plan.head], plan, findings)
        for plan in plans
        if (wish := plan.valve.specification.guide) is not None and wish.renews
    ]
    if not cases:
        return plans
    if not job.shop.guides:
        findings.unchecked(
            "guides-not-given",
            "The shop file has no guides: which one goes in, its fit and its hole are not computed.",
            "List guides and liners under `guides` in the shop file.",
            cases[0].head.span,
            [case.plan.name for case in cases],
        )
    chosen = choose_guides(job, cases)
    by_name = {case.plan.name: case for case in cases}
    waiting = {name: one for name, one in chosen.items() if by_name[name].plan.guide_to_renew}
    ways: dict[str, AssemblyPlan] = {}
    for head in job.heads:
        of_head = [plan for plan in plans if plan.head == head.number]
        here = {name: one for name, one in waiting.items() if by_name[name].head is head}
        ways.update(going_in(job, head, here, of_head, findings))
    done = {case.plan.name: _filled(job, case, chosen.get(case.plan.name), findings) for case in cases}
    return tuple(
        replace(plan, guide=replace(done[plan.name], assembly=ways.get(plan.name))) if plan.name in done else plan
        for plan in plans
    )


def _case(job: Job, head: Head, plan: ValvePlan, findings: Findings) -> Case:
    # What is missing of a guide that is in already is not asked for any more.
    speaking = findings if plan.guide_to_renew else Findings()
    case = Case(head, plan, bore_when_finished(job, plan, speaking))
    case.allowed, case.in_hand, case.strange = allowed_guides(job, plan)
    holes = {kind: hole_of(job, head, plan, kind, speaking) for kind in ("guide", "liner")}
    for place in () if case.strange else case.allowed:
        kind = job.shop.guides[place].kind
        found = serve(job, head, plan, place, holes[kind], case.bore, in_hand=place == case.in_hand, findings=speaking)
        if isinstance(found, ServingGuide):
            case.serving[place] = found
        else:
            case.reasons[place] = found
    if any(reason.missing == "hole" for reason in case.reasons.values()):
        # Whether a guide serves is not known yet: no liner is taken for want of a measurement.
        case.serving = {place: one for place, one in case.serving.items() if one.guide.kind == "guide"}
    return case


def _filled(job: Job, case: Case, one: ServingGuide | None, findings: Findings) -> GuidePlan:
    plan, wish = case.plan, case.plan.valve.specification.guide
    speaking = findings if plan.guide_to_renew else Findings()
    stand = _stand(plan)
    _judge_stand(job, plan, stand, findings)
    base = replace(plan.guide, action="replace", stand=stand, bore=case.bore)
    if one is None:
        say_none(job, case, speaking)
        named = None if wish is None else wish.name
        serves = tuple(job.shop.guides[place].name.text for place in case.serving) if plan.guide_to_renew else ()
        return replace(base, name=named, hole=_bare_hole(job, case), serves=serves)
    guide, alloy = one.guide, alloy_of_guide(job, one.guide)
    lining = guide.kind == "liner"
    say_chosen(job, case, one, speaking)
    least = computed("I_found", "mm", one.od_least.value - one.hole.most.value, "od_least - hole_most",
                     (one.od_least.called("od_least"), one.hole.most), _SOURCE)  # fmt: skip
    holding = one.fit.least if one.least is not None else least
    out = holds_with(case.head, plan, guide, alloy, (one.od_least, one.od_most), holding, findings)
    asked = plan.valve.specification.guide_tightness
    tightness = None if asked is None else given("tightness", "N", asked)
    holds = None if tightness is None or out is None else out.value >= tightness.value
    if holds and not lining and not grip_known(plan):
        holds = None  # what stands out of the head holds nothing
    say_held(case, one, out, tightness, holds, speaking)
    return replace(
        base,
        action="line" if lining else "replace",
        name=guide.name.text,
        alloy=None if guide.alloy is None else guide.alloy.text,
        hole=_hole(job, case.head, one, speaking),
        reamer=one.reamer,
        fit=GuideFit(one.fit.least, one.fit.most, one.fit.source, _expected(one)),
        closes=one.closes,
        bore=case.bore if case.bore is None or not guide.id_finished else replace(case.bore, reamer=None),
        bought=_bought(case.bore, one),
        push_out=out,
        tightness=tightness,
        holds=holds,
    )


def _stand(plan: ValvePlan) -> HeightLimits | None:
    wanted = plan.valve.specification.guide_stand
    limits = None if wanted is None else wanted.limits
    if limits is None:
        return None
    return HeightLimits(
        least=None if limits.least is None else given("stand_least", "mm", limits.least),
        most=None if limits.most is None else given("stand_most", "mm", limits.most),
        aim=None if limits.nominal is None or limits.least is not None else given("stand", "mm", limits.nominal),
    )


def _judge_stand(job: Job, plan: ValvePlan, stand: HeightLimits | None, findings: Findings) -> None:
    """A new guide that was pressed too far, or not far enough."""
    end = plan.found.guide_end
    if stand is None or end is None or not plan.guide_renewed:
        return
    low, high = stand.least, stand.most
    if (low is None or end.value >= low.value - 1e-9) and (high is None or end.value <= high.value + 1e-9):
        return
    limits = " to ".join(said(job, one) for one in (low, high) if one is not None)
    findings.warning(
        "guide-stands-off",
        f"The new guide of {plan.name} stands {length(job, end.value)} above the spring seat; {limits} is wanted.",
        "Press it to its height while the head is warm: the seal, and the retainer at full lift, go by it.",
        end.span,
        (plan.name,),
    )


def _expected(one: ServingGuide) -> Figure:
    """Interference of the middles: of the guide, and of its hole as it is, as it is reamed, or as it is bored."""
    od = computed("od", "mm", (one.od_least.value + one.od_most.value) / 2, "(od_least + od_most)/2",
                  (one.od_least.called("od_least"), one.od_most.called("od_most")), _SOURCE)  # fmt: skip
    least, most = one.least or one.hole.least, one.most or one.hole.most
    hole = one.cuts.called("hole") if one.cuts is not None else computed(
        "hole", "mm", (least.value + most.value) / 2, f"({least.symbol} + {most.symbol})/2", (least, most), _SOURCE
    )  # fmt: skip
    return computed("I", "mm", od.value - hole.value, "od - hole", (od, hole), _SOURCE)


def _hole(job: Job, head: Head, one: ServingGuide, findings: Findings) -> GuideHole:
    found = one.hole
    if one.least is None or one.most is None:
        return GuideHole(found.most, found.least, found.measured)
    conditions = head_at_bench(job, head, findings)
    return GuideHole(
        found.most,
        found.least,
        found.measured,
        one.least,
        one.most,
        one.least if conditions is None else conditions.at_bench(one.least, "hole_cut_least_bench"),
        one.most if conditions is None else conditions.at_bench(one.most, "hole_cut_most_bench"),
    )


def _bare_hole(job: Job, case: Case) -> GuideHole | None:
    found = hole_of(job, case.head, case.plan, "guide", Findings())
    return None if found is None else GuideHole(found.most, found.least, found.measured)


def _bought(bore: GuideBore | None, one: ServingGuide) -> GuideBore | None:
    """What a guide that is not reamed must measure before it goes in."""
    if bore is None or one.closes is None or not one.guide.id_finished:
        return None
    low, high = sums.bought_bore(bore.least.value, bore.most.value, one.closes.value)
    return GuideBore(
        computed("bought_least", "mm", low, f"{bore.least.symbol} + closes", (bore.least, one.closes), _SOURCE),
        computed("bought_most", "mm", high, f"{bore.most.symbol} + closes", (bore.most, one.closes), _SOURCE),
    )
