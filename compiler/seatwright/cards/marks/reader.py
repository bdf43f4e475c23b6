"""Markdown taken apart: the blocks of a card and what is in them, the text of one of them as HTML."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache, lru_cache

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.rules_block import StateBlock, lheading, paragraph
from markdown_it.rules_core import StateCore, inline, text_join
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from msgspec import Struct, field

from seatwright.cards.marks.tables import grid_rule

SHORTEST_BLANK = 3
BLANK_MM = 3.2  # of line for each mark typed
KEPT_TEXTS = 4096  # that are not read again: most of what stands on a card stands there many times
_WITH_UNIT = re.compile(r"(?<=\d) (?=°|mm\b|in\b|k?N\b|rpm\b|lbf\b)")  # what no line is to be broken in
_A_DATE = re.compile(r"\b\d{4}-\d\d-\d\d\b")
_MARKED = re.compile(r"[\n\\`*_\[\]&]")  # what could be more than words
_IN_WORDS = re.compile(r"[^-+*_#>`~\[<\d]|\*\*+[^*\s]")  # a list, rule, heading, quotation or code begins otherwise


class Block(Struct):
    """A block of a card with the blocks in it. kind: as markdown-it calls it, `paragraph`, `bullet_list`. text: of a
    paragraph or a heading, not yet read."""

    kind: str
    token: Token
    text: str = ""
    inside: list[Block] = field(default_factory=list)


def blocks_of(markdown: str) -> list[Block]:
    """The blocks of a text side by side."""
    whole = Block("", Token("", "", 1))
    begun = [whole]
    for token in _reader().parse(markdown):
        if token.type == "inline":
            begun[-1].text = token.content
        elif token.type == "paragraph":
            begun[-1].inside.append(Block("paragraph", token, token.content))
        elif token.nesting < 0:
            begun.pop()
        else:
            made = Block(token.type.removesuffix("_open"), token)
            begun[-1].inside.append(made)
            if token.nesting > 0:
                begun.append(made)
    return whole.inside


@lru_cache(KEPT_TEXTS)
def taken_apart(text: str) -> tuple[Token, ...]:
    """What the text of a block is made of."""
    if not _MARKED.search(text):
        return (Token("text", "", 0, content=text),) if text else ()
    whole = Token("inline", "", 0, content=text)
    state = StateCore(text, _reader(), {}, [whole])
    inline(state)
    text_join(state)
    return tuple(child for child in whole.children or () if child.type != "text" or child.content)


@lru_cache(KEPT_TEXTS)
def text_html(text: str) -> str:
    """The text of a block as HTML, wherever it stands."""
    markdown = _reader()
    return str(markdown.renderer.renderInline(taken_apart(text), markdown.options, {}))  # type: ignore[attr-defined]


@cache
def _reader() -> MarkdownIt:
    """CommonMark and tables, without what would load something (pictures, bare addresses, HTML), and our marks."""
    markdown = MarkdownIt("commonmark", {"html": False})
    markdown.disable(["image", "autolink", "html_block", "html_inline"])
    markdown.block.ruler.before("code", "grid", grid_rule, {"alt": ["paragraph", "reference"]})
    markdown.block.ruler.before("grid", "words", _words)
    markdown.inline.ruler.before("link", "box", _box)
    markdown.inline.ruler.before("emphasis", "blank", _blank)
    markdown.add_render_rule("box", lambda *_: '<span class="init"></span>')
    markdown.add_render_rule("blank", _draw_blank)
    markdown.add_render_rule("text", _draw_text)
    return markdown.disable(["inline", "text_join"])  # texts are read where they are asked for


def _words(state: StateBlock, start: int, end: int, silent: bool) -> bool:
    """A line that begins in words: of one line, a paragraph; of more, three kinds of block, and the rules of all others
    need not look at it."""
    begin = state.bMarks[start] + state.tShift[start]
    if not _IN_WORDS.match(state.src, begin) or state.is_code_block(start):
        return False
    if start + 1 < state.lineMax and not state.isEmpty(start + 1):
        return any(rule(state, start, end, silent) for rule in (grid_rule, lheading, paragraph))
    state.push("paragraph", "p", 0).content = state.src[begin : state.eMarks[start]].strip()
    state.line = start + 1
    return True


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


def _draw_blank(renderer: object, tokens: Sequence[Token], index: int, options: object, env: object) -> str:
    return f'<span class="blank" style="width:{len(tokens[index].content) * BLANK_MM:.1f}mm"></span>'


def _draw_text(renderer: object, tokens: Sequence[Token], index: int, options: object, env: object) -> str:
    """The text itself, no line broken between a figure and its unit or in a date, whose every character stays."""
    text = _WITH_UNIT.sub("\u00a0", escapeHtml(tokens[index].content))
    return _A_DATE.sub(r'<span class="date">\g<0></span>', text)
