"""The record: as found, replaced, cut, finished, one line a valve; it goes to the customer with the head."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from seatwright.cards.card import Box, Content, Listed
from seatwright.cards.escape import Markdown
from seatwright.cards.kinds.close_out import close_out, tested
from seatwright.cards.kinds.record_table import record_table
from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import limits
from seatwright.cards.parts.of_engine import engine_named, engine_of_head, in_place_of_maker
from seatwright.cards.parts.unchecked import unchecked, unchecked_of_head
from seatwright.cards.parts.words import (
    NO_INSERT,
    all_or,
    blank,
    capital,
    described,
    first_by_topic,
    name_text,
    notes,
    of_the_trade,
    span,
    spoken_message,
    unquoted,
    valves_of,
)
from seatwright.job.model import Given, Head, Job, Limits, Specification
from seatwright.planning.basis.wording import spring_force
from seatwright.planning.plan import Plan, ValvePlan
from seatwright.text import Message, Severity

_FIRST = re.compile(r"; |\. ")  # after what was found comes what follows from it


def record(plan: Plan, head: Head, *, close: bool) -> Content:
    """What is in the head now, what was found, whose figures were used, what was not checked, room to sign.

    close: no card before it has the pressure test.
    """
    job, of_head = plan.job, valves_of(plan, head)
    every = tuple(valve.name for valve in of_head)
    left = unchecked(plan, every)
    pairs = [
        ("Found", " ".join(_sentences(dict.fromkeys(_found(plan, of_head))))),
        ("Springs", " ".join(_sentences(_springs(job, of_head)))),
        ("Hold", Markdown(" ").join(_holds(of_head))),
        ("Notes", " ".join(_sentences(notes((*plan.job.notes, *head.notes))))),
        ("Whose figures", " ".join(_sentences((*_of_engine(plan, head), *_sources(plan.job, of_head))))),
        ("Not checked", " ".join(unchecked_of_head(left, every)) or "Everything that was given was checked."),
    ]
    said = [(what, of_it) for what, of_it in pairs if of_it]
    after = tested(plan, head)
    boxes: tuple[Box, ...] = () if after or not close else (close_out(plan, head, 1),)
    return Content(
        facts=(_facts(plan, head, after, close),),
        tables=(record_table(job, of_head),),
        lists=(Listed("", pairs=tuple(said)),),
        last=boxes,
        signed=("Bored and measured by, date", "Checked by, date", "Head handed over to, date"),
        closing="Limits and fits are those named above; where none is named, none was checked.",
        cautioned=("pressure-test",) if boxes else (),
        said=tuple(
            sorted(
                {message.slug for message in left}
                | {message.slug for message in _warnings(plan, of_head)}
                | {hold.slug for valve in of_head for hold in valve.holds}
            )
        ),
    )


def _facts(plan: Plan, head: Head, after: str, close: bool) -> Markdown:
    said = [Markdown("{}.").format(described(head))] if described(head) else []
    if plan.job.customer is not None:
        said.append(Markdown("For {}.").format(plan.job.customer.text))
    if plan.job.machinist is not None:
        said.append(Markdown("By {}.").format(plan.job.machinist.text))
    said.append(Markdown("Crack test: {}.").format(name_text(head.crack_test) or blank(8)))
    said.append(Markdown("Pressure test before the work: {}.").format(name_text(head.pressure_test) or blank(8)))
    if head.skim is not None:
        when = (head.skim.when or "when not said").replace("-", " ")
        said.append(Markdown("Deck: {} taken off, {}.").format(figures.typed(head.skim.amount), when))
    if after or not close:
        said.append(Markdown("Pressure test of the whole head after the work: {}.").format(after or blank(10)))
    return Markdown(" ").join(said)


def _warnings(plan: Plan, of_head: tuple[ValvePlan, ...]) -> Iterator[Message]:
    names = {valve.name for valve in of_head}
    for message in plan.messages:
        if message.severity is Severity.WARNING and (not message.valves or names & set(message.valves)):
            yield message


def _found(plan: Plan, of_head: tuple[ValvePlan, ...]) -> Iterable[str]:
    """What was found that calls for a look: warnings, without what is to be done; damage; what came out."""
    for message, more in first_by_topic(_warnings(plan, of_head)):
        yield f"{_FIRST.split(spoken_message(message), maxsplit=1)[0].rstrip('.')}.{more}"
    for valve in of_head:
        damage, deep = valve.found.damage, valve.found.damage_depth
        if damage is not None:
            far = f", {figures.as_read(plan.job, deep)} deep" if deep is not None else ""
            yield f"{valve.name}: damaged out to Ø{figures.as_read(plan.job, damage)}{far}"
        was = getattr(valve, "insert_was", None)
        if was:
            yield f"{valve.name}: old insert {was}"
        for part in valve.valve.replaced:
            what = _guide_in(plan.job, valve) if part.part == "guide" else ""
            yield f"{valve.name}: {part.part} renewed {part.date}{what}"


def _guide_in(job: Job, valve: ValvePlan) -> str:
    """The guide that is in, its fit, and what it leaves the stem; "" where none was planned."""
    guide, unit = valve.guide, figures.bench(job)
    said = []
    if guide.name is not None:
        said.append(f"{guide.name}{f' of {guide.alloy}' if guide.alloy else ''}")
    if guide.name is not None and guide.fit is not None and guide.fit.expected is not None:
        said.append(f"fit {figures.shown(guide.fit.expected, unit)}")
    if guide.clearance is not None:
        said.append(f"clearance to the stem {figures.shown(guide.clearance, unit)}")
    return f": {', '.join(said)}" if said else ""


def _springs(job: Job, of_head: tuple[ValvePlan, ...]) -> Iterable[str]:
    """The force of each spring that is known, shut, at the height where it stands; by the maker's line: said."""
    found: dict[str, list[str]] = {}
    for valve in of_head:
        spring = valve.spring
        if spring is not None and spring.force_shut is not None and spring.height is not None:
            height = figures.shown(spring.height, figures.seat_gauge(job))
            line = "" if spring.measured else ", not measured, by the maker's line"
            force = spring_force(job, spring.force_shut.value)
            found.setdefault(f"shut at {height}{line}", []).append(f"{valve.name} {force}")
    for where, forces in found.items():
        yield f"{', '.join(forces)} {where}"


def _holds(of_head: tuple[ValvePlan, ...]) -> Iterator[str]:
    for valve in of_head:
        for hold in valve.holds:
            yield Markdown("{}: {} Lifted by {}").format(valve.name, of_the_trade(unquoted(hold.text)), blank(12))


def _sentences(said: Iterable[str]) -> Iterator[str]:
    for each in said:
        yield f"{capital(of_the_trade(each)).rstrip('.')}."


def _of_engine(plan: Plan, head: Head) -> Iterable[str]:
    """The engine whose maker's limits are used, and what the job says in their place."""
    engine = engine_of_head(plan, head)
    if engine is not None:
        yield f"Limits of engine {engine_named(engine)}"
    yield from in_place_of_maker(head, valves_of(plan, head))


def _sources(job: Job, of_head: tuple[ValvePlan, ...]) -> Iterable[str]:
    """Whose figures were used: interference first, then every limit that has a source behind it, but those of the
    engine, which is named once for all."""
    makers = {engine.path for engine in job.engines}
    whose: dict[tuple[str, str], list[str]] = {}
    unit, every = figures.bench(job), [valve.name for valve in of_head if valve.status not in NO_INSERT]
    for valve in of_head:
        fit = valve.interference
        if fit is not None:
            size = f"{span(limits(fit.least, fit.most, unit))} {unit.unit}"
            whose.setdefault((f"Fit {size} on diameter", fit.source or "no source named"), []).append(valve.name)
    for valve in of_head:
        if valve.status in NO_INSERT:
            continue
        for field in Specification.__struct_fields__:
            given = getattr(valve.valve.specification, field)
            if (
                field != "interference"
                and isinstance(given, (Given, Limits))
                and given.source
                and given.span.file not in makers
            ):
                what = f"{field.replace('_', ' ')} {given.typed}".replace('"', " in")
                whose.setdefault((what, given.source), []).append(valve.name)
    for valve in of_head:
        fit_of_guide, spec = valve.guide.fit, valve.valve.specification
        if fit_of_guide is not None and spec.guide_fit is None:
            size = f"{span(limits(fit_of_guide.least, fit_of_guide.most, unit))} {unit.unit}"
            whose.setdefault((f"Fit of guides {size}", fit_of_guide.source), []).append(valve.name)
        told = {one.force.source for one in (*spec.spring_force, *spec.spring_least)} - {""}
        if valve.spring is not None and not makers & {one.force.span.file for one in spec.spring_force}:
            for source in sorted(told):
                whose.setdefault(("Spring forces", source), []).append(valve.name)
    for (what, source), names in whose.items():
        yield f"{what}, {source} ({all_or(names, every)})"
