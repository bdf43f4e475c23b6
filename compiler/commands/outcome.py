"""What a command ends with, and how its messages reach a person."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from enum import IntEnum

from seatwright.commands import files
from seatwright.job import Job, read
from seatwright.planning.plan import Plan
from seatwright.text import Message, Severity, Source
from seatwright.text.terminal import render


class Exit(IntEnum):
    """The exit codes: done; errors in the job; wrong use or a file that cannot be read or written; valves on hold."""

    DONE = 0
    ERRORS = 1
    WRONG_USE = 2
    HOLDS = 3


def worst(codes: Iterable[Exit]) -> Exit:
    """The code of a run over many jobs: wrong use before errors, errors before holds."""
    order = (Exit.DONE, Exit.HOLDS, Exit.ERRORS, Exit.WRONG_USE)
    return max(codes, key=order.index, default=Exit.DONE)


def planned(job: Job) -> Plan:
    """The plan of a job; planning is imported only when it is wanted."""
    from seatwright.planning.planner import plan

    return plan(job)


def read_and_plan(name: str) -> tuple[Plan | None, tuple[Message, ...], tuple[Source, ...]]:
    """The plan of a job file, all messages with files named as seen from here, and the sources for their excerpts.

    Raises `files.Unreadable`.
    """
    path, load = files.loader(name)
    job, messages = read(path, load)
    plan = None if job is None else planned(job)
    said = sorted((*messages, *(plan.messages if plan else ())), key=lambda message: message.place)
    return plan, tuple(said), _sources(path, load, job, said)


def _sources(path: str, load: object, job: Job | None, messages: Iterable[Message]) -> tuple[Source, ...]:
    """The files that excerpts are taken from: the job's own when it was read, else those that messages speak of."""
    if job is not None:
        return job.sources
    from seatwright.text.reading import decode

    named = dict.fromkeys([path, *(message.span.file for message in messages if message.span)])
    found: list[Source] = []
    for name in named:
        try:
            source, _ = decode(name, load(name))  # type: ignore[operator]
        except (OSError, Exception):
            continue
        if source is not None:
            found.append(source)
    return tuple(found)


def say(messages: Iterable[Message], sources: Iterable[Source], job: str) -> None:
    """Print messages to standard error, in colour only on a terminal and unless NO_COLOR is set."""
    colour = sys.stderr.isatty() and not os.environ.get("NO_COLOR")
    text = render(messages, sources, colour=colour)
    if text:
        sys.stderr.write(text if text.endswith("\n") else text + "\n")


def code_of(plan: Plan | None, messages: Iterable[Message], strict: bool = False) -> Exit:
    """The exit code of one job."""
    severities = {message.severity for message in messages}
    if plan is None or Severity.ERROR in severities:
        return Exit.ERRORS
    if strict and Severity.WARNING in severities:
        return Exit.ERRORS
    if any(valve.status == "hold" for valve in plan.valves):
        return Exit.HOLDS
    return Exit.DONE
