"""What a drawing is made of: lines by the types of ISO 128, circles, areas, lettering: in mm on paper, y downwards."""

from __future__ import annotations

import math

from msgspec import Struct, field

from seatwright.cards.escape import in_one_line

THICK = 0.5  # outlines [mm]; twice the thin line, as ISO 128 has it
THIN = 0.25  # dimensions, extension lines, leaders, hatching, hidden edges, axes [mm]
LETTERING = 3.3  # height of the typeface [mm]: 9.4 points
LEADING = 4.2  # from one line of lettering to the next [mm]
_ABOVE, _BELOW = 0.92, 0.23  # of the lettering's height, from its base line
# How wide a letter is at most, of its size: near enough to keep words apart, and no table of widths to keep in step
# with the typeface. The browser tests hold every drawing against what is really printed.
_FIGURE, _LETTER, _NARROW, _BOLD = 0.65, 0.57, 0.34, 1.07
_THIN_LETTERS = frozenset(" .,:;'|!ijltfr()-")

SOLID, DASHED, CHAIN, PHANTOM = "", "2.4 1.2", "7 1 0.6 1", "5 1 0.5 1 0.5 1"
"""Continuous; hidden edges; axes; neighbouring parts and what was there before (ISO 128)."""

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
        return "M" + "L".join(f"{coordinate(x)} {coordinate(y)}" for x, y in self.points) + ("Z" if self.closed else "")


class Circle(Struct, frozen=True):
    """A circle about a centre."""

    x: float
    y: float
    radius: float
    weight: float = THIN
    dashes: str = SOLID
    fill: str = "none"

    kind = "circle"


class Extent(Struct, frozen=True):
    """A room on the paper that lettering takes."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Extent, gap: float = 0.0) -> bool:
        """Whether the two overlap, or come nearer than the gap."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )


class Lettering(Struct, frozen=True):
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
    def box(self) -> Extent:
        """The room it takes."""
        before = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.width
        above, below = _ABOVE * self.size, _BELOW * self.size
        if self.upright:
            return Extent(self.x - above, self.y - self.width + before, self.x + below, self.y + before)
        return Extent(self.x - before, self.y - above, self.x - before + self.width, self.y + below)


_Shape = Path | Circle | Lettering


class Drawing(Struct, frozen=True):
    """A drawing as the template writes it. title: what it is; says: its figures in words, for who cannot see it;
    caption: what stands below it."""

    width: float
    height: float
    title: str
    says: str
    shapes: tuple[_Shape, ...]
    caption: str = ""

    @property
    def texts(self) -> tuple[Lettering, ...]:
        """All lettering."""
        return tuple(shape for shape in self.shapes if isinstance(shape, Lettering))


class Sketch(Struct):
    """A drawing while it is made: what is added later lies on top."""

    shapes: list[_Shape] = field(default_factory=list)

    def add(self, *shapes: _Shape) -> None:
        """Put shapes on top."""
        self.shapes.extend(shapes)

    def line(self, *points: Point, weight: float = THIN, dashes: str = SOLID) -> None:
        """A line through points."""
        self.add(Path(points, weight, dashes))

    def text(
        self, x: float, y: float, words: str, anchor: str = "middle", *, bold: bool = False, upright: bool = False
    ) -> Lettering:
        """Lettering, shown as it was typed."""
        made = Lettering(x, y, in_one_line(words), anchor, bold, upright)
        self.add(made)
        return made

    def lines(self, x: float, y: float, lines: tuple[str, ...], anchor: str = "start") -> None:
        """Lines of lettering under each other, y of the first base line."""
        for index, words in enumerate(lines):
            self.text(x, y + index * LEADING, words, anchor)

    def done(self, width: float, height: float, title: str, says: str, caption: str) -> Drawing:
        """The drawing; all its lettering above its lines."""
        below = [shape for shape in self.shapes if not isinstance(shape, Lettering)]
        above = [shape for shape in self.shapes if isinstance(shape, Lettering)]
        return Drawing(width, height, in_one_line(title), in_one_line(says), (*below, *above), in_one_line(caption))


def words_width(words: str, bold: bool = False, size: float = LETTERING) -> float:
    """How long words run [mm], a little on the safe side."""
    wide = sum(_NARROW if letter in _THIN_LETTERS else _LETTER if letter.islower() else _FIGURE for letter in words)
    return wide * size * (_BOLD if bold else 1.0)


def coordinate(value: float) -> str:
    """A coordinate, to a hundredth of a millimetre."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def around(x: float, y: float, radius: float, start: float, end: float, steps: int = 12) -> tuple[Point, ...]:
    """Points of an arc, angles in degrees, 0 to the right, counted clockwise on the paper."""
    angles = [math.radians(start + (end - start) * step / steps) for step in range(steps + 1)]
    return tuple((x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles)
