"""The layout of a job or shop file: which line is what, how it is set, where the blank lines stand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.syntax.formatting import typed_pieces
from seatwright.syntax.formatting.alignment import AlignedRow, beside_one_another, in_columns, with_comment
from seatwright.syntax.formatting.blanks import BLANKS, trimmed
from seatwright.syntax.formatting.typed_pieces import Touching
from seatwright.syntax.tree import Both, Comment, Dash, File, Line, Readings, Row, Section, Single, Table

INDENT = "  "
_NAMING_VALVES = frozenset(("valves", "note", "hold"))


class Layout(Struct):
    """A file on its way into its layout, by the numbers of its lines (from 1).

    typed: the lines as they stand. left: those left as they stand. made: those that are set. opening: the
    lines that open a section. singles: single lines outside tables, which begin at column 1. comments: those
    that stand on a line of their own.
    """

    typed: dict[int, str]
    left: set[int]
    made: dict[int, str] = field(default_factory=dict)
    opening: set[int] = field(default_factory=set)
    singles: set[int] = field(default_factory=set)
    comments: set[int] = field(default_factory=set)

    def is_blank(self, number: int) -> bool:
        """Whether nothing stands on a line."""
        return not trimmed(self.typed[number])

    def put(self, indent: str, lines: Mapping[int, str]) -> None:
        """Set lines, those excepted that are left as they stand."""
        self.made.update((number, indent + line) for number, line in lines.items() if number not in self.left)


def lay_out(lines: Iterable[str], file: File, at_fault: Iterable[int]) -> tuple[list[str], tuple[int, ...]]:
    """The lines of a file in their layout, and the numbers of those that are left as they stand.

    lines: as they stand in the file. file: the tree of them. at_fault: the lines that have a message.
    """
    layout = Layout(dict(enumerate(lines, 1)), set(at_fault))
    for section in file.sections:
        _section(section, layout)
    for single in file.singles:
        _single(single, file, layout)
    for comment in file.comments:
        layout.comments.add(comment.span.line)
    read = layout.made.keys() | layout.comments
    layout.left |= {number for number in layout.typed if number not in read and not layout.is_blank(number)}
    layout.comments -= layout.left
    _comments(file.comments, layout)
    return _with_blank_lines(layout), tuple(sorted(layout.left))


# ---- sections and their lines ----------------------------------------------------------------------------------


def _section(section: Section, layout: Layout) -> None:
    number = section.line.span.line
    layout.opening.add(number)
    line = section.line
    if section.valve is not None:
        line = replace(line, arguments=tuple(sorted((*line.arguments, section.valve), key=lambda one: one.span)))
    if number not in layout.left:
        _on_one_line(line, section.name in _NAMING_VALVES or section.valve is not None, "", layout)
    for run in _runs(section, layout):
        _fields(run, layout)
    if section.valve is not None:
        return  # its one row stands on its lines
    for table in section.tables:
        _table(table, layout)
    # Each of the two that a distance is given for is a valve; a row of `trial` begins with a cutter.
    _rows(section.rows, {}, None, 2 if section.name == "spacing" else 0, layout)


def _on_one_line(line: Line, valves: bool, indent: str, layout: Layout) -> None:
    number = line.span.line
    typed = layout.typed[number]
    try:
        value = typed_pieces.values(line, typed, valves)
    except Touching:
        layout.left.add(number)
        return
    words = typed_pieces.field_word(line, typed) + (f" {value}" if value else "")
    layout.put(indent, {number: with_comment(words, typed_pieces.remark(line.comment, typed))})


def _runs(section: Section, layout: Layout) -> list[list[Line]]:
    """The fields of a section in runs; a blank line ends a run, and so does a table."""
    runs: list[list[Line]] = []
    before = 0
    headers = {table.span.line for table in section.tables if section.valve is None}
    for line in (*section.fields, *section.columns):
        between = range(before + 1, line.span.line)
        if not runs or any(layout.is_blank(number) or number in headers for number in between):
            runs.append([])
        runs[-1].append(line)
        before = line.span.line
    return runs


def _fields(run: list[Line], layout: Layout) -> None:
    pairs: dict[int, tuple[str, str, str]] = {}
    for line in run:
        number = line.span.line
        typed = layout.typed[number]
        if number in layout.left:
            continue
        try:
            value = typed_pieces.values(line, typed, valves=False)
        except Touching:
            layout.left.add(number)
            continue
        pairs[number] = (typed_pieces.field_word(line, typed), value, typed_pieces.remark(line.comment, typed))
    layout.put(INDENT, beside_one_another(pairs))


def _table(table: Table, layout: Layout) -> None:
    number = table.span.line
    typed = layout.typed[number]
    if number in layout.left:
        # Columns are set under their header, and this one stays as it is.
        layout.left.update(row.span.line for row in table.rows)
        return
    try:
        words = tuple(typed_pieces.column_words(table.column_spans, typed))
    except Touching:
        layout.left.update((number, *(row.span.line for row in table.rows)))
        return
    none = (False,) * len(words)
    header = AlignedRow(words, none, none, typed_pieces.remark(table.comment, typed))
    _rows(table.rows, {number: header}, number, 1 if table.columns[0] == "valve" else 0, layout)


def _rows(
    rows: Iterable[Row], above: Mapping[int, AlignedRow], header: int | None, valves: int, layout: Layout
) -> None:
    lines = dict(above)
    for row in rows:
        number = row.span.line
        if row.faulty or number in layout.left:
            layout.left.add(number)
            continue
        try:
            lines[number] = _cells(row, layout.typed[number], valves)
        except Touching:
            layout.left.add(number)
    if lines:
        layout.put(INDENT, in_columns(lines, header))


def _cells(row: Row, typed: str, valves: int) -> AlignedRow:
    return AlignedRow(
        tuple(typed_pieces.typed_cells(row, typed, valves)),
        tuple(isinstance(cell, Single | Readings | Both) for cell in row.cells),
        tuple(isinstance(cell, Dash) for cell in row.cells),
        typed_pieces.remark(row.comment, typed),
    )


# ---- single lines and comments ---------------------------------------------------------------------------------


def _single(line: Line, file: File, layout: Layout) -> None:
    number = line.span.line
    inside = _inside_table(number, file)
    if not inside:
        layout.singles.add(number)
    if number not in layout.left:
        _on_one_line(line, line.word.text in _NAMING_VALVES, INDENT if inside else "", layout)


def _inside_table(number: int, file: File) -> bool:
    """Whether rows of one table stand both before and behind a line."""
    for section in file.sections:
        tables: list[tuple[int, Sequence[Row | Line]]] = [(table.span.line, table.rows) for table in section.tables]
        if section.rows:
            tables.append((section.rows[0].span.line, section.rows))
        if section.valve is not None:
            tables = [(section.line.span.line, section.columns)]
        if any(first < number < rows[-1].span.line for first, rows in tables if rows):
            return True
    return False


def _comments(comments: Iterable[Comment], layout: Layout) -> None:
    """Set comments by blocks: lines of comment with nothing between them, not even a blank line."""
    behind = _next_lines(layout)
    indent = ""
    for comment in sorted(comments, key=lambda each: each.span.line):
        number = comment.span.line
        if number not in layout.comments:
            continue
        if number - 1 not in layout.comments:
            indent = INDENT if _below_a_section(number, behind, layout) else ""
        layout.made[number] = indent + typed_pieces.remark(comment, layout.typed[number])


def _below_a_section(first: int, behind: Mapping[int, int], layout: Layout) -> bool:
    """Whether a block of comment belongs to the body of a section: to the line that follows, else to the one above."""
    following = behind.get(first)
    if following is not None and _is_indented(following, layout):
        return True
    last = first
    while last + 1 in layout.comments:
        last += 1
    if following == last + 1:
        return False
    above = first - 1
    return above in layout.typed and not layout.is_blank(above) and _is_body(above, layout)


def _next_lines(layout: Layout) -> dict[int, int]:
    """For each line the next that is neither blank nor a comment on its own; the last ones have none."""
    found: dict[int, int] = {}
    behind: int | None = None
    for number in reversed(layout.typed):
        if behind is not None:
            found[number] = behind
        if number not in layout.comments and not layout.is_blank(number):
            behind = number
    return found


def _is_body(number: int, layout: Layout) -> bool:
    return number in layout.opening or _is_indented(number, layout)


def _is_indented(number: int, layout: Layout) -> bool:
    if number in layout.left:
        return layout.typed[number][:1] in tuple(BLANKS)
    return number not in layout.opening and number not in layout.singles


# ---- blank lines -----------------------------------------------------------------------------------------------


def _with_blank_lines(layout: Layout) -> list[str]:
    """The lines set, one blank line before each section and its comment, at most one elsewhere, none at the ends."""
    found: list[str] = []
    behind = _next_lines(layout)
    before: int | None = None
    blank = False
    for number, typed in layout.typed.items():
        if layout.is_blank(number):
            blank = True
            continue
        if before is not None and (blank or _parts_from(number, before, behind, layout)):
            found.append("")
        found.append(typed if number in layout.left else layout.made[number])
        before, blank = number, False
    return found


def _parts_from(number: int, before: int, behind: Mapping[int, int], layout: Layout) -> bool:
    """Whether a line opens something new below the line before it: a section, or a single line behind a whole one.

    A comment glued to it from above goes with it.
    """
    if before in layout.comments:
        return False
    head = number
    while head in layout.comments:
        head += 1
    if head in layout.opening:
        return True
    if head not in layout.singles or not _is_indented(before, layout):
        return False
    following = behind.get(head)
    while following in layout.singles:
        following = behind.get(following)
    return following is None or following in layout.opening
