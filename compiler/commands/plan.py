"""`seatwright plan JOB`: the plan to standard output, as plan.json or as lines to read."""

from __future__ import annotations

import sys

from seatwright.commands.commit import commit_of
from seatwright.commands.outcome import Exit, read_and_plan, say


def plan(job: str, paper: str | None, form: str = "json") -> Exit:
    """Print the plan; errors go to standard error, and then nothing is printed. form: json | text."""
    outcome = read_and_plan(job)
    if outcome.plan is None:
        say(outcome.errors, outcome.sources)
        return Exit.ERRORS
    if form == "text":
        from seatwright.cards.plan_lines import plan_lines

        sys.stdout.write(plan_lines(outcome.plan))
        return outcome.code()
    from seatwright.cards.render import documents

    sys.stdout.write(documents(outcome.plan, paper=paper, commit=commit_of(job, outcome.plan)).plan_json)
    return outcome.code()
