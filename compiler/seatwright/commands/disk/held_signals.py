"""Putting off Ctrl-C and the request to end until something is done that must not stop half way."""

from __future__ import annotations

import contextlib
import signal
from collections.abc import Iterator

_ENDING = (signal.SIGINT, signal.SIGTERM)


@contextlib.contextmanager
def held_signals() -> Iterator[None]:
    """What would end the program comes after this block. Nothing is put off on systems that cannot."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, _ENDING)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def let_signals_come() -> None:
    """For a process that was begun inside such a block."""
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, _ENDING)
