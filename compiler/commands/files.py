"""The only place where files are read and written."""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path

from seatwright.job import Refused
from seatwright.text import Message, Span

LARGEST_FILE = 8_000_000  # bytes read at most; the text room has its own, smaller, limit and says so
STANDARD_INPUT = "-"


class Unreadable(Exception):
    """A job file that cannot be opened; the text says why in words."""


def loader(job: str) -> tuple[str, Callable[[str], bytes]]:
    """The name of a job file in its own folder, and how it and its shop files are read.

    A path handed to the loader is relative to the job's folder. A link, or a chain of `..`, that leads out of that
    folder is refused. Raises `Refused` for those, OSError for what cannot be opened.
    """
    if job == STANDARD_INPUT:
        return "standard-input.seat", _beside(Path.cwd(), {"standard-input.seat": sys.stdin.buffer.read(LARGEST_FILE)})
    path = Path(job)
    try:
        if path.is_dir():
            raise Unreadable(f"{job} is a folder; name the job file in it")
        first = _read(path)
    except OSError as problem:
        raise Unreadable(f"{job} cannot be read: {(problem.strerror or str(problem)).lower()}") from problem
    return path.name, _beside(path.resolve().parent if path.is_symlink() else path.parent, {path.name: first})


def _beside(folder: Path, known: dict[str, bytes]) -> Callable[[str], bytes]:
    home = folder.resolve()

    def load(name: str) -> bytes:
        if name in known:
            return known[name]
        target = (home / name).resolve()
        if not target.is_relative_to(home):
            raise Refused(f"{name} leads out of the job's folder")
        known[name] = _read(target)
        return known[name]

    return load


def _read(path: Path) -> bytes:
    # A device or a pipe could be read for ever; a job is a plain file.
    if path.exists() and not path.is_file():
        raise OSError(0, "it is no plain file")
    with path.open("rb") as file:
        return file.read(LARGEST_FILE)


def as_seen_from_here(messages: Iterable[Message], job: str) -> tuple[Message, ...]:
    """The same messages, their files named as the person named the job, so that an editor finds them."""
    folder = "" if job == STANDARD_INPUT else os.path.dirname(job)
    if not folder:
        return tuple(messages)

    def moved(span: Span) -> Span:
        return replace(span, file=f"{folder}/{span.file}")

    return tuple(
        replace(
            message,
            span=moved(message.span) if message.span else None,
            related=tuple(replace(related, span=moved(related.span)) for related in message.related),
        )
        for message in messages
    )


def write_together(folder: Path, files: dict[str, bytes]) -> None:
    """Write files into a folder so that nobody ever sees half a file, whatever stops the program.

    All are written beside their place first, then renamed; what stood there before stays whole until then. A file
    that would not change is left as it is.
    """
    folder.mkdir(parents=True, exist_ok=True)
    waiting: list[tuple[str, Path]] = []
    try:
        for name, content in files.items():
            place = folder / name
            if place.is_file() and place.read_bytes() == content:
                continue
            handle, beside = tempfile.mkstemp(prefix=f".{name}.", suffix=".part", dir=folder)
            waiting.append((beside, place))
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            os.chmod(beside, 0o644)
        for beside, place in waiting:
            os.replace(beside, place)
    finally:
        for beside, _ in waiting:
            if os.path.exists(beside):
                os.unlink(beside)
