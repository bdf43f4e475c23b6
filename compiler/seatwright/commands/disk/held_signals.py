"""Putting off what would end the program until something is done that must not stop half way."""

from __future__ import annotations

import contextlib
import signal
import threading
from collections.abc import Iterator

# Ctrl-C, the request to end, a terminal that is closed, Ctrl-\, and Ctrl-Break: those that this system has.
_NAMES = ("SIGINT", "SIGTERM", "SIGHUP", "SIGQUIT", "SIGBREAK")
_ENDING = tuple(getattr(signal, name) for name in _NAMES if hasattr(signal, name))


@contextlib.contextmanager
def held_signals() -> Iterator[None]:
    """What would end the program comes after this block.

    It is caught, not blocked: blocking holds for one thread alone, and a library may have begun others, which a signal
    to the whole program would reach.
    """
    if threading.current_thread() is not threading.main_thread():
        yield  # only the first thread hears of signals
        return
    came: list[int] = []
    before = {each: signal.signal(each, lambda number, _: came.append(number)) for each in _ENDING}
    try:
        yield
    finally:
        for each, handler in before.items():
            signal.signal(each, signal.SIG_DFL if handler is None else handler)
        for number in came[:1]:
            signal.raise_signal(number)


def let_signals_come() -> None:
    """For a process that was begun inside such a block."""
    for each in _ENDING:
        signal.signal(each, signal.SIG_DFL)
