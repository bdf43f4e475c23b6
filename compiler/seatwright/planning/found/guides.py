"""Is the guide fit to bore from? The pilot stands in it (handbook 1)."""

from __future__ import annotations

from msgspec.structs import replace

from seatwright.handbook import pilots as pilot_sums
from seatwright.job.model import Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, said, span_inside
from seatwright.planning.found.brought_to_20 import guide_stations
from seatwright.planning.found.finished_bore import bore_when_finished
from seatwright.planning.plan import GuideBore, Guided, GuidePlan, Started, into
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 1"
_SLACK = 1e-9


def guides(job: Job, head: Head, plans: tuple[Started, ...], findings: Findings) -> tuple[Guided, ...]:
    """Clearance, bell-mouth and verdict of each guide; a worn one puts its valve on hold, and so does a new one that
    is tight.

    One that nothing is planned on is judged too where its guide was measured, and only named. One that is renewed,
    whatever its state, or that is not to be touched, is not spoken of.
    """
    done = []
    for plan in plans:
        wish = plan.valve.specification.guide
        alone = wish is not None and wish.kind == "none"
        quiet = Findings() if alone or plan.waits_for_guide or plan.guide_to_renew else findings
        guide = _guide(job, head, plan, quiet)
        done.append(into(Guided, plan, guide=replace(guide, verdict="not-checked") if alone else guide))
    return tuple(done)


def _guide(job: Job, head: Head, plan: Started, findings: Findings) -> GuidePlan:
    spec = plan.valve.specification
    stations = {figure.symbol: figure for figure in guide_stations(plan.valve, findings, largest=True)}
    if not stations and plan.left_alone:
        return GuidePlan("not-checked")
    if not stations:
        findings.unchecked(
            "guide-not-measured",
            "The guide is not measured: whether the pilot can stand in it is not known.",
            "Measure `guide-top`, `guide-middle` and `guide-bottom` before anything else.",
            head.span,
            (plan.name,),
        )
        return GuidePlan("not-checked")
    between = spec.guide_clearance
    guide = GuidePlan(
        verdict="not-checked",
        clearance=_clearance("guide_clearance", plan.at20.guide, plan.at20.stem),
        bell_mouth=_bell_mouth(stations),
        port_end=_clearance("port_end", stations.get("guide_bottom"), plan.at20.stem),
        spring_end=_clearance("spring_end", stations.get("guide_top"), plan.at20.stem),
        least=None if between is None or between.least is None else given("least", "mm", between.least),
        most=None if between is None or between.most is None else given("most", "mm", between.most),
        wear_limit=None if spec.guide_wear_limit is None else given("wear_limit", "mm", spec.guide_wear_limit),
    )
    if plan.guide_renewed:
        new = _new(job, head, plan, findings)
        guide = replace(guide, bore=new)
        tight = plan.at20.guide_tightest
        if new is not None and tight is not None and tight.value < new.least.value - _SLACK:
            return replace(guide, verdict="tight")
    return replace(guide, verdict=_verdict(job, head, plan, guide, findings))


def _new(job: Job, head: Head, plan: Started, findings: Findings) -> GuideBore | None:
    """A new guide held against what it is to be sized to: tight, it is reamed before anything stands in it."""
    wanted = bore_when_finished(job, plan, Findings())  # what of it is missing is said with the clearance
    tight, wide = plan.at20.guide_tightest, plan.at20.guide
    if wanted is None or tight is None or wide is None:
        return wanted
    found = plan.found.guide_middle or plan.found.guide_top or plan.found.guide_bottom
    where = found.span if found else head.span
    limits = span_inside(job, wanted.least.value, wanted.most.value)
    if tight.value < wanted.least.value - _SLACK:
        tool = "ream or hone it" if wanted.reamer is None else f"ream it with {wanted.reamer}"
        findings.hold(
            plan.name,
            "guide-new-tight",
            f"The new guide of {plan.name} has {length(job, tight.value)} at its tightest, and is to have {limits}.",
            f"{tool[:1].upper()}{tool[1:]} to {limits}, then measure it again.",
            where,
            tight,
            wanted.least,
        )
    elif wide.value > wanted.most.value + _SLACK:
        findings.warning(
            "guide-new-loose",
            f"The new guide of {plan.name} has {length(job, wide.value)} at its widest, and was to have {limits}.",
            "Measure it again; a guide that is loose from new wears out of its limit soon.",
            where,
            (plan.name,),
        )
    return wanted


def _verdict(job: Job, head: Head, plan: Started, guide: GuidePlan, findings: Findings) -> str:
    if guide.clearance is None:
        findings.unchecked(
            "stem-not-given",
            "The stem is not given: the clearance of the guide is not checked.",
            "Measure `stem`, or say it under `valves`.",
            head.span,
            (plan.name,),
        )
        return "not-checked"
    limit = guide.wear_limit or guide.most
    if limit is None and guide.least is None:
        findings.unchecked(
            "guide-limit-not-given",
            "Neither `guide-wear-limit` nor `guide-clearance` is given: the guide is not judged.",
            "Take the limit from the engine maker's manual.",
            head.span,
            (plan.name,),
        )
        return "not-checked"
    if limit is not None and guide.clearance.value > limit.value + 1e-9:
        found = plan.found.guide_bottom or plan.found.guide_middle or plan.found.guide_top
        where = found.span if found else head.span
        text = (
            f"The guide of {plan.name} has {length(job, guide.clearance.value)} to the stem, at its widest; "
            f"{said(job, limit)} is the most."
        )
        if plan.left_alone:
            findings.warning(
                "guide-worn-left-alone",
                f"{text} Nothing is planned on this valve.",
                "Replace or sleeve the guide, and cut its seat true to the new one: say `insert stays` for that.",
                where,
                (plan.name,),
            )
            return "worn"
        findings.hold(
            plan.name,
            "guide-worn",
            f"{text} The pilot stands in it, so what is cut from it would follow the wear.",
            "The guide is new: measure it and the stem again. A worn stem wants another valve; a guide too wide is "
            "replaced once more."
            if plan.guide_renewed
            else "Say `guide choose` and the new one is planned; or replace or sleeve it, size it, then measure guide "
            "and pocket runout again.",
            where,
            guide.clearance,
            limit,
        )
        return "worn"
    tight = _clearance("guide_clearance_least", plan.at20.guide_tightest, plan.at20.stem)
    if tight is not None and tight.value < -1e-9:
        return "not-checked"  # a stem that does not enter, a slip or an oversize one, is said where the job is read
    if guide.least is not None and tight is not None and tight.value < guide.least.value - 1e-9:
        found = plan.found.guide_middle or plan.found.guide_top or plan.found.guide_bottom
        findings.warning(
            "guide-tight",
            f"The guide of {plan.name} has {length(job, tight.value)} to the stem, at its tightest; "
            f"{said(job, guide.least)} is the least.",
            "Ream the guide to size first, then measure it again: the pilot is chosen by it.",
            found.span if found else head.span,
            (plan.name,),
        )
        return "tight"
    return "fit"


def _clearance(symbol: str, guide: Figure | None, stem: Figure | None) -> Figure | None:
    if guide is None or stem is None:
        return None
    value = pilot_sums.stem_clearance(guide.value, stem.value)
    note = "read at one temperature, so not corrected"
    return computed(symbol, "mm", value, f"{guide.symbol} - {stem.symbol}", (guide, stem), _SOURCE, note)


def _bell_mouth(stations: dict[str, Figure]) -> Figure | None:
    """How much wider the wider end is than the middle; one end measured is enough."""
    middle = stations.get("guide_middle")
    ends = [figure for name, figure in stations.items() if name != "guide_middle"]
    if middle is None or not ends:
        return None
    value = pilot_sums.bell_mouth(ends[0].value, middle.value, ends[-1].value)
    names = ", ".join(figure.symbol for figure in ends)
    formula = f"max({names}) - guide_middle" if len(ends) == 2 else f"{names} - guide_middle"
    return computed("bell_mouth", "mm", value, formula, (*ends, middle), _SOURCE)
