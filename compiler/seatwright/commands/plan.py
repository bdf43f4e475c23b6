"""`seatwright plan JOB`: the plan to standard output, as plan.json or as lines to read."""

from __future__ import annotations

import sys

from seatwright.commands.disk.commit import commit_of
from seatwright.commands.disk.files import open_job
from seatwright.commands.disk.shop_templates import templates_of
from seatwright.commands.jobs.outcome import Exit, outcome_of, say


def plan(job: str, paper: str | None, form: str = "json") -> Exit:
    """Print the plan; errors go to standard error, and then nothing is printed. form: json | text."""
    opened = open_job(job)
    outcome = outcome_of(opened)
    if outcome.plan is None:
        say(outcome.errors, outcome.sources)
        return Exit.ERRORS
    if form == "text":
        from seatwright.cards.as_text.plan_lines import plan_lines

        sys.stdout.write(plan_lines(outcome.plan))
        return outcome.code()
    from seatwright.cards.as_text.plan_as_built import plan_as_built

    names = [source.path for source in outcome.plan.job.sources]
    own = templates_of(job, names[1:])
    commit = commit_of(job, opened.named(names))
    sys.stdout.write(plan_as_built(outcome.plan, paper=paper, commit=commit, templates=own))
    return outcome.code()
