"""The table of springs, on the seat card: where each will stand, over what shim, with what force, with what room."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from seatwright.cards.card import CardTable, Column
from seatwright.cards.escape import Markdown
from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import as_read, digits_shown
from seatwright.cards.parts.words import NONE, blank, bold, wanted
from seatwright.job.model import Job
from seatwright.planning.basis import instruments
from seatwright.planning.basis.wording import spring_force
from seatwright.planning.plan import SpringPlan, ValvePlan
from seatwright.planning.plan.figure import Figure

_Row = tuple[ValvePlan, SpringPlan]


def spring_table(job: Job, group: Sequence[ValvePlan], number: int) -> CardTable | None:
    """A row a valve whose spring is known; None without any. What nothing is known of has no column."""
    rows = [(valve, valve.spring) for valve in group if valve.spring is not None and _is_known(valve.spring)]
    if not rows:
        return None
    made: list[tuple[Column, Callable[[_Row], str]]] = [
        (Column("Height", "found", 20), lambda row: as_read(job, row[0].found.spring_height) or NONE),
        (Column("Comes", "to", 20), lambda row: _length(job, row[1].height)),
        (Column("Shim", "", 14), lambda row: _length(job, row[1].shim)),
        (Column("Without", "it shut", 18), lambda row: _force(job, row[1].force_unshimmed)),
        (Column("Shut", _least(job, rows), 26), lambda row: _shut(job, row[1])),
        (Column("Coils", _room(job, rows, "bind_least"), 22), lambda row: _room_left(job, row[1], "bind_room")),
        (Column("Retainer", _room(job, rows, "retainer_least"), 24),
         lambda row: _room_left(job, row[1], "retainer_room")),
    ]  # fmt: skip
    kept = [(column, cell) for column, cell in made if any(cell(row) != NONE for row in rows)]
    limits = {wanted(job, valve.seat.spring) for valve, _ in rows if valve.seat is not None}
    measured = Column("measured", limits.pop() if len(limits) == 1 else "", 24)
    columns = (Column("Valve", "", 15), *(column for column, _ in kept), measured)
    unit = "inch" if instruments.job_unit(job) == "in" else "mm"
    line = "; * by the maker's line" if any(not spring.measured for _, spring in rows) else ""
    title = f"Springs; force with the valve shut, room at full lift, {unit}{line}"
    return CardTable(
        columns, tuple((v.name, *(cell((v, s)) for _, cell in kept), blank()) for v, s in rows), title, number
    )


def _is_known(spring: SpringPlan) -> bool:
    return any((spring.force_shut, spring.loss, spring.bind_room, spring.retainer_room))


def _read(job: Job, valve: ValvePlan) -> str:
    done = valve.valve.finished
    return as_read(job, done.spring_height if done is not None else None) or blank()


def _length(job: Job, figure: Figure | None) -> str:
    return digits_shown(figure, figures.seat_gauge(job)) if figure is not None else NONE


def _force(job: Job, figure: Figure | None) -> str:
    return spring_force(job, figure.value) if figure is not None else NONE


def _shut(job: Job, spring: SpringPlan) -> str:
    if spring.force_shut is None:
        return NONE
    text = spring_force(job, spring.force_shut.value, None if spring.least is None else spring.least.value)
    failed = "fail" in (dict(spring.verdicts).get("shut"), dict(spring.verdicts).get("force"))
    by_maker = "" if spring.measured else Markdown(" {}").format("*")
    return Markdown("{}{}").format(bold(f"{text} WEAK") if failed else text, by_maker)


def _least(job: Job, rows: Sequence[_Row]) -> str:
    least = {spring_force(job, spring.least.value) for _, spring in rows if spring.least is not None}
    return f"least {least.pop()}" if len(least) == 1 else ""


def _room(job: Job, rows: Sequence[_Row], name: str) -> str:
    least = {_length(job, figure) for _, spring in rows if (figure := getattr(spring, name)) is not None}
    return f"least {least.pop()}" if len(least) == 1 else ""


def _room_left(job: Job, spring: SpringPlan, name: str) -> str:
    text = _length(job, getattr(spring, name))
    return bold(f"{text} SHORT") if dict(spring.verdicts).get(name) == "fail" else text
