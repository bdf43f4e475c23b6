"""What can be done about a message at a keystroke: a certain mend, a likely meaning, a line that its help writes out.

A mend is certain where `check --fix` writes it. What a slip was probably meant to be is a choice, and is offered only
where the message is gone with it. No figure is ever put in that the message does not name as the likely one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from lsprotocol.types import (
    CodeAction,
    CodeActionKind,
    CodeActionParams,
    Position,
    Range,
    TextEdit,
    WorkspaceEdit,
)

from seatwright.editor.asked.remedies import remedies
from seatwright.editor.texts.desk import AsItStands, Desk, OpenText
from seatwright.editor.texts.named_items import kind_named, names_in_shop, words_taken
from seatwright.editor.texts.places import shown_at
from seatwright.editor.texts.positions import halves, place_of, range_of
from seatwright.editor.texts.spot import declared_of, header_of, section_at
from seatwright.job.declarations import SINGLES, Field, sections
from seatwright.job.declarations.job_tables import BENCH_ORDER, MEASURED
from seatwright.job.mending import as_mended, mended
from seatwright.job.typed.names import key
from seatwright.syntax import tree
from seatwright.text import Message, Severity, Span

_FORMS = r" `([^`]+)`(?:,? or `([^`]+)`)?"
_LIKELY = re.compile(rf"(?:Did you mean|[Ww]as|Write which:|There is only){_FORMS}(?: meant)?(?=[?.;,]|$)")
_IN_PLACE = re.compile(rf"^Write{_FORMS}")
"""Of an error: what would be read in its place."""
_WRITTEN = re.compile(r"`([a-z][^`]*)`")
_MOST = 3  # messages of which likely meanings are tried: each is a plan of the whole job
_INDENT = "  "


def quick_fixes(desk: Desk, params: CodeActionParams) -> list[CodeAction]:
    """All that can be done at a place."""
    stands = desk.stands(params.text_document.uri)
    if stands is None or stands.source is None:
        return []
    first, _ = place_of(params.range.start, stands.lines)
    last, _ = place_of(params.range.end, stands.lines)
    here = [
        (message, span)
        for message in stands.messages
        for span in shown_at(message, stands)
        if first <= span.line <= last
    ]
    found = [*_certain(stands, here), *_likely(desk, stands, here), *remedies(desk, stands, here)]
    found += [*_lines(stands, here), *_columns(stands, first)]
    whole = _all_mends(desk, stands) if any(message.fix is not None for message in stands.messages) else None
    wanted = params.context.only
    actions = [*found, *([whole] if whole is not None else [])]
    return [each for each in actions if wanted is None or _asked(each, wanted)]


def _asked(action: CodeAction, wanted: Sequence[CodeActionKind | str]) -> bool:
    kind = str(getattr(action.kind, "value", action.kind))
    asked = [str(getattr(each, "value", each)) for each in wanted]
    return any(each == "" or kind == each or kind.startswith(f"{each}.") for each in asked)


# ---- mends and meanings ----------------------------------------------------------------------------------------


def _certain(stands: AsItStands, here: list[tuple[Message, Span]]) -> Iterator[CodeAction]:
    for message, span in here:
        if message.fix is not None and span == message.span:
            what = f"write {message.fix}" if message.fix else "leave it out"
            yield _exchange(stands, f"{what} ({message.slug})", span, message.fix, certain=True)


def _likely(desk: Desk, stands: AsItStands, here: list[tuple[Message, Span]]) -> Iterator[CodeAction]:
    for message, span in here[:_MOST]:
        if message.fix is not None or span != message.span:
            continue
        ways = [*_LIKELY.finditer(message.help)]
        ways += _IN_PLACE.finditer(message.help) if message.severity is Severity.ERROR else []
        for form in (form for found in ways for form in found.groups() if form):
            if _mends(desk, stands, message, span, form):
                yield _exchange(stands, f"was {form} meant? ({message.slug})", span, form, certain=False)


def _mends(desk: Desk, stands: AsItStands, message: Message, span: Span, form: str) -> bool:
    """Whether the message is gone with this meaning, and nothing is wrong that was not."""
    assert stands.source is not None
    text = desk.texts[stands.uri]
    after = mended("\n".join(stands.source.as_typed()), [(span, form)])
    again = desk.worked_out(OpenText(text.uri, text.folder, text.name, text.truly, after, text.version))
    said = [(each.slug, each.span.line) for each in again.messages if each.span is not None]
    errors, now = (
        sum(each.severity is Severity.ERROR for each in messages) for messages in (stands.messages, again.messages)
    )
    return (message.slug, span.line) not in said and now <= errors - (message.severity is Severity.ERROR)


def _all_mends(desk: Desk, stands: AsItStands) -> CodeAction | None:
    """Everything that `check --fix` would write."""
    text = desk.texts[stands.uri]
    load = desk.loading(text)
    data = text.data()
    after, count = as_mended(stands.name, data, load)
    if not count:
        return None
    whole = Range(Position(0, 0), Position(len(stands.lines) - 1, halves(stands.lines[-1], len(stands.lines[-1]))))
    edit = TextEdit(whole, after.decode("utf-8"))
    title = f"mend {count} certain {'slip' if count == 1 else 'slips'} of writing in this file"
    return CodeAction(title, kind=CodeActionKind.SourceFixAll, edit=WorkspaceEdit({stands.uri: [edit]}))


def _exchange(stands: AsItStands, title: str, span: Span, form: str, *, certain: bool) -> CodeAction:
    edit = TextEdit(range_of(span, stands.lines), form)
    return CodeAction(
        title, kind=CodeActionKind.QuickFix, is_preferred=certain, edit=WorkspaceEdit({stands.uri: [edit]})
    )


# ---- lines that a help writes out ------------------------------------------------------------------------------


def _lines(stands: AsItStands, here: list[tuple[Message, Span]]) -> Iterator[CodeAction]:
    """A line that the help of a message writes out, such as `pilot XP9` or `pocket bore`, put where it belongs: only
    words of the language and names of the shop, no figure of an example."""
    seen: set[str] = set()
    for message, span in here:
        for found in _WRITTEN.finditer(message.help):
            line = found[1].strip()
            if line in seen:
                continue
            place = _belongs(stands, line, span)
            if place is not None:
                seen.add(line)
                edit = TextEdit(Range(Position(place, 0), Position(place, 0)), f"{_INDENT}{line}\n")
                title = f"add the line {line} ({message.slug})"
                yield CodeAction(title, kind=CodeActionKind.QuickFix, edit=WorkspaceEdit({stands.uri: [edit]}))


def _belongs(stands: AsItStands, line: str, span: Span) -> int | None:
    """Behind which line (from 1) a field belongs: the last of the section that the message stands in, or of the only
    other section that has it; None for what is no whole line, or stands there already."""
    words = line.split(maxsplit=1)
    if stands.tree is None or len(words) < 2 or words[0] in SINGLES:
        return None
    own = section_at(stands.tree, span.line)
    holding = [each for each in stands.tree.sections if words[0] in declared_of(stands.kind, each.name).by_word]
    section = own if own in holding else holding[0] if len(holding) == 1 else None
    if section is None or any(each.word.text == words[0] for each in section.fields):
        return None
    field = declared_of(stands.kind, section.name).by_word[words[0]]
    if not _known(stands, field, words[1]):
        return None
    return max((section.line.span.line, *(each.span.line for each in section.fields)))


def _known(stands: AsItStands, field: Field, value: str) -> bool:
    """Whether a value is a word of the language or a name of the shop."""
    kind = kind_named(field)
    named = names_in_shop(stands, kind) if kind is not None else ()
    return key(value.strip('"')) in {key(each) for each in (*words_taken(field), *named)}


# ---- columns that are missing ----------------------------------------------------------------------------------


def _columns(stands: AsItStands, line: int) -> Iterator[CodeAction]:
    """At a header: the columns that it has not, of `measured` those of a step at the bench, empty in every row."""
    if stands.tree is None:
        return
    section = section_at(stands.tree, line)
    if section is None or section.valve is not None:
        return
    table = next((each for each in section.tables if each.span.line == line), None)
    if table is None:
        return
    declared = next(each for each in sections(stands.kind) if each.word == section.name)
    header = header_of(declared, table)
    if header is None:
        return
    given = {column for each in section.tables for column in each.columns}
    steps = BENCH_ORDER if declared == MEASURED else (tuple(column.word for column in header.columns),)
    for step in steps:
        missing = [word for word in step if word not in given]
        begun = len(missing) < len(step) or declared != MEASURED
        if missing and begun:
            title = f"add the columns that are missing: {' '.join(missing)}"
            edits = list(_with_columns(stands, table, missing))
            yield CodeAction(title, kind=CodeActionKind.QuickFix, edit=WorkspaceEdit({stands.uri: edits}))


def _with_columns(stands: AsItStands, table: tree.Table, words: list[str]) -> Iterator[TextEdit]:
    for span, put in ((table.span, words), *((row.span, ["-"] * len(words)) for row in table.rows)):
        end = range_of(span, stands.lines).end
        yield TextEdit(Range(end, end), "".join(f"  {each}" for each in put))
