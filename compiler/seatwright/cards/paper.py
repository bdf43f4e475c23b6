"""The paper a card is printed on, and the sizes in which it is set; card.css is filled in from both."""

from __future__ import annotations

from functools import cache, lru_cache

from msgspec import Struct

from seatwright.cards import letters
from seatwright.handbook import MM_PER_INCH

MM_PER_POINT = MM_PER_INCH / 72
_WIDEST = 1000  # of a letter that the faces lack, in thousandths of its size: another face of the system shows it
_WORDS_KEPT = 16384  # words whose width is not reckoned again, a few times those of a large job


class Sizes(Struct, frozen=True):
    """What card.css and the reckoning of heights share: type in points, all else in mm."""

    body: float = 11.0
    line_height: float = 1.15
    title: float = 16.0  # of a card
    section: float = 12.5  # title of a part of a card
    number: float = 17.0  # of a step
    card_number: float = 21.0
    rule: float = 0.265  # between steps, around cells: one dot of a screen, which a browser would round it to
    heading_rule: float = 0.8
    gap: float = 1.4  # below a paragraph, a table, a drawing
    inner: float = 0.7  # below a paragraph of a step or a boxed quotation
    item: float = 0.4  # below an item
    above_section: float = 1.3
    step_above: float = 1.0
    step_below: float = 0.6
    indent: float = 10.5  # of a step's text: its number stands there
    box: float = 14.0  # to initial
    box_height: float = 8.0
    box_gap: float = 3.0
    reading: float = 57.0  # width kept for a figure to read off a dial, beside the words
    reading_gap: float = 3.5
    figure: float = 120.5  # width kept for a drawing beside the words of a step
    tick: float = 4.2  # a box to tick
    written: float = 7.0  # the line that a blank stands in
    bullet: float = 5.0
    frame: float = 1.6  # of a boxed quotation, at its left
    hold_frame: float = 0.9
    quote_sides: float = 3.0
    quote_ends: float = 0.9
    cell_sides: float = 1.4
    cell_ends: float = 0.9
    blank_row: float = 8.3  # a row that is written in
    card_number_box: float = 19.0

    @property
    def line(self) -> float:
        """The height of a line of text."""
        return self.body * self.line_height * MM_PER_POINT


SIZES = Sizes()
BODY_POINTS = SIZES.body


class Paper(Struct, frozen=True):
    """A paper, upright: sizes in mm. reading_points: of a figure to read off a dial."""

    name: str
    width: float
    height: float
    margin: float
    reading_points: float

    @property
    def room(self) -> float:
        """Width for print."""
        return self.width - 2 * self.margin

    @property
    def length(self) -> float:
        """Height for print, less what a browser may round up."""
        return self.height - 2 * self.margin - 0.7

    @property
    def narrow(self) -> bool:
        """Tables of many columns are printed as two, figures below the words."""
        return self.width < 180


PAPERS = {
    "a4": Paper("a4", 210.0, 297.0, 7.0, 26.0),
    "letter": Paper("letter", 215.9, 279.4, 7.0, 26.0),
    "a5": Paper("a5", 148.0, 210.0, 7.5, 24.0),
    "half-letter": Paper("half-letter", 139.7, 215.9, 7.5, 24.0),
}


class Sheet(Struct, frozen=True):
    """What goes through the printer, in mm: a card, or two small ones beside each other."""

    width: float
    height: float


class NoSheet(Exception):
    """Two cards of a paper do not go on one sheet; the text says which do."""


def sheet_of_two(paper: Paper) -> Sheet:
    """The sheet that two cards of a paper fill side by side. Raises NoSheet."""
    whole = {"a5": "a4", "half-letter": "letter"}.get(paper.name)
    if whole is None:
        raise NoSheet(f"two cards of {paper.name} do not go on one sheet; two of a5 or of half-letter do")
    return Sheet(PAPERS[whole].height, PAPERS[whole].width)


@lru_cache(_WORDS_KEPT)
def width_of(text: str, points: float = BODY_POINTS, bold: bool = False) -> float:
    """How long a text runs on one line, in mm."""
    widths = _widths(bold)
    return sum([widths.get(letter, _WIDEST) for letter in text]) / 1000 * points * MM_PER_POINT


@cache
def _widths(bold: bool) -> dict[str, int]:
    groups = letters.BOLD if bold else letters.REGULAR
    return {letter: width for width, found in groups.items() for letter in found}
