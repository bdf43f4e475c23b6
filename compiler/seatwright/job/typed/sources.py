"""Who says a figure: the text that stands behind it on its line, and in an engine file what the whole file rests on."""

from __future__ import annotations

from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.declarations import Field, SectionDeclared
from seatwright.job.model import NotUsed
from seatwright.job.typed.gather import Mistake
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_values as say
from seatwright.syntax.tree import Argument, Text, Word
from seatwright.text import Span


def without_source(
    section: SectionDeclared, declared: Field, arguments: tuple[Argument, ...]
) -> tuple[tuple[Argument, ...], str]:
    """What stands behind a field's word without the text that says who printed its figure, and that text.

    Raises Mistake for a text that does not end.
    """
    last = arguments[-1] if len(arguments) > 1 else None
    if not section.sourced or declared.dimension is None or not isinstance(last, Text):
        return arguments, ""
    if not last.closed:
        raise Mistake(say.text_open(last.span))
    return arguments[:-1], last.text


def who_says(scope: Scope, text: str) -> str:
    """What is printed behind a figure: the file's own source, then the text on its line."""
    return f"{scope.says}, {text}" if scope.says and text else scope.says or text


def sourced(value: Any, says: str) -> Any:
    """A value with every figure in it said by somebody."""
    if not says or isinstance(value, Span):
        return value
    if isinstance(value, (tuple, list)):
        return type(value)(sourced(part, says) for part in value)
    if not isinstance(value, Struct):
        return value
    parts = {part: getattr(value, part) for part in value.__struct_fields__}
    inside = {part: sourced(one, says) for part, one in parts.items() if isinstance(one, (Struct, tuple))}
    return replace(value, **inside, **({"source": says} if "source" in parts else {}))


def not_used(declared: Field, word: Span, arguments: tuple[Argument, ...], scope: Scope) -> NotUsed | None:
    """`not-used "the spring seat was cut away"`; None for a line that says something else. Raises Mistake."""
    first = arguments[0] if arguments else None
    if not isinstance(first, Word) or first.text.lower() != "not-used":
        return None
    reason = arguments[1] if len(arguments) == 2 else None
    if not isinstance(reason, Text):
        example = f'{declared.word} not-used "the spring seat was cut away"'
        raise Mistake(say.value_missing(first.span, "not-used", "the reason in quotes", example))
    if not reason.closed:
        raise Mistake(say.text_open(reason.span))
    return NotUsed(reason.text, first.span.to(reason.span))
