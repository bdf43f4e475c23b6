"""How messages reach a person."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable

from seatwright.text import Message, Source
from seatwright.text.showing import visible
from seatwright.text.terminal import render


def say(messages: Iterable[Message], sources: Iterable[Source]) -> None:
    """Print messages to standard error."""
    sys.stderr.write(in_words(messages, sources))


def manner() -> tuple[bool, int]:
    """Whether standard error is to have colours, only on a terminal and unless NO_COLOR is set; and its columns."""
    if not sys.stderr.isatty():
        return False, 100
    import shutil

    return not os.environ.get("NO_COLOR"), shutil.get_terminal_size((100, 24)).columns


def in_words(messages: Iterable[Message], sources: Iterable[Source]) -> str:
    """Messages as standard error is to have them."""
    colour, columns = manner()
    text = render(messages, {source.path: source for source in sources}, colour=colour, columns=columns)
    return text if not text or text.endswith("\n") else text + "\n"


def complaint(command: str, what: str) -> str:
    """What a command has to say of its own, in a line: names of files are in it, and a terminal obeys none of them."""
    return f"seatwright {command}: {visible(what)}\n"


def failure(command: str, job: str) -> str:
    """What a command says of a job at which the program itself failed, and where it did."""
    import traceback  # no run that ends well has a use for it

    return complaint(command, f"{job}: seatwright failed") + traceback.format_exc()


def complain(command: str, what: str) -> None:
    """Say it on standard error."""
    sys.stderr.write(complaint(command, what))
