"""A particular: one thing that a card says, by the name that a machinist calls it and its path in plan.json."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct

from seatwright.planning.plan import Order
from seatwright.planning.plan.figure import Figure
from seatwright.text import Message, Severity


class Particular(Struct, frozen=True):
    """One thing that a card says.

    words: what it is called at the bench. paths: where plan.json has it, below its subject (`bore.bench_least`,
    `bore.bench_most`), one for each figure, or for the word. figures: one; where form is `limits`, the least and the
    most, None on a side without; where it is `sizes`, as many as there are; () for a word. text: the word; where form
    is `slug`, one of the plan's own. read_on: the instrument that shows a length: bore gauge, setting gauge, dial,
    depth gauge, bench (none in particular). marked: what its dial is marked in, mm | in, None where that is the
    instrument's own affair.
    """

    paths: tuple[str, ...]
    words: str
    figures: tuple[Figure | None, ...] = ()
    form: str = "one"  # one | limits | sizes | text | slug
    text: str = ""
    read_on: str = "bench"
    marked: str | None = None


def one(
    path: str, words: str, figure: Figure | None, read_on: str = "bench", marked: str | None = None
) -> Iterator[Particular]:
    """A figure, where there is one."""
    if figure is not None:
        yield Particular((path,), words, (figure,), read_on=read_on, marked=marked)


def limits_fact(
    paths: tuple[str, str], words: str, least: Figure | None, most: Figure | None, read_on: str = "bench"
) -> Iterator[Particular]:
    """Limits, where there is one on either side."""
    if least is not None or most is not None:
        yield Particular(paths, words, (least, most), "limits", read_on=read_on)


def sizes(path: str, words: str, figures: tuple[Figure, ...]) -> Iterator[Particular]:
    """Figures in a row, where there are any."""
    if figures:
        yield Particular(tuple(f"{path}.{number}" for number in range(len(figures))), words, figures, "sizes")


def text_fact(path: str, words: str, said: str | None) -> Iterator[Particular]:
    """A word or a sentence, where there is one."""
    if said:
        yield Particular((path,), words, form="text", text=said)


def slug(path: str, words: str, said: str | None) -> Iterator[Particular]:
    """One of the plan's own words, where there is one."""
    if said:
        yield Particular((path,), words, form="slug", text=said)


def to_order(path: str, words: str, wanted: Order) -> Iterator[Particular]:
    """What an insert to be ordered must be."""
    yield from limits_fact((f"{path}.od", ""), f"{words}, od", wanted.od, None)
    yield from limits_fact(
        (f"{path}.height", f"{path}.height_most"), f"{words}, height", wanted.height, wanted.height_most
    )
    yield from limits_fact(("", f"{path}.id"), f"{words}, id", None, wanted.id)
    yield from text_fact(f"{path}.alloy", f"{words}, alloy", " or ".join(wanted.alloy))


def warnings(messages: Iterable[Message]) -> Iterator[Particular]:
    """Which warnings there are: whether, not how, since a warning quotes figures that are particulars themselves."""
    for found in sorted({message.slug for message in messages if message.severity is Severity.WARNING}):
        yield from text_fact(f"messages.{found}", f"warning, {slug_as_words(found)}", "yes")


def slug_as_words(found: str) -> str:
    """A slug or a name of plan.json as words: `bridge thin`."""
    return found.replace("-", " ").replace("_", " ")
