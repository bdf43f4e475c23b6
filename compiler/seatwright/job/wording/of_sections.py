"""The wording of what may be wrong with sections, tables, and the order in which they stand."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.job.wording.of_values import any_of, error, sentence
from seatwright.text import Message, Related, Severity, Span
from seatwright.text.slugs import ErrorSlug

_WHICH: dict[str, ErrorSlug] = {"machine": "machine-which", "gauge": "gauge-which", "bore-gauge": "bore-gauge-which"}
_UNKNOWN: dict[str, ErrorSlug] = {
    "machine": "machine-unknown", "gauge": "gauge-unknown", "bore-gauge": "bore-gauge-unknown",
    "cutter": "cutter-unknown", "pilot": "pilot-unknown", "insert": "insert-unknown", "guide": "guide-unknown",
    "material": "material-unknown", "alloy": "alloy-unknown",
}  # fmt: skip


def opening_left_over(span: Span, section: str, typed: str, example: str) -> Message:
    return error(
        "section-left-over",
        span,
        f"`{typed}` does not belong on the line of {section}",
        f"the line is written `{example}`; fields go on lines of their own",
    )


def opening_missing(span: Span, section: str, what: str, example: str) -> Message:
    return error("section-incomplete", span, f"{section} does not say {what}", f"write it as `{example}`")


def opening_twice(span: Span, section: str, what: str, first: Span) -> Message:
    return error(
        "section-twice-said",
        span,
        f"the line of {section} says its `{what}` twice",
        "keep the one that is right",
        (Related(first, "here first"),),
    )


def table_units(span: Span, section: str) -> Message:
    return error("table-units", span, f"{section} does not say what its figures are in", "write `in mm` or `in inch`")


def table_at_limits(span: Span, typed: str) -> Message:
    return error(
        "table-at",
        span,
        f"`at {typed}`: the temperature of a table stands without limits",
        "how far off the thermometer may be is said under `head`, such as `temperature 24 C +/- 1`",
    )


def table_at(span: Span) -> Message:
    return error("table-at", span, "`at` has no temperature behind it", "write it with its unit, such as `at 24 C`")


def cell_first(span: Span, column: str) -> Message:
    return error(
        "cell-first", span, f"the row does not say which {column} it is for", f"the column `{column}` is never empty"
    )


def cells_exchanged(span: Span, column: str, typed: str, other: Span, other_column: str, other_typed: str) -> Message:
    return error(
        "cells-exchanged",
        span,
        f"{column} of {typed} and {other_column} of {other_typed} look exchanged",
        f"each is what the other may be: was {column} `{other_typed}` and {other_column} `{typed}` meant?",
        (Related(other, f"{other_column} stands here"),),
    )


def cells_twice(span: Span, columns: Iterable[str], of: str, first: Span, other: str | None) -> Message:
    listed = " and ".join(columns)
    help = f"was the row of `{other}` meant? " if other else ""
    return error(
        "cell-twice",
        span,
        f"{listed} of {of} are given twice",
        help + "Keep the row that is right; later readings go in a section with its own later date, "
        "such as `measured 2026-11-20`",
        (Related(first, f"{of} stands here as well"),),
    )


def cell_twice(span: Span, column: str, of: str, first: Span, other: str | None = None) -> Message:
    return error(
        "cell-twice",
        span,
        f"{column} of {of} is given twice",
        (f"was the row of `{other}` meant? Keep" if other else "keep")
        + " the one that is right; a later reading goes in a section with its own later date, such as "
        "`measured 2026-11-20`",
        (Related(first, f"{column} of {of} stands here as well"),),
    )


def readings_here(span: Span, column: str, typed: str) -> Message:
    return error(
        "readings-here", span, f"{column}: `{typed}` holds several readings", "this table takes one figure in a cell"
    )


def cells_alike(span: Span, column: str, other: str, first: Span) -> Message:
    return error(
        "cell-twice",
        span,
        f"{column} and {other} say the same thing, and both are given",
        "empty one with `-`",
        (Related(first, f"{other} stands here"),),
    )


def replaced_undated(span: Span) -> Message:
    return error(
        "replaced-undated",
        span,
        "`replaced` does not say on which day, so which readings are older is not known",
        "write the day on its line, such as `replaced 2026-11-18`",
    )


def replaced_what(span: Span, valve: str) -> Message:
    return error(
        "replaced-what", span, f"what of {valve} was replaced is not said", "fill in its `part`, or delete the row"
    )


def replaced_twice(span: Span, valve: str, part: str, first: Span) -> Message:
    return error(
        "replaced-twice",
        span,
        f"the {part} of {valve} is replaced twice on one day",
        "keep one of the rows",
        (Related(first, "the other one stands here"),),
    )


def row_length(span: Span, section: str, count: int, example: str) -> Message:
    return error(
        "row-length",
        span,
        f"this row of {section} has {count} {'entry' if count == 1 else 'entries'}",
        f"a row is written `{example}`",
    )


def row_word(span: Span, section: str, typed: str, word: str, example: str) -> Message:
    return error(
        "row-word", span, f"`{typed}` stands where {section} has the word `{word}`", f"a row is written `{example}`"
    )


def no_job(path: str) -> Message:
    return error(
        "job-missing",
        Span(path, 1, 1, 1, 1),
        f"{path} has no `job` line",
        'a job file begins with a line such as `job 2214 "loose exhaust seats"`, and `units mm` or `units inch` '
        "below it",
    )


def no_head(span: Span) -> Message:
    return error("head-missing", span, "the job has no head", 'add one, such as `head "four cylinder, iron"`')


def no_shop(path: str) -> Message:
    return error(
        "shop-missing",
        Span(path, 1, 1, 1, 1),
        f"{path} has no `shop` line",
        'a shop file begins with a line such as `shop "name"`, and `units mm` or `units inch` below it',
    )


def section_again(span: Span, section: str, first: Span) -> Message:
    return error(
        "section-again",
        span,
        f"`{section}` stands twice in this file",
        "keep one of them, with all its lines",
        (Related(first, f"`{section}` stands here first"),),
    )


def job_late(span: Span, head: Span) -> Message:
    return error(
        "job-late",
        span,
        "`job` stands behind a head",
        "move it, with its fields, to the top of the file",
        (Related(head, "the first head stands here"),),
    )


def headless(span: Span, section: str) -> Message:
    return error(
        "head-wanted",
        span,
        f"`{section}` belongs to a head, and none stands above it",
        'put a line such as `head "four cylinder, iron"` above it',
    )


def head_again(span: Span, name: str, first: Span) -> Message:
    return error(
        "head-twice",
        span,
        f"there are two heads called `{name}`",
        "give each a name of its own",
        (Related(first, "the first stands here"),),
    )


def item_again(span: Span, kind: str, name: str, first: Span) -> Message:
    return error(
        "item-twice",
        span,
        f"{kind} `{name}` stands twice in this file",
        "keep one, or give one another name",
        (Related(first, f"{kind} `{name}` stands here first"),),
    )


def single_kind(span: Span, word: str, kind: str = "a shop") -> Message:
    return error("single-kind", span, f"`{word}` has no place in {kind} file", "it belongs in the job file")


def single_form(span: Span, word: str, example: str) -> Message:
    return error("single-form", span, f"this `{word}` line is incomplete", f"write it as `{example}`")


def single_text(span: Span, word: str, raw: str, example: str) -> Message:
    bare = raw.strip("'` ")
    help = f'write it as `{word} "{bare}"`' if word == "note" and '"' not in bare else f"write it as `{example}`"
    return error("single-form", span, f"this `{word}` line has no text in double quotes", help)


def language_unknown(span: Span, typed: str) -> Message:
    return error(
        "language-unknown",
        span,
        f"`{typed}` is no version of the language that this tool reads",
        "it reads version 1: `language 1`, or no such line",
    )


def dates_order(span: Span, received: str, due: str, first: Span) -> Message:
    return error(
        "dates-order",
        span,
        f"due on {due}, which is before it was received, on {received}",
        "correct one of them",
        (Related(first, "received stands here"),),
    )


def use_unreadable(span: Span, path: str, why: str) -> Message:
    return error(
        "use-unreadable",
        span,
        f"the file `{path}` cannot be read: {why}",
        "the path is relative to the job file, with `/`; check its spelling and that the file is there",
    )


def use_refused(span: Span, path: str, why: str) -> Message:
    return error(
        "use-refused",
        span,
        f"`{path}` is refused: {why}",
        "a job uses `.shop` and `.engine` files of its own folder, of those below it, and of those above it up to the "
        "one that holds `.git`; name it from the job's own, with `/`",
    )


def use_many(span: Span, count: int, most: int) -> Message:
    return error(
        "use-many",
        span,
        f"the job uses {count} shop and engine files; the most is {most}, and none of them was read",
        "put what belongs together in one file",
    )


def use_again(span: Span, path: str, first: Span) -> Message:
    return error(
        "use-twice",
        span,
        f"`{path}` is used twice",
        "delete one of the lines",
        (Related(first, "it stands here first"),),
    )


def shop_replaced(span: Span, what: str, first: Span) -> Message:
    return Message(
        Severity.NOTICE,
        "shop-replaced",
        span,
        f"{what} of {first.file} is replaced by the one of {span.file}",
        sentence("if that is not wanted, take it out of one of the shop files"),
        (Related(first, "what is replaced"),),
    )


def choose_which(span: Span, kind: str, names: Iterable[str]) -> Message:
    listed = tuple(names)
    return error(
        _WHICH[kind],
        span,
        f"the shop has {len(listed)} {kind}s, and the job does not say which is used",
        f'add a line such as `{kind} "{listed[0]}"`; there are {any_of(listed, "and")}',
    )


def item_unknown(span: Span, kind: str, name: str, meant: str | None, known: Iterable[str], files: bool) -> Message:
    listed = tuple(known)
    if meant is not None:
        help = f"did you mean `{meant}`?"
    elif listed:
        help = f"there {'are' if len(listed) > 1 else 'is only'} {any_of(listed[:20], 'and')}"
        if len(listed) > 20:
            help += f" and {len(listed) - 20} more"
    elif files:
        help = f"no shop file that this job uses has any {kind}"
    else:
        help = 'no shop file is used: add a line such as `use "bench.shop"`'
    return error(_UNKNOWN[kind], span, f"there is no {kind} `{name}`", help)


def leak_word(span: Span, typed: str) -> Message:
    return error(
        "choice-unknown",
        span,
        f"leak: `{typed}` is neither `pass` nor `fail`, nor a time",
        "write `pass`, `fail`, or how long it held, such as `4 s`",
    )


def shop_uses(span: Span, kind: str = "shop") -> Message:
    a_file = f"{'an' if kind == 'engine' else 'a'} {kind} file"
    return error("shop-uses", span, f"{a_file} uses no other file", "name every file in the job, one `use` line each")


def section_field_again(span: Span, section: str, word: str, first: Span) -> Message:
    return error(
        "field-twice",
        span,
        f"{word} stands twice in the `{section}` of this file",
        "keep the one that is right, and delete the other",
        (Related(first, f"{word} stands here first"),),
    )


def job_unreadable(path: str, why: str) -> Message:
    return error(
        "job-unreadable", Span(path, 1, 1, 1, 1), f"{path} cannot be read: {why}", "check its name and that it is there"
    )


def alloy_apart(span: Span, typed: str) -> Message:
    return error(
        "alloy-apart",
        span,
        f"alloy takes several names, so `{typed}` is read as two",
        f"write it with a hyphen, `{typed.replace(' ', '-')}`",
    )
