"""`seatwright check FILE…`: messages only, of jobs and of shop files by themselves."""

from __future__ import annotations

import os
import sys
from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct

from seatwright.commands.disk import files
from seatwright.commands.disk.job_folders import empty_folder, jobs_of
from seatwright.commands.jobs.each_job import each_job
from seatwright.commands.jobs.outcome import Exit, Outcome, read_alone, read_and_plan, worst
from seatwright.commands.jobs.warming import warm_planning
from seatwright.commands.terminal.saying import complain, complaint, failure, in_words
from seatwright.commands.terminal.screen import first_to_mend, screen, the_rest, topic_lines
from seatwright.job.declarations import kind_of
from seatwright.job.mending import with_fixes
from seatwright.text import Message, Severity
from seatwright.text.gathered import gathered
from seatwright.text.showing import visible

if TYPE_CHECKING:
    # What is said over many jobs is loaded only where there are many.
    from seatwright.over_jobs.overdue_checks import OverdueCheck
    from seatwright.over_jobs.stock.pieces import JobPieces
    from seatwright.planning.plan import Plan

_FEWEST = 8  # below so many jobs one process has checked them before others have begun


class _Checked(Struct, frozen=True):
    """What one job came to. err, out: what is said of it on standard error and standard output; messages: where a
    program is to read them; pieces: of a job of a folder, what it takes from the shelves; overdue: its gauges that were
    not checked in time, which are said once for all jobs.
    """

    code: Exit
    err: str = ""
    out: str = ""
    messages: tuple[Message, ...] = ()
    pieces: JobPieces | None = None
    overdue: tuple[OverdueCheck, ...] = ()


class How(Struct, frozen=True):
    """How messages are said. form: text | lines | json | sarif. each: every notice with its place; else a line a topic.
    strict: warnings fail as well. allow_holds: a valve on hold does not, as where a job is saved half-way.
    """

    form: str = "text"
    each: bool = False
    strict: bool = False
    allow_holds: bool = False


def check(jobs: list[str], how: How, at_once: int | None = None) -> Exit:
    """Read and plan each job, or read a shop file by itself, and say what is wrong with it.

    A folder stands for all jobs below it; behind them comes what is to be said of all of them. at_once: how many are
    checked side by side; None: as many as there are processors.
    """
    if (empty := empty_folder(jobs)) is not None:
        complain("check", f"{empty} is a folder without a job (.seat) in it")
        return Exit.WRONG_USE
    codes: list[Exit] = []
    messages: list[Message] = []
    pieces: list[JobPieces] = []
    overdue: list[OverdueCheck] = []
    folders = frozenset(jobs_of(each for each in jobs if each != files.STANDARD_INPUT and os.path.isdir(each)))
    work = partial(_check, how=how, folders=folders)
    for checked in each_job(work, list(jobs_of(jobs)), at_once, _FEWEST, warm_planning, _lost):
        if checked.pieces is not None:
            pieces.append(checked.pieces)
        overdue.extend(checked.overdue)
        sys.stderr.write(checked.err)
        sys.stderr.flush()
        sys.stdout.write(checked.out)
        sys.stdout.flush()
        messages.extend(checked.messages)
        codes.append(Exit.DONE if how.allow_holds and checked.code is Exit.HOLDS else checked.code)
    if pieces:
        found = _say_of_all(pieces, overdue, how, jobs)
        messages.extend(found)
        if how.strict and any(message.severity is Severity.WARNING for message in found):
            codes.append(Exit.ERRORS)
    sys.stdout.write(_for_machines(messages, how.form))
    return worst(codes)


def _say_of_all(pieces: list[JobPieces], overdue: list[OverdueCheck], how: How, jobs: list[str]) -> tuple[Message, ...]:
    """What there is to say over all jobs of the folders; on standard error where a person reads it."""
    from seatwright.commands.jobs.over_folder import excerpts
    from seatwright.over_jobs.overdue_checks import overdue_messages
    from seatwright.over_jobs.stock.said import stock_messages
    from seatwright.over_jobs.stock.shelves import standings
    from seatwright.over_jobs.stock.to_order import ordering_of

    stand = standings(pieces)
    found = (*overdue_messages(overdue), *stock_messages(stand, pieces, ordering_of(stand, pieces)))
    if how.form == "text" and found:
        grave = found if how.each else tuple(each for each in found if each.severity is not Severity.NOTICE)
        lines = "" if how.each else topic_lines(found)
        blank = "\n" if grave and lines else ""
        rest = "" if how.each else the_rest(found, f"seatwright check --all {' '.join(jobs)}")
        sys.stderr.write(in_words(grave, excerpts(grave)) + blank + lines + rest)
        sys.stderr.flush()
    return found


def _lost(job: str, how_it_ended: str) -> _Checked:
    return _Checked(Exit.ERRORS, complaint("check", f"{job} was not finished: {how_it_ended}"))


def _check(job: str, how: How, folders: frozenset[str]) -> _Checked:
    try:
        outcome = read_and_plan(job) if kind_of(job) == "job" else read_alone(job)
        pieces = None if outcome.plan is None or job not in folders else _pieces(job, outcome.plan)
    except files.Unreadable as problem:
        return _Checked(Exit.WRONG_USE, complaint("check", str(problem)))
    except Exception:
        # A fault of the program's own: the other jobs are checked all the same.
        return _Checked(Exit.ERRORS, failure("check", job))
    code, said = outcome.code(how.strict), outcome.messages
    late: tuple[OverdueCheck, ...] = ()
    if outcome.plan is not None and pieces is not None and any(each.slug == "check-overdue" for each in said):
        said, late = _apart(job, outcome.plan, said)
    if how.form == "lines":
        return _Checked(code, messages=said, pieces=pieces, overdue=late)
    whole = gathered(with_fixes(said, outcome.sources))
    if how.form != "text":
        return _Checked(code, messages=whole, pieces=pieces, overdue=late)
    return _Checked(code, _said(job, outcome, whole, how), _screen(job, outcome), pieces=pieces, overdue=late)


def _apart(job: str, plan: Plan, said: tuple[Message, ...]) -> tuple[tuple[Message, ...], tuple[OverdueCheck, ...]]:
    """The messages of a job of a folder, and the gauges that are spoken of once for all jobs."""
    from seatwright.commands.jobs.over_folder import in_folder
    from seatwright.over_jobs.overdue_checks import overdue_of

    return tuple(each for each in said if each.slug != "check-overdue"), overdue_of(
        plan.job, in_folder(job, os.curdir, plan).seen
    )


def _pieces(job: str, plan: Plan) -> JobPieces:
    """What a job takes from the shelves, which are named as seen from where the command runs."""
    from seatwright.commands.jobs.over_folder import in_folder
    from seatwright.over_jobs.stock.pieces import pieces_of

    where = in_folder(job, os.curdir, plan)
    return pieces_of(plan, where.file, where.shelves, where.seen)


def _said(job: str, outcome: Outcome, whole: tuple[Message, ...], how: How) -> str:
    """Everything but the notices in full; these a line a topic, or each."""
    if how.each:
        return in_words(whole, outcome.sources)
    grave = tuple(message for message in whole if message.severity is not Severity.NOTICE)
    lines = topic_lines(whole)
    rest = the_rest(whole, f"seatwright check --all {job}")
    blank = "\n" if grave and lines else ""
    return in_words(grave, outcome.sources) + blank + lines + rest


def _screen(job: str, outcome: Outcome) -> str:
    if outcome.shop_alone and not outcome.errors:
        return f"{visible(job)}: no errors\n"
    if outcome.plan is None or outcome.errors:
        return first_to_mend(outcome.errors)
    return screen(outcome.plan, f"{job}:")


def _for_machines(messages: list[Message], form: str) -> str:
    match form:
        case "json":
            from seatwright.text.as_json import render
        case "sarif":
            from seatwright.text.sarif import render
        case "lines":
            from seatwright.text.terminal import one_a_line as render
        case _:
            return ""
    return render(messages)
