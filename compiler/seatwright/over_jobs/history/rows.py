"""What one job tells of cutters, instruments and time: read off its plan, which can then be let go."""

from __future__ import annotations

from msgspec import Struct

from seatwright.text import Span

GroupKey = tuple[str, str, str, str]
"""Shelf, cutter, head material, and since when its tip is in ("" where nobody says)."""


class BorePoint(Struct, frozen=True):
    """A bore, or a trial cut, and what it came out over its setting. All in mm; bored at 20 °C.

    shelf: the shop file of its cutter, as seen from the folder. units: of that file. tip_since: "" where nobody says;
    tip_now: that of the tip which is in by the shop file as it stands.
    valve: "" for a trial. not_counted: why it does not count. steps: of the two gauges that told it. stated,
    stated_spread: what the shop file says of the cutter in this material, as typed.
    """

    shelf: str
    cutter: str
    material: str
    tip_since: str
    tip_now: str
    units: str
    date: str | None
    job: str
    file: str
    line: int
    valve: str
    read: float
    bored: float
    overcut: float
    steps: tuple[float, ...]
    span: Span
    not_counted: str | None = None
    stated: str = ""
    stated_spread: str = ""

    @property
    def group(self) -> GroupKey:
        """Where it belongs."""
        return self.shelf, self.cutter, self.material, self.tip_since

    @property
    def kind(self) -> str:
        """`trial`, or `cut`."""
        return "cut" if self.valve else "trial"


class SeveralReadings(Struct, frozen=True):
    """A cell with several readings of one thing [mm].

    instrument: of the shop, "" where it describes none for such a column. kind: the column without the place it was
    measured at. stated: the repeatability that the shop gives the instrument, as typed beside it.
    """

    shelf: str
    instrument: str
    column: str
    kind: str
    units: str
    date: str | None
    job: str
    file: str
    line: int
    valve: str
    readings: tuple[float, ...]
    span: Span
    stated: float | None = None
    stated_typed: str = ""


class FitMade(Struct, frozen=True):
    """The interference that a bore really gave: 0 in the middle of its limits, -1 and 1 at their ends."""

    shelf: str
    cutter: str
    material: str
    job: str
    file: str
    valve: str
    x: float
    date: str | None


class KnownSize(Struct, frozen=True):
    """A master or ring and what an instrument showed on it [mm]. since: "" for ever since."""

    shelf: str
    instrument: str
    units: str
    size: float
    since: str
    reads: float
    reads_typed: str
    step: float | None
    span: Span


class CheckOfInstrument(Struct, frozen=True):
    """How an instrument stood on the day of a job. checked, due: "" where no check by that day is written."""

    shelf: str
    instrument: str
    day: str
    job: str
    checked: str
    due: str
    overdue: bool


class Cause(Struct, frozen=True):
    """Something that cost time: what: `hold`, `by hand`, `cut`, `finished`; slug: which of them."""

    what: str
    slug: str
    valve: str


class CutTime(Struct, frozen=True):
    """The planned time of a bore that was cut [min]. month: `2026-11`, "" without a date."""

    machine: str
    month: str
    minutes: float


class OpenSetting(Struct, frozen=True):
    """A setting that is still to be bored. All in mm, as the bore gauge shows them at the bench.

    aim: what the reading gives, rounding in it, by the overcut in use. least, most: between which every bore of it is
    accepted; valves: those limits are of. tip_since: the tip that is in now.
    """

    shelf: str
    cutter: str
    material: str
    tip_since: str
    units: str
    name: str
    job: str
    file: str
    aim: float
    overcut: float
    least: float
    most: float
    least_of: str
    most_of: str
    valves: tuple[str, ...]


class JobHistory(Struct, frozen=True):
    """All that one job tells. day: its own, "" without any. undated: the place of a cut or trial without a date."""

    number: str
    file: str
    day: str
    points: tuple[BorePoint, ...]
    several: tuple[SeveralReadings, ...]
    fits: tuple[FitMade, ...]
    sizes: tuple[KnownSize, ...]
    checks: tuple[CheckOfInstrument, ...]
    causes: tuple[Cause, ...]
    times: tuple[CutTime, ...]
    settings: tuple[OpenSetting, ...]
    undated: Span | None = None
