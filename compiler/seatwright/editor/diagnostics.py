"""The messages of `check`, at each place that they speak of, as the protocol shows them beside the lines."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from lsprotocol.types import Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, Location, Position, Range

from seatwright.editor.texts.desk import AsItStands, Desk
from seatwright.editor.texts.places import ShownPlaces
from seatwright.text import Message, Severity

_WEIGHTS = {
    Severity.ERROR: DiagnosticSeverity.Error,
    Severity.HOLD: DiagnosticSeverity.Error,
    Severity.WARNING: DiagnosticSeverity.Warning,
    Severity.NOTICE: DiagnosticSeverity.Information,
}
_TOP = Range(Position(0, 0), Position(0, 0))


def said_of(stands: AsItStands, desk: Desk) -> dict[str, list[Diagnostic]]:
    """What is to be shown for a file that is open, by the address of the file in which it is to be shown.

    A message of several places stands at each of them, and each leads to the others; one that no line bears stands at
    the top of the file.
    """
    places = ShownPlaces(stands, desk)
    shown: dict[str, list[Diagnostic]] = {stands.uri: []}
    for message in stands.messages:
        for address, said in _each(message, places):
            shown.setdefault(address, []).append(said)
    return shown


def said_together(of_files: Mapping[str, Mapping[str, list[Diagnostic]]], address: str) -> list[Diagnostic]:
    """What all open files have to say of one, what it says of itself first; what one has said no other says again."""
    found: list[Diagnostic] = []
    said: set[tuple[object, ...]] = set()
    for uri in sorted(of_files, key=lambda each: (each != address, each)):
        fresh = [each for each in of_files[uri].get(address, ()) if _key(each) not in said]
        found += fresh
        said.update(map(_key, fresh))
    return found


def _key(said: Diagnostic) -> tuple[object, ...]:
    where = said.range
    return said.code, where.start.line, where.start.character, where.end.line, where.end.character


def whole_text(message: Message, text: str) -> str:
    """What is seen, whose valves it concerns in front, and what to do on a line of its own: as in SARIF."""
    whose = f"{' '.join(message.valves)}: " if message.valves else ""
    return f"{whose}{text}\n{message.help}" if message.help else f"{whose}{text}"


def _each(message: Message, places: ShownPlaces) -> Iterable[tuple[str, Diagnostic]]:
    first = _TOP if message.span is None else places.range(message.span)
    address = places.stands.uri if message.span is None else places.address(message.span.file)
    others = [DiagnosticRelatedInformation(places.location(each.span), each.text) for each in message.related]
    yield address, _shown(message, first, whole_text(message, message.text), others)
    for related in message.related:
        if related.same:
            back = [DiagnosticRelatedInformation(Location(address, first), message.text)]
            text = f"{related.text}\n{message.help}" if message.help else related.text
            yield places.address(related.span.file), _shown(message, places.range(related.span), text, back)


def _shown(message: Message, where: Range, text: str, related: list[DiagnosticRelatedInformation]) -> Diagnostic:
    return Diagnostic(
        range=where,
        severity=_WEIGHTS[message.severity],
        code=message.slug,
        source=f"seatwright {message.severity.value}",
        message=text,
        related_information=related or None,
        data={"fix": message.fix} if message.fix is not None else None,
    )
