"""Going to where a thing is described or a limit comes from; where a thing is spoken of; giving it another name."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol.types import (
    DefinitionParams,
    Location,
    PrepareRenameParams,
    PrepareRenamePlaceholder,
    ReferenceParams,
    RenameParams,
    TextEdit,
    WorkspaceEdit,
)
from pygls.exceptions import JsonRpcInvalidRequest

from seatwright.editor.texts.desk import AsItStands, Desk, OpenText
from seatwright.editor.texts.named_items import ThingNamed, described_at, same_thing, thing_at, things_named
from seatwright.editor.texts.places import ShownPlaces
from seatwright.editor.texts.positions import range_of
from seatwright.editor.texts.spot import Part, spot
from seatwright.job.declarations import kind_of
from seatwright.job.typed.gather import Mistake
from seatwright.job.typed.names import check_name, is_valve
from seatwright.text import Severity, Span
from seatwright.told.derivation import named_figures


def definition(desk: Desk, params: DefinitionParams) -> list[Location]:
    """The line that describes a thing of the shop; the lines that a hold, or another message, speaks of."""
    stands = desk.stands(params.text_document.uri)
    here = None if stands is None else spot(stands, params.position)
    if stands is None or here is None or here.part is None:
        return []
    places = ShownPlaces(stands, desk)
    mention = thing_at(here.part, stands)
    if mention is not None:
        home = described_at(stands, mention.kind, mention.name)
        return [] if home is None else [places.location(home.span)]
    return [places.location(span) for span in dict.fromkeys(_causes(stands, here.part))]


def references(desk: Desk, params: ReferenceParams) -> list[Location]:
    """Every line of the open files that speaks of a thing of the shop."""
    stands = desk.stands(params.text_document.uri)
    here = None if stands is None else spot(stands, params.position)
    mention = None if stands is None or here is None else thing_at(here.part, stands)
    if stands is None or mention is None:
        return []
    home = _home(desk, stands, mention)
    found: dict[tuple[str, int, int], Location] = {}
    for uri in desk.texts:
        other = desk.stands(uri)
        if other is None or home != _home(desk, other, mention):
            continue
        places = ShownPlaces(other, desk)
        for each in things_named(other):
            if same_thing(each, mention.kind, mention.name) and (
                params.context.include_declaration or not each.described
            ):
                where = places.location(each.span)
                found[where.uri, where.range.start.line, where.range.start.character] = where
    return [found[key] for key in sorted(found)]


def may_rename(desk: Desk, params: PrepareRenameParams) -> PrepareRenamePlaceholder | None:
    """The name that can be given anew here; None where there is none."""
    stands = desk.stands(params.text_document.uri)
    here = None if stands is None else spot(stands, params.position)
    mention = None if stands is None or here is None else thing_at(here.part, stands)
    if stands is None or mention is None or described_at(stands, mention.kind, mention.name) is None:
        return None
    return PrepareRenamePlaceholder(range_of(mention.span, stands.lines), mention.name)


def rename(desk: Desk, params: RenameParams) -> WorkspaceEdit:
    """Another name for a thing of the shop, in its shop file and in every job of the folder, open or not, that uses it.

    Raises JsonRpcInvalidRequest, which the editor shows, for a name that is none or is taken.
    """
    stands = desk.stands(params.text_document.uri)
    here = None if stands is None else spot(stands, params.position)
    mention = None if stands is None or here is None else thing_at(here.part, stands)
    if stands is None or here is None or mention is None or described_at(stands, mention.kind, mention.name) is None:
        raise JsonRpcInvalidRequest("here stands no name that a shop file gives")
    name = _fit_to_be_a_name(params.new_name, mention)
    home = _home(desk, stands, mention)
    edits: dict[str, dict[tuple[int, int], TextEdit]] = {}
    for other in (stands, *_of_the_folder(desk, stands)):
        if home != _home(desk, other, mention):
            continue
        if described_at(other, mention.kind, name) is not None and not same_thing(mention, mention.kind, name):
            raise JsonRpcInvalidRequest(f"there is a {mention.kind} {name} already")
        places = ShownPlaces(other, desk)
        for each in things_named(other):
            if same_thing(each, mention.kind, mention.name):
                where = places.location(each.span)
                start = where.range.start.line, where.range.start.character
                edits.setdefault(where.uri, {})[start] = TextEdit(where.range, _written(name, each, other))
    return WorkspaceEdit(changes={uri: [found[key] for key in sorted(found)] for uri, found in sorted(edits.items())})


def _causes(stands: AsItStands, part: Part) -> Iterator[Span]:
    """Of a valve on hold, and of anything with a message, what the message leads to; of a figure that the job's own
    line does not give, where its limit stands."""
    for message in stands.messages:
        on_hold = message.severity is Severity.HOLD
        about_valve = on_hold and is_valve(part.typed) and part.typed.upper() in message.valves
        at_it = message.span is not None and message.span.file == stands.name and message.span.line == part.span.line
        if about_valve or at_it:
            yield from (related.span for related in message.related if not related.same)
            if about_valve and message.span is not None:
                yield message.span
    for valve in () if stands.plan is None or not is_valve(part.typed) else stands.plan.valves:
        if valve.name == part.typed.upper():
            for hold in valve.holds:
                for figure in (hold.figure, hold.limit):
                    yield from () if figure is None else figure.lines()
            for _, figure in named_figures(valve):
                yield from (span for span in figure.lines() if kind_of(span.file) == "engine")


def _home(desk: Desk, stands: AsItStands, mention: ThingNamed) -> tuple[object, ...] | None:
    """The place at which a thing is described, by which two files are known to speak of the same."""
    found = described_at(stands, mention.kind, mention.name)
    if found is None:
        return None
    text = desk.texts.get(stands.uri)
    own = text.truly if text is not None else stands.truly
    return (own if found.file == stands.name else stands.places[found.file], found.span.line)


def _of_the_folder(desk: Desk, stands: AsItStands) -> Iterator[AsItStands]:
    for uri in desk.texts:
        found = desk.stands(uri)
        if found is not None:
            yield found
    folder = stands.folder
    for place in () if folder is None else desk.disk.jobs_in(folder):
        if desk.address(place) in desk.texts:
            continue
        try:
            text = desk.disk.contents(place).decode("utf-8")
        except (OSError, UnicodeDecodeError):
            continue
        yield desk.worked_out(OpenText(place.as_uri(), place.parent, desk.disk.shown(place.name), place, text, 0))


def _fit_to_be_a_name(typed: str, mention: ThingNamed) -> str:
    try:
        return check_name(typed.strip().strip('"'), mention.span, mention.kind)
    except Mistake as mistake:
        raise JsonRpcInvalidRequest(mistake.message.text) from None


def _written(name: str, mention: ThingNamed, stands: AsItStands) -> str:
    """A name as the language has it: in quotes where it has blanks or marks, or where the old one has them."""
    source = stands.sources[mention.file]
    typed = source.as_typed()[mention.span.line - 1][mention.span.column - 1]
    bare = all(character.isalnum() or character in "-_." for character in name)
    doubled = name.replace('"', '""')
    return name if bare and typed != '"' else f'"{doubled}"'
