"""What a card's Markdown means beyond Markdown: boxes to initial, ruled blanks, large figures, drawings.

`[ ]` is a box. `______` is a blank as long as it is typed. A paragraph of a step that begins bold is a figure to read
off a dial. A boxed quotation that begins `**HOLD` is a hold. A paragraph that is one link to `cards.html#drawing-NAME`
is that drawing. Text of a job is escaped, so none of it comes about by what somebody typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, MutableMapping, Sequence
from functools import cache
from typing import Any, Protocol

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.renderer import RendererHTML
from markdown_it.rules_core import StateCore
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from markdown_it.utils import OptionsDict

from seatwright.cards.paper import MM_PER_POINT, SIZES, width_of
from seatwright.cards.pieces import end_of, pieces
from seatwright.cards.tables import close_table, draw_row, open_table, read_table
from seatwright.cards.texts import ROW, read_texts

DRAWING = "cards.html#drawing-"
SHORTEST_BLANK = 3
BLANK_MM = 3.2  # of ruled line for each mark typed
BESIDE = 6.0  # how wide a figure to read may be to stand beside its step, in heights of its type
TABLE_TITLE = "of-table"
TICKS = "ticks"  # a list of boxes to tick

_CARD_NUMBER = re.compile(r"(\d+[a-z]*)\. ")

Environment = MutableMapping[str, Any]


class Wide(Protocol):
    """A drawing as printed, as far as it matters here."""

    @property
    def width(self) -> float:
        """In mm."""


@cache
def reader() -> MarkdownIt:
    """The one reader of card Markdown: CommonMark and tables, no raw HTML, and the marks of this file."""
    return plain_reader().use(marks_in_a_text).use(read_once).use(marks_of_blocks)


def plain_reader() -> MarkdownIt:
    """CommonMark and tables, without what would load something: pictures, bare addresses, HTML."""
    markdown = MarkdownIt("commonmark", {"html": False}).enable("table")
    return markdown.disable(["image", "autolink", "html_block", "html_inline"])


def marks_in_a_text(markdown: MarkdownIt) -> None:
    """Boxes and blanks as a plug-in."""
    markdown.inline.ruler.before("link", "box", _box)
    markdown.inline.ruler.before("emphasis", "blank", _blank)
    markdown.add_render_rule("box", _draw_box)
    markdown.add_render_rule("blank", _draw_blank)


def read_once(markdown: MarkdownIt) -> None:
    """Texts and tables read as they always are, with less ado, as a plug-in; a table is printed in a frame."""
    markdown.block.ruler.at("table", read_table, {"alt": ["paragraph", "reference"]})
    markdown.core.ruler.at("inline", read_texts)
    markdown.disable("text_join")  # texts are joined where they are read
    markdown.add_render_rule(ROW, draw_row)
    markdown.add_render_rule("table_open", open_table)
    markdown.add_render_rule("table_close", close_table)


def marks_of_blocks(markdown: MarkdownIt) -> None:
    """Steps, holds, drawings and lists of boxes as a plug-in."""
    markdown.core.ruler.push("shapes", _shapes)
    markdown.add_render_rule("number", _draw_number)
    markdown.add_render_rule("drawing", _draw_drawing)


def _box(state: StateInline, silent: bool) -> bool:
    if not state.src.startswith("[ ]", state.pos):
        return False
    if not silent:
        state.push("box", "span", 0).content = "[ ]"
    state.pos += 3
    return True


def _blank(state: StateInline, silent: bool) -> bool:
    end = state.pos
    while end < state.posMax and state.src[end] == "_":
        end += 1
    if end - state.pos < SHORTEST_BLANK:
        return False
    if not silent:
        state.push("blank", "span", 0).content = state.src[state.pos : end]
    state.pos = end
    return True


def _shapes(state: StateCore) -> None:
    tokens = _with_drawings(state.tokens, state.env.get("drawings", {}))
    for index, token in enumerate(tokens):
        if token.type == "blockquote_open":
            following = tokens[index + 2].children if tokens[index + 1].type == "paragraph_open" else None
            hold = following and _begins_bold(following) and _bold_text(following).startswith("HOLD")
            token.attrSet("class", "hold" if hold else "caution")
        elif token.type == "bullet_list_open" and all_ticked(pieces(tokens[index + 1 : end_of(tokens, index) - 1])):
            token.attrSet("class", TICKS)
        elif token.type == "heading_open" and token.tag == "h1":
            _set_number_apart(tokens[index + 1])
        elif token.type in ("heading_open", "heading_close") and token.tag == "h3":
            # The title of a table stands in many a card right below the card's own: no level is skipped.
            token.tag = "h2"
            if token.nesting == 1:
                token.attrSet("class", TABLE_TITLE)
    state.tokens = _with_steps(tokens, state.env.get("drawings", {}))


def all_ticked(items: Iterable[Sequence[Token]]) -> bool:
    """Whether every item of a list begins with a box."""
    first = [item[2] if len(item) > 2 else item[0] for item in items]
    return all(token.type == "inline" and [*(token.children or []), token][0].type == "box" for token in first)


def _set_number_apart(inline: Token) -> None:
    """The number of a card before its title, `3a.`, which card.css sets beside the heading."""
    children = [token for token in inline.children or [] if token.type != "text" or token.content]
    found = _CARD_NUMBER.match(children[0].content) if children and children[0].type == "text" else None
    if found is None:
        return
    number = Token("number", "span", 0, content=found[1] + ".")
    title = children[0].copy(content=children[0].content[found.end() :])
    inline.children = [number, title, *children[1:]]


def _with_steps(tokens: Sequence[Token], drawings: Mapping[str, Wide]) -> list[Token]:
    """Items of numbered lists as steps: number, sentence, figures to read, how it is checked, what is boxed."""
    found: list[Token] = []
    index = 0
    numbers: list[int] = []
    while index < len(tokens):
        token = tokens[index]
        if token.type == "ordered_list_open":
            numbers.append(int(token.attrGet("start") or 1))
        elif token.type == "ordered_list_close":
            numbers.pop()
        if token.type == "list_item_open" and token.markup in (".", ")") and numbers:
            end = end_of(tokens, index) - 1
            found += [token, *_step(token, numbers[-1], _with_steps(tokens[index + 1 : end], drawings), drawings)]
            numbers[-1] += 1
            index = end
        else:
            found.append(token)
            index += 1
    return found


def _step(item: Token, number: int, inside: Sequence[Token], drawings: Mapping[str, Wide]) -> list[Token]:
    shown = Token("number", "span", 0, content=f"{number}", block=True)
    sentence: list[Token] = []
    readings: list[Token] = []
    rest: list[Token] = []
    below: list[Token] = []
    for piece in pieces(inside):
        if piece[0].type == "paragraph_open":
            # A list without empty lines between its items hides its paragraphs; a step always has them.
            piece[0].hidden = piece[-1].hidden = False
            if not sentence:
                piece[0].attrSet("class", "sentence")
                sentence = list(piece)
            elif _begins_bold(piece[1].children or []):
                piece[0].attrSet("class", "reading")
                readings += piece
            else:
                rest += piece
        else:
            below += piece
    large = [_bold_text(token.children or []) for token in readings if token.type == "inline"]
    beside = large and all(width_of(words, 1 / MM_PER_POINT, True) <= BESIDE for words in large)
    drawn = [drawings[token.info].width for token in below if token.type == "drawing" and token.info in drawings]
    figured = not readings and len(below) == 1 and drawn and drawn[0] <= SIZES.figure
    item.attrSet("class", "step beside" if beside else "step figured" if figured else "step")
    words = [*sentence, *_part("readings", readings), *_part("rest", rest), *(below if figured else [])]
    return [shown, *_part("words", words), *([] if figured else below)]


def _part(name: str, inside: list[Token]) -> list[Token]:
    if not inside:
        return []
    opening = Token(f"part_of_step_{name}_open", "div", 1, attrs={"class": name}, block=True)
    return [opening, *inside, Token(f"part_of_step_{name}_close", "div", -1, block=True)]


def _begins_bold(children: Sequence[Token]) -> bool:
    seen = [token for token in children if token.type != "text" or token.content]
    return bool(seen) and seen[0].type == "strong_open"


def _bold_text(children: Sequence[Token]) -> str:
    return next((token.content for token in children if token.type == "text" and token.content), "")


def _with_drawings(tokens: list[Token], drawings: Mapping[str, Wide]) -> list[Token]:
    found: list[Token] = []
    index = 0
    while index < len(tokens):
        token = tokens[index]
        name = _drawing_name(tokens[index + 1]) if token.type == "paragraph_open" else None
        if name not in drawings:
            found.append(token)
            index += 1
            continue
        drawing = Token("drawing", "figure", 0, block=True, map=token.map, level=token.level)
        drawing.info = str(name)
        drawing.content = _bold_text(tokens[index + 1].children or [])
        found.append(drawing)
        index += 3
    return found


def _drawing_name(inline: Token) -> str | None:
    children = [token for token in inline.children or [] if token.type != "text" or token.content]
    if len(children) < 3 or children[0].type != "link_open" or children[-1].type != "link_close":
        return None
    address = str(children[0].attrGet("href") or "")
    return address.removeprefix(DRAWING) if address.startswith(DRAWING) else None


def _draw_box(
    renderer: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: Environment
) -> str:
    return '<span class="box"></span>'


def _draw_blank(
    renderer: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: Environment
) -> str:
    return f'<span class="blank" style="width:{len(tokens[index].content) * BLANK_MM:.1f}mm"></span>'


def _draw_number(
    renderer: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: Environment
) -> str:
    return f'<span class="number">{escapeHtml(tokens[index].content)}</span> '


def _draw_drawing(
    renderer: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: Environment
) -> str:
    drawing = env["drawings"][tokens[index].info]
    size = f"width:{drawing.width:.1f}mm;height:{drawing.height:.1f}mm"
    caption = escapeHtml(tokens[index].content)
    place = escapeHtml(f"drawing-{tokens[index].info}")
    return f'<figure id="{place}"><div style="{size}">{drawing.svg}</div><figcaption>{caption}</figcaption></figure>\n'
