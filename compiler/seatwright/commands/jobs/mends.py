"""Slips of writing that have one certain mend: what is marked, and what belongs there.

A message whose help names one form only, for a slip in the table below, is such a slip. A figure keeps its digits, but
for the letters O and l among them; so nothing that is marked ever gets another value than the one that was typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from seatwright.text.message import Message
from seatwright.text.source import Source, Span

_ONE_FORM = r"`(?P<form>[^`]+)`[.?,]"
_HELPS: Mapping[str, str] = {
    "alloy-unknown": rf"Did you mean {_ONE_FORM}",
    "choice-unknown": rf"Did you mean {_ONE_FORM}.*",
    "column-unknown": rf"Did you mean {_ONE_FORM} It is read as that here\.",
    "date-wanted": rf"Write year-month-day: {_ONE_FORM}",
    "decimal-comma": rf"Write (?:it without commas: )?{_ONE_FORM}",
    "field-unknown": rf"Did you mean {_ONE_FORM} It is read as that here\.",
    "figure-mark": rf"Write {_ONE_FORM}",
    "letter-for-digit": rf"Write it in digits: {_ONE_FORM}",
    "limit-word": rf"Write {_ONE_FORM}",
    "mark-needless": r"Leave it out: .*(?P<form>)",
    "material-unknown": rf"Did you mean {_ONE_FORM}",
    "range-hyphen": rf"A range is written {_ONE_FORM}",
    "range-slash": rf"A range is written {_ONE_FORM}",
    "section-unknown": rf"Did you mean {_ONE_FORM} It is read as that here\.",
    "tolerance-glued": rf"A tolerance is written {_ONE_FORM} parted by blanks\.",
    "tolerance-slash": rf"Write them apart: {_ONE_FORM}",
    "word-renamed": rf"Write {_ONE_FORM}.*",
}
_WORDS = (
    "alloy-unknown", "choice-unknown", "column-unknown", "field-unknown", "material-unknown", "section-unknown"
)  # fmt: skip
"""Of these a single slip of the pen is certain, and no more."""


def with_fixes(messages: Iterable[Message], sources: Iterable[Source]) -> tuple[Message, ...]:
    """The messages, each that has one certain mend with what belongs in its place."""
    lines = {source.path: source.as_typed() for source in sources}
    return tuple(replace(message, fix=fix(message, lines)) for message in messages)


def fix(message: Message, lines: Mapping[str, list[str]]) -> str | None:
    """What belongs where a message points, "" for nothing at all; None where that is not certain."""
    span = message.span
    if span is None or span.line != span.end_line or message.slug not in _HELPS:
        return None
    marked = lines[span.file][span.line - 1][span.column - 1 : span.end_column - 1]
    found = re.fullmatch(_HELPS[message.slug], message.help, re.DOTALL)
    if found is None or not marked or "~" in marked:
        return None
    form = found["form"]
    if _digits(marked, message.slug) != _digits(form, message.slug) or form == marked:
        return None
    return form if message.slug not in _WORDS or _one_slip(marked.lower(), form.lower()) else None


def mended(text: str, fixes: Iterable[tuple[Span, str]]) -> str:
    """A file's text with what belongs in each place, the first of two that overlap. text: with LF ends, as typed."""
    lines = text.split("\n")
    last: dict[int, int] = {}
    for span, form in sorted(fixes, key=lambda each: (each[0].line, -each[0].column)):
        if span.end_column <= last.get(span.line, span.end_column):
            line = lines[span.line - 1]
            lines[span.line - 1] = line[: span.column - 1] + form + line[span.end_column - 1 :]
            last[span.line] = span.column
    return "\n".join(lines)


def _digits(text: str, slug: str) -> list[str]:
    if slug == "letter-for-digit":
        text = re.sub("[oO]", "0", re.sub("[lI]", "1", text))
    groups = re.findall(r"\d+", text)
    # Of a date the groups may change places, of any other figure none may.
    return sorted(groups) if slug == "date-wanted" else ["".join(groups)]


def _one_slip(typed: str, meant: str) -> bool:
    """Whether one letter too many, too few or wrong, or two that changed places, part two words."""
    if typed == meant or min(len(typed), len(meant)) < 4:
        return False
    start = next((at for at, pair in enumerate(zip(typed, meant, strict=False)) if pair[0] != pair[1]), len(typed))
    rest, other = typed[start:], meant[start:]
    swapped = len(rest) > 1 and rest[1] + rest[0] + rest[2:] == other
    return swapped or rest[1:] == other or rest == other[1:] or rest[1:] == other[1:]
