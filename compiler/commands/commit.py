"""Which git commit the sources are at, when none of them is changed."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

from seatwright.commands.files import STANDARD_INPUT
from seatwright.planning.plan import Plan


def commit_of(job: str, plan: Plan) -> str | None:
    """The commit at which the job and its shop files stand as they were read.

    None outside git, for a job from standard input, and when one of the files is changed or not yet committed. It is
    the last commit that touched one of them, so that building twice gives the same bytes whatever else is committed.
    """
    if job == STANDARD_INPUT:
        return None
    folder = Path(job).parent
    names = [source.path for source in plan.job.sources]
    if _git(folder, "ls-files", "--error-unmatch", "--", *names) is None:
        return None
    if _git(folder, "status", "--porcelain", "--", *names) != "":
        return None
    return _git(folder, "log", "-1", "--format=%H", "--", *names) or None


def _git(folder: Path, *words: str) -> str | None:
    command = ["git", "-C", str(folder), *words]
    # Inside a git hook GIT_DIR and its like point elsewhere than the folder says.
    environment = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
    try:
        done = subprocess.run(command, capture_output=True, text=True, timeout=10, check=False, env=environment)
    except (OSError, subprocess.TimeoutExpired):
        return None
    return done.stdout.strip() if done.returncode == 0 else None
