"""The chart of a cutter's bores: each dot what one came out over its setting, and below it how far it is from the one
before.

Middle line solid, limits dashed, what does not count hollow. The last bores alone are drawn; how many came before is
said. What lies far outside stands at the edge, with its figure.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from seatwright.cards.drawings.shapes import (
    DASHED,
    LEADING,
    LETTERING,
    SOLID,
    THICK,
    THIN,
    Circle,
    Drawing,
    Path,
    Sketch,
    words_width,
)
from seatwright.handbook import MM_PER_INCH
from seatwright.handbook.run_charts import moving_ranges
from seatwright.over_jobs.history.runs import NumberedBore, Run
from seatwright.over_jobs.history.wording import run_named, run_sentences, small_length, small_unit

LAST = 40  # bores that are drawn
WIDTH = 184.0  # mm: of the print on A4
_LEFT, _RIGHT = 16.0, 20.0  # for the figures beside the chart
_TOP, _HIGH, _BETWEEN, _LOW, _FOOT = 7.0, 46.0, 7.5, 17.0, 9.0
_BEFORE, _BEHIND = 11.0, 9.0  # from the frame to the first bore, and behind the last
_DOT, _RING = 0.95, 2.1
_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)


class _Scale(Struct, frozen=True):
    """From figures to places on the paper, upwards: least at the bottom, most at the top."""

    least: float
    most: float
    bottom: float
    top: float

    def at(self, value: float) -> float:
        """Where a figure stands; at the edge where it lies beyond."""
        inside = min(max(value, self.least), self.most)
        return self.bottom - (inside - self.least) / (self.most - self.least) * (self.bottom - self.top)


def run_chart(run: Run, changed_on: str) -> Drawing:
    """The chart of a run. changed_on: the day its tip was changed, "" where it is in."""
    return _Chart(run, changed_on).drawn()


class _Chart:
    def __init__(self, run: Run, changed_on: str) -> None:
        self.run, self.changed_on = run, changed_on
        self.units = run.last.units
        self.shown = run.bores[-LAST:]
        self.earlier = len(run.bores) - len(self.shown)
        self.counted = tuple(bore for bore in self.shown if bore.counts)
        self.sketch = Sketch()
        self.right = WIDTH - _RIGHT
        room = self.right - _LEFT - _BEFORE - _BEHIND
        self.apart = room / max(self.shown[-1].number - self.shown[0].number, 11)
        self.with_ranges = run.chart is not None and len(self.counted) > 1

    def x(self, bore: NumberedBore) -> float:
        """Where a bore stands, from the left."""
        return _LEFT + _BEFORE + (bore.number - self.shown[0].number) * self.apart

    def _number(self, x: float) -> float:
        """Which bore a place stands for, also between two and beyond the last."""
        return self.shown[0].number + (x - _LEFT - _BEFORE) / self.apart

    def drawn(self) -> Drawing:
        scale = self._values_scale()
        self._frame(scale.top, scale.bottom)
        self._axis(scale, f"{small_unit(self.units)} over its setting")
        self._limits(scale)
        self._dots(scale)
        self._tips(scale)
        bottom = scale.bottom
        if self.with_ranges:
            bottom = self._ranges(bottom + _BETWEEN)
        self._numbers(bottom)
        title = f"Bores of {run_named(self.run)}"
        says = " ".join(run_sentences(self.run))
        return self.sketch.done(WIDTH, bottom + _FOOT, title, f"{title}: {says}", self._caption())

    def _caption(self) -> str:
        words = ["A dot a bore"]
        if self.run.chart is not None:
            words.append("the middle solid, limits dashed")
        if any(not bore.counts for bore in self.shown):
            words.append("hollow: not counted")
        if self.run.broken:
            words.append("ringed: breaks a rule")
        if self.with_ranges:
            words.append("below: how far from the bore before")
        earlier = (
            f" {self.earlier} earlier {'bore is' if self.earlier == 1 else 'bores are'} not drawn."
            if self.earlier
            else ""
        )
        return f"{'; '.join(words)}.{earlier}"

    def _values_scale(self) -> _Scale:
        values = [bore.point.overcut for bore in self.counted] or [bore.point.overcut for bore in self.shown]
        for x in (_LEFT, self.right):
            values += list(self.run.limits_at(self._number(x)) or ())
        least, most = min(values), max(values)
        # Even of bores that are all alike the axis spans what a gauge can show.
        margin = max((most - least) * 0.12, 0.0005)
        return _Scale(least - margin, most + margin, _TOP + _HIGH, _TOP)

    def _frame(self, top: float, bottom: float) -> None:
        self.sketch.line((_LEFT, top), (_LEFT, bottom), (self.right, bottom), weight=THIN)

    def _axis(self, scale: _Scale, title: str) -> None:
        for value in _round_figures(scale.least, scale.most, self._in_small):
            y = scale.at(value)
            self.sketch.line((_LEFT - 1.2, y), (_LEFT, y))
            self.sketch.text(_LEFT - 1.8, y + LETTERING * 0.35, _figure(value * self._in_small), "end")
        self.sketch.text(3.2, (scale.top + scale.bottom) / 2, title, upright=True)

    @property
    def _in_small(self) -> float:
        return 1000.0 if self.units == "mm" else 10000 / MM_PER_INCH

    def _limits(self, scale: _Scale) -> None:
        begin, end = self._number(_LEFT), self._number(self.right)
        first, there = self.run.limits_at(begin), self.run.limits_at(end)
        if first is None or there is None:
            return
        places = []
        for start, stop, dashes in zip(first, there, (DASHED, SOLID, DASHED), strict=True):
            weight = THICK if dashes == SOLID else THIN
            self.sketch.add(Path(((_LEFT, scale.at(start)), (self.right, scale.at(stop))), weight, dashes))
            places.append((scale.at(stop), small_length(stop, self.units)))
        for y, words in _kept_apart(places):
            self.sketch.text(self.right + 1.2, y + LETTERING * 0.35, words, "start")

    def _dots(self, scale: _Scale) -> None:
        self.sketch.line(*((self.x(bore), scale.at(bore.point.overcut)) for bore in self.counted))
        ringed = {*self.run.outside, *self.run.one_side}
        for bore in self.shown:
            x, y = self.x(bore), scale.at(bore.point.overcut)
            if bore.number in ringed:
                self.sketch.add(Circle(x, y, _RING, THIN, SOLID, "none"))
            fill = "black" if bore.counts else "white"
            self.sketch.add(Circle(x, y, _DOT if bore.counts else _DOT + 0.25, THIN, SOLID, fill))
            if not scale.least <= bore.point.overcut <= scale.most:
                self._beyond(bore, x, y, scale)

    def _beyond(self, bore: NumberedBore, x: float, y: float, scale: _Scale) -> None:
        """At the edge, with an arrow and its figure."""
        up = bore.point.overcut > scale.most
        tip = y - 3.2 if up else y + 3.2
        back = 1.6 if up else -1.6
        self.sketch.line((x, y - 1.2 if up else y + 1.2), (x, tip))
        self.sketch.add(Path(((x - 0.8, tip + back), (x, tip), (x + 0.8, tip + back)), THIN))
        words = small_length(bore.point.overcut, self.units)
        left = x + 2 + words_width(words) > self.right
        self.sketch.text(x - 2 if left else x + 2, y + LETTERING * 0.35, words, "end" if left else "start")

    def _tips(self, scale: _Scale) -> None:
        """Tip changes as upright lines with their date."""
        begun = self.run.last.tip_since if not self.earlier else ""
        first, room = f"tip of {begun}", 0.0
        if begun:
            self._tip(_LEFT + _BEFORE / 2, first, "start", scale)
            room = words_width(first) + 3
        if self.changed_on:
            last = f"changed {self.changed_on}"
            x = max(self.x(self.shown[-1]) + _BEHIND / 2, _LEFT + _BEFORE / 2 + room + words_width(last))
            self._tip(x, last, "end", scale)
        if self.earlier:
            self.sketch.text(_LEFT + 1.5, _TOP - 2.2, f"{self.earlier} earlier", "start")

    def _tip(self, x: float, words: str, anchor: str, scale: _Scale) -> None:
        self.sketch.line((x, scale.top), (x, scale.bottom), weight=THICK)
        self.sketch.text(x, _TOP - 2.2, words, anchor)

    def _ranges(self, top: float) -> float:
        """The moving ranges under the chart. Returns how far down it reaches."""
        chart = self.run.chart
        assert chart is not None
        judged = [bore.point.overcut for bore in self.counted]
        if self.run.line is not None:
            judged = [bore.point.overcut - self.run.line.at(bore.number) for bore in self.counted]
        ranges = moving_ranges(judged)
        most = max(*ranges, chart.most_range) * 1.12 or 0.0005
        scale = _Scale(0.0, most, top + _LOW, top)
        self._frame(scale.top, scale.bottom)
        places = []
        for value, dashes in ((chart.mean_range, SOLID), (chart.most_range, DASHED)):
            y = scale.at(value)
            self.sketch.add(Path(((_LEFT, y), (self.right, y)), THIN, dashes))
            places.append((y, small_length(value, self.units)))
        for y, words in _kept_apart(places):
            self.sketch.text(self.right + 1.2, y + LETTERING * 0.35, words, "start")
        dots = [(self.x(bore), scale.at(each)) for bore, each in zip(self.counted[1:], ranges, strict=True)]
        self.sketch.line(*dots)
        for x, y in dots:
            self.sketch.add(Circle(x, y, _DOT * 0.8, THIN, SOLID, "black"))
        self.sketch.text(_LEFT - 1.8, scale.bottom + LETTERING * 0.35, "0", "end")
        self.sketch.text(3.2, (scale.top + scale.bottom) / 2, "apart", upright=True)
        return scale.bottom

    def _numbers(self, bottom: float) -> None:
        """The number of a bore under its dot; where they stand close, of every second or fifth."""
        every = next(step for step in (1, 2, 5, 10) if step * self.apart >= 6)
        for bore in self.shown:
            if bore.number % every == 0 or (every > 1 and bore is self.shown[0] and bore.number == 1):
                self.sketch.line((self.x(bore), bottom), (self.x(bore), bottom + 1))
                self.sketch.text(self.x(bore), bottom + 4.6, str(bore.number))
        self.sketch.text(WIDTH, bottom + 4.6, "bore", "end")


def _round_figures(least: float, most: float, in_small: float) -> Sequence[float]:
    """Round figures along an axis, four to eight of them, in the unit that small lengths are counted in."""
    low, high = least * in_small, most * in_small
    rough = (high - low) / 6
    ten = 10.0 ** math.floor(math.log10(rough))
    step = next(one * ten for one in _STEPS if one * ten >= rough)
    first = math.ceil(low / step)
    return [place * step / in_small for place in range(first, math.floor(high / step) + 1)]


def _figure(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _kept_apart(places: Sequence[tuple[float, str]]) -> list[tuple[float, str]]:
    """Words at a height each, moved down where they would touch the one above; what is said above is not said again."""
    found: list[tuple[float, str]] = []
    for y, words in sorted(places):
        near = bool(found) and y < found[-1][0] + LEADING
        if not near:
            found.append((y, words))
        elif words != found[-1][1]:
            found.append((found[-1][0] + LEADING, words))
    return found
