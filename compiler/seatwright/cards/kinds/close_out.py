"""The close-out: the whole head under pressure before it goes out; a box on the last card before the record."""

from __future__ import annotations

from seatwright.cards.card import Box
from seatwright.cards.escape import Markdown
from seatwright.cards.parts.words import blank, name_text, valves_of
from seatwright.job.model import Head
from seatwright.planning.plan import Plan, Status


def close_out(plan: Plan, head: Head, number: int) -> Box:
    """The pressure test of the whole head, with room for what was held and found."""
    before = name_text(head.pressure_test)
    return Box(
        number,
        Markdown("Close-out: pressure-test the whole head, behind a guard. Held {} for {} found {}").format(
            blank(6), blank(5), blank(9)
        ),
        small=(f"By the engine maker's pressure. {f'Before the work: {before}.' if before else ''}".strip(),),
    )


def tested(plan: Plan, head: Head) -> str:
    """What the pressure test after the work showed, where it was written for every valve; "" else."""
    said = {
        done.pressure_test if (done := valve.finished) is not None else None
        for valve in valves_of(plan, head)
        if valve.status not in (Status.LEFT_ALONE, Status.NOT_PLANNED)
    }
    one = said.pop() if len(said) == 1 else None
    return one or ""
