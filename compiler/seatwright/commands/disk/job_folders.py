"""The jobs that a command is given: files, and folders of them with all that lies below."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator

from seatwright.commands.disk.files import STANDARD_INPUT, Unreadable


def jobs_of(named: Iterable[str]) -> Iterator[str]:
    """The job files: for a folder those in it and in the folders below it, in the order of their paths.

    Names that begin with a dot and links are passed over: what they lead to lies elsewhere, or would be met twice.
    """
    for job in named:
        yield from _in_folder(job) if _is_folder(job) else (job,)


def empty_folder(named: Iterable[str]) -> str | None:
    """The first folder that holds no job, nor does one below it."""
    return next((job for job in named if _is_folder(job) and next(_in_folder(job), None) is None), None)


def _is_folder(job: str) -> bool:
    return job != STANDARD_INPUT and os.path.isdir(job)


def _in_folder(folder: str) -> Iterator[str]:
    """Folder by folder, files and folders among one another by name. Raises `Unreadable`: what cannot be looked into
    may hold a job that would be missing."""
    folder = os.path.normpath(folder)
    try:
        with os.scandir(folder) as found:
            entries = sorted((each for each in found if not each.name.startswith(".")), key=lambda each: each.name)
    except OSError as problem:
        raise Unreadable(f"{folder} cannot be read: {(problem.strerror or str(problem)).lower()}") from problem
    for entry in entries:
        place = entry.name if folder == os.curdir else os.path.join(folder, entry.name)
        if entry.is_dir(follow_symlinks=False):
            yield from _in_folder(place)
        elif entry.name.endswith(".seat") and entry.is_file(follow_symlinks=False):
            yield place
