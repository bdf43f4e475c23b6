"""Which git commit the sources are at, when none of them is changed."""

from __future__ import annotations

import hashlib
import os
import posixpath
from collections.abc import Mapping

from seatwright.commands.disk import git
from seatwright.commands.disk.files import STANDARD_INPUT

_LINK = "120000"


def commit_of(job: str, sources: Mapping[str, bytes]) -> str | None:
    """The commit at which the job and its shop files stand as they were read.

    None outside git, for a job from standard input, and when one of the files is not in the last commit as it was read.
    It is the last commit that touched one of them, so that building twice gives the same bytes whatever else is
    committed. Files are told by their content alone, which asks nothing of the work tree: as it was read, or with plain
    line ends, as git keeps a text that its owner has with others.
    sources: their contents by name, from the job's folder, the job's own first.
    """
    if job == STANDARD_INPUT:
        return None
    folder = os.path.dirname(job) or "."
    if not _in_git(os.path.realpath(folder)):
        return None
    _, *used = sources
    standing = _standing(folder, dict(zip((os.path.basename(job), *used), sources.values(), strict=True)))
    try:
        commit = git.ask(folder, "rev-list", "-1", "HEAD", "--", *standing).decode("ascii").strip()
        entries = git.ask(folder, "ls-tree", "-z", commit, "--", *standing) if commit else b""
    except OSError:
        return None
    committed = dict(_entry(line) for line in entries.split(b"\0") if line)
    same = all(_is(committed.get(name), link, content) for name, (link, content) in standing.items())
    return commit if commit and same else None


def _in_git(folder: str) -> bool:
    while not os.path.lexists(os.path.join(folder, ".git")):
        above = os.path.dirname(folder)
        if above == folder:
            return False
        folder = above
    return True


def _standing(folder: str, sources: Mapping[str, bytes]) -> dict[str, tuple[bool, bytes]]:
    """What has to stand in the commit: whether it is a link, and its content; for a link what it leads to as well."""
    found: dict[str, tuple[bool, bytes]] = {}
    for name, content in sources.items():
        name = posixpath.normpath(name)
        place = os.path.join(folder, name)
        if os.path.islink(place):
            found[name] = True, os.fsencode(os.readlink(place))
            name = os.path.relpath(os.path.realpath(place), os.path.realpath(folder)).replace(os.sep, "/")
        found[name] = False, content
    return found


def _entry(line: bytes) -> tuple[str, tuple[bool, str]]:
    about, _, name = line.partition(b"\t")
    mode, _, blob = about.decode("ascii").split(" ")
    return os.fsdecode(name), (mode == _LINK, blob)


def _is(committed: tuple[bool, str] | None, link: bool, content: bytes) -> bool:
    if committed is None or committed[0] is not link:
        return False
    return any(_blob(each, committed[1]) == committed[1] for each in (content, content.replace(b"\r\n", b"\n")))


def _blob(content: bytes, like: str) -> str:
    """What git calls a content, in a repository whose names are as long as this one."""
    digest = hashlib.sha256 if len(like) == 64 else hashlib.sha1
    return digest(b"blob %d\0" % len(content) + content).hexdigest()
