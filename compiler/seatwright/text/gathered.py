"""One message a thing: all places and valves of one slug in one, and notices by their topic."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from itertools import takewhile

from msgspec.structs import replace

from seatwright.text.message import Message, Related, Severity, by_weight
from seatwright.text.registry import declared

_FEW = 3  # words in which two sentences may part and still be one
_FIGURE = re.compile(r"\(?[+-]?\d")


def gathered(messages: Iterable[Message]) -> tuple[Message, ...]:
    """The weightiest first; of holds, warnings and notices one a slug, at the first of its places, with all valves and
    figures in its text and the other places as related ones. Errors stay one a mistake.
    """
    kinds: dict[object, list[Message]] = {}
    for number, message in enumerate(by_weight(messages)):
        alone = message.severity is Severity.ERROR
        kinds.setdefault(number if alone else (message.severity, message.slug), []).append(message)
    return tuple(_one(alike) for alike in kinds.values())


def by_topic(messages: Iterable[Message]) -> Mapping[str, tuple[Message, ...]]:
    """The notices among them by topic, both in the order in which they come."""
    found: dict[str, list[Message]] = {}
    for message in messages:
        if message.severity is Severity.NOTICE:
            found.setdefault(declared()[message.slug].topic, []).append(message)
    return {topic: tuple(of_it) for topic, of_it in found.items()}


def _one(alike: Sequence[Message]) -> Message:
    first = alike[0]
    if len(alike) == 1:
        return first
    related = list(first.related)
    for other in alike[1:]:
        if other.span is not None and other.span != first.span:
            related.append(Related(other.span, f"{_whose(other)}{other.text}", same=True))
        related += other.related
    valves = dict.fromkeys(valve for message in alike for valve in message.valves)
    helps = dict.fromkeys(message.help for message in alike)
    return replace(
        first,
        text=_text(alike),
        help=first.help if len(helps) == 1 else _together(list(helps)),
        related=tuple(dict.fromkeys(related)),
        valves=tuple(valves),
    )


def _text(alike: Sequence[Message]) -> str:
    texts = dict.fromkeys(message.text for message in alike)
    if len(texts) == 1:
        return alike[0].text
    if (said := _likewise(alike)) is not None:
        return said
    if (said := _in_one_sentence(list(texts))) is not None:
        return said
    whose = {text: [message for message in alike if message.text == text] for text in texts}
    named = all(message.valves for message in alike)
    parts = [f"{_whose(*of_it)}{text}" if named else text for text, of_it in whose.items()]
    return " ".join(part if part.endswith((".", "!", "?")) else f"{part}." for part in parts)


def _likewise(alike: Sequence[Message]) -> str | None:
    """The first in full, of the others only the figures: where the sentences are the same but for these."""
    rows = [message.text.split(" ") for message in alike]
    if len({len(row) for row in rows}) > 1 or not all(message.valves for message in alike):
        return None
    parting = [at for at, words in enumerate(zip(*rows, strict=True)) if len(set(words)) > 1]
    others = []
    for message, row in zip(alike, rows, strict=True):
        words = [row[at].strip(",;:.()") for at in parting]
        figures = [word for word in words if word not in message.valves]
        if not all(_FIGURE.match(word) for word in figures):
            return None
        others.append(f"{' '.join(message.valves)} {', '.join(figures)}".strip())
    first = f"{_whose(alike[0])}{alike[0].text}"
    stop = "" if first.endswith((".", "!", "?")) else "."
    return f"{first}{stop} Likewise {'; '.join(dict.fromkeys(others[1:]))}."


def _together(texts: list[str]) -> str:
    return _in_one_sentence(texts) or " ".join(texts)


def _in_one_sentence(texts: Sequence[str]) -> str | None:
    """`How deep C1, C2 and C4 can go is not given.`: where they part in one place only, and in few words there."""
    rows = [text.split(" ") for text in texts]
    shortest = min(len(row) for row in rows)
    ahead = len(list(takewhile(lambda at: len({row[at] for row in rows}) == 1, range(shortest))))
    behind = len(list(takewhile(lambda at: len({row[-1 - at] for row in rows}) == 1, range(shortest - ahead))))
    parts = [row[ahead : len(row) - behind] for row in rows]
    if not all(0 < len(part) <= _FEW for part in parts) or ahead + behind < _FEW:
        return None
    words = [" ".join(part) for part in parts]
    if len({word[-1] for word in words}) == 1 and words[0][-1] in ",;:.":
        listed = f"{', '.join(word[:-1] for word in words[:-1])} and {words[-1]}"
    else:
        listed = f"{', '.join(words[:-1])} and {words[-1]}"
    return " ".join((*rows[0][:ahead], listed, *rows[0][len(rows[0]) - behind :]))


def _whose(*messages: Message) -> str:
    valves = dict.fromkeys(valve for message in messages for valve in message.valves)
    return f"{' '.join(valves)}: " if valves else ""
