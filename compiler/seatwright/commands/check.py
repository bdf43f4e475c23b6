"""`seatwright check FILE…`: messages only, of jobs and of shop files by themselves."""

from __future__ import annotations

import sys
import traceback
from functools import partial

from msgspec import Struct

from seatwright.commands.disk import files
from seatwright.commands.disk.job_folders import empty_folder, jobs_of
from seatwright.commands.jobs.each_job import each_job
from seatwright.commands.jobs.outcome import Exit, Outcome, read_alone, read_and_plan, worst
from seatwright.commands.jobs.warming import warm_planning
from seatwright.commands.terminal.saying import complain, complaint, in_words
from seatwright.commands.terminal.screen import first_to_mend, screen, the_rest, topics
from seatwright.job.mending import with_fixes
from seatwright.text import Message, Severity
from seatwright.text.gathered import gathered
from seatwright.text.showing import visible

_FEWEST = 8  # below so many jobs one process has checked them before others have begun


class _Checked(Struct, frozen=True):
    """What one job came to. err, out: what is said of it on standard error and standard output; messages: where a
    program is to read them.
    """

    code: Exit
    err: str = ""
    out: str = ""
    messages: tuple[Message, ...] = ()


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

    A folder stands for the jobs in it. at_once: how many are checked side by side; None: as many as there are
    processors.
    """
    if (empty := empty_folder(jobs)) is not None:
        complain("check", f"{empty} is a folder without a job (.seat) in it")
        return Exit.WRONG_USE
    codes: list[Exit] = []
    messages: list[Message] = []
    work = partial(_check, how=how)
    for checked in each_job(work, list(jobs_of(jobs)), at_once, _FEWEST, warm_planning, _lost):
        sys.stderr.write(checked.err)
        sys.stderr.flush()
        sys.stdout.write(checked.out)
        sys.stdout.flush()
        messages.extend(checked.messages)
        codes.append(Exit.DONE if how.allow_holds and checked.code is Exit.HOLDS else checked.code)
    sys.stdout.write(_for_machines(messages, how.form))
    return worst(codes)


def _lost(job: str, how_it_ended: str) -> _Checked:
    return _Checked(Exit.ERRORS, complaint("check", f"{job} was not finished: {how_it_ended}"))


def _check(job: str, how: How) -> _Checked:
    try:
        outcome = read_alone(job) if job.endswith(".shop") else read_and_plan(job)
    except files.Unreadable as problem:
        return _Checked(Exit.WRONG_USE, complaint("check", str(problem)))
    except Exception:
        # A fault of the program's own: the other jobs are checked all the same.
        return _Checked(Exit.ERRORS, complaint("check", f"{job}: seatwright failed") + traceback.format_exc())
    code = outcome.code(how.strict)
    if how.form == "lines":
        return _Checked(code, messages=outcome.messages)
    whole = gathered(with_fixes(outcome.messages, outcome.sources))
    if how.form != "text":
        return _Checked(code, messages=whole)
    return _Checked(code, _said(job, outcome, whole, how), _screen(job, outcome))


def _said(job: str, outcome: Outcome, whole: tuple[Message, ...], how: How) -> str:
    """Everything but the notices in full; these a line a topic, or each."""
    if how.each:
        return in_words(whole, outcome.sources)
    grave = tuple(message for message in whole if message.severity is not Severity.NOTICE)
    lines = topics(whole)
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
