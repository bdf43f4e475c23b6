"""What was measured, cut and found, valve by valve: tables under later dates laid over earlier ones, cell by cell."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.job.declarations import SectionDeclared
from seatwright.job.head.replaced import PartRenewed
from seatwright.job.model import Extra, Reading
from seatwright.job.sections.tables import ReadRow, rows
from seatwright.job.typed.gather import Gathered
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_sections as say
from seatwright.syntax import tree
from seatwright.text import Span


class Entry(Struct, frozen=True):
    """A cell: its value, its place, its column, and the section (by number) in which it stands."""

    value: Any
    span: Span
    column: str
    section: int
    date: str | None = None


class HeadTables(Struct):
    """All tables of one kind under one head.

    by_valve: what counts, by attribute. mentioned: where a valve first stands. sections: for each valve, what each
    section said of it, oldest first, with the section's date. latest: the last of those dates. replaced: the sections
    of which a cell was replaced. renewed: the parts that were replaced, and set_aside the readings of the old ones.
    """

    by_valve: dict[str, dict[str, Entry]] = field(default_factory=dict)
    mentioned: dict[str, Span] = field(default_factory=dict)
    sections: dict[str, list[tuple[int, str | None, dict[str, Any]]]] = field(default_factory=dict)
    replaced: dict[str, set[int]] = field(default_factory=dict)
    extras: list[Extra] = field(default_factory=list)
    renewed: list[PartRenewed] = field(default_factory=list)
    set_aside: dict[PartRenewed, dict[str, Any]] = field(default_factory=dict)
    latest: str | None = None
    _number: int = 0
    _renewing: dict[str, list[PartRenewed]] = field(default_factory=dict)

    def add(self, section: SectionDeclared, found: tree.Section, scope: Scope, gathered: Gathered) -> None:
        """Lay one more section over those before it."""
        self._number += 1
        # A section whose date could not be read may be the later one.
        newer = scope.doubtful or (scope.date is not None and (self.latest is None or scope.date > self.latest))
        for cells in rows(section, found, scope, gathered, readings=True):
            valve = cells.first.text
            self.mentioned.setdefault(valve, cells.first.span)
            self.extras += cells.extras
            twice = [
                (entry, before)
                for attribute, entry in self._entries(cells, gathered)
                if (before := self._enter(valve, attribute, entry, newer)) is not None
            ]
            self._say_twice(valve, cells.first.span, twice, gathered)
        if scope.date is not None:
            self.latest = max(self.latest or "", scope.date)

    def _entries(self, cells: ReadRow, gathered: Gathered) -> Iterator[tuple[str, Entry]]:
        """The cells of a row, each with its attribute of the model."""
        said: dict[str, str] = {}
        by_word = cells.by_word
        for column, value in cells.values.items():
            attribute = by_word[column].to
            if attribute in said:
                other = said[attribute]
                gathered.say(say.cells_alike(cells.spans[column], column, other, cells.spans[other]))
                continue
            said[attribute] = column
            yield attribute, Entry(value, cells.spans[column], column, self._number, cells.scope.date)
        if cells.values:
            here = {attribute: cells.values[column] for attribute, column in said.items()}
            self._remember(cells.first.text, cells.scope.date, here)

    def _remember(self, valve: str, date: str | None, here: dict[str, Any]) -> None:
        listed = self.sections.setdefault(valve, [])
        if listed and listed[-1][0] == self._number:
            listed[-1][2].update(here)
        else:
            listed.append((self._number, date, dict(here)))

    def _say_twice(self, valve: str, row: Span, twice: list[tuple[Entry, Entry]], gathered: Gathered) -> None:
        """A cell given twice; a whole row given twice is one mistake, and may be another valve's."""
        other: str | None = f"{'I' if valve[0] == 'E' else 'E'}{valve[1:]}"
        if other in self.mentioned:
            other = None
        if len(twice) == 1:
            entry, before = twice[0]
            gathered.say(say.cell_twice(entry.span, entry.column, valve, before.span, other))
        elif twice:
            columns = [entry.column for entry, _ in twice]
            gathered.say(say.cells_twice(row, columns, valve, twice[0][1].span, other))

    def _enter(self, valve: str, attribute: str, entry: Entry, newer: bool) -> Entry | None:
        """Let a cell count; the cell that already does, where it may not be replaced."""
        sheet = self.by_valve.setdefault(valve, {})
        for one in self._renewing.get(valve, ()):
            if attribute in one.readings and one.outdates(entry.date, entry.span):
                self._enter_aside(one, attribute, entry)
                return None
        before = sheet.get(attribute)
        if before is None:
            sheet[attribute] = entry
            return None
        if before.section == entry.section or not newer:
            return before
        self.replaced.setdefault(valve, set()).add(before.section)
        value = entry.value
        if isinstance(value, Reading) and isinstance(before.value, Reading):
            old = replace(before.value, earlier=())
            value = replace(value, earlier=(old, *before.value.earlier))
        sheet[attribute] = replace(entry, value=value)
        return None

    def _enter_aside(self, one: PartRenewed, attribute: str, entry: Entry) -> None:
        self.set_aside.setdefault(one, {}).setdefault(attribute, entry.value)

    def renew(self, made: list[PartRenewed]) -> None:
        """Take the readings of parts that were replaced out of what counts; they stay on the record."""
        for one in made:
            self.renewed.append(one)
            self._renewing.setdefault(one.valve, []).append(one)
            sheet = self.by_valve.get(one.valve, {})
            for attribute in one.readings:
                entry = sheet.get(attribute)
                if entry is not None and one.outdates(entry.date, entry.span):
                    del sheet[attribute]
                    self._enter_aside(one, attribute, entry)

    def renewed_of(self, valve: str) -> list[tuple[PartRenewed, dict[str, Any]]]:
        """What was renewed of a valve, by day, each with the readings of the old part."""
        listed = sorted(self._renewing.get(valve, ()), key=lambda one: (one.date, one.span))
        return [(one, self.set_aside.get(one, {})) for one in listed]

    def values(self, valve: str) -> dict[str, Any]:
        """What counts for a valve, by attribute."""
        return {attribute: entry.value for attribute, entry in self.by_valve.get(valve, {}).items()}

    def date(self, valve: str) -> str | None:
        """The date of the latest section that speaks of a valve."""
        dates = [date for _, date, _ in self.sections.get(valve, ()) if date is not None]
        return max(dates, default=None)

    def earlier(self, valve: str) -> list[tuple[str | None, dict[str, Any]]]:
        """The sections of which a later one replaced something, newest first."""
        old = self.replaced.get(valve, set())
        listed = [(date, values) for number, date, values in self.sections.get(valve, ()) if number in old]
        return listed[::-1]
