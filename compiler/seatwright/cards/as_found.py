"""The as-found sheet: blanks in the order of the bench. Columns are called as the job file calls them."""

from __future__ import annotations

from seatwright.cards.card import Content, Table
from seatwright.cards.escape import Markdown
from seatwright.cards.figures import Shown, bench, job_unit, shown
from seatwright.cards.words import Steps, blank, fitted, text, valves
from seatwright.job.declarations.job_tables import BENCH_ORDER
from seatwright.job.model import Given, Head, Job, Valve
from seatwright.planning.plan import Plan

# The blanks have the order of the tables of a starter job.
_BEFORE, _VALVES, _GUIDES, _OLD, _POCKETS, _BELOW, _AROUND, _INSERTS = BENCH_ORDER
# What a column is called at the bench, where the word of the job file alone could be taken the wrong way round.
_CALLED = {
    "guide-top": "spring end (guide-top)",
    "guide-middle": "middle (guide-middle)",
    "guide-bottom": "port end (guide-bottom)",
}
_SODIUM = "sodium-filled-valves"


def as_found(plan: Plan, head: Head, narrow: bool) -> Content:
    """What the bench writes down before an old insert goes, and before money is spent."""
    written = Steps(plan, tuple(valve.name for valve in head.valves))
    step = written.step
    steps = (
        step(
            Markdown("Identify the head: casting number {}, maker {}.").format(blank(8), blank(8)),
            "Marks, earlier work, what the customer says of it. A word that it was never machined is no evidence.",
        ),
        step(Markdown("Weigh it: {} kg.").format(blank()), places=("lift",), later=_SODIUM),
        step(*_sodium(head), places=("lift",)),
        step("Take the valves out and lay them in order, marked by cylinder."),
        step("Clean the head, ports and chambers.", places=("clean",)),
        step(
            Markdown("Crack test, both faces: {}").format(text(head.crack_test) or blank(16)),
            "Before money is spent. Between the seats and round the injector bore above all.",
        ),
        step(
            Markdown("Pressure test before the work: {}").format(text(head.pressure_test) or blank(14)),
            places=("test",),
        ),
        step(
            Markdown("Flatness of the deck, straightedge and feeler: {} {}").format(blank(), job_unit(plan.job)),
            "Along, across and over both diagonals. Skimmed before? By how much?",
        ),
        step(
            "Put each valve on its old seat and measure how it sits now.",
            "Recession from the deck, stem and retainer from the spring seat. Lost once the insert is out.",
            tables=_table(head, _BEFORE, narrow),
        ),
        step("Measure each valve: across its head, and the margin at its edge.", tables=_table(head, _VALVES, narrow)),
        step(
            Markdown("Let head and gauges lie side by side. Head {}, gauge {}.").format(blank(), blank()),
            "An hour at least, out of the sun. In the job file it stands behind the word measured: at 22 C.",
        ),
        step(
            "Measure every guide at its spring end, in the middle and at its port end, and its stem.",
            "Two directions at each place; write the larger. With the head deck up, the port end is on top.",
            tables=_table(head, _GUIDES, narrow),
        ),
        step(
            "Take the old inserts out, the depth stop set so that no tool passes the floor. Measure what comes out.",
            places=("remove",),
            tables=_table(head, (*_OLD, "what it was, how it sat"), narrow, wide=True),
        ),
        step(
            "Measure every pocket, two ways at right angles, at the rim and low; its depth; runout to the guide; "
            "throat; how far damage reaches; metal under the floor and around.",
            _faces(head),
            tables=tuple(table for columns in (_POCKETS, _BELOW, _AROUND) for table in _table(head, columns, narrow)),
        ),
        step(
            "Measure the new inserts in the hand, each one: the fit is made to this ring and not to the list.",
            tables=_table(head, _INSERTS, narrow),
        ),
        step(
            "Type it into the job file as it stands here, under the same words, and build again.",
            "What was not measured is a dash. Nothing is guessed: what is not given is not checked, and is said.",
        ),
    )
    last = tuple(caution for caution in plan.cautions if not caution.steps)
    return Content(
        lines=_lines(plan.job, head),
        notes=tuple(
            f"{valves(note.valves)}: {note.text}" if note.valves else note.text
            for note in (*plan.job.notes, *head.notes)
        ),
        steps=steps,
        signed=(Markdown("Measured by {} date {}").format(blank(10), blank(8)),),
        closing=last[0].text if last else "",
        cautioned=(*written.cautioned, *(caution.slug for caution in last)),
    )


def _lines(job: Job, head: Head) -> tuple[tuple[str, str], ...]:
    of_head = [text for text in (head.text, head.material.name if head.material else "") if text]
    if head.fuel is not None:
        of_head.append(head.fuel.text)
    found = [("Head", ", ".join(of_head))]
    if stems := _stems(job, head):
        found.append(("Stems", stems))
    return tuple(found)


def _stems(job: Job, head: Head) -> str:
    sizes: dict[str, list[str]] = {}
    for valve in head.valves:
        stem = valve.specification.stem
        if isinstance(stem, Given):
            sizes.setdefault(_large(shown(stem, bench(job))), []).append(valve.name)
    return ", ".join(f"{size} ({valves(names)})" for size, names in sizes.items())


def _large(size: Shown) -> str:
    return f"{size} = {size.other}"


def _sodium(head: Head) -> tuple[str, str]:
    filled = [valve.name for valve in head.valves if valve.specification.sodium_filled]
    if filled:
        return (
            f"Take the sodium-filled valves out first and lay them apart, dry: {valves(filled)}.",
            "Whole, and never into the washer.",
        )
    return (
        Markdown("Look for sodium-filled valves before anything else. None found, or which: {}").format(blank(8)),
        "A mark on the stem's end or on the valve's head; the maker says. They come out first and lie apart, dry.",
    )


def _faces(head: Head) -> str:
    return f"Depth from the {head.depth_from.text if head.depth_from is not None else 'rim'}, always from this face."


def _table(head: Head, columns: tuple[str, ...], narrow: bool, wide: bool = False) -> tuple[Table, ...]:
    rows = tuple(_row(valve, columns, wide) for valve in head.valves)
    return fitted(Table(("valve", *(_CALLED.get(column, column) for column in columns)), rows), narrow)


def _row(valve: Valve, columns: tuple[str, ...], wide: bool) -> tuple[str, ...]:
    return (valve.name, *(blank(18 if wide and index else 5) for index, _ in enumerate(columns)))
