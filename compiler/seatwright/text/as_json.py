"""Messages as JSON, for programs: the form `seatwright-messages/1`, to which keys may be added but never changed.

`python -m seatwright.text.as_json > grammar/messages.schema.json` renews its schema, which is made from these records.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated, Literal, get_args

import msgspec
from msgspec import Meta, Struct

from seatwright.text.forms import schema_of
from seatwright.text.message import Message, Severity, fewer
from seatwright.text.registry import declared
from seatwright.text.showing import for_programs
from seatwright.text.source import Span

MessagesForm = Literal["seatwright-messages/1"]
FileName = Annotated[str | None, Meta(description="As seen from where the command runs; null where no line bears it.")]
LineNumber = Annotated[Annotated[int, Meta(ge=1)] | None, Meta(description="Counted from 1.")]
ColumnNumber = Annotated[
    Annotated[int, Meta(ge=1)] | None,
    Meta(
        description="Counted from 1 in characters (Unicode code points) as they stand in the file; the end is past it."
    ),
]


class SaidOf(Struct, frozen=True):
    """Another place that a message speaks of: the other definition, the shop line that set the limit."""

    file: FileName
    line: LineNumber
    column: ColumnNumber
    end_line: LineNumber
    end_column: ColumnNumber
    text: Annotated[str, Meta(description="What stands there.")]
    same: Annotated[bool, Meta(description="Whether the same message is said of that place, for other valves.")] = False


class Fix(Struct, frozen=True):
    """The one certain mend of a slip of writing: what belongs in place of what stands there."""

    line: LineNumber
    column: ColumnNumber
    end_line: LineNumber
    end_column: ColumnNumber
    text: Annotated[str, Meta(description="What belongs there; empty where nothing does.")]


class Said(Struct, frozen=True):
    """One thing that is wrong or worth knowing."""

    severity: Annotated[Severity, Meta(description="How much it weighs.")]
    slug: Annotated[
        str,
        Meta(
            pattern="^[a-z]+(-[a-z]+)*$",
            description="The name of this kind of message; `seatwright explain SLUG` prints what it means.",
        ),
    ]
    file: FileName
    line: LineNumber
    column: ColumnNumber
    end_line: LineNumber
    end_column: ColumnNumber
    text: Annotated[str, Meta(min_length=1, description="What was seen, with the figures.")]
    help: Annotated[str, Meta(description="What to do about it.")]
    valves: Annotated[
        list[str], Meta(description="The valves it concerns, empty where it concerns the job or none by name.")
    ]
    related: list[SaidOf]
    topic: Annotated[str, Meta(description="Of a notice: under which it is counted with others; else empty.")] = ""
    fix: Fix | None = None


class Messages(Struct, frozen=True):
    """All that is said about one or more jobs, in the order of the files, lines and columns.

    Keys may be added within this version; none is ever removed, renamed or given another meaning.
    """

    format: Annotated[MessagesForm, Meta(description="The name and version of this form.")]
    messages: list[Said]


def render(messages: Iterable[Message]) -> str:
    """All messages, in order. Places are null where no line bears a message; lines and columns count from 1."""
    said = [
        Said(
            message.severity, message.slug, *_place(message.span), message.text, message.help, list(message.valves),
            [SaidOf(*_place(related.span), related.text, related.same) for related in message.related],
            declared()[message.slug].topic,
            Fix(*_place(message.span)[1:], message.fix) if message.fix is not None else None,
        )
        for message in fewer(messages)
    ]  # fmt: skip
    return for_programs(msgspec.to_builtins(Messages(get_args(MessagesForm)[0], said)))


def schema() -> str:
    """The JSON Schema of what `render` gives."""
    return schema_of(Messages, get_args(MessagesForm)[0], "Messages of `seatwright check --as json`")


def _place(span: Span | None) -> tuple[str | None, int | None, int | None, int | None, int | None]:
    if span is None:
        return None, None, None, None, None
    return span.file, span.line, span.column, span.end_line, span.end_column


if __name__ == "__main__":
    print(schema(), end="")
