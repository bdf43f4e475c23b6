"""From a drawing to the SVG that stands in the card."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar

from seatwright.cards.drawings.shapes import Drawing
from seatwright.cards.templating import fill, texts

TEMPLATE = "drawings/drawing.svg"
_NONE: Mapping[str, str] = {}
# Drawings are made deep inside the cards; what a shop lays over their template holds for one run of them.
_own: ContextVar[Mapping[str, str]] = ContextVar("own templates of drawings", default=_NONE)


def svg(drawing: Drawing) -> str:
    """The drawing as one inline SVG: nothing in it is loaded, named or run; text of the job stays text.

    Raises TemplateFault, for what a shop's own template does wrong.
    """
    return fill(texts(_own.get()), TEMPLATE, drawing=drawing).strip()


@contextmanager
def drawn_with(own: Mapping[str, str]) -> Iterator[None]:
    """Drawings made meanwhile use the shop's own templates, by name, where it has one."""
    before = _own.set(own)
    try:
        yield
    finally:
        _own.reset(before)
