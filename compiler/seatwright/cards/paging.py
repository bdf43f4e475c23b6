"""A card onto its pages: broken only between steps, rows and paragraphs, never by shrinking.

Heights are reckoned from the Markdown that the templates wrote, so that a shop's own template is paged like the
built-in one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from markdown_it.token import Token
from msgspec import Struct

from seatwright.cards.blocks import Block, TableOf, blocks_of, put_together
from seatwright.cards.heights import Sized, keep_room, tall, text_height
from seatwright.cards.marks import reader
from seatwright.cards.paper import MM_PER_POINT, SIZES, Paper
from seatwright.cards.pieces import pieces
from seatwright.cards.runs import lines_in, words_of

__all__ = ["Page", "Sized", "heading_height", "pages"]

FEW = 40.0  # mm: less than that is no page


class Page(Struct, frozen=True):
    """One page of a card: its tokens without the heading, the widths of the columns of its tables, in order, and how
    tall it was reckoned in mm."""

    tokens: Sequence[Token]
    columns: tuple[tuple[float, ...], ...]
    height: float


def pages(body: str, heading: str, paper: Paper, drawings: Mapping[str, Sized]) -> tuple[Page, ...]:
    """The pages of a card. heading: the Markdown that every page carries."""
    room = paper.length - heading_height(heading, paper)
    tokens = reader().parse(body, {"drawings": drawings})
    keep_room(tokens, paper, drawings)
    found: list[list[Block]] = [[]]
    for block in blocks_of(tokens, body.split("\n"), paper, drawings):
        page = found[-1]
        if page and _height([*page, block]) - SIZES.gap > room:  # what is below the last needs no room
            found.append(_taken_along(page))
        found[-1].append(block)
    if len(found) > 1:
        _even_out(found[-2], found[-1], room)
    return tuple(_page(page) for page in found)


def _even_out(before: list[Block], last: list[Block], room: float) -> None:
    """A few lines that are over take more with them, so that a page is worth turning to."""
    while _height(last) < FEW and len(before) > 1:
        start = len(before) - 1
        while start and before[start - 1].stays:
            start -= 1
        if start == 0 or _height([*before[start:], *last]) > room / 3:
            return
        last[:0] = before[start:]
        del before[start:]


def heading_height(heading: str, paper: Paper) -> float:
    """How tall the heading stands, with the rule below it. The number of the card stands beside it."""
    width = paper.room - SIZES.card_number_box - SIZES.reading_gap
    total = 0.0
    for piece in pieces(reader().parse(heading)):
        if piece[0].type == "heading_open":
            lines = lines_in(words_of((piece[1].children or [])[1:], SIZES.title, bold=True), width)
            total += lines * SIZES.title * SIZES.line_height * MM_PER_POINT
        elif piece[0].type == "paragraph_open":
            total += text_height(piece[1], width)
        else:
            total += tall(piece, width, paper, {})
    return max(total, SIZES.card_number_box * 0.8) + SIZES.heading_rule + SIZES.inner + SIZES.gap + 0.1


def _taken_along(page: list[Block]) -> list[Block]:
    """The end of a page that must not stand without what follows it; nothing where that is the whole page."""
    start = len(page)
    while start and page[start - 1].stays:
        start -= 1
    if start == 0:
        return []
    taken = page[start:]
    del page[start:]
    return taken


def _height(page: Sequence[Block]) -> float:
    """How tall blocks stand below each other; a table that they are rows of has its header."""
    total, whole = 0.0, None
    for block in page:
        if isinstance(block.whole, TableOf) and block.whole is not whole:
            total += block.whole.height + SIZES.rule + SIZES.gap
        whole = block.whole
        total += block.height
    return total


def _page(page: Sequence[Block]) -> Page:
    tables = dict.fromkeys(block.whole for block in page if isinstance(block.whole, TableOf))
    return Page(put_together(page), tuple(table.widths for table in tables), _height(page))
