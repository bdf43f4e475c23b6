"""Places of a file and of what it uses, as the editor knows them: address and range."""

from __future__ import annotations

from lsprotocol.types import Location, Range

from seatwright.editor.texts.desk import AsItStands, Desk
from seatwright.editor.texts.positions import lines_of, range_of
from seatwright.text import Message, Span


class ShownPlaces:
    """Spans of a file and of what it uses, as addresses and ranges."""

    def __init__(self, stands: AsItStands, desk: Desk) -> None:
        self.stands = stands
        self._desk = desk
        self._lines: dict[str, list[str]] = {stands.name: stands.lines}

    def address(self, file: str) -> str:
        """The address of a file, by the name that messages have for it."""
        if file == self.stands.name or file not in self.stands.places:
            return self.stands.uri
        return self._desk.address(self.stands.places[file])

    def range(self, span: Span) -> Range:
        """Where a span stands in its file."""
        return range_of(span, self.lines(span.file))

    def location(self, span: Span) -> Location:
        """Both."""
        return Location(self.address(span.file), self.range(span))

    def lines(self, file: str) -> list[str]:
        """The lines of a file as it was read."""
        if file not in self._lines:
            data = self.stands.seen.get(self.stands.places[file]) if file in self.stands.places else None
            self._lines[file] = lines_of((data or b"").decode("utf-8", "replace"))
        return self._lines[file]


def shown_at(message: Message, stands: AsItStands) -> list[Span]:
    """The places of the file itself at which a message stands."""
    spans = [message.span, *(related.span for related in message.related if related.same)]
    return [span for span in spans if span is not None and span.file == stands.name]
