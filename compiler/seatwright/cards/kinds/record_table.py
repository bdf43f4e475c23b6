"""The table of the record: a row a valve, as found, what was replaced, what was cut, what was found in the end."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from seatwright.cards.card import HATCHED, CardTable, Column
from seatwright.cards.escape import Markdown
from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import as_read, digits_shown
from seatwright.cards.parts.words import NONE, STATUS, blank, bold
from seatwright.job.model import Job, Reading
from seatwright.planning.plan import HeightLimits, Status, ValvePlan

_ALONE = (Status.LEFT_ALONE, Status.NOT_PLANNED)
_HELD = (Status.HOLD, Status.GUIDE_FIRST)
_Cell = Callable[[ValvePlan], str]


def record_table(job: Job, of_head: Sequence[ValvePlan]) -> CardTable:
    """As found, replaced, cut, finished; a column that nothing is known of, and nothing asked for, is left out."""
    judged = {"Stem": any(_limit(v, "stem") for v in of_head), "Spring": any(_limit(v, "spring") for v in of_head)}
    found: list[tuple[Column, _Cell]] = [
        (Column("Pocket", "found", 17), lambda v: _first(job, _found(v, "pocket_a"), _found(v, "pocket_b"))),
        (Column("Guide", "found", 17), lambda v: _first(job, *_places(v))),
        (Column("Reces-", "sion found", 15), lambda v: _first(job, _found(v, "recession"))),
        (Column("Stem", "found", 16), lambda v: _first(job, _found(v, "stem_height"))),
        (Column("Spring", "found", 15), lambda v: _first(job, _found(v, "spring_height"))),
    ]  # fmt: skip
    found = [
        (column, cell)
        for column, cell in found
        if any(cell(valve) != NONE for valve in of_head) and judged.get(column.name, True)
    ]
    cut: list[tuple[Column, _Cell]] = [
        (Column("Replaced", "insert, alloy", 21), _insert),
        (Column("Bore", "as read", 17), lambda v: _bore(job, v)),
        (Column("Fit", figures.bench(job).unit, 15), lambda v: _fit(job, v)),
    ]
    done = [*_done(job, of_head), (Column("Verdict", "", 21), _verdict)]
    every = (*found, *cut, *done)
    columns = (Column("Valve", "", 13), *(column for column, _ in every))
    rows = tuple((valve.name, *_row(valve, len(found), [cell for _, cell in every])) for valve in of_head)
    return CardTable(columns, rows)


def _row(valve: ValvePlan, as_found: int, cells: Sequence[_Cell]) -> tuple[str, ...]:
    made = [cell(valve) for cell in cells]
    if valve.status in (*_ALONE, *_HELD):
        # Nothing is cut there, and nothing is judged: the words say why.
        return (*made[:as_found], bold(STATUS[valve.status]), *[HATCHED] * (len(made) - as_found - 1))
    return tuple(made)


def _places(valve: ValvePlan) -> tuple[Reading | None, ...]:
    return _found(valve, "guide_top"), _found(valve, "guide_middle"), _found(valve, "guide_bottom")


def _found(valve: ValvePlan, name: str) -> Reading | None:
    """A reading as it was found first: of a part that was renewed since, the old one's."""
    old = (getattr(part.found, name) for part in valve.valve.replaced)
    found: Reading | None = next((each for each in old if each is not None), getattr(valve.found, name))
    return found


def _first(job: Job, *cells: Reading | None) -> str:
    """The widest of the first readings: what it was when the head came in, also where a part was replaced since."""
    firsts = [(cell.earlier[-1] if cell.earlier else cell) for cell in cells if cell is not None]
    return as_read(job, max(firsts, key=lambda cell: cell.largest)) if firsts else NONE


def _insert(valve: ValvePlan) -> str:
    insert = valve.insert
    if insert is None:
        return NONE
    return Markdown("**{}** *{}*").format(insert.name, insert.alloy or "alloy not said")


def _bore(job: Job, valve: ValvePlan) -> str:
    """The last cut as read; a pocket that stays is as it was found."""
    read = valve.valve.cut
    cells = [cell for cell in (read.bore_a, read.bore_b, read.bore_low_a, read.bore_low_b) if cell] if read else []
    if cells:
        low, high = (as_read(job, pick(cells, key=lambda cell: cell.value)) for pick in (min, max))
        earlier = Markdown(" *cut {}*").format(len(read.earlier) + 1) if read is not None and read.earlier else ""
        return Markdown("{}{}").format(low if low == high else f"{low} {high}", earlier)
    if valve.status in (Status.KEPT, Status.FINISHED, Status.TO_CUT):
        return "as found"
    return blank()


def _fit(job: Job, valve: ValvePlan) -> str:
    fit = valve.cut.interference if valve.cut is not None else None
    if valve.cut is None and valve.status in (Status.KEPT, Status.FINISHED) and valve.interference is not None:
        fit = valve.interference.expected
    return digits_shown(fit, figures.bench(job)) if fit is not None else blank()


def _done(job: Job, of_head: Sequence[ValvePlan]) -> list[tuple[Column, _Cell]]:
    """What is measured in the end: all that has a limit or was read; stand, runout and leak always."""

    def cell(name: str, words: Callable[[ValvePlan], str]) -> _Cell:
        def written(valve: ValvePlan) -> str:
            read = words(valve)
            if not read:
                return blank()
            failed = valve.finished is not None and dict(valve.finished.verdicts).get(name) == "fail"
            return bold("FAIL" if read == "fail" else f"{read} FAIL") if failed else read

        return written

    def of(name: str) -> Callable[[ValvePlan], str]:
        return lambda valve: (
            as_read(job, getattr(valve.valve.finished, name)) if valve.valve.finished is not None else ""
        )

    def leak(valve: ValvePlan) -> str:
        done = valve.valve.finished
        if done is None:
            return ""
        return done.leak.text if done.leak is not None else figures.typed(done.leak_seconds)

    made = [
        ("", Column("Stand", "", 13), cell("stand", of("stand"))),
        ("", Column("Seat", "runout", 15), cell("seat_tir", of("seat_tir"))),
        ("width", Column("Seat", "width", 14), cell("seat_width", of("seat_width"))),
        ("recession", Column("Reces-", "sion now", 16), cell("recession", of("recession"))),
        ("stem", Column("Stem", "now", 16), cell("stem_height", of("stem_height"))),
        ("spring", Column("Spring", "now", 15), cell("spring_height", of("spring_height"))),
        ("", Column("Leak", "", 12), cell("leak", leak)),
    ]
    return [
        (column, written)
        for limit, column, written in made
        if not limit or any(_limit(valve, limit) or "_" not in written(valve) for valve in of_head)
    ]


def _limit(valve: ValvePlan, name: str) -> bool:
    """Whether a height of the seat, or its width, has a limit that it is judged by."""
    seat = valve.seat
    if seat is None:
        return False
    if name == "width":
        return seat.width_least is not None or seat.width_most is not None
    limits: HeightLimits | None = getattr(seat, name)
    return limits is not None and (limits.least is not None or limits.most is not None)


def _verdict(valve: ValvePlan) -> str:
    if valve.finished is not None and valve.finished.verdict:
        return bold(valve.finished.verdict)
    if valve.cut is not None and valve.cut.verdict:
        return STATUS.get(valve.cut.verdict, valve.cut.verdict)
    return blank()
