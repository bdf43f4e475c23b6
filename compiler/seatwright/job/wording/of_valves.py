"""The wording of what may be wrong with valves: which are meant, and what is said of them."""

from __future__ import annotations

from seatwright.job.wording.of_values import any_of, error, sentence
from seatwright.text import Message, Related, Severity, Span


def selector_missing(span: Span, section: str) -> Message:
    return error(
        "valves-which",
        span,
        f"`{section}` does not say which",
        f"write `{section} all`, `{section} exhaust`, or name them: `{section} E1 E3`",
    )


def selector(span: Span, typed: str, meant: str | None) -> Message:
    help = "write `all`, `intake`, `exhaust`, or valves by name: `valves E1 E3`"
    if meant:
        help = f"did you mean `{meant}`? {sentence(help)}"
    return error("valves-which", span, f"`{typed}` selects no valve", help)


def selector_joined(span: Span, typed: str) -> Message:
    return error(
        "valves-which", span, f"`{typed}` selects no valve", f"leave `{typed}` out: a blank parts the names of valves"
    )


def selector_through(span: Span, typed: str, meant: str) -> Message:
    return error(
        "valves-which",
        span,
        f"`{typed}` selects no valve",
        f"name each of them: `valves {meant}`" if meant else "name each of them: `valves E1 E2 E3`",
    )


def selects_none(span: Span, words: str, heads: str = "this head names") -> Message:
    return Message(
        Severity.NOTICE,
        "valves-none-meant",
        span,
        f"`valves {words}` means no valve that {heads}",
        sentence("the fields below it have no effect until such a valve stands in a table or behind `valves`"),
    )


def valves_differ(span: Span, word: str, valve: str, first: Span) -> Message:
    return error(
        "valves-differ",
        span,
        f"{word} of {valve} is given twice, by lines that reach equally far, and differently",
        "keep one, or give the valve its own line under its name: the narrower one counts",
        (Related(first, f"{word} stands here as well"),),
    )


def no_valves(span: Span) -> Message:
    return error(
        "valves-missing",
        span,
        "this head names no valve, so nothing can be planned or printed for it",
        "name them behind `valves`, such as `valves I1 E1 I2 E2`, or measure them in a table",
    )


def valve_missing(span: Span, name: str, meant: str | None) -> Message:
    return error(
        "valve-unknown",
        span,
        f"no head of this job has a valve `{name}`",
        f"did you mean `{meant}`?" if meant else "name it in a table, or behind `valves`",
    )


def valve_of_no_head(span: Span, name: str) -> Message:
    return error(
        "valve-headless",
        span,
        f"{name} stands above all heads, and none of them has it",
        f"name {name} under its head, in a table or behind `valves`",
    )


def not_counted_nothing(span: Span, valve: str, date: str | None, days: list[str]) -> Message:
    of_day = f" of {date}" if date else ""
    help = f"its cuts are of {any_of(sorted(set(days)), 'and')}" if days else "write its bore under `cut` first"
    return error("not-counted-nothing", span, f"{valve} has no cut{of_day} that could be left out", help)


def valve_alone(span: Span, name: str, table: str, lacking: list[str], place: Span) -> Message:
    listed = any_of(lacking, "and").replace("`", "")
    has = "has" if len(lacking) == 1 else "have"
    return Message(
        Severity.WARNING,
        "valve-alone",
        span,
        f"{name} stands in this row alone, and {listed} {has} none in this table",
        sentence(f"was {any_of(lacking)} meant? Else name {name} behind `valves` as well"),
        (Related(place, f"{lacking[0]} stands here"),),
    )


def outside_cylinders(span: Span, name: str, cylinder: str, away: str, place: Span) -> Message:
    return error(
        "valve-outside-cylinders",
        span,
        f"the centre of {name} lies in no cylinder; the edge of the nearest, {cylinder}, is {away} away",
        f"look at the place of {name} and at those of the cylinders: both are counted from one point",
        (Related(place, f"{cylinder} stands here"),),
    )


def valve_again(span: Span, name: str, first: Span) -> Message:
    return error(
        "valve-twice",
        span,
        f"valve {name} stands under two heads",
        "number the cylinders of both heads through, so that each valve has its own name",
        (Related(first, f"{name} of the other head stands here"),),
    )


def pair_itself(span: Span, name: str) -> Message:
    return error("spacing-same", span, f"{name} has no distance from itself", "name two valves")


def pair_again(span: Span, first_valve: str, second: str, first: Span) -> Message:
    return error(
        "spacing-twice",
        span,
        f"the distance {first_valve} to {second} is given twice",
        "keep the one that is right",
        (Related(first, "the other one stands here"),),
    )


def place_again(span: Span, what: str, first: Span) -> Message:
    return error(
        "place-twice",
        span,
        f"{what} has two places",
        "keep the one that is right",
        (Related(first, "the other one stands here"),),
    )


def place_lacks(span: Span, name: str, column: str) -> Message:
    return error("place-lacks", span, f"{name} has no {column}", f"fill in its {column}, or delete the row")


def spacing_differs(span: Span, pair: str, said: str, drawn: str, first: Span) -> Message:
    return Message(
        Severity.WARNING,
        "spacing-layout",
        span,
        f"{pair} are {said} apart here, but {drawn} by the layout",
        sentence("measure again; until then the smaller of the two is used"),
        (Related(first, "the layout has one of them here"),),
    )
