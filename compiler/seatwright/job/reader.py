"""The whole front door: from the path of a job to the job, or to what has to be put right first."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from msgspec.structs import replace

from seatwright.job.checks import sisters
from seatwright.job.checks.relations import check
from seatwright.job.declarations import job_sections
from seatwright.job.head.alone import alone
from seatwright.job.head.head_parts import Parts, add, for_all_heads, open_head
from seatwright.job.head.heads import build_head, neighbours, planned_valves
from seatwright.job.head.of_engine import EngineFile, engine_of
from seatwright.job.head.selectors import Selected, Selectors
from seatwright.job.model import BoreGauge, Engine, Gauge, Head, Job, Machine, Named, NotCounted, Note
from seatwright.job.sections import opening
from seatwright.job.sections.singles import Spoken, check_language, not_counted, notes_and_holds
from seatwright.job.sections.units_of_file import units_of
from seatwright.job.shop_file.shop import Stock
from seatwright.job.typed import names
from seatwright.job.typed.fields import Fields, read_fields, require
from seatwright.job.typed.gather import Gathered
from seatwright.job.typed.scope import Scope
from seatwright.job.used_files import (
    LINES_LOST,
    Load,
    OpenedShop,
    Refused,
    UsedFiles,
    opened_shop,
    parsed,
    used_files,
    why_unread,
)
from seatwright.job.wording import of_engines
from seatwright.job.wording import of_sections as say
from seatwright.job.wording.of_valves import (
    not_counted_nothing,
    selects_none,
    valve_again,
    valve_missing,
    valve_of_no_head,
)
from seatwright.syntax import tree
from seatwright.text import Message, Source, Span


def read(
    path: str, load: Load, opened: Callable[[str, bytes], OpenedShop] = opened_shop
) -> tuple[Job | None, tuple[Message, ...]]:
    """A job with its shop files, as the rest of the house knows it.

    path: of the job file; load: gives the bytes of a path, raising OSError or Refused. The job is None when there is
    any error. The messages are by place, one for each mistake. opened: reads a shop file; an editor keeps what it gave.
    """
    gathered = Gathered()
    try:
        data = load(path)
    except (OSError, Refused) as problem:
        gathered.say(say.job_unreadable(path, why_unread(problem)))
        return None, gathered.in_order()
    source, file = parsed(path, data, "job", gathered)
    if source is None or file is None:
        return None, gathered.in_order()
    used, stock = used_files(path, file, load, gathered, opened)
    job = _job(source, file, used, stock, gathered)
    return (None if gathered.in_error else job), gathered.in_order()


def _job(source: Source, file: tree.File, used: UsedFiles, stock: Stock, gathered: Gathered) -> Job | None:
    check_language(file, gathered)
    scope = Scope.of(source, units_of(file, "job"), gathered.say)
    said = notes_and_holds(file, gathered)
    jobs = [section for section in file.sections if section.name == "job"]
    heads = [section for section in file.sections if section.name == "head"]
    if not jobs:
        gathered.say(say.no_job(file.path))
    for again in jobs[1:]:
        gathered.say(say.section_again(again.line.word.span, "job", jobs[0].line.word.span))
    if jobs and heads and jobs[0].line.span > heads[0].line.span:
        gathered.say(say.job_late(jobs[0].line.word.span, heads[0].line.word.span))
    if jobs and not heads:
        gathered.say(say.no_head(jobs[0].line.word.span))
    title, fields = _job_fields(jobs, scope, gathered)
    parts = _heads(file, scope, stock, used, bool(heads), gathered)
    _check_names(parts, said, gathered)
    _leave_out(not_counted(file, gathered), parts, gathered)
    owned = [set(planned_valves(one)) for one in parts]
    built = tuple(
        build_head(
            number,
            one,
            stock,
            said,
            (*_notes_under(number, parts, said), *_notes_of_engine(one)),
            set().union(*owned[: number - 1], *owned[number:]),
            gathered,
        )
        for number, one in enumerate(parts, 1)
    )
    for one in parts:
        if not (one.doubtful or one.lost):
            by_line = {name for section in one.selected for name, _ in section.words} | set(one.named_above)
            for message in alone(one.mentions, by_line | {name for each in said for name, _ in each.valves}):
                gathered.say(message)
    for message in check(built, stock.shop):
        gathered.say(message)
    for message in sisters.check(built, stock.shop):
        if not gathered.spoken_for(message.span):
            gathered.say(message)
    chosen = {
        "machine": _which("machine", stock.shop.machines, fields, stock, jobs, gathered),
        "gauge": _which("gauge", stock.shop.gauges, fields, stock, jobs, gathered),
        "bore_gauge": _which("bore-gauge", stock.shop.bore_gauges, fields, stock, jobs, gathered),
    }
    if not jobs or scope.units is None or title.name is None:
        return None
    job = _assembled(
        title, jobs[0].line.word.span, scope.units, (source, *used.sources), built, stock, fields, chosen, parts, said
    )
    return replace(job, engines=_engines(used.engines, parts, gathered))


def _engines(engines: Iterable[EngineFile], parts: list[Parts], gathered: Gathered) -> tuple[Engine, ...]:
    """The engines of the job, each with the heads that are of it; one that no head is of is said."""
    found = []
    unsure = any(gathered.said_anywhere(slug) for slug in ("engine-twice", "engine-unknown", "engine-which"))
    for one in engines:
        heads = tuple(
            number for number, part in enumerate(parts, 1) if part.engine is not None and part.engine.file is one
        )
        if one.name is not None:
            found.append(one.model(heads))
            if not heads and not unsure:
                gathered.say(of_engines.engine_not_used(one.name.span, one.name.text))
    return tuple(found)


def _notes_of_engine(part: Parts) -> Iterable[Note]:
    """The notes of a head's engine, of its valves as the job calls them."""
    if part.engine is not None:
        for note in part.engine.file.notes:
            yield replace(note, valves=tuple(map(part.engine.in_job, note.valves)))


def _assembled(
    title: opening.Titled,
    span: Span,
    units: str,
    sources: tuple[Source, ...],
    heads: tuple[Head, ...],
    stock: Stock,
    fields: Fields,
    chosen: dict[str, Any],
    parts: list[Parts],
    said: tuple[Spoken, ...],
) -> Job:
    paper = fields.get("paper")
    assert title.name is not None
    return Job(
        title.name.text,
        title.text.text if title.text else "",
        span,
        units,
        sources,
        heads,
        stock.shop,
        customer=fields.get("customer"),
        machinist=fields.get("machinist"),
        received=fields.get("received"),
        due=fields.get("due"),
        day=_day(parts, fields.get("received")),
        paper=paper.text if paper else None,
        notes=tuple(_notes_under(0, parts, said)),
        extras=(*fields.extras, *stock.extras),
        **chosen,
    )


def _job_fields(jobs: list[tree.Section], scope: Scope, gathered: Gathered) -> tuple[opening.Titled, Fields]:
    if not jobs:
        return opening.Titled(None, None), Fields()
    title = opening.titled(job_sections.JOB, jobs[0].line, scope, gathered, need_name=True)
    fields = read_fields(job_sections.JOB, jobs[0].fields, scope, gathered)
    require(job_sections.JOB, fields, jobs[0].line.word.span, "job", gathered)
    received, due = fields.get("received"), fields.get("due")
    if received is not None and due is not None and due.text < received.text:
        gathered.say(say.dates_order(due.span, received.text, due.text, received.span))
    return title, fields


def _day(parts: list[Parts], received: Named | None) -> str | None:
    """The day of a job: the latest that stands over what was cut, tried or finished, else measured, else received."""
    cut = [day for one in parts for day in (one.cut.latest, one.finished.latest) if day is not None]
    cut += [trial.read.date for one in parts for trial in one.trials if trial.read.date is not None]
    measured = [one.measured.latest for one in parts if one.measured.latest is not None]
    last = max(cut or measured, default=None)
    return last or (received.text if received is not None else None)


def _heads(
    file: tree.File, scope: Scope, stock: Stock, used: UsedFiles, any_head: bool, gathered: Gathered
) -> list[Parts]:
    parts: list[Parts] = []
    above: list[Selected] = []
    lines_lost = gathered.said(*LINES_LOST, file=file.path)
    for section in file.sections:
        if section.name == "head":
            parts.append(open_head(section, scope, gathered))
            parts[-1].doubtful = lines_lost
            parts[-1].engine = engine_of(
                parts[-1].fields, parts[-1].span, used.engines, gathered, all_read=used.all_read
            )
        elif section.name == "job":
            continue
        elif parts:
            add(section, parts[-1], scope, stock, gathered)
        elif section.name == "valves" and any_head:
            above.append(for_all_heads(section, scope, stock, gathered))
        elif any_head:
            gathered.say(say.headless(section.line.word.span, section.name))
    seen: dict[str, Span] = {}
    for one in parts:
        name = one.title.name
        if name is None:
            continue
        if names.key(name.text) in seen:
            gathered.say(say.head_again(name.span, name.text, seen[names.key(name.text)]))
        seen.setdefault(names.key(name.text), name.span)
    _hand_down(above, parts, gathered)
    return parts


def _hand_down(above: list[Selected], parts: list[Parts], gathered: Gathered) -> None:
    """Give every head what stands before the first, and each valve named there to the head that has it."""
    if not above:
        return
    valid = tuple(section for section in above if section.valid)
    owners = [{*(own := planned_valves(one)), *neighbours(one, own)} for one in parts]
    for one in parts:
        one.above = valid
        one.doubtful = one.doubtful or len(valid) < len(above)
        one.extras += [extra for section in above for extra in section.fields.extras] if one is parts[0] else []
    for name, span in (each for section in valid for each in section.words if names.is_valve(each[0])):
        having = [one for one, valves in zip(parts, owners, strict=True) if name in valves]
        if not having and len(parts) > 1:
            if not any(one.doubtful or name in one.lost for one in parts):
                gathered.say(valve_of_no_head(span, name))
            continue
        for one in having or parts:
            one.named_above.setdefault(name, span)
    every_valve = [*(name for valves in owners for name in valves), *(name for one in parts for name in one.lost)]
    every_valve += [name for one in parts for name in one.named_above]
    if every_valve and not any(one.doubtful for one in parts):
        for section in Selectors.of(valid).meaning_none(every_valve):
            words = " ".join(word for word, _ in section.words)
            gathered.say(selects_none(section.line, words, "any head names"))


def _check_names(parts: list[Parts], said: Iterable[Spoken], gathered: Gathered) -> None:
    """A valve belongs to one head, and what is said of a valve is said of one that exists."""
    seen: dict[str, Span] = {}
    for one in parts:
        own = planned_valves(one)
        others = {name for other in parts if other is not one for name in planned_valves(other)}
        for name, span in {**own, **neighbours(one, own, others)}.items():
            if name in seen:
                gathered.say(valve_again(span, name, seen[name]))
            seen.setdefault(name, span)
    known = set(seen)
    not_missing = known | {name for one in parts for name in one.lost}
    unnamed = any(one.doubtful for one in parts)
    for spoken_of in said:
        for name, span in spoken_of.valves:
            if name not in not_missing and not unnamed and parts:
                gathered.say(valve_missing(span, name, names.nearest_name(name, known)))


def _leave_out(lines: tuple[NotCounted, ...], parts: list[Parts], gathered: Gathered) -> None:
    """Give each valve its bores that are not to count, where there is such a bore."""
    for line in lines:
        owner = next((one for one in parts if line.valve in one.cut.mentioned), None)
        days = [date for _, date, _ in owner.cut.sections.get(line.valve, ())] if owner is not None else []
        if owner is None or not days or (line.date is not None and line.date not in days):
            if not any(one.doubtful or line.valve in one.lost for one in parts):
                gathered.say(not_counted_nothing(line.span, line.valve, line.date, [day for day in days if day]))
            continue
        owner.not_counted[line.valve] = (*owner.not_counted.get(line.valve, ()), line)


def _notes_under(number: int, parts: list[Parts], said: Iterable[Spoken]) -> Iterable[Any]:
    """The notes without a valve that stand under a head (0: above the first)."""
    for one in said:
        above = sum(1 for part in parts if part.span < one.note.span)
        if not one.hold and not one.note.valves and above == number:
            yield one.note


def _which(
    kind: str,
    items: tuple[Machine | Gauge | BoreGauge, ...],
    fields: Fields,
    stock: Stock,
    jobs: list[tree.Section],
    gathered: Gathered,
) -> Any:
    """The machine or gauge that the job uses: the one it names, or the only one there is."""
    named: Named | None = fields.get(kind)
    if named is not None:
        found = stock.look_up(kind, named, gathered)
        return next((item for item in items if found is not None and item.name.text == found.text), None)
    if len(items) > 1 and kind not in fields.faulty and jobs:
        gathered.say(say.choose_which(jobs[0].line.word.span, kind, [item.name.text for item in items]))
        return None
    return items[0] if items else None


__all__ = ["read"]
