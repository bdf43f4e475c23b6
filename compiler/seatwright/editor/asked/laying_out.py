"""The canonical layout, of a file and of what is pasted: a table out of a spreadsheet becomes one of the language."""

from __future__ import annotations

from lsprotocol.types import DocumentFormattingParams, DocumentRangeFormattingParams, Position, Range, TextEdit

from seatwright.editor.texts.desk import AsItStands, Desk
from seatwright.editor.texts.positions import halves, lines_of
from seatwright.job.declarations import Kind, vocabulary
from seatwright.syntax.formatting.format import LayoutBroken, formatted
from seatwright.text.reading import source_of


def laid_out(desk: Desk, params: DocumentFormattingParams) -> list[TextEdit]:
    """What `format` would change."""
    stands = desk.stands(params.text_document.uri)
    if stands is None or stands.source is None:
        return []
    old = stands.source.as_typed()
    new = _laid_out(stands, old)
    return [] if new is None else _changes(stands, old, new)


def laid_out_part(desk: Desk, params: DocumentRangeFormattingParams) -> list[TextEdit]:
    """What changes in a few lines: rows out of a spreadsheet first, then the layout of whatever table they stand in."""
    stands = desk.stands(params.text_document.uri)
    if stands is None or stands.source is None:
        return []
    old = stands.source.as_typed()
    first, last = params.range.start.line, params.range.end.line
    last -= params.range.end.character == 0 and last > first
    pasted = [_of_spreadsheet(line, stands.kind) if first <= at <= last else line for at, line in enumerate(old)]
    new = _laid_out(stands, pasted)
    if new is None or len(lines_of(new)) != len(pasted):
        # The blank lines between sections are for the whole file; here the lines stay as many as they are.
        return _changes(stands, old, "\n".join(pasted), first, last)
    return _changes(stands, old, new, *_touched(old, lines_of(new), first, last))


def _laid_out(stands: AsItStands, lines: list[str]) -> str | None:
    source, _ = source_of(stands.name, "\n".join(lines))
    try:
        return formatted(source, vocabulary(stands.kind)).text
    except LayoutBroken:
        return None


def _touched(old: list[str], new: list[str], first: int, last: int) -> tuple[int, int]:
    """The lines from first to last, and those beside them that are set anew because of them, up to a blank line."""
    while first > 0 and old[first - 1].strip():
        first -= 1
    while last + 1 < len(old) and old[last + 1].strip():
        last += 1
    return first, min(last, len(new) - 1)


def _changes(stands: AsItStands, old: list[str], after: str, first: int = 0, last: int | None = None) -> list[TextEdit]:
    """The lines to be exchanged, each by itself where there are as many; else all from the first that differs."""
    new = lines_of(after)
    typed = stands.lines
    end = len(old) - 1 if last is None else last
    if len(old) == len(new):
        return [
            TextEdit(Range(Position(at, 0), Position(at, halves(typed[at], len(typed[at])))), new[at])
            for at in range(first, end + 1)
            if old[at] != new[at]
        ]
    begin = next(
        (at for at, pair in enumerate(zip(old, new, strict=False)) if pair[0] != pair[1]), min(len(old), len(new))
    )
    if begin >= len(old):
        begin = len(old) - 1
    stop = Position(len(old) - 1, halves(typed[-1], len(typed[-1])))
    return [TextEdit(Range(Position(begin, 0), stop), "\n".join(new[begin:]))]


def _of_spreadsheet(line: str, kind: Kind) -> str:
    """A line of cells parted by tabs: an empty cell is a `-`, a column's words are joined, a name with a blank is in
    quotes; no figure is touched."""
    if "\t" not in line.strip("\n") or not line.strip():
        return line
    cells = [cell.strip() for cell in line.split("\t")]
    while cells and not cells[0]:
        del cells[0]
    columns = {word for section in vocabulary(kind).sections.values() for word in section.columns}
    words = ["-".join(cell.lower().split()) for cell in cells]
    if len(words) > 1 and all(word in columns for word in words):
        return "\t".join(words)
    return "\t".join(_cell(cell) for cell in cells)


def _cell(typed: str) -> str:
    if not typed:
        return "-"
    is_name = typed[0].isalpha() and " " in typed and '"' not in typed and "#" not in typed
    return f'"{typed}"' if is_name else typed
