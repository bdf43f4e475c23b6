"""The wording of what may be wrong with engine files, with the maker's sizes, and with what a job takes of them."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.job.wording.of_values import any_of, error, sentence
from seatwright.text import Message, Related, Severity, Span


def no_engine(path: str) -> Message:
    return error(
        "engine-missing",
        Span(path, 1, 1, 1, 1),
        f"{path} has no `engine` line",
        'begin with `engine NAME "description"`, with `units` and `source` below it',
    )


def engine_late(span: Span, first: Span) -> Message:
    return error(
        "engine-missing",
        span,
        "the `engine` line does not stand first",
        "move it, with the lines below it, above every other section",
        (Related(first, "this stands before it"),),
    )


def engine_twice(span: Span, name: str, first: Span) -> Message:
    return error(
        "engine-twice",
        span,
        f"two files describe an engine {name}",
        "use one of them, or name them apart",
        (Related(first, "it stands here first"),),
    )


def engine_unknown(span: Span, name: str, meant: str | None, known: Iterable[str]) -> Message:
    listed = tuple(known)
    if meant is not None:
        help = f"did you mean {meant}?"
    elif listed:
        help = f"there {'are' if len(listed) > 1 else 'is only'} {any_of(listed, 'and')}; use its file"
    else:
        help = 'no engine file is used: add a line such as `use "engines/tc3.engine"`'
    return error("engine-unknown", span, f"there is no engine `{name}`", help)


def engine_which(span: Span, known: Iterable[str]) -> Message:
    listed = tuple(known)
    return error(
        "engine-which",
        span,
        f"this head does not say of which engine it is; there are {any_of(listed, 'and')}",
        f"write `engine {listed[0]}`, or `engine none`",
    )


def engine_not_used(span: Span, name: str) -> Message:
    return Message(
        Severity.NOTICE,
        "engine-not-used",
        span,
        f"no head is of engine {name}: {span.file} is not used",
        sentence(f"write `engine {name}` under its head, or take the file out"),
    )


def cylinders_count(span: Span, count: int, name: str, has: int) -> Message:
    return error(
        "cylinders-count",
        span,
        f"{count} {'cylinder is' if count == 1 else 'cylinders are'} named; {name} has {has}",
        f"name {has}, in the order of the engine's",
    )


def cylinders_twice(span: Span, number: int) -> Message:
    return error("cylinders-count", span, f"cylinder {number} is named twice", "name each once")


def cylinders_without(span: Span) -> Message:
    return error(
        "cylinders-count",
        span,
        "`cylinders` says which the engine's are, and this head is of no engine",
        "delete the line, or say of which engine the head is",
    )


def cylinder_beside(span: Span, valve: str, cylinder: int, line: Span) -> Message:
    return error(
        "cylinders-count",
        span,
        f"{valve} is of cylinder {cylinder}, which `cylinders` does not name",
        "correct its name, or name its cylinder there",
        (Related(line, "cylinders stands here"),),
    )


def limits_none(span: Span, path: str, valves: Iterable[str]) -> Message:
    return error(
        "limits-none",
        span,
        f"`limits reconditioned`, but {path} gives none for any of {' '.join(valves)}",
        "leave the line out",
    )


def not_used_idle(span: Span, word: str, of: str) -> Message:
    return error(
        "not-used-idle",
        span,
        f"no used file gives `{word}` for {of}, so there is nothing to leave unused",
        "delete the line",
    )


def sizes_and_bore(span: Span, word: str, valve: str, table: Span) -> Message:
    return error(
        "sizes-and-bore",
        span,
        f"`pocket-sizes` and `{word}` both give {valve} the maker's pocket",
        "keep one",
        (Related(table, "the table stands here"),),
    )


def size_twice(span: Span, name: str, first: Span) -> Message:
    return error(
        "size-twice",
        span,
        f"the size {name} stands twice",
        "keep the row that is right; `.010` and `+.010` are one size",
        (Related(first, "it stands here first"),),
    )


def size_lacks_limit(span: Span, name: str, has: str, lacks: str) -> Message:
    return error(
        "size-lacks",
        span,
        f"the size {name} has `{has}` and no `{lacks}`",
        "give both; `bore-most` may stand alone, where a blank is turned to its bore",
    )


def size_says_nothing(span: Span, name: str) -> Message:
    return error("size-lacks", span, f"the size {name} says nothing", "give its bore, or delete the row")


def size_reversed(span: Span, word: str, least: str, most: str) -> Message:
    return error("range-reversed", span, f"{word}: {least} to {most} begins with the larger", "exchange the two")


def size_unknown(span: Span, name: str, valve: str, known: Iterable[str]) -> Message:
    listed = tuple(known)
    has = f"its sizes are {', '.join(listed)}" if listed else "there is no `pocket-sizes` for it"
    return error("size-unknown", span, f"the maker's table has no size `{name}` for {valve}", has)


def bore_most_alone(span: Span, typed: str, valve: str) -> Message:
    return error(
        "limits-wanted",
        span,
        f"bore: `{typed}` is one limit, and {valve} does not get an insert that is turned to its bore",
        "give two limits, or say `insert turned`",
    )
