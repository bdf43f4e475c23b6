"""The tables of the record: as found, planned, cut, in the head now, finished; one line a valve, a cut more a line."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.cards import figures
from seatwright.cards.card import Table
from seatwright.cards.escape import Markdown
from seatwright.cards.figures import limits, shown, typed
from seatwright.cards.words import (
    NO_INSERT,
    NONE,
    NOT_BORED,
    STATUS,
    blank,
    bold,
    depth_limits,
    span,
)
from seatwright.job.model import CutReadings, Job, Reading
from seatwright.planning.plan import CutPlan, FinishedPlan, Status, ValvePlan
from seatwright.planning.plan.figure import Figure

Valves = tuple[ValvePlan, ...]
_MARKS = 4
_NO_FIGURES = (Status.HOLD, Status.OVERSIZE)


def found(of_head: Valves) -> Table:
    """As found, as read."""
    head = ("Valve", "Pocket", "Depth", "Old insert od", "Guide, widest", "Recession", "Tip", "Spring")
    rows = tuple(_row_found(valve) for valve in of_head)
    kept = [at for at, _ in enumerate(head) if at == 0 or any(row[at] != NONE for row in rows)]
    filled = tuple(tuple(row[at] for at in kept) for row in rows)
    return Table(tuple(head[at] for at in kept), filled, "As found, as read")


def _row_found(valve: ValvePlan) -> tuple[str, ...]:
    read = valve.found
    pocket = "/".join(cell.typed for cell in (read.pocket_a, read.pocket_b) if cell is not None)
    guide = max(
        (cell for cell in (read.guide_top, read.guide_middle, read.guide_bottom) if cell is not None),
        key=lambda cell: cell.largest,
        default=None,
    )
    cells = (read.pocket_depth, read.old_insert_od, guide, read.recession, read.stem_height, read.spring_height)
    return (bold(valve.name), pocket or NONE, *(typed(cell) or NONE for cell in cells))


def planned(job: Job, of_head: Valves) -> Table:
    """The insert, the fit, the bore at 20 °C and the depth that were planned, and where the valve stands."""
    unit = figures.bench(job).unit
    head = ("Valve", "Insert", "Alloy", f"Interference {unit}", f"Bore {unit} at 20 °C", f"Depth {unit}", "Stands")
    return Table(head, tuple(_row_planned(job, valve) for valve in of_head), "Planned")


def _row_planned(job: Job, valve: ValvePlan) -> tuple[str, ...]:
    unit, insert = figures.bench(job), valve.insert
    fit = limits(valve.interference.least, valve.interference.most, unit) if valve.interference is not None else None
    bore = limits(valve.bore.least, valve.bore.most, unit) if valve.bore is not None else None
    deep = depth_limits(job, valve)
    depth = deep[0].text if deep is not None and deep[0].text == deep[1].text else span(deep)
    bored = span(bore)
    if valve.status in _NO_FIGURES:
        # A figure beside a hold would be cut by.
        bored = depth = "HOLD" if valve.status == Status.HOLD else NONE
    return (
        bold(valve.name),
        insert.name if insert is not None else NONE,
        (insert.alloy or NONE) if insert is not None else NONE,
        span(fit),
        bored,
        depth,
        STATUS[valve.status],
    )


def cut(job: Job, of_head: Valves) -> Table:
    """Every cut of every pocket, the earlier ones too, as read, and what came of it."""
    unit = figures.bench(job).unit
    head = ("Valve", "Date", "Bore, rim", "Bore, low", "Depth", f"Round {unit}", f"Taper {unit}", "Verdict")
    rows = tuple(row for valve in of_head for row in _rows_cut(job, valve))
    return Table(head, rows, "Cut, as read; of two cuts the last counts")


def _rows_cut(job: Job, valve: ValvePlan) -> Iterator[tuple[str, ...]]:
    name, read, made = bold(valve.name), valve.valve.cut, valve.cut
    if read is None or made is None:
        if valve.status not in NOT_BORED:
            yield (name, *(blank(_MARKS) for _ in range(7)))
        return
    # The earlier ones stand newest first.
    for before, judged in reversed(tuple(zip(read.earlier, made.earlier, strict=True))):
        yield (name, *_cells_cut(job, before, judged))
    yield (name, *_cells_cut(job, read, made))


def _cells_cut(job: Job, read: CutReadings, made: CutPlan) -> tuple[str, ...]:
    def both(*cells: Reading | None) -> str:
        return "/".join(cell.typed for cell in cells if cell is not None) or NONE

    depths = [cell for cell in (read.depth_a, read.depth_b, read.depth_c, read.depth_d) if cell is not None]
    shallow = min(depths, key=lambda cell: cell.smallest, default=None)
    deep = max(depths, key=lambda cell: cell.largest, default=None)
    depth = typed(shallow) if typed(shallow) == typed(deep) else f"{typed(shallow)} to {typed(deep)}"
    return (
        read.date or NONE,
        both(read.bore_a, read.bore_b),
        both(read.bore_low_a, read.bore_low_b),
        depth or NONE,
        _figure(job, made.round),
        _figure(job, made.taper),
        _verdict(made.verdict) if made.verdict else NONE,
    )


def in_the_head(job: Job, of_head: Valves) -> Table:
    """Which insert is in which pocket now, its alloy and size, the bore it is in and how tight it sits."""
    unit = figures.bench(job).unit
    head = ("Valve", "Insert", "Alloy", "Its od as read", f"Bore {unit} at 20 °C", f"Interference {unit}")
    return Table(head, tuple(_row_in(job, valve) for valve in of_head if is_in(valve)), "In the head now")


def is_in(valve: ValvePlan) -> bool:
    """Whether the new insert is in: something was measured on the finished valve."""
    return valve.finished is not None and valve.insert is not None and valve.status not in NO_INSERT


def _row_in(job: Job, valve: ValvePlan) -> tuple[str, ...]:
    insert, cut_ = valve.insert, valve.cut
    read = (valve.valve.cut.insert_od if valve.valve.cut is not None else None) or valve.found.insert_od
    bore = cut_.bore if cut_ is not None else None
    fit = cut_.interference if cut_ is not None else None
    if valve.cut is None and valve.interference is not None:
        fit = valve.interference.expected
    kept = valve.cut is None and valve.valve.cut is None
    return (
        bold(valve.name),
        bold(insert.name if insert is not None else ""),
        (insert.alloy or NONE) if insert is not None else NONE,
        (typed(read) if valve.at20.insert_od is not None else "") or "by the list",
        "pocket kept" if kept else _figure(job, bore),
        bold(_figure(job, fit)),
    )


def finished(job: Job, of_head: Valves) -> Table:
    """What was measured in the end, with what failed, and the verdict."""
    head = ("Valve", "Stand", "Seat tir", "Width", "Recession", "Tip", "Spring", "Leak", "Pressure test", "Verdict")
    dates = {valve.valve.finished.date for valve in of_head if valve.valve.finished is not None}
    when = next(iter(dates)) if len(dates) == 1 else None
    title = f"Finished {when}, as read" if when else "Finished, as read"
    return Table(head, tuple(_row_finished(valve) for valve in of_head), title)


def _row_finished(valve: ValvePlan) -> tuple[str, ...]:
    done, judged = valve.valve.finished, valve.finished
    if done is None or judged is None:
        return (bold(valve.name), *(blank(_MARKS) for _ in range(9)))
    leak = done.leak.text if done.leak is not None else typed(done.leak_seconds)
    cells = {
        "stand": typed(done.stand),
        "seat_tir": typed(done.seat_tir),
        "seat_width": typed(done.seat_width),
        "recession": typed(done.recession),
        "stem_height": typed(done.stem_height),
        "spring_height": typed(done.spring_height),
        "leak": leak,
        "pressure_test": done.pressure_test.text if done.pressure_test is not None else "",
    }
    judgements = (_judged(judged, name, read) for name, read in cells.items())
    return (bold(valve.name), *judgements, _verdict(judged.verdict))


def _judged(done: FinishedPlan, name: str, read: str) -> str:
    if not read:
        return blank(_MARKS)
    failed = dict(done.verdicts).get(name) == "fail"
    if failed:
        return bold("FAIL" if read == "fail" else f"{read} FAIL")
    return Markdown.escape(read)


def _figure(job: Job, figure: Figure | None) -> str:
    return shown(figure, figures.judged(job)).text if figure is not None else NONE


def _verdict(words: str | None) -> str:
    return bold(words.replace("-", " ")) if words else blank(_MARKS)
