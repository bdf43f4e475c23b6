"""A card onto its pages: broken only between steps, rows and paragraphs, never by shrinking.

Heights are reckoned from the Markdown that the templates wrote, so that a shop's own template is paged like the
built-in one. They lean to the tall side; the browser tests print every card and count the pages.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from markdown_it.token import Token
from seatwright.cards.marks import BLANK_MM, reader
from seatwright.cards.paper import LINE, MM_PER_POINT, Paper, lines_of, width_of

# Sizes that card.css sets, in mm; a little over.
GAP = 2.0  # below a paragraph, a table
INNER_GAP = 1.0  # below a paragraph of a step or a boxed quotation
ITEM = 2.2  # above, below and between items, with the rule over a step
INDENT = 10.0  # of an item's text
BOX = 17.0  # a box to initial, with the white beside it
INITIALLED = 7.6  # the least height of a sentence with a box
TICK = 6.0  # width of a box to tick
WRITTEN = 1.0  # how much taller a line with a blank is
QUOTE = 9.0  # sides of a boxed quotation, its frame and white
CELL = 3.15  # sides of a cell
ROW = 2.4  # above and below the text of a row
BLANK_ROW = 8.5  # the least height of a row that is written in
TITLE_GAP = 3.6  # above and below a title
SHORT_TABLE = 6  # rows
TITLE_POINTS = {"h1": 17.0, "h2": 12.5, "h3": 11.0}


@dataclass(frozen=True, slots=True)
class Sized:
    """A drawing as printed: mm."""

    svg: str
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class _Block:
    """A piece that is not broken. header: lines of the table that it is a row of. stays: not without what follows."""

    text: str
    height: float
    header: str = ""
    header_height: float = 0.0
    stays: bool = False


def parts(body: str, heading: str, paper: Paper, drawings: Mapping[str, Sized]) -> tuple[str, ...]:
    """The Markdown of each page of a card, without the heading, which every page carries."""
    room = paper.length - sum(block.height for block in _blocks(heading, paper, {}))
    pages: list[list[_Block]] = [[]]
    for block in _blocks(body, paper, drawings):
        page = pages[-1]
        if page and _height([*page, block]) > room:
            pages.append(_taken_along(page))
        pages[-1].append(block)
    return tuple(_joined(page) for page in pages)


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
    total, header = 0.0, ""
    for block in page:
        if block.header and block.header != header:
            total += block.header_height + GAP
        header = block.header
        total += block.height
    return total


def _joined(page: Sequence[_Block]) -> str:
    lines: list[str] = []
    header = ""
    for block in page:
        if block.header and block.header == header:
            lines.append(block.text)
        else:
            lines += ["", block.header, block.text] if block.header else ["", block.text]
        header = block.header
    return "\n".join(lines).strip("\n") + "\n"


def _blocks(markdown: str, paper: Paper, drawings: Mapping[str, Sized]) -> list[_Block]:
    source = markdown.split("\n")
    found: list[_Block] = []
    tokens = reader().parse(markdown)
    for piece in _pieces(tokens):
        kind = piece[0].type
        if kind in ("ordered_list_open", "bullet_list_open"):
            for item in _pieces(piece[1:-1]):
                found.append(
                    _Block(_lines(source, item), _tall(item[1:-1], paper.room - INDENT, paper, drawings) + 0.8)
                )
        elif kind == "table_open":
            if found:
                found[-1] = _staying(found[-1])
            found.extend(_kept_together(list(_rows(source, piece, paper))))
        else:
            stays = kind == "heading_open"
            if kind == "drawing" and found:
                found[-1] = _staying(found[-1])
            found.append(_Block(_lines(source, piece), _tall(piece, paper.room, paper, drawings), stays=stays))
    return found


def _kept_together(rows: list[_Block]) -> list[_Block]:
    """A short table is not broken, and of a long one neither its first nor its last row stands alone."""
    last = len(rows) - 1
    short = len(rows) <= SHORT_TABLE
    return [replace(row, stays=index != last and (short or index in (0, last - 1))) for index, row in enumerate(rows)]


def _staying(block: _Block) -> _Block:
    return replace(block, stays=True)


def _pieces(tokens: Sequence[Token]) -> Iterator[Sequence[Token]]:
    """The blocks side by side, each with all that is in it."""
    depth, start = 0, 0
    for index, token in enumerate(tokens):
        if depth == 0:
            start = index
        depth += token.nesting
        if depth == 0:
            yield tokens[start : index + 1]


def _lines(source: Sequence[str], piece: Sequence[Token]) -> str:
    first, last = piece[0].map or (0, 0)
    return "\n".join(source[first:last]).rstrip()


def _tall(
    tokens: Sequence[Token], width: float, paper: Paper, drawings: Mapping[str, Sized], gap: float = GAP
) -> float:
    """How tall blocks stand below each other at a width. gap: below a paragraph; within a step it is smaller."""
    total = 0.0
    for piece in _pieces(tokens):
        kind = piece[0].type
        if kind == "paragraph_open":
            total += _paragraph(piece, width, paper) + (0.0 if piece[0].hidden else gap)
        elif kind == "heading_open":
            points = TITLE_POINTS[piece[0].tag]
            lines = lines_of(_text(piece[1]), width, points, bold=1.0)
            total += lines * points * 1.25 * MM_PER_POINT + TITLE_GAP
        elif kind == "blockquote_open":
            total += _tall(piece[1:-1], width - QUOTE, paper, drawings, INNER_GAP) + GAP + 2.0
        elif kind in ("ordered_list_open", "bullet_list_open"):
            total += sum(_item(item, width, paper, drawings) for item in _pieces(piece[1:-1]))
        elif kind == "drawing":
            total += drawings[piece[0].info].height + LINE + GAP
    return total


def _item(item: Sequence[Token], width: float, paper: Paper, drawings: Mapping[str, Sized]) -> float:
    return _tall(item[1:-1], width - INDENT, paper, drawings, INNER_GAP) + ITEM


def _paragraph(piece: Sequence[Token], width: float, paper: Paper) -> float:
    kind = piece[0].attrGet("class")
    if kind == "reading":
        return _reading(piece[1], width, paper)
    if kind == "initialled":
        return max(lines_of(_text(piece[1]), width - BOX, bold=1.0) * (LINE + WRITTEN), INITIALLED)
    return _text_height(piece[1], width)


def _text_height(inline: Token, width: float) -> float:
    children = inline.children or []
    broken = 1 + sum(token.type == "hardbreak" for token in children)
    tall = LINE + (WRITTEN if _has_blank(inline) else 0.0)
    return max(lines_of(_text(inline), width, bold=_bold(inline)), broken) * tall


def _reading(inline: Token, width: float, paper: Paper) -> float:
    children = inline.children or []
    end = next(index for index, token in enumerate(children) if token.type == "strong_close")
    large = width_of(_of(children[:end]), paper.reading_points, bold=1.0)
    lines = 1 if large + width_of(_of(children[end:])) + 4.0 <= width else 2
    return lines * paper.reading_points * 1.15 * MM_PER_POINT


def _rows(source: Sequence[str], table: Sequence[Token], paper: Paper) -> Iterator[_Block]:
    start = (table[0].map or [0, 0])[0]
    rows = list(_cells(table))
    widths = _columns([[_cell(inline, row is rows[0]) for inline in row] for row in rows], paper.room)
    header = "\n".join(source[start : start + 2])
    header_height = _row_height(rows[0], widths, header=True)
    body = [token.map for token in table if token.type == "tr_open" and token.map is not None][1:]
    for row, place in zip(rows[1:], body, strict=True):
        yield _Block(source[place[0]].strip(), _row_height(row, widths), header, header_height)


def _cells(table: Sequence[Token]) -> Iterator[list[Token]]:
    row: list[Token] = []
    for token in table:
        if token.type == "tr_open":
            row = []
        elif token.type == "inline":
            row.append(token)
        elif token.type == "tr_close":
            yield row


def _cell(inline: Token, header: bool) -> tuple[float, float]:
    """The least and the whole width of a cell: its longest word, its text on one line."""
    text, bold = _text(inline), 1.0 if header else _bold(inline)
    least = max((width_of(word, bold=bold) for word in text.split()), default=0.0)
    return least + CELL, width_of(text, bold=bold) + CELL


def _columns(cells: Sequence[Sequence[tuple[float, float]]], room: float) -> list[float]:
    """Widths of columns as a browser shares them out over a table of full width."""
    least = [max(row[column][0] for row in cells) for column in range(len(cells[0]))]
    whole = [max(row[column][1] for row in cells) for column in range(len(cells[0]))]
    if sum(whole) <= room:
        return [width * room / sum(whole) for width in whole]
    spare = max(room - sum(least), 0.0)
    wish = sum(whole) - sum(least) or 1.0
    return [low + spare * (high - low) / wish for low, high in zip(least, whole, strict=True)]


def _row_height(row: Sequence[Token], widths: Sequence[float], header: bool = False) -> float:
    lines = 1
    for cell, width in zip(row, widths, strict=True):
        inside = max(width - CELL, 4.0)
        lines = max(lines, lines_of(_text(cell), inside, bold=1.0 if header else _bold(cell)))
    height = lines * LINE + ROW
    return max(height, BLANK_ROW) if any(_has_blank(cell) for cell in row) else height


def _bold(inline: Token) -> float:
    """The share of a text that is bold."""
    depth, bold, all_of_it = 0, 0, 0
    for token in inline.children or []:
        depth += token.nesting if token.type.startswith("strong_") else 0
        all_of_it += len(token.content)
        bold += len(token.content) if depth else 0
    return bold / all_of_it if all_of_it else 0.0


def _has_blank(inline: Token) -> bool:
    return any(token.type in ("blank", "box") for token in inline.children or [])


def _text(inline: Token) -> str:
    return _of(inline.children or [])


def _of(children: Sequence[Token]) -> str:
    """The text of a run, a blank as underlines that run as long as it is ruled, a box as those it takes."""
    found: list[str] = []
    per_mark = width_of("_")
    for token in children:
        if token.type == "blank":
            found.append("_" * math.ceil((len(token.content) * BLANK_MM + 1.0) / per_mark))
        elif token.type == "box":
            found.append("_" * math.ceil(TICK / per_mark))
        elif token.type in ("softbreak", "hardbreak"):
            found.append(" ")
        else:
            found.append(token.content)
    return "".join(found)
