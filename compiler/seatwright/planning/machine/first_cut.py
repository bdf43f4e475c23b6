"""The first cut of a setting, below size, in a pocket that it makes round, so that it can be measured."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.handbook import setting
from seatwright.job.model import Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, said
from seatwright.planning.plan import FirstCut, Passed
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 6"


class FirstBore(Struct, frozen=True):
    """Where the first cut is made, how far under size, and what it comes to."""

    valve: str
    under: Figure
    first: FirstCut


class _Pocket(Struct, frozen=True):
    """An old pocket: the diameter below which a cut in it is not round; None where that is not known."""

    plan: Passed
    inputs: tuple[Figure, ...]
    least_round: float | None


def first_cut(
    job: Job,
    setting_name: str,
    members: Sequence[Passed],
    aim: Figure,
    reading: Figure | None,
    step: float,
    findings: Findings,
) -> FirstBore | None:
    """The first cut of a setting: as far under size as the shop says, or as the pocket with most stock allows.

    setting_name : what messages call it
    members : in the order in which they would be bored
    step : of the setting gauge [mm]; a smaller first cut is a whole number of them
    """
    wish = job.shop.practice.trial_under
    names = tuple(plan.name for plan in members)
    if wish is None:
        findings.unchecked(
            "trial-under",
            "No first cut below size is planned: `practice` names no `trial-under`.",
            "Write it, such as `trial-under 0.10`; until then the first bore of a setting has nothing to be opened by.",
            None,
            names,
        )
        return None
    wanted = _on_step(job, given("trial_under", "mm", wish))
    pockets = [_pocket(plan) for plan in members]
    unknown = tuple(pocket.plan.name for pocket in pockets if pocket.least_round is None)
    if unknown:
        findings.unchecked(
            "trial-round-not-checked",
            "Whether the first cut takes the old pocket away all round was not checked: the pocket, its runout or the "
            "pilot's play is not known.",
            "Measure the pocket and its runout, or look at the first cut before it is measured.",
            None,
            unknown,
        )
    for pocket in pockets:
        if _is_round(pocket, aim.value, wanted.value):
            if pocket is not pockets[0]:
                _say_other_pocket(job, setting_name, pockets[0], pocket, wanted, findings)
            return _trial(pocket, wanted, aim, reading)
    most_stock = min(
        (pocket for pocket in pockets if pocket.least_round is not None),
        key=lambda pocket: pocket.least_round or 0.0,
        default=None,
    )
    if most_stock is None:
        return _trial(pockets[0], wanted, aim, reading)
    return _smaller(job, setting_name, most_stock, wanted, aim, reading, step, findings)


def _on_step(job: Job, wanted: Figure) -> Figure:
    """The shop's figure in whole steps of the gauge, so that the first reading is one that the gauge shows."""
    if job.gauge is None or job.gauge.step is None:
        return wanted
    step = given("step", "mm", job.gauge.step)
    value = setting.round_to_step(wanted.value, step.value)
    formula = "trial_under, to the nearest whole step"
    return computed("trial_under", "mm", value, formula, (wanted, step), _SOURCE)


def _pocket(plan: Passed) -> _Pocket:
    """The old pocket of a valve; an integral seat has none, so that any cut below the seat is in fresh metal.

    A pocket that has been bored already, and came out small, is as wide as it was cut: a cut below that is in air.
    """
    offset = plan.found.pocket_offset
    lean = plan.pilot.offset if plan.pilot else None
    if plan.cut is not None and plan.cut.bore is not None:
        return _Pocket(plan, (plan.cut.bore,), plan.cut.bore.value)
    if plan.valve.specification.seat_integral is not None:
        return _Pocket(plan, (), 0.0)
    if plan.at20.pocket is None or offset is None or lean is None:
        return _Pocket(plan, (), None)
    off = given("offset", "mm", offset)
    least = plan.at20.pocket.value + 2 * (off.value + lean.value)
    return _Pocket(plan, (plan.at20.pocket, off, lean), least)


def _is_round(pocket: _Pocket, aim: float, under: float) -> bool:
    if pocket.least_round is None:
        return False
    if not pocket.inputs:
        return True
    old, offset, lean = (*(figure.value for figure in pocket.inputs), 0.0, 0.0)[:3]
    return setting.trial_is_round(aim, under, old, offset, lean)


def _smaller(
    job: Job,
    setting_name: str,
    pocket: _Pocket,
    wanted: Figure,
    aim: Figure,
    reading: Figure | None,
    step: float,
    findings: Findings,
) -> FirstBore | None:
    """The largest first cut, in whole steps of the gauge, that is round in the pocket with most stock."""
    room = aim.value - (pocket.least_round or 0.0)
    whole = setting.whole_steps(step, max(room, 0.0), step) if room >= step else None
    name = pocket.plan.name
    if whole is None:
        findings.warning(
            "no-first-cut",
            f"Setting {setting_name}: no cut below size would take the old pocket away all round, not even in {name}: "
            f"the bore is {length(job, aim.value)} and the old pocket, with how far it stands off, "
            f"{length(job, pocket.least_round or 0.0)}.",
            "Prove the setting in scrap of the same metal, and write the result under `trial`.",
            pocket.plan.valve.span,
            (name,),
        )
        return None
    value = setting.at_step(whole[1], step)
    bored = pocket.plan.cut is not None
    needs = "the bore as cut" if bored else "pocket + 2 * (offset + e)"
    formula = f"largest whole step of the gauge with aim - trial_under >= {needs}"
    under = computed("trial_under", "mm", value, formula, (wanted, aim, *pocket.inputs), _SOURCE)
    findings.notice(
        "first-cut-smaller",
        f"Setting {setting_name}: a first cut {said(job, wanted)} under size would leave old metal on one side of "
        f"every pocket; it is {length(job, value)} under size, in {name}.",
        "Make it in that pocket, and measure it before the others are bored.",
        pocket.plan.valve.span,
        (name,),
    )
    return _trial(pocket, under, aim, reading)


def _say_other_pocket(
    job: Job, setting_name: str, first: _Pocket, chosen: _Pocket, wanted: Figure, findings: Findings
) -> None:
    findings.notice(
        "first-cut-elsewhere",
        f"Setting {setting_name}: a first cut {said(job, wanted)} under size would leave old metal on one side of "
        f"{first.plan.name}, so it is made in {chosen.plan.name}.",
        f"Bore {chosen.plan.name} first."
        if chosen.plan.waits is None
        else f"Set nothing yet: {chosen.plan.waits.text}",
        chosen.plan.valve.span,
        (chosen.plan.name,),
    )


def _trial(pocket: _Pocket, under: Figure, aim: Figure, reading: Figure | None) -> FirstBore:
    inputs = (aim.called("aim"), under.called("trial_under"))
    bore = computed("first", "mm", aim.value - under.value, "aim - trial_under", inputs, _SOURCE)
    read = None
    if reading is not None:
        parts = (reading, inputs[1])
        read = computed("first_reading", "mm", reading.value - under.value, "reading - trial_under", parts, _SOURCE)
    return FirstBore(pocket.plan.name, under, FirstCut(bore, read))
