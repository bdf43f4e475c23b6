"""The insert that goes in, and the pocket that is bored for it."""

from __future__ import annotations

from dataclasses import dataclass

from seatwright.planning.figure import Figure


@dataclass(frozen=True, slots=True)
class PassedOver:
    """An insert that was not chosen: the reason (a slug), the figure that ruled it out, a sentence, the limit."""

    name: str
    reason: str
    text: str
    figure: Figure | None = None
    limit: Figure | None = None


@dataclass(frozen=True, slots=True)
class InsertPlan:
    """The insert that goes in. od_least, od_most, height, id at 20 °C. measured: its own od was measured."""

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


@dataclass(frozen=True, slots=True)
class Next:
    """The next oversize that would serve if this pocket is lost: insert and its bore."""

    insert: str
    bore: Figure | None = None


@dataclass(frozen=True, slots=True)
class Interference:
    """Diametral. expected: with the bore that the rounded reading gives. source: whose figure it is."""

    least: Figure
    most: Figure
    aim: Figure
    source: str
    expected: Figure | None = None


@dataclass(frozen=True, slots=True)
class CleanUp:
    """needed: the smallest bore that leaves fresh metal all round. left: bore.aim - needed."""

    needed: Figure
    left: Figure | None = None


@dataclass(frozen=True, slots=True)
class Bore:
    """Limits and aim at 20 °C, and as the bore gauge shows them at the bench, rounded inwards to its step.

    u: standard uncertainty of a planned bore. accept_*: bench limits drawn in by guard times u_accept.
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
    u_accept: Figure | None = None


@dataclass(frozen=True, slots=True)
class Depth:
    """Depth of the pocket from a face (rim, deck, floor), measured at the bench."""

    aim: Figure
    least: Figure
    most: Figure
    from_: str


@dataclass(frozen=True, slots=True)
class Order:
    """What to order when nothing in stock fits: od at least, height at least and at most, id at most, alloys.

    valves: that it is for.
    """

    od: Figure | None = None
    height: Figure | None = None
    id: Figure | None = None
    alloy: tuple[str, ...] = ()
    height_most: Figure | None = None
    valves: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Bridge:
    """The metal left between two bores (or a bore and a hole or rim), worst case."""

    between: tuple[str, str]
    head: int
    centres: Figure
    left: Figure
    least: Figure | None = None
