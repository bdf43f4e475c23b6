"""The bore of a valve: limits at 20 °C, and what the bore gauge must show at the bench (handbook 0 and 5)."""

from __future__ import annotations

from msgspec import Struct

from seatwright.handbook import setting
from seatwright.job.model import Head, Job
from seatwright.planning.basis.bore_gauge import shows
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import said, span_of
from seatwright.planning.plan import Bore
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 5, 6"


class BoreWindow(Struct, frozen=True):
    """Limits and aim of a bore at 20 °C."""

    least: Figure
    most: Figure
    aim: Figure


def bore_at_bench(job: Job, head: Head, window: BoreWindow, valve: str, findings: Findings) -> Bore:
    """The bore as planned and as the bore gauge shows it, limits rounded inwards to its step.

    Without a bore gauge nothing is rounded, which is said; limits too close for its step stay as they are, with a
    warning.
    """
    symbols = ("shown_least", "shown_most", "shown_aim")
    figures = (window.least, window.most, window.aim)
    least, most, aim = (
        shows(job, head, figure, symbol, findings, (valve,)) for figure, symbol in zip(figures, symbols, strict=True)
    )
    whole = Bore(
        window.least,
        window.most,
        window.aim,
        least.called("bench_least"),
        most.called("bench_most"),
        aim.called("bench_aim"),
    )
    step = None if job.bore_gauge is None or job.bore_gauge.step is None else job.bore_gauge.step
    if step is None:
        findings.unchecked(
            "bore-gauge-not-given",
            "The shop has no `bore-gauge` with a `step`: bore limits are not rounded to what it shows, and verdicts "
            "use the bare limits.",
            "Describe the gauge that measures the bore in the shop file.",
            head.span,
            (valve,),
        )
        return whole
    by = given("step", "mm", step)
    inside = setting.round_inwards(least.value, most.value, by.value)
    if inside is None:
        findings.warning(
            "bore-gauge-too-coarse",
            f"The bore gauge shows no reading between the limits of {valve}, "
            f"{span_of(job, least.value, most.value)}: its step is {said(job, step)}.",
            "Measure this bore with a finer gauge.",
            step.span,
            (valve,),
        )
        return whole
    note = f"rounded inwards to {said(job, step)}"
    return Bore(
        window.least,
        window.most,
        window.aim,
        computed("bench_least", "mm", inside[0], "shown_least, up to a step", (least, by), _SOURCE, note),
        computed("bench_most", "mm", inside[1], "shown_most, down to a step", (most, by), _SOURCE, note),
        _aim(aim, inside, by, note=f"rounded to {said(job, step)}"),
    )


def _aim(aim: Figure, inside: tuple[float, float], by: Figure, note: str) -> Figure:
    """The nearest reading to the aim; where the limits hold one reading only, that one."""
    nearest = setting.round_to_step(aim.value, by.value)
    value = min(max(nearest, inside[0]), inside[1])
    return computed("bench_aim", "mm", value, "shown_aim, to the nearest step", (aim, by), _SOURCE, note)
