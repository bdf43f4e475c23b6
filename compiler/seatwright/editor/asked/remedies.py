"""What would lift a hold, where it is a line of text: one to be taken out, or a `pilot` that serves."""

from __future__ import annotations

import re
from collections.abc import Iterator

from lsprotocol.types import CodeAction, CodeActionKind, Position, Range, TextEdit, WorkspaceEdit

from seatwright.editor.texts.desk import AsItStands, Desk, OpenText
from seatwright.editor.texts.positions import range_of, text_changed
from seatwright.editor.texts.spot import head_lines
from seatwright.job.declarations.job_sections import VALVES
from seatwright.planning.plan import ValvePlan
from seatwright.syntax import tree
from seatwright.text import Message, Severity, Span

_TAKE_OUT = re.compile(r"(?:leave|[Tt]ake the) `([a-z-]+)`(?: line)? out")
_TRIED = 2  # pilots: each is a plan of the whole job
_PILOT = "pilot"


def remedies(desk: Desk, stands: AsItStands, here: list[tuple[Message, Span]]) -> Iterator[CodeAction]:
    """The lines that lift the holds at a place, the lines that are to go first."""
    for message, span in here:
        if message.severity is not Severity.HOLD:
            continue
        yield from _taken_out(stands, message, span)
        if message.slug.startswith(_PILOT):
            for name in message.valves:
                yield from _gripping(desk, stands, message, name)


def _taken_out(stands: AsItStands, message: Message, span: Span) -> Iterator[CodeAction]:
    found = _TAKE_OUT.search(message.help)
    if found is None or stands.lines[span.line - 1].split()[:1] != [found[1]]:
        return
    line = Range(Position(span.line - 1, 0), Position(span.line, 0))
    yield _action(stands, f"take the {found[1]} line out ({message.slug})", TextEdit(line, ""))


def _gripping(desk: Desk, stands: AsItStands, message: Message, name: str) -> Iterator[CodeAction]:
    """A pilot that grips in the guide as it was measured, where the hold is gone with it."""
    valve = next((each for each in stands.plan.valves if each.name == name), None) if stands.plan is not None else None
    if valve is None or stands.plan is None or stands.tree is None:
        return
    own = desk.texts[stands.uri]
    for pilot in _that_grip(stands, valve)[:_TRIED]:
        edit = _naming(stands, stands.tree, name, pilot)
        after = text_changed(own.text, edit.range, edit.new_text)
        again = desk.worked_out(OpenText(own.uri, own.folder, own.name, own.truly, after, own.version))
        valves = () if again.plan is None else again.plan.valves
        if any(each.name == name and all(hold.slug != message.slug for hold in each.holds) for each in valves):
            yield _action(stands, f"name the pilot {pilot} for {name} ({message.slug})", edit)


def _that_grip(stands: AsItStands, valve: ValvePlan) -> list[str]:
    guide, tightest = valve.at20.guide, valve.at20.guide_tightest
    if stands.plan is None or guide is None or tightest is None:
        return []
    return [
        pilot.name.text
        for pilot in stands.plan.job.shop.pilots
        if pilot.smallest is not None
        and pilot.largest is not None
        and pilot.smallest.value <= tightest.value
        and guide.value <= pilot.largest.value
    ]


def _naming(stands: AsItStands, file: tree.File, valve: str, pilot: str) -> TextEdit:
    """A pilot named for one valve: in place of the one that its own section names, below that section's line, or in a
    section of its own behind the last of its head."""
    named = pilot if all(each.isalnum() or each in "-_." for each in pilot) else f'"{pilot}"'
    own = next((each for each in file.sections if each.name == VALVES.word and _names(each) == [valve]), None)
    if own is not None:
        line = next((each for each in own.fields if each.word.text == _PILOT and each.arguments), None)
        if line is not None:
            span = line.arguments[0].span.to(line.arguments[-1].span)
            return TextEdit(range_of(span, stands.lines), named)
        return _put(_end(own), f"  {_PILOT}  {named}\n")
    first = min((row.span.line for row in _rows(file) if _is_of(row, valve)), default=1)
    start, end = head_lines(file, first)
    of_head = [
        each
        for each in file.sections
        if each.name in (VALVES.word, "head")
        and each.line.span.line >= start
        and (end is None or each.line.span.line < end)
    ]
    return _put(_end(of_head[-1]), f"\n{VALVES.word} {valve}\n  {_PILOT}  {named}\n")


def _names(section: tree.Section) -> list[str]:
    return [each.text.upper() for each in section.line.arguments if isinstance(each, tree.Word)]


def _put(line: int, text: str) -> TextEdit:
    return TextEdit(Range(Position(line, 0), Position(line, 0)), text)


def _end(section: tree.Section) -> int:
    return max((section.line.span.line, *(line.span.line for line in section.fields)))


def _rows(file: tree.File) -> Iterator[tree.Row]:
    return (row for section in file.sections for table in section.tables for row in table.rows)


def _is_of(row: tree.Row, valve: str) -> bool:
    return bool(row.cells) and isinstance(row.cells[0], tree.Word) and row.cells[0].text.upper() == valve


def _action(stands: AsItStands, title: str, edit: TextEdit) -> CodeAction:
    return CodeAction(title, kind=CodeActionKind.QuickFix, edit=WorkspaceEdit({stands.uri: [edit]}))
