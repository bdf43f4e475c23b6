"""The stock over all jobs as programs get it.

`python -m seatwright.over_jobs.stock.document > grammar/stock.schema.json` renews its schema, which is made from the
records here.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Literal, get_args

from msgspec import UNSET, Struct, UnsetType, to_builtins

from seatwright.over_jobs.spreadsheets import csv_rows
from seatwright.over_jobs.stock.pieces import JobPieces
from seatwright.over_jobs.stock.shelves import Standing
from seatwright.over_jobs.stock.to_order import Ordering, OrderLine
from seatwright.text.forms import schema_of
from seatwright.text.showing import for_programs
from seatwright.told.plan_json import rounded
from seatwright.version import VERSION

StockForm = Literal["seatwright-stock/1"]

STOCK_COLUMNS = (
    "od_mm", "counted", "counted_on", "delivered", "used", "promised", "left", "short", "first_short_job",
    "first_short_due",
)  # fmt: skip
"""Of an insert, behind `shelf` and `insert`; of a guide, behind `shelf` and `guide`."""

ORDER_COLUMNS = (
    "line", "insert", "od_least_mm", "height_least_mm", "height_most_mm", "id_most_mm", "alloy", "pieces", "jobs",
)  # fmt: skip


class GoneEntry(Struct, frozen=True):
    """A piece that left the shelf since the count. day: absent where its section has none."""

    job: str
    file: str
    valve: str
    day: str | UnsetType = UNSET


class PromiseEntry(Struct, frozen=True):
    """What a job is promised: its valves that have a piece, and those that lack one."""

    job: str
    file: str
    has: list[str]
    lacks: list[str]
    due: str | UnsetType = UNSET


class PieceEntry(Struct, frozen=True):
    """A row of a shelf. kind: insert | guide. counted: at the end of that day; delivered: since; used: gone since;
    left: promised to nobody, below 0 where more are gone than there were. Absent: not counted, or on no day."""

    kind: str
    name: str
    delivered: int
    used: int
    promised: int
    short: int
    gone: list[GoneEntry]
    promises: list[PromiseEntry]
    od_mm: float | UnsetType = UNSET
    counted: int | UnsetType = UNSET
    counted_on: str | UnsetType = UNSET
    left: int | UnsetType = UNSET


class ShelfEntry(Struct, frozen=True):
    """A shop file, from the folder, and its inserts and guides in its own order."""

    shelf: str
    pieces: list[PieceEntry]


class ForEntry(Struct, frozen=True):
    """For which valves of a job a line of the order is."""

    job: str
    file: str
    valves: list[str]


class OrderEntry(Struct, frozen=True, rename={"for_": "for"}):
    """A line of the order: a listed insert or guide with its shelf; where none would serve, what one must be [mm]."""

    pieces: int
    alloys: list[str]
    for_: list[ForEntry]
    name: str | UnsetType = UNSET
    shelf: str | UnsetType = UNSET
    od_least_mm: float | UnsetType = UNSET
    height_least_mm: float | UnsetType = UNSET
    height_most_mm: float | UnsetType = UNSET
    id_most_mm: float | UnsetType = UNSET


class StockDocument(Struct, frozen=True):
    """The shelves of all jobs of a folder, and what to order. jobs: how many were read; left_out: those with errors.
    order_proved: no other order has fewer sizes."""

    format: StockForm
    made_by: str
    jobs: int
    left_out: list[str]
    shelves: list[ShelfEntry]
    order: list[OrderEntry]
    order_proved: bool


def as_json(stand: Sequence[Standing], jobs: Sequence[JobPieces], ordering: Ordering, left_out: Iterable[str]) -> str:
    """The document."""
    shelves = [
        ShelfEntry(shelf, [_piece(each) for each in rows])
        for shelf, rows in groupby(stand, key=lambda each: each.row.shelf)
    ]
    order = [_order(line) for line in ordering.lines]
    made_by = f"seatwright {VERSION}"
    whole = StockDocument(get_args(StockForm)[0], made_by, len(jobs), sorted(left_out), shelves, order, ordering.proved)
    return for_programs(to_builtins(whole))


def _piece(one: Standing) -> PieceEntry:
    row = one.row
    return PieceEntry(
        kind=row.kind,
        name=row.name,
        delivered=row.delivered,
        used=one.used,
        promised=one.promised,
        short=one.short,
        gone=[GoneEntry(job.number, job.file, piece.valve, _set(piece.day)) for job, piece in one.gone],
        promises=[
            PromiseEntry(each.job.number, each.job.file, list(each.gets), list(each.lacks), _set(each.job.due))
            for each in one.promises
        ],
        od_mm=_figure(row.od),
        counted=UNSET if row.counted is None else row.counted,
        counted_on=_set(row.counted_on),
        left=UNSET if one.left is None else one.left,
    )


def _order(line: OrderLine) -> OrderEntry:
    return OrderEntry(
        pieces=line.pieces,
        alloys=list(line.alloys),
        for_=[ForEntry(job.number, job.file, list(valves)) for job, valves in line.for_],
        name=UNSET if line.row is None else line.row.name,
        shelf=UNSET if line.row is None else line.row.shelf,
        od_least_mm=_figure(line.od),
        height_least_mm=_figure(line.height),
        height_most_mm=_figure(line.height_most),
        id_most_mm=_figure(line.id),
    )


def _set(text: str | None) -> str | UnsetType:
    return UNSET if text is None else text


def _figure(value: float | None) -> float | UnsetType:
    return UNSET if value is None else rounded(value)


def as_csv(stand: Sequence[Standing], ordering: Ordering) -> str:
    """Tables with an empty line between them: how each insert stands, each guide where there are any, what to order."""
    tables = []
    for kind in ("insert", "guide"):
        rows = [_stock_row(each) for each in stand if each.row.kind == kind]
        if rows or kind == "insert":
            tables.append(csv_rows([("shelf", kind, *STOCK_COLUMNS), *rows]))
    order = [_order_row(count, line) for count, line in enumerate(ordering.lines, 1)]
    return "\n".join([*tables, csv_rows([ORDER_COLUMNS, *order])])


def _stock_row(one: Standing) -> tuple[str | float | int | None, ...]:
    row = one.row
    first = next((each.job for each in one.promises if each.lacks), None)
    return (
        row.shelf, row.name, row.od, row.counted, row.counted_on, row.delivered, one.used, one.promised, one.left,
        one.short, None if first is None else first.number, None if first is None else first.due,
    )  # fmt: skip


def _order_row(count: int, line: OrderLine) -> tuple[str | float | int | None, ...]:
    jobs = " ".join(job.number for job, _ in line.for_)
    name = None if line.row is None else line.row.name
    sizes = line.od, line.height, line.height_most, line.id
    return count, name, *sizes, " ".join(each.replace(" ", "-") for each in line.alloys), line.pieces, jobs


def schema() -> str:
    """The JSON Schema of `stock --as json`."""
    return schema_of(StockDocument, get_args(StockForm)[0], "The shelves over all jobs: `seatwright stock --as json`")


if __name__ == "__main__":
    print(schema(), end="")
