"""A figure of the plan: its value, and how it came about down to the lines that were measured."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import cast

from msgspec import Struct

from seatwright.job.model import Given, Reading, Stated
from seatwright.text import Span

# `gc=False`: a figure knows only what was made before it, so no circle of them can ever be left over, and the collector
# need not go through the thousands that a plan is made of.


class Origin(Struct, frozen=True, gc=False):
    """Where a figure that was not computed comes from.

    typed: as its owner wrote it. span: the line, None for a built-in or left-out figure. source: who says so
    (`service manual`, `EN 1561, from memory`, `language: left out`), "" for a measurement. in_place_of: the figure of
    the engine's maker that it overrides.
    """

    typed: str
    span: Span | None
    source: str = ""
    in_place_of: str = ""


class Figure(Struct, frozen=True, gc=False):
    """A value with its unit and its history.

    unit: mm, mm/mm, deg, C, 1/C, rpm, m/min, mm/rev, min, turns, Nm, N, MPa, s, 1.
    symbol: how a formula calls it (`od_most`). formula: in the symbols of the inputs (`od_most - I_most`), "" for a
    figure that was given. inputs: what the formula took. source: where the formula stands, or whose practice it is.
    origin: for a figure that was given. note: what a reader should know (`rounded inwards to 0.002 mm`).
    """

    value: float
    unit: str
    symbol: str
    formula: str = ""
    inputs: tuple[Figure, ...] = ()
    source: str = ""
    origin: Origin | None = None
    note: str = ""

    def called(self, symbol: str) -> Figure:
        """The same figure under the name that the next formula calls it by."""
        if symbol == self.symbol:
            return self
        return Figure(self.value, self.unit, symbol, self.formula, self.inputs, self.source, self.origin, self.note)

    def lines(self) -> Iterator[Span]:
        """Every place in the files that this figure rests on, each once, in the order of the formula."""
        seen: set[Span] = set()
        for figure in self.walk():
            if figure.origin is not None and figure.origin.span is not None and figure.origin.span not in seen:
                seen.add(figure.origin.span)
                yield figure.origin.span

    def walk(self) -> Iterator[Figure]:
        """This figure and all that it rests on, each once, nearest first."""
        seen: set[int] = set()
        waiting: list[Figure] = [self]
        while waiting:
            figure = waiting.pop(0)
            if id(figure) not in seen:
                seen.add(id(figure))
                yield figure
                waiting.extend(figure.inputs)


def given(symbol: str, unit: str, what: Given | Reading | Stated, value: float | None = None) -> Figure:
    """A figure that somebody typed, or that a table states.

    value: where another than `what.value` is meant (the largest of a list of readings).
    """
    # No kind has another below it, and `isinstance` would take longer than all the rest here.
    if type(what) is Reading:
        origin = Origin(what.typed, what.span)
    elif type(what) is Given:
        origin = Origin(what.typed, what.span, what.source, what.in_place_of)
    else:
        stated = cast(Stated, what)
        line = stated.given
        origin = Origin("", None, stated.source) if line is None else Origin(line.typed, line.span, stated.source)
    return Figure(what.value if value is None else value, unit, symbol, "", (), "", origin)


def assumed(symbol: str, unit: str, value: float, source: str) -> Figure:
    """A figure that nobody gave: left out, with the value that the language says, or built in. source says which."""
    return Figure(value, unit, symbol, origin=Origin(typed="", span=None, source=source))


def computed(
    symbol: str, unit: str, value: float, formula: str, inputs: Sequence[Figure], source: str, note: str = ""
) -> Figure:
    """A figure that a formula gave."""
    return Figure(value, unit, symbol, formula, tuple(inputs), source, None, note)
