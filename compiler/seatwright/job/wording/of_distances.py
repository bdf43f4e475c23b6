"""The wording of places and distances that no head has."""

from __future__ import annotations

from seatwright.job.model import Given, Place
from seatwright.job.wording.of_values import sentence
from seatwright.text import Message, Related, Severity, Span
from seatwright.text.slugs import WarningSlug


def _warn(
    slug: WarningSlug, span: Span, text: str, help: str, related: tuple[Related, ...], valves: tuple[str, ...]
) -> Message:
    return Message(Severity.WARNING, slug, span, text, sentence(help), related, valves)


def unlike_cylinders(
    first: str, second: str, typed: str, span: Span, others: list[tuple[str, str]], place: Span, *, unsure: bool
) -> Message:
    """unsure: there is one other cylinder, and nothing says which of the two is the slip."""
    listed = ", ".join(f"{names} {each}" for names, each in others)
    also = tuple(others[0][0].split(" and ")) if unsure else ()
    return _warn(
        "spacing-unlike",
        span,
        f"{first} and {second} stand {typed} apart, and in the other cylinder{'' if unsure else 's'} {listed}",
        "measure it over two pins; bridges are reckoned from it",
        (Related(place, "another cylinder stands here"),),
        (first, second, *also),
    )


def out_of_row(name: str, column: str, figure: Given, other: str, like: Given, valves: tuple[str, ...]) -> Message:
    return _warn(
        "place-unlike",
        figure.span,
        f"{name} has {column} {figure.typed}, unlike the others of its kind ({other} has {like.typed})",
        "correct it; bridges are reckoned from it",
        (Related(like.span, f"{other} stands here"),),
        valves,
    )


def on_one_spot(first: Place, second: Place) -> Message:
    return Message(
        Severity.ERROR,
        "valves-on-one-spot",
        second.span,
        f"{second.valve} at {second.x.typed}, {second.y.typed} stands where {first.valve} does, at {first.x.typed}, "
        f"{first.y.typed}",
        sentence("correct the place of one of them"),
        (Related(first.span, f"{first.valve} stands here"),),
        (first.valve, second.valve),
    )


def far_for_size(first: str, second: str, typed: str, span: Span, sizes: list[Given]) -> Message:
    heads = " and ".join(size.typed for size in sizes)
    return _warn(
        "spacing-unlike",
        span,
        f"{first} and {second} stand {typed} apart, with valves of {heads}: in one cylinder valves stand closer",
        "correct the distance or the place; bridges are reckoned from it",
        (),
        (first, second),
    )
