"""One program at a time in a folder, so that two builds of one job never mix their cards.

The lock is the folder's own where the system can lock one: no file is made, and it ends with the program that holds
it, however that ends. Elsewhere it is a file, `.seatwright.lock`: locked by the system where it can lock files, else
held by being there, and taken for left behind once it is older than any holder needs.
"""

from __future__ import annotations

import contextlib
import errno
import os
import time
from collections.abc import Callable, Iterator
from pathlib import Path

LOCK_NAME = ".seatwright.lock"
_PATIENCE = 30.0  # s: as long as another is waited for
_LOOK = 0.02  # s between two tries
_LEFT_BEHIND = 10.0  # s: what is written under the lock takes a tenth of one
_HELD = (errno.EACCES, errno.EAGAIN, errno.EDEADLK)


@contextlib.contextmanager
def one_at_a_time(folder: Path) -> Iterator[None]:
    """Nobody else in such a block of the same folder. Raises OSError where another does not leave it in time."""
    release = _of_folder(folder) or _of_file(folder)
    try:
        yield
    finally:
        release()


def _of_folder(folder: Path) -> Callable[[], None] | None:
    """The folder itself, locked; None where this system, or this disk, locks no folder."""
    try:
        import fcntl
    except ImportError:
        return None
    held = os.open(folder, os.O_RDONLY | os.O_CLOEXEC)
    try:
        _wait(folder, lambda: _locked(lambda: fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)))
    except _Cannot:
        os.close(held)
        return None
    except BaseException:
        os.close(held)
        raise
    return lambda: os.close(held)


def _of_file(folder: Path) -> Callable[[], None]:
    place = folder / LOCK_NAME
    try:
        import msvcrt
    except ImportError:
        _wait(folder, lambda: _made(place))
        return lambda: _away(place)
    held = os.open(place, os.O_RDWR | os.O_CREAT)
    try:
        _wait(folder, lambda: _locked(lambda: msvcrt.locking(held, msvcrt.LK_NBLCK, 1)))  # type: ignore[attr-defined]
    except BaseException:
        os.close(held)
        raise

    def release() -> None:
        os.close(held)
        _away(place)

    return release


class _Cannot(OSError):
    """There are no locks of this kind here."""


def _locked(lock: Callable[[], object]) -> bool:
    try:
        lock()
    except OSError as problem:
        if problem.errno in _HELD:
            return False
        raise _Cannot from problem
    return True


def _made(place: Path) -> bool:
    try:
        os.close(os.open(place, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
    except FileExistsError:
        with contextlib.suppress(OSError):
            if time.time() - place.stat().st_mtime > _LEFT_BEHIND:
                place.unlink()
        return False
    return True


def _away(place: Path) -> None:
    with contextlib.suppress(OSError):  # another holds it open, and takes it away when it is done
        place.unlink()


def _wait(folder: Path, taken: Callable[[], bool]) -> None:
    until = time.monotonic() + _PATIENCE
    while not taken():
        if time.monotonic() > until:
            raise TimeoutError(errno.EBUSY, "another seatwright is writing there and does not end", str(folder))
        time.sleep(_LOOK)
