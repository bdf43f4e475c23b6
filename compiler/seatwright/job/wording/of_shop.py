"""The wording of what may be wrong with the things of a shop file."""

from __future__ import annotations

from seatwright.job.model import Given
from seatwright.job.wording.of_values import error
from seatwright.text import Message, Related, Span


def from_to(span: Span, name: str, smallest: Given, largest: Given) -> Message:
    return error(
        "pilot-range",
        span,
        f"pilot `{name}` grips from {smallest.typed} to {largest.typed}, which is upside down",
        "the smaller stands under `from`, the larger under `to`",
    )


def od_limits(span: Span, name: str, least: Given, most: Given) -> Message:
    return error(
        "insert-limits",
        span,
        f"insert `{name}`: od-least {least.typed} is more than od-most {most.typed}",
        "exchange them, or correct one",
        (Related(most.span, "od-most stands here"),),
    )


def od_outside(span: Span, name: str, od: Given, least: Given | None, most: Given | None) -> Message:
    said = " to ".join(one.typed if one else "-" for one in (least, most))
    return error(
        "insert-od-outside",
        span,
        f"insert `{name}`: od {od.typed} lies outside its own limits, {said}",
        "correct the od or its limits",
    )


def id_over_od(span: Span, name: str, id: Given, od: Given) -> Message:
    return error(
        "insert-id",
        span,
        f"insert `{name}`: an id of {id.typed} leaves no wall in an od of {od.typed}",
        "correct one of them",
        (Related(od.span, "the od stands here"),),
    )


def chamfer_high(span: Span, name: str, chamfer: Given, height: Given) -> Message:
    return error(
        "insert-chamfer",
        span,
        f"insert `{name}`: a chamfer of {chamfer.typed} is more than its height {height.typed}",
        "the chamfer is measured along the od; correct one of them",
        (Related(height.span, "the height stands here"),),
    )


def guide_limits(span: Span, name: str, least: Given, most: Given) -> Message:
    return error(
        "guide-figures",
        span,
        f"guide `{name}`: od-least {least.typed} is more than od-most {most.typed}",
        "exchange them, or correct one",
        (Related(most.span, "od-most stands here"),),
    )


def guide_od_outside(span: Span, name: str, od: Given, least: Given | None, most: Given | None) -> Message:
    said = " to ".join(one.typed if one else "-" for one in (least, most))
    return error(
        "guide-figures",
        span,
        f"guide `{name}`: od {od.typed} lies outside its own limits, {said}",
        "correct the od or its limits",
    )


def guide_id(span: Span, name: str, id: Given, od: Given) -> Message:
    return error(
        "guide-figures",
        span,
        f"guide `{name}`: an id of {id.typed} leaves no wall in an od of {od.typed}",
        "correct one of them",
        (Related(od.span, "the od stands here"),),
    )


def count_whole(span: Span, name: str, count: Given, words: str, what: str = "insert") -> Message:
    return error(
        "count-whole",
        span,
        f"{what} `{name}`: {count.typed} {words} is no whole number",
        "write how many there are, `-` if nobody counted",
    )


def interference_lacks(span: Span, column: str) -> Message:
    return error(
        "interference-lacks",
        span,
        f"this row of interference has no {column}",
        'whose figure it is must be said, such as `"shop book"`'
        if column == "source"
        else "a row has a least and a most, both diametral",
    )


def interference_reversed(span: Span, least: Given, most: Given) -> Message:
    return error(
        "interference-reversed",
        span,
        f"least {least.typed} is more than most {most.typed}",
        "exchange them, or correct one",
        (Related(most.span, "most stands here"),),
    )


def interference_bounds(span: Span, over: Given, to: Given) -> Message:
    return error(
        "interference-bounds",
        span,
        f"over {over.typed} to {to.typed} holds no insert",
        "the od is over the first and at most the second; correct one of them",
    )


def interference_overlap(span: Span, first: Span) -> Message:
    return error(
        "interference-overlap",
        span,
        "two rows of interference are for the same inserts, and neither is the narrower",
        "part them by their sizes (`over`, `to`), or fill in an alloy or a seat in one of them",
        (Related(first, "the other row"),),
    )


def expansion_again(span: Span, called: str, to: Given, first: Span) -> Message:
    return error(
        "expansion-twice",
        span,
        f"{called} has two expansions to {to.typed}",
        "keep the one that is right",
        (Related(first, "the other one stands here"),),
    )


def stock_undated(span: Span) -> Message:
    return error(
        "stock-undated",
        span,
        "`stock` does not say on which day this was counted or came in",
        "write the day on its line, such as `stock 2026-11-20`",
    )


def counted_again(span: Span, kind: str, name: str, date: str, first: Span) -> Message:
    return error(
        "item-twice",
        span,
        f"{kind} `{name}` is counted twice on {date}",
        "keep the count that is right; what came in stands under `delivered`",
        (Related(first, "the other count stands here"),),
    )


def formerly_taken(span: Span, kind: str, name: str, before: str, taken: Span, by: str) -> Message:
    """by: the name of the item that was called so before as well; the name itself where it is that item's own."""
    own = by == before
    return error(
        "formerly-taken",
        span,
        f"{before} is {_article(kind)} {kind}, and {name} was formerly {before}"
        if own
        else f"{by} and {name} were both formerly {before}",
        f"rename one of them: whether an old job that says {before} means {before if own else by} or {name} cannot be "
        "told",
        (Related(taken, f"{before} stands here" if own else f"{by} was formerly {before} as well"),),
    )


def _article(kind: str) -> str:
    return "an" if kind[0] in "aeiou" else "a"
