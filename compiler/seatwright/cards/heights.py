"""How tall the blocks of a card stand on paper, from the sizes that card.css is filled in with.

The width of every letter is known (`letters`) and columns are set (`columns`), so that only what a browser rounds is
left: the tests hold every page against Chromium.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from markdown_it.token import Token
from msgspec import Struct

from seatwright.cards.columns import is_written
from seatwright.cards.marks import TABLE_TITLE
from seatwright.cards.paper import MM_PER_POINT, SIZES, Paper
from seatwright.cards.pieces import end_of, pieces
from seatwright.cards.runs import lines_in, on_one_line, words_of

_TITLES = {"h1": SIZES.title, "h2": SIZES.section}


class Sized(Struct, frozen=True):
    """A drawing as printed: mm."""

    svg: str
    width: float
    height: float


def tall(
    tokens: Sequence[Token], width: float, paper: Paper, drawings: Mapping[str, Sized], gap: float = SIZES.gap
) -> float:
    """How tall blocks stand below each other at a width. gap: below a paragraph."""
    total = 0.0
    for piece in pieces(tokens):
        kind = piece[0].type
        if kind == "paragraph_open":
            total += text_height(piece[1], width) + gap
        elif kind == "heading_open":
            total += _title(piece, width)
        elif kind == "blockquote_open":
            total += _quote(piece, width, paper, drawings)
        elif kind == "bullet_list_open":
            total += sum(item_height(item, width, paper, drawings) for item in pieces(piece[1:-1]))
        elif kind == "ordered_list_open":
            total += sum(step_height(item, width, paper, drawings) for item in pieces(piece[1:-1]))
        elif kind == "drawing":
            total += drawings[piece[0].info].height + _caption(piece[0], width) + SIZES.gap
        elif kind.startswith("part_of_step"):
            total += tall(piece[1:-1], width, paper, drawings, gap)
    return total


def _quote(piece: Sequence[Token], width: float, paper: Paper, drawings: Mapping[str, Sized]) -> float:
    hold = piece[0].attrGet("class") == "hold"
    inside = width - SIZES.frame - 2 * SIZES.quote_sides - (SIZES.hold_frame if hold else SIZES.rule)
    total = 2 * SIZES.quote_ends + SIZES.gap - SIZES.inner + 2 * (SIZES.hold_frame if hold else SIZES.rule)
    for block in pieces(piece[1:-1]):
        if hold and block[0].type == "paragraph_open":
            lines = lines_in(words_of(block[1].children or [], bold_points=SIZES.section), inside)
            total += lines * SIZES.line + SIZES.inner
        else:
            total += tall(block, inside, paper, drawings, SIZES.inner)
    return total


def text_height(inline: Token, width: float, bold: bool = False) -> float:
    """How tall a paragraph stands; a line with a blank is as tall as writing takes. bold: the sentence of a step,
    whose box stands in a column of its own."""
    children = [token for token in inline.children or [] if not (bold and token.type == "box")]
    lines = lines_in(words_of(children, bold=bold), width)
    blanks = sum(token.type == "blank" for token in children)
    return lines * SIZES.line + min(lines, blanks) * (SIZES.written - SIZES.line)


def item_height(item: Sequence[Token], width: float, paper: Paper, drawings: Mapping[str, Sized]) -> float:
    """How tall an item of a list of bullets stands."""
    least = SIZES.tick + 1.2 if any(is_written(token) for token in item) else 0.0
    return (
        max(tall(item[1:-1], width - SIZES.bullet, paper, drawings, 0.0) + (0.3 if least else 0.0), least) + SIZES.item
    )


def step_height(item: Sequence[Token], width: float, paper: Paper, drawings: Mapping[str, Sized]) -> float:
    """How tall a step stands: its words, beside them or below the figure to read, then what is boxed."""
    inside = list(pieces(item[1:-1]))
    words = next(piece for piece in inside if piece[0].type == "part_of_step_words_open")
    upper = words_height(item[0], words, width, paper, drawings)
    below = sum(
        tall(piece, width - SIZES.indent, paper, drawings) + SIZES.inner
        for piece in inside
        if piece is not words and piece[0].type != "number"
    )
    return SIZES.rule + SIZES.step_above + upper + below + SIZES.step_below


def words_height(
    item: Token, words: Sequence[Token], width: float, paper: Paper, drawings: Mapping[str, Sized]
) -> float:
    """How tall the words of a step stand, with the figure or the drawing that belongs beside or below them."""
    inside = {piece[0].type.removeprefix("part_of_step_"): piece for piece in pieces(words[1:-1])}
    beside, figured = stands("beside", item, paper), stands("figured", item, paper)
    whole = width - SIZES.indent
    taken = SIZES.reading + SIZES.reading_gap if beside else SIZES.figure + SIZES.reading_gap if figured else 0.0
    room = whole - SIZES.box - SIZES.box_gap - taken
    said = (
        text_height(inside["paragraph_open"][1], room, bold=True) + SIZES.inner if "paragraph_open" in inside else 0.0
    )
    rest = tall(inside["rest_open"][1:-1], room, paper, drawings, SIZES.inner) if "rest_open" in inside else 0.0
    figures = 0.0
    if "readings_open" in inside:
        figures = _readings(inside["readings_open"][1:-1], SIZES.reading if beside else whole, paper, beside)
    drawn = tall(inside["drawing"], whole, paper, drawings) if "drawing" in inside else 0.0
    if beside or figured:
        return max(said + rest, figures, drawn - SIZES.gap, SIZES.box_height)
    return max(said + figures + rest + (drawn + SIZES.inner if drawn else 0.0), SIZES.box_height)


def keep_room(tokens: Sequence[Token], paper: Paper, drawings: Mapping[str, Sized]) -> None:
    """Give the words of each step room for what stands beside them, which the page sets without asking for any."""
    for index, token in enumerate(tokens):
        if token.type != "list_item_open" or not (stands("beside", token, paper) or stands("figured", token, paper)):
            continue
        opening = index + 2  # behind the number
        words = tokens[opening : end_of(tokens, opening)]
        height = words_height(token, words, paper.room, paper, drawings)
        words[0].attrSet("style", f"min-height:{height:.2f}mm")


def _caption(drawing: Token, width: float) -> float:
    return lines_in(words_of([Token("text", "", 0, content=drawing.content)]), width) * SIZES.line


def stands(how: str, item: Token, paper: Paper) -> bool:
    """Whether what a step shows stands beside its words, not below them: `beside` a figure, `figured` a drawing."""
    return not paper.narrow and how in str(item.attrGet("class") or "").split()


def _readings(tokens: Sequence[Token], width: float, paper: Paper, beside: bool) -> float:
    total = 0.0
    for piece in pieces(tokens):
        children = piece[1].children or []
        end = next(index for index, token in enumerate(children) if token.type == "strong_close") + 1
        large, small = words_of(children[:end], paper.reading_points), words_of(children[end:])
        figure = paper.reading_points * 1.1 * MM_PER_POINT
        if beside:
            total += figure + (lines_in(small, width) * SIZES.line if small else 0.0) + SIZES.inner
        else:
            fits = on_one_line(large) + on_one_line(small) + 3.0 <= width
            total += figure * lines_in(large, width) + (0.0 if fits else SIZES.line) + SIZES.inner
    return total


def _title(piece: Sequence[Token], width: float) -> float:
    points = SIZES.body if piece[0].attrGet("class") == TABLE_TITLE else _TITLES[piece[0].tag]
    lines = lines_in(words_of(piece[1].children or [], points, bold=True), width)
    above = SIZES.above_section if piece[0].tag != "h1" else 0.0
    return lines * points * SIZES.line_height * MM_PER_POINT + above + SIZES.inner
