"""What a command ends with, and how its messages reach a person."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum

from seatwright.commands import files
from seatwright.job import read
from seatwright.planning.plan import Plan
from seatwright.text import Message, Severity, Source
from seatwright.text.message import in_order
from seatwright.text.terminal import render


class Exit(IntEnum):
    """The exit codes: done; errors in the job; wrong use or a file that cannot be read or written; valves on hold."""

    DONE = 0
    ERRORS = 1
    WRONG_USE = 2
    HOLDS = 3


@dataclass(frozen=True, slots=True)
class Outcome:
    """A job as far as it could be taken: its plan, None when it has an error, and all that is to be said.

    messages: their files named as seen from where the command runs; sources likewise, for the excerpts.
    """

    plan: Plan | None
    messages: tuple[Message, ...]
    sources: tuple[Source, ...]

    @property
    def errors(self) -> tuple[Message, ...]:
        """What forbids a plan."""
        return tuple(message for message in self.messages if message.severity is Severity.ERROR)

    def code(self, strict: bool = False) -> Exit:
        """The exit code of this job. strict: a warning counts as an error."""
        if self.plan is None or self.errors:
            return Exit.ERRORS
        if strict and any(message.severity is Severity.WARNING for message in self.messages):
            return Exit.ERRORS
        return Exit.HOLDS if any(valve.status == "hold" for valve in self.plan.valves) else Exit.DONE


def worst(codes: Iterable[Exit]) -> Exit:
    """The code of a run over many jobs: wrong use before errors, errors before holds."""
    order = (Exit.DONE, Exit.HOLDS, Exit.ERRORS, Exit.WRONG_USE)
    return max(codes, key=order.index, default=Exit.DONE)


def read_and_plan(name: str) -> Outcome:
    """Read a job file and plan it. Raises `files.Unreadable`."""
    return planned(files.open_job(name))


def planned(files_read: files.JobFiles) -> Outcome:
    """Plan a job from wherever its files come."""
    job, messages = read(files_read.name, files_read.load)
    plan = None
    if job is not None:
        from seatwright.planning.planner import plan as plan_of

        plan = plan_of(job)
    said = in_order((*messages, *(plan.messages if plan else ())))
    return Outcome(plan, files_read.as_seen_from_here(said), files_read.sources())


def say(messages: Iterable[Message], sources: Iterable[Source]) -> None:
    """Print messages to standard error, in colour only on a terminal and unless NO_COLOR is set."""
    colour = sys.stderr.isatty() and not os.environ.get("NO_COLOR")
    columns = shutil.get_terminal_size((100, 24)).columns if sys.stderr.isatty() else 100
    text = render(messages, {source.path: source for source in sources}, colour=colour, columns=columns)
    sys.stderr.write(text if not text or text.endswith("\n") else text + "\n")
