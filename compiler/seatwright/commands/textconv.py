"""`seatwright textconv FILE`: a job as lines of its plan, for `git diff` to hold one version against another.

Git hands over a file by itself, out of its folder, and stops the whole diff when the command fails. So what a job uses
may be looked for in another folder, and a job that cannot be planned gives its messages and its own text instead.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from seatwright.commands.disk import files
from seatwright.commands.jobs.outcome import Exit, Outcome, outcome_of
from seatwright.text.terminal import render


def textconv(name: str, used_from: str | None) -> Exit:
    """Print the lines of the plan. used_from: the folder of the shop files, None for that of the file itself."""
    job = files.open_job(name)
    if used_from is not None:
        if not os.path.isdir(used_from):
            raise files.Unreadable(f"{used_from} is no folder; name the one that the job's shop files lie in")
        job = files.JobFiles(job.name, files.real(Path(used_from)), used_from, job.load(job.name))
    outcome = outcome_of(job)
    if outcome.plan is None:
        sys.stdout.write(_unplanned(job, outcome))
        return Exit.DONE
    from seatwright.cards.as_text.plan_lines import plan_lines

    sys.stdout.write(plan_lines(outcome.plan))
    return Exit.DONE


def _unplanned(job: files.JobFiles, outcome: Outcome) -> str:
    said = render(outcome.errors, {source.path: source for source in outcome.sources}, colour=False, columns=100)
    text = job.load(job.name).decode("utf-8", "replace")
    return f"no plan: the job has errors\n\n{said.rstrip()}\n\nThe job as it is written:\n\n{text}"
