"""Recession, stem and spring: where the valve is to sit, and what brings stem and spring back (handbook 12).

Recession is the flat of the valve head below the deck as it will be when all is skimmed. Limits of recession and a skim
are figures square to the deck; stem and spring move along the stem. A tilted valve's deck figures are taken along the
stem by 1/cos(tilt) before they are put together, and the aim is taken back to be measured from the deck.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import recession as sums
from seatwright.handbook import seats
from seatwright.job.model import Head, Job, Limits, Reading
from seatwright.planning.basis.faces import skim_when_not_said
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, span_of
from seatwright.planning.plan import HeightLimits, Started
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.seat.allowed import Allowed, deeper_only, of_spring, of_stem, shrinks
from seatwright.planning.seat.stem_and_spring import grind, shim

_SOURCE = "handbook 12"


class Heights(Struct, frozen=True):
    """What is known of recession, stem and spring. aim: the recession to cut to, along the stem."""

    aim: Figure | None = None
    recession: HeightLimits | None = None
    stem: HeightLimits | None = None
    spring: HeightLimits | None = None
    sink: Figure | None = None
    stem_change: Figure | None = None
    stem_after: Figure | None = None
    spring_after: Figure | None = None
    shim: Figure | None = None
    grind: Figure | None = None


def heights(job: Job, head: Head, plan: Started, findings: Findings) -> Heights:
    """Limits, the aim that all of them allow, and the sums for stem and spring."""
    spec, practice = plan.valve.specification, job.shop.practice
    limits = _recession_limits(job, head, plan, findings)
    now = _recession_now(head, plan, findings)
    stem, spring = _limits("stem", spec.stem_height), _limits("spring", spec.spring_height)
    stem_found = _found("stem_found", plan.found.stem_height)
    spring_found = _found("spring_found", plan.found.spring_height)
    grind_most = None if practice.stem_grind_most is None else given("grind_most", "mm", practice.stem_grind_most)
    shims_most = None
    if practice.shims and practice.shim_limit is not None:
        shims_most = given("shim_limit", "mm", practice.shim_limit)
    own = None
    if limits is not None and (limits.least or limits.most):
        own = Allowed("recession", *(each and along_stem(plan, each) for each in (limits.least, limits.most)))
    own = deeper_only(job, plan, own, now, findings)
    allowed = [] if own is None else [own]
    if _can_allow("stem", plan, now, stem_found, stem, findings) and now and stem_found and stem:
        allowed.append(of_stem(plan, now, stem_found, stem, grind_most))
    if _can_allow("spring", plan, now, spring_found, spring, findings) and now and spring_found and spring:
        allowed.append(of_spring(now, spring_found, spring, shims_most))
    wanted = None if limits is None else limits.aim
    aim = _aim(job, head, plan, allowed, wanted and along_stem(plan, wanted), findings)
    if aim is not None and limits is None:
        limits = HeightLimits()
    if limits is not None:
        deck = None if aim is None else _square_to_deck(plan, aim)
        limits = replace(limits, aim=deck, expected=deck and deck.called("R_expected"))
    done = Heights(aim=aim, recession=limits, stem=stem, spring=spring)
    return done if aim is None or now is None else _after(job, plan, done, aim, now, stem_found, spring_found, findings)


def along_stem(plan: Started, figure: Figure) -> Figure:
    """A figure square to the deck as it counts along the stem; itself where the valve is not tilted."""
    tilt = plan.valve_tilt
    if tilt is None:
        return figure
    value = seats.along_stem(figure.value, tilt.value)
    return computed(f"{figure.symbol}_stem", "mm", value, f"{figure.symbol} / cos(tilt)", (figure, tilt), _SOURCE)


def _square_to_deck(plan: Started, figure: Figure) -> Figure:
    tilt = plan.valve_tilt
    if tilt is None:
        return figure
    value = figure.value / seats.along_stem(1.0, tilt.value)
    return computed("R_aim", "mm", value, f"{figure.symbol} * cos(tilt)", (figure, tilt), _SOURCE)


def _found(symbol: str, reading: Reading | None) -> Figure | None:
    return None if reading is None else given(symbol, "mm", reading)


def _limits(name: str, limits: Limits | None) -> HeightLimits | None:
    """Two limits or one; an aim alone is no limit, and holds only the aim."""
    if limits is None:
        return None
    if limits.least is None and limits.most is None:
        return None if limits.nominal is None else HeightLimits(aim=given(f"{name}_wanted", "mm", limits.nominal))
    return HeightLimits(
        least=None if limits.least is None else given(f"{name}_least", "mm", limits.least),
        most=None if limits.most is None else given(f"{name}_most", "mm", limits.most),
    )


def _recession_limits(job: Job, head: Head, plan: Started, findings: Findings) -> HeightLimits | None:
    """The most falls by a skim only if it is a limit of the valve train; the least keeps the valve off the piston, and
    moves only where the maker says that both do."""
    limits = _limits("R", plan.valve.specification.recession)
    if limits is None or limits.most is None or head.skim is None or head.recession_limit_follows is None:
        return limits
    skim = given("skim", "mm", head.skim.amount)
    _, lowered = sums.limits_after_skim(-math.inf, limits.most.value, skim.value)
    most = computed(
        "R_most", "mm", lowered, "R_most_printed - skim", (limits.most.called("R_most_printed"), skim),
        f"{_SOURCE}, a limit of the valve train",
    )  # fmt: skip
    if limits.least is not None and head.recession_limit_follows.text.endswith("both"):
        printed = limits.least.called("R_least_printed")
        least = computed(
            "R_least", "mm", printed.value - skim.value, "R_least_printed - skim", (printed, skim),
            f"{_SOURCE}, both limits of the valve train",
        )  # fmt: skip
        return replace(limits, least=least, most=most)
    if limits.least is not None and most.value < limits.least.value:
        findings.warning(
            "skim-leaves-no-recession",
            f"The skim takes the most recession down to {length(job, most.value)}, and the least of "
            f"{length(job, limits.least.value)} stays, since it keeps the valve off the piston: nothing is left.",
            "A thicker gasket or another head: ask the engine maker. The least does not give way.",
            head.skim.span,
            (plan.name,),
        )
    return replace(limits, most=most)


def _recession_now(head: Head, plan: Started, findings: Findings) -> Figure | None:
    """Recession before the seat is touched, against the deck as it will be, along the stem."""
    found = _found("R_found", plan.found.recession)
    if found is None:
        return None
    skim = head.skim
    if skim is None or skim.when == "before-measuring":
        return along_stem(plan, found.called("R_now"))
    if skim.when is None:
        skim_when_not_said(head, plan, findings)
        return None
    off = given("skim", "mm", skim.amount)
    value = sums.recession_now(found.value, off.value)
    now = computed("R_now", "mm", value, "R_found - skim", (found, off), f"{_SOURCE}, skimmed after measuring")
    return along_stem(plan, now)


def _can_allow(
    name: str, plan: Started, now: Figure | None, found: Figure | None, limits: HeightLimits | None, findings: Findings
) -> bool:
    """Whether it can be said which recessions stem or spring allow; what is missing for it is said."""
    what = "stem" if name == "stem" else "spring"
    if limits is None or (limits.least is None and limits.most is None) or now is None or found is None:
        if limits is None:
            why, help = f"no limits of `{what}-height` are given", f"Give `{what}-height` under `valves`"
        elif found is None or plan.found.recession is None:
            why = f"`{what}-height` or `recession` was not measured with the old valve on the old seat"
            help = "It is lost once the insert is out: set a valve on the finished seat and measure then"
        elif now is None:
            return False  # said with the skim
        else:
            why, help = f"`{what}-height` is an aim, not a limit", "Give two limits to be judged by"
        findings.unchecked(
            "stem-height-not-computed" if name == "stem" else "spring-height-not-computed",
            f"What cutting the seat does to the {what} was not held against limits: {why}.",
            f"{help}.",
            None,
            (plan.name,),
        )
        return False
    return True


def _aim(
    job: Job, head: Head, plan: Started, allowed: Sequence[Allowed], wanted: Figure | None, findings: Findings
) -> Figure | None:
    """The middle of what all allow, or the aim that the job gives, brought inside what the others allow."""
    if any(each.window.least > each.window.most for each in allowed):
        return None  # said where the limits crossed
    if not allowed:
        if wanted is None:
            _say_no_aim(head, plan, "no limits of recession, stem or spring that could be computed", findings)
        return wanted
    together = sums.aim_of_recession([each.window for each in allowed])
    if together.gives_way:
        _say_gives_way(job, plan, allowed, together.missed, findings)
    used = [each for each in allowed if each.name not in together.gives_way]
    lows = [each.least for each in used if each.least is not None]
    highs = [each.most for each in used if each.most is not None]
    low = _one_of("max", "R_low", lows)
    high = _one_of("min", "R_high", highs)
    if wanted is not None:
        return _inside(job, plan, wanted, low, high, findings)
    if together.gives_way:
        end = low if low is not None and together.aim == low.value else high
        return None if end is None else end.called("R_aim")
    if together.aim is None or low is None or high is None:
        _say_no_aim(head, plan, "limits of recession, stem and spring that leave one side open", findings)
        return None
    formula = f"({low.symbol} + {high.symbol})/2"
    return computed("R_aim", "mm", together.aim, formula, (low, high), _SOURCE, "the middle of what all allow")


def _one_of(pick: str, symbol: str, edges: Sequence[Figure]) -> Figure | None:
    if len(edges) < 2:
        return edges[0] if edges else None
    value = (max if pick == "max" else min)(edge.value for edge in edges)
    return computed(symbol, "mm", value, f"{pick}({', '.join(edge.symbol for edge in edges)})", edges, _SOURCE)


def _inside(
    job: Job, plan: Started, wanted: Figure, low: Figure | None, high: Figure | None, findings: Findings
) -> Figure:
    edge, pick = None, ""
    if low is not None and wanted.value < low.value:
        edge, pick = low, "max"
    elif high is not None and wanted.value > high.value:
        edge, pick = high, "min"
    if edge is None:
        return wanted
    findings.warning(
        "recession-aim-moved",
        f"A recession of {length(job, wanted.value)} is wanted, and stem or spring allow it only "
        f"{'from' if pick == 'max' else 'up to'} {length(job, edge.value)}: the aim is moved there.",
        "If the wish counts, stem or spring must be brought back another way: another valve, a shim, a ground stem.",
        plan.valve.span,
        (plan.name,),
    )
    formula = f"{pick}({wanted.symbol}, {edge.symbol})"
    return computed("R_aim", "mm", edge.value, formula, (wanted, edge), _SOURCE)


def _say_no_aim(head: Head, plan: Started, why: str, findings: Findings) -> None:
    findings.unchecked(
        "recession-no-aim",
        f"There is no recession to aim at ({why}): how deep the seat goes was not computed.",
        "Give `recession` two limits, or an aim.",
        head.span,
        (plan.name,),
    )


def _say_gives_way(
    job: Job, plan: Started, allowed: Sequence[Allowed], missed: Sequence[sums.Missed], findings: Findings
) -> None:
    def says(each: Allowed) -> str:
        window = each.window
        if each.least is None:
            return f"{each.name} most {length(job, window.most)}"
        if each.most is None:
            return f"{each.name} least {length(job, window.least)}"
        return f"{each.name} {span_of(job, window.least, window.most)}"

    names = [each.name for each in missed]
    findings.warning(
        "no-common-recession",
        f"No recession suits all ({'; '.join(says(each) for each in allowed)}): "
        f"the {' and the '.join(names)} {'gives' if len(names) == 1 else 'give'} way.",
        " ".join(_way_out(job, plan, each) for each in missed),
        plan.valve.span,
        (plan.name,),
    )


def _way_out(job: Job, plan: Started, missed: sums.Missed) -> str:
    """What to do about a window that gives way: what is too low is never ground, what is too short never shimmed."""
    by, deep = length(job, abs(missed.by)), missed.by > 0
    if missed.name == "spring":
        if deep:
            return f"The spring will be {by} too long beyond `shim-limit`: replace the insert by one that sits higher."
        return f"The spring will be {by} too short: take shims out if there are any, or another spring or retainer."
    if missed.name == "stem" and deep != shrinks(plan):
        return f"The stem will be {by} too high beyond `stem-grind-most`: take another valve, or replace the insert."
    if missed.name == "stem":
        return f"The stem will be {by} too low: take a valve with a longer stem. Nothing is ground."
    return ""


def _after(
    job: Job, plan: Started, done: Heights, aim: Figure, now: Figure, stem_found: Figure | None,
    spring_found: Figure | None, findings: Findings,
) -> Heights:  # fmt: skip
    """The sums: sinking by z raises the stem end by z (to the head's edge or the cam it takes z off) and lengthens the
    spring by z."""
    z = computed("z", "mm", aim.value - now.value, f"{aim.symbol} - {now.symbol}", (aim, now), _SOURCE)
    done = replace(done, sink=z)
    if stem_found is not None:
        if shrinks(plan):
            value = sums.stem_to_edge_after(stem_found.value, aim.value, now.value)
            formula = f"stem_found - ({aim.symbol} - {now.symbol})"
            change = computed("stem_change", "mm", -z.value, "-z", (z,), _SOURCE)
        else:
            value = sums.stem_after(stem_found.value, aim.value, now.value)
            formula, change = f"stem_found + {aim.symbol} - {now.symbol}", z.called("stem_change")
        after = computed("stem_after", "mm", value, formula, (stem_found, aim, now), _SOURCE)
        off = grind(job, plan, after, done.stem, findings)
        done = replace(done, stem_change=change, stem_after=after, grind=off)
        if done.stem is not None:
            done = replace(done, stem=replace(done.stem, expected=_ground(after, off, shrinks(plan))))
    if spring_found is not None:
        value = sums.spring_after(spring_found.value, aim.value, now.value)
        formula = f"spring_found + {aim.symbol} - {now.symbol}"
        after = computed("spring_after", "mm", value, formula, (spring_found, aim, now), _SOURCE)
        under = shim(job, plan, after, done.spring, findings)
        done = replace(done, spring_after=after, shim=under)
        if done.spring is not None:
            done = replace(done, spring=replace(done.spring, expected=_less("spring_expected", after, under)))
    return done


def _ground(after: Figure, off: Figure | None, longer: bool) -> Figure:
    """The height of the stem once it is ground: less, or more where it is measured to the head's edge or the cam."""
    if off is None or not longer:
        return _less("stem_expected", after, off)
    formula = f"{after.symbol} + {off.symbol}"
    return computed("stem_expected", "mm", after.value + off.value, formula, (after, off), _SOURCE)


def _less(symbol: str, after: Figure, taken: Figure | None) -> Figure:
    if taken is None:
        return after.called(symbol)
    value = after.value - taken.value
    return computed(symbol, "mm", value, f"{after.symbol} - {taken.symbol}", (after, taken), _SOURCE)
