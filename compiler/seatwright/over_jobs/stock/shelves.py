"""What lies on the shelves, what is gone since it was counted, and who is promised the rest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct

from seatwright.over_jobs.serving import serving_key
from seatwright.over_jobs.stock.pieces import JobPieces, OnShelf, ShelfRow, TakenPiece


class Promise(Struct, frozen=True):
    """What a job is promised of one insert. gets, lacks: its valves that have a piece, and those that have none."""

    job: JobPieces
    gets: tuple[str, ...]
    lacks: tuple[str, ...]


class Standing(Struct, frozen=True):
    """How one insert stands.

    gone: pieces that left the shelf since the count, with their jobs. promises: in the order in which jobs are served.
    """

    row: ShelfRow
    gone: tuple[tuple[JobPieces, TakenPiece], ...]
    promises: tuple[Promise, ...]

    @property
    def used(self) -> int:
        """Pieces that left the shelf since the count."""
        return len(self.gone)

    @property
    def there(self) -> int | None:
        """Pieces that should lie there now; None: nobody counted."""
        return None if self.row.counted is None else self.row.counted + self.row.delivered - self.used

    @property
    def promised(self) -> int:
        """Pieces that valves still to be bored, or to be pressed, are to have."""
        return sum(len(each.gets) + len(each.lacks) for each in self.promises)

    @property
    def short(self) -> int:
        """Pieces that are promised and not there."""
        return sum(len(each.lacks) for each in self.promises)

    @property
    def left(self) -> int | None:
        """Pieces that nobody is promised; below 0 where more are gone than there were."""
        return None if self.there is None else self.there - (self.promised - self.short)


def standings(jobs: Iterable[JobPieces]) -> tuple[Standing, ...]:
    """Every insert of every shelf that a job uses, shelf by shelf in the order of its file."""
    served = sorted(jobs, key=lambda job: serving_key(job.due, job.received, job.number, job.file))
    listed: dict[OnShelf, ShelfRow] = {}
    for job in served:
        for row in job.listed:
            listed.setdefault(row.place, row)
    gone: dict[OnShelf, list[tuple[JobPieces, TakenPiece]]] = {}
    promised: dict[OnShelf, list[tuple[JobPieces, list[TakenPiece]]]] = {}
    for job in served:
        for place, pieces in _by_place(job.pieces).items():
            gone.setdefault(place, []).extend((job, piece) for piece in pieces if _counted_down(piece, listed[place]))
            if waiting := [piece for piece in pieces if not piece.left]:
                promised.setdefault(place, []).append((job, waiting))
    rows = sorted(listed.values(), key=lambda row: (row.shelf, row.order))
    return tuple(_standing(row, gone.get(row.place, ()), promised.get(row.place, ())) for row in rows)


def _counted_down(piece: TakenPiece, row: ShelfRow) -> bool:
    """Whether a piece is to be taken off the count: it is gone, and was not missing already when they were counted. Of
    a count without a date nobody can tell, and nothing is counted down."""
    if not piece.left or row.counted_on is None:
        return False
    return piece.day is None or piece.day > row.counted_on


def _by_place(pieces: Sequence[TakenPiece]) -> Mapping[OnShelf, list[TakenPiece]]:
    found: dict[OnShelf, list[TakenPiece]] = {}
    for piece in pieces:
        found.setdefault(piece.place, []).append(piece)
    return found


def _standing(
    row: ShelfRow,
    gone: Sequence[tuple[JobPieces, TakenPiece]],
    promised: Sequence[tuple[JobPieces, list[TakenPiece]]],
) -> Standing:
    standing = Standing(row, tuple(gone), ())
    return Standing(row, tuple(gone), tuple(_promises(standing.there, promised)))


def _promises(there: int | None, promised: Sequence[tuple[JobPieces, list[TakenPiece]]]) -> Iterator[Promise]:
    """One job after another, as long as there are pieces; without end where nobody counted."""
    left = there
    for job, pieces in promised:
        names = tuple(piece.valve for piece in pieces)
        count = len(names) if left is None else min(max(left, 0), len(names))
        left = None if left is None else left - count
        yield Promise(job, names[:count], names[count:])
