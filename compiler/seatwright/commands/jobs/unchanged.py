"""Cards that stand already as they would be built: told by a record beside them, of all that they were made from.

The record names the program, the words of the command, the commit, and the fingerprints of the job, of its shop files,
of the shop's own templates and of the cards themselves. Whatever of it is not as it was, the cards are built anew.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.util import find_spec
from pathlib import Path

import msgspec
from msgspec import Struct

from seatwright.commands.disk import files
from seatwright.commands.terminal.exits import Exit
from seatwright.text.showing import visible
from seatwright.version import VERSION

RECORD = ".built"
_LIBRARIES = ("highspy", "jinja2", "markdown_it", "markupsafe", "msgspec", "weasyprint")
_COLOUR = re.compile("\x1b\\[[0-9;]*m")
_ROOMS = Path(__file__).parents[2]


class Record(Struct, frozen=True):
    """What cards were made from, and what was said when they were.

    program: a fingerprint of everything that turns a job into cards. words: how the job was named and its cards were
    wished. sources, templates, documents: fingerprints by name. code: the exit code. out, err: what was said.
    """

    program: str
    words: tuple[str, ...]
    commit: str | None
    sources: dict[str, str]
    templates: dict[str, str]
    documents: dict[str, str]
    code: Exit
    out: str
    err: str


def read_record(folder: Path) -> Record | None:
    """The record of the cards in a folder; None where there is none that can be read."""
    try:
        checksum, _, body = files.plain_bytes(folder / RECORD).partition(b"\n")
        if checksum != files.fingerprint(body).encode("ascii"):
            return None
        record = msgspec.json.decode(body, type=Record)
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError):
        return None
    return record if _fit_to_be_said(record.out) and _fit_to_be_said(record.err) else None


def written_record(record: Record) -> bytes:
    """A record as it is kept: behind a line with its own fingerprint."""
    body = msgspec.json.format(msgspec.json.encode(record), indent=2) + b"\n"
    return files.fingerprint(body).encode("ascii") + b"\n" + body


def _fit_to_be_said(text: str) -> bool:
    """Whether there is nothing in it that a terminal obeys, but the colours of messages."""
    return all(line == visible(line) for line in _COLOUR.sub("", text).split("\n"))


def sources_stand(record: Record, job: files.JobFiles) -> bool:
    """Whether the job and each file that it uses are as they were, or are not there as they were not."""
    if not record.sources:
        return False
    for name, fingerprint in record.sources.items():
        try:
            if files.fingerprint(job.load(name)) != fingerprint:
                return False
        except Exception:
            return False
    return True


def documents_stand(record: Record, folder: Path) -> bool:
    """Whether all the cards lie there, and nobody has written into them."""
    return bool(record.documents) and all(
        files.fingerprint_of(folder / name) == fingerprint for name, fingerprint in record.documents.items()
    )


def fingerprints(contents: Mapping[str, bytes]) -> dict[str, str]:
    """The fingerprint of each content, by its name."""
    return {name: files.fingerprint(content) for name, content in contents.items()}


@cache
def program() -> str:
    """By which this program is told from another: its version, each of its files, Python and the libraries it uses.

    A file is told by size and by when it was written, as Python tells whether its byte code still stands.
    """
    lines = [VERSION, sys.version, *_told(_ROOMS)]
    for room in ("grammar", "templates"):
        lines += _told(_place(f"seatwright.{room}"))
    for library in _LIBRARIES:
        if find_spec(library) is not None:
            lines += _told_of(_place(library) / "__init__.py")
    return files.fingerprint("\n".join(lines).encode())


def _place(package: str) -> Path:
    found = find_spec(package)
    assert found is not None
    assert found.origin is not None
    return Path(found.origin).parent


def _told(folder: Path) -> Iterator[str]:
    for place in sorted(folder.rglob("*")):
        if place.suffix in (".py", ".lark", ".txt", ".md", ".html", ".css", ".svg", ".woff2"):
            yield from _told_of(place)


def _told_of(place: Path) -> Iterator[str]:
    found = os.stat(place)
    yield f"{place} {found.st_size} {found.st_mtime_ns}"
