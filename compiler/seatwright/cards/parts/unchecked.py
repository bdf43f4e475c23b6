"""What was not given, and so not checked: grouped by what it may cost, one line a topic."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from seatwright.cards.parts.words import capital, of_the_trade, unquoted, valves
from seatwright.planning.plan import Plan
from seatwright.text import Message, Severity

# What may be lost where a thing was not looked at: by the words of the message's name, in this order.
_GROUPS = {
    "May cost a valve or its train": "stem tip spring recession guide pilot pilots seat leak angle land",
    "May cost an insert": "expansion assembly press force interference insert running yield grab slip chamfer corner",
    "May cost the head": "bridge floor rings ring bore gauge master masters temperature heat stress metal depth clean "
    "spacing reach overcut strength pocket throat lean time torque",
}
_OTHER = "Besides"
_SHORTEST = 24  # letters: less than that says nothing alone
_ENOUGH = re.compile(r"\b(?:not|no|beyond|nobody|neither)\b", re.I)


def unchecked(plan: Plan, names: Iterable[str]) -> tuple[Message, ...]:
    """The messages of what was not checked on these valves, each text once."""
    here = set(names)
    found = {
        message.text: message
        for message in plan.messages
        if message.severity is Severity.NOTICE
        and message.slug in plan.not_checked
        and (not message.valves or here & set(message.valves))
    }
    return tuple(found.values())


def unchecked_topics(messages: Iterable[Message], every: tuple[str, ...]) -> Iterator[str]:
    """A line each: what, then whose."""
    for message in messages:
        said = of_the_trade(unquoted(message.text)).rstrip(".")
        first, colon, _ = said.partition(": ")
        if colon and len(first) > _SHORTEST and _ENOUGH.search(first):
            said = first
        mine = [name for name in every if name in message.valves]
        whose = f" ({valves(mine)})" if mine and len(mine) < len(every) else ""
        yield capital(f"{said}{whose}.")


def by_cost(plan: Plan) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Groups in the order of what they may cost, each with its lines."""
    every = tuple(valve.name for valve in plan.valves)
    left = list(unchecked(plan, every))
    for title, said in _GROUPS.items():
        words = set(said.split())
        mine = [message for message in left if words & set(message.slug.split("-"))]
        left = [message for message in left if not words & set(message.slug.split("-"))]
        if mine:
            yield title, tuple(unchecked_topics(mine, every))
    if left:
        yield _OTHER, tuple(unchecked_topics(left, every))
