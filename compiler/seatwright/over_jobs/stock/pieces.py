"""What one job takes, or wants, from the shelves: read off its plan, which can then be let go."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from msgspec import Struct

from seatwright.job.model import Insert, Job, StockGuide
from seatwright.planning.basis.wording import name_key, said
from seatwright.planning.plan import Order, Plan, Status, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.planning.serves.offers import stock_offers
from seatwright.text import Span

_FOR_WANT_OF_AN_INSERT = ("no-insert-fits", "no-makers-insert", "stock-short", "none-on-hand")

OnShelf = tuple[str, str, str]
"""A shelf, `insert` or `guide`, and which of them, by the key of its name."""


class ShelfRow(Struct, frozen=True):
    """A row of a shelf, as its file tells of it.

    shelf: the shop file, as seen from the folder. kind: insert | guide. order: where it stands in that file. counted:
    pieces at the latest count; counted_on: the end of that day, None where nobody dated it. delivered: since then.
    """

    shelf: str
    kind: str
    name: str
    order: int
    span: Span
    od: float | None
    od_typed: str
    counted: int | None
    counted_on: str | None
    delivered: int

    @property
    def place(self) -> OnShelf:
        """By which it is known."""
        return self.shelf, self.kind, name_key(self.name)


class TakenPiece(Struct, frozen=True):
    """A piece that a valve has, or is promised. left: it is off the shelf; day: since when, None where not dated."""

    valve: str
    place: OnShelf
    span: Span
    left: bool = False
    day: str | None = None


class WantedInsert(Struct, frozen=True):
    """What a valve that is on hold for want of an insert, or of a guide, wants. serve: the rows that would do, whatever
    is on hand; () for none: then what is to be ordered [mm], None for what is not known."""

    valve: str
    span: Span
    serve: tuple[OnShelf, ...]
    od: float | None
    height: float | None
    height_most: float | None
    id: float | None
    alloys: tuple[str, ...]


class JobPieces(Struct, frozen=True):
    """A job and its pieces. file: as seen from the folder."""

    number: str
    file: str
    due: str | None
    received: str | None
    units: str
    listed: tuple[ShelfRow, ...]
    pieces: tuple[TakenPiece, ...]
    wanted: tuple[WantedInsert, ...]


def pieces_of(plan: Plan, file: str, shelves: Mapping[str, str], seen: Callable[[Span], Span]) -> JobPieces:
    """The pieces of a job.

    file : the job, as seen from the folder
    shelves : each shop file as the job names it, and as it is seen from the folder
    seen : a place in a file as it is seen from where the command runs
    """
    job = plan.job
    rows = {name_key(insert.name.text): insert for insert in job.shop.inserts}
    return JobPieces(
        number=job.number,
        file=file,
        due=None if job.due is None else job.due.text,
        received=None if job.received is None else job.received.text,
        units=job.units,
        listed=tuple(_listed(job, shelves, seen)),
        pieces=(*_taken(plan, rows, shelves, seen), *_guides_taken(plan, shelves, seen)),
        wanted=(*_wanted(plan, rows, shelves, seen), *_guides_wanted(plan, shelves, seen)),
    )


def _listed(job: Job, shelves: Mapping[str, str], seen: Callable[[Span], Span]) -> Iterator[ShelfRow]:
    ods = {offer.stock: offer.od.value for offer in stock_offers(job)}
    for place, insert in enumerate(job.shop.inserts):
        yield _row(job, "insert", insert, ods.get(place), shelves, seen)
    for guide in job.shop.guides:
        limits = (guide.od_least, guide.od_most)
        values = [each.value for each in ((guide.od,) if guide.od is not None else limits) if each is not None]
        yield _row(job, "guide", guide, sum(values) / len(values) if values else None, shelves, seen)


def _row(
    job: Job,
    kind: str,
    item: Insert | StockGuide,
    od: float | None,
    shelves: Mapping[str, str],
    seen: Callable[[Span], Span],
) -> ShelfRow:
    counted, typed = item.counted, item.od or item.od_least or item.od_most
    return ShelfRow(
        shelf=shelves[item.shelf],
        kind=kind,
        name=item.name.text,
        order=item.name.span.line,
        span=seen(item.name.span),
        od=od,
        od_typed=said(job, typed) if typed is not None else "",
        counted=None if counted is None else round(counted.count.value),
        counted_on=None if counted is None else counted.date,
        delivered=item.delivered,
    )


def _taken(
    plan: Plan, rows: Mapping[str, Insert], shelves: Mapping[str, str], seen: Callable[[Span], Span]
) -> Iterator[TakenPiece]:
    """The pieces of all valves that get an insert off a shelf. One on hold takes none, unless it is finished."""
    for valve in plan.valves:
        insert = None if valve.turned or not valve.gets_insert else rows.get(name_key(_goes_in(valve) or ""))
        if insert is None or (valve.status is Status.HOLD and valve.finished is None):
            continue
        place = shelves[insert.shelf], "insert", name_key(insert.name.text)
        left = valve.valve.left_shelf
        if left is None or valve.status is Status.OVERSIZE:
            # The bore has outgrown the ring it was cut for: the larger one is still to be fetched.
            yield TakenPiece(valve.name, place, seen(valve.valve.span))
        else:
            yield TakenPiece(valve.name, place, seen(left.span), True, left.date)


def _guides_taken(plan: Plan, shelves: Mapping[str, str], seen: Callable[[Span], Span]) -> Iterator[TakenPiece]:
    """The guides and liners of all valves that get one; they are gone on the day on which they were renewed."""
    listed = {name_key(guide.name.text): guide for guide in plan.job.shop.guides}
    for valve in plan.valves:
        guide = listed.get(name_key(valve.guide.name or ""))
        left = valve.valve.guide_left_shelf
        if guide is None or (left is None and valve.status is Status.HOLD):
            continue
        place = shelves[guide.shelf], "guide", name_key(guide.name.text)
        if left is None:
            yield TakenPiece(valve.name, place, seen(valve.valve.span))
        else:
            yield TakenPiece(valve.name, place, seen(left.span), True, left.date)


def _goes_in(valve: ValvePlan) -> str | None:
    if valve.status is Status.OVERSIZE and valve.next is not None:
        return valve.next.insert
    return None if valve.insert is None else valve.insert.name


def _wanted(
    plan: Plan, rows: Mapping[str, Insert], shelves: Mapping[str, str], seen: Callable[[Span], Span]
) -> Iterator[WantedInsert]:
    for valve in plan.valves:
        order = valve.order
        if order is None or not any(hold.slug in _FOR_WANT_OF_AN_INSERT for hold in valve.holds):
            continue
        listed = [rows[name_key(name)] for name in order.serves]
        yield WantedInsert(
            valve.name,
            seen(valve.valve.span),
            tuple((shelves[insert.shelf], "insert", name_key(insert.name.text)) for insert in listed),
            *_sizes(order),
            order.alloy,
        )


def _guides_wanted(plan: Plan, shelves: Mapping[str, str], seen: Callable[[Span], Span]) -> Iterator[WantedInsert]:
    """Valves on hold for a guide that is listed and not there; what no listed one serves is told by their hold."""
    listed = {name_key(guide.name.text): guide for guide in plan.job.shop.guides}
    for valve in plan.valves:
        if valve.guide.serves and valve.status is Status.HOLD:
            serve = tuple(
                (shelves[listed[name_key(each)].shelf], "guide", name_key(each)) for each in valve.guide.serves
            )
            yield WantedInsert(valve.name, seen(valve.valve.span), serve, None, None, None, None, ())


def _sizes(order: Order) -> tuple[float | None, float | None, float | None, float | None]:
    return _value(order.od), _value(order.height), _value(order.height_most), _value(order.id)


def _value(figure: Figure | None) -> float | None:
    return None if figure is None else figure.value
