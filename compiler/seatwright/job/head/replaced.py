"""What was renewed before the measuring that follows, and which readings it takes the place of."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from seatwright.job.declarations import job_tables
from seatwright.job.model import Extra
from seatwright.job.sections.tables import rows
from seatwright.job.typed.gather import Gathered
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_sections as say
from seatwright.syntax import tree
from seatwright.text import Span


class PartRenewed(Struct, frozen=True):
    """A part of a valve that was replaced on a day."""

    valve: str
    part: str
    date: str
    span: Span

    @property
    def readings(self) -> Iterator[str]:
        """The attributes of `measured` that are of this part."""
        return (word.replace("-", "_") for word in job_tables.READINGS_OF_PART[self.part])

    def outdates(self, date: str | None, span: Span) -> bool:
        """Whether a reading was taken before: without a date, on an earlier one, or that day and above."""
        return date is None or date < self.date or (date == self.date and span < self.span)


def replaced(
    found: tree.Section, scope: Scope, before: list[PartRenewed], gathered: Gathered
) -> tuple[list[PartRenewed], list[Extra]]:
    """What a `replaced` section renews, and its `x-` cells. before: what those above it do."""
    if scope.date is None:
        if not scope.doubtful:
            gathered.say(say.replaced_undated(found.line.word.span))
        return [], []
    made: list[PartRenewed] = []
    extras: list[Extra] = []
    seen = {(one.valve, one.part, one.date): one.span for one in before}
    for cells in rows(job_tables.REPLACED, found, scope, gathered, readings=False):
        extras += cells.extras
        part = cells.get("part")
        if part is None:
            if cells.whole:
                gathered.say(say.replaced_what(cells.first.span, cells.first.text))
            continue
        key = (cells.first.text, part.text, scope.date)
        if key in seen:
            gathered.say(say.replaced_twice(part.span, cells.first.text, part.text, seen[key]))
            continue
        seen[key] = part.span
        made.append(PartRenewed(*key, cells.first.span))
    return made, extras
