"""The one screen that `build` and `check` end with: the table of valves, what to do next, what is left to read."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.cards.parts.words import STATUS, WITH_FIGURES, bore_limits, span
from seatwright.commands.terminal.to_do import first_sentence, to_do
from seatwright.planning.plan import Plan, ValvePlan
from seatwright.text import Message, Severity
from seatwright.text.gathered import by_topic
from seatwright.text.registry import declared
from seatwright.text.showing import visible


def screen(plan: Plan, first: str) -> str:
    """The table under a first line, then what to do next: the words and the digits of the cards."""
    head = ("valve", "insert", "bore at the bench", "setting", "status")
    rows = [head, *(_row(plan, valve) for valve in plan.valves)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(head))]
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]
    steps = to_do(plan)
    said = [first, *(f"  {line}" for line in lines), *(["next:"] if steps else ()), *(f"  {each}" for each in steps)]
    return "".join(f"{visible(line)}\n" for line in said)


def first_to_mend(errors: Sequence[Message]) -> str:
    """What comes next where there is no plan."""
    if not errors:
        return ""
    span = errors[0].span
    where = f", from {visible(span.file)}:{span.line} on" if span is not None else ""
    return f"next:\n  Put right {_counted(len(errors), 'error')}{where}.\n"


def in_brief(messages: Sequence[Message], columns: int) -> str:
    """Each warning in one line, of messages one a slug: its figures where they fit, else what it means."""
    lines = []
    for message in messages:
        if message.severity is Severity.WARNING:
            place = f"{message.span.file}:{message.span.line}  " if message.span is not None else ""
            whose = f"{' '.join(message.valves)}: " if message.valves else ""
            head = f"warning {message.slug}  {place}{whose}"
            first = first_sentence(message.text)
            fits = len(head) + len(first) <= columns
            lines.append(visible(head + (first if fits else declared()[message.slug].meaning)))
    return "".join(f"{line}\n" for line in lines)


def topic_lines(messages: Sequence[Message]) -> str:
    """The notices, a line each topic: what each of them is called."""
    found = by_topic(messages)
    return "".join(
        f"notice  {topic}: {', '.join(dict.fromkeys(message.slug for message in of_it))}\n"
        for topic, of_it in found.items()
    )


def the_rest(messages: Sequence[Message], command: str) -> str:
    """How much there is that was not said in full, and the command that says it; "" for nothing."""
    count = len(by_topic(messages))
    return f"{_counted(count, 'topic')} not given or not checked: `{visible(command)}`\n" if count else ""


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _row(plan: Plan, valve: ValvePlan) -> tuple[str, str, str, str, str]:
    holds = ", ".join(hold.slug for hold in valve.holds)
    return (
        valve.name,
        valve.insert.name if valve.insert else "-",
        _limits(plan, valve),
        _setting(plan, valve),
        f"HOLD ({holds})" if holds else STATUS[valve.status],
    )


def _setting(plan: Plan, valve: ValvePlan) -> str:
    setting = next((each for each in plan.settings if each.number == valve.setting), None)
    return setting.name if setting is not None else "-"


def _limits(plan: Plan, valve: ValvePlan) -> str:
    """As on the cards: in the unit of the bore gauge, inwards to its step."""
    pair = bore_limits(plan.job, valve) if valve.status in WITH_FIGURES else None
    return f"{span(pair)} {pair[0].unit}" if pair is not None else "-"
