"""Which git commit the sources are at, when nothing in their folder is changed."""

from __future__ import annotations

import subprocess
from pathlib import Path


def clean_commit(folder: Path, names: list[str]) -> str | None:
    """The commit at which the named files stand unchanged, None outside git or when one of them is changed or new."""

    def git(*words: str) -> str | None:
        try:
            done = subprocess.run(
                ["git", "-C", str(folder), *words], capture_output=True, text=True, timeout=10, check=False
            )
        except (OSError, subprocess.TimeoutExpired):
            return None
        return done.stdout.strip() if done.returncode == 0 else None

    if git("ls-files", "--error-unmatch", "--", *names) is None:
        return None
    if git("status", "--porcelain", "--", *names) != "":
        return None
    return git("log", "-1", "--format=%h", "--", *names) or None
