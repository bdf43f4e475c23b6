"""The stock over all jobs as a person reads it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from seatwright.over_jobs.stock.pieces import JobPieces
from seatwright.over_jobs.stock.said import job_named
from seatwright.over_jobs.stock.shelves import Standing
from seatwright.over_jobs.stock.to_order import Ordering, OrderLine
from seatwright.planning.basis.wording import listed, not_over, not_under
from seatwright.text.showing import visible

_HEAD = ("od", "counted", "on", "delivered", "gone", "there", "promised", "left", "short")


def as_text(stand: Sequence[Standing], jobs: Sequence[JobPieces], ordering: Ordering) -> str:
    """A table a shelf, who is promised what, and what to order."""
    lines: list[str] = []
    for shelf, inserts in groupby(stand, key=lambda each: each.row.shelf):
        listed = list(inserts)
        lines.append(shelf)
        for kind in dict.fromkeys(each.row.kind for each in listed):
            lines += (f"  {line}" for line in _table(kind, [each for each in listed if each.row.kind == kind]))
        lines.append("")
    shelves = len({each.row.shelf for each in stand})
    promises = list(_promised(stand, shelves > 1))
    if promises:
        lines += ["promised, the job that is due first before the others", *(f"  {line}" for line in promises), ""]
    lines += _ordered(ordering)
    return "".join(f"{visible(line)}\n" for line in lines)


def _table(kind: str, inserts: Sequence[Standing]) -> list[str]:
    """The rows that say something: counted, gone or promised."""
    shown = [each for each in inserts if each.row.counted is not None or each.used or each.promised]
    rows = [(kind, *_HEAD), *(_row(each) for each in shown)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    quiet = len(inserts) - len(shown)
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]
    if not shown:
        lines = []
    if quiet:
        lines.append(f"{quiet} {kind}{'' if quiet == 1 else 's'} that nobody counted and no job takes")
    return lines


def _row(one: Standing) -> tuple[str, ...]:
    row = one.row
    counted = row.counted is not None
    return (
        row.name,
        row.od_typed or "-",
        str(row.counted) if counted else "-",
        row.counted_on or "-",
        str(row.delivered or "-"),
        str(one.used) if row.counted_on is not None else "-",
        str(one.there) if counted else "-",
        str(one.promised or "-"),
        str(one.left) if counted else "-",
        str(one.short or "-"),
    )


def _promised(stand: Sequence[Standing], with_shelf: bool) -> Iterator[str]:
    """A line each insert that is promised to anybody."""
    for each in stand:
        if each.promises:
            parts = []
            for one in each.promises:
                lacks = f", lacks {len(one.lacks)} for {' '.join(one.lacks)}" if one.lacks else ""
                has = f" {' '.join(one.gets)}" if one.gets else ""
                parts.append(f"{job_named(one.job, due=True)}{has}{lacks}")
            shelf = f" ({each.row.shelf})" if with_shelf else ""
            yield f"{each.row.name}{shelf}: {'; '.join(parts)}"


def _ordered(ordering: Ordering) -> Iterator[str]:
    if not ordering.lines:
        yield "Nothing is to be ordered."
        return
    yield "to order"
    for line in ordering.lines:
        jobs = listed(f"{job_named(job)} {' '.join(valves)}" for job, valves in line.for_)
        yield f"  {line.pieces} × {_named(line)}, for {jobs}"


def _named(line: OrderLine) -> str:
    """The row with its shelf; else what one must be, in the units of the jobs that want it."""
    if line.row is not None:
        return f"{line.row.name} ({line.row.shelf})"
    job = next((job for job, _ in line.for_ if job.units != "inch"), line.for_[0][0])
    parts = [f"od {not_under(job, line.od)} at least"] if line.od is not None else []
    if line.height is not None:
        parts.append(f"height {not_under(job, line.height)} at least")
    if line.height_most is not None:
        parts.append(f"height {not_over(job, line.height_most)} at most")
    if line.id is not None:
        parts.append(f"hole {not_over(job, line.id)} at most")
    if line.alloys:
        parts.append(f"of {listed(line.alloys, 'or')}")
    return f"an insert: {', '.join(parts)}" if parts else "an insert"
