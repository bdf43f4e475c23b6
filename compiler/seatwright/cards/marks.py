"""What a card's Markdown means beyond Markdown: boxes with room to initial, blanks, loud figures, tables to fill in.

`1.` lists are boxes, `1)` lists lines to fill in. In a box a paragraph that begins `***` is the figure that is set, one
that begins `**` a figure to check; a bulleted list is what is repeated for each pocket. `[ ]` is room to initial, in a
bulleted list a box to tick. `______` is a blank. A quotation that begins `**HOLD`, `**NOT YET` or `**WAIT` is a hold,
any other a caution. A list each of whose items begins bold is set in two columns, one whose items begin with a blank is
signed. A cell `~~~` is hatched, `*small*` in a cell is a line of its own, and the dashes under the head of a table say
how wide a column is. A paragraph that is one link to `cards.html#drawing-NAME` is that drawing. Text of a job is
escaped, so that none of it comes about by what somebody typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache, lru_cache
from itertools import groupby

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.rules_core import StateCore, inline, text_join
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token

from seatwright.cards.card import HATCHED

DRAWING = ("cards.html#drawing-", "history.html#drawing-")
SHORTEST_BLANK = 3
BLANK_MM = 3.2  # of line for each mark typed
_KEPT = 4096  # texts that are not read again: most of what stands on a card stands there many times
_CARD_NUMBER = re.compile(r"(\d+)\. ")  # in Markdown: a job's `2026.` is escaped there
_WITH_UNIT = re.compile(r"(?<=\d) (?=°|mm\b|in\b|k?N\b|rpm\b|lbf\b)")  # what no line is to be broken in
_A_DATE = re.compile(r"\b\d{4}-\d\d-\d\d\b")
_HOLDS = ("HOLD", "NOT YET", "WAIT")


def as_html(markdown: str, drawings: Mapping[str, str]) -> str:
    """The Markdown of a card as HTML. drawings: SVG by name."""
    return _Page(markdown.split("\n"), drawings).blocks(list(_pieces(_reader().parse(markdown))))


@cache
def _reader() -> MarkdownIt:
    """CommonMark and tables, without what would load something (pictures, bare addresses, HTML), and our marks."""
    markdown = MarkdownIt("commonmark", {"html": False}).enable("table")
    markdown.disable(["image", "autolink", "html_block", "html_inline"])
    markdown.inline.ruler.before("link", "box", _box)
    markdown.inline.ruler.before("emphasis", "blank", _blank)
    markdown.add_render_rule("box", lambda *_: '<span class="init"></span>')
    markdown.add_render_rule("blank", _draw_blank)
    markdown.add_render_rule("text", _draw_text)

    def read_once(state: StateCore) -> None:
        for token in state.tokens:
            if token.type == "inline":
                token.children = list(_read(token.content))

    markdown.core.ruler.at("inline", read_once)
    markdown.disable("text_join")  # texts are joined where they are read
    return markdown


@lru_cache(_KEPT)
def _read(text: str) -> tuple[Token, ...]:
    """The text of a block, taken apart."""
    whole = Token("inline", "", 0, content=text)
    state = StateCore(text, _reader(), {}, [whole])
    inline(state)
    text_join(state)
    return tuple(whole.children or ())


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


def _pieces(tokens: Sequence[Token]) -> Iterator[Sequence[Token]]:
    """The blocks side by side, each with all that is in it."""
    start = depth = 0
    for index, token in enumerate(tokens):
        depth += token.nesting
        if depth <= 0:
            yield tokens[start : index + 1]
            start, depth = index + 1, 0
    if start < len(tokens):
        yield tokens[start:]


def _inside(piece: Sequence[Token]) -> list[Sequence[Token]]:
    return list(_pieces(piece[1:-1]))


class _Page:
    """One sheet as HTML."""

    def __init__(self, source: Sequence[str], drawings: Mapping[str, str]) -> None:
        self.source, self.drawings, self.tables = source, drawings, 0

    def blocks(self, pieces: Sequence[Sequence[Token]], where: str = "") -> str:
        """Blocks below each other; a drawing right after a list in two columns stands beside it."""
        found: list[str] = []
        for piece in pieces:
            made = self.block(piece, where)
            if made.startswith("<figure") and found and found[-1].startswith('<ul class="say'):
                made = f'<div class="beside">{found.pop()}{made}</div>\n'
            found.append(made)
        return "".join(found)

    def block(self, piece: Sequence[Token], where: str) -> str:
        match piece[0].type:
            case "heading_open":
                return self.heading(piece)
            case "paragraph_open":
                return self.paragraph(piece, where)
            case "blockquote_open":
                hold = _bold(piece[2]).startswith(_HOLDS) if len(piece) > 3 else False
                inner = self.blocks(_inside(piece))
                return f'<div class="{"hold" if hold else "care"}" role="note">{inner}</div>\n'
            case "ordered_list_open":
                return self.numbered(piece)
            case "bullet_list_open":
                return self.bulleted(piece)
            case "table_open":
                return self.table(piece, where)
        return "<hr>\n" if piece[0].type == "hr" else ""

    def heading(self, piece: Sequence[Token]) -> str:
        words, tag = _html(piece[1]), piece[0].tag
        if tag == "h1" and (number := _CARD_NUMBER.match(piece[1].content)):
            words = f'<span class="no">{number[1]}</span> {words[number.end() :]}'
        return f"<{tag}>{words}</{tag}>\n"

    def paragraph(self, piece: Sequence[Token], where: str) -> str:
        drawing = _drawing_name(piece[1])
        if drawing in self.drawings:
            name, caption = escapeHtml(f"drawing-{drawing}"), escapeHtml(_text(piece[1]))
            svg = self.drawings[str(drawing)]
            return f'<figure id="{name}">{svg}<figcaption>{caption}</figcaption></figure>\n'
        kind = _kind(piece[1])
        name = (
            {"loud": "shout", "bold": "check"}.get(kind, "small") if where == "box" else {"bold": "lead"}.get(kind, "")
        )
        return f'<p class="{name}">{_html(piece[1])}</p>\n' if name else f"<p>{_html(piece[1])}</p>\n"

    def numbered(self, piece: Sequence[Token]) -> str:
        """Boxes beside each other, one that is as wide as the sheet below them; or lines to fill in."""
        start, items = int(piece[0].attrGet("start") or 1), _inside(piece)
        if piece[0].markup == ")":
            lines = "".join(self.line(item, number) for number, item in enumerate(items, start))
            return f'<ol class="asks" start="{start}">\n{lines}</ol>\n'
        found = []
        boxes = [(number, self.box(item, number)) for number, item in enumerate(items, start)]
        for name, run in groupby(boxes, key=lambda box: "boxes" if box[1].startswith('<li class="box') else "wides"):
            some = list(run)
            inner = "".join(box for _, box in some)
            found.append(f'<ol class="{name}" start="{some[0][0]}">\n{inner}</ol>\n')
        return "".join(found)

    def line(self, item: Sequence[Token], number: int) -> str:
        words = " ".join(_html(piece[1]) for piece in _inside(item) if piece[0].type == "paragraph_open")
        return f'<li><b class="n">{number}</b> {words}</li>\n'

    def box(self, item: Sequence[Token], number: int) -> str:
        pieces = _inside(item)
        step = _html(pieces[0][1]) if pieces else ""
        kinds = {_kind(piece[1]) for piece in pieces[1:] if piece[0].type == "paragraph_open"}
        held = {piece[0].type for piece in pieces[1:]}
        inner = self.blocks(pieces[1:], "box")
        name = "box"
        if "loud" in kinds:
            name += " set"
        blanks = any(token.type == "blank" for token in (pieces[0][1].children or []) if pieces) if pieces else False
        if "bullet_list_open" in held:
            name = "wide"
        elif "table_open" in held or blanks:
            name = "wide box"
        elif "<figure" in inner:
            name, at = "drawn", inner.index("<figure")
            return (
                f'<li class="{name}"><div class="box"><p class="step"><b class="n">{number}</b> {step}</p>'
                f"{inner[:at]}</div>{inner[at:]}</li>\n"
            )
        return f'<li class="{name}"><p class="step"><b class="n">{number}</b> {step}</p>\n{inner}</li>\n'

    def bulleted(self, piece: Sequence[Token]) -> str:
        items = _inside(piece)
        firsts = [_first(item) for item in items]
        if all(first is not None and first.type == "box" for first in firsts):
            name = "ticks"
        elif all(first is not None and first.type == "blank" for first in firsts):
            name = "sign"
        elif all(first is not None and first.type == "strong_open" for first in firsts):
            name = "say"
        else:
            name = "list" if piece[0].level == 0 else "loop"
        inner = "".join(f"<li>{self.item(item)}</li>\n" for item in items)
        return f'<ul class="{name}">\n{inner}</ul>\n'

    def item(self, item: Sequence[Token]) -> str:
        return " ".join(
            _html(piece[1]) if piece[0].type == "paragraph_open" else self.block(piece, "") for piece in _inside(item)
        )

    def table(self, piece: Sequence[Token], where: str) -> str:
        """A table whose columns are as wide as it says; rows that go on with the one above stay with it."""
        self.tables += 1
        line = self.source[piece[0].map[0] + 1] if piece[0].map else ""
        dashes = [len(part) for part in re.findall(r"-+", line)]
        columns = "".join(f'<col style="width:{100 * part / sum(dashes):.2f}%">' for part in dashes)
        head, *bodies = _inside(piece)
        kind = (
            "sum"
            if where == "box"
            else "fill"
            if any("___" in row for row in self.source[slice(*(piece[0].map or (0, 0)))])
            else "read"
        )
        label = f"Table {self.tables}: {', '.join(_text(cell[1]) for cell in _inside(head[1:-1])) or 'to fill in'}"
        rows = [_inside(row) for body in bodies for row in _inside(body)]
        groups: list[list[list[Sequence[Token]]]] = []
        for row in rows:
            if groups and not row[0][1].content:
                groups[-1].append(row)
            else:
                groups.append([row])
        titles = "".join(f'<th scope="col">{_html(cell[1])}</th>' for cell in _inside(head[1:-1]))
        return (
            f'<div class="roll" role="group" aria-label="{escapeHtml(label)}" tabindex="0">'
            f'<table class="{kind}"><colgroup>{columns}</colgroup>\n'
            f"<thead><tr>{titles}</tr></thead>\n{''.join(_rows(group) for group in groups)}</table></div>\n"
        )


def _rows(group: Sequence[Sequence[Sequence[Token]]]) -> str:
    """The rows of one valve, which no page breaks."""
    drawn = []
    for place, row in enumerate(group):
        span = f' rowspan="{len(group)}"' if not place and len(group) > 1 else ""
        first = "" if place else f'<th scope="row"{span}>{_html(row[0][1])}</th>'
        drawn.append(f"<tr>{first}{''.join(_cell(cell[1]) for cell in row[1:])}</tr>\n")
    return f"<tbody>{''.join(drawn)}</tbody>\n"


def _cell(text: Token) -> str:
    if text.content == HATCHED:
        return '<td class="hatch"></td>'
    children = text.children or []
    if len(children) == 1 and children[0].type == "blank":
        return '<td class="w"></td>'
    klass = ' class="w"' if any(child.type == "blank" for child in children) else ""
    return f"<td{klass}>{_html(text)}</td>"


def _html(text: Token) -> str:
    return _written(text.content)


@lru_cache(_KEPT)
def _written(text: str) -> str:
    """The text of a block as HTML, wherever it stands."""
    markdown = _reader()
    return str(markdown.renderer.renderInline(_read(text), markdown.options, {}))  # type: ignore[attr-defined]


def _text(text: Token) -> str:
    return "".join(child.content for child in text.children or []).replace("  ", " ").strip()


def _seen(text: Token) -> list[Token]:
    return [child for child in text.children or [] if child.type != "text" or child.content]


def _kind(text: Token) -> str:
    """loud, bold or "": how a paragraph begins."""
    seen = _seen(text)
    types = {child.type for child in seen[:2]}
    if types >= {"strong_open", "em_open"}:
        return "loud"
    return "bold" if seen and seen[0].type == "strong_open" else ""


def _bold(text: Token) -> str:
    return _text(text) if _kind(text) == "bold" else ""


def _first(item: Sequence[Token]) -> Token | None:
    text = next((token for token in item if token.type == "inline"), None)
    return next(iter(_seen(text)), None) if text is not None else None


def _drawing_name(text: Token) -> str | None:
    seen = _seen(text)
    if len(seen) < 3 or seen[0].type != "link_open" or seen[-1].type != "link_close":
        return None
    address = str(seen[0].attrGet("href") or "")
    return next((address.removeprefix(each) for each in DRAWING if address.startswith(each)), None)
