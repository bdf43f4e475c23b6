"""What stands on a card, in the blocks that no page breaks, and the blocks of a page put together again.

A card is read once. A page is printed from the tokens that it was reckoned from, and is what its part of the Markdown
would be if it stood alone: a table goes on under its header, a numbered list with the number that its first step has.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from markdown_it.token import Token
from msgspec import Struct
from msgspec.structs import replace

from seatwright.cards.columns import row_height, rows_of, widths_of
from seatwright.cards.heights import Sized, item_height, step_height, tall
from seatwright.cards.marks import TICKS, all_ticked
from seatwright.cards.paper import SIZES, Paper
from seatwright.cards.pieces import pieces

SHORT_TABLE = 6  # rows


class TableOf(Struct, frozen=True, eq=False):
    """The table that rows are of. opening: with its header. height: of the header. widths: of the
    columns."""

    opening: Sequence[Token]
    closing: Sequence[Token]
    height: float
    widths: tuple[float, ...]


class ListOf(Struct, frozen=True, eq=False):
    """The list that items are of."""

    opening: Token
    closing: Token

    @property
    def numbered(self) -> bool:
        """Whether its items are steps."""
        return self.opening.type == "ordered_list_open"


class Block(Struct, frozen=True):
    """A piece that is not broken. whole: what it is a part of. stays: not without what follows. spaced: an item with an
    empty line in it."""

    tokens: Sequence[Token]
    height: float
    whole: TableOf | ListOf | None = None
    stays: bool = False
    spaced: bool = False


def blocks_of(
    tokens: Sequence[Token], source: Sequence[str], paper: Paper, drawings: Mapping[str, Sized]
) -> list[Block]:
    """A card in blocks. tokens: of its Markdown without the heading. source: the lines that they were read from."""
    found: list[Block] = []
    for piece in pieces(tokens):
        kind = piece[0].type
        if kind in ("ordered_list_open", "bullet_list_open"):
            found.extend(_items(piece, _list_of(piece, found), source, paper, drawings))
        elif kind == "table_open":
            if found:
                found[-1] = _staying(found[-1])
            found.extend(_kept_together(list(_rows(piece, paper))))
        else:
            if kind == "drawing" and found:
                found[-1] = _staying(found[-1])
            found.append(Block(piece, tall(piece, paper.room, paper, drawings), stays=kind == "heading_open"))
    return found


def _list_of(piece: Sequence[Token], before: Sequence[Block]) -> ListOf:
    """The list of these items; that of the items before them where nothing is printed between."""
    whole = before[-1].whole if before else None
    if isinstance(whole, ListOf) and whole.opening.markup == piece[0].markup:
        return whole
    return ListOf(piece[0], piece[-1])


def _items(
    piece: Sequence[Token], whole: ListOf, source: Sequence[str], paper: Paper, drawings: Mapping[str, Sized]
) -> Iterator[Block]:
    items = list(pieces(piece[1:-1]))
    if whole.numbered:
        yield from (Block(item, step_height(item, paper.room, paper, drawings), whole) for item in items)
        return
    if piece[0].attrGet("class") == TICKS and not paper.narrow:
        # Two beside each other, as card.css sets them.
        width = (paper.room - SIZES.reading_gap) / 2
        rows = [items[start : start + 2] for start in range(0, len(items), 2)]
    else:
        width, rows = paper.room, [[item] for item in items]
    yield from _not_alone(
        [
            Block(
                [token for item in row for token in item],
                max(item_height(item, width, paper, drawings) for item in row),
                whole,
                spaced=any(_is_spaced(item, source) for item in row),
            )
            for row in rows
        ]
    )


def _is_spaced(item: Sequence[Token], source: Sequence[str]) -> bool:
    starts = [piece[0].map[0] for piece in pieces(item[1:-1]) if piece[0].map]
    return any(not source[start - 1].strip() for start in starts[1:])


def _not_alone(blocks: list[Block]) -> Iterator[Block]:
    """The first of a list stays with the next, and the last but one with the last: no line of it stands alone."""
    last = len(blocks) - 1
    for index, block in enumerate(blocks):
        yield replace(block, stays=index != last and (last == 1 or index in (0, last - 1)))


def _kept_together(rows: list[Block]) -> list[Block]:
    """A short table is not broken, and of a long one neither its first nor its last row stands alone."""
    last = len(rows) - 1
    short = len(rows) <= SHORT_TABLE
    return [replace(row, stays=index != last and (short or index in (0, last - 1))) for index, row in enumerate(rows)]


def _staying(block: Block) -> Block:
    return replace(block, stays=True)


def _rows(piece: Sequence[Token], paper: Paper) -> Iterator[Block]:
    """The rows of a table; one without any is not printed."""
    opening, body, closing = piece[:2], piece[2:-1], piece[-1:]
    header, *rows = rows_of(piece)
    if not rows:
        return
    widths = widths_of([header, *rows], paper.room)
    whole = TableOf(opening, closing, row_height(header, widths, header=True), widths)
    for token, row in zip(body, rows, strict=True):
        yield Block([token], row_height(row, widths), whole)


def put_together(blocks: Sequence[Block]) -> list[Token]:
    """The tokens of a page."""
    found: list[Token] = []
    for whole, parts in groupby(blocks, key=lambda block: block.whole):
        part = list(parts)
        inside = [token for block in part for token in block.tokens]
        if isinstance(whole, TableOf):
            found += [*whole.opening, *inside, *whole.closing]
        elif isinstance(whole, ListOf):
            opening = _numbered(whole, part) if whole.numbered else _bulleted(whole, part)
            found += [opening, *inside, whole.closing]
        else:
            found += inside
    return found


def _numbered(whole: ListOf, steps: Sequence[Block]) -> Token:
    """The opening of a page's part of a numbered list: it goes on with the number that its first step was given."""
    start = int(steps[0].tokens[0].info)
    for number, step in enumerate(steps, start=start or 1):
        step.tokens[1].content = f"{number}"
    return whole.opening.copy(attrs={} if start == 1 else {"start": start})


def _bulleted(whole: ListOf, rows: Sequence[Block]) -> Token:
    """The opening of a page's part of a list; its items are set as paragraphs, but those that stand there alone."""
    alone = len(rows) == 1 and not rows[0].spaced
    for piece in (piece for row in rows for item in pieces(row.tokens) for piece in pieces(item[1:-1])):
        if piece[0].type == "paragraph_open":
            piece[0].hidden = piece[-1].hidden = alone
    ticked = all_ticked([item for row in rows for item in pieces(row.tokens)])
    return whole.opening.copy(attrs={"class": TICKS} if ticked else {})
