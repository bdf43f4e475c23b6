"""The only place where files are written: whole or not at all, and several together or none of them.

What is written stands first in a file of its own, `.seatwright-….part`, beside its place. Where a program is killed
over it, the next one that writes into that folder takes it away.
"""

from __future__ import annotations

import contextlib
import os
import re
import stat
import sys
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from seatwright.commands.disk.held_signals import held_signals
from seatwright.commands.disk.lock import one_at_a_time

_PART = re.compile(r"\.seatwright-[0-9a-f]{8}\.part")


class Overtaken(Exception):
    """Nothing is written: what it was made from has been saved anew meanwhile."""


def write_together(folder: Path, files: Mapping[str, bytes], stands: Callable[[], bool]) -> None:
    """Replace a set of files by another, whole, whatever stops the program; or leave the old one whole.

    All places are tried before the first file is replaced. A file that would not change is left as it is.
    stands: whether what they were made from is still as it was read, asked when nobody else can write here any more: so
    what was made from an older job never lands over what was made from a newer one.
    Raises Overtaken; OSError, whose `filename` is the place that stood in the way.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with _alone_in(folder):
        before = {name: _standing(folder / name) for name in files}
        changed = {name: content for name, content in files.items() if before[name] != content}
        with contextlib.ExitStack() as parts:
            ready = [(parts.enter_context(_part(folder / name, content)), name) for name, content in changed.items()]
            if not stands():
                raise Overtaken
            _replace(folder, ready, before)


def create(place: Path, content: bytes) -> None:
    """Make a file where there is none. Raises FileExistsError where there is one; OSError."""
    with _alone_in(place.parent), _part(place, content) as part:
        try:
            os.link(part, place)
        except (AttributeError, NotImplementedError, PermissionError):  # not on this system, or this disk
            if os.path.lexists(place):
                raise FileExistsError(17, "it is there already", str(place)) from None
            os.replace(part, place)


def rewrite(path: Path, before: bytes, content: bytes) -> None:
    """Put new content into a file that was read; it keeps its mode and owner.

    A link stays a link: the file that it leads to is rewritten. Raises Overtaken where somebody saved it since;
    OSError, also for a file that is read-only, or that has several names, which would part.
    """
    target = Path(os.path.realpath(path, strict=True))
    was = target.stat()
    if not os.access(target, os.W_OK):
        raise PermissionError(13, "it is read-only")
    if was.st_nlink > 1:
        raise OSError(0, f"it has {was.st_nlink} names on this disk (hard links), and only this one would change")
    with _alone_in(target.parent), _part(target, content) as part:
        # Only root may give a file away; anyone else owns what may be written, or has to make it his own.
        with contextlib.suppress(PermissionError, AttributeError):
            os.chown(part, was.st_uid, was.st_gid)
        os.chmod(part, stat.S_IMODE(was.st_mode))
        if target.read_bytes() != before:
            raise Overtaken
        if not _change_places(part, target):
            os.replace(part, target)
        elif _read(part) != before:
            # Saved in this very moment: what was saved goes back, or stays where it was saved twice.
            _change_places(part, target)
            if _read(part) != content:
                _change_places(part, target)
            raise Overtaken
        _settle(target.parent)


@contextlib.contextmanager
def _alone_in(folder: Path) -> Iterator[None]:
    """Nobody else writes here, nothing ends the program half way; what killed programs left is taken away."""
    with one_at_a_time(folder), held_signals():
        for name in os.listdir(folder):
            if _PART.fullmatch(name):
                with contextlib.suppress(OSError):
                    os.unlink(folder / name)
        yield


@contextlib.contextmanager
def _part(place: Path, content: bytes) -> Iterator[Path]:
    """The content in a file beside its place, for everybody for whom new files are (umask); gone on leaving."""
    part = place.with_name(f".seatwright-{os.urandom(4).hex()}.part")
    try:
        handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        yield part
    except OSError as problem:
        raise _at(place, problem) if problem.filename in (None, str(part)) else problem from problem
    finally:
        with contextlib.suppress(FileNotFoundError):
            os.unlink(part)


def _settle(folder: Path) -> None:
    """Let the disk know the new name too, so that a power cut takes nothing back; not every system, or disk, can."""
    with contextlib.suppress(OSError):
        held = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(held)
        finally:
            os.close(held)


def _standing(place: Path) -> bytes | None:
    """What is to be replaced; None where there is nothing. Raises OSError for what cannot or must not be."""
    try:
        found = place.lstat()
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(found.st_mode):
        raise OSError(0, "a folder stands there", str(place))
    if not stat.S_ISREG(found.st_mode):
        raise OSError(0, "what stands there is no plain file", str(place))
    with place.open("r+b") as file:  # for writing: where another program has it open and keeps it, this fails
        return file.read()


def _replace(folder: Path, ready: list[tuple[Path, str]], before: Mapping[str, bytes | None]) -> None:
    done: list[str] = []
    try:
        for part, name in ready:
            os.replace(part, folder / name)
            done.append(name)
    except OSError as problem:
        for name in reversed(done):
            _put_back(folder / name, before[name])
        raise _at(folder / name, problem) from problem


def _put_back(place: Path, content: bytes | None) -> None:
    if content is None:
        os.unlink(place)
        return
    with _part(place, content) as part:
        os.replace(part, place)


def _at(place: Path, problem: OSError) -> OSError:
    return OSError(problem.errno or 0, problem.strerror or str(problem), str(place))


def _read(part: Path) -> bytes:
    return part.read_bytes()


def _change_places(one: Path, other: Path) -> bool:
    """Let two files take each other's place at once; False where the system, or the disk, cannot."""
    if sys.platform != "linux":
        return False
    import ctypes

    exchange = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if exchange is None:
        return False
    here, by_exchange = -100, 2  # AT_FDCWD and RENAME_EXCHANGE of Linux's renameat2(2)
    return bool(exchange(here, os.fsencode(one), here, os.fsencode(other), by_exchange) == 0)
