"""The tables of a seat card, and what a cut that goes deeper moves."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.cards import figures
from seatwright.cards.card import Table
from seatwright.cards.figures import shown, typed
from seatwright.cards.words import NONE, blank, bold, wanted
from seatwright.job.model import Finished, Head, Job, Reading
from seatwright.planning.plan import HeightLimits, SeatCut, SeatPlan, ValvePlan
from seatwright.planning.plan.figure import Figure

# A cut that goes so much deeper along the stem, as it is spoken of; plan.json has what 0.10 mm moves, and an inch
# moves as much for its hundredth as a millimetre for its tenth, ten times less.
_DEEPER = {"mm": ("0.10", 1.0), "in": ("0.010", 0.1)}
_MOVE_DECIMALS = {"mm": 2, "in": 3}


def moved(job: Job, cut: SeatCut) -> str:
    """`0.10 deeper with the 30° brings the outside in by 0.47.` Deeper along the stem, edges on diameter."""
    if cut.deeper_0_1 is None:
        return ""
    outer, inner = cut.deeper_0_1.outer, cut.deeper_0_1.inner
    parts = []
    if outer is not None:
        parts.append(f"the outside {'out' if outer.value > 0 else 'in'} by {_moved(job, outer)}")
    if inner is not None:
        parts.append(f"the inside {'out' if inner.value > 0 else 'in'} by {_moved(job, inner)}")
    deeper = _DEEPER[figures.job_unit(job)][0]
    return f"{deeper} deeper with the {figures.angle(cut.angle.value)} brings {' and '.join(parts)}, on diameter."


def _moved(job: Job, by: Figure) -> str:
    unit = figures.job_unit(job)
    return f"{abs(by.value) * _DEEPER[unit][1]:.{_MOVE_DECIMALS[unit]}f}"


def of_each(job: Job, group: Sequence[ValvePlan]) -> Table | None:
    """Pilot, gauge depth and recession to cut to, of each valve; None where none of it is known."""
    unit = figures.seat_gauge(job).unit
    columns = ("Valve", "Pilot", f"Gauge depth {unit}", f"Recession to aim at {unit}", "Done")
    rows = []
    for valve in group:
        seat = valve.seat
        aim = seat.recession.aim if seat is not None and seat.recession is not None else None
        pilot = valve.pilot.name if valve.pilot is not None and valve.pilot.name else NONE
        rows.append(
            (
                bold(valve.name),
                pilot,
                bold(_length(job, seat.gauge_depth if seat is not None else None)),
                bold(_length(job, aim)),
                blank(3),
            )
        )
    if all(row[2] == NONE and row[3] == NONE for row in rows):
        return None
    return Table(columns, tuple(rows), "Outer edge of the seat, and flat of the valve, below the deck")


def heights(job: Job, head: Head, group: Sequence[ValvePlan]) -> tuple[Table, ...]:
    """Recession, stem and spring: the sums, what is wanted, and blanks for what is found; () where nothing is known."""
    found = (_recession(job, head, group), _height(job, group, "stem"), _height(job, group, "spring"))
    return tuple(table for table in found if table is not None)


def _recession(job: Job, head: Head, group: Sequence[ValvePlan]) -> Table | None:
    unit = figures.seat_gauge(job).unit
    skim = typed(head.skim.amount) if head.skim is not None and head.skim.when != "before-measuring" else ""
    rows = []
    for valve in group:
        seat, done = valve.seat or SeatPlan(), valve.valve.finished
        limits = seat.recession
        read = typed(valve.found.recession) or NONE
        off = (f"− {skim}",) if skim else ()
        aim = _length(job, limits.aim if limits is not None else None)
        last = _read(done.recession if done is not None else None)
        rows.append((bold(valve.name), read, *off, _signed(job, seat.sink), aim, _wanted(job, limits), last))
    if not any(valve.seat is not None and valve.seat.recession is not None for valve in group):
        return None
    columns = ("Valve", "Found", *(("Skim",) if skim else ()), "Cut", f"Aim {unit}", f"Wanted {unit}", "Measured")
    return Table(columns, tuple(rows), "Recession")


def _height(job: Job, group: Sequence[ValvePlan], which: str) -> Table | None:
    """Stem or spring: it moves with the seat."""
    unit, rows, known = figures.seat_gauge(job).unit, [], False
    for valve in group:
        seat, found, done = valve.seat or SeatPlan(), valve.found, valve.valve.finished
        if which == "stem":
            read, limits, after = found.stem_height, seat.stem, seat.stem_after
            last = done.stem_height if done is not None else None
        else:
            read, limits, after = found.spring_height, seat.spring, seat.spring_after
            last = done.spring_height if done is not None else None
        known = known or limits is not None or after is not None
        seats = _signed(job, seat.sink) if after is not None else NONE
        cells = (typed(read) or NONE, seats, _length(job, after), _wanted(job, limits), _read(last))
        rows.append((bold(valve.name), *cells))
    if not known:
        return None
    title = "End of the stem above the spring seat" if which == "stem" else "Spring, from its seat to the retainer"
    return Table(("Valve", "Found", "Cut", f"Then {unit}", f"Wanted {unit}", "Measured"), tuple(rows), title)


def after_cutting(job: Job, group: Sequence[ValvePlan]) -> Table:
    """Blanks for the tests of each seat, with what is allowed in the head; what was measured already stands in them."""
    runout = next((valve.seat.runout_limit for valve in group if valve.seat and valve.seat.runout_limit), None)
    unit = figures.seat_gauge(job).unit
    most = f", most {figures.trimmed(runout, figures.bench(job), 'down')} {unit} tir" if runout is not None else ""
    leak = job.shop.practice.leak
    held = f", least {typed(leak.seconds)}" if leak is not None else ""
    rows = []
    for valve in group:
        done = valve.valve.finished or Finished()
        tight = done.leak.text if done.leak is not None else typed(done.leak_seconds)
        cells = (_read(done.seat_tir), _read(done.seat_width), blank(4), tight or blank(4), blank(3))
        rows.append((bold(valve.name), *cells))
    return Table(("Valve", f"Runout{most}", f"Width {unit}", "Contact", f"Leak{held}", "Initial"), tuple(rows))


def _read(cell: Reading | None) -> str:
    return cell.typed if cell is not None else blank(4)


def _wanted(job: Job, limits: HeightLimits | None) -> str:
    return bold(wanted(job, limits)) if wanted(job, limits) else "not given"


def _length(job: Job, figure: Figure | None) -> str:
    return shown(figure, figures.seat_gauge(job)).text if figure is not None else NONE


def _signed(job: Job, figure: Figure | None) -> str:
    """`+ 0.15`, `− 0.15`: what is added or taken off."""
    if figure is None:
        return NONE
    text = shown(figure, figures.seat_gauge(job)).text
    return f"− {text[1:]}" if text.startswith("-") else f"+ {text}"
