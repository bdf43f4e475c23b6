"""A row for each valve of a job: who it is, and the figures that were asked for, read off the plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from enum import Enum
from functools import cache

from msgspec import Struct

from seatwright.handbook import MM_PER_INCH
from seatwright.job.model import Head
from seatwright.planning.plan import Plan, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.told.plan_json import found_in_json, in_json, rounded

OWN_COLUMNS = ("job", "file", "head", "valve", "kind", "status", "received", "due")
"""What every row says first."""

_NO_LENGTHS = {"temperature_C": "C", "spring_force": "N"}
"""Of what is measured, what is no length, and its unit."""

TableValue = float | int | str | bool | list[float | str]
"""A figure, a word, or several of them."""


class TableCell(Struct, frozen=True):
    """What a plan has at a path, and its unit, "" where it has none."""

    value: TableValue
    unit: str


class TableRow(Struct, frozen=True):
    """A valve. own: as OWN_COLUMNS, "" for what is not given; cells: by path, None where nothing was computed."""

    own: tuple[str, ...]
    cells: tuple[TableCell | None, ...]


def table_rows(plan: Plan, file: str, paths: Sequence[str], inch: bool) -> tuple[TableRow, ...]:
    """The valves of a job in their order. file: as seen from the folder; inch: lengths in inches, else in mm."""
    job = plan.job
    heads = {head.number: head for head in plan.heads}
    received, due = ("" if each is None else each.text for each in (job.received, job.due))
    split = [tuple(path.split(".")) for path in paths]
    any_read = any(path[0] == "found" for path in split)
    at = {head.number: head.temperature for head in plan.heads}
    read = {each.name: found_in_json(each, at[each.head]) if any_read else {} for each in plan.valves}
    return tuple(
        TableRow(
            (job.number, file, _head(heads[valve.head]), valve.name, valve.kind, valve.status.value, received, due),
            tuple(_cell(valve, read[valve.name], path, inch) for path in split),
        )
        for valve in plan.valves
    )


def _head(head: Head) -> str:
    return head.name or str(head.number)


def _cell(valve: ValvePlan, read: Mapping[str, object], path: tuple[str, ...], inch: bool) -> TableCell | None:
    """What a valve has at a path. read: the cells of its `measured`, as plan.json has them"""
    if path == ("holds",):
        return TableCell([hold.slug for hold in valve.holds], "") if valve.holds else None
    if path[0] == "found":
        return _read(read.get(path[1]), path[1], inch)
    part: object = valve
    for step in path:
        part = _step(part, step)
        if part is None:
            return None
    return _of(part, inch)


def _read(value: object, column: str, inch: bool) -> TableCell | None:
    if isinstance(value, float):
        return _measure(value, _NO_LENGTHS.get(column, "mm"), inch)
    return TableCell(value, "") if isinstance(value, str) else None


def _step(part: object, step: str) -> object:
    """One step of a path: a field of a record, or one of several records by its name or its number."""
    if isinstance(part, tuple):
        if part and isinstance(part[0], tuple):
            return dict(part).get(step)
        named = [each for each in part if getattr(each, "name", None) == step]
        numbered = [each for number, each in enumerate(part, 1) if str(number) == step]
        return next(iter((*named, *numbered)), None)
    attribute = _attributes(type(part)).get(step) if isinstance(part, Struct) else None
    return None if attribute is None else getattr(part, attribute)


@cache
def _attributes(record: type[Struct]) -> dict[str, str]:
    return {in_json(field): field for field in record.__struct_fields__}


def _of(part: object, inch: bool) -> TableCell | None:
    if isinstance(part, tuple):
        cells = [each for each in (_of(one, inch) for one in part) if each is not None]
        values = [each.value for each in cells]
        return TableCell(values, cells[0].unit) if cells else None  # type: ignore[arg-type]
    if isinstance(part, Figure):
        return _measure(part.value, part.unit, inch)
    if isinstance(part, Enum):
        return TableCell(str(part.value), "")
    return TableCell(part, "") if isinstance(part, str | int | float) else None


def _measure(value: float, unit: str, inch: bool) -> TableCell:
    if unit == "mm" and inch:
        return TableCell(rounded(value / MM_PER_INCH), "inch")
    return TableCell(rounded(value), "" if unit == "1" else unit)


def headings(paths: Sequence[str], rows: Sequence[TableRow]) -> Iterator[str]:
    """Each path with the unit of its figures, `bore.aim [mm]`."""
    for path, unit in zip(paths, units(paths, rows), strict=True):
        yield f"{path} [{unit}]" if unit else path


def units(paths: Sequence[str], rows: Sequence[TableRow]) -> list[str]:
    """The unit of each path, "" where its figures have none, or no valve has any."""
    found = [""] * len(paths)
    for row in rows:
        for at, cell in enumerate(row.cells):
            if cell is not None and not found[at]:
                found[at] = cell.unit
    return found


def filled_columns(asked: Sequence[str], paths: Sequence[str], rows: Sequence[TableRow]) -> list[int]:
    """The places of the columns to be shown: those that were asked for by their whole path, and of those below one
    that was asked for the ones that any valve has."""
    return [at for at, path in enumerate(paths) if path in asked or any(row.cells[at] is not None for row in rows)]
