"""The plan as plan.json holds it: a walk over the plan's own names, with the few exceptions declared.

Lengths in mm, angles in degrees, temperatures in °C, stresses in MPa, forces in N; six decimals. What was not computed
is left out; an empty list stays. Names come from the plan's fields: a field added there is in plan.json at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from msgspec import Struct
from msgspec.structs import astuple

from seatwright.job.declarations import kind_of
from seatwright.job.model import Given, Head, Job, Measured, Named, Note, Overridden, Practice, Reading
from seatwright.planning.plan import Bridge, Fetch, FinishedPlan, Plan, Setting, SpringPlan, TrialPlan, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.text import Message
from seatwright.version import VERSION

FORMAT = "seatwright-plan/1"
LANGUAGE = 1
DECIMALS = 6

# Pairs of a name and what it has: a tuple of pairs in the plan, an object in plan.json, under this name.
AS_OBJECTS: Mapping[tuple[type, str], str] = {
    (Setting, "pilots"): "pilot",
    (FinishedPlan, "verdicts"): "verdicts",
    (SpringPlan, "verdicts"): "verdicts",
}

# The part of a valve that plan.json writes in a way of its own: the key of the object, the job's own valve, what was
# found, and the holds, which are a list of slugs and an object of their texts.
OF_A_VALVE_ITS_OWN_WAY = frozenset({"name", "valve", "found", "found_size", "holds"})


class CardEntry(Struct, frozen=True):
    """A card of the deck. name: as-found, job, guides, setting, press, seat, record. stamp: its own."""

    number: int
    of: int
    name: str
    head: int | None
    valves: tuple[str, ...]
    stamp: str


class JobEntry(Struct, frozen=True):
    """What the job says of itself. day: the latest of what was cut, tried or finished, else measured, else received.
    paper: of the cards, left out or not."""

    number: str
    title: str
    customer: str | None
    machinist: str | None
    received: str | None
    due: str | None
    day: str | None
    units: str
    paper: str
    notes: tuple[str, ...]


class SourceEntry(Struct, frozen=True):
    """A file that the job was read from, its path with `/` from the job's folder. kind: job, shop, engine."""

    path: str
    sha256: str
    kind: str


class EngineEntry(Struct, frozen=True):
    """A head type that an engine file describes. source, date: where its figures are printed; stamp: of the file;
    heads: numbers of those that are of it."""

    name: str
    text: str
    path: str
    source: str
    date: str | None
    stamp: str
    heads: tuple[int, ...]


class OverriddenEntry(Struct, frozen=True):
    """What the job says in place of the engine's maker, both as typed. outside: the job's reaches beyond the maker's;
    reason: of a field that is not used."""

    field: str
    job: str
    engine: str
    outside: bool
    reason: str | None


class SkimEntry(Struct, frozen=True):
    """What the deck lost or will lose in this job. when: before-measuring, after-measuring, still-to-come."""

    amount: float
    when: str | None


class HeadEntry(Struct, frozen=True):
    """A head as the job describes it."""

    number: int
    name: str | None
    text: str
    material: str | None
    fuel: str | None
    temperature_C: Given | None
    depth_from: str | None
    skim: SkimEntry | None
    least_bridge: Given | None
    least_floor: Given | None
    inserts_allowed: bool
    inserts_not_allowed: str | None
    crack_test: str | None
    pressure_test: str | None
    hot_head_C: Given | None
    hot_insert_C: Given | None
    heat_limit_C: Given | None
    engine: str | None
    cylinders: tuple[int, ...]
    overridden: tuple[OverriddenEntry, ...]
    notes: tuple[str, ...]


class LimitsEntry(Struct, frozen=True):
    """The shop's own limits that cards print: out-of-round and taper of a bore, squareness of its floor, runout of the
    pilot (tir), the clearance of a drop-in, what may be ground off a stem or put under a spring, and for how long a
    seat must hold [s]; what the shop does not give is left out."""

    bore_round: Given | None
    bore_taper: Given | None
    floor_square: Given | None
    runout: Given | None
    slip: Given | None
    stem_grind_most: Given | None
    shim_limit: Given | None
    trial_under: Given | None
    shims: tuple[Given, ...]
    leak_s: Given | None


class CautionEntry(Struct, frozen=True):
    """Where a caution stands: numbers of the cards, and the valves it is for, empty for all."""

    cards: tuple[int, ...]
    valves: tuple[str, ...]


class RelatedEntry(Struct, frozen=True):
    """Another place that a message speaks of, and what stands there."""

    file: str | None
    line: int | None
    column: int | None
    end_column: int | None
    text: str


class MessageEntry(Struct, frozen=True):
    """A message, without a place where no line bears it. cards: numbers of those on which it is printed."""

    severity: str
    slug: str
    file: str | None
    line: int | None
    column: int | None
    end_line: int | None
    end_column: int | None
    text: str
    help: str
    valves: tuple[str, ...]
    cards: tuple[int, ...]
    related: tuple[RelatedEntry, ...]


class Document(Struct, frozen=True):
    """The whole of plan.json. stamp, commit: of the sources. valves: by name, as `ValvePlan` has them."""

    format: str
    made_by: str
    language: int
    stamp: str | None
    commit: str | None
    job: JobEntry
    sources: tuple[SourceEntry, ...]
    cards: tuple[CardEntry, ...]
    engines: tuple[EngineEntry, ...]
    heads: tuple[HeadEntry, ...]
    valves: dict[str, dict[str, object]]
    limits: LimitsEntry
    settings: tuple[Setting, ...]
    trials: tuple[TrialPlan, ...]
    fewest_settings_proof: tuple[str, ...]
    bridges: tuple[Bridge, ...]
    fetch: Fetch
    cautions: tuple[str, ...]
    caution_places: dict[str, CautionEntry]
    not_checked: tuple[str, ...]
    messages: tuple[MessageEntry, ...]


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
    written = _object(
        Document(
            format=FORMAT,
            made_by=f"seatwright {VERSION}",
            language=LANGUAGE,
            stamp=stamp,
            commit=commit,
            job=_job(plan.job, paper),
            sources=tuple(SourceEntry(source.path, source.sha256, kind_of(source.path)) for source in plan.job.sources),
            cards=tuple(cards),
            engines=tuple(_engines(plan.job)),
            heads=tuple(map(_head, plan.heads)),
            valves={},
            limits=_limits(plan.job.shop.practice),
            settings=plan.settings,
            trials=plan.trials,
            fewest_settings_proof=plan.fewest_settings_proof,
            bridges=plan.bridges,
            fetch=plan.fetch,
            cautions=tuple(caution.slug for caution in plan.cautions),
            caution_places={
                caution.slug: CautionEntry(tuple(on_cards.get(caution.slug, ())), caution.valves)
                for caution in plan.cautions
            },
            not_checked=plan.not_checked,
            messages=tuple(
                _message(message, message_cards(message) if message_cards else ()) for message in plan.messages
            ),
        )
    )
    # Most of the plan: written in its own way, and not walked through a second time.
    written["valves"] = {each.name: _valve(each, temperatures.get(each.head)) for each in plan.valves}
    return written


def as_plain(part: object) -> object:
    """A part of the plan as plan.json holds it; None for what was not computed."""
    form = _FORMS.get(type(part))
    if form is not None:
        return form(part)
    if isinstance(part, Struct):
        return _object(part)
    if isinstance(part, str):  # a status
        return part
    raise TypeError(f"plan.json has no form for a {type(part).__name__}")


def rounded(value: float) -> float:
    """A value with six decimals, and 0 without a sign."""
    return round(value, DECIMALS) + 0.0


def _its_value(part: Figure | Given) -> float:
    return round(float(part.value), DECIMALS) + 0.0


def _as_it_is(part: object) -> object:
    return part


def _list(parts: Iterable[object]) -> list[object]:
    return [as_plain(each) for each in parts]


def _dictionary(parts: Mapping[str, object]) -> dict[str, object]:
    return {key: as_plain(each) for key, each in parts.items()}


# A plan has thousands of parts: each is told by its very type, the commonest at once.
_FORMS: Mapping[type, Callable[[Any], object]] = {
    Figure: _its_value,
    float: rounded,
    str: _as_it_is,
    int: _as_it_is,
    bool: _as_it_is,
    type(None): _as_it_is,
    Given: _its_value,
    tuple: _list,
    list: _list,
    dict: _dictionary,
}


def _object(part: Struct, leave_out: frozenset[str] = frozenset()) -> dict[str, object]:
    found: dict[str, object] = {}
    for value, (name, as_object) in zip(astuple(part), _names(type(part)), strict=True):
        if value is None or name in leave_out:
            continue  # what was not computed is not written
        found[as_object or name] = {key: as_plain(each) for key, each in value} if as_object else as_plain(value)
    return found


@cache
def _names(kind: type[Struct]) -> tuple[tuple[str, str | None], ...]:
    """The names in plan.json of the fields of a part of the plan (`from_` is a word of Python's, `from` is meant), and
    those of the objects that pairs are written as."""
    return tuple((in_json(field), AS_OBJECTS.get((kind, field))) for field in kind.__struct_fields__)


def in_json(field: str) -> str:
    """The name in plan.json of a field of the plan."""
    return field.rstrip("_")


def _present(values: Mapping[str, object | None]) -> dict[str, object]:
    """Without what is None."""
    return {name: value for name, value in values.items() if value is not None}


def _valve(valve: ValvePlan, temperature: Given | None) -> dict[str, object]:
    written = _object(valve, OF_A_VALVE_ITS_OWN_WAY)
    written["found"] = found_in_json(valve, temperature)
    of = valve.valve.of_engine
    if of is not None:
        if of.limits is not None:
            written["limits"] = of.limits
        written["overridden"] = [as_plain(one) for one in _overridden(of.overridden)]
    written["holds"] = [hold.slug for hold in valve.holds]
    written["holds_text"] = {hold.slug: hold.text for hold in valve.holds}
    return written


def found_in_json(valve: ValvePlan, temperature: Given | None) -> dict[str, object]:
    """The cells of `measured` as read, what they held before, newest first, also of a part that was replaced since, and
    at what temperature.

    temperature : of the head, where no table of this valve says another
    """
    found: dict[str, object] = {}
    earlier: dict[str | None, dict[str, object]] = {}
    at, latest = temperature, ""
    for column, reading in _readings(valve.found):
        found[column] = rounded(reading.value)
        if reading.at is not None and (reading.date or "") >= latest:
            at, latest = reading.at, reading.date or ""
        for before in reading.earlier:
            earlier.setdefault(before.date, {})[column] = rounded(before.value)
    for renewed in valve.valve.replaced:
        for column, reading in _readings(renewed.found):
            for before in (reading, *reading.earlier):
                earlier.setdefault(before.date, {}).setdefault(column, rounded(before.value))
    if valve.found_size is not None:
        found["size"] = valve.found_size
    if valve.found.insert is not None:
        found["insert"] = valve.found.insert.text
    if at is not None:
        found["temperature_C"] = rounded(at.value)
    newest_first = sorted(earlier, key=lambda date: date or "", reverse=True)
    found["earlier"] = [_present({"date": date, **earlier[date]}) for date in newest_first]
    return found


def _readings(found: Measured) -> Iterable[tuple[str, Reading]]:
    for column, reading in zip(Measured.__struct_fields__, astuple(found), strict=True):
        if isinstance(reading, Reading):
            yield column, reading


def _engines(job: Job) -> Iterator[EngineEntry]:
    stamps = {source.path: source.sha256 for source in job.sources}
    for one in job.engines:
        yield EngineEntry(one.name, one.text, one.path, one.source, one.date, stamps[one.path], one.heads)


def _overridden(listed: Iterable[Overridden]) -> tuple[OverriddenEntry, ...]:
    """What is said in place of the maker, as plan.json has it."""
    return tuple(
        OverriddenEntry(one.field, one.job, one.engine, bool(one.outside), one.reason or None) for one in listed
    )


def _job(job: Job, paper: str | None) -> JobEntry:
    return JobEntry(
        number=job.number,
        title=job.title,
        customer=_text(job.customer),
        machinist=_text(job.machinist),
        received=_text(job.received),
        due=_text(job.due),
        day=job.day,
        units=job.units,
        paper=paper or job.paper or job.paper_left_out,
        notes=_notes(job.notes),
    )


def _head(head: Head) -> HeadEntry:
    skim = head.skim
    return HeadEntry(
        number=head.number,
        name=head.name,
        text=head.text,
        material=head.material.name if head.material else None,
        fuel=_text(head.fuel),
        temperature_C=head.temperature,
        depth_from=_text(head.depth_from),
        skim=SkimEntry(skim.amount.value, skim.when) if skim else None,
        least_bridge=head.least_bridge,
        least_floor=head.least_floor,
        inserts_allowed=head.inserts_not_allowed is None,
        inserts_not_allowed=_text(head.inserts_not_allowed),
        crack_test=_text(head.crack_test),
        pressure_test=_text(head.pressure_test),
        hot_head_C=head.hot_head,
        hot_insert_C=head.hot_insert,
        heat_limit_C=head.heat_limit,
        engine=head.engine,
        cylinders=head.cylinders,
        overridden=_overridden(head.overridden),
        notes=_notes(head.notes),
    )


def _limits(practice: Practice) -> LimitsEntry:
    return LimitsEntry(
        bore_round=practice.bore_round,
        bore_taper=practice.bore_taper,
        floor_square=practice.floor_square,
        runout=practice.runout,
        slip=practice.slip,
        stem_grind_most=practice.stem_grind_most,
        shim_limit=practice.shim_limit,
        trial_under=practice.trial_under,
        shims=practice.shims,
        leak_s=practice.leak.seconds if practice.leak is not None else None,
    )


def _message(message: Message, cards: Sequence[int]) -> MessageEntry:
    span = message.span
    return MessageEntry(
        severity=message.severity.value,
        slug=message.slug,
        file=span.file if span else None,
        line=span.line if span else None,
        column=span.column if span else None,
        end_line=span.end_line if span else None,
        end_column=span.end_column if span else None,
        text=message.text,
        help=message.help,
        valves=message.valves,
        cards=tuple(cards),
        related=tuple(
            RelatedEntry(each.span.file, each.span.line, each.span.column, each.span.end_column, each.text)
            for each in message.related
        ),
    )


def _notes(notes: Sequence[Note]) -> tuple[str, ...]:
    return tuple(note.text for note in notes)


def _text(named: Named | None) -> str | None:
    return named.text if named is not None else None
