"""`seatwright enter` on a terminal of its own, typed as a person or a gauge with a plug does: figure, Enter."""

from __future__ import annotations

import os
import pty
import re
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

_PROMPT = re.compile(r"(?:^|\n)([IE][0-9]+[A-Z]? [a-z-]+) \[[^\]\n]*\] (?:\([^)\n]*\) )?$")


class AtTheBench:
    """A run of the command; `screen` is what came to it since the last figure."""

    def __init__(self, folder: Path, *words: str) -> None:
        self._ours, its = pty.openpty()
        self.process = subprocess.Popen(
            [sys.executable, "-m", "seatwright", "enter", *words],
            cwd=folder,
            stdin=its,
            stdout=its,
            stderr=its,
            start_new_session=True,
        )
        os.close(its)
        self.screen = ""
        self.asked = self._question()

    def type(self, typed: str) -> str:
        """Type a line once the question stands there; give back the next question, "" where it has ended."""
        os.write(self._ours, typed.encode() + b"\r")
        self.screen = ""
        self.asked = self._question()
        return self.asked

    def _question(self) -> str:
        until = time.monotonic() + 60
        while time.monotonic() < until:
            if select.select([self._ours], [], [], 0.2)[0]:
                try:
                    more = os.read(self._ours, 4096)
                except OSError:  # Linux says so when the other end is closed
                    more = b""
                if not more:
                    self.process.wait(timeout=60)
                    return ""
                self.screen += more.decode("utf-8", "replace").replace("\r\n", "\n")
            found = _PROMPT.search(self.screen)
            if found is not None:
                return found[1]
        raise AssertionError(f"no question came: {self.screen}")

    def end(self, number: int = signal.SIGKILL) -> int:
        """End it by a signal."""
        self.process.send_signal(number)
        code = self.process.wait(timeout=60)
        os.close(self._ours)
        return code
