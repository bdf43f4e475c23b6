"""The only place where files are read."""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Iterable
from pathlib import Path

from msgspec.structs import replace

from seatwright.text import Message, Source, Span, reading
from seatwright.text.showing import visible

LARGEST_FILE = 8_000_000  # bytes read at most; the text room has its own, smaller, limit and says so
STANDARD_INPUT = "-"
LEADS_OUT = "it leads out of the job's folder, and above the one that holds `.git`"


class Unreadable(Exception):
    """A job file that cannot be opened; the text says why in words."""


class JobFiles:
    """A job file and what it uses, read once each. name: the job file's own, in its folder, as it can be shown."""

    def __init__(self, name: str, home: Path, shown_folder: str, first: bytes) -> None:
        self.name = visible(name)
        self._home = home
        self._shown_folder = shown_folder
        self._read: dict[str, bytes] = {self.name: first}
        self._as_read: dict[Path, bytes | None] = dict.fromkeys(places_of(str(home / name)), first)

    def load(self, name: str) -> bytes:
        """The bytes of a file that a job uses: beside or below it, or above it up to the folder that holds `.git`.

        Raises `Refused` where a link, or a chain of `..`, leads further; OSError for what cannot be opened.
        """
        if name not in self._read:
            place = Path(os.path.normpath(self._home / name))
            self._as_read[place] = None
            if leads_out(self._home, real(place)):
                self._as_read[place] = _bytes_of(place)
            self._read[name] = self._as_read[place] = plain_bytes(beside(self._home, name))
        return self._read[name]

    def contents(self) -> dict[str, bytes]:
        """All files read, by their names from the job's folder, the job's own first."""
        return dict(self._read)

    def named(self, names: Iterable[str]) -> dict[str, bytes]:
        """Those of the files read that have these names, in their order."""
        return {name: self._read[name] for name in names}

    def stand(self) -> bool:
        """Whether every file that was asked for is still as it was read, or still not there."""
        return all(_bytes_of(place) == as_read for place, as_read in self._as_read.items())

    @property
    def fingerprints(self) -> dict[Path, str]:
        """Of every file that was asked for, as it was read; "" for one that could not be."""
        return {place: "" if data is None else fingerprint(data) for place, data in self._as_read.items()}

    def sources(self) -> tuple[Source, ...]:
        """All files read, as text for excerpts, named as the person named the job."""
        found = (reading.read_source(name, data)[0] for name, data in self._read.items())
        return tuple(replace(source, path=self._shown(source.path)) for source in found if source is not None)

    def as_seen_from_here(self, messages: Iterable[Message]) -> tuple[Message, ...]:
        """The same messages, their files named as the person named the job, so that an editor finds them."""
        return tuple(
            replace(
                message,
                span=self.seen_from_here(message.span) if message.span else None,
                related=tuple(replace(related, span=self.seen_from_here(related.span)) for related in message.related),
            )
            for message in messages
        )

    def seen_from_here(self, span: Span) -> Span:
        """A place, its file named as the person named the job."""
        return replace(span, file=self._shown(span.file))

    def _shown(self, name: str) -> str:
        return visible(os.path.normpath(f"{self._shown_folder}/{name}") if self._shown_folder else name)


def open_job(job: str) -> JobFiles:
    """Open a job file, or standard input for `-`. Raises `Unreadable`."""
    if job == STANDARD_INPUT:
        first = sys.stdin.buffer.read(LARGEST_FILE)
        read = JobFiles("standard-input.seat", Path.cwd().resolve(), "", first)
        read._as_read.clear()  # no place on disk holds it
        return read
    path = Path(job)
    if os.path.isdir(job):
        raise Unreadable(f"{job} is a folder; name the job file in it")
    try:
        return JobFiles(path.name, real(path.parent), os.path.dirname(job), plain_bytes(path))
    except OSError as problem:
        raise Unreadable(f"{job} cannot be read: {(problem.strerror or str(problem)).lower()}") from problem


def places_of(job: str) -> tuple[Path, ...]:
    """Where a file stands, and where it stands in truth when its name is a link."""
    place = Path(os.path.abspath(job))
    return tuple(dict.fromkeys((place, real(place))))


def beside(home: Path, name: str) -> Path:
    """Where a file that a job in a folder names stands in truth. Raises `Refused` where that is too far away."""
    target = real(Path(os.path.normpath(home / name)))
    if leads_out(home, target):
        # Only here: a command that opens one file alone, such as `format`, needs nothing of the job room.
        from seatwright.job import Refused

        raise Refused(LEADS_OUT)
    return target


def leads_out(home: Path, target: Path) -> bool:
    """Whether a place is neither beside or below a job's folder nor below the nearest one above it with `.git`."""
    if target.is_relative_to(home):
        return False
    highest = next((folder for folder in (home, *home.parents) if os.path.lexists(folder / ".git")), home)
    return not target.is_relative_to(highest)


def real(place: Path) -> Path:
    """Where it stands in truth, as far as its links lead; of links that lead in a circle, one of them."""
    return Path(os.path.realpath(place))


def fingerprint_of(path: Path) -> str:
    """The fingerprint of what stands in a file; "" for one that cannot be read."""
    data = _bytes_of(path)
    return "" if data is None else fingerprint(data)


def _bytes_of(path: Path) -> bytes | None:
    try:
        return plain_bytes(path)
    except OSError:
        return None


def fingerprint(content: bytes) -> str:
    """By which one content of a file is told from another; never ""."""
    from hashlib import sha256  # most commands have no use for it, and it takes longer to load than a job to read

    return sha256(content).hexdigest()


def plain_bytes(path: Path, most: int = LARGEST_FILE) -> bytes:
    """The bytes of a plain file, of a larger one the first. Raises OSError, also for what is no plain file.

    A device or a pipe could be read for ever, and a pipe waits for its other end already when it is opened.
    """
    if not stat.S_ISREG(os.stat(path).st_mode):
        raise OSError(0, "it is no plain file")
    at_once = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    with os.fdopen(os.open(path, os.O_RDONLY | at_once), "rb") as file:
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise OSError(0, "it is no plain file")
        return file.read(most)


def plain_file(name: str) -> bytes:
    """The bytes of a file that a person names, or of standard input for `-`. Raises `Unreadable`."""
    if name == STANDARD_INPUT:
        return sys.stdin.buffer.read(LARGEST_FILE)
    if os.path.isdir(name):
        raise Unreadable(f"{name} is a folder; name the files in it")
    try:
        return plain_bytes(Path(name))
    except OSError as problem:
        raise Unreadable(f"{name} cannot be read: {(problem.strerror or str(problem)).lower()}") from problem
