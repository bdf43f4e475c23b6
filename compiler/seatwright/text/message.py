"""What the compiler says: data first, one renderer for each output."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from msgspec import Struct

from seatwright.text.slugs import Slug
from seatwright.text.source import Span


class Severity(StrEnum):
    """How much a message weighs.

    error: nothing is written. hold: one valve cannot be cut as the job stands. warning: it can be done, with a
    risk that is named. notice: something was not given, so not checked, or a built-in figure was used.
    """

    ERROR = "error"
    HOLD = "hold"
    WARNING = "warning"
    NOTICE = "notice"


class Related(Struct, frozen=True):
    """A second place that a message speaks of: the other definition, the shop line that set the limit.

    same: the same is said of this place, for other valves; what stands there says nothing new.
    """

    span: Span
    text: str
    same: bool = False


class Message(Struct, frozen=True):
    """One thing wrong or worth knowing: what was seen, with the figures, and what to do about it.

    `span` is None only where no line bears it (a file that cannot be read). fix: what belongs in that place, where a
    slip of writing has one certain mend.
    """

    severity: Severity
    slug: Slug
    span: Span | None
    text: str
    help: str
    related: tuple[Related, ...] = ()
    valves: tuple[str, ...] = ()
    fix: str | None = None

    @property
    def place(self) -> tuple[str, int, int, str]:
        """The key by which messages are sorted: file, line, column, slug."""
        if self.span is None:
            return ("", 0, 0, self.slug)
        return (self.span.file, self.span.line, self.span.column, self.slug)


MOST_OF_A_KIND = 100
"""So many messages of one kind are shown; what is beyond is counted."""


def fewer(messages: Iterable[Message]) -> tuple[Message, ...]:
    """The messages in their order, of each kind no more than a person reads: the rest in one, at the first of them."""
    shown: list[Message] = []
    counts: dict[tuple[Severity, Slug], int] = {}
    beyond: dict[tuple[Severity, Slug], Message] = {}
    for message in in_order(messages):
        kind = message.severity, message.slug
        counts[kind] = counts.get(kind, 0) + 1
        if counts[kind] <= MOST_OF_A_KIND:
            shown.append(message)
        else:
            beyond.setdefault(kind, message)
    for kind, first in beyond.items():
        count = counts[kind] - MOST_OF_A_KIND
        text = f"from here on {count:,} more of this kind {'is' if count == 1 else 'are'} not shown"
        shown.append(Message(*kind, first.span, text, "Put right those above first: many may have one cause."))
    return in_order(shown)


def by_weight(messages: Iterable[Message]) -> tuple[Message, ...]:
    """The messages as a person reads them: errors, holds, warnings, notices; by place within each."""
    weights = list(Severity)
    return tuple(sorted(messages, key=lambda message: (weights.index(message.severity), message.place)))


def in_order(messages: Iterable[Message]) -> tuple[Message, ...]:
    """The messages by file, line, column, then slug: the order in which programs get them."""
    return tuple(sorted(messages, key=lambda message: message.place))
