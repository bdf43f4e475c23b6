"""Many pieces of work side by side, in a few processes, their results in the order of the pieces.

A process takes one piece after another. Where it ends over one of them, out of memory or by a crash, that piece is lost
and no other: another process goes on. After a number of pieces a process ends, and gives back what it used.
"""

from __future__ import annotations

import contextlib
import gc
import multiprocessing
import os
import signal
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from multiprocessing.connection import Connection, wait
from multiprocessing.context import BaseContext
from types import FrameType
from typing import Generic, TypeVar

from seatwright.commands.disk.held_signals import held_signals, let_signals_come

_Piece = TypeVar("_Piece")
_Result = TypeVar("_Result")
_AHEAD = 8  # results that may wait for an earlier one, for each process; beyond that nothing new begins
_PIECES = 100  # that a process works on before another takes its place
_PARTING = 5.0  # s that a process has to end in good order


def processors() -> int:
    """How many processors this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def shared_out(
    work: Callable[[_Piece], _Result],
    pieces: Sequence[_Piece],
    at_once: int,
    lost: Callable[[_Piece, str], _Result],
    done: Callable[[int], None],
) -> Iterator[_Result]:
    """The result of each piece, in their order.

    at_once: processes at a time. lost: the result of a piece whose process ended without one, and how it ended.
    done: told after each piece how many are done. However this is left, no process stays behind.
    """
    running = _Running(_context(), work)
    results: dict[int, _Result] = {}
    begun = ended = 0
    try:
        for wanted, _ in enumerate(pieces):
            while wanted not in results:
                while begun < len(pieces) and running.count < at_once and begun < wanted + _AHEAD * at_once:
                    running.begin(begun, pieces[begun])
                    begun += 1
                for number, found in running.ended():
                    results[number] = lost(pieces[number], found) if isinstance(found, str) else found[0]
                    ended += 1
                    done(ended)
            yield results.pop(wanted)
    finally:
        running.stop()


class _Worker:
    """A process that works, and the way to it. number: of its piece; None while it waits for one."""

    def __init__(self, context: BaseContext, work: Callable[[_Piece], _Result], others: Iterable[_Worker]) -> None:
        self.ours, its = context.Pipe()
        # A fork holds our ends of all the ways too: while one stays open there, no process learns that we are gone.
        open_there = [self.ours, *(each.ours for each in others)] if context.get_start_method() == "fork" else []
        words = (work, its, open_there)
        self.process = context.Process(target=_in_its_process, args=words)  # type: ignore[attr-defined]
        self.number: int | None = None
        self.begun = 0
        with _terminating_later():
            self.process.start()
        its.close()

    def begin(self, number: int, piece: object) -> None:
        self.number = number
        self.begun += 1
        with contextlib.suppress(OSError):  # it has died this moment: what comes back from it says so
            self.ours.send((piece,))

    def part(self) -> None:
        """Close the way to it, upon which it ends, and let go of it."""
        self.ours.close()
        self.process.join(_PARTING)
        if self.process.is_alive():
            self.process.kill()
            self.process.join()
        self.process.close()


class _Running(Generic[_Piece, _Result]):
    """The processes at work."""

    def __init__(self, context: BaseContext, work: Callable[[_Piece], _Result]) -> None:
        self._context = context
        self._work = work
        self._workers: list[_Worker] = []

    @property
    def count(self) -> int:
        """How many work on a piece."""
        return sum(worker.number is not None for worker in self._workers)

    def begin(self, number: int, piece: _Piece) -> None:
        waiting = next((each for each in self._workers if each.number is None and each.process.is_alive()), None)
        if waiting is None:
            with held_signals():  # it must be known here, and ignore Ctrl-C, before one comes
                waiting = _Worker(self._context, self._work, self._workers)
                self._workers.append(waiting)
        waiting.begin(number, piece)

    def ended(self) -> list[tuple[int, tuple[_Result] | str]]:
        """The pieces that have ended since, at least one: each with its result, or with how its process ended."""
        at_work = {worker.ours: worker for worker in self._workers if worker.number is not None}
        found: list[tuple[int, tuple[_Result] | str]] = []
        for connection in wait(list(at_work)):
            assert isinstance(connection, Connection)
            worker = at_work[connection]
            number = worker.number
            assert number is not None
            worker.number = None
            try:
                found.append((number, (connection.recv(),)))
                spent = worker.begun >= _PIECES
            except (EOFError, ConnectionError):
                worker.process.join()
                found.append((number, _how_it_ended(worker.process.exitcode)))
                spent = True
            if spent:
                self._workers.remove(worker)
                worker.part()
        return found

    def stop(self) -> None:
        for worker in self._workers:
            worker.process.terminate()
        for worker in self._workers:
            worker.part()
        self._workers.clear()


def _context() -> BaseContext:
    # A fork has everything loaded already; elsewhere each process loads the program anew.
    return multiprocessing.get_context("fork" if sys.platform == "linux" else "spawn")


def _in_its_process(
    work: Callable[[_Piece], _Result], connection: Connection, not_its_own: Iterable[Connection]
) -> None:
    # Ctrl-C reaches every process of the terminal; only the first says so, and ends the others, which then tidy up.
    let_signals_come()
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, _leave)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, (signal.SIGTERM,))
    for each in not_its_own:
        each.close()
    gc.freeze()  # what was loaded before the work was split stays: it is never looked through again
    with contextlib.suppress(EOFError, ConnectionError):  # the first process has no more to do, or is gone
        while True:
            (piece,) = connection.recv()
            connection.send(work(piece))


@contextlib.contextmanager
def _terminating_later() -> Iterator[None]:
    """A process begun here is told to end only once it can hear it: a fork forgets what came in its first moment."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, (signal.SIGTERM,))
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _leave(_number: int, _frame: FrameType | None) -> None:
    raise SystemExit(1)


def _how_it_ended(code: int | None) -> str:
    if code is not None and code < 0:
        return f"its process was ended by the signal {signal.Signals(-code).name}"
    return f"its process ended with the code {code}"
