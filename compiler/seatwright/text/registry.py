"""The registry of messages, read from grammar/slugs.txt: each declared once, for whoever lists or explains them.

`python -m seatwright.text.registry > compiler/seatwright/text/slugs.py` renews the types by which the checker knows the
names; who says a message needs those only, and never loads this.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping
from functools import cache

from msgspec import Struct

from seatwright.text.message import Severity
from seatwright.text.shipped import shipped

REASON = "reason"
"""What stands beside an insert that was passed over: it weighs nothing by itself."""


class Declared(Struct, frozen=True):
    """One message: weights (of `Severity`, or REASON), the room that says it, and a line of what it means.

    topic: of a notice, under which it is counted with others; "" for all else.
    """

    slug: str
    weights: tuple[str, ...]
    room: str
    meaning: str
    topic: str = ""


@cache
def declared() -> Mapping[str, Declared]:
    """Every message by its slug, sorted."""
    lines = shipped("seatwright.grammar", "slugs.txt").decode("utf-8").splitlines()
    rows = (line.split(maxsplit=3) for line in lines if line and not line.startswith("#"))
    return {slug: _declared(slug, weights, room, rest) for slug, weights, room, rest in rows}


def _declared(slug: str, weights: str, room: str, rest: str) -> Declared:
    topic, _, meaning = rest.removeprefix("[").partition("] ") if rest.startswith("[") else ("", "", rest)
    return Declared(slug, tuple(weights.split(",")), room, meaning, topic)


def types() -> str:
    """The module of the names as types."""
    return "\n".join(_types()) + "\n"


def _types() -> Iterator[str]:
    yield '"""The names of all messages as types, made from grammar/slugs.txt by `seatwright.text.registry`."""'
    yield "\nfrom __future__ import annotations\n\nfrom typing import TYPE_CHECKING, Literal, TypeAlias\n"
    yield "# fmt: off\nif TYPE_CHECKING:"
    kinds = {weight: f"{weight.title()}Slug" for weight in (*Severity, REASON)}
    for weight, name in kinds.items():
        slugs = ", ".join(f'"{each.slug}"' for each in declared().values() if weight in each.weights)
        yield f"    {name}: TypeAlias = Literal["
        yield textwrap.fill(slugs, 120, initial_indent=" " * 8, subsequent_indent=" " * 8, break_on_hyphens=False) + ","
        yield "    ]"
    yield f"    Slug: TypeAlias = {' | '.join(kinds.values())}"
    yield "else:\n    # A program that runs has no use for the names: it would only take longer to start."
    yield f"    {' = '.join(kinds.values())} = Slug = str"


if __name__ == "__main__":
    print(types(), end="")
