"""`seatwright plan JOB`: the plan to standard output, as plan.json or as lines to read."""

from __future__ import annotations

import sys

from seatwright.commands.disk.commit import commit_of
from seatwright.commands.disk.shop_templates import templates_of
from seatwright.commands.jobs.outcome import Exit, read_and_plan, say


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
    from seatwright.cards.render import TemplateFault, documents

    try:
        names = [source.path for source in outcome.plan.job.sources]
        own = templates_of(job, names[1:])
        made = documents(outcome.plan, paper=paper, commit=commit_of(job, names), templates=own)
    except TemplateFault as problem:
        sys.stderr.write(f"seatwright plan: {job}: {problem}\n")
        return Exit.WRONG_USE
    sys.stdout.write(made.plan_json)
    return outcome.code()
