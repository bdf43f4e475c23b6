"""What is to be ordered, with the fewest different sizes."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.over_jobs.serving import serving_key
from seatwright.over_jobs.stock.fewest_sizes import fewest_sizes
from seatwright.over_jobs.stock.pieces import JobPieces, OnShelf, ShelfRow, WantedInsert
from seatwright.over_jobs.stock.shelves import Standing

ONE_LINE = 0.10
"""Ods that two needs share a line of an order for, apart at most [mm]; in a job in inches .004 in."""

ONE_LINE_INCH = 0.1016

_NM = 1_000_000


class OrderLine(Struct, frozen=True):
    """A line of the order. row: the listed insert; None: none would serve, and od, height (least, most), id and alloys
    say what would [mm]. for_: jobs and their valves, a piece each."""

    row: ShelfRow | None
    od: float | None
    height: float | None
    height_most: float | None
    id: float | None
    alloys: tuple[str, ...]
    for_: tuple[tuple[JobPieces, tuple[str, ...]], ...]

    @property
    def pieces(self) -> int:
        """How many."""
        return sum(len(valves) for _, valves in self.for_)


class Ordering(Struct, frozen=True):
    """The whole order. proved: no other has fewer sizes."""

    lines: tuple[OrderLine, ...]
    proved: bool


class _Need(Struct, frozen=True):
    """A valve without a piece, and the rows that serve it."""

    job: JobPieces
    valve: str
    serve: tuple[OnShelf, ...]


def ordering_of(stand: Sequence[Standing], jobs: Sequence[JobPieces]) -> Ordering:
    """What is short by name, what valves on hold can take of the rows of their shelves, and what none of them serves.

    An insert that is short anyway serves a valve on hold as well, where it can, before another size is ordered.
    """
    jobs = sorted(jobs, key=lambda job: serving_key(job.due, job.received, job.number, job.file))
    rows = [each.row for each in stand]
    place = {row.place: at for at, row in enumerate(rows)}
    needs = [
        _Need(promise.job, valve, (each.row.place,))
        for each in stand
        for promise in each.promises
        for valve in promise.lacks
    ]
    needs += [_Need(job, want.valve, want.serve) for job in jobs for want in job.wanted if want.serve]
    costs = [0 if row.od is None else round(row.od * _NM) for row in rows]
    taken, proved = fewest_sizes([[place[each] for each in need.serve] for need in needs], costs)
    lines = []
    for at in sorted(set(taken)):
        of_row = [need for need, row in zip(needs, taken, strict=True) if row == at]
        lines.append(
            OrderLine(rows[at], None, None, None, None, (), _by_job([(each.job, each.valve) for each in of_row]))
        )
    return Ordering((*lines, *_by_size(jobs)), proved)


def _by_size(jobs: Sequence[JobPieces]) -> list[OrderLine]:
    """One line for needs of the same alloys whose ods are near enough and whose heights have one in common."""
    unserved = [(job, want) for job in jobs for want in job.wanted if not want.serve]
    unserved.sort(key=lambda each: (each[1].alloys, each[1].od is None, each[1].od or 0.0))
    lines: list[OrderLine] = []
    for job, want in unserved:
        shared = _shared(lines[-1], job, want) if lines else None
        if shared is None:
            sizes = want.od, want.height, want.height_most, want.id, want.alloys
            lines.append(OrderLine(None, *sizes, ((job, (want.valve,)),)))
        else:
            lines[-1] = shared
    return lines


def _shared(line: OrderLine, job: JobPieces, want: WantedInsert) -> OrderLine | None:
    """The line with one more need in it; None where they do not go together."""
    reach = ONE_LINE_INCH if job.units == "inch" and all(each.units == "inch" for each, _ in line.for_) else ONE_LINE
    if line.alloys != want.alloys or (line.od is None) is not (want.od is None):
        return None
    # Sorted by od: the first of the line is its smallest.
    smallest = min((each.od for of_job, valves in line.for_ for each in of_job.wanted
                    if each.valve in valves and each.od is not None), default=None)  # fmt: skip
    if smallest is not None and want.od is not None and want.od - smallest > reach + 1e-9:
        return None
    height = _larger(line.height, want.height)
    height_most = _smaller(line.height_most, want.height_most)
    if height is not None and height_most is not None and height > height_most:
        return None
    members = [(each, valve) for each, valves in line.for_ for valve in valves]
    return OrderLine(
        None,
        _larger(line.od, want.od),
        height,
        height_most,
        _smaller(line.id, want.id),
        line.alloys,
        _by_job([*members, (job, want.valve)]),
    )


def _larger(one: float | None, other: float | None) -> float | None:
    return max((each for each in (one, other) if each is not None), default=None)


def _smaller(one: float | None, other: float | None) -> float | None:
    return min((each for each in (one, other) if each is not None), default=None)


def _by_job(members: Sequence[tuple[JobPieces, str]]) -> tuple[tuple[JobPieces, tuple[str, ...]], ...]:
    found: dict[str, tuple[JobPieces, list[str]]] = {}
    for job, valve in members:
        found.setdefault(job.file, (job, []))[1].append(valve)
    return tuple((job, tuple(valves)) for job, valves in found.values())
