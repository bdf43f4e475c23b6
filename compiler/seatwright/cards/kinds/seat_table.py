"""The table of a seat card: a row for each valve on its seat; and what a cut that goes deeper moves."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from seatwright.cards.card import CardTable, Column
from seatwright.cards.escape import Markdown
from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import as_read, digits_shown
from seatwright.cards.parts.words import NONE, blank, wanted
from seatwright.job.model import Finished, Head, Job, Reading
from seatwright.planning.basis import instruments
from seatwright.planning.plan import HeightLimits, SeatCut, SeatPlan, ValvePlan
from seatwright.planning.plan.figure import Figure

# A cut that goes so much deeper along the stem, as it is spoken of; plan.json has what 0.10 mm moves, and an inch
# moves as much for its hundredth as a millimetre for its tenth, ten times less.
_DEEPER = {"mm": ("0.10", 1.0), "in": ("0.010", 0.1)}
_MOVE_DECIMALS = {"mm": 2, "in": 3}

_Row = tuple[ValvePlan, SeatPlan, Finished]
_Height = tuple[Reading | None, HeightLimits | None, Figure | None, Reading | None]  # found, limits, after, measured


def moved(job: Job, cut: SeatCut) -> str:
    """`0.10 deeper: outside 0.47 in.` Deeper along the stem, edges on diameter."""
    if cut.deeper_0_1 is None:
        return ""
    parts = [
        f"{edge} {_moved(job, by)} {'out' if by.value > 0 else 'in'}"
        for edge, by in (("outside", cut.deeper_0_1.outer), ("inside", cut.deeper_0_1.inner))
        if by is not None
    ]
    return f"{_DEEPER[instruments.job_unit(job)][0]} deeper: {', '.join(parts)}." if parts else ""


def _moved(job: Job, by: Figure) -> str:
    unit = instruments.job_unit(job)
    return f"{abs(by.value) * _DEEPER[unit][1]:.{_MOVE_DECIMALS[unit]}f}"


def seat_table(job: Job, head: Head, group: Sequence[ValvePlan], number: int, *, springs_apart: bool) -> CardTable:
    """Valve by valve: recession, stem and spring as found, cut by, wanted and measured; gauge depth, runout, width,
    contact, leak. What has no limit and no figure has no column; what was measured already stands in its cell.

    springs_apart: they have a table of their own.
    """
    rows = [(valve, valve.seat or SeatPlan(), valve.valve.finished or Finished()) for valve in group]
    made: list[tuple[Column, Callable[[_Row], str]]] = []
    if any(valve.pilot is not None and valve.pilot.name for valve in group):
        made.append((Column("Pilot", "", 19), lambda row: (row[0].pilot.name if row[0].pilot else None) or NONE))
    made += _recession(job, head, rows)
    if any(seat.gauge_depth is not None for _, seat, _ in rows):
        made.append((Column("Gauge", "depth", 16), lambda row: _length(job, row[1].gauge_depth)))
    made += _height(job, rows, "Stem", _stem)
    made += [] if springs_apart else _height(job, rows, "Spring", _spring)
    made += _tests(job, rows)
    columns = (Column("Valve", "", 15), *(column for column, _ in made))
    return CardTable(
        columns,
        tuple((row[0].name, *(cell(row) for _, cell in made)) for row in rows),
        f"Valve on its seat, clean and dry; {'inch' if instruments.job_unit(job) == 'in' else 'mm'}",
        number,
    )


def _recession(job: Job, head: Head, rows: Sequence[_Row]) -> list[tuple[Column, Callable[[_Row], str]]]:
    if not any(seat.recession is not None for _, seat, _ in rows):
        return []
    aims = {_length(job, seat.recession.aim if seat.recession is not None else None) for _, seat, _ in rows}
    made: list[tuple[Column, Callable[[_Row], str]]] = [
        (Column("Recession", "found", 24), lambda row: as_read(job, row[0].found.recession) or NONE)
    ]
    if head.skim is not None and head.skim.when != "before-measuring":
        skim = as_read(job, head.skim.amount)
        made.append((Column("deck", "off", 14), lambda row: f"−{skim}"))
    made.append((Column("change", "", 18), lambda row: _signed(job, row[1].sink)))
    if len(aims) > 1:
        made.append(
            (Column("aim", "", 14), lambda row: _length(job, row[1].recession.aim if row[1].recession else None))
        )
    return [*made, _measured(job, rows, "measured", lambda row: (row[1].recession, row[2].recession))]


def _height(
    job: Job,
    rows: Sequence[_Row],
    name: str,
    of: Callable[[_Row], _Height],
) -> list[tuple[Column, Callable[[_Row], str]]]:
    """Stem or spring: it moves with the seat."""
    if not any(wanted(job, of(row)[1]) for row in rows):
        return []

    def comes_to(row: _Row) -> str:
        found, _, after, _ = of(row)
        read = as_read(job, found) or NONE
        return Markdown("{} *to {}*").format(read, _length(job, after)) if after is not None else read

    return [
        (Column(name, "found, comes to", 20), comes_to),
        _measured(job, rows, "measured", lambda row: (of(row)[1], of(row)[3])),
    ]


def _stem(row: _Row) -> _Height:
    return row[0].found.stem_height, row[1].stem, row[1].stem_after, row[2].stem_height


def _spring(row: _Row) -> _Height:
    return row[0].found.spring_height, row[1].spring, row[1].spring_after, row[2].spring_height


def _measured(
    job: Job, rows: Sequence[_Row], name: str, of: Callable[[_Row], tuple[HeightLimits | None, Reading | None]]
) -> tuple[Column, Callable[[_Row], str]]:
    """A cell to write in, its limits in the head where they are the same for all, else in the cell."""
    each = {wanted(job, of(row)[0]) for row in rows}
    same = each.pop() if len(each) == 1 else None

    def cell(row: _Row) -> str:
        limits, read = of(row)
        if read is not None:
            return as_read(job, read)
        if same is not None:
            return blank()
        return Markdown("*{}* {}").format(wanted(job, limits) or "no limit", blank())

    return Column(name, same or ("no limit given" if same == "" else ""), 22), cell


def _tests(job: Job, rows: Sequence[_Row]) -> list[tuple[Column, Callable[[_Row], str]]]:
    """Runout and leak have a column even without a limit: what leaks goes back, and the shop says what it lets pass."""
    first = rows[0][1]
    most = (
        f"most {figures.without_zeros(first.runout_limit, figures.bench(job), 'down')}" if first.runout_limit else "tir"
    )
    leak = job.shop.practice.leak
    width = wanted(job, HeightLimits(least=first.width_least, most=first.width_most))

    def tight(row: _Row) -> str:
        done = row[2]
        return (done.leak.text if done.leak is not None else as_read_time(done.leak_seconds)) or blank()

    return [
        (Column("Runout", most, 20), lambda row: as_read(job, row[2].seat_tir) or blank()),
        (Column("Width", width, 20), lambda row: as_read(job, row[2].seat_width) or blank()),
        (Column("Contact", "", 19), lambda row: blank()),
        (Column("Leak", f"least {figures.typed(leak.seconds)}" if leak is not None else "", 17), tight),
    ]


def as_read_time(cell: Reading | None) -> str:
    """`4 s`, as its owner wrote it."""
    return cell.typed if cell is not None else ""


def _length(job: Job, figure: Figure | None) -> str:
    return digits_shown(figure, figures.seat_gauge(job)) if figure is not None else NONE


def _signed(job: Job, figure: Figure | None) -> str:
    """`+0.15`, `−0.15`: what is added to the recession found or taken off."""
    if figure is None:
        return NONE
    text = digits_shown(figure, figures.seat_gauge(job))
    return f"−{text[1:]}" if text.startswith("-") else f"+{text}"
