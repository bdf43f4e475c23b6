"""The record: as found, planned, cut, finished, one line a valve; it goes to the customer with the head."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.cards import figures
from seatwright.cards.card import Content, Table
from seatwright.cards.escape import Markdown
from seatwright.cards.figures import limits, shown, typed
from seatwright.cards.words import (
    NONE,
    NOT_BORED,
    STATUS,
    blank,
    bold,
    depth_limits,
    fitted,
    span,
    text,
    unquoted,
    valves,
    valves_of,
)
from seatwright.job.model import Head, Job, Reading
from seatwright.planning.figure import Figure
from seatwright.planning.plan import CutPlan, Plan, ValvePlan
from seatwright.text import Severity

_VERDICT_BLANK = 5


def record(plan: Plan, head: Head, narrow: bool) -> Content:
    """What is in the head now, whose figures were used, what was not checked, room to sign."""
    job = plan.job
    of_head = valves_of(plan, head)
    tables = (_found(of_head), _planned(job, of_head), _cut(job, of_head), _finished(job, of_head))
    return Content(
        lines=_lines(plan, head),
        tables=tuple(part for table in tables for part in fitted(table, narrow)),
        notes=tuple(_notes(plan, head)),
        sources=tuple(_sources(job, of_head)),
        not_checked=tuple(dict.fromkeys(_not_checked(plan, of_head))),
        signed=(
            Markdown("Bored and measured by {} date {}").format(blank(9), blank(7)),
            Markdown("Checked by {} date {}").format(blank(9), blank(7)),
        ),
        closing="Limits and fits are those named above; where none is named, none was checked.",
        said=tuple(sorted({message.slug for message in plan.messages if message.slug in plan.not_checked})),
    )


def _lines(plan: Plan, head: Head) -> tuple[tuple[str, str], ...]:
    words = [head.text, head.material.name if head.material else ""]
    found = [("Head", ", ".join(word for word in words if word))]
    if plan.job.customer is not None:
        found.append(("Customer", plan.job.customer.text))
    found.append(("Crack test", text(head.crack_test) or blank(16)))
    found.append(("Pressure test", text(head.pressure_test) or blank(16)))
    if head.skim is not None:
        when = (head.skim.when or "when not said").replace("-", " ")
        found.append(("Deck", f"{figures.typed(head.skim.amount)} skimmed, {when}"))
    found.append(("Pressure test of the whole head after the work", blank(12)))
    return tuple(found)


def _found(of_head: tuple[ValvePlan, ...]) -> Table:
    head = ("Valve", "Pocket", "Depth", "Guide, widest", "Recession", "Tip", "Spring")
    return Table(head, tuple(_row_found(valve) for valve in of_head), "As found, as read")


def _row_found(valve: ValvePlan) -> tuple[str, ...]:
    found = valve.found
    pocket = "/".join(cell.typed for cell in (found.pocket_a, found.pocket_b) if cell is not None)
    guide = max(
        (cell for cell in (found.guide_top, found.guide_middle, found.guide_bottom) if cell is not None),
        key=lambda cell: cell.largest,
        default=None,
    )
    cells = (found.pocket_depth, guide, found.recession, found.tip_height, found.spring_height)
    return (bold(valve.name), pocket or NONE, *(typed(cell) or NONE for cell in cells))


def _planned(job: Job, of_head: tuple[ValvePlan, ...]) -> Table:
    unit = figures.bench(job).unit
    head = ("Valve", "Insert", "Alloy", f"Interference {unit}", f"Bore {unit} at 20 °C", f"Depth {unit}", "Stands")
    return Table(head, tuple(_row_planned(job, valve) for valve in of_head), "Planned")


def _row_planned(job: Job, valve: ValvePlan) -> tuple[str, ...]:
    unit = figures.bench(job)
    fit = limits(valve.interference.least, valve.interference.most, unit) if valve.interference is not None else None
    bore = limits(valve.bore.least, valve.bore.most, unit) if valve.bore is not None else None
    insert = valve.insert
    return (
        bold(valve.name),
        insert.name if insert is not None else NONE,
        (insert.alloy or NONE) if insert is not None else NONE,
        span(fit),
        # A figure beside a hold would be cut by.
        "HOLD" if valve.status == "hold" else span(bore),
        span(depth_limits(job, valve)),
        STATUS[valve.status],
    )


def _cut(job: Job, of_head: tuple[ValvePlan, ...]) -> Table:
    unit = figures.bench(job).unit
    head = ("Valve", "Insert od", "Bore", "Depth", f"Interference {unit}", "Verdict")
    return Table(head, tuple(_row_cut(job, valve) for valve in of_head), "Cut")


def _row_cut(job: Job, valve: ValvePlan) -> tuple[str, ...]:
    cut, read = valve.cut, valve.valve.cut
    if valve.status in NOT_BORED and cut is None:
        return (bold(valve.name), *(NONE for _ in range(5)))
    od = _written((read.insert_od if read is not None else None) or valve.found.insert_od, 5)
    bores = [cell.typed for cell in (read.bore_a, read.bore_b) if cell is not None] if read is not None else []
    depth = read.depth_a if read is not None else None
    made = cut.interference if cut is not None else None
    return (
        bold(valve.name),
        od,
        "/".join(bores) or blank(6),
        _written(depth, 4),
        _figure(job, made),
        _verdict(cut.verdict if cut is not None else None),
    )


def _finished(job: Job, of_head: tuple[ValvePlan, ...]) -> Table:
    head = ("Valve", "Stand", "Seat tir", "Seat width", "Recession", "Tip", "Spring", "Leak", "Verdict")
    return Table(head, tuple(_row_finished(job, valve) for valve in of_head), "Finished")


def _row_finished(job: Job, valve: ValvePlan) -> tuple[str, ...]:
    done = valve.valve.finished
    if done is None:
        return (bold(valve.name), *(blank(4) for _ in range(7)), blank(_VERDICT_BLANK))
    cells = (done.stand, done.seat_tir, done.seat_width, done.recession, done.tip_height, done.spring_height)
    leak = done.leak.text if done.leak is not None else typed(done.leak_seconds)
    verdict = valve.finished.verdict if valve.finished is not None else None
    return (bold(valve.name), *(_written(cell, 4) for cell in cells), leak or blank(4), _verdict(verdict))


def _written(cell: Reading | None, marks: int) -> str:
    return cell.typed if cell is not None else blank(marks)


def _figure(job: Job, figure: Figure | None) -> str:
    return shown(figure, figures.bench(job)).text if figure is not None else blank(5)


def _verdict(words: str | None) -> str:
    return bold(words.replace("-", " ")) if words else blank(_VERDICT_BLANK)


def _notes(plan: Plan, head: Head) -> Iterable[str]:
    """What was read before and replaced, and what somebody wrote for the record."""
    for valve in valves_of(plan, head):
        for hold in valve.holds:
            yield f"{valve.name} on hold: {hold.text}"
        if valve.cut is not None:
            yield from (f"{valve.name}, {_before(plan.job, cut)}" for cut in valve.cut.earlier)
    for extra in (*plan.job.extras, *head.extras):
        yield f"{extra.valve + ' ' if extra.valve else ''}{extra.word} {extra.text}"


def _before(job: Job, cut: CutPlan) -> str:
    bore = f"bore {shown(cut.bore, figures.bench(job))} at 20 °C" if cut.bore is not None else "cut"
    return f"{cut.date or 'before'}: {bore}{', ' + cut.verdict.replace('-', ' ') if cut.verdict else ''}"


def _sources(job: Job, of_head: tuple[ValvePlan, ...]) -> Iterable[str]:
    whose: dict[str, list[str]] = {}
    for valve in of_head:
        if valve.interference is not None:
            whose.setdefault(valve.interference.source or "no source named", []).append(valve.name)
    for source, names in whose.items():
        yield f"Interference of {valves(names)}: {source}"


def _not_checked(plan: Plan, of_head: tuple[ValvePlan, ...]) -> Iterable[str]:
    names = {valve.name for valve in of_head}
    for message in plan.messages:
        if message.severity is Severity.NOTICE and message.slug in plan.not_checked:
            mine = [name for name in message.valves if name in names]
            if mine or not message.valves:
                yield f"{valves(mine)}: {unquoted(message.text)}" if mine else unquoted(message.text)
