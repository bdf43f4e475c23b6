"""A job file as git has it at a revision, with what it uses at the same revision: `jobs/head.seat@HEAD~1`.

Everything is read through git's own commands, nothing is checked out and nothing is written. A link or a chain of `..`
that leads out of the repository is refused as it is for files on disk.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct

from seatwright.commands.disk import git
from seatwright.commands.disk.files import LEADS_OUT, JobFiles, Unreadable, open_job
from seatwright.job import Refused

_LINK, _FOLDER = "120000", "040000"
_LINKS_AT_MOST = 16


def open_job_or_revision(name: str) -> JobFiles:
    """A job file by its path, or as `FILE@REV`. A file that is really called so comes first. Raises `Unreadable`."""
    if "@" not in name or os.path.lexists(name):
        return open_job(name)
    return open_revision(name)


def open_revision(name: str) -> JobFiles:
    """A job as `FILE@REV`: REV is whatever git takes for one commit (`HEAD`, `main~3`, `v1`, `HEAD@{1}`).

    Raises `Unreadable`.
    """
    folder = _existing(os.path.dirname(name.split("@", 1)[0]) or ".")
    for path, revision in _split(name):
        if not path or not revision:
            continue
        folder = _existing(os.path.dirname(path) or ".")
        commit = _git_text(folder, "rev-parse", "--verify", "--quiet", "--end-of-options", revision + "^{commit}")
        if commit is not None:
            return _Revision.of(path, revision, commit)
    if _git_text(folder, "rev-parse", "--git-dir") is None:
        raise Unreadable(f"{name} cannot be read: {folder} is in no git repository, or git is not installed")
    path, revision = next(_split(name))
    raise Unreadable(
        f"{name} cannot be read: git knows no revision `{revision}`"
        if revision
        else f"{name} names no revision behind the @; write {path}@HEAD"
    )


def _split(name: str) -> Iterator[tuple[str, str]]:
    """Every way to part a name into file and revision, the longest revision first."""
    for place, letter in enumerate(name):
        if letter == "@":
            yield name[:place], name[place + 1 :]


def _existing(folder: str) -> str:
    """The folder, or the nearest above it that is still there: a job may have been moved since."""
    while not os.path.isdir(folder):
        folder = os.path.dirname(folder) or "."
    return folder


class _Tree(Struct, frozen=True):
    """A commit's files, seen from the folder of the job. home: that folder's path in the repository, in parts."""

    folder: str
    commit: str
    home: tuple[str, ...]

    def read(self, name: str) -> bytes:
        """The bytes of a file of the commit, from the home folder. Raises Refused; OSError for what cannot be read."""
        return _run(self.folder, ("cat-file", "blob", self._blob(self._resolved(name))))

    def _resolved(self, name: str) -> tuple[str, ...]:
        """The file's own place, links followed as a file system does. Raises Refused, OSError."""
        left = name.split("/")
        place = list(self.home)
        links = 0
        if name.startswith("/"):
            raise Refused(LEADS_OUT)
        while left:
            part = left.pop(0)
            if part in ("", "."):
                continue
            if part == "..":
                if not place:
                    raise Refused(LEADS_OUT)
                place.pop()
                continue
            mode, blob = self._entry((*place, part))
            if mode != _LINK:
                place.append(part)
                continue
            links += 1
            target = os.fsdecode(_run(self.folder, ("cat-file", "blob", blob)))
            if target.startswith("/"):
                raise Refused(LEADS_OUT)
            if links > _LINKS_AT_MOST:
                raise OSError(0, "it is a link that leads to itself")
            left = [*target.split("/"), *left]
        return tuple(place)

    def _blob(self, place: tuple[str, ...]) -> str:
        mode, blob = self._entry(place) if place else (_FOLDER, "")
        if not mode.startswith("100"):
            raise OSError(0, "it is no plain file")
        return blob

    def _entry(self, place: tuple[str, ...]) -> tuple[str, str]:
        """Mode and name of what stands there. Raises OSError where nothing does."""
        path = "/".join(place)
        for line in _run(self.folder, ("ls-tree", "-z", "--full-tree", self.commit, "--", path)).split(b"\0"):
            about, _, found = line.partition(b"\t")
            if os.fsdecode(found) == path:
                mode, _, blob = about.decode("ascii").split(" ")
                return mode, blob
        raise OSError(0, "there is no such file in that revision")


class _Revision(JobFiles):
    """A job file and what it uses, all at one commit. Messages name them `jobs/head.seat@HEAD`."""

    def __init__(self, name: str, tree: _Tree, shown_folder: str, revision: str, first: bytes) -> None:
        super().__init__(name, Path(), shown_folder, first)
        self._tree = tree
        self._revision = revision

    @classmethod
    def of(cls, path: str, revision: str, commit: str) -> _Revision:
        """The job at this path. Raises `Unreadable`."""
        shown_folder, name = os.path.split(path)
        folder = _existing(shown_folder or ".")
        prefix = _git_text(folder, "rev-parse", "--show-prefix") or ""
        gone = os.path.relpath(shown_folder or ".", folder)
        try:
            tree = _Tree(folder, commit, _parts(prefix, gone))
            return cls(name, tree, shown_folder, revision, tree.read(name))
        except Refused as problem:
            raise Unreadable(f"{path}@{revision} cannot be read: {problem.reason}") from problem
        except OSError as problem:
            raise Unreadable(f"{path}@{revision} cannot be read: {problem.strerror or problem}") from problem

    def load(self, name: str) -> bytes:
        """The bytes of a file in or below the job's folder at the revision. Raises `Refused`, OSError."""
        if name not in self._read:
            self._read[name] = self._tree.read(name)
        return self._read[name]

    def _shown(self, name: str) -> str:
        return f"{super()._shown(name)}@{self._revision}"


def _parts(prefix: str, below: str) -> tuple[str, ...]:
    return tuple(part for part in (*prefix.split("/"), *below.split("/")) if part not in ("", "."))


def _git_text(folder: str, *words: str) -> str | None:
    try:
        return _run(folder, words).decode("utf-8", "surrogateescape").rstrip("\n")
    except OSError:
        return None


def _run(folder: str, words: tuple[str, ...]) -> bytes:
    return git.ask(folder, *words, repository=git.handed_on())
