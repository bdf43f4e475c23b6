"""The two stamps of a card: its own, and that of the sources."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping

from seatwright.text import Source

LENGTH = 8


def own(body: str, drawings: Iterable[str]) -> str:
    """The stamp of what stands on a card: its text and figures and its drawings, but not its number or its pages, so
    that a later entry in the job file makes stale only the cards that it changes."""
    return _hash([body, *drawings])


def of_sources(sources: Iterable[Source], version: str, templates: Mapping[str, str]) -> str:
    """The stamp of what the cards were made from: the job, then the shop files, with LF ends; the tool's version; the
    shop's own templates."""
    own_templates = [text for name in sorted(templates) for text in (name, templates[name])]
    files = [text for source in sources for text in (source.path, source.text)]
    return _hash([version, *files, *own_templates])


def _hash(texts: Iterable[str]) -> str:
    digest = hashlib.sha256()
    for text in texts:
        data = text.replace("\r\n", "\n").replace("\r", "\n").encode("utf-8")
        # The length first: two texts never run into one another.
        digest.update(f"{len(data)}:".encode() + data)
    return digest.hexdigest()[:LENGTH]
