"""The job sheet: holds, where each valve stands, what to fetch, the head from the deck; on its back whose figures are
used, what was not checked, and the cautions of the job."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from seatwright.cards.card import HATCHED, CardTable, Column, Content, DrawingOnCard, Listed
from seatwright.cards.escape import Markdown
from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import digits_shown, limits, shown, temperature
from seatwright.cards.parts.of_engine import engine_named, engine_of_head, in_place_of_maker
from seatwright.cards.parts.standing import SAID_HERE, nexts
from seatwright.cards.parts.unchecked import by_cost
from seatwright.cards.parts.words import (
    NONE,
    STATUS,
    WITH_FIGURES,
    all_or,
    at,
    bench_at,
    bold,
    bore_limits,
    capital,
    depth_limits,
    described,
    first_by_topic,
    held,
    name_text,
    notes,
    span,
    spoken_message,
    unquoted,
    valves,
    valves_of,
)
from seatwright.job.model import Head, Job
from seatwright.planning.basis import instruments
from seatwright.planning.plan import Caution, Fetch, Order, Plan, Setting, Status, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.text import Severity

_DONE = (Status.FINISHED, Status.LEFT_ALONE, Status.NOT_PLANNED)
_HELD = (Status.HOLD, Status.GUIDE_FIRST)

Places = Mapping[str, str]
"""Where each valve goes next, by its name: `card 3`."""


def job_sheet(plan: Plan, places: Places, drawings: Sequence[DrawingOnCard]) -> Content:
    """The whole job on one card, all heads."""
    said = dict(nexts(plan))
    warnings = [
        message for message in plan.messages
        if message.severity is Severity.WARNING and not (message.slug in SAID_HERE and set(message.valves) & set(said))
    ]  # fmt: skip
    every = tuple(valve.name for valve in plan.valves)
    listed = [Listed("", pairs=tuple((name, words) for name, words in said.items()))] if said else []
    if warnings:
        listed.append(
            Listed(
                "Look out",
                tuple(f"{spoken_message(one)} {unquoted(one.help)}{more}" for one, more in first_by_topic(warnings)),
            )
        )
    working = any(valve.status not in _DONE for valve in plan.valves)
    return Content(
        holds=held(plan.valves),
        facts=(_facts(plan),),
        tables=tuple(_valves(plan, head, places) for head in plan.heads if _open(plan, head)),
        lists=tuple(listed),
        fetch=tuple(_fetch(plan)) if working else (),
        below=tuple(_below(plan)),
        drawings=tuple(drawings),
        back=tuple(_back(plan, every)) if working else (),
        cautioned=tuple(caution.slug for caution in plan.cautions) if working else (),
        said=tuple(
            sorted(
                {message.slug for message in plan.messages if message.severity is Severity.WARNING}
                | {message.slug for message in plan.messages if message.slug in plan.not_checked and working}
                | {hold.slug for valve in plan.valves for hold in valve.holds}
            )
        ),
    )


def _open(plan: Plan, head: Head) -> bool:
    return any(valve.status not in _DONE for valve in valves_of(plan, head))


def _facts(plan: Plan) -> Markdown:
    said = []
    for head in plan.heads:
        name = f"Head {head.name}: " if head.name else ""
        limit = f", never over {temperature(head.heat_limit.value, plan.job)}" if head.heat_limit is not None else ""
        said.append(f"{name}{described(head)}{limit}.")
        engine = engine_of_head(plan, head)
        if engine is not None:
            said.append(f"Engine {engine_named(engine)}.")
    job = plan.job
    facts = (
        ("For", name_text(job.customer)),
        ("By", name_text(job.machinist)),
        ("Received", name_text(job.received)),
        ("Due", name_text(job.due)),
    )
    said += [f"{what} {of_it}." for what, of_it in facts if of_it]
    counts: dict[str, int] = {}
    for valve in plan.valves:
        counts[STATUS[valve.status]] = counts.get(STATUS[valve.status], 0) + 1
    said.append(f"{', '.join(f'{count} {_of_several(words, count)}' for words, count in counts.items())}.")
    return Markdown(" ").join(Markdown.escape(each) for each in said)


def _of_several(status: str, count: int) -> str:
    return {"seat to cut": "seats to cut", "guide first": "guides first"}.get(status, status) if count > 1 else status


def _below(plan: Plan) -> Iterator[str]:
    written = notes((*plan.job.notes, *(note for head in plan.heads for note in head.notes)))
    extras = (*plan.job.extras, *(extra for head in plan.heads for extra in head.extras))
    written += tuple(
        f"{f'{extra.valve} ' if extra.valve else ''}{capital(extra.word.removeprefix('x-'))}: {extra.text}".replace(
            '"', ""
        )
        for extra in extras
    )
    if written:
        yield f"Note: {' '.join(f'{each.rstrip(chr(46))}.' for each in written)}"


def _valves(plan: Plan, head: Head, places: Places) -> CardTable:
    job = plan.job
    of_head = valves_of(plan, head)
    faces = dict.fromkeys(valve.depth.from_ for valve in of_head if valve.depth is not None)
    face = f"from {' or '.join('old floor' if one == 'floor' else one for one in faces)}" if faces else ""
    columns = (
        Column("Valve", "", 15), Column("Status", "", 25), Column("Next", "", 21), Column("Insert", "", 22),
        Column(f"Bore {instruments.bore_gauge(job).unit}", at(bench_at(job, head)).strip(), 43),
        Column(f"Depth {figures.depth_gauge(job).unit}", face, 31), Column("Setting", "", 33),
    )  # fmt: skip
    title = f"Head {head.name or head.number}" if len(plan.heads) > 1 else ""
    by_number = {setting.number: setting for setting in plan.settings}
    rows = tuple(_row(plan, valve, by_number, places) for valve in of_head)
    return CardTable(columns, rows, title)


def _row(plan: Plan, valve: ValvePlan, settings: Mapping[int, Setting], places: Places) -> tuple[str, ...]:
    # A figure beside a hold would be cut by: the line says HOLD and nothing that a cutter could be set to.
    cut_to = valve.status in WITH_FIGURES
    status = STATUS[valve.status]
    setting = settings.get(valve.setting) if valve.setting is not None else None
    return (
        valve.name,
        bold(status) if valve.status not in (*_DONE, Status.TO_BORE) else status,
        places.get(valve.name, HATCHED),
        valve.insert.name if valve.insert is not None else NONE,
        span(bore_limits(plan.job, valve)) if cut_to else HATCHED,
        span(depth_limits(plan.job, valve)) if cut_to else HATCHED,
        setting.name if setting is not None else HATCHED,
    )


def _fetch(plan: Plan) -> Iterator[str]:
    job, fetch, settings = plan.job, plan.fetch, plan.settings
    if settings:
        yield from _to_bore(job, fetch, settings)
    pilots = list(dict.fromkeys((*fetch.pilots, *(name for setting in settings for _, name in setting.pilots))))
    if pilots:
        yield f"Pilots {', '.join(pilots)}"
    if fetch.inserts:
        each = ", ".join(f"{insert.name} {insert.count}{_left(insert.left)}" for insert in fetch.inserts)
        yield f"Inserts: {each}"
    if fetch.guides:
        each = ", ".join(f"{guide.name} {guide.count}{_left(guide.left)}" for guide in fetch.guides)
        yield f"Guides: {each}{'; reamers ' + ', '.join(fetch.reamers) if fetch.reamers else ''}"
    cuts = dict.fromkeys(
        figures.angle(cut.angle.value) for valve in plan.valves if valve.seat is not None and valve.status not in _DONE
        for cut in valve.seat.cuts
    )  # fmt: skip
    if cuts:
        tester = "; leak tester" if job.shop.practice.leak is not None else ""
        yield f"Seat cutters {', '.join(cuts)}{tester}"
    if fetch.heat_C is not None:
        yield f"Oven at {temperature(fetch.heat_C.value, job)}, contact thermometer"
    if fetch.chill is not None:
        name = fetch.chill.name[:1].upper() + fetch.chill.name[1:]
        yield f"{name} {temperature(fetch.chill.C.value, job)}, vessel, tongs, face shield"
    if fetch.press_N is not None:
        yield f"Press, {figures.force(fetch.press_N.value, job)}"
    for order in fetch.order:
        yield f"ORDER: {_order(job, order)}"


def _left(left: int | None) -> str:
    return f" ({left} left)" if left is not None else " (not counted)"


def _to_bore(job: Job, fetch: Fetch, settings: Sequence[Setting]) -> Iterator[str]:
    def sizes(what: str, asked: Iterable[Figure | None], instrument: instruments.Instrument) -> str:
        """`, masters 40.000 and 50.000`: every size that a card asks for, once."""
        found = sorted((each for each in asked if each is not None), key=lambda size: size.value)
        names = list(dict.fromkeys(digits_shown(size, instrument) for size in found))
        return f", {what}{'s' * (len(names) > 1)} {' and '.join(names)}" if names else ""

    masters = sizes("master", (setting.master for setting in settings), figures.gauge_of_setting(job, settings[0]))
    gauge = f", {fetch.gauge}{masters}" if fetch.gauge is not None else ""
    yield f"Cutter{'s' * (len(fetch.cutters) > 1)} {', '.join(fetch.cutters)}{gauge}"
    if fetch.bore_gauge is not None:
        rings = sizes("ring", (setting.ring for setting in settings), instruments.bore_gauge(job))
        yield f"{fetch.bore_gauge[0].upper()}{fetch.bore_gauge[1:]}{rings}"
    if any(stop for setting in settings for stop in setting.depth_stops):
        yield "Parallel, its thickness known; depth gauge; thin feelers"


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


def _back(plan: Plan, every: tuple[str, ...]) -> Iterator[Listed]:
    sources = tuple(_sources(plan, every))
    if sources:
        yield Listed("Whose figures", sources)
    for title, lines in by_cost(plan):
        yield Listed(f"Not checked. {title}", lines)
    cautions = tuple(_caution(caution, every) for caution in plan.cautions)
    if cautions:
        yield Listed("Cautions", cautions)


def _caution(caution: Caution, every: tuple[str, ...]) -> str:
    """One of the job's cautions: whose, the whole of it, and the agency that publishes a limit."""
    some = [name for name in every if name in caution.valves]
    whose = Markdown("**{}** ").format(valves(some)) if some and len(some) < len(every) else Markdown("")
    agency = Markdown(" ({})").format(caution.agency) if caution.agency else Markdown("")
    return Markdown("{}{}{}").format(whose, caution.text, agency)


def _sources(plan: Plan, every: tuple[str, ...]) -> Iterator[str]:
    """Whose interference figures are used, for which valves."""
    whose: dict[tuple[str, str], list[str]] = {}
    for valve in plan.valves:
        if valve.interference is not None:
            pair = limits(valve.interference.least, valve.interference.most, figures.bench(plan.job))
            key = (f"{pair[0].text} to {pair[1]}", valve.interference.source)
            whose.setdefault(key, []).append(valve.name)
    for head in plan.heads:
        for said in in_place_of_maker(head, valves_of(plan, head)):
            yield f"{capital(said)}."
    for (size, source), names in whose.items():
        yield f"Fit {size} on diameter, {source or 'no source named'} ({all_or(names, every)})."
    of_guides: dict[tuple[str, str], list[str]] = {}
    for valve in plan.valves:
        fit = valve.guide.fit
        if fit is not None and valve.guide_to_renew:
            pair = limits(fit.least, fit.most, figures.bench(plan.job))
            of_guides.setdefault((f"{pair[0].text} to {pair[1]}", fit.source), []).append(valve.name)
    for (size, source), names in of_guides.items():
        yield f"Fit of guides {size} on diameter, {source} ({all_or(names, every)})."
    overcuts = {setting.cutter: setting.overcut for setting in plan.settings if setting.overcut is not None}
    for cutter, overcut in overcuts.items():
        told = {"shop": "the shop's figure", "bore": "what its last cut did"}
        by = told.get(overcut.from_, f"{overcut.trials} trial cuts")
        yield f"{cutter} bores {shown(overcut.value, figures.bench(plan.job))} over its setting, by {by}."
