"""What takes long to work out and comes out the same at every run, kept from one run to the next.

The parser's tables and the worth of the units are the same until the grammar or the unit table changes; working them
out takes longer than all the rest of a short run. They lie in a folder of the user's own: `~/.cache/seatwright` on
Linux. Nothing depends on it: where the folder cannot be made, read or written, or might be somebody else's, they are
worked out anew.

What is kept is plain: numbers, texts, lists. A file that holds anything else, that was made from something else, or
that is not as it was written, is not used.
"""

from __future__ import annotations

import contextlib
import hashlib
import io
import os
import pickle
import stat
from collections.abc import Callable
from pathlib import Path
from typing import NoReturn, TypeVar, cast

_Plain = TypeVar("_Plain")
VARIABLE = "SEATWRIGHT_CACHE"
"""Set to `off`, nothing is kept and nothing kept is read."""

_OTHERS_MAY_WRITE = stat.S_IWGRP | stat.S_IWOTH


def kept(name: str, made_from: str, make: Callable[[], _Plain]) -> _Plain:
    """What `make` makes, from the run before if that kept it.

    name: of the file. made_from: all that decides how it comes out; another text, and it is made anew. What is made
    must be plain: numbers, texts, bytes, and lists, tuples, sets and dictionaries of them.
    """
    folder = _folder()
    if folder is None:
        return make()
    with contextlib.suppress(Exception):  # a file cut short or tampered with can fail in any way
        of, found = _read(folder / name)
        if of == made_from:
            return cast(_Plain, found)
    made = make()
    with contextlib.suppress(OSError):
        _write(folder / name, pickle.dumps((made_from, made)))
    return made


def _folder() -> Path | None:
    """The folder, made if need be; None where there is none that only this user can write."""
    if os.environ.get(VARIABLE, "").lower() == "off":
        return None
    import platformdirs

    folder = platformdirs.user_cache_path("seatwright", appauthor=False)
    if not folder.is_absolute():
        return None  # nobody knows where the user's own folder is: none is made wherever the command happens to run
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        return folder if _ours(folder.lstat(), stat.S_ISDIR) else None
    except (OSError, RuntimeError):
        return None


def _ours(found: os.stat_result, kind: Callable[[int], bool]) -> bool:
    """Whether it is of this kind, belongs to this user, and nobody else may write it."""
    if not kind(found.st_mode):
        return False
    if not hasattr(os, "geteuid"):
        return True  # the folder lies in the user's profile, which the system keeps from others
    return found.st_uid == os.geteuid() and not found.st_mode & _OTHERS_MAY_WRITE


def _read(path: Path) -> tuple[str, object]:
    with os.fdopen(os.open(path, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0)), "rb") as file:
        if not _ours(os.fstat(file.fileno()), stat.S_ISREG):
            raise PermissionError(path)
        checksum, _, body = file.read().partition(b"\n")
    if checksum != _checksum(body):
        raise ValueError(path)
    of, found = _OnlyPlain(io.BytesIO(body)).load()
    return of, found


def _checksum(body: bytes) -> bytes:
    return hashlib.sha256(body).hexdigest().encode("ascii")


class _OnlyPlain(pickle.Unpickler):
    """Reads numbers, texts and lists, and refuses whatever would run code."""

    def find_class(self, module: str, name: str) -> NoReturn:
        """No class is plain."""
        raise pickle.UnpicklingError(f"{module}.{name} is not plain")


def _write(path: Path, body: bytes) -> None:
    """Beside its place first: another run may be reading. Two that write the same at once spoil it, as its checksum
    then tells; one that is killed leaves a file that the next one takes."""
    written = path.with_name(f".{path.name}.part")
    flags = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0)
    with os.fdopen(os.open(written, flags, 0o600), "wb") as file:
        file.write(_checksum(body) + b"\n" + body)
    os.replace(written, path)
