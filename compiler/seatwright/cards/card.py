"""A card, ready to print: what stands on it, in order, before any template lays it out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from seatwright.cards.escape import Markdown
from seatwright.cards.parts.figures import Shown
from seatwright.job.model import Head

if TYPE_CHECKING:
    from seatwright.cards.drawings.shapes import Drawing  # a card on a screen has none

BLANK = "______"  # something is written here: a line in a sentence, the whole cell in a table
HATCHED = Markdown("~~~")  # a cell of a table that needs nothing


class Column(Struct, frozen=True):
    """A column of a table. below: a second line of its head. width: of the column, in mm where the table is as wide as
    the print on A4, in proportion elsewhere."""

    name: str
    below: str
    width: int

    @property
    def dashes(self) -> Markdown:
        """How wide it is, as Markdown rules it off."""
        return Markdown("-" * self.width)


class CardTable(Struct, frozen=True):
    """Rows under a head. A cell is text (escaped by the template) or `escape.Markdown`; a row whose first cell is empty
    goes on with the one above. by_valve: a row belongs to a valve, so that the table may be split by them."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    title: str = ""
    number: int = 0  # of the step that it is filled in at; 0: of none
    by_valve: bool = True


class Box(Struct, frozen=True):
    """A step: what to do, what to read off, how it is checked, room to initial.

    loud: the one figure that is set. figures: to check. small: sentences below. asks: is written in, all on one line.
    table: a sum with cells to write in. drawing: name of the one that stands in the box.
    """

    number: int
    sentence: str
    loud: Shown | None = None
    figures: tuple[Shown, ...] = ()
    small: tuple[str, ...] = ()
    table: CardTable | None = None
    drawing: str = ""
    initial: bool = True


class Held(Struct, frozen=True):
    """What comes before all else, boxed: HOLD E2, NOT YET, WAIT E4; why, and what lifts it."""

    word: str
    text: str
    help: str = ""


class Listed(Struct, frozen=True):
    """Sentences under a title. A pair is (what, of it)."""

    title: str
    lines: tuple[str, ...] = ()
    pairs: tuple[tuple[str, str], ...] = ()


class DrawingOnCard(Struct, frozen=True):
    """A drawing by the name that the card calls it by. caption: what it shows, here."""

    name: str
    caption: str
    drawing: Drawing


class Content(Struct, frozen=True):
    """What a card holds, in the order in which most print it. Parts that a card has no use for are empty.

    holds: boxed. facts: sentences. asks: bench steps to fill in, one line each. boxes: what is set up once. care: the
    caution strip. first: the first pocket with its sums. loop: what is done at every pocket, loop_title above it.
    tables: one row a valve. below: sentences under them. outcomes: (what was measured, what to do). last: boxes after
    the tables. fetch: what to bring, each with a box to tick. lists: sentences under titles. signed: who signs.
    closing: the last sentence. reading: the one figure that is set, for a further sheet. back: of the job sheet, what
    stands on the other side. cautioned: the slugs of all cautions on the card. said: slugs of the messages it prints.
    """

    holds: tuple[Held, ...] = ()
    facts: tuple[str, ...] = ()
    asks: tuple[Box, ...] = ()
    boxes: tuple[Box, ...] = ()
    care: tuple[str, ...] = ()
    first: tuple[Box, ...] = ()
    loop_title: str = ""
    loop_number: int = 0
    loop: tuple[str, ...] = ()
    tables: tuple[CardTable, ...] = ()
    below: tuple[str, ...] = ()
    outcomes: tuple[tuple[str, str], ...] = ()
    drawings: tuple[DrawingOnCard, ...] = ()
    last: tuple[Box, ...] = ()
    fetch: tuple[str, ...] = ()
    lists: tuple[Listed, ...] = ()
    signed: tuple[str, ...] = ()
    closing: str = ""
    reading: str = ""
    back: tuple[Listed, ...] = ()
    cautioned: tuple[str, ...] = ()
    said: tuple[str, ...] = ()


class Card(Struct, frozen=True):
    """A card of the job.

    name: as-found, job, guides, setting, press, seat, record. head: None where it serves all heads. at: the
    temperature that its figures are meant at. about: what else its second line says.
    """

    number: int
    of: int
    name: str
    title: str
    head: Head | None
    valves: tuple[str, ...]
    content: Content
    at: str = ""
    about: str = ""
