"""A real Chromium, led over a pipe: no port of its own, no library."""

from __future__ import annotations

import contextlib
import itertools
import json
import os
import select
import signal
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

# No service of the browser's own may call out while a test runs.
FLAGS = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--remote-debugging-pipe",
)


class Tab:
    """A page of a running browser. complaints: what its console had to say of errors and refused requests."""

    def __init__(self, write: int, read: int) -> None:
        self._write, self._read = write, read
        self._waiting = b""
        self._numbers = itertools.count(1)
        self.complaints: list[str] = []
        target = self._call("Target.createTarget", {"url": "about:blank"})["targetId"]
        self._session = self._call("Target.attachToTarget", {"targetId": target, "flatten": True})["sessionId"]
        for domain in ("Page", "Runtime", "Log"):
            self._call(f"{domain}.enable", {})

    _session: str | None = None

    def open(self, address: str) -> None:
        """Go to an address."""
        self._call("Page.navigate", {"url": address})

    def value(self, expression: str) -> Any:
        """What an expression comes to in the page."""
        done = self._call("Runtime.evaluate", {"expression": expression, "returnByValue": True, "awaitPromise": True})
        assert "exceptionDetails" not in done, done
        return done["result"].get("value")

    def until(self, expression: str, seconds: float = 30) -> Any:
        """Wait until an expression comes to something true."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if found := self.value(expression):
                return found
            time.sleep(0.05)
        raise AssertionError(f"never true: {expression}; the page: {self.value('document.body.innerText')}")

    def _call(self, method: str, parameters: dict[str, Any]) -> dict[str, Any]:
        number = next(self._numbers)
        message: dict[str, Any] = {"id": number, "method": method, "params": parameters}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._write, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._next()
            if answer.get("id") == number:
                assert "error" not in answer, answer
                return dict(answer["result"])
            if answer.get("method") in ("Log.entryAdded", "Runtime.exceptionThrown"):
                self.complaints.append(json.dumps(answer["params"]))

    def _next(self) -> dict[str, Any]:
        while b"\0" not in self._waiting:
            assert select.select([self._read], [], [], 60)[0], "the browser says nothing"
            more = os.read(self._read, 1 << 16)
            assert more, "the browser has gone"
            self._waiting += more
        first, _, self._waiting = self._waiting.partition(b"\0")
        return dict(json.loads(first))


@contextlib.contextmanager
def tab(profile: Path) -> Iterator[Tab]:
    """A browser with one empty page, ended on leaving."""
    its_read, our_write = os.pipe()
    our_read, its_write = os.pipe()
    # The browser reads its commands from descriptor 3 and answers on 4.
    command = f'exec chromium "$@" 3<&{its_read} 4>&{its_write}'
    browser = subprocess.Popen(
        ["bash", "-c", command, "chromium", *FLAGS, f"--user-data-dir={profile}", "about:blank"],
        pass_fds=(its_read, its_write),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    os.close(its_read)
    os.close(its_write)
    try:
        yield Tab(our_write, our_read)
    finally:
        os.close(our_write)
        os.close(our_read)
        with contextlib.suppress(ProcessLookupError):
            os.killpg(browser.pid, signal.SIGKILL)
        browser.wait(timeout=30)
