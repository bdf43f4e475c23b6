"""A job, read and planned, as far as it could be taken."""

from __future__ import annotations

from functools import lru_cache

from msgspec import Struct

from seatwright.commands.disk import files
from seatwright.commands.terminal.exits import Exit, worst
from seatwright.commands.terminal.saying import say
from seatwright.job import read, read_used
from seatwright.job.used_files import opened_shop
from seatwright.planning.plan import Plan, Status
from seatwright.text import Message, Severity, Source
from seatwright.text.message import in_order

__all__ = ["Exit", "Outcome", "outcome_of", "read_alone", "read_and_plan", "say", "worst"]


class Outcome(Struct, frozen=True):
    """A job as far as it could be taken: its plan, None when it has an error, and all that is to be said.

    messages: their files named as seen from where the command runs; sources likewise, for the excerpts. shop_alone: it
    is a shop file by itself, which has no plan.
    """

    plan: Plan | None
    messages: tuple[Message, ...]
    sources: tuple[Source, ...]
    shop_alone: bool = False

    @property
    def errors(self) -> tuple[Message, ...]:
        """What forbids a plan."""
        return tuple(message for message in self.messages if message.severity is Severity.ERROR)

    def code(self, strict: bool = False) -> Exit:
        """The exit code of this job. strict: a warning counts as an error."""
        if self.errors or (self.plan is None and not self.shop_alone):
            return Exit.ERRORS
        if strict and any(message.severity is Severity.WARNING for message in self.messages):
            return Exit.ERRORS
        if self.plan is None:
            return Exit.DONE
        return Exit.HOLDS if any(valve.status == Status.HOLD for valve in self.plan.valves) else Exit.DONE


_SHOPS_KEPT = 8
_opened = lru_cache(_SHOPS_KEPT)(opened_shop)
"""A shop file that many jobs use is read once; it says the same of the same bytes."""


def read_and_plan(name: str) -> Outcome:
    """Read a job file and plan it. Raises `files.Unreadable`."""
    return outcome_of(files.open_job(name))


def read_alone(name: str) -> Outcome:
    """Read a shop file by itself, without a job that uses it. Raises `files.Unreadable`."""
    opened = files.open_job(name)
    said = read_used(opened.name, opened.load)
    return Outcome(None, opened.as_seen_from_here(said), opened.sources(), shop_alone=True)


def outcome_of(files_read: files.JobFiles) -> Outcome:
    """Plan a job from wherever its files come."""
    job, messages = read(files_read.name, files_read.load, _opened)
    plan = None
    if job is not None:
        from seatwright.planning.planner import plan as plan_of

        plan = plan_of(job)
    said = in_order((*messages, *(plan.messages if plan else ())))
    return Outcome(plan, files_read.as_seen_from_here(said), files_read.sources())
