"""What the whole-job tests share: the demo jobs, and running the command as a person does."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
JOBS = ROOT / "jobs"
DEMO_JOBS = tuple(sorted(JOBS.glob("*.seat")))
PAPERS = ("a4", "letter", "a5", "half-letter")


@dataclass(frozen=True, slots=True)
class Ran:
    """What a command printed and how it ended."""

    code: int
    out: str
    err: str


def seatwright(*words: str, stdin: bytes | None = None, cwd: Path | None = None) -> Ran:
    """Run the command in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "seatwright", *words],
        input=stdin,
        capture_output=True,
        cwd=cwd,
        timeout=120,
        check=False,
    )
    return Ran(done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8"))
