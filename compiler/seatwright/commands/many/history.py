"""`seatwright history [FOLDER]`: what the cutters really cut, and what else all jobs tell together."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from seatwright.commands.disk.files import Unreadable
from seatwright.commands.disk.writing import write_together
from seatwright.commands.jobs.over_folder import InFolder, excerpts, over_folder
from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.saying import say
from seatwright.over_jobs.history.read_off import history_of
from seatwright.over_jobs.history.rows import JobHistory
from seatwright.over_jobs.history.said import history_messages
from seatwright.over_jobs.history.whole import History, whole_history
from seatwright.planning.plan import Plan


def history(folder: str, since: str, form: str, out: str | None = None, at_once: int | None = None) -> Exit:
    """Print it, and with an out folder write its cards and tables there; 1 where a job is left out.

    since: the first day that counts; form: text | csv | json.
    """
    read = over_folder("history", folder, job_history, at_once)
    found = whole_history(read.rows, since)
    messages = history_messages(found)
    if form == "text":  # a cutter of few bores says so in its own lines below
        messages = tuple(message for message in messages if message.slug != "few-bores")
    say(messages, excerpts(messages))
    if out is not None:
        _write(Path(out), found, read.left_out)
    match form:
        case "csv":
            from seatwright.over_jobs.history.document import overcuts_csv, readings_csv

            sys.stdout.write(f"{overcuts_csv(found)}\n{readings_csv(found)}")
        case "json":
            from seatwright.over_jobs.history.document import history_as_json

            sys.stdout.write(history_as_json(found, read.left_out))
        case _:
            from seatwright.over_jobs.history.written import history_as_text

            sys.stdout.write(history_as_text(found))
    return read.code


def _write(folder: Path, found: History, left_out: Sequence[str]) -> None:
    """history.html, .md, .json, and both tables, all together. Raises `Unreadable` where they cannot be written."""
    from seatwright.cards.many.history import history_cards
    from seatwright.over_jobs.history.document import history_as_json, overcuts_csv, readings_csv

    cards = history_cards(found)
    documents = {
        "history.html": cards.html,
        "history.md": cards.markdown,
        "history.json": history_as_json(found, left_out),
        "overcuts.csv": overcuts_csv(found),
        "readings.csv": readings_csv(found),
    }
    try:
        write_together(folder, {name: text.encode("utf-8") for name, text in documents.items()}, lambda: True)
    except OSError as problem:
        why = (problem.strerror or str(problem)).lower()
        raise Unreadable(f"{problem.filename or folder} cannot be written: {why}; nothing is replaced") from problem


def job_history(plan: Plan, where: InFolder) -> JobHistory:
    """What a job tells."""
    return history_of(plan, where.file, where.shelves, where.seen)
