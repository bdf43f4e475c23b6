"""Words that several cards share: blanks, lists of valves, limits, holds, the name of a setting."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from seatwright.cards.card import BLANK, Held
from seatwright.cards.escape import Markdown
from seatwright.cards.parts.figures import Shown, depth_gauge, digits_shown, limits, seat_gauge, temperature
from seatwright.job.model import Head, Job, Named, Note
from seatwright.planning.basis.instruments import bore_gauge
from seatwright.planning.plan import HeightLimits, Plan, Status, ValvePlan
from seatwright.text import Message

NONE = "–"
STATUS: Mapping[str, str] = {
    Status.TO_BORE: "to bore",
    Status.GUIDE_FIRST: "guide first",
    Status.HOLD: "HOLD",
    Status.ACCEPTED: "accepted",
    Status.MEASURE_AGAIN: "measure again",
    Status.BORE_AGAIN: "bore again",
    Status.OVERSIZE: "oversize",
    Status.FINISHED: "finished",
    Status.LEFT_ALONE: "left alone",
    Status.NOT_PLANNED: "not planned",
    Status.KEPT: "kept",
    Status.TO_CUT: "seat to cut",
}

TO_BORE = frozenset({Status.TO_BORE})
WITH_FIGURES = TO_BORE | {Status.BORE_AGAIN}
"""Statuses in which a bore is still cut to: beside any other its figures would be cut by."""
NOT_BORED = frozenset({Status.LEFT_ALONE, Status.NOT_PLANNED, Status.KEPT, Status.TO_CUT})
NO_INSERT = frozenset({Status.LEFT_ALONE, Status.NOT_PLANNED})

_CALLED = {"tip-height": "stem height", "pocket-tir": "runout of the pocket", "seat-runout": "runout of the seat"}
_FIELD = re.compile(
    r"\b(?:guide|seat|pocket|throat|top|face|head|hot|least|heat|metal|tip|stem|spring|insert|old|depth|valve|damage|floor"
    r"|bore|clean|torque|surface|trial|chamfer)(?:-[a-z]+)+\b"
)


@lru_cache(16)
def blank(marks: int = len(BLANK)) -> Markdown:
    """Room to write: a line in a sentence, the whole cell in a table."""
    return Markdown("_" * marks)


def bold(text: str) -> Markdown:
    """Text that stands out, or the mark of an empty cell."""
    return Markdown(f"**{Markdown.escape(text)}**") if text and text != NONE else Markdown.escape(text or NONE)


def bore_limits(job: Job, valve: ValvePlan) -> tuple[Shown, Shown] | None:
    """The limits of a bore as the bore gauge shows them at the bench."""
    bore = valve.bore
    return None if bore is None else limits(bore.bench_least, bore.bench_most, bore_gauge(job))


def depth_limits(job: Job, valve: ValvePlan) -> tuple[Shown, Shown] | None:
    """The limits of a depth."""
    depth = valve.depth
    return None if depth is None else limits(depth.least, depth.most, depth_gauge(job))


def limits_below(job: Job, limits_: HeightLimits | None) -> str:
    """How a face is to lie below another, inwards: `0.05 to 0.10 below`, `0.02 proud to 0.05 below`; "" without one."""
    if limits_ is None or limits_.least is None or limits_.most is None:
        return ""
    low, high = limits(limits_.least, limits_.most, seat_gauge(job))
    if float(low.text) < 0:
        side = f"{high.text} below" if float(high.text) > 0 else "flush"
        if float(high.text) < 0:
            return f"{high.text.lstrip('-')} to {low.text.lstrip('-')} proud"
        return f"{low.text.lstrip('-')} proud to {side}"
    return f"{low.text} below" if low.text == high.text else f"{low.text} to {high.text} below"


def wanted(job: Job, limits_: HeightLimits | None) -> str:
    """Limits of a height, inwards: `0.70 to 1.10`, `most 1.10`, `least 0.70`, `aim 0.90`; "" without any."""
    if limits_ is None:
        return ""
    if limits_.least is not None and limits_.most is not None:
        return span(limits(limits_.least, limits_.most, seat_gauge(job)))
    for word, figure, way in (("most", limits_.most, "down"), ("least", limits_.least, "up")):
        if figure is not None:
            return f"{word} {digits_shown(figure, seat_gauge(job), way)}"
    return f"aim {digits_shown(limits_.aim, seat_gauge(job))}" if limits_.aim is not None else ""


def span(pair: tuple[Shown, Shown] | None) -> str:
    """`44.011 to 44.029`; `44.018` where both are one figure."""
    if pair is None or pair[0].text == pair[1].text:
        return pair[0].text if pair else NONE
    return f"{pair[0].text} to {pair[1].text}"


def valves(names: Iterable[str]) -> str:
    """`I1 E1 E2`."""
    return " ".join(names)


def name_text(named: Named | None) -> str:
    """The text of a name, "" without one."""
    return named.text if named is not None else ""


def notes(written: Iterable[Note]) -> tuple[str, ...]:
    """Notes of the job, each with the valves that it speaks of."""
    return tuple(f"{valves(note.valves)}: {note.text}" if note.valves else note.text for note in written)


def spoken_message(message: Message) -> str:
    """What a message says, its valves named once: a text that begins with one of them and has all names them itself."""
    said = unquoted(message.text)
    spoken_of = set(re.findall(r"\w+", said))
    itself = spoken_of.issuperset(message.valves) and re.split(r"\W", said, maxsplit=1)[0] in message.valves
    return said if itself or not message.valves else f"{valves(message.valves)}: {said}"


def unquoted(said: str) -> str:
    """What a message says, without the marks that set off words of the job file on a screen."""
    return said.replace("`", "")


def valves_of(plan: Plan, head: Head) -> tuple[ValvePlan, ...]:
    """The planned valves of a head, in its order."""
    return tuple(valve for valve in plan.valves if valve.head == head.number)


def held(valves_on_card: Iterable[ValvePlan]) -> tuple[Held, ...]:
    """What each hold of these valves says, valves that are held for the same in one box."""
    found: dict[tuple[str, str], list[str]] = {}
    for valve in valves_on_card:
        for hold in valve.holds:
            found.setdefault((unquoted(hold.text), unquoted(hold.help)), []).append(valve.name)
    return tuple(Held(f"HOLD {valves(names)}", name_text, help) for (name_text, help), names in found.items())


def bench_at(job: Job, head: Head) -> str:
    """The temperature that bench figures are meant at, "" where none is given."""
    given = head.temperature or (job.bore_gauge.temperature if job.bore_gauge is not None else None)
    return temperature(given.value, job) if given is not None else ""


def at(words: str) -> str:
    """` at 22 °C`, or nothing."""
    return f" at {words}" if words else ""


def all_or(names: Sequence[str], every: Sequence[str]) -> str:
    """`all` where it is every valve, else their names."""
    return "all" if len(every) > 1 and set(names) >= set(every) else valves(names)


def of_the_trade(said: str) -> str:
    """What a message says in words, without the names of fields that it speaks of: `seat width` for `seat-width`."""
    return _FIELD.sub(lambda found: _CALLED.get(found[0], found[0].replace("-", " ")), said)


def described(head: Head) -> str:
    """What a head is, in a line: its text, its metal where the text does not say it, its fuel."""
    metal = head.material.name if head.material is not None else ""
    words = [head.text, metal if metal.lower() not in head.text.lower() else "", name_text(head.fuel)]
    return capital(", ".join(word for word in words if word))


def capital(said: str) -> str:
    """What begins a sentence."""
    return said[:1].upper() + said[1:]


def first_by_topic(messages: Iterable[Message]) -> tuple[tuple[Message, str], ...]:
    """The first message of each topic, and the other valves that have one like it: a line a topic."""
    topics: dict[str, list[Message]] = {}
    for message in messages:
        topics.setdefault(message.slug, []).append(message)
    found = []
    for first, *others in topics.values():
        more = dict.fromkeys(name for each in others for name in each.valves if name not in first.valves)
        found.append((first, f" Likewise {valves(more)}." if more else ""))
    return tuple(found)
