"""Which of several lines counts for one valve or head: a cell of `measured`, then the job, then its engine.

Between files the nearer one counts, however wide its line: what stands in the job was typed for this piece. Within a
file the narrowest line does. Nothing here knows one field from another: what a job may override follows from the
declarations.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.job.declarations import Dimension, Field, Form, SectionDeclared, job_sections
from seatwright.job.head.of_engine import EngineFile, OfHead
from seatwright.job.head.pocket_sizes import SizeTable, table_for
from seatwright.job.head.selectors import Best, Selectors, narrowest, same
from seatwright.job.model import Given, GuideStand, Limits, NotUsed, OfEngine, Overridden, PocketSize, Stand
from seatwright.job.typed.fields import Fields, into_attributes
from seatwright.job.typed.gather import Gathered
from seatwright.job.wording import of_engines as say
from seatwright.text import Span

MAKERS_POCKET = ("bore", "depth", "insert-od")
"""The fields that are a table of one size; such a table and these replace each other as one thing."""

_SLACK = 1e-9
_AGREE = 0.00508 + 1e-9
"""How near two statements of one fit lie, .0002 in [mm]."""


class RowOfValve(Struct, frozen=True):
    """What a table says of one valve, narrower than any `valves` section."""

    word: str
    attributes: dict[str, Any]


class Specified(Struct):
    """What holds for one valve, by attribute of the model, and what it has of its engine.

    taken_away: the lines that take a field of the engine's away, each with its word and whether there is one to take.
    """

    attributes: dict[str, Any]
    of_engine: OfEngine | None = None
    taken_away: dict[Span, tuple[str, bool]] = field(default_factory=dict)


class _Said(Struct):
    """What one file says of a valve, by field, and its table of sizes."""

    fields: dict[str, Best]
    table: SizeTable | None


def specification(
    valve: str,
    selectors: Selectors,
    tables: Iterable[SizeTable],
    engine: OfHead | None,
    cells: Iterable[RowOfValve],
    unit: str,
    gathered: Gathered,
) -> Specified:
    """What holds for one valve. unit: in which a bare length of the job is."""
    job = _Said(narrowest(valve, selectors, gathered), table_for(valve, tables, gathered))
    _one_or_the_other(valve, job, gathered)
    limits = job.fields.get("limits")
    found = Specified({})
    printed = _Said({}, None)
    if engine is not None:
        printed, which, assumed = _of_maker(valve, engine, None if limits is None else limits.value.text, gathered)
        found.of_engine = OfEngine(engine.in_engine(valve), which, assumed)
    found.taken_away = _taken_away(job, printed)
    overridden = tuple(_override(job, printed, engine, unit))
    declared = job_sections.VALVES.by_word
    for word, best in (printed.fields | job.fields).items():
        into_attributes(declared[word], best.value, found.attributes)
    table = job.table or printed.table
    if table is not None:
        rows = table.rows
        interference = job.fields.get("interference")
        if job.table is None and interference is not None and isinstance(interference.value, Limits):
            # Typed for this piece, it counts for every size of the maker's.
            rows = tuple(replace(row, interference=interference.value) for row in rows)
        found.attributes["pocket_sizes"] = rows
    if found.of_engine is not None:
        found.of_engine = replace(found.of_engine, overridden=overridden)
    for cell in cells:
        found.attributes.update(cell.attributes)
    return found


def check_alone(engine: EngineFile, gathered: Gathered) -> None:
    """Say where an engine file gives a valve two values, or its pocket twice."""
    own = OfHead(engine, engine.selectors(reconditioned=False), engine.selectors(reconditioned=True))
    for valve in dict.fromkeys((*engine.valves(), "I1", "E1")):
        _of_maker(valve, own, "reconditioned", gathered)


def of_head(
    fields: Fields, engine: OfHead | None, unit: str, gathered: Gathered
) -> tuple[dict[str, Any], tuple[Overridden, ...]]:
    """What a head says of itself and its engine of it, by attribute of the model, and what it overrides."""
    job = _of_section(fields)
    printed = {} if engine is None else _of_section(engine.file.fields)
    printed = {word: best for word, best in printed.items() if word in job_sections.HEAD.by_word}
    said = _Said(job, None)
    for span, (word, some) in _taken_away(said, _Said(printed, None)).items():
        if not some and not (engine is not None and engine.file.doubtful):
            gathered.say(say.not_used_idle(span, word, "this head"))
    overridden = tuple(_override(said, _Said(printed, None), engine, unit, job_sections.HEAD))
    found: dict[str, Any] = {}
    for word, best in (printed | job).items():
        into_attributes(job_sections.HEAD.by_word[word], best.value, found)
    return found, overridden


def _of_section(fields: Fields) -> dict[str, Best]:
    """What one section says, by the words of its fields."""
    return {
        word: Best(0, value, fields.spans[word], fields.typed.get(word, "")) for word, value in fields.values.items()
    }


def _of_maker(
    valve: str, engine: OfHead, limits: str | None, gathered: Gathered
) -> tuple[_Said, str | None, Span | None]:
    """What the engine's maker says of a valve, which of his two columns that is, and the line of the other where
    nobody says which."""
    name = engine.in_engine(valve)
    new, again = narrowest(name, engine.new, gathered), narrowest(name, engine.reconditioned, gathered)
    fields = {**new, **again} if limits == "reconditioned" else new
    said = _Said(fields, table_for(name, engine.file.sizes, gathered))
    _one_or_the_other(name, said, gathered)
    other = next(iter(again.values()), None)
    if other is None:
        return said, None, None
    return said, limits or "new", None if limits is not None else other.span


def _one_or_the_other(valve: str, said: _Said, gathered: Gathered) -> None:
    """One file gives a valve's pocket as a table or as fields."""
    if said.table is None:
        return
    word = next((each for each in MAKERS_POCKET if each in said.fields), None)
    if word is not None:
        gathered.say(say.sizes_and_bore(said.fields[word].span, word, valve, said.table.line))


def _taken_away(job: _Said, printed: _Said) -> dict[Span, tuple[str, bool]]:
    return {
        best.span: (word, word in printed.fields)
        for word, best in job.fields.items()
        if isinstance(best.value, NotUsed)
    }


def _override(
    job: _Said,
    printed: _Said,
    engine: OfHead | None,
    unit: str,
    section: SectionDeclared = job_sections.VALVES,
) -> Iterator[Overridden]:
    """What the job says in place of the maker; what it takes away is taken out of `printed` here."""
    if engine is None:
        return
    yield from _fit_of_sizes(job, printed, engine)
    yield from _pocket_as_one(job, printed, engine, unit)
    for word, best in tuple(job.fields.items()):
        makers = printed.fields.get(word)
        declared = section.by_word[word]
        if makers is None or _means_the_same(declared, best.value, makers.value):
            continue
        theirs = _in_units(makers.typed, declared, engine, unit)
        text = _text_alone(makers.value, engine)
        place = f"{makers.span.file}:{makers.span.line}"
        if isinstance(best.value, NotUsed):
            yield Overridden(word, "not used", theirs, best.span, makers.span, text, reason=best.value.reason)
            continue
        ours = best.typed
        # A figure of his in another unit is rounded here to the digits that are written.
        slack = min(_half_digit(best.value), _AGREE) if engine.file.unit != unit else 0.0
        wanted = _aim_of(best.value) or _limits_of(declared, best.value)
        outside = _beyond(wanted, _limits_of(declared, makers.value), ours, slack)
        word_of = _source(best.value)
        yield Overridden(word, ours, theirs, best.span, makers.span, text, outside, on_whose_word=word_of)
        instead = f"{theirs} ({', '.join(part for part in (place, text) if part)})"
        job.fields[word] = replace(best, value=in_place(best.value, instead))


def _means_the_same(declared: Field, ours: Any, theirs: Any) -> bool:
    """Whether a field says the same in both files; the order of lines that repeat means nothing."""
    if not declared.repeats or not isinstance(ours, (tuple, list)) or not isinstance(theirs, (tuple, list)):
        return same(ours, theirs)
    return all(any(same(one, other) for other in theirs) for one in ours) and all(
        any(same(one, other) for one in ours) for other in theirs
    )


def _pocket_as_one(job: _Said, printed: _Said, engine: OfHead, unit: str) -> Iterator[Overridden]:
    """The maker's sizes as a table and as fields: the job's replace the engine's, as one thing."""
    here = next((job.fields[word] for word in MAKERS_POCKET if word in job.fields), None)
    there = next(((word, printed.fields[word]) for word in MAKERS_POCKET if word in printed.fields), None)
    if job.table is not None and (printed.table is not None or there is not None):
        ours, where = f"a table of {_counted(job.table.rows)}", job.table.line
    elif here is not None and printed.table is not None:
        word = next(word for word in MAKERS_POCKET if word in job.fields)
        ours, where = f"{word} {here.typed}", here.span
    else:
        return
    if printed.table is not None:
        theirs, place = f"a table of {_counted(printed.table.rows)}", printed.table.line
        text = printed.table.rows[0].source if printed.table.rows else ""
    else:
        assert there is not None
        theirs, place = f"{there[0]} {there[1].typed}", there[1].span
        text = there[1].value.source
    own, makers = _rows(job), _rows(printed)
    if not same(own, makers):
        outside = "a bore" if any(_bores_beyond(row, makers) for row in own) else ""
        word_of = own[0].source if own else ""
        yield Overridden(
            "pocket-sizes", ours, theirs, where, place, _alone(text, engine), outside, on_whose_word=word_of
        )
    printed.table = None
    for word in MAKERS_POCKET:
        printed.fields.pop(word, None)


def _fit_of_sizes(job: _Said, printed: _Said, engine: OfHead) -> Iterator[Overridden]:
    """An interference of the job's, held against what the maker's od and bore make where he prints none."""
    best = job.fields.get("interference")
    if best is None or "interference" in printed.fields or not isinstance(best.value, Limits):
        return
    theirs = [(row, fit) for row in _rows(printed) if (fit := _fit_of(row)) is not None]
    ours = _value(best.value.least), _value(best.value.most)
    if not theirs or any(_as_good_as(ours, fit) for _, fit in theirs):
        return
    outside = [_beyond(ours, fit, best.typed) for _, fit in theirs]
    row, fit = theirs[0]
    span = row.bore.span if row.bore is not None else row.span
    printed_as = f"{fit[0]:.3f} to {fit[1]:.3f} mm by his od and bore"
    typed = best.typed
    text = _alone(row.source or ("" if row.bore is None else row.bore.source), engine)
    yield Overridden("interference", typed, printed_as, best.span, span, text, outside[0] if all(outside) else "")


def _fit_of(row: PocketSize) -> tuple[float, float] | None:
    """The interference that a size of the maker's has, least and most [mm]."""
    own = row.interference
    if own is not None and own.least is not None and own.most is not None:
        return own.least.value, own.most.value
    if row.insert_od is None or row.bore is None:
        return None
    ends = (row.insert_od.least, row.insert_od.most, row.bore.least, row.bore.most)
    od_least, od_most, bore_least, bore_most = map(_value, ends)
    if od_least is None or od_most is None or bore_least is None or bore_most is None:
        return None
    return od_least - bore_most, od_most - bore_least


def _as_good_as(ours: _Two, theirs: tuple[float, float]) -> bool:
    return all(one is not None and abs(one - other) <= _AGREE for one, other in zip(ours, theirs, strict=True))


def _rows(said: _Said) -> tuple[PocketSize, ...]:
    if said.table is not None:
        return said.table.rows
    bore, depth, od = (said.fields[word].value if word in said.fields else None for word in MAKERS_POCKET)
    span = next((said.fields[word].span for word in MAKERS_POCKET if word in said.fields), None)
    return () if span is None else (PocketSize(None, span, bore, depth, od),)


def _bores_beyond(row: PocketSize, makers: tuple[PocketSize, ...]) -> bool:
    """Whether a size's bore reaches outside the bore of every size of the maker's."""
    theirs = [(_value(one.bore.least), _value(one.bore.most)) for one in makers if one.bore is not None]
    if row.bore is None or not theirs:
        return False
    ours = _value(row.bore.least), _value(row.bore.most)
    return all(_beyond(ours, bore, "") for bore in theirs)


def _counted(rows: tuple[PocketSize, ...]) -> str:
    return f"{len(rows)} size{'s' * (len(rows) != 1)}"


def _in_units(typed: str, declared: Field, engine: OfHead, unit: str) -> str:
    """A figure of the engine file as typed, with its unit where that is another than the job's and was left out."""
    bare = typed[-1:].isdigit() or typed[-1:] == "."
    return (
        f"{typed} {engine.file.unit}"
        if declared.dimension is Dimension.LENGTH and bare and engine.file.unit != unit
        else typed
    )


def _text_alone(value: Any, engine: OfHead) -> str:
    """The text that stands behind a figure of the engine file, without the file's own source."""
    return _alone(_source(value), engine)


def _alone(says: str, engine: OfHead) -> str:
    return says.removeprefix(engine.file.says).removeprefix(", ")


def _source(value: Any) -> str:
    if isinstance(value, (tuple, list)):
        return next((found for part in value if (found := _source(part))), "")
    if isinstance(value, Stand):
        return value.below_least.source
    found = getattr(value, "source", "")
    return found if isinstance(found, str) else ""


def in_place(value: Any, instead: str) -> Any:
    """A value whose figures are said to stand in place of the maker's."""
    if isinstance(value, Span) or not isinstance(value, (Struct, tuple, list)):
        return value
    if isinstance(value, (tuple, list)):
        return type(value)(in_place(part, instead) for part in value)
    if isinstance(value, Given):
        return replace(value, in_place_of=instead)
    inside = {
        part: in_place(one, instead)
        for part in value.__struct_fields__
        if isinstance(one := getattr(value, part), (Struct, tuple)) and not isinstance(one, Span)
    }
    return replace(value, **inside) if inside else value


def _limits_of(declared: Field, value: Any) -> tuple[float | None, float | None] | None:
    """Between what a field keeps a figure, least and most; None for a field that is no limit.

    Two limits by their form; of a single figure its word says which it is.
    """
    if isinstance(value, GuideStand):
        value = value.limits
    if isinstance(value, Limits):
        return _value(value.least), _value(value.most)
    if isinstance(value, Stand):
        return value.below_least.value, value.below_most.value
    if isinstance(value, Given):
        if declared.word.startswith("least-"):
            return value.value, None
        if declared.word.endswith("limit") or declared.form is Form.RUNOUT:
            return None, value.value
    return None


_Two = tuple[float | None, float | None]


def _aim_of(value: Any) -> _Two | None:
    """A single figure that is aimed at, which must itself lie between the maker's limits; None for limits."""
    limits = value.limits if isinstance(value, GuideStand) else value
    if not isinstance(limits, Limits) or limits.nominal is None or limits.least or limits.most:
        return None
    return limits.nominal.value, limits.nominal.value


def _half_digit(value: Any) -> float:
    """Half of the last digit of the coarsest figure of a value [mm]."""
    if isinstance(value, GuideStand):
        value = value.limits
    figures = (
        (value.least, value.most, value.nominal)
        if isinstance(value, Limits)
        else (value.below_least, value.below_most)
        if isinstance(value, Stand)
        else (value,)
    )
    return max((one.half_digit for one in figures if isinstance(one, Given)), default=0.0)


def _beyond(ours: _Two | None, theirs: _Two | None, typed: str, slack: float = 0.0) -> str:
    """Which limit of the job reaches outside the maker's, in words; "" for none: `most 1.4`, `least 0.5`."""
    if ours is None or theirs is None or ours == (None, None):
        return ""
    proud = typed.startswith("proud ")
    words = typed.removeprefix("below ").removeprefix("proud ").split(" to ")
    least, most = (words[0], words[-1]) if len(words) == 2 else (typed, typed)
    if proud:
        # Kept as how far it stands below: its two limits and the sides that they bound change places.
        ours, theirs = _turned(ours), _turned(theirs)
    found = []
    if theirs[0] is not None and (ours[0] is None or ours[0] < theirs[0] - slack - _SLACK):
        found.append("no least" if ours[0] is None else f"least {least.removeprefix('least ')}")
    if theirs[1] is not None and (ours[1] is None or ours[1] > theirs[1] + slack + _SLACK):
        found.append("no most" if ours[1] is None else f"most {most.removeprefix('most ')}")
    return " and ".join(found)


def _turned(limits: _Two) -> _Two:
    least, most = limits
    return None if most is None else -most, None if least is None else -least


def _value(given: Given | None) -> float | None:
    return None if given is None else given.value
