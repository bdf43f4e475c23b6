"""What a drawing is made of: lines by the types of ISO 128, circles, areas, lettering: in mm on paper, y downwards."""

from __future__ import annotations

import math
import re

from msgspec import Struct, field

from seatwright.cards.escape import visible
from seatwright.cards.paper import MM_PER_POINT, width_of

THICK = 0.6  # outlines [mm]; twice the thin line, as ISO 128 has it
THIN = 0.3  # dimensions, extension lines, leaders, hatching, hidden edges, axes [mm]
LETTERING = 3.6  # height of the typeface [mm]: a little over 10 points
LEADING = 4.5  # from one line of lettering to the next [mm]
_ABOVE, _BELOW = 0.92, 0.23  # of the lettering's height, from its base line
_SPARE = 1.06  # another typeface of the same family may run a little wider

_UNIT = re.compile(r"(?<=\d) (?=(?:°[CF]|mm|in)\b)")  # a figure and its unit stay on one line

SOLID, DASHED, CHAIN = "", "2.4 1.2", "6 1 0.6 1"  # continuous, hidden edges, axes

Point = tuple[float, float]


class Path(Struct, frozen=True):
    """A line through points. closed: back to the first. fill: none, white or black. dashes: SOLID, DASHED, CHAIN."""

    points: tuple[Point, ...]
    weight: float = THIN
    dashes: str = SOLID
    closed: bool = False
    fill: str = "none"

    kind = "path"

    @property
    def d(self) -> str:
        """The points as SVG writes a path."""
        return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in self.points) + ("Z" if self.closed else "")


class Circle(Struct, frozen=True):
    """A circle about a centre."""

    x: float
    y: float
    radius: float
    weight: float = THIN
    dashes: str = SOLID
    fill: str = "none"

    kind = "circle"


class Box(Struct, frozen=True):
    """A room on the paper that lettering takes."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box, gap: float = 0.0) -> bool:
        """Whether the two overlap, or come nearer than the gap."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def inside(self, other: Box) -> bool:
        """Whether it lies wholly in the other."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )


class Text(Struct, frozen=True):
    """Lettering. y: of its base line. anchor: start, middle, end. upright: reads upwards, from the right."""

    x: float
    y: float
    words: str
    anchor: str = "middle"
    bold: bool = False
    upright: bool = False
    size: float = LETTERING

    kind = "text"

    @property
    def width(self) -> float:
        """How long the words run [mm]."""
        return words_width(self.words, self.bold, self.size)

    @property
    def box(self) -> Box:
        """The room it takes."""
        before = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.width
        above, below = _ABOVE * self.size, _BELOW * self.size
        if self.upright:
            return Box(self.x - above, self.y - self.width + before, self.x + below, self.y + before)
        return Box(self.x - before, self.y - above, self.x - before + self.width, self.y + below)


Shape = Path | Circle | Text


class Drawing(Struct, frozen=True):
    """A drawing as the template writes it. title: what it is; says: its figures in words, for who cannot see it."""

    width: float
    height: float
    title: str
    says: str
    shapes: tuple[Shape, ...]

    @property
    def texts(self) -> tuple[Text, ...]:
        """All lettering."""
        return tuple(shape for shape in self.shapes if isinstance(shape, Text))


class Sketch(Struct):
    """A drawing while it is made: what is added later lies on top."""

    shapes: list[Shape] = field(default_factory=list)

    def add(self, *shapes: Shape) -> None:
        """Put shapes on top."""
        self.shapes.extend(shapes)

    def line(self, *points: Point, weight: float = THIN, dashes: str = SOLID) -> None:
        """A line through points."""
        self.add(Path(points, weight, dashes))

    def area(self, *points: Point, weight: float = THICK, fill: str = "none") -> None:
        """A closed outline."""
        self.add(Path(points, weight, SOLID, True, fill))

    def text(
        self, x: float, y: float, words: str, anchor: str = "middle", *, bold: bool = False, upright: bool = False
    ) -> Text:
        """Lettering, shown as it was typed."""
        made = Text(x, y, visible(words), anchor, bold, upright)
        self.add(made)
        return made

    def lines(self, x: float, y: float, lines: tuple[str, ...], anchor: str = "start") -> None:
        """Lines of lettering under each other, y of the first base line."""
        for index, words in enumerate(lines):
            self.text(x, y + index * LEADING, words, anchor)

    def free(self, box: Box, gap: float = 0.4) -> bool:
        """Whether no lettering lies there yet."""
        return not any(isinstance(shape, Text) and shape.box.meets(box, gap) for shape in self.shapes)

    @property
    def lowest(self) -> float:
        """How far down lettering reaches."""
        return max((shape.box.bottom for shape in self.shapes if isinstance(shape, Text)), default=0.0)

    def done(self, width: float, height: float, title: str, says: str) -> Drawing:
        """The drawing; all its lettering above its lines."""
        below = [shape for shape in self.shapes if not isinstance(shape, Text)]
        above = [shape for shape in self.shapes if isinstance(shape, Text)]
        return Drawing(width, height, visible(title), visible(says), (*below, *above))


def words_width(words: str, bold: bool = False, size: float = LETTERING) -> float:
    """How long words run [mm], a little on the safe side."""
    return width_of(words, size / MM_PER_POINT, bold) * _SPARE


def wrapped(words: str, width: float) -> tuple[str, ...]:
    """Words broken into lines of a width [mm]; a run longer than a line is broken where the line ends."""
    lines: list[str] = []
    line = ""
    for word in _UNIT.sub("\u00a0", visible(words)).split(" "):
        for piece in _pieces(word, width):
            longer = f"{line} {piece}" if line else piece
            if line and words_width(longer) > width:
                lines.append(line)
                longer = piece
            line = longer
    return (*lines, line) if line else tuple(lines)


def _pieces(word: str, width: float) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and words_width(pieces[-1] + letter) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def number(value: float) -> str:
    """A coordinate, to a hundredth of a millimetre."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def around(x: float, y: float, radius: float, start: float, end: float, steps: int = 12) -> tuple[Point, ...]:
    """Points of an arc, angles in degrees, 0 to the right, counted clockwise on the paper."""
    angles = [math.radians(start + (end - start) * step / steps) for step in range(steps + 1)]
    return tuple((x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles)
