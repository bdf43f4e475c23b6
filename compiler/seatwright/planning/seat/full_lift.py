"""What is left at full lift (handbook 17): between the coils, and between retainer and seal."""

from __future__ import annotations

from msgspec.structs import replace

from seatwright.handbook import springs as sums
from seatwright.job.model import Job, Reading
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, listed, name_key, said
from seatwright.planning.plan import SpringPlan, Stood
from seatwright.planning.plan.figure import computed, given

_SOURCE = "handbook 17"
_SLACK = 1e-9


def at_full_lift(
    job: Job, plan: Stood, made: SpringPlan, verdicts: list[tuple[str, str]], findings: Findings
) -> SpringPlan:  # fmt: skip
    """What is left between the coils and over the seal when the valve is fully open."""
    spec, lift = plan.valve.specification, plan.valve.specification.valve_lift
    asked = {"bind_room": spec.bind_room, "retainer_room": spec.retainer_room}
    least = {name: None if one is None else one.least for name, one in asked.items()}
    up = None if lift is None else given("lift", "mm", lift)
    bind = retainer = None
    missing = []
    if made.height is not None and up is not None and spec.coil_bind is not None:
        solid = given("coil_bind", "mm", spec.coil_bind)
        value = sums.room_at_lift(made.height.value, up.value, solid.value)
        bind = computed("bind_room", "mm", value, "height - lift - coil_bind", (made.height, up, solid), _SOURCE)
    elif spec.bind_room is not None:
        missing += [
            word
            for word, one in (
                ("`valve-lift`", up), ("`coil-bind`", spec.coil_bind), ("the height of the spring", made.height),
            )
            if one is None
        ]  # fmt: skip
    over_seal = _over_seal(job, plan)
    if over_seal is not None and up is not None:
        found = given("retainer_to_seal", "mm", over_seal)
        sink = None if plan.seat is None else plan.seat.sink
        z = 0.0 if sink is None else sink.value
        value = sums.room_over_seal(found.value, z, up.value)
        more, inputs = ("", (found, up)) if sink is None else (f" + {sink.symbol}", (found, sink, up))
        retainer = computed("retainer_room", "mm", value, f"retainer_to_seal{more} - lift", inputs, _SOURCE)
    elif spec.retainer_room is not None:
        missing += [
            word
            for word, one in (("`valve-lift`", up), (f"`retainer-to-seal`{_over_the_new(plan)}", over_seal))
            if one is None
        ]
    if missing:
        findings.unchecked(
            "spring-lift-not-checked",
            f"Not given: {listed(dict.fromkeys(missing))}. What is left at full lift is not checked.",
            "Give them under `valves`; the retainer is measured with the valve shut, under `measured`.",
            None,
            (plan.name,),
        )
    made = replace(
        made,
        bind_room=bind,
        retainer_room=retainer,
        bind_least=None if least["bind_room"] is None else given("bind_least", "mm", least["bind_room"]),
        retainer_least=None
        if least["retainer_room"] is None
        else given("retainer_least", "mm", least["retainer_room"]),
    )
    _judge_room(job, plan, made, verdicts, findings)
    return made


def _over_seal(job: Job, plan: Stood) -> Reading | None:
    """From retainer to seal or guide: what was read over a guide that comes out says nothing of the one that goes in.

    Where a liner is named the old guide stays, and its end and its seal with it.
    """
    found, wish = plan.found.retainer_to_seal, plan.valve.specification.guide
    name = None if wish is None or wish.name is None else name_key(wish.name)
    if not any(one.kind == "liner" and name_key(one.name.text) == name for one in job.shop.guides):
        return None if plan.guide_to_renew else found
    renewed = plan.valve.replaced
    if found is not None or any(one.part in ("seal", "retainer") for one in renewed):
        return found
    return next((one.found.retainer_to_seal for one in renewed if one.found.retainer_to_seal is not None), None)


def _over_the_new(plan: Stood) -> str:
    """Where the retainer is still to be measured."""
    return " over the new guide" if plan.guide_to_renew or plan.guide_renewed else ""


def _judge_room(
    job: Job, plan: Stood, made: SpringPlan, verdicts: list[tuple[str, str]], findings: Findings
) -> None:  # fmt: skip
    if made.bind_room is not None and made.bind_least is not None:
        low = made.bind_room.value < made.bind_least.value - _SLACK
        verdicts.append(("bind_room", "fail" if low else "pass"))
        if low:
            shimmed = "" if made.shim is None else f" The shim of {length(job, made.shim.value)} is counted in."
            findings.warning(
                "spring-binds",
                f"At full lift {length(job, made.bind_room.value)} would be left between the coils; "
                f"{said(job, made.bind_least)} is the least.{shimmed}",
                "Take a thinner shim, or a spring that binds shorter; a coil that touches breaks.",
                plan.valve.span,
                (plan.name,),
            )
    if made.retainer_room is not None and made.retainer_least is not None:
        low = made.retainer_room.value < made.retainer_least.value - _SLACK
        verdicts.append(("retainer_room", "fail" if low else "pass"))
        if low:
            findings.warning(
                "retainer-strikes",
                f"At full lift {length(job, made.retainer_room.value)} would be left between retainer and seal; "
                f"{said(job, made.retainer_least)} is the least.",
                "Press the guide further, cut its end down, or take a lower seal.",
                plan.valve.span,
                (plan.name,),
            )
