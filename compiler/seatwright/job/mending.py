"""Slips of writing that have one certain mend: what is marked, and what belongs there.

A message whose help names one form only, for a slip in the table below, is such a slip. A figure keeps its digits, but
for the letters O and l among them; so nothing that is marked ever gets another value than the one that was typed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping

from msgspec.structs import replace

from seatwright.job.declarations import kind_of
from seatwright.job.reader import read
from seatwright.job.used_files import read_used
from seatwright.text import Message, Severity, Source, Span
from seatwright.text.reading import read_source as read_text

_ROUNDS = 20  # a mend may lay bare the next slip

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


def as_mended(name: str, data: bytes, load: Callable[[str], bytes]) -> tuple[bytes, int]:
    """A job or shop file with every certain mend, and how many there were; no mend stays that leaves as much wrong.

    load: gives the bytes of the other files, by the names that the job has for them.
    """
    count = 0
    for _ in range(_ROUNDS):
        better, mends = _one_round(name, data, load)
        if not mends:
            break
        data, count = better, count + mends
    return data, count


def _one_round(name: str, data: bytes, load: Callable[[str], bytes]) -> tuple[bytes, int]:
    source, _ = read_text(name, data)
    if source is None or b"\r" in data.replace(b"\r\n", b""):
        return data, 0
    lines = {name: source.as_typed()}
    errors = _errors(name, data, load)
    fixes = []
    for error in errors:
        if error.span is not None and error.span.file == name and (form := fix(error, lines)) is not None:
            fixes.append((error.span, form))
    # All at once, where that mends as many as it should; else one by one, each that makes the file better.
    if fixes:
        better = _written(data, mended("\n".join(lines[name]), fixes))
        if len(_errors(name, better, load)) <= len(errors) - len(fixes):
            return better, len(fixes)
    for one in fixes:
        better = _written(data, mended("\n".join(lines[name]), [one]))
        # What stands behind a word that is read at last may be a slip of its own.
        fresh = {_key(error) for error in _errors(name, better, load)} - {_key(error) for error in errors}
        if len(_errors(name, better, load)) < len(errors) or all(line == one[0].line for _, line, _ in fresh):
            return better, 1
    return data, 0


def _key(error: Message) -> tuple[str, int, str]:
    return error.slug, error.span.line if error.span is not None else 0, error.text


def _written(before: bytes, text: str) -> bytes:
    """As the file is kept: with its byte-order mark and its line ends."""
    ends = text.replace("\n", "\r\n") if b"\r\n" in before else text
    mark = b"\xef\xbb\xbf" if before.startswith(b"\xef\xbb\xbf") else b""
    return mark + ends.encode("utf-8")


def _errors(name: str, data: bytes, load: Callable[[str], bytes]) -> list[Message]:
    def instead(other: str) -> bytes:
        return data if other == name else load(other)

    messages = read(name, instead)[1] if kind_of(name) == "job" else read_used(name, instead)
    return [message for message in messages if message.severity is Severity.ERROR]


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
