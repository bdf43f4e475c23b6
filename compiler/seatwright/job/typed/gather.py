"""What is said while a job is read, each mistake once."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.text import Message, Severity, Span, in_order


class Mistake(Exception):
    """A line or a cell that cannot be read any further; carries the one message about it."""

    def __init__(self, message: Message) -> None:
        super().__init__(message.text)
        self.message = message


class Gathered:
    """The messages of one reading; the same slug at the same place is said once."""

    def __init__(self, messages: Iterable[Message] = ()) -> None:
        self._messages: dict[tuple[Span | None, str], Message] = {}
        self._places: set[Span | None] = set()
        self._wrong_lines: set[tuple[str, int]] = set()
        for message in messages:
            self.say(message)

    def say(self, message: Message) -> None:
        """Keep a message, unless it has been said of this place already."""
        self._messages.setdefault((message.span, message.slug), message)
        self._places.add(message.span)
        if message.severity is Severity.ERROR and message.span is not None:
            self._wrong_lines.add((message.span.file, message.span.line))

    @property
    def in_error(self) -> bool:
        """Whether anything said so far keeps the job from being planned."""
        return any(message.severity is Severity.ERROR for message in self._messages.values())

    def said(self, *slugs: str, file: str) -> bool:
        """Whether one of these has been said of a file."""
        return any(slug in slugs and span is not None and span.file == file for span, slug in self._messages)

    def said_anywhere(self, slug: str) -> bool:
        """Whether this has been said of any file."""
        return any(each == slug for _, each in self._messages)

    def spoken_for(self, span: Span | None) -> bool:
        """Whether something has been said of a place, or an error of its line: what is odd there may follow from it."""
        return span in self._places or (span is not None and (span.file, span.line) in self._wrong_lines)

    def in_order(self) -> tuple[Message, ...]:
        """All that was said, by place."""
        return in_order(self._messages.values())
