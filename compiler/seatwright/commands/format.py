"""`seatwright format FILE… [--check] [--diff]`: files in the canonical layout."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from seatwright.commands.disk import files, writing
from seatwright.commands.terminal.exits import Exit, worst
from seatwright.commands.terminal.saying import say
from seatwright.job.declarations import kind_of, vocabulary
from seatwright.syntax.formatting.format import Formatted, LayoutBroken, formatted
from seatwright.text.reading import read_source
from seatwright.text.showing import visible


def format_files(names: list[str], *, check: bool, diff: bool) -> Exit:
    """Set each file in the canonical layout, in place; `-` is read from standard input and set on standard output.

    check: write nothing, name each file that would change on standard output, and end with 1 when there is one.
    diff: write nothing, show what would change; with `check` as well, the differences instead of the names.
    """
    return worst([_format(name, check, diff) for name in names])


def _format(name: str, check: bool, diff: bool) -> Exit:
    try:
        before = files.plain_file(name)
    except files.Unreadable as problem:
        return _refuse(str(problem))
    made = _made(name, before)
    if made is None:
        # Whoever pipes a file through, as an editor does, must not lose it.
        if name == files.STANDARD_INPUT and not (check or diff):
            _put(before)
        return Exit.WRONG_USE
    _say_left(name, made)
    after = made.text.encode("utf-8")
    if before and not after:
        after = b"\n"
    if diff:
        _show("".join(_difference(name, before.decode("utf-8"), after.decode("utf-8"))))
    elif check:
        sys.stdout.write(f"{_named(name)} would change\n" if after != before else "")
    elif name == files.STANDARD_INPUT:
        _put(after)
    elif after != before:
        try:
            writing.rewrite(Path(name), before, after)
        except writing.Overtaken:
            return _refuse(f"{name} was saved while its layout was made, and stays as it was saved; format it again")
        except OSError as problem:
            return _refuse(f"{name} cannot be written: {(problem.strerror or str(problem)).lower()}")
    return Exit.ERRORS if check and after != before else Exit.DONE


def _made(name: str, data: bytes) -> Formatted | None:
    """The file in its layout; None, which is said, where it is no text or where the formatter is at fault."""
    shown = "standard-input.seat" if name == files.STANDARD_INPUT else name
    source, messages = read_source(shown, data)
    if source is None:
        say(messages, ())
        return None
    try:
        return formatted(source, vocabulary(kind_of(shown)))
    except LayoutBroken as problem:
        _refuse(f"{_named(name)} is left as it is, a fault of the formatter's own: {problem}. Please report it.")
        return None


def _say_left(name: str, made: Formatted) -> None:
    if made.left:
        numbers = ", ".join(map(str, made.left[:5])) + (", ..." if len(made.left) > 5 else "")
        where = f"{'line' if len(made.left) == 1 else 'lines'} {numbers}"
        sys.stderr.write(
            f"seatwright format: {_named(name)}: {where} left as typed; `seatwright check` says what is wrong\n"
        )


def _named(name: str) -> str:
    return "standard input" if name == files.STANDARD_INPUT else visible(name)


def _difference(name: str, before: str, after: str) -> Iterator[str]:
    from difflib import unified_diff

    old, new = _lines(before), _lines(after)
    for line in unified_diff(old, new, visible(name), visible(name), "as it stands", "formatted"):
        yield line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n"


def _lines(text: str) -> list[str]:
    """With their ends, and parted by line feeds alone."""
    parts = text.split("\n")
    return [part + "\n" for part in parts[:-1]] + ([parts[-1]] if parts[-1] else [])


def _show(text: str) -> None:
    # A terminal must not obey what stands in a file; a pipe gets it as it is, for `patch`.
    if sys.stdout.isatty():
        text = "".join(visible(line) + "\n" for line in text.split("\n")[:-1])
        sys.stdout.write(text)
    else:
        _put(text.encode("utf-8"))


def _put(data: bytes) -> None:
    sys.stdout.flush()
    sys.stdout.buffer.write(data)
    sys.stdout.buffer.flush()


def _refuse(why: str) -> Exit:
    sys.stderr.write(f"seatwright format: {visible(why)}\n")
    return Exit.WRONG_USE
