"""From the bytes of a file to a Source, or to one message that says what to do with the file."""

from __future__ import annotations

import unicodedata

from seatwright.text.folding import DROPPED, fold
from seatwright.text.message import Message, Severity
from seatwright.text.slugs import ErrorSlug
from seatwright.text.source import Source, Span

MOST_BYTES = 2_000_000
MOST_LINES = 50_000
MOST_COLUMNS = 10_000
_UTF16_MARKS = (b"\xff\xfe", b"\xfe\xff")
_SAVE = "Open it in a text editor and save it again with the encoding UTF-8."


def read_source(path: str, data: bytes) -> tuple[Source | None, tuple[Message, ...]]:
    """The file as it is read, with a message for each control character in it; or no source and one message.

    path: as the job names it.
    """
    if len(data) > MOST_BYTES:
        return None, _refused(
            path,
            "file-large",
            f"{path} has {len(data):,} bytes; the most that is read is {MOST_BYTES:,}",
            "Check that this is the file you meant; split a job that is truly so long into several.",
        )
    if data.startswith(_UTF16_MARKS) or _looks_like_utf16(data):
        return None, _refused(path, "file-utf16", f"{path} is saved as UTF-16 (often called “Unicode”)", _SAVE)
    if b"\0" in data:
        return None, _refused(
            path,
            "file-binary",
            f"{path} is not a text file: it holds characters that no text has",
            "A job is written in a plain text editor; a document of a word processor has to be exported as plain text.",
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        return None, (_undecodable(path, data, fault),)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if text.count("\n") > MOST_LINES:
        return None, _refused(
            path,
            "file-large",
            f"{path} has {text.count(chr(10)):,} lines; the most that is read is {MOST_LINES:,}",
            "Check that this is the file you meant; split a job that is truly so long into several.",
        )
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > MOST_COLUMNS:
            return None, (
                Message(
                    Severity.ERROR,
                    "file-large",
                    Span(path, number, 1, number, 2),
                    f"line {number} has {len(line):,} characters; the most that is read is {MOST_COLUMNS:,}",
                    "Check that this is the file you meant: a statement stands on a line of its own.",
                ),
            )
    return source_of(path, text)


def source_of(path: str, text: str) -> tuple[Source, tuple[Message, ...]]:
    """A Source from text that is decoded already, with LF ends, and a message for each control character in it."""
    printable = text.replace("\n", "").replace("\t", "").isprintable()
    if printable and text.isascii():
        return Source(path, text), ()
    lines = text.split("\n")
    messages = () if printable else _control_characters(path, lines)
    folded = [fold(line) for line in (map(_blank_controls, lines) if messages else lines)]
    read_as = "\n".join(line for line, _ in folded)
    columns = tuple(places for _, places in folded)
    if all(places is None for places in columns):
        columns = ()
    return Source(path, read_as, "" if read_as == text else text, columns), messages


def _refused(path: str, slug: ErrorSlug, text: str, what_to_do: str) -> tuple[Message, ...]:
    return (Message(Severity.ERROR, slug, Span(path, 1, 1, 1, 1), text, what_to_do),)


def _looks_like_utf16(data: bytes) -> bool:
    """UTF-16 without its mark: nearly every second byte of plain letters is zero."""
    start = data[:2000]
    return (
        len(start) >= 8
        and max(start[0::2].count(0), start[1::2].count(0)) > 0.4 * len(start) / 2
        and not (start[0::2].count(0) and start[1::2].count(0))
    )


def _undecodable(path: str, data: bytes, fault: UnicodeDecodeError) -> Message:
    # With a byte-order mark the decoder counts from behind it.
    begin = 3 if data.startswith(b"\xef\xbb\xbf") else 0
    before = data[begin : begin + fault.start].decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
    line, column = before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1
    byte = data[begin + fault.start]
    return Message(
        Severity.ERROR,
        "file-encoding",
        Span(path, line, column, line, column + 1),
        f"{path} is not saved as UTF-8: the character here (byte {byte:02X}) cannot be read",
        _SAVE + " Check the characters beyond plain letters and digits afterwards, such as ° and Ø.",
    )


def _forbidden(character: str) -> bool:
    """Control characters, those that turn the writing direction, and invisible ones of no use here."""
    if character.isprintable() or character in DROPPED or character == "\t":
        return False
    return unicodedata.category(character) in ("Cc", "Cf", "Zl", "Zp", "Cs")


def _blank_controls(line: str) -> str:
    if line.isprintable():
        return line
    return "".join(" " if _forbidden(character) else character for character in line)


def _control_characters(path: str, lines: list[str]) -> tuple[Message, ...]:
    """One message for each control character that the file holds, at the first place where it stands."""
    seen: dict[str, Message] = {}
    for number, line in enumerate(lines, 1):
        if line.isprintable():
            continue
        for column, character in enumerate(line, 1):
            if character in seen or not _forbidden(character):
                continue
            name = unicodedata.name(character, "a control character").lower()
            seen[character] = Message(
                Severity.ERROR,
                "character-control",
                Span(path, number, column, number, column + 1),
                f"an invisible character stands here: U+{ord(character):04X}, {name}",
                "Delete it: it cannot be seen, and it could change how the line looks on a screen.",
            )
    return tuple(seen.values())
