"""`seatwright check JOB…`: messages only."""

from __future__ import annotations

import sys
import traceback
from functools import partial

from msgspec import Struct

from seatwright.commands.disk import files
from seatwright.commands.disk.job_folders import empty_folder, jobs_of
from seatwright.commands.jobs.each_job import each_job
from seatwright.commands.jobs.outcome import Exit, read_and_plan, worst
from seatwright.commands.jobs.warming import warm_planning
from seatwright.commands.terminal.saying import complain, complaint, in_words
from seatwright.text import Message

_FEWEST = 8  # below so many jobs one process has checked them before others have begun


class _Checked(Struct, frozen=True):
    """What one job came to. err: what is said of it on standard error; messages: where a program is to read them."""

    code: Exit
    err: str = ""
    messages: tuple[Message, ...] = ()


def check(jobs: list[str], form: str, strict: bool, allow_holds: bool = False, at_once: int | None = None) -> Exit:
    """Read and plan each job and say what is wrong with it.

    A folder stands for the jobs in it. strict: warnings fail as well. allow_holds: a valve on hold does not, as where
    a job is saved half-way. at_once: how many are checked side by side; None: as many as there are processors.
    """
    if (empty := empty_folder(jobs)) is not None:
        complain("check", f"{empty} is a folder without a job (.seat) in it")
        return Exit.WRONG_USE
    codes: list[Exit] = []
    messages: list[Message] = []
    work = partial(_check, form=form, strict=strict)
    for checked in each_job(work, list(jobs_of(jobs)), at_once, _FEWEST, warm_planning, _lost):
        sys.stderr.write(checked.err)
        messages.extend(checked.messages)
        codes.append(Exit.DONE if allow_holds and checked.code is Exit.HOLDS else checked.code)
    sys.stdout.write(_for_machines(messages, form))
    return worst(codes)


def _lost(job: str, how: str) -> _Checked:
    return _Checked(Exit.ERRORS, complaint("check", f"{job} was not finished: {how}"))


def _check(job: str, form: str, strict: bool) -> _Checked:
    try:
        outcome = read_and_plan(job)
    except files.Unreadable as problem:
        return _Checked(Exit.WRONG_USE, complaint("check", str(problem)))
    except Exception:
        # A fault of the program's own: the other jobs are checked all the same.
        return _Checked(Exit.ERRORS, complaint("check", f"{job}: seatwright failed") + traceback.format_exc())
    if form == "text":
        return _Checked(outcome.code(strict), in_words(outcome.messages, outcome.sources))
    return _Checked(outcome.code(strict), messages=outcome.messages)


def _for_machines(messages: list[Message], form: str) -> str:
    match form:
        case "json":
            from seatwright.text.as_json import render
        case "sarif":
            from seatwright.text.sarif import render
        case "lines":
            from seatwright.text.one_line import render
        case _:
            return ""
    return render(messages)
