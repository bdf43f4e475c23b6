"""What is asked for at the bench, and in which order."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from seatwright.commands.bench.tables import Asked
from seatwright.job.declarations import Dimension, Field, Form, job_tables
from seatwright.job.model import Head, Job, Named, Reading, Valve

TABLES = {one.word: one for one in (job_tables.MEASURED, job_tables.CUT, job_tables.FINISHED)}
STATIONS = {
    "measured": job_tables.BENCH_ORDER,
    **{word: (tuple(column.word for column in TABLES[word].headers[0].columns),) for word in ("cut", "finished")},
}
"""The columns of each table by the stations of the bench: machine and last look are one station each."""

_LEADING = re.compile(r"^(?:\+(?=[0-9.])|(-))?(?:0+(?=[0-9]))?")


def every_cell(job: Job, table: str, valves: Collection[str]) -> Iterator[Asked]:
    """The cells of a table by head, by station, by valve, whether given or not. valves: of these alone, if any."""
    for number, head in enumerate(job.heads):
        of_head = tuple(valve.name for valve in head.valves)
        for station in STATIONS[table]:
            for name in of_head:
                if not valves or name in valves:
                    yield from (Asked(number, name, column, station, of_head) for column in station)


def column_field(table: str, column: str) -> Field:
    """What a column takes."""
    return TABLES[table].headers[0].by_word[column]


def counted(job: Job, table: str, asked: Asked) -> Reading | Named | None:
    """What counts for a cell, None where it was not given, or where a part is a new one and it was not given since."""
    valve = asked_valve(job, asked)
    return None if valve is None else counted_of(valve, table, column_field(table, asked.column).to)


def counted_of(valve: Valve, table: str, attribute: str) -> Reading | Named | None:
    """What counts for a valve, by the attribute of the model."""
    found = {"measured": valve.measured, "cut": valve.cut, "finished": valve.finished}[table]
    value = getattr(found, attribute, None)
    if value is None and attribute == "leak":
        value = getattr(found, "leak_seconds", None)
    return value if isinstance(value, Reading | Named) else None


def asked_valve(job: Job, asked: Asked) -> Valve | None:
    """The valve that a cell is of."""
    head = asked_head(job, asked)
    return None if head is None else next((one for one in head.valves if one.name == asked.valve), None)


def asked_head(job: Job, asked: Asked) -> Head | None:
    """The head that a cell is of."""
    return job.heads[asked.head] if asked.head < len(job.heads) else None


def as_typed_by_a_gauge(typed: str) -> str:
    """What a gauge sent as a keyboard does, without the sign and the zeros in front that its display has: every digit
    that counts stays."""
    return "/".join(_LEADING.sub(lambda found: found[1] or "", part.strip()) for part in typed.split("/"))


def prompted(field: Field, unit: str) -> str:
    """What a cell prompted, in a word or two, for the prompt."""
    if field.choices:
        return ", ".join(field.choices)
    if field.form is Form.LEAK_FOUND:
        return "pass, fail or a time"
    if field.dimension is Dimension.LENGTH:
        return unit
    # Forces are never bare: the prompt shows how one is written.
    return "name" if field.dimension is None else f"as {field.example}"
