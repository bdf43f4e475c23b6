"""The job with one figure more: what it says now that it did not say before."""

from __future__ import annotations

import os
from collections import Counter
from pathlib import Path

from msgspec import Struct

from seatwright.commands.disk.files import JobFiles, open_job, real
from seatwright.commands.jobs.outcome import Outcome, outcome_of
from seatwright.job import Job
from seatwright.text import Message, Severity, Source, Span
from seatwright.text.reading import read_source as read_text
from seatwright.text.showing import visible


class JobNow(Struct, frozen=True):
    """A job file as it stands, or as it would stand, read and planned. source: None where it is no text."""

    content: bytes
    source: Source | None
    outcome: Outcome

    @property
    def job(self) -> Job | None:
        """The job, None while it has an error."""
        return self.outcome.plan.job if self.outcome.plan is not None else None


def as_it_stands(job: str, before: JobNow | None = None) -> JobNow:
    """The job as it stands on disk; `before` again where nobody has changed it. Raises Unreadable."""
    opened = open_job(job)
    content = opened.contents()[opened.name]
    if before is not None and before.content == content:
        return before
    return _reading(job, opened, content)


def as_it_would_stand(job: str, content: bytes) -> JobNow:
    """The job with other content, beside the same files."""
    path = Path(job)
    return _reading(job, JobFiles(path.name, real(path.parent), os.path.dirname(job), content), content)


def _reading(job: str, opened: JobFiles, content: bytes) -> JobNow:
    source, _ = read_text(visible(os.path.join(os.path.dirname(job), os.path.basename(job))), content)
    return JobNow(content, source, outcome_of(opened))


def new_messages(before: JobNow, after: JobNow, cell: Span | None) -> list[Message]:
    """What is said now and was not said before, what is said of a cell first.

    A message is known again by its kind and by what it marks: its words and its line change with every figure.
    """
    known = Counter(_mark(message, before) for message in before.outcome.messages)
    in_order = sorted(after.outcome.messages, key=lambda message: not touches(message, cell))
    fresh: list[Message] = []
    # Of several of one kind with the same mark those at the cell are the new ones.
    for message in reversed(in_order):
        mark = _mark(message, after)
        if known[mark]:
            known[mark] -= 1
        else:
            fresh.append(message)
    return [message for message in reversed(fresh) if message.severity is not Severity.NOTICE]


def touches(message: Message, cell: Span | None) -> bool:
    """Whether a message is about a cell: at its row, where of two figures that differ either may be the slip, or at
    another place because of it."""
    if cell is None:
        return False
    if message.span is not None and message.span.line == cell.line:
        return True
    return any(
        other.span.line == cell.line and other.span.column < cell.end_column and cell.column < other.span.end_column
        for other in message.related
    )


def _mark(message: Message, of: JobNow) -> tuple[str, str, str]:
    span = message.span
    if span is None or of.source is None or span.file != of.source.path:
        return message.slug, span.file if span else "", str(span)
    line = of.source.as_typed()[span.line - 1]
    marked = line[span.column - 1 : span.end_column - 1 if span.line == span.end_line else None]
    return message.slug, span.file, (marked.split() or [""])[0]
