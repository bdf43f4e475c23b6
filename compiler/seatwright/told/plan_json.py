"""The plan as plan.json holds it: a walk over the plan's own names, with the few exceptions declared.

Lengths in mm, angles in degrees, temperatures in °C, stresses in MPa, forces in N; six decimals. What was not computed
is left out; an empty list stays. Names come from the plan's fields: a field added there is in plan.json at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache

from msgspec import Struct

import seatwright
from seatwright.job.model import Given, Head, Job, Measured, Named, Note, Reading
from seatwright.planning.plan.figure import Figure
from seatwright.told.limits import practice_limits
from seatwright.planning.plan import FinishedPlan, Plan, Setting, ValvePlan
from seatwright.text import Message, Span

FORMAT = "seatwright-plan/1"
LANGUAGE = 1
DECIMALS = 6

# Pairs of a name and what it has: a tuple of pairs in the plan, an object in plan.json, under this name.
_OBJECTS: Mapping[tuple[type, str], str] = {
    (Setting, "pilots"): "pilot",
    (FinishedPlan, "verdicts"): "verdicts",
}

# A plan has thousands of parts: these are put together once, not for each.
_AS_IT_IS = (bool, int, str)
_WITH_A_VALUE = (Figure, Given)
_SEVERAL = (tuple, list)

# The part of a valve that plan.json writes in a way of its own: the key of the object, the job's own valve, what was
# found, and the holds, which are a list of slugs and an object of their texts.
_VALVE_EXCEPTIONS = frozenset({"name", "valve", "found", "holds"})


class CardEntry(Struct, frozen=True):
    """A card as plan.json lists it. name: as-found, job, guides, setting, press, seat, record. stamp: its own."""

    number: int
    of: int
    name: str
    head: int | None
    valves: tuple[str, ...]
    stamp: str


def plan_document(
    plan: Plan,
    *,
    cards: Sequence[CardEntry] = (),
    caution_cards: Mapping[str, Sequence[int]] | None = None,
    message_cards: Callable[[Message], Sequence[int]] | None = None,
    stamp: str | None = None,
    commit: str | None = None,
    paper: str | None = None,
) -> dict[str, object]:
    """The whole of plan.json as plain dictionaries, lists, texts and numbers, in the order in which it is written.

    cards : as laid out; () before they are
    caution_cards : on which cards a caution stands, by its slug
    message_cards : on which cards a message is printed
    stamp, commit : of the sources, left out where None
    paper : another than the job's
    """
    on_cards = caution_cards or {}
    temperatures = {head.number: head.temperature for head in plan.heads}
    valves = {each.name: _valve(each, temperatures.get(each.head)) for each in plan.valves}
    document: dict[str, object | None] = {
        "format": FORMAT,
        "made_by": f"seatwright {seatwright.__version__}",
        "language": LANGUAGE,
        "stamp": stamp,
        "commit": commit,
        "job": _job(plan.job, paper),
        "sources": [{"path": source.path, "sha256": source.sha256} for source in plan.job.sources],
        "cards": plain(tuple(cards)),
        "heads": [_head(head) for head in plan.heads],
        "valves": valves,
        "limits": practice_limits(plan.job.shop.practice),
    }
    for name in ("settings", "trials", "fewest_settings_proof", "bridges", "fetch"):
        document[name] = plain(getattr(plan, name))
    document["cautions"] = [caution.slug for caution in plan.cautions]
    document["caution_places"] = {
        caution.slug: {"cards": list(on_cards.get(caution.slug, ())), "valves": list(caution.valves)}
        for caution in plan.cautions
    }
    document["not_checked"] = list(plan.not_checked)
    document["messages"] = [
        _message(message, message_cards(message) if message_cards else ()) for message in plan.messages
    ]
    return _present(document)


def plain(part: object) -> object:
    """A part of the plan as plan.json holds it; None for what was not computed."""
    if part is None or isinstance(part, _AS_IT_IS):
        return part
    if isinstance(part, _WITH_A_VALUE):
        return number(part.value)
    if isinstance(part, float):
        return number(part)
    if isinstance(part, _SEVERAL):
        return [plain(each) for each in part]
    if isinstance(part, Struct):
        return _object(part)
    raise TypeError(f"plan.json has no form for a {type(part).__name__}")


def number(value: float) -> float:
    """A value with six decimals, and 0 without a sign."""
    return round(value, DECIMALS) + 0.0


def _object(part: Struct, leave_out: frozenset[str] = frozenset()) -> dict[str, object]:
    found: dict[str, object | None] = {}
    for attribute, name in _names(type(part)):
        if name in leave_out:
            continue
        value = getattr(part, attribute)
        as_object = _OBJECTS.get((type(part), attribute))
        if as_object is None:
            found[name] = plain(value)
        else:
            found[as_object] = {key: plain(each) for key, each in value}
    return _present(found)


@cache
def _names(kind: type[Struct]) -> tuple[tuple[str, str], ...]:
    """The fields of a part of the plan and their names in plan.json: `from_` is a word of Python's, `from` is meant."""
    return tuple((field, field.rstrip("_")) for field in kind.__struct_fields__)


def _present(values: Mapping[str, object | None]) -> dict[str, object]:
    """Without what is None."""
    return {name: value for name, value in values.items() if value is not None}


def _valve(valve: ValvePlan, temperature: Given | None) -> dict[str, object]:
    written = _object(valve, _VALVE_EXCEPTIONS)
    written["found"] = _found(valve, temperature)
    written["holds"] = [hold.slug for hold in valve.holds]
    written["holds_text"] = {hold.slug: hold.text for hold in valve.holds}
    return written


def _found(valve: ValvePlan, temperature: Given | None) -> dict[str, object]:
    """The cells of `measured` as read, what they held before, newest first, and at what temperature.

    temperature : of the head, where no table of this valve says another
    """
    found: dict[str, object] = {}
    earlier: dict[str | None, dict[str, object]] = {}
    at, latest = temperature, ""
    for column, reading in _readings(valve.found):
        found[column] = number(reading.value)
        if reading.at is not None and (reading.date or "") >= latest:
            at, latest = reading.at, reading.date or ""
        for before in reading.earlier:
            earlier.setdefault(before.date, {})[column] = number(before.value)
    if valve.found.insert is not None:
        found["insert"] = valve.found.insert.text
    if at is not None:
        found["temperature_C"] = number(at.value)
    newest_first = sorted(earlier, key=lambda date: date or "", reverse=True)
    found["earlier"] = [_present({"date": date, **earlier[date]}) for date in newest_first]
    return found


def _readings(found: Measured) -> Iterable[tuple[str, Reading]]:
    for column, _ in _names(Measured):
        reading = getattr(found, column)
        if isinstance(reading, Reading):
            yield column, reading


def _job(job: Job, paper: str | None) -> dict[str, object]:
    return _present(
        {
            "number": job.number,
            "title": job.title,
            "customer": _text(job.customer),
            "machinist": _text(job.machinist),
            "received": _text(job.received),
            "due": _text(job.due),
            "units": job.units,
            "paper": paper or job.paper or paper_left_out(job),
            "notes": _notes(job.notes),
        }
    )


def paper_left_out(job: Job) -> str:
    """The paper where the job names none: the language says a4 in mm, letter in inch."""
    return "letter" if job.units == "inch" else "a4"


def _head(head: Head) -> dict[str, object]:
    skim = head.skim
    return _present(
        {
            "number": head.number,
            "name": head.name,
            "text": head.text,
            "material": head.material.name if head.material else None,
            "fuel": _text(head.fuel),
            "temperature_C": plain(head.temperature),
            "depth_from": _text(head.depth_from),
            "skim": _present({"amount": number(skim.amount.value), "when": skim.when}) if skim else None,
            "least_bridge": plain(head.least_bridge),
            "least_floor": plain(head.least_floor),
            "inserts_allowed": head.inserts_not_allowed is None,
            "inserts_not_allowed": _text(head.inserts_not_allowed),
            "crack_test": _text(head.crack_test),
            "pressure_test": _text(head.pressure_test),
            "hot_head_C": plain(head.hot_head),
            "hot_insert_C": plain(head.hot_insert),
            "heat_limit_C": plain(head.heat_limit),
            "notes": _notes(head.notes),
        }
    )


def _message(message: Message, cards: Sequence[int]) -> dict[str, object]:
    return {
        "severity": message.severity.value,
        "slug": message.slug,
        **_place(message.span),
        "text": message.text,
        "help": message.help,
        "valves": list(message.valves),
        "cards": list(cards),
        "related": [{**_place(related.span, end_line=False), "text": related.text} for related in message.related],
    }


def _place(span: Span | None, end_line: bool = True) -> dict[str, object]:
    if span is None:
        return {}
    place: dict[str, object] = {"file": span.file, "line": span.line, "column": span.column}
    if end_line:
        place["end_line"] = span.end_line
    place["end_column"] = span.end_column
    return place


def _notes(notes: Sequence[Note]) -> list[str]:
    return [note.text for note in notes]


def _text(named: Named | None) -> str | None:
    return named.text if named is not None else None
