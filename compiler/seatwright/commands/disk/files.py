"""The only place where files are read and written."""

from __future__ import annotations

import contextlib
import hashlib
import os
import stat
import sys
import tempfile
from collections.abc import Iterable
from pathlib import Path

from msgspec.structs import replace

from seatwright.commands.disk.held_signals import held_signals
from seatwright.text import Message, Source, Span, reading

LARGEST_FILE = 8_000_000  # bytes read at most; the text room has its own, smaller, limit and says so
STANDARD_INPUT = "-"


class Unreadable(Exception):
    """A job file that cannot be opened; the text says why in words."""


class JobFiles:
    """A job file and what it uses, read once each. name: the job file's own, in its folder.

    fingerprints: of every file that was asked for, as it was read; "" for one that could not be.
    """

    def __init__(self, name: str, home: Path, shown_folder: str, first: bytes) -> None:
        self.name = name
        self._home = home
        self._shown_folder = shown_folder
        self._read: dict[str, bytes] = {name: first}
        own = fingerprint(first)
        self.fingerprints: dict[Path, str] = dict.fromkeys(places_of(str(home / name)), own)

    def load(self, name: str) -> bytes:
        """The bytes of a file beside or below the job file.

        Raises `Refused` where a link, or a chain of `..`, leads out of the job's folder; OSError for what cannot be
        opened.
        """
        if name not in self._read:
            place = Path(os.path.normpath(self._home / name))
            target = place.resolve()
            self.fingerprints[place] = ""
            if not target.is_relative_to(self._home):
                # Only here: a command that opens one file alone, such as `format`, needs nothing of the job room.
                from seatwright.job import Refused

                self.fingerprints[place] = fingerprint_of(place)
                raise Refused("it leads out of the job's folder")
            self._read[name] = _plain_bytes(target)
            self.fingerprints[place] = fingerprint(self._read[name])
        return self._read[name]

    def contents(self) -> dict[str, bytes]:
        """All files read, by their names from the job's folder, the job's own first."""
        return dict(self._read)

    def sources(self) -> tuple[Source, ...]:
        """All files read, as text for excerpts, named as the person named the job."""
        found = (reading.read(name, data)[0] for name, data in self._read.items())
        return tuple(replace(source, path=self._shown(source.path)) for source in found if source is not None)

    def as_seen_from_here(self, messages: Iterable[Message]) -> tuple[Message, ...]:
        """The same messages, their files named as the person named the job, so that an editor finds them."""
        return tuple(
            replace(
                message,
                span=self._moved(message.span) if message.span else None,
                related=tuple(replace(related, span=self._moved(related.span)) for related in message.related),
            )
            for message in messages
        )

    def _moved(self, span: Span) -> Span:
        return replace(span, file=self._shown(span.file))

    def _shown(self, name: str) -> str:
        return f"{self._shown_folder}/{name}" if self._shown_folder else name


def open_job(job: str) -> JobFiles:
    """Open a job file, or standard input for `-`. Raises `Unreadable`."""
    if job == STANDARD_INPUT:
        first = sys.stdin.buffer.read(LARGEST_FILE)
        return JobFiles("standard-input.seat", Path.cwd().resolve(), "", first)
    path = Path(job)
    if path.is_dir():
        raise Unreadable(f"{job} is a folder; name the job file in it")
    try:
        return JobFiles(path.name, path.parent.resolve(), os.path.dirname(job), _plain_bytes(path))
    except OSError as problem:
        raise Unreadable(f"{job} cannot be read: {(problem.strerror or str(problem)).lower()}") from problem


def places_of(job: str) -> tuple[Path, ...]:
    """Where a file stands, and where it stands in truth when its name is a link."""
    place = Path(os.path.abspath(job))
    return tuple(dict.fromkeys((place, place.resolve())))


def fingerprint_of(path: Path) -> str:
    """The fingerprint of what stands in a file; "" for one that cannot be read."""
    try:
        return fingerprint(_plain_bytes(path))
    except OSError:
        return ""


def fingerprint(content: bytes) -> str:
    """By which one content of a file is told from another; never ""."""
    return hashlib.sha256(content).hexdigest()


def _plain_bytes(path: Path) -> bytes:
    # A device or a pipe could be read for ever; a job is a plain file.
    if path.exists() and not path.is_file():
        raise OSError(0, "it is no plain file")
    with path.open("rb") as file:
        return file.read(LARGEST_FILE)


def write_together(folder: Path, files: dict[str, bytes]) -> None:
    """Write files into a folder so that nobody ever sees half a file, whatever stops the program.

    All are written beside their place first, then renamed; what stood there before stays whole until then. A file
    that would not change is left as it is. Raises OSError.
    """
    with held_signals():
        _write_together(folder, files)


def _write_together(folder: Path, files: dict[str, bytes]) -> None:
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


def plain_file(name: str) -> bytes:
    """The bytes of a file that a person names, or of standard input for `-`. Raises `Unreadable`."""
    if name == STANDARD_INPUT:
        return sys.stdin.buffer.read(LARGEST_FILE)
    path = Path(name)
    if path.is_dir():
        raise Unreadable(f"{name} is a folder; name the files in it")
    try:
        return _plain_bytes(path)
    except OSError as problem:
        raise Unreadable(f"{name} cannot be read: {(problem.strerror or str(problem)).lower()}") from problem


def rewrite(path: Path, content: bytes) -> None:
    """Put new content into a file that exists, so that nobody ever sees half of it; it keeps its mode and owner.

    A link stays a link: the file that it leads to is rewritten. Raises OSError, also for a file that is read-only.
    """
    target = path.resolve(strict=True)
    if not os.access(target, os.W_OK):
        raise PermissionError(13, "it is read-only")
    was = target.stat()
    handle, beside = tempfile.mkstemp(prefix=f".{target.name}.", suffix=".part", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        # Only root may give a file away; anyone else owns what may be written, or has to make it his own.
        with contextlib.suppress(PermissionError):
            os.chown(beside, was.st_uid, was.st_gid)
        os.chmod(beside, stat.S_IMODE(was.st_mode))
        os.replace(beside, target)
    finally:
        if os.path.exists(beside):
            os.unlink(beside)
