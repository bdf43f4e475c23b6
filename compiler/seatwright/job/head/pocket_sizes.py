"""The maker's sizes of a pocket: which valves a table means, its rows, and which table of several counts."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.declarations import job_tables
from seatwright.job.head.selectors import ALL, BY_KIND, BY_NAME, selector_words
from seatwright.job.model import Extra, Given, Limits, PocketSize, SizeName
from seatwright.job.sections.opening import source_behind, units_behind
from seatwright.job.sections.tables import ReadRow, any_faulty, rows
from seatwright.job.typed import names
from seatwright.job.typed.gather import Gathered, Mistake
from seatwright.job.typed.scope import Scope
from seatwright.job.typed.sources import sourced, who_says
from seatwright.job.wording import of_engines as say
from seatwright.job.wording.of_valves import valves_differ
from seatwright.syntax import tree
from seatwright.text import Span

_PAIRS = ("bore", "depth", "insert-od", "interference")


class SizeTable(Struct, frozen=True):
    """A `pocket-sizes` section: whom it means, and its rows. whole: all of it could be read."""

    line: Span
    words: tuple[tuple[str, Span], ...]
    rows: tuple[PocketSize, ...]
    whole: bool

    def width(self, valve: str) -> int | None:
        """How narrowly it means a valve, the smaller the narrower; None where it does not."""
        meant = {word for word, _ in self.words}
        ways = ((valve, BY_NAME), (names.valve_parts(valve)[0], BY_KIND), ("all", ALL))
        return next((width for word, width in ways if word in meant), None)


def table_for(valve: str, tables: Iterable[SizeTable], gathered: Gathered) -> SizeTable | None:
    """The table that counts for a valve: the narrowest, whole. Two that reach equally far are said."""
    best: tuple[int, SizeTable] | None = None
    for table in tables:
        width = table.width(valve)
        if width is None:
            continue
        if best is not None and width == best[0]:
            gathered.say(valves_differ(table.line, "pocket-sizes", valve, best[1].line))
        elif best is None or width < best[0]:
            best = (width, table)
    return None if best is None else best[1]


def pocket_sizes(section: tree.Section, scope: Scope, gathered: Gathered) -> tuple[SizeTable, list[Extra]]:
    """A `pocket-sizes` section as read, and its `x-` cells."""
    words, of_table = _opening(section.line, scope, gathered)
    found: list[PocketSize] = []
    extras: list[Extra] = []
    all_read = words is not None and not any_faulty(section)
    for cells in rows(job_tables.POCKET_SIZES, section, of_table, gathered, readings=False):
        extras += cells.extras
        row = _row(cells, of_table, gathered)
        all_read = all_read and row is not None
        if row is None or row.name is None:
            continue
        again = next((one for one in found if one.name is not None and one.name.same(row.name)), None)
        if again is not None and again.name is not None:
            gathered.say(say.size_twice(row.name.span, row.name.text, again.name.span))
            continue
        found.append(row)
    return SizeTable(section.line.word.span, words or (), tuple(found), all_read and bool(found)), extras


def _opening(line: tree.Line, scope: Scope, gathered: Gathered) -> tuple[tuple[tuple[str, Span], ...] | None, Scope]:
    """`pocket-sizes exhaust in inch "table 14-2"`: whom it means, and the scope of its rows."""
    if line.faulty:
        return None, scope.unread()
    try:
        left, text = source_behind(line.arguments)
        left, units = units_behind(job_tables.POCKET_SIZES, left)
    except Mistake as mistake:
        gathered.say(mistake.message)
        return None, scope.unread()
    words = selector_words(line, left, scope, gathered)
    return words, replace(scope.table(units, None, None), says=who_says(scope, text))


def _row(cells: ReadRow, scope: Scope, gathered: Gathered) -> PocketSize | None:
    """A row; None where it cannot be one, which is said."""
    name: SizeName = cells.first  # type: ignore[assignment]  # what the first column of this table is read as
    if not cells.whole:
        return None
    source = cells.get("source")
    says = who_says(scope, source.text if source is not None else "")
    pairs = {word: _limits(word, cells, gathered) for word in _PAIRS}
    height: Given | None = cells.get("insert-height")
    for word, pair in pairs.items():
        if pair is not None and (pair.least is None or pair.most is None) and (word != "bore" or pair.most is None):
            has, lacks = ("least", "most") if pair.most is None else ("most", "least")
            gathered.say(say.size_lacks_limit(pair.span, name.text, f"{word}-{has}", f"{word}-{lacks}"))
            return None
    if not any(pairs.values()):
        gathered.say(say.size_says_nothing(name.span, name.text))
        return None
    bore, depth, od, interference = (sourced(pairs[word], says) for word in _PAIRS)
    tall = sourced(height, says)
    return PocketSize(name, name.span, bore, depth, od, tall, interference, cells.get("insert"), says)


def _limits(word: str, cells: ReadRow, gathered: Gathered) -> Limits | None:
    least: Given | None = cells.get(f"{word}-least")
    most: Given | None = cells.get(f"{word}-most")
    one = least or most
    if one is None:
        return None
    if least is None or most is None:
        return Limits(least, most, None, f"{'least' if least else 'most'} {one.typed}", one.span)
    if least.value > most.value:
        gathered.say(say.size_reversed(least.span, word, least.typed, most.typed))
        cells.whole = False
    return Limits(least, most, None, f"{least.typed} to {most.typed}", least.span)
