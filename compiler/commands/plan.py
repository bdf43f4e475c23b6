"""`seatwright plan JOB`: plan.json to standard output."""

from __future__ import annotations

import sys

from seatwright.commands.outcome import Exit, code_of, read_and_plan, say
from seatwright.text import Severity


def plan(job: str, paper: str | None) -> Exit:
    """Print the plan; errors go to standard error, and then nothing is printed."""
    made, messages, sources = read_and_plan(job)
    if made is None:
        say((message for message in messages if message.severity is Severity.ERROR), sources)
        return Exit.ERRORS
    from seatwright.cards.render import plan_json
    from seatwright.commands.commit import commit_of

    sys.stdout.write(plan_json(made, paper=paper, commit=commit_of(job, made)))
    return code_of(made, messages)
