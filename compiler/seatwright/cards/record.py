"""The record: as found, planned, cut, finished, one line a valve; it goes to the customer with the head."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seatwright.cards import figures
from seatwright.cards.card import Content
from seatwright.cards.escape import Markdown
from seatwright.cards.figures import limits
from seatwright.cards.record_tables import cut, finished, found, in_the_head, planned
from seatwright.cards.words import NO_INSERT, blank, fitted, notes, span, spoken, text, unquoted, valves, valves_of
from seatwright.job.model import Given, Head, Job, Limits, Specification
from seatwright.planning.plan import Plan, ValvePlan
from seatwright.text import Message, Severity


def record(plan: Plan, head: Head, narrow: bool) -> Content:
    """What is in the head now, what was found, whose figures were used, what was not checked, room to sign."""
    job = plan.job
    of_head = valves_of(plan, head)
    tables = (
        found(of_head), planned(job, of_head), cut(job, of_head), in_the_head(job, of_head), finished(job, of_head)
    )  # fmt: skip
    return Content(
        lines=_lines(plan, head),
        tables=tuple(part for table in tables if table.rows for part in fitted(table, narrow)),
        warnings=tuple(dict.fromkeys(_found(plan, of_head))),
        notes=tuple(_notes(plan, head)),
        sources=tuple(_sources(job, of_head)),
        not_checked=tuple(dict.fromkeys(_not_checked(plan, of_head))),
        signed=(
            Markdown("Bored and measured by {} date {}").format(blank(9), blank(7)),
            Markdown("Checked by {} date {}").format(blank(9), blank(7)),
            Markdown("Head handed over to {} date {}").format(blank(9), blank(7)),
        ),
        closing="Limits and fits are those named above; where none is named, none was checked.",
        said=tuple(
            sorted(
                {message.slug for message in plan.messages if message.slug in plan.not_checked}
                | {message.slug for message in _warnings(plan, of_head)}
                | {hold.slug for valve in of_head for hold in valve.holds}
            )
        ),
    )


def _lines(plan: Plan, head: Head) -> tuple[tuple[str, str], ...]:
    words = [head.text, head.material.name if head.material else "", text(head.fuel)]
    lines = [("Head", ", ".join(word for word in words if word))]
    if plan.job.customer is not None:
        lines.append(("Customer", plan.job.customer.text))
    if plan.job.machinist is not None:
        lines.append(("Machinist", plan.job.machinist.text))
    lines.append(("Crack test", text(head.crack_test) or blank(16)))
    lines.append(("Pressure test before", text(head.pressure_test) or blank(16)))
    if head.skim is not None:
        when = (head.skim.when or "when not said").replace("-", " ")
        lines.append(("Deck", f"{figures.typed(head.skim.amount)} skimmed, {when}"))
    lines.append(("Pressure test of the whole head after the work", _held(valves_of(plan, head)) or blank(12)))
    return tuple(lines)


def _held(of_head: tuple[ValvePlan, ...]) -> str:
    """What the pressure test showed, where it was written for every valve."""
    tests = {valve.finished.pressure_test if valve.finished is not None else None for valve in of_head}
    said = tests.pop() if len(tests) == 1 else None
    return said or ""


def _warnings(plan: Plan, of_head: tuple[ValvePlan, ...]) -> Iterator[Message]:
    names = {valve.name for valve in of_head}
    for message in plan.messages:
        if message.severity is Severity.WARNING and (not message.valves or names & set(message.valves)):
            yield message


def _found(plan: Plan, of_head: tuple[ValvePlan, ...]) -> Iterable[str]:
    """What was found that calls for a look: holds, then warnings, without what is to be done."""
    for valve in of_head:
        for hold in valve.holds:
            yield f"{valve.name} on hold: {unquoted(hold.text)}"
    for message in _warnings(plan, of_head):
        yield spoken(message)


def _notes(plan: Plan, head: Head) -> Iterable[str]:
    """What somebody wrote for the record."""
    yield from notes((*plan.job.notes, *head.notes))
    for extra in (*plan.job.extras, *head.extras):
        yield f"{extra.valve + ' ' if extra.valve else ''}{extra.word} {extra.text}"


def _sources(job: Job, of_head: tuple[ValvePlan, ...]) -> Iterable[str]:
    """Whose figures were used: interference first, then every limit that has a source behind it."""
    whose: dict[tuple[str, str], list[str]] = {}
    unit = figures.bench(job)
    for valve in of_head:
        fit = valve.interference
        if fit is not None:
            size = f"{span(limits(fit.least, fit.most, unit))} {unit.unit}"
            whose.setdefault((f"Interference {size}", fit.source or "no source named"), []).append(valve.name)
    for valve in of_head:
        if valve.status in NO_INSERT:
            continue
        for field in Specification.__struct_fields__:
            given = getattr(valve.valve.specification, field)
            if field != "interference" and isinstance(given, Given | Limits) and given.source:
                what = f"{field.replace('_', '-')} {given.typed}"
                whose.setdefault((what, given.source), []).append(valve.name)
    for (what, source), names in whose.items():
        yield f"{valves(names)}: {what}, {source}"


def _not_checked(plan: Plan, of_head: tuple[ValvePlan, ...]) -> Iterable[str]:
    names = {valve.name for valve in of_head}
    for message in plan.messages:
        mine = not message.valves or bool(names & set(message.valves))
        if mine and message.severity is Severity.NOTICE and message.slug in plan.not_checked:
            yield spoken(message)
