"""`seatwright watch JOB`: rebuilds on save and shows the cards in a browser, which reloads by itself."""

from __future__ import annotations

import importlib.util
import signal
import sys
import threading
import webbrowser

from seatwright.commands.disk import files
from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.saying import say
from seatwright.commands.watch.rebuild import Latest, build_in_memory, changed, state_in_words
from seatwright.commands.watch.server import serving
from seatwright.text import Severity
from seatwright.text.showing import visible


def watch(job: str, paper: str | None, browser: bool) -> Exit:
    """Build, show, wait for the next save, until Ctrl-C. Nothing is written to disk. browser: open one."""
    if importlib.util.find_spec("watchfiles") is None:
        sys.stderr.write("seatwright watch: the package watchfiles is not installed; pip install 'seatwright[watch]'\n")
        return Exit.WRONG_USE
    if job == files.STANDARD_INPUT:
        sys.stderr.write("seatwright watch: standard input cannot be watched; name a job file\n")
        return Exit.WRONG_USE
    files.open_job(job)  # a name with a slip is said at once; a file that goes later is waited for
    stop = threading.Event()
    before = signal.signal(signal.SIGTERM, lambda _number, _frame: stop.set())
    latest = Latest()
    try:
        with serving(job, latest, lambda address: _announce(job, address, browser)):
            _follow(job, paper, latest, stop)
    except KeyboardInterrupt:
        pass
    finally:
        signal.signal(signal.SIGTERM, before)
    sys.stderr.write("\nseatwright watch: ended\n")
    return Exit.DONE


def _follow(job: str, paper: str | None, latest: Latest, stop: threading.Event) -> None:
    while True:
        built = build_in_memory(job, paper)
        shown = latest.put(built)
        say((message for message in shown.messages if message.severity is Severity.ERROR), shown.sources)
        sys.stderr.write(f"{visible(f'{job}: {state_in_words(shown)}')}\n")
        if not changed(built.files, stop):
            return


def _announce(job: str, address: str, browser: bool) -> None:
    sys.stdout.write(f"{visible(job)} is shown at {address}\nIt follows every save; Ctrl-C ends it.\n")
    sys.stdout.flush()
    if browser:
        webbrowser.open(address)
