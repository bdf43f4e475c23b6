"""The table over all jobs as it is written: CSV, TSV, JSON, Markdown.

`python -m seatwright.over_jobs.table.document > grammar/table.schema.json` renews the schema of its JSON, which is made
from the records here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, get_args

from msgspec import UNSET, Struct, UnsetType, to_builtins

from seatwright.over_jobs.spreadsheets import SheetCell, csv_rows, plain_decimal, tsv_rows
from seatwright.over_jobs.table.rows import OWN_COLUMNS, TableRow, TableValue, headings, units
from seatwright.text.forms import schema_of
from seatwright.text.showing import for_programs, visible
from seatwright.version import VERSION

TableForm = Literal["seatwright-table/1"]


class ColumnEntry(Struct, frozen=True):
    """A column: a path of plan.json. unit: of its figures (mm, inch, C, deg, …); absent where they have none."""

    path: str
    unit: str | UnsetType = UNSET


class ValveEntry(Struct, frozen=True):
    """A valve of a job. head: its name, else its number. figures: by path; what was not computed is absent."""

    job: str
    file: str
    head: str
    valve: str
    kind: str
    status: str
    figures: dict[str, float | int | str | bool | list[float | str]]
    received: str | UnsetType = UNSET
    due: str | UnsetType = UNSET


class TableDocument(Struct, frozen=True):
    """A row for each valve of each job of a folder. left_out: jobs with errors."""

    format: TableForm
    made_by: str
    columns: list[ColumnEntry]
    rows: list[ValveEntry]
    left_out: list[str]


def written_table(form: str, paths: Sequence[str], rows: Sequence[TableRow], left_out: Iterable[str]) -> str:
    """The table. form: csv | tsv | json | markdown"""
    match form:
        case "json":
            return _as_json(paths, rows, left_out)
        case "markdown":
            return _as_markdown(paths, rows)
        case "tsv":
            return tsv_rows(_sheet(paths, rows))
        case _:
            return csv_rows(_sheet(paths, rows))


def _sheet(paths: Sequence[str], rows: Sequence[TableRow]) -> Iterator[Sequence[SheetCell]]:
    yield (*OWN_COLUMNS, *headings(paths, rows))
    for row in rows:
        yield (*row.own, *(None if cell is None else _joined(cell.value) for cell in row.cells))


def _joined(value: TableValue) -> SheetCell:
    """Several of them joined by a blank."""
    if isinstance(value, list):
        return " ".join(plain_decimal(each) if isinstance(each, float) else str(each) for each in value)
    return value


def _as_markdown(paths: Sequence[str], rows: Sequence[TableRow]) -> str:
    head = [*OWN_COLUMNS, *headings(paths, rows)]
    lines = [head, ["---"] * len(head)]
    for row in rows:
        cells = ["" if cell is None else _words(_joined(cell.value)) for cell in row.cells]
        lines.append([*map(_words, row.own), *cells])
    return "".join(f"| {' | '.join(line)} |\n" for line in lines)


def _words(value: SheetCell) -> str:
    """A cell of a Markdown table, in which nothing is markup."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return plain_decimal(value)
    text = visible(str(value))
    return "".join(f"\\{each}" if each in "\\|*_`<>[]#&~" else each for each in text)


def _as_json(paths: Sequence[str], rows: Sequence[TableRow], left_out: Iterable[str]) -> str:
    columns = [ColumnEntry(path, unit or UNSET) for path, unit in zip(paths, units(paths, rows), strict=True)]
    entries = []
    for row in rows:
        figures = {path: cell.value for path, cell in zip(paths, row.cells, strict=True) if cell is not None}
        job, file, head, valve, kind, status, received, due = row.own
        entries.append(ValveEntry(job, file, head, valve, kind, status, figures, received or UNSET, due or UNSET))
    whole = TableDocument(get_args(TableForm)[0], f"seatwright {VERSION}", columns, entries, sorted(left_out))
    return for_programs(to_builtins(whole))


def schema() -> str:
    """The JSON Schema of `table --as json`."""
    return schema_of(TableDocument, get_args(TableForm)[0], "Figures of all jobs: `seatwright table --as json`")


if __name__ == "__main__":
    print(schema(), end="")
