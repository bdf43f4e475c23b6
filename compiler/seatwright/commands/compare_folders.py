"""`seatwright compare FOLDER@REV FOLDER`: which jobs a change reaches, as of one figure in an engine file.

A job whose own file and all that it uses are the same on both sides is not planned. What is told of the others is the
cards whose own stamp changes, and what changes on them. `python -m seatwright.commands.compare_folders >
grammar/compare_folders.schema.json` renews the schema of its JSON.
"""

from __future__ import annotations

import os
import posixpath
import sys
from collections.abc import Iterable, Iterator, Sequence
from functools import cache, partial
from pathlib import Path
from typing import Literal, get_args

from msgspec import UNSET, Struct, UnsetType, to_builtins

from seatwright.commands.disk.files import JobFiles, Unreadable, open_job, real
from seatwright.commands.disk.job_folders import jobs_of
from seatwright.commands.disk.revisions import FolderAtRevision, open_folder_at
from seatwright.commands.jobs.each_job import each_job
from seatwright.commands.jobs.outcome import Exit, outcome_of
from seatwright.commands.jobs.warming import warm_planning
from seatwright.job import Refused
from seatwright.job.declarations import vocabulary
from seatwright.job.sections.singles import uses
from seatwright.job.typed.gather import Gathered
from seatwright.planning.plan import Plan, Status
from seatwright.syntax.parse import parse
from seatwright.text.forms import schema_of
from seatwright.text.reading import read_source
from seatwright.text.showing import for_programs, visible
from seatwright.told.differences import differences, moved_valves
from seatwright.version import VERSION

_FolderForm = Literal["seatwright-compare-folders/1"]
_FEWEST = 8  # below so many jobs one process has compared them before others have begun
_DONE = (Status.FINISHED, Status.KEPT, Status.LEFT_ALONE, Status.NOT_PLANNED)
_MOST_WORDS = 6


class JobReached(Struct, frozen=True):
    """A job that a change reaches. cards: by number in NEW; valves: for which something changes; what: in the words of
    the bench. open: a valve of it is neither finished, kept, left alone nor not planned."""

    job: str
    file: str
    open: bool
    cards: list[int]
    valves: list[str]
    what: list[str]
    due: str | UnsetType = UNSET


class ComparedFolders(Struct, frozen=True):
    """What a change reaches in a folder of jobs. same: how many it does not reach; left_out: files with errors."""

    format: _FolderForm
    made_by: str
    old: str
    new: str
    changes: bool
    same: int
    reached: list[JobReached]
    only_old: list[str]
    only_new: list[str]
    left_out: list[str]


class _Pair(Struct, frozen=True):
    """What came of one job: reached, or why it is left out, or neither where all is the same or it is not asked for."""

    reached: JobReached | None = None
    wrong: str = ""
    counts: bool = True


class _Disk(Struct, frozen=True):
    """A folder of jobs as it lies on disk."""

    path: str

    def jobs(self) -> Iterator[str]:
        for job in jobs_of((self.path,)):
            yield os.path.relpath(job, self.path).replace(os.sep, "/")

    def open(self, job: str) -> JobFiles:
        return open_job(os.path.join(self.path, *job.split("/")))


_Side = _Disk | FolderAtRevision


def is_folder(name: str) -> bool:
    """Whether a side of a comparison is a folder, on disk or at a revision in git."""
    return os.path.isdir(name) or ("@" in name and not os.path.lexists(name) and _folder_at(name) is not None)


def compare_folders(old: str, new: str, form: str, using: str | None, at_once: int | None = None) -> Exit:
    """Say which jobs a change reaches. 0: none, and the same jobs stand on both sides; 1: else; 2: wrong use."""
    before, after = _side(old), _side(new)
    here, there = list(before.jobs()), list(after.jobs())
    both = [job for job in there if job in set(here)]
    work = partial(_pair, old=old, new=new, using=None if using is None else str(real(Path(using))))
    pairs = list(each_job(work, both, at_once, _FEWEST, warm_planning, _lost))
    told = _told(old, new, both, pairs, [one for one in here if one not in set(there)], [
        one for one in there if one not in set(here)
    ])  # fmt: skip
    sys.stdout.write(for_programs(to_builtins(told)) if form == "json" else _written_out(told))
    return Exit.ERRORS if told.changes else Exit.DONE


def _told(
    old: str, new: str, jobs: Sequence[str], pairs: Sequence[_Pair], only_old: list[str], only_new: list[str]
) -> ComparedFolders:
    reached = [pair.reached for pair in pairs if pair.reached is not None]
    wrong = [f"{job}: {pair.wrong}" for job, pair in zip(jobs, pairs, strict=True) if pair.wrong]
    same = sum(pair.counts and pair.reached is None and not pair.wrong for pair in pairs)
    changes = bool(reached or wrong or only_old or only_new)
    made_by = f"seatwright {VERSION}"
    return ComparedFolders(
        get_args(_FolderForm)[0], made_by, old, new, changes, same, reached, only_old, only_new, wrong
    )


@cache
def _folder_at(name: str) -> FolderAtRevision | None:
    return open_folder_at(name)


def _side(name: str) -> _Side:
    if os.path.isdir(name):
        return _Disk(name)
    found = _folder_at(name)
    if found is None:
        raise Unreadable(f"{name} is no folder, and no folder at a revision that git knows")
    return found


def _lost(job: str, how_it_ended: str) -> _Pair:
    return _Pair(wrong=f"it was not finished: {how_it_ended}")


def _pair(job: str, old: str, new: str, using: str | None) -> _Pair:
    try:
        before, after = _side(old).open(job), _side(new).open(job)
        used = _used(after)
        if using is not None and not any(_is_that(new, job, name, using) for name in {*used, *_used(before)}):
            return _Pair(counts=False)
        if _same(before, after, used):
            return _Pair()
        plans = outcome_of(before).plan, outcome_of(after).plan
    except Unreadable as problem:
        return _Pair(wrong=str(problem))
    for side, plan in zip((old, new), plans, strict=True):
        if plan is None:
            return _Pair(wrong=f"it has errors in {side}, so that there is no plan to compare")
    was, now = plans
    assert was is not None
    assert now is not None
    return _Pair(_reached(job, was, now))


def _used(files: JobFiles) -> tuple[str, ...]:
    """The files that a job uses, by their names from its folder."""
    source, _ = read_source(files.name, files.contents()[files.name])
    if source is None:
        return ()
    file, _ = parse(source, vocabulary("job"))
    return tuple(posixpath.normpath(one.text) for one in uses(file, Gathered()))


def _is_that(folder: str, job: str, name: str, using: str) -> bool:
    at = _side(folder)
    beside = os.path.dirname(os.path.join(at.path, *job.split("/")))
    return str(real(Path(os.path.normpath(os.path.join(beside, name))))) == using


def _same(before: JobFiles, after: JobFiles, used: Iterable[str]) -> bool:
    """Whether a job and all that it uses are the same on both sides."""
    if before.contents()[before.name] != after.contents()[after.name]:
        return False
    return all(_bytes(before, name) == _bytes(after, name) for name in used)


def _bytes(files: JobFiles, name: str) -> bytes | None:
    try:
        return files.load(name)
    except (OSError, Refused):
        return None


def _reached(job: str, old: Plan, new: Plan) -> JobReached | None:
    """What changes on the cards of a job; None where nothing does."""
    from seatwright.cards.as_text.as_printed import printed
    from seatwright.cards.deck import cards
    from seatwright.cards.stamp import own

    were = {own(card) for card in cards(old)}
    numbers = [card.number for card in cards(new) if own(card) not in were]
    if not numbers:
        return None
    changed = differences(old, new, printed)
    what = list(dict.fromkeys(each.words for one in changed for each in one.differences))
    still_open = any(valve.status not in _DONE for valve in new.valves)
    due = UNSET if new.job.due is None else new.job.due.text
    words = what or ["what is printed of it"]
    return JobReached(new.job.number, job, still_open, numbers, list(moved_valves(changed)), words, due)


def _written_out(told: ComparedFolders) -> str:
    old, new = visible(told.old), visible(told.new)
    if not told.changes:
        return f"{old} and {new}: nothing changes on the cards of {_jobs(told.same)}.\n"
    lines = [f"From {old} to {new}", ""]
    lines += _table([one for one in told.reached if one.open])
    cut = [one for one in told.reached if not one.open]
    if cut:
        lines += ["", "already cut, for the record:", *_table(cut)]
    for side, files in ((old, told.only_old), (new, told.only_new)):
        lines += [f"only in {side}: {visible(file)}" for file in files]
    lines += [f"left out: {visible(each)}" for each in told.left_out]
    if told.same:
        blank = "" if len(lines) == 2 else "\n"
        lines.append(f"{blank}Nothing changes on the cards of {_jobs(told.same, 'other ')}.")
    return "\n".join(lines) + "\n"


def _jobs(count: int, other: str = "") -> str:
    return f"{count} {other}job{'s' * (count != 1)}"


def _table(reached: Sequence[JobReached]) -> list[str]:
    """A line a job: number, file, due, cards, valves, what."""
    rows = [
        (
            visible(one.job),
            visible(one.file),
            "" if one.due is UNSET else f"due {one.due}",
            f"card{'s' * (len(one.cards) > 1)} {' '.join(map(str, one.cards))}",
            " ".join(one.valves),
            _some(one.what),
        )
        for one in reached
    ]
    widths = [max((len(row[column]) for row in rows), default=0) for column in range(5)]
    return [
        "  " + "  ".join((*(cell.ljust(width) for cell, width in zip(row, widths, strict=False) if width), row[5]))
        for row in rows
    ]


def _some(words: Sequence[str]) -> str:
    more = len(words) - _MOST_WORDS
    return ", ".join(map(visible, words[:_MOST_WORDS])) + (f" and {more} more" if more > 0 else "")


def schema() -> str:
    """The JSON Schema of `compare --as json` of two folders."""
    about = "Which jobs of a folder a change reaches: `seatwright compare --as json FOLDER@REV FOLDER`"
    return schema_of(ComparedFolders, get_args(_FolderForm)[0], about)


if __name__ == "__main__":
    print(schema(), end="")
