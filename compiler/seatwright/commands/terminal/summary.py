"""The short table that a build ends with: the words and the digits of its cards."""

from __future__ import annotations

from seatwright.cards.parts.words import STATUS, WITH_FIGURES, bore_limits, span
from seatwright.planning.plan import Plan, ValvePlan


def summary(plan: Plan, job: str, folder: str) -> str:
    """One line a valve: insert, bore limits at the bench, setting, where it stands; then where the cards are."""
    head = ("valve", "insert", "bore at the bench", "setting", "stands")
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
        _setting(plan, valve),
        f"HOLD ({holds})" if holds else STATUS[valve.status],
    )


def _setting(plan: Plan, valve: ValvePlan) -> str:
    setting = next((each for each in plan.settings if each.number == valve.setting), None)
    return setting.name if setting is not None else "-"


def _limits(plan: Plan, valve: ValvePlan) -> str:
    """As on the cards: in the unit of the bore gauge, inwards to its step."""
    pair = bore_limits(plan.job, valve) if valve.status in WITH_FIGURES else None
    return f"{span(pair)} {pair[0].unit}" if pair is not None else "-"
