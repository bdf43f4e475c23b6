"""A real git repository with a demo job and its shop file, for the tests that go through git."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from tests.whole.shop import JOBS

NAME = "four-cylinder-diesel.seat"


@dataclass(frozen=True, slots=True)
class Repository:
    """top: its first folder; the job lies in `jobs`."""

    top: Path

    @property
    def job(self) -> Path:
        """The job file in the work tree."""
        return self.top / "jobs" / NAME

    def git(self, *words: str, check: bool = True) -> subprocess.CompletedProcess[str]:
        """Run git in the top folder, blind to the settings of whoever runs the tests."""
        return subprocess.run(
            ["git", *words], cwd=self.top, env=environment(), capture_output=True, text=True, timeout=60, check=check
        )

    def commit(self, why: str) -> None:
        """All files as they stand."""
        self.git("add", "-A")
        self.git("commit", "-q", "-m", why)

    def edit(self, old: str, new: str) -> None:
        """Put one text of the job for another."""
        text = self.job.read_text("utf-8")
        assert text.count(old) == 1, f"{old} stands {text.count(old)} times in the job"
        self.job.write_text(text.replace(old, new), "utf-8")


def environment() -> dict[str, str]:
    """Without the person's git settings, with this build of the command on the path."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
    return kept | {
        "GIT_CONFIG_GLOBAL": os.devnull,
        "GIT_CONFIG_SYSTEM": os.devnull,
        "GIT_AUTHOR_NAME": "bench",
        "GIT_AUTHOR_EMAIL": "bench@shop.invalid",
        "GIT_COMMITTER_NAME": "bench",
        "GIT_COMMITTER_EMAIL": "bench@shop.invalid",
        "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ.get('PATH', os.defpath)}",
    }


def made_in(folder: Path) -> Repository:
    """A repository with the job and its shop file committed."""
    top = folder / "repository"
    (top / "jobs").mkdir(parents=True)
    for name in (NAME, "bench.shop"):
        shutil.copy(JOBS / name, top / "jobs" / name)
    repository = Repository(top)
    repository.git("init", "-q", "-b", "main")
    repository.commit("the job as it came in")
    return repository
