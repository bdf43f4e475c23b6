"""What one shop file brings, before the files are laid over each other."""

from __future__ import annotations

from typing import Any

from msgspec import Struct, field

from seatwright.job.model import (
    BoreGauge,
    Cutter,
    Extra,
    Gauge,
    Insert,
    InterferenceLine,
    Machine,
    Material,
    Named,
    Pilot,
    Reamer,
    StockGuide,
)
from seatwright.text import Span

Item = Machine | Gauge | BoreGauge | Cutter | Pilot | Insert | StockGuide | Reamer | Material

KINDS = ("machine", "gauge", "bore-gauge", "cutter", "pilot", "insert", "guide", "reamer", "material", "alloy")


class Kept(Struct, frozen=True):
    """An item of a shop file and where it stands. formerly: the names that it had before."""

    item: Any
    name: str
    span: Span
    formerly: tuple[Named, ...] = ()


class Shelf(Struct):
    """The items of one shop file by kind and by the key of their names.

    practice, assembly: by attribute, each with its field's place. doubtful: kinds of which an item could not be read,
    so that a name that is not found may be one of those. speaks_of: materials and alloys that its tables name.
    """

    path: str
    name: Named | None = None
    items: dict[str, dict[str, Kept]] = field(default_factory=lambda: {kind: {} for kind in KINDS})
    interference: list[InterferenceLine] = field(default_factory=list)
    guide_fits: list[InterferenceLine] = field(default_factory=list)
    practice: dict[str, Any] = field(default_factory=dict)
    practice_spans: dict[str, Span] = field(default_factory=dict)
    assembly: dict[str, Any] = field(default_factory=dict)
    assembly_spans: dict[str, Span] = field(default_factory=dict)
    doubtful: set[str] = field(default_factory=set)
    extras: list[Extra] = field(default_factory=list)
    speaks_of: list[tuple[str, Named]] = field(default_factory=list)
