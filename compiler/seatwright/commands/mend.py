"""`seatwright check --fix [--diff] FILE…`: the slips of writing that have one certain mend, written into the file."""

from __future__ import annotations

import sys
from collections.abc import Callable
from difflib import unified_diff
from pathlib import Path

from seatwright.commands.disk import files, writing
from seatwright.commands.jobs.mends import fix, mended
from seatwright.commands.terminal.exits import Exit, worst
from seatwright.commands.terminal.saying import complain
from seatwright.job import read, read_used
from seatwright.job.declarations import kind_of
from seatwright.text import Message, Severity
from seatwright.text.reading import read_source as read_text
from seatwright.text.showing import visible

_ROUNDS = 20  # a mend may lay bare the next slip


def mend(names: list[str], *, diff: bool) -> Exit:
    """Mend each file in place, or show what would change. A shop file that a job uses is mended by its own name."""
    return worst([_mend(name, diff) for name in names])


def _mend(name: str, diff: bool) -> Exit:
    if name == files.STANDARD_INPUT:
        complain("check", "--fix writes into a file, and standard input is none")
        return Exit.WRONG_USE
    opened = files.open_job(name)
    before = opened.contents()[opened.name]
    after, count = as_mended(opened.name, before, opened.load)
    if diff:
        old, new = (data.decode("utf-8", "replace").splitlines(keepends=True) for data in (before, after))
        lines = unified_diff(old, new, visible(name), visible(name), "as it stands", "mended")
        sys.stdout.write("".join(line if line.endswith("\n") else f"{line}\n" for line in lines))
        return Exit.DONE
    try:
        if after != before:
            writing.rewrite(Path(name), before, after)
    except writing.Overtaken:
        complain("check", f"{name} was saved while it was mended, and stays as it was saved; try it again")
        return Exit.WRONG_USE
    except OSError as problem:
        complain("check", f"{name} cannot be written: {(problem.strerror or str(problem)).lower()}")
        return Exit.WRONG_USE
    sys.stdout.write(f"{visible(name)}: {count} {'slip' if count == 1 else 'slips'} mended\n")
    return Exit.DONE


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
