"""Whose interference counts for a valve and an insert (handbook 4 and 5; language, `interference`).

In this order: of the maker's size that the insert is of its own, or his bore with his od; `interference`; the maker's
bore with the od of an insert that the job names; the shop's table; the span of published tables that is built in,
with a notice.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import fits as sums
from seatwright.handbook import interference_table as table
from seatwright.job.model import Head, InterferenceLine, Job, Limits, PocketSize
from seatwright.planning.basis.wording import name_key
from seatwright.planning.plan import Interference, Started
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_SOURCE = "handbook 5"
_BUILT_IN = tuple(replace(row, head=name_key(row.head)) for row in table.BUILT_IN)


class FitLimits(Struct, frozen=True, cache_hash=True):
    """Diametral limits of a fit. source: whose figures they are. built_in: nobody gave them for this job or shop."""

    least: Figure
    most: Figure
    source: str
    built_in: bool = False

    def interference(self) -> Interference:
        """As the plan holds it, the aim in the middle."""
        aim = (self.least.value + self.most.value) / 2
        middle = computed("I_aim", "mm", aim, "(I_least + I_most)/2", (self.least, self.most), _SOURCE)
        return Interference(self.least, self.most, middle, self.source)


def fit_limits(
    job: Job,
    head: Head,
    plan: Started,
    alloy: str | None,
    od: float,
    named: tuple[Figure, Figure] | None = None,
    size: PocketSize | None = None,
) -> FitLimits | None:
    """The limits of the fit for a valve and an insert; None where nobody gives any.

    A size of the maker's has its own, or that which its od and bore make; else that of `interference` counts, else that
    which the od of an insert that the job names makes with the maker's bore, else the shop's.

    alloy, od : of the insert, by which a table's row is found (od [mm] at 20 °C)
    named : od limits of an insert that the job names, which stand for a missing `insert-od` beside the maker's `bore`
    size : the maker's size that the insert is of
    """
    spec = plan.valve.specification
    if size is not None:
        own = None if size.interference is None else given_limits(size.interference)
        own = own or (None if size.insert_od is None else _makers(size, None))
        if own is not None:
            return own
    if spec.interference is not None:
        return given_limits(spec.interference)
    if size is not None:
        makers = _makers(size, named)
        if makers is not None:
            return makers
    if head.material is None:
        return None
    known = _known(job.shop.interference)
    place = _place(known, name_key(head.material.name), alloy, plan.kind, od)
    if place is not None:
        if place not in known.limits:
            known.limits[place] = row_limits(known.listed[place])
        return known.limits[place]
    return _built_in(name_key(head.material.name), alloy, plan.kind, od)


def shop_row(
    listed: tuple[InterferenceLine, ...], head: str, alloy: str | None, seat: str, od: float
) -> InterferenceLine | None:
    """The shop's row that counts: the one with the fewest `any`; None where two count alike.

    seat : of an insert; of a guide its kind
    """
    place = _place(_known(listed), head, alloy, seat, od)
    return None if place is None else listed[place]


class _Known(Struct):
    """The rows of a shop as the formula takes them, the places of those that were asked for, and their limits: every
    valve asks for those of each insert of a long shelf."""

    listed: tuple[InterferenceLine, ...]
    rows: tuple[table.InterferenceRow, ...]
    asked: dict[tuple[str, str | None, str], tuple[table.InterferenceRow, ...]]
    places: dict[tuple[str, str | None, str, float], int | None]
    limits: dict[int, FitLimits]


def _place(known: _Known, head: str, alloy: str | None, seat: str, od: float) -> int | None:
    asked = (head, alloy, seat, od)
    if asked not in known.places:
        rows = known.asked.get(asked[:3])
        if rows is None:
            rows = table.rows_for(known.rows, head, "" if alloy is None else name_key(alloy), seat)
            known.asked[asked[:3]] = rows
        found = _find(rows, head, alloy, seat, od)
        known.places[asked] = None if found is None else next(at for at, row in enumerate(known.rows) if row is found)
    return known.places[asked]


def _known(listed: tuple[InterferenceLine, ...]) -> _Known:
    for known in _LATEST:
        if known.listed is listed:
            return known
    made = _Known(listed, tuple(_plain(row) for row in listed), {}, {}, {})
    _LATEST[:] = [made, *_LATEST[:1]]
    return made


_LATEST: list[_Known] = []


def _plain(row: InterferenceLine) -> table.InterferenceRow:
    return table.InterferenceRow(
        name_key(row.head),
        name_key(row.alloy),
        name_key(row.seat),
        None if row.over is None else row.over.value,
        None if row.to is None else row.to.value,
        row.least.value,
        row.most.value,
        row.source,
    )


def _find(
    rows: tuple[table.InterferenceRow, ...], head: str, alloy: str | None, seat: str, od: float
) -> table.InterferenceRow | None:
    try:
        return table.find_row(rows, head, "" if alloy is None else name_key(alloy), seat, od)
    except ValueError:
        # One row names the alloy, the other the seat: neither is nearer, so neither is taken.
        return None


def row_limits(row: InterferenceLine) -> FitLimits:
    """The limits of a row, with whose figures they are."""
    least = given("I_least", "mm", replace(row.least, source=row.source))
    most = given("I_most", "mm", replace(row.most, source=row.source))
    return FitLimits(least, most, row.source)


def _built_in(head: str, alloy: str | None, seat: str, od: float) -> FitLimits | None:
    row = _find(_BUILT_IN, head, alloy, seat, od)
    if row is None:
        return None
    least, most = assumed("I_least", "mm", row.least, row.source), assumed("I_most", "mm", row.most, row.source)
    return FitLimits(least, most, row.source, built_in=True)


def given_limits(limits: Limits) -> FitLimits | None:
    """Limits that the job gives itself."""
    if limits.least is None or limits.most is None:
        return None
    least, most = given("I_least", "mm", limits.least), given("I_most", "mm", limits.most)
    return FitLimits(least, most, limits.source or "the job")


def _makers(size: PocketSize, named: tuple[Figure, Figure] | None) -> FitLimits | None:
    bore, insert_od = size.bore, size.insert_od
    if bore is None or bore.least is None or bore.most is None:
        return None
    if insert_od is not None and insert_od.least is not None and insert_od.most is not None:
        od = (given("maker_od_least", "mm", insert_od.least), given("maker_od_most", "mm", insert_od.most))
    elif named is not None:
        od = named
    else:
        return None
    bore_least, bore_most = given("maker_bore_least", "mm", bore.least), given("maker_bore_most", "mm", bore.most)
    least, most = sums.interference_from(od[0].value, od[1].value, bore_least.value, bore_most.value)
    return FitLimits(
        computed("I_least", "mm", least, f"{od[0].symbol} - maker_bore_most", (od[0], bore_most), _SOURCE),
        computed("I_most", "mm", most, f"{od[1].symbol} - maker_bore_least", (od[1], bore_least), _SOURCE),
        bore.source or "the maker's bore",
    )
