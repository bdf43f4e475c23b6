"""What is wrong with the form and the depth of a bore that was cut, and what to do about it (handbook 11)."""

from __future__ import annotations

import math
from typing import Literal, TypeAlias

from msgspec import Struct

from seatwright.handbook.acceptance import reading_limits
from seatwright.job.model import CutReadings, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import MEASURE_AGAIN, REWORK, STOP, BoreLimits
from seatwright.planning.basis.wording import length, said, span_of
from seatwright.planning.certainty.as_measured import AsMeasured
from seatwright.planning.plan import CutPlan, Pocketed
from seatwright.planning.plan.figure import Figure, computed
from seatwright.text.slugs import NoticeSlug

_SLACK = 1e-9


FormSlug: TypeAlias = Literal["bore-not-round", "bore-tapers", "reading-outside", "floor-not-square"]


class Fault(Struct, frozen=True):
    """One thing wrong. verdict: what it makes of a bore that is accepted by its size; `stop` where a second reading
    says the same. help: what to do at first."""

    slug: FormSlug | Literal["pocket-deep", "pocket-shallow"]
    text: str
    help: str
    verdict: str


def form_faults(
    job: Job, plan: Pocketed, measured: AsMeasured, limits: BoreLimits | None, again: bool, findings: Findings
) -> tuple[Fault, ...]:
    """Out of round, tapered, or one reading outside the limits by more than half of `bore-round`. again : it was
    measured a second time"""
    practice, name = job.shop.practice, plan.name
    settled = STOP if again else MEASURE_AGAIN
    faults: list[Fault] = []
    if practice.bore_round is None:
        _unchecked("bore-round-not-given", "The shop has no `bore-round`: whether bores are round is not judged, nor "
                   "each reading by itself.", "Write it under `practice`.", name, findings)  # fmt: skip
    else:
        faults += _single_readings(job, measured, limits, practice.bore_round.value, settled)
    if measured.round is None:
        _unchecked("bore-measured-one-way", "The bore was measured one way only: whether it is round is not known.",
                   "Turn the gauge and write the largest and the smallest as `bore-a` and `bore-b`.", name,
                   findings)  # fmt: skip
    elif practice.bore_round is not None and measured.round.value > practice.bore_round.value + _SLACK:
        faults.append(Fault(
            "bore-not-round",
            f"The bore is {length(job, measured.round.value)} out of round; {said(job, practice.bore_round)} "
            "is the most.",
            "Measure again, cold and clean. If it stays so, look at the pilot's fit, the spindle's lock and the tip; "
            "a wider bore for the next insert cleans it up.",
            settled,
        ))  # fmt: skip
    if measured.taper is None:
        _unchecked("bore-not-measured-low", "The bore was not measured at two heights: its taper is not known.",
                   "Write `bore-low-a` and `bore-low-b`: for the first and the last bore of a setting, and where in "
                   "doubt.", name, findings)  # fmt: skip
    elif practice.bore_taper is None:
        _unchecked("bore-taper-not-given", "The shop has no `bore-taper`: the taper of bores is not judged.",
                   "Write it under `practice`.", name, findings)  # fmt: skip
    elif abs(measured.taper.value) > practice.bore_taper.value + _SLACK:
        end = "wider at the rim" if measured.taper.value > 0 else "wider at the floor"
        faults.append(Fault(
            "bore-tapers",
            f"The bore tapers by {length(job, abs(measured.taper.value))}, {end}; "
            f"{said(job, practice.bore_taper)} is the most.",
            "Measure again, cold and clean. If it stays so, look at the tip and at the alignment of head and spindle.",
            settled,
        ))  # fmt: skip
    return tuple(faults)


def deeper_by(plan: Pocketed, deep: Figure | None) -> Figure | None:
    """What a shallow pocket lacks to the depth that is aimed at; None for one that is deep enough."""
    if deep is None or plan.depth is None or deep.value >= plan.depth.least.value - _SLACK:
        return None
    aim = plan.depth.aim.called("aim")
    return computed("deeper_by", "mm", aim.value - deep.value, "aim - depth", (aim, deep), "handbook 11")


def depth_faults(
    job: Job, plan: Pocketed, readings: CutReadings, made: CutPlan, again: bool, findings: Findings
) -> tuple[Fault, ...]:
    """Shallow, too deep, or the floor out of square. again : the depth was measured a second time"""
    practice, name = job.shop.practice, plan.name
    deep, square, settled = made.depth, made.floor_square, STOP if again else MEASURE_AGAIN
    faults: list[Fault] = []
    places = [readings.depth_a, readings.depth_b, readings.depth_c, readings.depth_d]
    if deep is None:
        _unchecked("depth-not-measured", "The depth of a pocket that was cut is not measured.",
                   "Write it at four places, `depth-a` to `depth-d`.", name, findings)  # fmt: skip
    elif plan.depth is not None:
        least, most = plan.depth.least.value, plan.depth.most.value
        wanted = span_of(job, least, most)
        if made.deeper_by is not None:
            faults.append(Fault(
                "pocket-shallow",
                f"The pocket is {length(job, deep.value)} deep; {wanted} is wanted.",
                f"Take it {length(job, made.deeper_by.value)} deeper at the same setting: so "
                "much more on the depth stop. Measure again.",
                REWORK,
            ))  # fmt: skip
        elif deep.value > most + _SLACK:
            faults.append(Fault(
                "pocket-deep",
                f"The pocket is {length(job, deep.value)} deep, {length(job, deep.value - most)} more than "
                f"{wanted} allows: the insert would stand low.",
                "Measure again, with nothing under the gauge's foot. If it stays so, a taller insert, and look at the "
                "metal left under the floor.",
                settled,
            ))  # fmt: skip
    if square is None:
        if sum(place is not None for place in places) in (1, 2):
            _unchecked("floor-square-not-known", "The depth is measured at fewer than three places: whether the floor "
                       "is square to the guide is not known.", "Write it at four places, `depth-a` to `depth-d`.",
                       name, findings)  # fmt: skip
    elif practice.floor_square is None:
        _unchecked("floor-square-not-given", "The shop has no `floor-square`: whether floors are square is not judged.",
                   "Write it under `practice`.", name, findings)  # fmt: skip
    elif square.value > practice.floor_square.value + _SLACK:
        faults.append(Fault(
            "floor-not-square",
            f"The floor is {length(job, square.value)} out of square; {said(job, practice.floor_square)} is "
            "the most: the insert would ride on one side.",
            "Clean the floor and measure again. If it stays so, look at the pilot and take a light cut over the whole "
            "floor, if the depth has room for it.",
            settled,
        ))  # fmt: skip
    return tuple(faults)


def _single_readings(
    job: Job, measured: AsMeasured, limits: BoreLimits | None, bore_round: float, settled: str
) -> list[Fault]:
    """Each reading must lie within the limits, give or take half of what a bore may be out of round."""
    if limits is None:
        return []
    most = math.inf if limits.most is None else limits.most.value
    if most < limits.least.value:
        return []  # there are no limits that a reading could keep
    low, high = reading_limits(limits.least.value, most, bore_round)
    if measured.smallest.value < low - _SLACK:
        wrong, limit = measured.smallest, limits.least
    elif limits.most is not None and measured.largest.value > high + _SLACK:
        wrong, limit = measured.largest, limits.most
    else:
        return []
    beyond = length(job, abs(wrong.value - limit.value))
    return [Fault(
        "reading-outside",
        f"One reading, {length(job, wrong.value)} at 20 °C, lies {beyond} outside the limit of "
        f"{length(job, limit.value)}; half of `bore-round` is the most.",
        "Measure that place again, cold and clean: a chip or a burr reads like this.",
        settled,
    )]  # fmt: skip


def _unchecked(slug: NoticeSlug, text: str, help: str, valve: str, findings: Findings) -> None:
    findings.unchecked(slug, text, help, None, (valve,))
