"""Messages one a line, `file:line:column: severity slug: text`, for editors that jump to a place."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.text.message import Message, fewer
from seatwright.text.showing import visible


def render(messages: Iterable[Message]) -> str:
    """All messages, in order, one a line, what to do behind a dash; empty where there are none."""
    return "".join(_line(message) + "\n" for message in fewer(messages))


def _line(message: Message) -> str:
    place = ""
    if message.span is not None:
        place = f"{message.span.file}:{message.span.line}:{message.span.column}: "
    what_to_do = f" – {message.help}" if message.help else ""
    whose = f"{' '.join(message.valves)}: " if message.valves else ""
    return visible(f"{place}{message.severity.value} {message.slug}: {whose}{message.text}{what_to_do}")
