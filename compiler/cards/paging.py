"""A card onto its pages: broken only between steps, rows and paragraphs, never by shrinking.

Heights are reckoned from the Markdown that the templates wrote, so that a shop's own template is paged like the
built-in one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from markdown_it.token import Token
from msgspec import Struct
from msgspec.structs import replace

from seatwright.cards.columns import row_height, rows_of, widths_of
from seatwright.cards.heights import Sized, item_height, pieces, step_height, tall, text_height
from seatwright.cards.marks import TICKS, reader
from seatwright.cards.paper import MM_PER_POINT, SIZES, Paper
from seatwright.cards.runs import lines_in, words_of

__all__ = ["Page", "Sized", "heading_height", "pages"]

SHORT_TABLE = 6  # rows
FEW = 40.0  # mm: less than that is no page


class Page(Struct, frozen=True):
    """One page of a card: its Markdown without the heading, the widths of the columns of its tables, in order, and
    how tall it was reckoned in mm."""

    markdown: str
    columns: tuple[tuple[float, ...], ...]
    height: float


class _Table(Struct, frozen=True):
    """The table that a row is one of. header: its two first lines."""

    header: str
    height: float
    widths: tuple[float, ...]
    number: int


class _Block(Struct, frozen=True):
    """A piece that is not broken. table: where it is a row. stays: not without what follows."""

    text: str
    height: float
    table: _Table | None = None
    stays: bool = False


def pages(body: str, heading: str, paper: Paper, drawings: Mapping[str, Sized]) -> tuple[Page, ...]:
    """The pages of a card. heading: the Markdown that every page carries."""
    room = paper.length - heading_height(heading, paper)
    found: list[list[_Block]] = [[]]
    for block in _blocks(body, paper, drawings):
        page = found[-1]
        if page and _height([*page, block]) - SIZES.gap > room:  # what is below the last needs no room
            found.append(_taken_along(page))
        found[-1].append(block)
    if len(found) > 1:
        _even_out(found[-2], found[-1], room)
    return tuple(_page(page) for page in found)


def _even_out(before: list[_Block], last: list[_Block], room: float) -> None:
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


def _taken_along(page: list[_Block]) -> list[_Block]:
    """The end of a page that must not stand without what follows it; nothing where that is the whole page."""
    start = len(page)
    while start and page[start - 1].stays:
        start -= 1
    if start == 0:
        return []
    taken = page[start:]
    del page[start:]
    return taken


def _height(page: Sequence[_Block]) -> float:
    total, table = 0.0, None
    for block in page:
        if block.table is not None and block.table is not table:
            total += block.table.height + SIZES.rule + SIZES.gap
        table = block.table
        total += block.height
    return total


def _page(page: Sequence[_Block]) -> Page:
    lines: list[str] = []
    columns: list[tuple[float, ...]] = []
    table: _Table | None = None
    for block in page:
        if block.table is None:
            lines += ["", block.text]
        elif block.table is table:
            lines.append(block.text)
        else:
            lines += ["", block.table.header, block.text]
            columns.append(block.table.widths)
        table = block.table
    return Page("\n".join(lines).strip("\n") + "\n", tuple(columns), _height(page))


def _blocks(markdown: str, paper: Paper, drawings: Mapping[str, Sized]) -> list[_Block]:
    source = markdown.split("\n")
    found: list[_Block] = []
    for piece in pieces(reader().parse(markdown, {"drawings": drawings})):
        kind = piece[0].type
        if kind in ("ordered_list_open", "bullet_list_open"):
            found.extend(_list(source, piece, paper, drawings))
        elif kind == "table_open":
            if found:
                found[-1] = _staying(found[-1])
            found.extend(_kept_together(list(_rows(source, piece, paper, len(found)))))
        else:
            if kind == "drawing" and found:
                found[-1] = _staying(found[-1])
            height = tall(piece, paper.room, paper, drawings)
            found.append(_Block(_lines(source, piece), height, stays=kind == "heading_open"))
    return found


def _list(
    source: Sequence[str], piece: Sequence[Token], paper: Paper, drawings: Mapping[str, Sized]
) -> Iterator[_Block]:
    items = list(pieces(piece[1:-1]))
    if piece[0].type == "ordered_list_open":
        yield from (_Block(_lines(source, item), step_height(item, paper.room, paper, drawings)) for item in items)
        return
    if piece[0].attrGet("class") == TICKS and not paper.narrow:
        # Two beside each other, as card.css sets them.
        width = (paper.room - SIZES.reading_gap) / 2
        rows = [items[start : start + 2] for start in range(0, len(items), 2)]
    else:
        width, rows = paper.room, [[item] for item in items]
    blocks = [
        _Block(
            "\n".join(_lines(source, item) for item in row),
            max(item_height(item, width, paper, drawings) for item in row),
        )
        for row in rows
    ]
    yield from _not_alone(blocks)


def _not_alone(blocks: list[_Block]) -> Iterator[_Block]:
    """The first of a list stays with the next, and the last but one with the last: no line of it stands alone."""
    last = len(blocks) - 1
    for index, block in enumerate(blocks):
        yield replace(block, stays=index != last and (last == 1 or index in (0, last - 1)))


def _kept_together(rows: list[_Block]) -> list[_Block]:
    """A short table is not broken, and of a long one neither its first nor its last row stands alone."""
    last = len(rows) - 1
    short = len(rows) <= SHORT_TABLE
    return [replace(row, stays=index != last and (short or index in (0, last - 1))) for index, row in enumerate(rows)]


def _staying(block: _Block) -> _Block:
    return replace(block, stays=True)


def _lines(source: Sequence[str], piece: Sequence[Token]) -> str:
    first, last = piece[0].map or (0, 0)
    return "\n".join(source[first:last]).rstrip()


def _rows(source: Sequence[str], piece: Sequence[Token], paper: Paper, number: int) -> Iterator[_Block]:
    start = (piece[0].map or [0, 0])[0]
    rows = list(rows_of(piece))
    widths = widths_of(rows, paper.room)
    head = _Table("\n".join(source[start : start + 2]), row_height(rows[0], widths, header=True), widths, number)
    body = [token.map for token in piece if token.type == "tr_open" and token.map is not None][1:]
    for row, place in zip(rows[1:], body, strict=True):
        yield _Block(source[place[0]].strip(), row_height(row, widths), head)
