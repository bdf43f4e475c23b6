"""All jobs of a folder, each planned, read to what a command wants of it, and let go."""

from __future__ import annotations

import os
import posixpath
import sys
from collections.abc import Callable, Mapping
from functools import cache, partial
from pathlib import Path
from typing import Generic, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from seatwright.commands.disk import files
from seatwright.commands.disk.job_folders import jobs_of
from seatwright.commands.disk.revisions import FolderAtRevision, open_folder_at
from seatwright.commands.jobs.each_job import each_job
from seatwright.commands.jobs.outcome import Outcome, outcome_of
from seatwright.commands.jobs.warming import warm_planning
from seatwright.commands.terminal.exits import Exit, worst
from seatwright.commands.terminal.progress import Progress
from seatwright.commands.terminal.saying import complaint, failure, in_words
from seatwright.over_jobs.left_out import job_left_out
from seatwright.planning.plan import Plan
from seatwright.text import Message, Source, Span, reading

_FEWEST = 8  # below so many jobs one process has planned them before others have begun

Rows = TypeVar("Rows")


class InFolder(Struct, frozen=True):
    """A job of a folder, as a command over many jobs names it.

    file: from the folder, with `/`. shelves: its shop files as the job names them, and from the folder. home: where
    the job's own names of files begin, as seen from where the command runs. revision: `@REV` of one that git has.
    """

    file: str
    shelves: Mapping[str, str]
    home: str
    revision: str = ""

    def seen(self, span: Span) -> Span:
        """A place as it is seen from where the command runs."""
        file = os.path.normpath(os.path.join(self.home, span.file)).replace(os.sep, "/")
        return replace(span, file=f"{file}{self.revision}")


RowsOf = Callable[[Plan, InFolder], Rows]
"""What a command reads off a plan: by a function that another process can find by its name."""


class OverFolder(Struct, Generic[Rows], frozen=True):
    """What came of it: the rows of each job in order of path, the jobs that were left out, and the exit code."""

    rows: list[Rows]
    left_out: list[str]
    code: Exit


class _OfOne(Struct, Generic[Rows], frozen=True):
    file: str
    rows: Rows | None
    err: str = ""
    code: Exit = Exit.DONE


def over_folder(command: str, folder: str, rows_of: RowsOf[Rows], at_once: int | None) -> OverFolder[Rows]:
    """Every job below a folder, several side by side, a bar on a terminal meanwhile.

    folder: on disk, or as `FOLDER@REV`. A job with errors is named on standard error and left out; the exit code is 1
    then. Raises `files.Unreadable` for a folder without a job, or one that cannot be looked into.
    """
    past = _at_revision(folder)
    named = list(past.jobs()) if past is not None else list(jobs_of([folder]))
    if not named:
        raise files.Unreadable(f"{folder} is a folder without a job (.seat) in it")
    progress = Progress(len(named))
    rows: list[Rows] = []
    left_out: list[str] = []
    codes = [Exit.DONE]
    work = partial(_one, command=command, folder=folder, rows_of=rows_of)
    lost = partial(_lost, command=command, folder=folder)
    try:
        for one in each_job(work, named, at_once, _FEWEST, warm_planning, lost, progress.done):
            codes.append(one.code)
            if one.rows is not None:
                rows.append(one.rows)
            else:
                left_out.append(one.file)
            if one.err:
                progress.clear()
                sys.stderr.write(one.err)
                sys.stderr.flush()
                progress.again()
    finally:
        progress.clear()
    return OverFolder(rows, left_out, worst(codes))


@cache
def _at_revision(folder: str) -> FolderAtRevision | None:
    """The folder as git has it; None for one on disk. Raises `files.Unreadable` for what is neither."""
    if os.path.isdir(folder):
        return None
    found = open_folder_at(folder) if "@" in folder else None
    if found is None:
        raise files.Unreadable(
            f"{folder} is no folder{', nor one at a revision that git knows' if '@' in folder else ''}"
        )
    return found


def in_folder(job: str, folder: str, plan: Plan) -> InFolder:
    """How a job of a folder is named there, and the shop files that it uses."""
    home = os.path.dirname(job)
    root = files.real(Path(folder))
    shelves = {
        source.path: _from(root, files.real(Path(home or os.curdir) / source.path)) for source in plan.job.sources[1:]
    }
    return InFolder(_file(job, folder), shelves, home)


def excerpts(messages: tuple[Message, ...]) -> tuple[Source, ...]:
    """The files that messages over many jobs speak of, read again for their lines: the jobs were let go."""
    spans = [span for each in messages for span in (each.span, *(one.span for one in each.related)) if span is not None]
    found = []
    for name in dict.fromkeys(span.file for span in spans):
        try:
            source = reading.read_source(name, files.plain_bytes(Path(name)))[0]
        except OSError:
            continue
        if source is not None:
            found.append(source)
    return tuple(found)


def _one(job: str, command: str, folder: str, rows_of: RowsOf[Rows]) -> _OfOne[Rows]:
    file = _file(job, folder)
    try:
        past = _at_revision(folder)
        outcome = outcome_of(files.open_job(job) if past is None else past.open(job))
        if outcome.plan is None:
            return _OfOne(file, None, _said(job, outcome), Exit.ERRORS)
        where = in_folder(job, folder, outcome.plan) if past is None else _in_past(job, past, outcome.plan)
        return _OfOne(file, rows_of(outcome.plan, where))
    except files.Unreadable as problem:
        return _OfOne(file, None, complaint(command, str(problem)), Exit.WRONG_USE)
    except Exception:
        # A fault of the program's own: the other jobs are counted all the same.
        said = failure(command, job)
        return _OfOne(file, None, said, Exit.ERRORS)


def _said(job: str, outcome: Outcome) -> str:
    return in_words((job_left_out(job, outcome.errors),), outcome.sources)


def _lost(job: str, how_it_ended: str, command: str, folder: str) -> _OfOne[Rows]:
    said = complaint(command, f"{job} was not finished: {how_it_ended}")
    return _OfOne(_file(job, folder), None, said, Exit.ERRORS)


def _in_past(job: str, past: FolderAtRevision, plan: Plan) -> InFolder:
    home = posixpath.dirname(job)
    shelves = {each.path: posixpath.normpath(posixpath.join(home, each.path)) for each in plan.job.sources[1:]}
    return InFolder(job, shelves, posixpath.join(past.path, home), f"@{past.revision}")


def _file(job: str, folder: str) -> str:
    if _at_revision(folder) is not None:
        return job
    return os.path.relpath(job, folder).replace(os.sep, "/")


def _from(root: Path, place: Path) -> str:
    return os.path.relpath(place, root).replace(os.sep, "/")
