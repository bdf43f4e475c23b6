"""`seatwright check JOB…`: messages only."""

from __future__ import annotations

import sys

from seatwright.commands import files
from seatwright.commands.outcome import Exit, read_and_plan, say, worst
from seatwright.text import Message


def check(jobs: list[str], form: str, strict: bool, allow_holds: bool = False) -> Exit:
    """Read and plan each job and say what is wrong with it.

    strict: warnings fail as well. allow_holds: a valve on hold does not, as where a job is saved half-way.
    """
    codes: list[Exit] = []
    messages: list[Message] = []
    for job in jobs:
        try:
            outcome = read_and_plan(job)
        except files.Unreadable as problem:
            sys.stderr.write(f"seatwright check: {problem}\n")
            codes.append(Exit.WRONG_USE)
            continue
        if form == "text":
            say(outcome.messages, outcome.sources)
        messages.extend(outcome.messages)
        code = outcome.code(strict)
        codes.append(Exit.DONE if allow_holds and code is Exit.HOLDS else code)
    sys.stdout.write(_for_machines(messages, form))
    return worst(codes)


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
