"""The job sheet: where each valve stands, what to fetch, what to beware of, what was not checked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from seatwright.cards import figures
from seatwright.cards.card import Cautioned, Content, Drawing, Table
from seatwright.cards.escape import Markdown
from seatwright.cards.figures import limits, shown, temperature
from seatwright.cards.standing import SAID_HERE, standing
from seatwright.cards.words import (
    NONE,
    STATUS,
    at,
    bench_at,
    bold,
    bold_limits,
    fitted,
    held,
    notes,
    span,
    spoken,
    text,
    unquoted,
    valves,
    valves_of,
)
from seatwright.job.model import Head, Job
from seatwright.planning.plan import Fetch, Order, Plan, Setting, Status, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.text import Message, Severity

_DONE = (Status.FINISHED, Status.LEFT_ALONE, Status.NOT_PLANNED)
_WITH_FIGURES = (Status.TO_BORE, Status.BORE_AGAIN)  # statuses in which a bore is still cut to


def job_sheet(plan: Plan, narrow: bool, drawings: Sequence[Drawing]) -> Content:
    """The whole job on one card, all heads. drawings: the heads seen from the deck."""
    not_checked = [message for message in plan.messages if _not_checked(plan, message)]
    all_warnings = [message for message in plan.messages if message.severity is Severity.WARNING]
    stand = standing(plan.job, plan.valves, plan.settings)
    warnings = [message for message in all_warnings if stand is None or message.slug not in SAID_HERE]
    holds = held(plan.valves)
    return Content(
        lines=_lines(plan),
        holds=holds,
        warnings=tuple(f"{spoken(message)} {unquoted(message.help)}" for message in warnings),
        notes=notes((*plan.job.notes, *(note for head in plan.heads for note in head.notes))),
        cautions=tuple(Cautioned(each.text, each.agency, each.valves) for each in plan.cautions),
        fetch=tuple(_fetch(plan.job, plan.fetch, plan.settings)),
        first=fitted(stand, narrow) if stand is not None else (),
        tables=tuple(table for table in _tables(plan) for table in fitted(table, narrow)),
        drawings=tuple(drawings),
        not_checked=tuple(spoken(message) for message in not_checked),
        sources=tuple(_sources(plan)),
        cautioned=tuple(caution.slug for caution in plan.cautions),
        said=tuple(
            sorted(
                {message.slug for message in (*all_warnings, *not_checked)}
                | {hold.slug for valve in plan.valves for hold in valve.holds}
            )
        ),
    )


def _not_checked(plan: Plan, message: Message) -> bool:
    return message.severity is Severity.NOTICE and message.slug in plan.not_checked


def _tables(plan: Plan) -> Iterable[Table]:
    for head in plan.heads:
        if any(valve.status not in _DONE for valve in valves_of(plan, head)):
            yield _valves(plan, head)


def _lines(plan: Plan) -> tuple[tuple[str, str], ...]:
    job = plan.job
    facts = (
        ("Customer", text(job.customer)),
        ("Machinist", text(job.machinist)),
        ("Received", text(job.received)),
        ("Due", text(job.due)),
    )
    in_a_line = Markdown(", ").join(Markdown("{} {}").format(what.lower(), of_it) for what, of_it in facts if of_it)
    found: list[tuple[str, str]] = [("Job", in_a_line)] if in_a_line else []
    for head in plan.heads:
        words = [head.text, head.material.name if head.material else "", text(head.fuel)]
        found.append((f"Head {head.name}".strip(), ", ".join(word for word in words if word)))
    found.append(("It stands", _standing(plan)))
    return tuple(found)


def _standing(plan: Plan) -> str:
    """`6 to bore, 1 HOLD, 1 pocket kept`."""
    counts: dict[str, int] = {}
    for valve in plan.valves:
        counts[valve.status] = counts.get(valve.status, 0) + 1
    return ", ".join(f"{counts[status]} {words}" for status, words in STATUS.items() if status in counts)


def _fetch(job: Job, fetch: Fetch, settings: Sequence[Setting]) -> Iterable[str]:
    def sizes(what: str, *asked: Figure | None) -> str:
        """`, master 40.000 mm and 50.000 mm`: every size that a card asks for, once."""
        found = sorted((each for each in asked if each is not None), key=lambda size: size.value)
        names = dict.fromkeys(str(shown(size, figures.bench(job))) for size in found)
        return f", {what} {' and '.join(names)}" if names else ""

    if fetch.cutters:
        yield f"Cutters {', '.join(fetch.cutters)}"
    if fetch.pilots:
        yield f"Pilots {', '.join(fetch.pilots)}"
    if fetch.gauge is not None:
        masters = sizes("master", *(setting.master for setting in settings)) or sizes("master", fetch.master)
        yield f"To set the cutter: {fetch.gauge}{masters}"
    if fetch.bore_gauge is not None:
        rings = sizes("ring", *(setting.ring for setting in settings)) or sizes("ring", fetch.ring)
        yield f"To measure the bore: {fetch.bore_gauge}{rings}"
    for insert in fetch.inserts:
        left = f" ({insert.left} left on the shelf)" if insert.left is not None else " (not counted)"
        yield f"Insert {insert.name}, {insert.count} of them{left}"
    if fetch.heat_C is not None:
        yield f"Oven at {temperature(fetch.heat_C.value, job)}"
    if fetch.chill is not None:
        yield f"{fetch.chill.name.capitalize()}, {temperature(fetch.chill.C.value, job)}"
    if fetch.press_N is not None:
        yield f"Press, {figures.force(fetch.press_N.value, job)}"
    for order in fetch.order:
        yield f"ORDER: {_order(job, order)}"


def _order(job: Job, order: Order) -> str:
    unit = figures.bench(job)
    wants = []
    if order.od is not None:
        wants.append(f"od at least {shown(order.od, unit, 'up')}")
    if order.height is not None:
        wants.append(f"height at least {shown(order.height, unit, 'up')}")
    if order.height_most is not None:
        wants.append(f"height at most {shown(order.height_most, unit, 'down')}")
    if order.id is not None:
        wants.append(f"id at most {shown(order.id, unit, 'down')}")
    alloy = f" in {' or '.join(order.alloy)}" if order.alloy else ""
    return f"an insert{alloy}, {', '.join(wants)}" if wants else f"an insert{alloy}"


def _valves(plan: Plan, head: Head) -> Table:
    job = plan.job
    bore, depth = figures.bore_gauge(job).unit, figures.depth_gauge(job).unit
    columns = ("Valve", "Insert", f"Bore {bore}", f"Depth {depth}", "Setting", "Stands")
    title = f"Head {head.name}".strip() if len(plan.heads) > 1 else "The valves"
    rows = tuple(_row(job, valve) for valve in valves_of(plan, head))
    return Table(columns, rows, f"{title}, bench figures{at(bench_at(job, head))}")


def _row(job: Job, valve: ValvePlan) -> tuple[str, ...]:
    on_hold = valve.status == Status.HOLD
    cut_to = valve.status in _WITH_FIGURES
    bore = (
        limits(valve.bore.bench_least, valve.bore.bench_most, figures.bore_gauge(job))
        if valve.bore is not None
        else None
    )
    depth = limits(valve.depth.least, valve.depth.most, figures.depth_gauge(job)) if valve.depth is not None else None
    # A figure beside a hold would be cut by: the line says HOLD and nothing that a cutter could be set to.
    return (
        bold(valve.name),
        (valve.insert.name if valve.insert is not None else NONE),
        bold("HOLD") if on_hold else bold_limits(bore) if cut_to else NONE,
        span(depth) if cut_to else NONE,
        str(valve.setting) if valve.setting is not None else NONE,
        bold(STATUS[valve.status]) if on_hold else STATUS[valve.status],
    )


def _sources(plan: Plan) -> Iterable[str]:
    """Whose interference figures are used, for which valves."""
    whose: dict[tuple[str, str], list[str]] = {}
    for valve in plan.valves:
        if valve.interference is not None:
            pair = limits(valve.interference.least, valve.interference.most, figures.bench(plan.job))
            key = (f"{pair[0].text} to {pair[1]}", valve.interference.source)
            whose.setdefault(key, []).append(valve.name)
    for (size, source), names in whose.items():
        yield f"{valves(names)}: {size} diametral, {source or 'no source named'}"
