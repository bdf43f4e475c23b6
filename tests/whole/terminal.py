"""Running the command on a terminal of its own, as a person sits before it."""

from __future__ import annotations

import os
import pty
import select
import subprocess
import sys
from pathlib import Path


def on_a_terminal(answers: str, *words: str, cwd: Path) -> tuple[int, str]:
    """Run the command, type the answers, and give back its code and what came to the screen."""
    ours, its = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "seatwright", *words], cwd=cwd, stdin=its, stdout=its, stderr=its, start_new_session=True
    )
    os.close(its)
    os.write(ours, answers.encode())
    shown = b""
    while select.select([ours], [], [], 60)[0]:
        try:
            more = os.read(ours, 4096)
        except OSError:  # Linux says so when the other end is closed
            break
        if not more:
            break
        shown += more
    os.close(ours)
    return process.wait(timeout=60), shown.decode()
