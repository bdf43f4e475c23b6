"""The two stamps of a card: its own, and that of the sources."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from hashlib import sha256

import msgspec

from seatwright.cards.card import Card
from seatwright.text import Source

LENGTH = 8


def own(card: Card) -> str:
    """The stamp of what stands on a card: its words and figures and those of its drawings, but neither its number nor
    its paper, so that a later entry in the job file makes stale only the cards that it changes."""
    drawn = [each.drawing.says for each in card.content.drawings]
    content = msgspec.structs.replace(card.content, drawings=())
    return _hash(
        [card.name, card.title, *card.valves, msgspec.json.encode(content, enc_hook=str).decode("utf-8"), *drawn]
    )


def of_sources(sources: Iterable[Source], version: str, templates: Mapping[str, str]) -> str:
    """The stamp of what the cards were made from: the job, then the shop files, with LF ends; the tool's version; the
    shop's own templates."""
    own_templates = [text for name in sorted(templates) for text in (name, templates[name])]
    files = [text for source in sources for text in (source.path, source.text)]
    return _hash([version, *files, *own_templates])


def _hash(texts: Iterable[str]) -> str:
    digest = sha256()
    for text in texts:
        data = text.replace("\r\n", "\n").replace("\r", "\n").encode("utf-8", "replace")
        # The length first: two texts never run into one another.
        digest.update(f"{len(data)}:".encode() + data)
    return digest.hexdigest()[:LENGTH]
