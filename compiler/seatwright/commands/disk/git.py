"""Asking git so that nothing that lies in a repository is run, fetched or written.

A repository says in its own settings which programs git is to call: hooks, monitors of the work tree, filters, checkers
of signatures, ways to a server from which missing objects are fetched. Whoever builds a job out of a folder that
somebody sent him wants none of them run. So only commands are asked that read objects and never the index or the work
tree; every such setting is overruled; no way to a server is allowed.
"""

from __future__ import annotations

import os
import subprocess
import threading
from collections.abc import Mapping
from functools import cache

MOST_SAID = 8_000_000
_SECONDS = 10.0
_OVERRULED = (
    "core.fsmonitor=false",
    f"core.hooksPath={os.devnull}",
    f"core.attributesFile={os.devnull}",
    "core.sshCommand=false",
    "core.gitProxy=",
    "core.askPass=",
    "credential.helper=",
    "gpg.program=false",
    "log.showSignature=false",
    "safe.bareRepository=explicit",  # a folder of jobs that is laid out as a repository is a folder of jobs
)
_ENVIRONMENT = {
    "GIT_ALLOW_PROTOCOL": "",  # not one: neither a server nor another folder is asked for what is missing here
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_NO_REPLACE_OBJECTS": "1",
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_TERMINAL_PROMPT": "0",
}
_PERSONS_OWN = ("GIT_CONFIG_GLOBAL", "GIT_CONFIG_SYSTEM", "GIT_CONFIG_NOSYSTEM", "GIT_CEILING_DIRECTORIES")
_HANDED_ON = ("GIT_DIR", "GIT_WORK_TREE", "GIT_COMMON_DIR", "GIT_OBJECT_DIRECTORY")


class GitError(OSError):
    """What git, or the lack of it, has to say; `strerror` is in its words."""

    def __init__(self, why: str) -> None:
        super().__init__(0, why)


def ask(folder: str, *words: str, repository: Mapping[str, str] | None = None) -> bytes:
    """What git says in a folder, at most `MOST_BYTES` of it. Raises GitError.

    words: of a command that reads objects alone (rev-parse, rev-list, ls-tree, cat-file). repository: as from
    `handed_on`; None: the one that the folder lies in.
    """
    program = _program()
    if program is None:
        raise GitError("git is not installed")
    settings = [word for setting in _OVERRULED for word in ("-c", setting)]
    command = [program, "-C", folder, "--no-pager", "--literal-pathspecs", *settings, *words]
    own = {name: value for name, value in os.environ.items() if not name.startswith("GIT_") or name in _PERSONS_OWN}
    pipe = subprocess.PIPE
    environment = {**own, **(repository or {}), **_ENVIRONMENT}
    try:
        git = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=pipe, stderr=pipe, env=environment)
    except (OSError, ValueError) as problem:
        raise GitError(f"git cannot be run: {problem}") from problem
    with git:
        end = threading.Timer(_SECONDS, git.kill)
        end.start()
        try:
            assert git.stdout is not None
            assert git.stderr is not None
            said = git.stdout.read(MOST_SAID)
            if len(said) == MOST_SAID:
                git.kill()
                return said
            complaint = git.stderr.read(MOST_SAID).decode("utf-8", "replace").strip().splitlines()
            if git.wait() != 0:
                raise GitError(complaint[0] if complaint else f"git {words[0]} failed")
            return said
        finally:
            end.cancel()
            end.join()


def handed_on() -> Mapping[str, str]:
    """Which repository is meant where git itself calls this program, as from a hook: places that hold from anywhere."""
    given = {name: os.environ[name] for name in _HANDED_ON if name in os.environ}
    if "GIT_DIR" in given:
        given.setdefault("GIT_WORK_TREE", os.getcwd())
    return {name: os.path.abspath(value) for name, value in given.items()}


@cache
def _program() -> str | None:
    """Git, from the folders of the search path that are the same wherever this runs: never from a folder of jobs."""
    name = "git.exe" if os.name == "nt" else "git"
    places = (os.path.join(folder, name) for folder in os.get_exec_path() if os.path.isabs(folder))
    return next((place for place in places if os.path.isfile(place) and os.access(place, os.X_OK)), None)
