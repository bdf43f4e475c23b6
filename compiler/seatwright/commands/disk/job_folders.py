"""The jobs that a command is given: files, and folders of them."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from seatwright.commands.disk.files import STANDARD_INPUT


def jobs_of(named: Iterable[str]) -> Iterator[str]:
    """The job files, a folder's in the order of their names."""
    for job in named:
        yield from _in_folder(job) if _is_folder(job) else (job,)


def empty_folder(named: Iterable[str]) -> str | None:
    """The first folder that holds no job."""
    return next((job for job in named if _is_folder(job) and not _in_folder(job)), None)


def _is_folder(job: str) -> bool:
    return job != STANDARD_INPUT and os.path.isdir(job)


def _in_folder(folder: str) -> list[str]:
    return sorted(str(path) for path in Path(folder).glob("*.seat") if os.path.isfile(path))
