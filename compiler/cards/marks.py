"""What a card's Markdown means beyond Markdown: boxes to initial, ruled blanks, large figures, drawings.

`[ ]` is a box. `______` is a blank as long as it is typed. A paragraph of a step that begins bold is a figure to read
off a dial. A boxed quotation that begins `**HOLD` is a hold. A paragraph that is one link to `cards.html#drawing-NAME`
is that drawing. Text of a job is escaped, so none of it comes about by what somebody typed.
"""

from __future__ import annotations

from collections.abc import MutableMapping, Sequence
from functools import cache
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.renderer import RendererHTML
from markdown_it.rules_core import StateCore
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from markdown_it.utils import OptionsDict

DRAWING = "cards.html#drawing-"
SHORTEST_BLANK = 3
BLANK_MM = 3.2  # of ruled line for each mark typed

Environment = MutableMapping[str, Any]


@cache
def reader() -> MarkdownIt:
    """The one reader of card Markdown: CommonMark and tables, no raw HTML, and the marks of this file."""
    markdown = MarkdownIt("commonmark", {"html": False}).enable("table").use(marks)
    # Pictures and bare addresses would load something; a card loads nothing.
    return markdown.disable(["image", "autolink", "html_block", "html_inline"])


def marks(markdown: MarkdownIt) -> None:
    """The marks as a plug-in."""
    markdown.inline.ruler.before("link", "box", _box)
    markdown.inline.ruler.before("emphasis", "blank", _blank)
    markdown.core.ruler.push("shapes", _shapes)
    markdown.add_render_rule("box", _draw_box)
    markdown.add_render_rule("blank", _draw_blank)
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
    tokens = state.tokens
    around: list[str] = []
    for index, token in enumerate(tokens):
        if token.type == "paragraph_open" and around[-2:] == ["ordered_list_open", "list_item_open"]:
            _shape_of_step(token, tokens[index + 1].children or [], tokens[index + 2])
        elif token.type == "blockquote_open":
            following = tokens[index + 2].children if tokens[index + 1].type == "paragraph_open" else None
            hold = following and _begins_bold(following) and _bold_text(following).startswith("HOLD")
            token.attrSet("class", "hold" if hold else "caution")
        if token.nesting == 1:
            around.append(token.type)
        elif token.nesting == -1:
            around.pop()
    state.tokens = _with_drawings(tokens)


def _shape_of_step(opening: Token, inside: Sequence[Token], closing: Token) -> None:
    # A list without empty lines between its items hides its paragraphs; a step always has them.
    opening.hidden = closing.hidden = False
    if _begins_bold(inside):
        opening.attrSet("class", "reading")
    elif any(token.type == "box" for token in inside):
        opening.attrSet("class", "initialled")


def _begins_bold(children: Sequence[Token]) -> bool:
    seen = [token for token in children if token.type != "text" or token.content]
    return bool(seen) and seen[0].type == "strong_open"


def _bold_text(children: Sequence[Token]) -> str:
    return next((token.content for token in children if token.type == "text" and token.content), "")


def _with_drawings(tokens: list[Token]) -> list[Token]:
    found: list[Token] = []
    index = 0
    while index < len(tokens):
        name = _drawing_name(tokens[index : index + 2])
        if name is None:
            found.append(tokens[index])
            index += 1
            continue
        drawing = Token("drawing", "figure", 0, block=True, map=tokens[index].map, level=tokens[index].level)
        drawing.info = name
        drawing.content = _bold_text(tokens[index + 1].children or [])
        found.append(drawing)
        index += 3
    return found


def _drawing_name(pair: Sequence[Token]) -> str | None:
    if len(pair) < 2 or pair[0].type != "paragraph_open":
        return None
    children = [token for token in pair[1].children or [] if token.type != "text" or token.content]
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


def _draw_drawing(
    renderer: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: Environment
) -> str:
    drawing = env["drawings"][tokens[index].info]
    size = f"width:{drawing.width:.1f}mm;height:{drawing.height:.1f}mm"
    caption = escapeHtml(tokens[index].content)
    place = escapeHtml(f"drawing-{tokens[index].info}")
    return f'<figure id="{place}"><div style="{size}">{drawing.svg}</div><figcaption>{caption}</figcaption></figure>\n'
