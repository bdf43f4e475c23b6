"""A job file as git has it at a revision, with what it uses at the same revision: `jobs/head.seat@HEAD~1`.

Everything is read through git's own commands, nothing is checked out and nothing is written. A link or a chain of `..`
that leads out of the repository is refused as it is for files on disk.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Mapping
from pathlib import Path

from msgspec import Struct

from seatwright.commands.disk import git
from seatwright.commands.disk.files import LEADS_OUT, JobFiles, Unreadable, open_job, plain_bytes
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
    """A commit's files, seen from the folder of the job. home: that folder's path in the repository, in parts.

    listed: all of its files by path, where they are asked for together; None: each is asked for by itself. top: the
    work tree's, in which a file that is the same need not be fetched from git.
    """

    folder: str
    commit: str
    home: tuple[str, ...]
    listed: Mapping[str, tuple[str, str]] | None = None
    top: str = ""

    def read(self, name: str) -> bytes:
        """The bytes of a file of the commit, from the home folder. Raises Refused; OSError for what cannot be read."""
        place = self._resolved(name)
        blob = self._blob(place)
        if self.top:
            here = _as_it_is(os.path.join(self.top, *place))
            if here is not None and object_name(here, like=blob) == blob:
                return here
        return _run(self.folder, ("cat-file", "blob", blob))

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
        if self.listed is not None:
            if (found := self.listed.get(path)) is not None:
                return found
        else:
            for name, entry in _entries(self.folder, (self.commit, "--", path)):
                if name == path:
                    return entry
        raise OSError(0, "there is no such file in that revision")


def _entries(folder: str, words: tuple[str, ...]) -> Iterator[tuple[str, tuple[str, str]]]:
    """What git lists of a commit: each path with its mode and the name of its object."""
    said = _run(folder, ("ls-tree", "-z", "--full-tree", *words))
    if len(said) >= git.MOST_SAID:
        raise OSError(0, "it holds more files than can be listed")
    for line in said.split(b"\0"):
        about, _, found = line.partition(b"\t")
        if found:
            mode, _, blob = about.decode("ascii").split(" ")
            yield os.fsdecode(found), (mode, blob)


def _as_it_is(path: str) -> bytes | None:
    try:
        return plain_bytes(Path(path))
    except OSError:
        return None


def object_name(content: bytes, like: str) -> str:
    """By what git calls a file of this content, with the digest that it made another name with."""
    digest = hashlib.sha256 if len(like) == 64 else hashlib.sha1
    return digest(b"blob %d\0" % len(content) + content).hexdigest()


class _Revision(JobFiles):
    """A job file and what it uses, all at one commit. Messages name them `jobs/head.seat@HEAD`."""

    def __init__(self, name: str, tree: _Tree, shown_folder: str, revision: str, first: bytes) -> None:
        super().__init__(name, Path(), shown_folder, first)
        self._tree = tree
        self._revision = revision

    @classmethod
    def of(cls, path: str, revision: str, commit: str) -> _Revision:
        """The job at this path. Raises `Unreadable`."""
        beside = os.path.dirname(path) or "."
        return cls.opened(path, revision, _Tree(_existing(beside), commit, _home(beside)))

    @classmethod
    def opened(cls, path: str, revision: str, tree: _Tree) -> _Revision:
        """The job at this path, in a tree whose home is its folder. Raises `Unreadable`."""
        shown_folder, name = os.path.split(path)
        try:
            return cls(name, tree, shown_folder, revision, tree.read(name))
        except Refused as problem:
            raise Unreadable(f"{path}@{revision} cannot be read: {problem.reason}") from problem
        except OSError as problem:
            raise Unreadable(f"{path}@{revision} cannot be read: {problem.strerror or problem}") from problem

    def load(self, name: str) -> bytes:
        """The bytes of a file that the job uses, at the revision. Raises `Refused`, OSError."""
        if name not in self._read:
            self._read[name] = self._tree.read(name)
        return self._read[name]

    def _shown(self, name: str) -> str:
        return f"{super()._shown(name)}@{self._revision}"


class FolderAtRevision(Struct, frozen=True):
    """A folder of jobs as git has it at a revision. path: of the folder, as named; listed: every file of the commit."""

    path: str
    revision: str
    commit: str
    home: tuple[str, ...]
    listed: Mapping[str, tuple[str, str]]
    top: str

    def jobs(self) -> Iterator[str]:
        """The jobs in it and below, by their paths from it, in their order; as for a folder on disk, names that begin
        with a dot and links are passed over."""
        below = [tuple(path.split("/")) for path, (mode, _) in self.listed.items() if mode.startswith("100")]
        deep = len(self.home)
        for parts in sorted(parts[deep:] for parts in below if parts[:deep] == self.home):
            if parts and parts[-1].endswith(".seat") and not any(part.startswith(".") for part in parts):
                yield "/".join(parts)

    def open(self, job: str) -> JobFiles:
        """A job of it by its path from it. Raises `Unreadable`."""
        *folders, _ = job.split("/")
        folder = _existing(self.path or ".")
        tree = _Tree(folder, self.commit, (*self.home, *folders), self.listed, self.top)
        return _Revision.opened(os.path.join(self.path, *job.split("/")), self.revision, tree)


def open_folder_at(name: str) -> FolderAtRevision | None:
    """A folder as `FOLDER@REV`, None where the name is none such. Raises `Unreadable` where git cannot tell."""
    for path, revision in _split(name):
        folder = _existing(path or ".")
        if not revision or path.endswith(".seat") or os.path.isfile(path):
            continue
        commit = _git_text(folder, "rev-parse", "--verify", "--quiet", "--end-of-options", revision + "^{commit}")
        if commit is None:
            continue
        home = _home(path or ".")
        try:
            files = dict(_entries(folder, ("-r", commit)))
        except OSError as problem:
            raise Unreadable(f"{name} cannot be read: {problem.strerror or problem}") from problem
        within = "/".join((*home, ""))
        if path and home and not any(file.startswith(within) for file in files):
            continue
        folders = {place for file in files for place in _above(file)}
        return FolderAtRevision(
            path, revision, commit, home, {**dict.fromkeys(folders, (_FOLDER, "")), **files}, _top(folder)
        )
    return None


def _above(path: str) -> Iterator[str]:
    for place, letter in enumerate(path):
        if letter == "/":
            yield path[:place]


def _top(folder: str) -> str:
    return _git_text(folder, "rev-parse", "--show-toplevel") or ""


def _home(shown_folder: str) -> tuple[str, ...]:
    """Where a folder lies in its repository."""
    folder = _existing(shown_folder)
    prefix = _git_text(folder, "rev-parse", "--show-prefix") or ""
    return _parts(prefix, os.path.relpath(shown_folder, folder))


def _parts(prefix: str, below: str) -> tuple[str, ...]:
    return tuple(part for part in (*prefix.split("/"), *below.split("/")) if part not in ("", "."))


def _git_text(folder: str, *words: str) -> str | None:
    try:
        return _run(folder, words).decode("utf-8", "surrogateescape").rstrip("\n")
    except OSError:
        return None


def _run(folder: str, words: tuple[str, ...]) -> bytes:
    return git.ask(folder, *words, repository=git.handed_on())
