"""Repositories that somebody else has prepared: each makes git run a program, by another of its settings.

Every trap says with which plain git command it springs, so that a test can show that it is one.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.whole.repository import Repository, environment
from tests.whole.shop import JOBS

JOB = "jobs/single-cylinder.seat"


@dataclass(frozen=True, slots=True)
class Trap:
    """lay: puts it into a repository, given the program that is to run; springs: the words of git that run it."""

    lay: Callable[[Repository, Path], None]
    springs: tuple[str, ...]


def prepared(folder: Path, name: str) -> tuple[Repository, Path]:
    """A repository with a trap, and the file that is there once its program has run."""
    top = folder / "repository"
    (top / "jobs").mkdir(parents=True)
    for each in ("single-cylinder.seat", "bench.shop"):
        shutil.copy(JOBS / each, top / "jobs" / each)
    repository = Repository(top)
    repository.git("init", "-q", "-b", "main")
    repository.commit("the job as it came in")
    sprung = folder / "sprung"
    program = folder / "program"
    program.write_text(f"#!/bin/sh\necho ran >> '{sprung}'\nexit 1\n", "utf-8")
    program.chmod(0o755)
    TRAPS[name].lay(repository, program)
    # Git looks at a file again whose times are not those that its index knows.
    os.utime(repository.top / JOB, (1, 1))
    sprung.unlink(missing_ok=True)
    return repository, sprung


def _set(**settings: str) -> Callable[[Repository, Path], None]:
    def lay(repository: Repository, program: Path) -> None:
        for name, value in settings.items():
            repository.git("config", name.replace("__", "."), value.replace("PROGRAM", str(program)))

    return lay


def _filter(kind: str) -> Callable[[Repository, Path], None]:
    def lay(repository: Repository, program: Path) -> None:
        (repository.top / ".git" / "info" / "attributes").write_text("* filter=x\n", "utf-8")
        repository.git("config", f"filter.x.{kind}", str(program))

    return lay


def _hook(folder: str) -> Callable[[Repository, Path], None]:
    def lay(repository: Repository, program: Path) -> None:
        place = repository.top / folder
        place.mkdir(exist_ok=True)
        shutil.copy(program, place / "post-index-change")
        if folder != ".git/hooks":
            repository.git("config", "core.hooksPath", str(place))

    return lay


def _signature(repository: Repository, program: Path) -> None:
    """A commit with a signature, which git is told to have checked whenever it shows one."""
    plain = repository.git("cat-file", "commit", "HEAD").stdout
    head, _, words = plain.partition("\n\n")
    sign = "\n".join(("gpgsig -----BEGIN PGP SIGNATURE-----", " ", " x", " -----END PGP SIGNATURE-----"))
    (repository.top / "commit").write_text(f"{head}\n{sign}\n\n{words}", "utf-8")
    signed = repository.git("hash-object", "-t", "commit", "-w", "commit").stdout.strip()
    (repository.top / "commit").unlink()
    repository.git("update-ref", "HEAD", signed)
    _set(log__showSignature="true", gpg__program="PROGRAM")(repository, program)


def _missing(what: str, **settings: str) -> Callable[[Repository, Path], None]:
    """An object that is not there, and a way to a server that is said to have it."""

    def lay(repository: Repository, program: Path) -> None:
        name = repository.git("rev-parse", what).stdout.strip()
        (repository.top / ".git" / "objects" / name[:2] / name[2:]).unlink()
        repository.git("config", "core.repositoryFormatVersion", "1")
        _set(extensions__partialClone="origin", remote__origin__promisor="true", **settings)(repository, program)

    return lay


def _nested(repository: Repository, program: Path) -> None:
    """The folder of the jobs is itself laid out as a repository without a work tree."""
    inner = repository.top / "jobs"
    for part in ("HEAD", "objects", "refs"):
        source = repository.top / ".git" / part
        (shutil.copytree if source.is_dir() else shutil.copy)(source, inner / part)
    (inner / "config").write_text(
        f"[core]\n\trepositoryformatversion = 0\n\tworktree = {inner}\n\tfsmonitor = {program}\n", "utf-8"
    )
    shutil.copy(repository.top / ".git" / "index", inner / "index")


def _included(repository: Repository, program: Path) -> None:
    (repository.top / "more").write_text(f"[core]\n\tfsmonitor = {program}\n", "utf-8")
    repository.git("config", "include.path", "../more")


TRAPS = {
    "monitor of the work tree": Trap(_set(core__fsmonitor="PROGRAM"), ("status",)),
    "monitor in an included file": Trap(_included, ("status",)),
    "filter on the way in": Trap(_filter("clean"), ("status",)),
    "filter that stays": Trap(_filter("process"), ("status",)),
    "hook": Trap(_hook(".git/hooks"), ("status",)),
    "hook in a folder of its own": Trap(_hook("hooks"), ("status",)),
    "signature": Trap(_signature, ("log", "-1")),
    "server by ssh for a missing file": Trap(
        _missing(f"HEAD:{JOB}", core__sshCommand="PROGRAM", remote__origin__url="ssh://nowhere.invalid/x"),
        ("cat-file", "-p", f"HEAD:{JOB}"),
    ),
    "server by a helper for a missing folder": Trap(
        _missing("HEAD:jobs", remote__origin__url="ext::PROGRAM", protocol__ext__allow="always"),
        ("ls-tree", "HEAD:jobs"),
    ),
    "folder beside it as a server": Trap(
        _missing(f"HEAD:{JOB}", remote__origin__url="../repository", remote__origin__uploadpack="PROGRAM"),
        ("cat-file", "-p", f"HEAD:{JOB}"),
    ),
    "server behind a proxy": Trap(
        _missing("HEAD:jobs", remote__origin__url="git://nowhere.invalid/x", core__gitProxy="PROGRAM"),
        ("ls-tree", "HEAD:jobs"),
    ),
    "repository within": Trap(_nested, ("-C", "jobs", "status")),
}


def spring(repository: Repository, name: str) -> None:
    """Ask git plainly, as the trap waits for."""
    repository.git(*TRAPS[name].springs, check=False)


__all__ = ["JOB", "TRAPS", "environment", "prepared", "spring"]
