"""`seatwright check JOB…`: messages only."""

from __future__ import annotations

import sys

from seatwright.commands import files
from seatwright.commands.outcome import Exit, code_of, read_and_plan, say, worst
from seatwright.text import Message, Source
from seatwright.text.as_json import as_json
from seatwright.text.sarif import as_sarif


def check(jobs: list[str], form: str, strict: bool) -> Exit:
    """Read and plan each job and say what is wrong with it. strict: warnings fail as well."""
    codes: list[Exit] = []
    messages: list[Message] = []
    for job in jobs:
        try:
            plan, said, sources = read_and_plan(job)
        except files.Unreadable as problem:
            sys.stderr.write(f"seatwright check: {problem}\n")
            codes.append(Exit.WRONG_USE)
            continue
        messages.extend(said)
        if form == "text":
            _print_text(said, sources)
        codes.append(code_of(plan, said, strict))
    if form == "json":
        sys.stdout.write(as_json(messages))
    elif form == "sarif":
        sys.stdout.write(as_sarif(messages))
    return worst(codes)


def _print_text(messages: tuple[Message, ...], sources: tuple[Source, ...]) -> None:
    say(messages, sources)
