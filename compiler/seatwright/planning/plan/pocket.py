"""The insert that goes in, and the pocket that is bored for it."""

from __future__ import annotations

from msgspec import Struct

from seatwright.planning.plan.figure import Figure


class PassedOver(Struct, frozen=True):
    """An insert that was not chosen: the reason (a slug), the figure that ruled it out, a sentence, the limit."""

    name: str
    reason: str
    text: str
    figure: Figure | None = None
    limit: Figure | None = None


class Between(Struct, frozen=True):
    """Two limits, or the most alone."""

    most: Figure
    least: Figure | None = None


class MakersPocket(Struct, frozen=True):
    """The maker's size that the pocket gets. size: what he calls it, None where he has one alone. binds: his bore
    narrows the bores that the insert allows."""

    binds: bool
    size: str | None = None
    bore: Between | None = None
    depth: Between | None = None
    insert_od: Between | None = None


class InsertPlan(Struct, frozen=True):
    """The insert that goes in. od_least, od_most, height, id at 20 °C. measured: its own od was measured. shelf: the
    shop file that lists it; None: it is on no list. size: which of the maker's sizes it is of."""

    name: str
    measured: bool
    od: Figure | None = None
    od_least: Figure | None = None
    od_most: Figure | None = None
    height: Figure | None = None
    id: Figure | None = None
    chamfer: Figure | None = None
    chamfer_angle: Figure | None = None
    alloy: str | None = None
    passed_over: tuple[PassedOver, ...] = ()
    shelf: str | None = None
    size: str | None = None


class Next(Struct, frozen=True):
    """The next oversize that would serve if this pocket is lost: insert and its bore."""

    insert: str
    bore: Figure | None = None


class Interference(Struct, frozen=True):
    """Diametral. expected: with the bore that the rounded reading gives. source: whose figure it is."""

    least: Figure
    most: Figure
    aim: Figure
    source: str
    expected: Figure | None = None


class CleanUp(Struct, frozen=True):
    """needed: the smallest bore that leaves fresh metal all round. left: bore.aim - needed."""

    needed: Figure
    left: Figure | None = None


class Bore(Struct, frozen=True):
    """Limits and aim at 20 °C, and as the bore gauge shows them at the bench, rounded inwards to its step.

    u: standard uncertainty of a planned bore. accept_*: bench limits drawn in by guard times u_accept, between which
    the mean of all readings must lie; reading_*: what a single one may show, half of `bore-round` beyond the limits.
    """

    least: Figure
    most: Figure
    aim: Figure
    bench_least: Figure
    bench_most: Figure
    bench_aim: Figure
    u: Figure | None = None
    accept_least: Figure | None = None
    accept_most: Figure | None = None
    reading_least: Figure | None = None
    reading_most: Figure | None = None
    u_accept: Figure | None = None


class Depth(Struct, frozen=True):
    """Depth of the pocket from a face (rim, deck, floor), measured at the bench."""

    aim: Figure
    least: Figure
    most: Figure
    from_: str


class Order(Struct, frozen=True):
    """What to order when nothing in stock fits: od at least, height at least and at most, id at most, alloys.

    valves: that it is for. serves: inserts of the shop's list that would serve them all if they were on hand.
    """

    od: Figure | None = None
    height: Figure | None = None
    id: Figure | None = None
    alloy: tuple[str, ...] = ()
    height_most: Figure | None = None
    valves: tuple[str, ...] = ()
    serves: tuple[str, ...] = ()


class Bridge(Struct, frozen=True):
    """The metal left between two bores (or a bore and a hole or rim), worst case.

    at_most: of one side only the maker's size is known, so that there may be less.
    """

    between: tuple[str, str]
    head: int
    centres: Figure
    left: Figure
    least: Figure | None = None
    at_most: bool = False
