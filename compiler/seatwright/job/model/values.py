"""Figures, readings, limits and names as somebody gave them."""

from __future__ import annotations

from msgspec import Struct

from seatwright.text import Span


class Given(Struct, frozen=True):
    """A figure that somebody gave.

    value: in the units of this module. typed: digits and unit as their owner wrote them. half_digit: half of the last
    digit typed, in the units of value (0 for a fraction). source: the text that stands behind it, if any; of an engine
    file's figure the file's own source before it. in_place_of: the figure of the engine's maker that it overrides.
    """

    value: float
    typed: str
    span: Span
    half_digit: float = 0.0
    source: str = ""
    in_place_of: str = ""


class Reading(Struct, frozen=True):
    """A cell of a table: one value, or several readings of one thing.

    value: the mean, for size; largest: for wear; smallest: for entry. at: what head and gauge were at, where the table
    says so. date: that of the section, ISO 8601. earlier: what the cell held before, newest first.
    each: of several readings, every one.
    """

    value: float
    largest: float
    smallest: float
    typed: str
    span: Span
    half_digit: float = 0.0
    count: int = 1
    at: Given | None = None
    date: str | None = None
    earlier: tuple[Reading, ...] = ()
    each: tuple[float, ...] = ()


class Limits(Struct, frozen=True):
    """Two limits, one limit, or an aim.

    nominal: the figure of a tolerance, or a single figure. source: the text behind it (`"manual"`).
    """

    least: Given | None
    most: Given | None
    nominal: Given | None
    typed: str
    span: Span
    source: str = ""

    @property
    def both(self) -> tuple[Given, Given] | None:
        """The two limits; None where there is one alone, or an aim."""
        return None if self.least is None or self.most is None else (self.least, self.most)

    @property
    def aim(self) -> float | None:
        """The middle of the two limits, else the single figure, else None."""
        if self.least is not None and self.most is not None:
            return (self.least.value + self.most.value) / 2
        return None if self.nominal is None else self.nominal.value


class Spread(Struct, frozen=True):
    """A standard uncertainty (k = 1). `+/- a` was typed for a rectangular one: value = a/√3, rectangular = True."""

    value: float
    typed: str
    span: Span
    rectangular: bool = False


class Named(Struct, frozen=True):
    """A name, word or text with the place where it stands."""

    text: str
    span: Span


class NotUsed(Struct, frozen=True):
    """A field of the engine file that a job takes away: for what reason, and where that stands."""

    reason: str
    span: Span


class SizeName(Struct, frozen=True):
    """The name of one of the maker's sizes. over: how much it says that it is over the standard one, mm; None for a
    name that is no figure. unit: what its figure is in where it was typed bare: mm, in, "" else."""

    text: str
    span: Span
    over: float | None = None
    unit: str = ""

    @property
    def any(self) -> bool:
        """Whether it is `any`: none of the maker's sizes."""
        return self.text == "any"

    @property
    def standard(self) -> bool:
        """Whether it is the size that the pocket was made to."""
        return self.text.lower() in ("standard", "std")

    def same(self, other: SizeName) -> bool:
        """Whether both name one size: a figure is compared as one, so `.010` is `+.010`."""
        if self.over is not None and other.over is not None:
            return abs(self.over - other.over) < 1e-6
        return (self.standard and other.standard) or self.text.lower() == other.text.lower()


class Note(Struct, frozen=True):
    """A note that is printed; valves: those it speaks of, () for the whole head or job."""

    text: str
    span: Span
    valves: tuple[str, ...] = ()


class Extra(Struct, frozen=True):
    """An `x-` field or cell, kept as typed for the record."""

    word: str
    text: str
    span: Span
    valve: str | None = None
