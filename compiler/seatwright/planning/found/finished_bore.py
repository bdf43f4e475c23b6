"""What the bore of a new guide is to come to, once it is in: the maker's limits, else the stem and its clearance."""

from __future__ import annotations

from seatwright.handbook import guides as sums
from seatwright.job.model import Job, Reamer
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, span_inside, span_of
from seatwright.planning.plan import GuideBore, Started
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_SOURCE = "handbook 16"
_SLACK = 1e-9


def bore_when_finished(job: Job, plan: Started, findings: Findings) -> GuideBore | None:
    """Limits of the finished bore, and the reamer that cuts it; None where it is not known, which is said."""
    limits = _limits(job, plan, findings)
    if limits is None:
        return None
    least, most = limits
    at = sums.reamer_for(least.value, most.value, [cut.value for _, cut in reamers(job, "guide", findings)])
    return GuideBore(least, most, None if at is None else reamers(job, "guide", findings)[at][0].name.text)


def reamers(job: Job, serves: str, findings: Findings) -> tuple[tuple[Reamer, Figure], ...]:
    """The shop's reamers for holes or for guides, each with what it cuts; one without an overcut cuts its size."""
    found = []
    for one in job.shop.reamers:
        if one.diameter is None or one.serves not in (serves, "any"):
            continue
        size = given("reamer", "mm", one.diameter)
        if one.overcut is None:
            findings.notice(
                "reamer-overcut-left-out",
                f"The overcut of the reamer {one.name.text} is left out: it is taken to cut its own size.",
                "Ream a scrap of the same metal, measure it, and write `overcut` in the shop file.",
                one.name.span,
            )
        over = (
            assumed("overcut", "mm", 0.0, "language: a reamer's overcut left out")
            if one.overcut is None
            else given("overcut", "mm", one.overcut)
        )
        cut = computed("cut", "mm", size.value + over.value, "reamer + overcut", (size, over), _SOURCE)
        found.append((one, cut))
    return tuple(found)


def _limits(job: Job, plan: Started, findings: Findings) -> tuple[Figure, Figure] | None:
    spec = plan.valve.specification
    if spec.guide_bore is not None and spec.guide_bore.least is not None and spec.guide_bore.most is not None:
        makers = (
            given("guide_bore_least", "mm", spec.guide_bore.least),
            given("guide_bore_most", "mm", spec.guide_bore.most),
        )
        _against_stem(job, plan, *makers, findings)
        return makers
    between, stem = spec.guide_clearance, _stem(plan)
    missing = []
    if stem is None:
        missing.append("`stem`")
    if between is None or between.least is None or between.most is None:
        missing.append("`guide-clearance` with two limits")
    if stem is None or between is None or between.least is None or between.most is None:
        findings.unchecked(
            "guide-bore-not-known",
            f"What the new guide is to be sized to is not known: {' and '.join(missing)} not given.",
            "Give them, or the maker's `guide-bore`, under `valves`; a stem is best measured.",
            None,
            (plan.name,),
        )
        return None
    c_least, c_most = given("c_least", "mm", between.least), given("c_most", "mm", between.most)
    found = sums.finished_bore(stem[0].value, stem[1].value, c_least.value, c_most.value)
    if found is None:
        findings.warning(
            "guide-bore-none",
            f"The limits of the stem are {length(job, stem[1].value - stem[0].value)} apart, wider than those of its "
            f"clearance, {between.typed}: no one bore suits every such stem.",
            "Measure the stem of this valve, and write it under `measured`.",
            plan.valve.span,
            (plan.name,),
        )
        return None
    low, high = stem
    return (
        computed("guide_bore_least", "mm", found[0], f"{high.symbol} + c_least", (high, c_least), _SOURCE),
        computed("guide_bore_most", "mm", found[1], f"{low.symbol} + c_most", (low, c_most), _SOURCE),
    )


def _against_stem(job: Job, plan: Started, least: Figure, most: Figure, findings: Findings) -> None:
    """The maker's bore is for the maker's stem: whether it gives the one that was measured its clearance."""
    spec, measured = plan.valve.specification, plan.found.stem
    wanted, between = spec.guide_bore, spec.guide_clearance
    if wanted is None or between is None or between.least is None or between.most is None or measured is None:
        return
    tight, loose = least.value - measured.largest, most.value - measured.smallest
    if tight >= between.least.value - _SLACK and loose <= between.most.value + _SLACK:
        return
    low = max(least.value, measured.largest + between.least.value)
    high = min(most.value, measured.smallest + between.most.value)
    way = (
        f"Size the guide to {span_inside(job, low, high)}, and it is within both."
        if low <= high + _SLACK
        else "Take another valve; or leave `guide-bore` out for this one, and the guide is sized to this stem."
    )
    findings.warning(
        "guide-bore-off-stem",
        f"`guide-bore` {wanted.typed} would give the stem of {plan.name}, "
        f"{measured.typed} as measured, {span_of(job, max(tight, 0.0), loose)}; {between.typed} is its clearance.",
        way,
        measured.span,
        (plan.name,),
    )


def _stem(plan: Started) -> tuple[Figure, Figure] | None:
    """Least and most of the stem: as measured, else by its limits, else the one figure."""
    measured, spec = plan.found.stem, plan.valve.specification
    if measured is not None:
        if measured.smallest == measured.largest:
            one = given("stem", "mm", measured)
            return one, one
        return given("stem_least", "mm", measured, measured.smallest), given(
            "stem_most", "mm", measured, measured.largest
        )
    limits = spec.stem_limits
    if limits is not None and limits.least is not None and limits.most is not None:
        return given("stem_least", "mm", limits.least), given("stem_most", "mm", limits.most)
    if spec.stem is None:
        return None
    one = given("stem", "mm", spec.stem)
    return one, one
