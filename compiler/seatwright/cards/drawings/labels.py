"""Labels around a drawing that has no room for them inside: in rows above and below, each led to what it names.

A side takes as many rows as its labels need. Of a group of labels above each other the lines run up along their right
edges, the nearest label's first, so that no line crosses lettering.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from seatwright.cards.drawings.dimensions import apart
from seatwright.cards.drawings.shapes import LEADING, LETTERING, Point, Sketch, words_width

FAN = 5.0  # between the drawing and the nearest row: the lines spread here [mm]
_POLE = 1.5  # from one line to the next beside a row [mm]
_GAP = 2.2  # between two labels of a row [mm]
_BOXED = 1.6  # white around a boxed number [mm]


class Label(Struct, frozen=True):
    """Lines of lettering for something on the drawing. at: its middle; radius: its line ends there. boxed: a number in
    a frame behind line `boxed_line`."""

    lines: tuple[str, ...]
    at: Point
    radius: float
    boxed: str = ""
    boxed_line: int = 0
    bold_first: bool = True

    @property
    def width(self) -> float:
        """How wide it is [mm]."""
        return max(self._run(index) for index in range(len(self.lines)))

    @property
    def height(self) -> float:
        """How high it is [mm]."""
        return len(self.lines) * LEADING + 0.6

    def _run(self, index: int) -> float:
        run = words_width(self.lines[index], self.bold_first and index == 0)
        if self.boxed and index == self.boxed_line:
            run += words_width(self.boxed) + 2 * _BOXED
        return run

    def draw(self, sketch: Sketch, right: float, top: float) -> None:
        """Its lettering, right-aligned, from a top edge down."""
        for index, words in enumerate(self.lines):
            base = top + LETTERING + index * LEADING
            end = right
            if self.boxed and index == self.boxed_line:
                wide = words_width(self.boxed)
                left, low, high = right - wide - _BOXED, base - LETTERING * 0.86, base + 0.75
                sketch.area((left, low), (right, low), (right, high), (left, high), weight=0.3)
                sketch.text(right - _BOXED / 2, base, self.boxed, "end")
                end = right - wide - 2 * _BOXED
            sketch.text(end, base, words, "end", bold=self.bold_first and index == 0)


class Side(Struct, frozen=True):
    """The labels of one side, in order from the left, in rows."""

    labels: tuple[Label, ...]
    rows: int

    @property
    def height(self) -> float:
        """What the side takes [mm], with the room in which its lines spread."""
        return self.rows * self.row + FAN if self.labels else 0.0

    @property
    def row(self) -> float:
        """How high a row is [mm]."""
        return max(label.height for label in self.labels)

    def draw(self, sketch: Sketch, edge: float, width: float, upwards: bool) -> None:
        """Labels and their lines. edge: of the drawing, towards this side."""
        groups = [self.labels[at : at + self.rows] for at in range(0, len(self.labels), self.rows)]
        sizes = [_group_width(group) for group in groups]
        wanted = [sum(label.at[0] for label in group) / len(group) for group in groups]
        out, high = -1.0 if upwards else 1.0, self.row if self.labels else 0.0
        for group, middle in zip(groups, apart(wanted, sizes, 0.0, width), strict=True):
            left = middle - _group_width(group) / 2 + _GAP / 2
            first_right = left + max(label.width - row * _POLE for row, label in enumerate(group))
            for row, label in enumerate(group):
                near = edge + out * (FAN + row * high)
                far = near + out * high
                right = first_right + row * _POLE
                label.draw(sketch, right, min(near, far) + (high - label.height if upwards else 0.0))
                pole = (right + 0.8, edge + out * FAN)
                sketch.line(_edge_of(label, pole), pole, (right + 0.8, far - out * 0.5))


def _group_width(group: Sequence[Label]) -> float:
    return max(label.width - row * _POLE for row, label in enumerate(group)) + (len(group) - 1) * _POLE + _GAP


def _edge_of(label: Label, towards: Point) -> Point:
    x, y = label.at
    dx, dy = towards[0] - x, towards[1] - y
    length = math.hypot(dx, dy) or 1.0
    return (x + dx / length * label.radius, y + dy / length * label.radius)


def sides(labels: Sequence[Label], width: float) -> tuple[Side, Side]:
    """The labels shared out: those of the upper half above, of the lower half below, each side in rows that fit.

    Of things that lie in one row every other one goes below, unless all fit above.
    """
    levels = [label.at[1] for label in labels]
    middle = (min(levels) + max(levels)) / 2 if levels else 0.0
    ordered = sorted(labels, key=lambda label: (label.at[0], label.at[1]))
    spread = max(levels, default=0.0) - min(levels, default=0.0)
    if spread < 3.0:
        if _fit(ordered, 1, width):
            return Side(tuple(ordered), 1), Side((), 1)
        above, below = ordered[::2], ordered[1::2]
    else:
        above = [label for label in ordered if label.at[1] <= middle]
        below = [label for label in ordered if label.at[1] > middle]
    return _side(above, width), _side(below, width)


def _side(labels: Sequence[Label], width: float) -> Side:
    # However many rows there are, each label takes its pole: of so many no number of rows fits.
    most = len(labels) if len(labels) * _POLE <= width else 1
    rows = next((rows for rows in range(1, most) if _fit(labels, rows, width)), max(len(labels), 1))
    return Side(tuple(labels), rows)


def _fit(labels: Sequence[Label], rows: int, width: float) -> bool:
    return sum(_group_width(labels[at : at + rows]) for at in range(0, len(labels), rows)) <= width
