"""Each measured cell held against the other valves of its kind in its column: a slip of the pen stands out.

Which columns, and how far true figures lie apart, stands in the declarations. One message for one cell. What is bigger
in all its readings (a pocket bored over before, a guide worn all through) is no slip; one reading that leaves the
others of its own pocket is.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from seatwright.handbook.outliers import beyond, limit, median
from seatwright.job.checks import another_row, likely_slips, list_figures
from seatwright.job.declarations import Field, SectionDeclared, Sisters, job_tables
from seatwright.job.model import CutReadings, Finished, Given, Head, Measured, Reading, Shop, Valve
from seatwright.job.wording import of_sisters as say
from seatwright.text import Message

ENOUGH = 3  # others of its kind from which a spread can be told
_NEAREST = 8  # of a long head as many others are asked, those that stand nearest

_PARTS: tuple[tuple[str, SectionDeclared], ...] = (
    ("measured", job_tables.MEASURED),
    ("cut", job_tables.CUT),
    ("finished", job_tables.FINISHED),
)
_WISHED = frozenset({"head_diameter", "margin", "stem"})
"""Columns that say of one valve what `valves` says of a set: the set is what the cell is held against."""


class SisterCell(Struct, frozen=True):
    """A figure of one valve in one column. typed: as its owner wrote it."""

    valve: Valve
    value: float
    typed: str
    figure: Reading | Given


class SisterTable(Struct, frozen=True):
    """One table of all heads, column by column. part: measured, cut, finished."""

    part: str
    columns: tuple[Field, ...]
    valves: tuple[Valve, ...]
    cells: dict[str, dict[str, SisterCell]]  # by attribute, then by valve
    things: dict[str, tuple[Field, ...]]  # by column: the others that are readings of the same thing

    def cell(self, valve: Valve, column: Field) -> SisterCell | None:
        """What one valve has in a column."""
        return self.cells[column.to].get(valve.name)

    def of_thing(self, column: Field) -> tuple[Field, ...]:
        """The other columns that are readings of the same thing."""
        return self.things[column.word]


def check(heads: Iterable[Head], shop: Shop) -> Iterator[Message]:
    """The cells that no true figure of a worn head explains, each with the figures that it was held against."""
    all_heads = tuple(heads)
    pools = Pools(all_heads)
    for part, section in _PARTS:
        table = _table(all_heads, part, section)
        for column in table.columns:
            here = table.cells[column.to]
            for valve in table.valves if here else ():
                cell = here.get(valve.name)
                if cell is None or not isinstance(cell.figure, Reading):
                    continue
                others = _others(table, column, cell, pools)
                found = _judged(table, column, cell, others, pools)
                if found is None and not others and part == "measured":
                    found = list_figures.judged(column, valve, cell.figure, shop)
                if found is not None:
                    yield found


def _table(heads: tuple[Head, ...], part: str, section: SectionDeclared) -> SisterTable:
    valves = tuple(valve for head in heads for valve in head.valves)
    columns = {column.to: column for column in section.headers[0].columns[::-1] if column.sisters is not None}
    cells: dict[str, dict[str, SisterCell]] = {attribute: {} for attribute in columns}
    for valve in valves:
        found: Measured | CutReadings | Finished | None = getattr(valve, part)
        if found is None:
            continue
        for attribute in columns:
            figure = getattr(found, attribute, None)
            if figure is None and part == "measured" and attribute in _WISHED:
                figure = getattr(valve.specification, attribute)
            if figure is not None:
                cells[attribute][valve.name] = SisterCell(valve, figure.value, figure.typed, figure)
    in_order = tuple(column for column in section.headers[0].columns if columns.get(column.to) is column)
    return SisterTable(
        part, in_order, valves, cells, {column.word: _same_thing(column, in_order) for column in in_order}
    )


def _same_thing(column: Field, columns: tuple[Field, ...]) -> tuple[Field, ...]:
    thing = column.sisters.thing if column.sisters else ""
    return tuple(
        each for each in columns if thing and each is not column and each.sisters and each.sisters.thing == thing
    )


def _others(table: SisterTable, column: Field, cell: SisterCell, pools: Pools) -> tuple[SisterCell, ...]:
    """The cells that it is held against: its twins in this head; all of its kind there; those of all heads."""
    valve = cell.valve
    for pool in pools.of(valve):
        cells = _cells(table, column, cell, pool)
        if len(cells) >= ENOUGH:
            return cells
    twins, *_, of_all = pools.of(valve)
    return _cells(table, column, cell, twins) or _cells(table, column, cell, of_all)


def _cells(table: SisterTable, column: Field, cell: SisterCell, pool: tuple[Valve, ...]) -> tuple[SisterCell, ...]:
    """What the valves of a pool have in a column; of insert-od those that wish for the same insert."""
    here = table.cells[column.to]
    found = [each for other in pool if (each := here.get(other.name)) is not None]
    if column.to == "insert_od":
        found = [each for each in found if _wish(each.valve) == _wish(cell.valve)]
    return tuple(found)


class Pools:
    """The valves that one valve may be held against, nearest kin first; of a long head those that stand nearest."""

    def __init__(self, heads: tuple[Head, ...]) -> None:
        self._rows: dict[tuple[object, ...], list[Valve]] = {}
        self._place: dict[tuple[str, tuple[object, ...]], int] = {}
        self._keys: dict[str, tuple[tuple[object, ...], ...]] = {}
        self._of: dict[str, tuple[tuple[Valve, ...], ...]] = {}
        for head in heads:
            for valve in head.valves:
                sort = (valve.kind, valve.specification.seat_integral is None)
                size = valve.specification.head_diameter
                keys = (
                    (*sort, head.number, valve.letter),
                    (*sort, head.number, "any", size.value if size else None),
                    (*sort, "all", valve.letter),
                )
                self._keys[valve.name] = keys
                for key in keys:
                    row = self._rows.setdefault(key, [])
                    self._place[valve.name, key] = len(row)
                    row.append(valve)

    def of(self, valve: Valve) -> tuple[tuple[Valve, ...], ...]:
        """Its pools: its twins in this head, all of its kind and size there, its twins in all heads."""
        if valve.name not in self._of:
            self._of[valve.name] = tuple([self._near(valve, key) for key in self._keys[valve.name]])
        return self._of[valve.name]

    def beside(self, valve: Valve) -> tuple[Valve, ...]:
        """Those of the other kind and its letter in its head, near it."""
        kind, *rest = self._keys[valve.name][0]
        row = self._rows.get(("exhaust" if kind == "intake" else "intake", *rest), [])
        first = max(0, min(self._place[valve.name, self._keys[valve.name][0]] - _NEAREST // 2, len(row) - _NEAREST))
        return tuple(row[first : first + _NEAREST])

    def _near(self, valve: Valve, key: tuple[object, ...]) -> tuple[Valve, ...]:
        row, place = self._rows[key], self._place[valve.name, key]
        first = max(0, min(place - _NEAREST // 2, len(row) - _NEAREST - 1))
        return tuple([other for other in row[first : first + _NEAREST + 1] if other is not valve])


def _wish(valve: Valve) -> tuple[str, str | None]:
    wish = valve.specification.insert
    return ("", None) if wish is None else (wish.kind, wish.name)


def _judged(
    table: SisterTable, column: Field, cell: SisterCell, others: tuple[SisterCell, ...], pools: Pools
) -> Message | None:
    bounds = column.sisters
    assert bounds is not None
    thing = [each for each in table.of_thing(column) if table.cell(cell.valve, each) is not None]
    if thing and not bounds.alike:
        thing = [each for each in thing if any(table.cell(other.valve, each) is not None for other in others)]
    if thing and (others or bounds.alike):
        return _of_one_thing(table, column, bounds, cell, others, thing)
    if len(others) >= ENOUGH:
        return _among_many(table, column, bounds, cell, others, pools)
    if others:
        return _among_few(table, column, bounds, cell, others)
    return None


def _among_many(
    table: SisterTable,
    column: Field,
    bounds: Sisters,
    cell: SisterCell,
    others: tuple[SisterCell, ...],
    pools: Pools,
) -> Message | None:
    figures = [other.value for other in others]
    middle = median(figures)
    # The limits are never narrower than this, so most cells need no spread to be told.
    if not bounds.at_most and middle - bounds.under <= cell.value <= middle + bounds.over:
        return None
    apart = [figure - middle for figure in figures] + _away(table, column, cell, pools)
    half = max(getattr(other.figure, "half_digit", 0.0) for other in (*others, cell))
    below, above = limit(apart, bounds.under, half), limit(apart, bounds.over, half)
    if bounds.at_most:
        below, above = min(below, bounds.at_most), min(above, bounds.at_most)
    low, high = middle - below, middle + above
    if low <= cell.value <= high or _goes_with_its_pocket(table, column, cell, others):
        return None
    return _said(table, column, bounds, cell, others, (low, high))


def _away(table: SisterTable, column: Field, cell: SisterCell, pools: Pools) -> list[float]:
    """How far those of the other kind lie from their own median; what spreads intakes spreads exhausts too."""
    here = table.cells[column.to]
    figures = [found.value for other in pools.beside(cell.valve) if (found := here.get(other.name)) is not None]
    if len(figures) < ENOUGH:
        return []
    middle = median(figures)
    return [figure - middle for figure in figures]


def _among_few(
    table: SisterTable, column: Field, bounds: Sisters, cell: SisterCell, others: tuple[SisterCell, ...]
) -> Message | None:
    """One or two others: they must agree between themselves; of two alone nothing says which is the slip."""
    figures = [other.value for other in others]
    if max(figures) - min(figures) > max(bounds.under, bounds.over):
        return None
    half = getattr(cell.figure, "half_digit", 0.0)
    low, high = median(figures) - bounds.under - half, median(figures) + bounds.over + half
    if low <= cell.value <= high or _goes_with_its_pocket(table, column, cell, others):
        return None
    if len(others) == 1 and cell.figure.span < others[0].figure.span and isinstance(others[0].figure, Reading):
        return None
    return _said(table, column, bounds, cell, others, (low, high))


def _goes_with_its_pocket(table: SisterTable, column: Field, cell: SisterCell, others: tuple[SisterCell, ...]) -> bool:
    """Whether a larger or smaller insert stands over a pocket that is larger or smaller as well."""
    if column.to != "insert_od" or table.part != "measured":
        return False
    own, theirs = _pocket(cell.valve), [size for other in others if (size := _pocket(other.valve)) is not None]
    if own is None or not theirs:
        return False
    bigger, needs = own - median(theirs), cell.value - median(other.value for other in others)
    return abs(bigger) > 0.05 and bigger * needs > 0 and abs(needs) < abs(bigger) + 1.0


def _pocket(valve: Valve) -> float | None:
    sizes = [one.value for one in (valve.measured.pocket_a, valve.measured.pocket_b) if one is not None]
    return max(sizes, default=None)


def _of_one_thing(
    table: SisterTable,
    column: Field,
    bounds: Sisters,
    cell: SisterCell,
    others: tuple[SisterCell, ...],
    thing: Sequence[Field],
) -> Message | None:
    """A reading among those of its own pocket, guide, bore or floor, each taken from what the others have there."""
    beside: list[tuple[SisterCell, float]] = []
    for each in thing:
        companion = table.cell(cell.valve, each)
        if companion is not None:
            beside.append((companion, companion.value - _usual(table, each, bounds, others)))
    usual = _usual(table, column, bounds, others)
    own = cell.value - usual
    away = [shift for _, shift in beside]
    out = beyond(own, away)
    if out > 0 and bounds.thing == "pocket" and cell.valve.measured.damage is not None:
        return None  # metal is missing there, and the file says so
    if abs(out) <= bounds.within or _said_elsewhere(table, column, bounds, cell, beside, own, others):
        return None
    low, high = usual + min(away) - bounds.within, usual + max(away) + bounds.within
    like = () if bounds.alike else _like(table, column, thing, others)
    return _said(table, column, bounds, cell, tuple(companion for companion, _ in beside), (low, high), like)


def _like(
    table: SisterTable, column: Field, thing: Sequence[Field], others: tuple[SisterCell, ...]
) -> tuple[tuple[str, str, str], ...]:
    """How the other valves have it: each with its figure and with those of its companions."""
    found = []
    for other in others:
        companions = [at for each in thing if (at := table.cell(other.valve, each)) is not None]
        if companions:
            found.append((other.valve.name, other.typed, " and ".join(at.typed for at in companions)))
    return tuple(found)


def _said_elsewhere(
    table: SisterTable,
    column: Field,
    bounds: Sisters,
    cell: SisterCell,
    beside: list[tuple[SisterCell, float]],
    own: float,
    others: tuple[SisterCell, ...],
) -> bool:
    """Whether the slip is that of the one companion, or of the one other valve: one mistake is one message."""
    if len(beside) == 1:
        companion, away = beside[0]
        if len(others) >= ENOUGH:
            return abs(away) > abs(own)
        if bounds.alike:
            return cell.figure.span < companion.figure.span
    if len(others) == 1 and not bounds.alike:
        return cell.figure.span < others[0].figure.span
    return False


def _usual(table: SisterTable, column: Field, bounds: Sisters, others: tuple[SisterCell, ...]) -> float:
    """What the other valves have in a column; where they are too few, nothing is taken off readings of one size."""
    here = table.cells[column.to]
    found = [cell.value for other in others if (cell := here.get(other.valve.name)) is not None]
    return median(found) if found and (len(others) >= ENOUGH or not bounds.alike) else 0.0


def _said(
    table: SisterTable,
    column: Field,
    bounds: Sisters,
    cell: SisterCell,
    against: tuple[SisterCell, ...],
    fits: tuple[float, float],
    like: tuple[tuple[str, str, str], ...] = (),
) -> Message:
    reading = cell.figure
    assert isinstance(reading, Reading)
    word = likely_slips.word_of(column, reading, table.columns)
    twice = reading.count > 1 and reading.largest - reading.smallest <= max(bounds.under, bounds.over)
    own = all(other.valve.name == cell.valve.name for other in against)
    names = tuple(_column_word(table, other) if own else other.valve.name for other in against)
    figures = tuple(zip(names, (other.typed for other in against), strict=True))
    meant = None
    if not twice:
        held = {other.valve.name for other in against}
        meant = (
            another_row.row_meant(cell.valve, reading.value, _typed_in(table, column), held, fits)
            or likely_slips.slip_meant(reading, fits)
            or _exchanged(table, column, cell, fits)
        )
    found = say.Unlike(word, cell.valve.name, reading, figures, against[0].figure.span, own=own, like=like)
    return say.unlike_the_others(found, meant, twice=twice, weighs=bounds.rests and not twice)


def _typed_in(table: SisterTable, column: Field) -> list[tuple[Valve, float]]:
    """What was typed for each valve in a column."""
    cells = (table.cell(valve, column) for valve in table.valves)
    return [(cell.valve, cell.value) for cell in cells if cell is not None and isinstance(cell.figure, Reading)]


def _column_word(table: SisterTable, cell: SisterCell) -> str:
    return next((column.word for column in table.columns if table.cell(cell.valve, column) is cell), "")


def _exchanged(table: SisterTable, column: Field, cell: SisterCell, fits: tuple[float, float]) -> str | None:
    """Whether the next cells of the row explain it: the figure of one of them is right here."""
    found = [
        each.word
        for each in table.columns
        if each is not column
        and (other := table.cell(cell.valve, each)) is not None
        and isinstance(other.figure, Reading)
        and fits[0] <= other.value <= fits[1]
        and not (each.sisters and column.sisters and each.sisters.thing and each.sisters.thing == column.sisters.thing)
    ]
    return f"it looks exchanged with {found[0]}" if len(found) == 1 else None
