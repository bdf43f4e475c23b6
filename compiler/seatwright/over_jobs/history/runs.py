"""The bores of one cutter in one material with one tip: their chart, its two rules, wear, and what the next will be."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import sqrt
from statistics import fmean, stdev

from msgspec import Struct

from seatwright.handbook.capability import next_spread, steps_spread
from seatwright.handbook.run_charts import (
    SinglesChart,
    StraightLine,
    is_drift,
    line_through,
    on_one_side,
    outside_limits,
    singles_chart,
)
from seatwright.handbook.tolerance import student_quantile, two_sided_factor
from seatwright.over_jobs.history.rows import BorePoint, GroupKey
from seatwright.over_jobs.serving import number_key

FEWEST_BORES = 8  # bores, from which on a chart is drawn
FEWEST_FOR_WEAR = 10
COVER = SURE = 0.95  # of the next bores, and how sure


class NumberedBore(Struct, frozen=True):
    """A bore and how many this tip had made with it, in this material."""

    number: int
    point: BorePoint

    @property
    def counts(self) -> bool:
        """Whether it says anything of its cutter."""
        return self.point.not_counted is None


class NextBores(Struct, frozen=True):
    """How far over their setting 95 % of the next bores lie, 95 % sure [mm]: middle ± half."""

    middle: float
    half: float

    @property
    def least(self) -> float:
        """The lower end."""
        return self.middle - self.half

    @property
    def most(self) -> float:
        """The upper end."""
        return self.middle + self.half


class Pasted(Struct, frozen=True):
    """What the shop file may say of it now [mm]. lifted: the bores scatter less than the gauges' steps, whose spread it
    is; bores: how many told it."""

    overcut: float
    spread: float
    lifted: bool
    bores: int
    to: str


class Run(Struct, frozen=True):
    """The bores of a group in the order in which they were made, and what they say. All in mm.

    counted: those that count. chart: None for too few; of a drift about the line, of which the limits then move.
    outside, one_side: their numbers. line: where it rises or falls by more than chance. next: None for too few, or
    where a rule is broken, and nobody knows what comes next. pasted: likewise, and not of a drift.
    """

    group: GroupKey
    bores: tuple[NumberedBore, ...]
    chart: SinglesChart | None = None
    line: StraightLine | None = None
    outside: tuple[int, ...] = ()
    one_side: tuple[int, ...] = ()
    next: NextBores | None = None
    pasted: Pasted | None = None

    @property
    def counted(self) -> tuple[NumberedBore, ...]:
        """Those that count."""
        return tuple(bore for bore in self.bores if bore.counts)

    @property
    def now(self) -> bool:
        """Whether it is of the tip that is in."""
        return self.last.tip_since == self.last.tip_now

    @property
    def broken(self) -> bool:
        """Whether one of the two rules is."""
        return bool(self.outside or self.one_side)

    @property
    def last(self) -> BorePoint:
        """The latest of all."""
        return self.bores[-1].point

    def limits_at(self, number: float) -> tuple[float, float, float] | None:
        """Least, middle and most at a bore; None for too few."""
        if self.chart is None:
            return None
        middle = self.chart.mean if self.line is None else self.line.at(number)
        return middle - 3 * self.chart.sigma, middle, middle + 3 * self.chart.sigma


def runs_of(points: Iterable[BorePoint], since: str = "") -> tuple[Run, ...]:
    """The groups by shelf, cutter, material and tip; points without a date are in none.

    since : the first day that counts; the bores before it have their number and no more
    """
    groups: dict[GroupKey, list[BorePoint]] = {}
    for point in points:
        if point.date is not None:
            groups.setdefault(point.group, []).append(point)
    found = []
    for key in sorted(groups):
        ordered = sorted(groups[key], key=_in_order)
        bores = tuple(NumberedBore(number, point) for number, point in enumerate(ordered, 1))
        here = tuple(bore for bore in bores if (bore.point.date or "") >= since)
        if here:
            found.append(_run(key, here))
    return tuple(found)


def _in_order(point: BorePoint) -> tuple[object, ...]:
    """By date, job, line; by file last, so that two jobs of one number stand in an order too."""
    return point.date or "", number_key(point.job), point.line, point.file, point.valve


def _run(key: GroupKey, bores: tuple[NumberedBore, ...]) -> Run:
    counted = [bore for bore in bores if bore.counts]
    values = [bore.point.overcut for bore in counted]
    if len(values) < FEWEST_BORES:
        return Run(key, bores)
    numbers = [float(bore.number) for bore in counted]
    line = line_through(numbers, values) if len(values) >= FEWEST_FOR_WEAR else None
    if line is not None and is_drift(line):
        about = singles_chart(line.left)
        chart = singles_chart(values)
        chart = SinglesChart(chart.mean, about.mean_range, about.sigma, about.least, about.most, about.most_range)
        judged, middle = list(line.left), 0.0
        least, most = -3 * about.sigma, 3 * about.sigma
    else:
        line, chart = None, singles_chart(values)
        judged, middle, least, most = values, chart.mean, chart.least, chart.most
    outside = tuple(counted[place].number for place in outside_limits(judged, least, most))
    one_side = tuple(counted[place].number for place in on_one_side(judged, middle))
    run = Run(key, bores, chart, line, outside, one_side)
    if run.broken:
        return run
    if line is not None:
        return _with(run, _next_of_line(line, numbers), None)
    s = stdev(values)
    coming = NextBores(chart.mean, two_sided_factor(len(values), COVER, SURE) * s)
    return _with(run, coming, _pasted(counted, chart.mean, s))


def _with(run: Run, coming: NextBores, pasted: Pasted | None) -> Run:
    return Run(run.group, run.bores, run.chart, run.line, run.outside, run.one_side, coming, pasted)


def _next_of_line(line: StraightLine, numbers: Sequence[float]) -> NextBores:
    """What the next bore is by the line: its prediction, 95 % (NIST handbook of statistical methods, 4.5.1.2)."""
    count, coming = len(numbers), numbers[-1] + 1
    middle = fmean(numbers)
    squares = sum((number - middle) ** 2 for number in numbers)
    error = line.s * sqrt(1 + 1 / count + (coming - middle) ** 2 / squares)
    return NextBores(line.at(coming), student_quantile(0.5 + COVER / 2, count - 2) * error)


def _pasted(counted: Sequence[NumberedBore], mean: float, s: float) -> Pasted:
    spread, floor = next_spread(s, len(counted)), max(steps_spread(bore.point.steps) for bore in counted)
    return Pasted(mean, max(spread, floor), spread < floor, len(counted), counted[-1].point.date or "")
