"""Many pieces of work side by side, each in a process of its own, their results in the order of the pieces.

A process for each piece and not a pool: whatever one of them does, run out of memory or crash, the others never know,
and what it used is given back when it ends.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from multiprocessing.connection import Connection, wait
from multiprocessing.context import BaseContext
from types import FrameType
from typing import Generic, TypeVar

from seatwright.commands.held_signals import held_signals, let_signals_come

_Piece = TypeVar("_Piece")
_Result = TypeVar("_Result")
_AHEAD = 8  # results that may wait for an earlier one, for each process; beyond that nothing new begins
_PARTING = 5.0  # s that a process has to end in good order


def processors() -> int:
    """How many processors this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def in_order(
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


class _Running(Generic[_Piece, _Result]):
    """The processes at work, by the number of their piece."""

    def __init__(self, context: BaseContext, work: Callable[[_Piece], _Result]) -> None:
        self._context = context
        self._work = work
        self._at_work: dict[Connection, tuple[int, multiprocessing.process.BaseProcess]] = {}

    @property
    def count(self) -> int:
        return len(self._at_work)

    def begin(self, number: int, piece: _Piece) -> None:
        ours, its = self._context.Pipe(duplex=False)
        process = self._context.Process(target=_in_its_process, args=(self._work, piece, its))  # type: ignore[attr-defined]
        with held_signals():  # it must be known here, and ignore Ctrl-C, before one comes
            process.start()
            self._at_work[ours] = (number, process)
        its.close()

    def ended(self) -> list[tuple[int, tuple[_Result] | str]]:
        """The pieces that have ended since, at least one: each with its result, or with how its process ended."""
        found: list[tuple[int, tuple[_Result] | str]] = []
        for connection in wait(list(self._at_work)):
            assert isinstance(connection, Connection)
            number, process = self._at_work.pop(connection)
            try:
                result: tuple[_Result] | None = (connection.recv(),)
            except EOFError:
                result = None
            connection.close()
            process.join()
            found.append((number, result or _how_it_ended(process.exitcode)))
            process.close()
        return found

    def stop(self) -> None:
        for _, process in self._at_work.values():
            process.terminate()
        for connection, (_, process) in self._at_work.items():
            process.join(_PARTING)
            if process.is_alive():
                process.kill()
                process.join()
            process.close()
            connection.close()
        self._at_work.clear()


def _context() -> BaseContext:
    # A fork has everything loaded already; elsewhere each process loads the program anew.
    return multiprocessing.get_context("fork" if sys.platform == "linux" else "spawn")


def _in_its_process(work: Callable[[_Piece], _Result], piece: _Piece, connection: Connection) -> None:
    # Ctrl-C reaches every process of the terminal; only the first says so, and ends the others, which then tidy up.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, _leave)
    let_signals_come()
    connection.send(work(piece))
    connection.close()


def _leave(_number: int, _frame: FrameType | None) -> None:
    raise SystemExit(1)


def _how_it_ended(code: int | None) -> str:
    if code is not None and code < 0:
        return f"its process was ended by the signal {signal.Signals(-code).name}"
    return f"its process ended with the code {code}"
