"""The catalogue of messages: a job for each, the text that it gives, and the page made of them.

`python tests/messages/catalogue.py` renews the texts and grammar/messages.md; tests say when they are stale. Look at
the difference before it is committed: it is what machinists will read.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from unittest import mock

from msgspec.structs import replace

from seatwright.commands.disk.files import LEADS_OUT
from seatwright.job import Refused, read
from seatwright.over_jobs.history.read_off import history_of
from seatwright.over_jobs.history.rows import JobHistory
from seatwright.over_jobs.history.said import history_messages
from seatwright.over_jobs.history.whole import whole_history
from seatwright.over_jobs.left_out import job_left_out
from seatwright.over_jobs.stock.pieces import JobPieces, pieces_of
from seatwright.over_jobs.stock.said import stock_messages
from seatwright.over_jobs.stock.shelves import standings
from seatwright.over_jobs.stock.to_order import ordering_of
from seatwright.planning.inserts import choice
from seatwright.planning.planner import plan
from seatwright.text import Message, Severity, Source, in_order, reading, terminal
from seatwright.text.gathered import gathered
from seatwright.text.registry import REASON, declared

WITHOUT_SOLVER = frozenset({"choice-not-proved"})
"""Said where no solver is installed, or it has more to do than a small example."""

FOLDER = Path(__file__).resolve().parent
PAGE = FOLDER.parents[1] / "grammar" / "messages.md"

_INTRODUCTION = """\
# The messages, one by one

This page is made from `slugs.txt` and the jobs in `tests/messages`; do not edit it.
`python tests/messages/catalogue.py` renews it. `seatwright explain SLUG` prints an entry of it.

A message says how much it weighs, its name, the place (file, line, column) and the valves it concerns; then the line
with the place marked; then what was seen, with the figures; then, behind an arrow, what to do. The figures here are
those of a small example; above it stands what the message means.
"""
_KINDS = {
    Severity.ERROR: ("Errors", "Nothing is written until it is put right."),
    Severity.HOLD: ("Holds", "One valve cannot be cut as the job stands; the others can."),
    Severity.WARNING: ("Warnings", "It can be done, with a risk that is named."),
    Severity.NOTICE: ("Notices", "Something was not given, so not checked, or a left-out or built-in figure was used."),
}
_REASONS = """\
## Reasons

Why an insert was passed over; it stands beside that insert, on the card, in plan.json and in `explain`.
"""


def slugs() -> tuple[str, ...]:
    """Every slug that has an entry, sorted."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.txt")))


def examples() -> tuple[str, ...]:
    """Every slug that has a job, or a folder of jobs where it is said over many; `job-unreadable` has none."""
    jobs = {path.stem for path in FOLDER.glob("*.seat")} - {"silent"}
    folders = {path.name for path in FOLDER.iterdir() if any(path.glob("*.seat"))}
    return tuple(sorted(jobs | folders | {"job-unreadable"}))


def said(slug: str) -> tuple[tuple[Message, ...], dict[str, Source]]:
    """What the job of a slug gives, and the files that it was read from; of a folder of jobs what is said over them."""
    if (FOLDER / slug).is_dir():
        return _said_over_jobs(slug)
    read_files: dict[str, bytes] = {}

    def load(name: str) -> bytes:
        if name.startswith("../"):
            raise Refused(LEADS_OUT)  # as from a folder that no repository holds
        read_files[name] = (FOLDER / name).read_bytes()
        return read_files[name]

    job, messages = read(f"{slug}.seat", load)
    installed = (lambda: None) if slug in WITHOUT_SOLVER else choice.installed
    with mock.patch.object(choice, "installed", installed):
        everything = in_order((*messages, *(plan(job).messages if job is not None else ())))
    sources = (reading.read_source(name, data)[0] for name, data in read_files.items())
    return everything, {source.path: source for source in sources if source is not None}


@cache
def _said_over_jobs(slug: str) -> tuple[tuple[Message, ...], dict[str, Source]]:
    messages: list[Message] = []
    pieces: list[JobPieces] = []
    told: list[JobHistory] = []
    for path in sorted((FOLDER / slug).glob("*.seat")):
        job, found = read(path.name, lambda name: (FOLDER / slug / name).read_bytes())
        if job is None:
            messages.append(job_left_out(path.name, [each for each in found if each.severity is Severity.ERROR]))
            continue
        shelves = {source.path: source.path for source in job.sources}
        planned = plan(job)
        pieces.append(pieces_of(planned, path.name, shelves, replace))
        told.append(history_of(planned, path.name, shelves, replace))
    stand = standings(pieces)
    messages.extend(stock_messages(stand, pieces, ordering_of(stand, pieces)))
    if all(message.slug != slug for message in messages):
        messages = list(history_messages(whole_history(told)))
    files = ((path.name, path.read_bytes()) for path in sorted((FOLDER / slug).iterdir()))
    sources = (reading.read_source(name, data)[0] for name, data in files)
    return tuple(messages), {source.path: source for source in sources if source is not None}


def text_of(slug: str) -> str:
    """All that the job of a slug gives, as `check --all` shows it on a terminal of a hundred columns."""
    messages, sources = said(slug)
    return terminal.render(gathered(messages), sources, columns=100)


def page() -> str:
    """The whole page as Markdown."""
    return "\n".join(_page())


def _page() -> Iterator[str]:
    yield _INTRODUCTION
    entries: dict[Severity, list[tuple[str, str]]] = {kind: [] for kind in _KINDS}
    for slug in slugs():
        messages, sources = said(slug)
        one = next(message for message in messages if message.slug == slug)
        entries[one.severity].append((slug, terminal.render([one], sources, columns=100).rstrip("\n")))
    for kind, (title, meaning) in _KINDS.items():
        yield f"## {title}\n\n{meaning}\n"
        for slug, text in entries[kind]:
            yield f"### {slug}\n"
            yield f"{declared()[slug].meaning}\n"
            yield f"```text\n{text}\n```\n"
    yield _REASONS
    for one in declared().values():
        if one.weights == (REASON,):
            yield f"### {one.slug}\n\n{one.meaning}\n"


def renew() -> None:
    """Write every text and the page anew."""
    for slug in examples():
        (FOLDER / f"{slug}.txt").write_text(text_of(slug), "utf-8")
    PAGE.write_text(page(), "utf-8")


if __name__ == "__main__":
    renew()
