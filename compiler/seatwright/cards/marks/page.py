"""The blocks of a card as HTML."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import groupby

from markdown_it.common.utils import escapeHtml
from markdown_it.token import Token

from seatwright.cards.card import HATCHED
from seatwright.cards.marks.reader import KEPT_TEXTS, Block, blocks_of, taken_apart, text_html
from seatwright.cards.marks.tables import GridText

DRAWING = ("cards.html#drawing-", "history.html#drawing-")
_CARD_NUMBER = re.compile(r"(\d+)\. ")  # in Markdown: a job's `2026.` is escaped there
_HOLDS = ("HOLD", "NOT YET", "WAIT")


def as_html(markdown: str, drawings: Mapping[str, str]) -> str:
    """The Markdown of a card as HTML. drawings: SVG by name."""
    return _Page(drawings).blocks(blocks_of(markdown))


class _Page:
    """One sheet as HTML."""

    def __init__(self, drawings: Mapping[str, str]) -> None:
        self.drawings, self.tables = drawings, 0

    def blocks(self, blocks: Sequence[Block], where: str = "") -> str:
        """Blocks below each other; a drawing right after a list in two columns stands beside it."""
        found: list[str] = []
        for block in blocks:
            made = self.block(block, where)
            if made.startswith("<figure") and found and found[-1].startswith('<ul class="say'):
                made = f'<div class="beside">{found.pop()}{made}</div>\n'
            found.append(made)
        return "".join(found)

    def block(self, block: Block, where: str) -> str:
        match block.kind:
            case "paragraph":
                return self.paragraph(block.text, where)
            case "heading":
                return self.heading(block)
            case "blockquote":
                hold = bool(block.inside) and _bold(block.inside[0].text).startswith(_HOLDS)
                return f'<div class="{"hold" if hold else "care"}" role="note">{self.blocks(block.inside)}</div>\n'
            case "ordered_list":
                return self.numbered(block)
            case "bullet_list":
                return self.bulleted(block)
            case "grid":
                return self.table(block.token.meta["grid"], where)
        return "<hr>\n" if block.kind == "hr" else ""

    def heading(self, block: Block) -> str:
        words, tag = text_html(block.text), block.token.tag
        if tag == "h1" and (number := _CARD_NUMBER.match(block.text)):
            words = f'<span class="no">{number[1]}</span> {words[number.end() :]}'
        return f"<{tag}>{words}</{tag}>\n"

    def paragraph(self, text: str, where: str) -> str:
        drawing = _drawing_name(text)
        if drawing in self.drawings:
            name, caption = escapeHtml(f"drawing-{drawing}"), escapeHtml(_plain(text))
            svg = self.drawings[str(drawing)]
            return f'<figure id="{name}">{svg}<figcaption>{caption}</figcaption></figure>\n'
        kind = _kind(text)
        name = (
            {"loud": "shout", "bold": "check"}.get(kind, "small") if where == "box" else {"bold": "lead"}.get(kind, "")
        )
        return f'<p class="{name}">{text_html(text)}</p>\n' if name else f"<p>{text_html(text)}</p>\n"

    def numbered(self, block: Block) -> str:
        """Boxes beside each other, one that is as wide as the sheet below them; or lines to fill in."""
        start, items = int(block.token.attrGet("start") or 1), block.inside
        if block.token.markup == ")":
            lines = "".join(self.line(item, number) for number, item in enumerate(items, start))
            return f'<ol class="asks" start="{start}">\n{lines}</ol>\n'
        found = []
        boxes = [(number, self.box(item.inside, number)) for number, item in enumerate(items, start)]
        for name, run in groupby(boxes, key=lambda box: "boxes" if box[1].startswith('<li class="box') else "wides"):
            some = list(run)
            inner = "".join(box for _, box in some)
            found.append(f'<ol class="{name}" start="{some[0][0]}">\n{inner}</ol>\n')
        return "".join(found)

    def line(self, item: Block, number: int) -> str:
        words = " ".join(text_html(block.text) for block in item.inside if block.kind == "paragraph")
        return f'<li><b class="n">{number}</b> {words}</li>\n'

    def box(self, blocks: Sequence[Block], number: int) -> str:
        text, below = (blocks[0].text if blocks else ""), blocks[1:]
        step = f'<p class="step"><b class="n">{number}</b> {text_html(text)}</p>'
        held = {block.kind for block in below}
        inner = self.blocks(below, "box")
        if "bullet_list" in held:
            name = "wide"
        elif "grid" in held or _blanks(text):
            name = "wide box"
        elif "<figure" in inner:
            at = inner.index("<figure")
            return f'<li class="drawn"><div class="box">{step}{inner[:at]}</div>{inner[at:]}</li>\n'
        else:
            loud = any(_kind(block.text) == "loud" for block in below if block.kind == "paragraph")
            name = "box set" if loud else "box"
        return f'<li class="{name}">{step}\n{inner}</li>\n'

    def bulleted(self, block: Block) -> str:
        firsts = {first.type if (first := _first(item)) is not None else "" for item in block.inside}
        usual = "list" if block.token.level == 0 else "loop"
        kinds = {"box": "ticks", "blank": "sign", "strong_open": "say"}
        name = kinds.get(firsts.pop(), usual) if len(firsts) == 1 else usual
        inner = "".join(f"<li>{self.item(item)}</li>\n" for item in block.inside)
        return f'<ul class="{name}">\n{inner}</ul>\n'

    def item(self, item: Block) -> str:
        return " ".join(
            text_html(block.text) if block.kind == "paragraph" else self.block(block, "") for block in item.inside
        )

    def table(self, grid: GridText, where: str) -> str:
        """A table whose columns are as wide as it says; rows that go on with the one above stay with it."""
        self.tables += 1
        whole = sum(grid.dashes)
        columns = "".join(f'<col style="width:{100 * part / whole:.2f}%">' for part in grid.dashes)
        kind = "sum" if where == "box" else "fill" if grid.to_fill_in else "read"
        label = f"Table {self.tables}: {', '.join(map(_plain, grid.titles)) or 'to fill in'}"
        groups: list[list[tuple[str, ...]]] = []
        for row in grid.rows:
            if groups and not row[0]:
                groups[-1].append(row)
            else:
                groups.append([row])
        titles = "".join(f'<th scope="col">{text_html(title)}</th>' for title in grid.titles)
        return (
            f'<div class="roll" role="group" aria-label="{escapeHtml(label)}" tabindex="0">'
            f'<table class="{kind}"><colgroup>{columns}</colgroup>\n'
            f"<thead><tr>{titles}</tr></thead>\n{''.join(map(_rows, groups))}</table></div>\n"
        )


def _rows(group: Sequence[tuple[str, ...]]) -> str:
    """The rows of one valve, which no page breaks."""
    span = f' rowspan="{len(group)}"' if len(group) > 1 else ""
    first = f'<th scope="row"{span}>{text_html(group[0][0])}</th>'
    drawn = (f"<tr>{'' if place else first}{''.join(map(_cell, row[1:]))}</tr>\n" for place, row in enumerate(group))
    return f"<tbody>{''.join(drawn)}</tbody>\n"


@lru_cache(KEPT_TEXTS)
def _cell(text: str) -> str:
    if text == HATCHED:
        return '<td class="hatch"></td>'
    if not _blanks(text):
        return f"<td>{text_html(text)}</td>"
    return f'<td class="w">{text_html(text) if len(taken_apart(text)) > 1 else ""}</td>'


def _blanks(text: str) -> bool:
    return any(part.type == "blank" for part in taken_apart(text))


def _plain(text: str) -> str:
    return "".join(part.content for part in taken_apart(text)).replace("  ", " ").strip()


def _kind(text: str) -> str:
    """loud, bold or "": how a paragraph begins."""
    types = [part.type for part in taken_apart(text)[:2]]
    if set(types) >= {"strong_open", "em_open"}:
        return "loud"
    return "bold" if types[:1] == ["strong_open"] else ""


def _bold(text: str) -> str:
    return _plain(text) if _kind(text) == "bold" else ""


def _first(block: Block) -> Token | None:
    """What the first text in a block begins with."""
    if block.kind in ("paragraph", "heading"):
        return next(iter(taken_apart(block.text)), None)
    return next((first for inner in block.inside if (first := _first(inner)) is not None), None)


def _drawing_name(text: str) -> str | None:
    parts = taken_apart(text)
    if len(parts) < 3 or parts[0].type != "link_open" or parts[-1].type != "link_close":
        return None
    address = str(parts[0].attrGet("href") or "")
    return next((address.removeprefix(each) for each in DRAWING if address.startswith(each)), None)
