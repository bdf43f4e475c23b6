"""`seatwright plan JOB`: plan.json to standard output."""

from __future__ import annotations

import sys

from seatwright.commands.commit import commit_of
from seatwright.commands.outcome import Exit, read_and_plan, say


def plan(job: str, paper: str | None) -> Exit:
    """Print the plan; errors go to standard error, and then nothing is printed."""
    outcome = read_and_plan(job)
    if outcome.plan is None:
        say(outcome.errors, outcome.sources)
        return Exit.ERRORS
    from seatwright.cards.render import documents

    sys.stdout.write(documents(outcome.plan, paper=paper, commit=commit_of(job, outcome.plan)).plan_json)
    return outcome.code()
