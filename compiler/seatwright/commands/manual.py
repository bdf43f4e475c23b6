"""`seatwright manual`: the manual page, made of the words of the command and the declarations of the language."""

from __future__ import annotations

import sys
from collections.abc import Iterator

from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.word import Slot
from seatwright.commands.terminal.words import COMMANDS, DESCRIPTION, EPILOG, Command
from seatwright.job.declarations import Field, Kind, SectionDeclared, sections
from seatwright.version import VERSION

_KINDS: dict[Kind, str] = {
    "job": "THE JOB FILE (.seat)",
    "shop": "THE SHOP FILE (.shop)",
    "engine": "THE ENGINE FILE (.engine)",
}


def manual() -> Exit:
    """Print the page in the form that `man` reads."""
    sys.stdout.write("\n".join(page()) + "\n")
    return Exit.DONE


def page() -> Iterator[str]:
    """The lines of the page."""
    yield f'.TH SEATWRIGHT 1 "" "seatwright {VERSION}" "Seatwright"'
    yield ".SH NAME"
    yield f"seatwright {chr(92)}- {_text(_uncapped(DESCRIPTION))}"
    yield ".SH SYNOPSIS"
    yield r".B seatwright"
    yield r"\fICOMMAND\fR [\fIOPTION\fR]... \fIFILE\fR..."
    yield ".SH COMMANDS"
    for each in COMMANDS:
        yield from _command(each)
    yield ".SH NOTES"
    yield from _verbatim(EPILOG)
    for kind, title in _KINDS.items():
        yield f".SH {_text(title)}"
        for section in sections(kind):
            yield from _section(section)


def _uncapped(text: str) -> str:
    return (text[:1].lower() + text[1:]).rstrip(".")


def _command(command: Command) -> Iterator[str]:
    yield f'.SS "seatwright {command.name}"'
    yield _text(command.summary)
    for word in (*command.places, *command.options):
        yield ".TP"
        yield _called(word)
        yield _text(word.help + (f" ({', '.join(word.offered)})" if word.offered else ""))
    if command.epilog:
        yield ".PP"
        yield from _verbatim(command.epilog)


def _called(word: Slot) -> str:
    value = rf"\fI{_escaped(word.takes)}\fR" if word.takes else ""
    if not word.spellings:
        return value + ("..." if word.how_many in ("+", "*") else "")
    return ", ".join(rf"\fB{_escaped(spelling)}\fR" for spelling in word.spellings) + (f" {value}" if value else "")


def _section(section: SectionDeclared) -> Iterator[str]:
    yield f'.SS "{_escaped(section.word)}"'
    yield _text(section.help)
    yield ".RS"
    yield ".TP"
    yield rf"\fB{_escaped(section.opening)}\fR"
    yield "opens it"
    for header in section.headers:
        for field in (header.first, *header.columns):
            yield from _field(field)
    for field in (*section.fields, *section.rows):
        yield from _field(field)
    yield ".RE"


def _field(field: Field) -> Iterator[str]:
    yield ".TP"
    yield rf"\fB{_escaped(field.word)}\fR"
    takes = ", ".join(field.choices) if field.choices else field.form.value
    yield _text(f"{field.help}; takes {takes}, such as {field.example}")


def _verbatim(text: str) -> Iterator[str]:
    yield ".nf"
    for line in text.split("\n"):
        yield _text(line) if line else ".sp"
    yield ".fi"


def _text(text: str) -> str:
    """A line of text; one that begins as a request does is kept from being one."""
    escaped = _escaped(text)
    return rf"\&{escaped}" if escaped.startswith((".", "'")) else escaped


def _escaped(text: str) -> str:
    plain = text.replace("\\", r"\e").replace("-", r"\-").replace('"', r"\(dq")
    return "".join(letter if ord(letter) < 128 else rf"\[u{ord(letter):04X}]" for letter in plain)
