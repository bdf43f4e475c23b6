"""The short table that a build ends with."""

from __future__ import annotations

from seatwright.planning.figure import Figure
from seatwright.planning.plan import Plan, ValvePlan

_MM_PER_INCH = 25.4


def summary(plan: Plan, job: str, folder: str) -> str:
    """One line a valve: insert, bore limits at the bench, setting, where it stands; then where the cards are."""
    head = ("valve", "insert", "bore at the bench", "setting", "stands at")
    rows = [head, *(_row(plan, valve) for valve in plan.valves)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(head))]
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]
    return "\n".join([f"{job}: cards in {folder}", *(f"  {line}" for line in lines)]) + "\n"


def _row(plan: Plan, valve: ValvePlan) -> tuple[str, str, str, str, str]:
    holds = ", ".join(hold.slug for hold in valve.holds)
    return (
        valve.name,
        valve.insert.name if valve.insert else "-",
        _limits(plan, valve),
        str(valve.setting) if valve.setting is not None else "-",
        f"HOLD ({holds})" if holds else valve.status,
    )


def _limits(plan: Plan, valve: ValvePlan) -> str:
    if valve.bore is None:
        return "-"
    return f"{_length(plan, valve.bore.bench_least)} to {_length(plan, valve.bore.bench_most)}"


def _length(plan: Plan, figure: Figure) -> str:
    if plan.job.units == "inch":
        return f"{figure.value / _MM_PER_INCH:.4f} in"
    return f"{figure.value:.3f} mm"
