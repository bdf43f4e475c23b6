"""A bore that came out small: how far it has still to be opened, and the reading that does it (handbook 6 and 11).

It is opened from what its very cut did: what the cutter bored over or under its setting it will again. It goes back
into a setting of its cutter, whose reading is the one to wind to. Where the overcut that it tells is far off the one in
use, something moved: it is opened by half, measured, and gone on from that. A bore in no setting, on hold, counts to
its own aim, and its reading from the one that it was cut at.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from seatwright.handbook import setting as sums
from seatwright.handbook.opening import reopened_reading
from seatwright.job.model import Head, Job
from seatwright.planning.after.cut_limits import between, fit_made, limits_of
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.temperatures import head_at_bench
from seatwright.planning.basis.verdicts import REWORK, BoreLimits, fine
from seatwright.planning.basis.wording import length
from seatwright.planning.certainty.as_measured import as_measured
from seatwright.planning.machine.opening import ToOpen
from seatwright.planning.plan import CutPlan, InSetting, Setting
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 6, 11"


def reopen(
    job: Job,
    head: Head,
    plans: tuple[InSetting, ...],
    settings: Sequence[Setting],
    openings: Mapping[str, ToOpen],
    findings: Findings,
) -> tuple[InSetting, ...]:
    """Every small bore with `open_by` and `new_reading`, and what its machinist is told.

    settings : of this head, as the valves stand in them
    openings : what opens the bores that stand in them, by valve
    """
    by_number = {each.number: each for each in settings}
    done = []
    for plan in plans:
        made = plan.cut
        if made is None or made.bore is None or (limits := _small(job, plan, made)) is None:
            done.append(plan)
            continue
        setting = None if plan.setting is None else by_number.get(plan.setting)
        to_open = openings.get(plan.name)
        opened = _opened(job, head, plan, made, setting, to_open)
        if not plan.left_alone:
            _say_small(job, plan, opened, made.bore, limits, setting, findings)
            if to_open is not None and to_open.moved is not None:
                _say_moved(job, plan, made, findings)
        done.append(replace(plan, cut=opened))
    return tuple(done)


def _small(job: Job, plan: InSetting, cut: CutPlan) -> BoreLimits | None:
    """The limits that a cut bore is small by; None for any other."""
    if cut.bore_verdict != REWORK:
        return None
    return limits_of(job, plan, cut.u, Findings())  # what there is to say was said with the verdict


def _opened(
    job: Job, head: Head, plan: InSetting, made: CutPlan, setting: Setting | None, to_open: ToOpen | None
) -> CutPlan:
    readings = plan.valve.cut
    measured = None if readings is None else as_measured(job, head, readings, Findings())
    if plan.bore is None or measured is None:
        return made
    aim = plan.bore.aim if setting is None else setting.aim if to_open is None else to_open.aim
    aim, bored = aim.called("aim"), measured.bore
    at = head_at_bench(job, head, Findings(), measured.at)
    if at is not None:
        aim, bored = at.at_bench(aim, "aim_bench"), at.at_bench(bored, "bored")
    half = to_open is not None and to_open.moved is not None
    value, formula = aim.value - bored.value, f"{aim.symbol} - {bored.symbol}"
    by = computed("open_by", "mm", value / 2 if half else value, f"({formula}) / 2" if half else formula, (aim, bored),
                  _SOURCE, "on diameter; half of it on radius")  # fmt: skip
    if setting is None:
        return replace(made, open_by=by, new_reading=None if made.read is None else _from_its_own(job, made.read, by))
    reading = setting.reading if not half or setting.first is None else setting.first.reading
    return replace(made, open_by=by, new_reading=None if reading is None else reading.called("new_reading"))


def _from_its_own(job: Job, read: Figure, by: Figure) -> Figure:
    """The reading that a bore was cut at, and what it has to be opened by."""
    inputs, formula, value = [read, by], "read + open_by", reopened_reading(read.value, by.value)
    if job.gauge is not None and job.gauge.step is not None:
        step = given("step", "mm", job.gauge.step)
        inputs, formula = [*inputs, step], f"{formula}, to the nearest step"
        value = sums.round_to_step(value, step.value)
    return computed("new_reading", "mm", value, formula, inputs, _SOURCE)


def _reading(setting: Setting) -> float | None:
    return None if setting.reading is None else setting.reading.value


def _say_small(
    job: Job,
    plan: InSetting,
    made: CutPlan,
    bore: Figure,
    limits: BoreLimits,
    setting: Setting | None,
    findings: Findings,
) -> None:
    by = ""
    if made.open_by is not None:
        half = length(job, made.open_by.value / 2)
        by = f"Open it by {length(job, made.open_by.value)} on diameter, {half} on radius"
        to = [] if setting is None else [setting.name]
        if made.new_reading is not None and (setting is None or made.new_reading.value != _reading(setting)):
            to.insert(0, f"setting gauge to {length(job, made.new_reading.value)}")
        by += f": {', '.join(to)}. " if to else ". "
    findings.warning(
        "bore-small",
        f"The bore is {fine(job, bore.value)} at 20 °C{fit_made(job, plan, made)}; "
        f"{between(job, limits)} is wanted: it is small.",
        f"{by}Measure again and write it under a later `cut`.",
        plan.valve.span,
        (plan.name,),
    )


def _say_moved(job: Job, plan: InSetting, made: CutPlan, findings: Findings) -> None:
    """The cut tells an overcut that this cutter does not have."""
    told = (
        "not as it was set"
        if made.overcut is None
        else (
            f"{fine(job, abs(made.overcut.value))} {'under' if made.overcut.value < 0 else 'over'} what it was set to"
        )
    )
    usual = "" if plan.cutter is None else f" of {plan.cutter}"
    findings.warning(
        "setting-moved",
        f"The bore came out {told}, which is far from the overcut{usual} in use: something moved.",
        "Look at the tip, its lock and the gauge on its master. Open the bore by half of what is missing, measure, "
        "write it under a later `cut`, and go on from that.",
        plan.valve.span,
        (plan.name,),
    )
