"""Which git commit the sources are at, when none of them is changed."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Sequence
from pathlib import Path

from seatwright.commands.disk.files import STANDARD_INPUT


def commit_of(job: str, sources: Sequence[str]) -> str | None:
    """The commit at which the job and its shop files stand as they were read.

    None outside git, for a job from standard input, and when one of the files is changed or not yet committed. It is
    the last commit that touched one of them, so that building twice gives the same bytes whatever else is committed.
    sources: their names, from the job's folder.
    """
    if job == STANDARD_INPUT:
        return None
    folder = Path(job).parent
    if not any((place / ".git").exists() for place in (folder.resolve(), *folder.resolve().parents)):
        return None
    asked = (
        ("ls-files", "--error-unmatch", "--", *sources),
        ("status", "--porcelain", "--", *sources),
        ("log", "-1", "--format=%H", "--", *sources),
    )
    begun = [_git(folder, *words) for words in asked]  # all three at once: they take longer than planning the job
    known, changes, commit = [_answer(process) for process in begun]
    return commit or None if known is not None and changes == "" else None


def _git(folder: Path, *words: str) -> subprocess.Popen[str] | None:
    command = ["git", "-C", str(folder), *words]
    # Inside a git hook GIT_DIR and its like point elsewhere than the folder says.
    environment = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
    pipe, nothing = subprocess.PIPE, subprocess.DEVNULL
    try:
        return subprocess.Popen(command, stdin=nothing, stdout=pipe, stderr=nothing, text=True, env=environment)
    except OSError:
        return None


def _answer(process: subprocess.Popen[str] | None) -> str | None:
    """What git said; None where it knows nothing of it, or takes too long."""
    if process is None:
        return None
    try:
        said, _ = process.communicate(timeout=10)
    except subprocess.TimeoutExpired:
        process.kill()
        process.communicate()
        return None
    return said.strip() if process.returncode == 0 else None
