"""What brings a stem and a spring back between their limits: grinding and shims, as the shop allows (handbook 12)."""

from __future__ import annotations

from seatwright.handbook import recession as sums
from seatwright.job.model import Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, said
from seatwright.planning.plan import HeightLimits, Started
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.seat.allowed import shrinks
from seatwright.text.slugs import WarningSlug

_SOURCE = "handbook 12"
_SLACK = 1e-9


def grind(job: Job, plan: Started, after: Figure, limits: HeightLimits | None, findings: Findings) -> Figure | None:
    """The least that must come off the stem's end, where the shop says how much may; None where nothing has to, or may.

    Grinding brings a stem down that stands too high over its spring seat, and makes one longer that is measured to the
    head's edge or the cam.
    """
    if limits is None:
        return None
    if shrinks(plan):
        over, limit = _under(after, limits.least), limits.least
        wrong, opposite, counted = "least", _under(limits.most, after), limits.most
    else:
        over, limit = _under(limits.most, after), limits.most
        wrong, opposite, counted = "most", _under(after, limits.least), limits.least
    if counted is not None and opposite > _SLACK:
        _warn(
            plan,
            "stem-low",
            f"The stem end will stand at {length(job, after.value)}; the {'most' if wrong == 'least' else 'least'} is "
            f"{said(job, counted)}.",
            "Sink the valve more if the recession allows, or take a valve with a longer stem.",
            findings,
        )
        return None
    if limit is None or over <= _SLACK:
        return None
    beyond = "over the most" if wrong == "most" else "under the least"
    high = f"The stem end will stand at {length(job, after.value)}, {length(job, over)} {beyond} of {said(job, limit)}"
    most = job.shop.practice.stem_grind_most
    if most is None:
        _warn(
            plan,
            "stem-high",
            f"{high}. Nothing may be ground off: the shop has no `stem-grind-most`.",
            "Take another valve or insert; tips are hardened only so deep, and some valves are hollow: grind only by "
            "the engine maker's figure, written as `stem-grind-most`.",
            findings,
        )
        return None
    if over > most.value + _SLACK:
        _warn(
            plan,
            "stem-high",
            f"{high}; no more than {said(job, most)} may be ground off.",
            "Take another valve, or replace the insert by one whose seat lies higher.",
            findings,
        )
        return None
    if plan.valve.specification.sodium_filled:
        _warn(
            plan,
            "stem-grind-sodium",
            f"The valve is sodium-filled, and {length(job, over)} is to come off its stem end.",
            "Have the engine maker's word for this valve first: a hollow stem ground open burns.",
            findings,
        )
    parts = (after, limit) if wrong == "most" else (limit, after)
    return computed("grind", "mm", over, f"{parts[0].symbol} - {parts[1].symbol}", parts, _SOURCE,
                    f"at least; at most {most.typed}")  # fmt: skip


def _under(one: Figure | None, other: Figure | None) -> float:
    """How much the one lies under the other; nothing where one of them is not known."""
    return 0.0 if one is None or other is None else other.value - one.value


def shim(job: Job, plan: Started, after: Figure, limits: HeightLimits | None, findings: Findings) -> Figure | None:
    """The stack of shims under the spring, together; None where none is needed, or none will do."""
    if limits is None:
        return None
    if limits.least is not None and after.value < limits.least.value - _SLACK:
        _warn(
            plan,
            "spring-short",
            f"The spring will have {length(job, after.value)}; the least is {said(job, limits.least)}.",
            "Take shims out if there are any, or sink the valve more if recession and stem allow.",
            findings,
        )
        return None
    if limits.most is None or after.value <= limits.most.value + _SLACK:
        return None
    long = (
        f"The spring will have {length(job, after.value)}, "
        f"{length(job, after.value - limits.most.value)} over the most of {said(job, limits.most)}"
    )
    practice = job.shop.practice
    if not practice.shims or practice.shim_limit is None:
        _warn(plan, "spring-long", f"{long}; the shop has no `shims` with a `shim-limit`.",
              "Write what is on the shelf and how much may be stacked.", findings)  # fmt: skip
        return None
    if limits.least is None:
        _warn(plan, "spring-long", f"{long}; a shim was not chosen, since only one limit is given.",
              "Give `spring-height` two limits.", findings)  # fmt: skip
        return None
    thick = [one.value for one in practice.shims]
    stack = None
    for least in (_clear_of_bind(plan, limits.least.value), limits.least.value):
        if stack is None and least <= limits.most.value:
            stack = sums.shims_for(after.value, least, limits.most.value, thick, practice.shim_limit.value)
    if stack is None:
        most = said(job, practice.shim_limit)
        _warn(plan, "spring-long", f"{long}; no stack of the shop's shims up to {most} brings it between its limits.",
              "Take another shim, or replace the insert.", findings)  # fmt: skip
        return None
    used = []
    for place, size in enumerate(stack, start=1):
        one = next(each for each in practice.shims if each.value == size)
        used.append(given("shim" if len(stack) == 1 else f"shim_{place}", "mm", one))
    if len(used) == 1:
        return used[0]
    return computed("shims", "mm", sum(stack), " + ".join(each.symbol for each in used), used, _SOURCE)


def _clear_of_bind(plan: Started, least: float) -> float:
    """The least height of the spring that leaves its coils the room that is asked for at full lift, where it is known.

    A stack that leaves it goes before one that does not.
    """
    spec = plan.valve.specification
    if spec.valve_lift is None or spec.coil_bind is None or spec.bind_room is None or spec.bind_room.least is None:
        return least
    return max(least, spec.valve_lift.value + spec.coil_bind.value + spec.bind_room.least.value)


def _warn(plan: Started, slug: WarningSlug, text: str, help: str, findings: Findings) -> None:
    findings.warning(slug, text, help, plan.valve.span, (plan.name,))
