"""Where things stand in a head: layout, other holes, distances, and the trial cuts."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.job.declarations import Field, SectionDeclared, job_tables
from seatwright.job.model import Extra, Given, Hole, Named, Place, Spacing, Trial
from seatwright.job.sections.tables import ReadRow, cell_reading, rows
from seatwright.job.typed.fields import read_value
from seatwright.job.typed.gather import Gathered, Mistake
from seatwright.job.typed.names import is_valve, key, valve_meant
from seatwright.job.typed.scope import Scope
from seatwright.job.typed.sources import sourced
from seatwright.job.wording import of_sections as say_section
from seatwright.job.wording import of_valves as say
from seatwright.job.wording.of_values import valve_name
from seatwright.syntax import tree
from seatwright.syntax.tree import Text, Word


def layout(found: tree.Section, scope: Scope, before: list[Place], gathered: Gathered) -> list[Extra]:
    """Adds the places of a `layout` to those before it."""
    extras: list[Extra] = []
    seen = {place.valve: place.span for place in before}
    for cells in rows(job_tables.LAYOUT, found, scope, gathered, readings=False):
        extras += cells.extras
        name = cells.first.text
        if name in seen:
            gathered.say(say.place_again(cells.first.span, name, seen[name]))
            continue
        seen[name] = cells.first.span
        if _complete(cells, ("x", "y"), gathered):
            x, y = (sourced(cells.get(column), scope.says) for column in ("x", "y"))
            before.append(Place(name, x, y, cells.first.span))
    return extras


def holes(found: tree.Section, scope: Scope, before: list[Hole], gathered: Gathered) -> list[Extra]:
    """Adds what a `holes` table names."""
    extras: list[Extra] = []
    seen = {key(hole.name): hole.span for hole in before}
    for cells in rows(job_tables.HOLES, found, scope, gathered, readings=False):
        extras += cells.extras
        name = cells.first.text
        if key(name) in seen:
            gathered.say(say.place_again(cells.first.span, name, seen[key(name)]))
            continue
        seen[key(name)] = cells.first.span
        if _complete(cells, ("x", "y", "diameter"), gathered):
            kind = cells.get("kind")
            x, y, across = (sourced(cells.get(column), scope.says) for column in ("x", "y", "diameter"))
            before.append(Hole(name, x, y, across, kind.text if kind else "hole", cells.first.span))
    return extras


def _complete(cells: ReadRow, columns: tuple[str, ...], gathered: Gathered) -> bool:
    lacking = [column for column in columns if cells.get(column) is None]
    if lacking and cells.whole:
        gathered.say(say.place_lacks(cells.first.span, cells.first.text, lacking[0]))
    return not lacking


def _bare_rows(
    section: SectionDeclared, found: tree.Section, example: str, gathered: Gathered, length: int
) -> Iterator[tuple[tree.Cell, ...]]:
    for row in found.rows:
        if row.faulty:
            continue
        if len(row.cells) != length:
            gathered.say(say_section.row_length(row.span, section.word, len(row.cells), example))
            continue
        yield row.cells


def spacing(found: tree.Section, scope: Scope, before: list[Spacing], gathered: Gathered) -> None:
    """Adds the distances of a `spacing` section; a pair stands once, either way round."""
    section = job_tables.SPACING
    distance = section.by_row["distance"]
    seen = {frozenset((one.first, one.second)): one.span for one in before}
    for cells in _bare_rows(section, found, "I1 E1 48.5", gathered, 3):
        try:
            first, second = (_valve(cell, scope) for cell in cells[:2])
            given = sourced(_figure(distance, cells[2], scope), scope.says)
        except Mistake as mistake:
            gathered.say(mistake.message)
            continue
        pair = frozenset((first.text, second.text))
        if len(pair) == 1:
            gathered.say(say.pair_itself(second.span, second.text))
        elif pair in seen:
            gathered.say(say.pair_again(first.span, first.text, second.text, seen[pair]))
        else:
            seen[pair] = first.span
            before.append(Spacing(first.text, second.text, given, first.span))


def _valve(cell: tree.Cell, scope: Scope) -> Named:
    typed = cell.text if isinstance(cell, (Word, Text)) else scope.typed(cell.span)
    if not is_valve(typed):
        raise Mistake(valve_name(cell.span, typed, valve_meant(typed)))
    return Named(typed.upper(), cell.span)


def _figure(declared: Field, cell: tree.Cell, scope: Scope) -> Given:
    if isinstance(cell, tree.Dash):
        raise Mistake(say_section.cell_first(cell.span, declared.word))
    found: Given = read_value(declared, cell.span, (cell,), scope)
    return found


def trial(found: tree.Section, scope: Scope, before: list[Trial], gathered: Gathered) -> None:
    """Adds the trial cuts: rows `CUTTER read 44.480 bored 44.487`."""
    section = job_tables.TRIAL
    example = "C2 read 44.480 bored 44.487"
    for cells in _bare_rows(section, found, example, gathered, 5):
        try:
            if isinstance(cells[0], tree.Dash):
                raise Mistake(say_section.cell_first(cells[0].span, "cutter"))
            cutter = read_value(section.by_row["cutter"], cells[0].span, (cells[0],), scope)
            figures = []
            for word, at in (("read", 1), ("bored", 3)):
                said = cells[at]
                if not isinstance(said, Word) or said.text.lower() != word:
                    raise Mistake(say_section.row_word(said.span, "trial", scope.typed(said.span), word, example))
                figures.append(cell_reading(section.by_row[word], cells[at + 1], scope))
        except Mistake as mistake:
            gathered.say(mistake.message)
            continue
        before.append(Trial(cutter, figures[0], figures[1], cells[0].span))


def apart(one: Place, other: Place | Hole) -> float:
    """The distance between two axes [mm]."""
    return float(((one.x.value - other.x.value) ** 2 + (one.y.value - other.y.value) ** 2) ** 0.5)
