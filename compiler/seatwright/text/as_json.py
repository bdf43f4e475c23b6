"""Messages as JSON, for programs: schema `seatwright-messages/1`, to which keys may be added but never changed.

It is published as grammar/messages.schema.json.
"""

from __future__ import annotations

import json
from collections.abc import Iterable

from seatwright.text.message import Message, in_order
from seatwright.text.source import Span

SCHEMA = "seatwright-messages/1"


def render(messages: Iterable[Message]) -> str:
    """All messages, in order. Places are null where no line bears a message; lines and columns count from 1."""
    document = {"schema": SCHEMA, "messages": [_message(message) for message in in_order(messages)]}
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _message(message: Message) -> dict[str, object]:
    return {
        "severity": message.severity.value,
        "slug": message.slug,
        **_place(message.span),
        "text": message.text,
        "help": message.help,
        "valves": list(message.valves),
        "related": [{**_place(related.span), "text": related.text} for related in message.related],
    }


def _place(span: Span | None) -> dict[str, object]:
    return {
        "file": span.file if span else None,
        "line": span.line if span else None,
        "column": span.column if span else None,
        "end_line": span.end_line if span else None,
        "end_column": span.end_column if span else None,
    }
