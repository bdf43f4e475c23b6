"""What was cut and finished, judged, and what to do where a bore is big."""

from __future__ import annotations

from msgspec import Struct

from seatwright.planning.plan.figure import Figure


class IfBig(Struct, frozen=True):
    """What to do, in this order, when a bore came out too big.

    insert: the one that would fit; valve: that it was measured for, None from the shelf; od: its diameter, or the
    middle of what a blank is turned to; interference: what it would give in the bore as cut.
    """

    do: str  # measure-again | insert | turned | oversize | hold
    insert: str | None = None
    bore: Figure | None = None
    valve: str | None = None
    od: Figure | None = None
    interference: Figure | None = None


class Waits(Struct, frozen=True):
    """Why a valve is not to be gone on with yet: its insert may be needed in bores that came out big. for_: theirs."""

    for_: tuple[str, ...]
    text: str


class CutPlan(Struct, frozen=True):
    """What was cut, judged (handbook 11, 13). At 20 °C unless named a reading.

    verdict: accepted | measure-again | bore-again | big | stop (its form or depth is beyond, twice measured).
    bore_verdict: that of its size alone. again: whether it was measured a second time since it was cut. open_by: on
    diameter, at the bench, for a bore that is small, to the aim of the setting that it stands in; new_reading: that
    setting's. In no setting: to its own aim, and from the reading that it was cut at. deeper_by: what a shallow pocket
    lacks to its aim, more on the depth stop. left_shelf: the day on which its insert did. earlier: cuts and readings of
    the same pocket before, newest first, as read: without an insert, a fit or a verdict. not_counted: why
    this bore says nothing of its cutter.
    """

    bore: Figure | None = None
    bore_a: Figure | None = None
    bore_b: Figure | None = None
    round: Figure | None = None
    taper: Figure | None = None
    depth: Figure | None = None
    floor_square: Figure | None = None
    cutter: str | None = None
    read: Figure | None = None
    insert_od: Figure | None = None
    overcut: Figure | None = None
    interference: Figure | None = None
    u: Figure | None = None
    verdict: str | None = None
    bore_verdict: str | None = None
    again: bool | None = None
    open_by: Figure | None = None
    deeper_by: Figure | None = None
    date: str | None = None
    left_shelf: str | None = None
    new_reading: Figure | None = None
    not_counted: str | None = None
    earlier: tuple[CutPlan, ...] = ()


class FinishedPlan(Struct, frozen=True):
    """What was found on the finished valve, judged. verdicts: (name, pass|fail) pairs; () over a bore that is open.
    earlier: what was found before and said again since, newest first, as read."""

    stand: Figure | None = None
    seat_tir: Figure | None = None
    seat_width: Figure | None = None
    recession: Figure | None = None
    stem_height: Figure | None = None
    spring_height: Figure | None = None
    leak: str | None = None
    leak_s: Figure | None = None
    pressure_test: str | None = None
    verdicts: tuple[tuple[str, str], ...] = ()
    verdict: str | None = None
    date: str | None = None
    earlier: tuple[FinishedPlan, ...] = ()
