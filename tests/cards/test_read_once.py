"""What is read our own way, for speed, is read as markdown-it reads it; a part of a card is printed as if alone.

The reference of the first is markdown-it with its own rules for texts and tables; of the second, the reader itself,
given the part's own Markdown.
"""

from __future__ import annotations

import re

from hypothesis import example, given, settings
from hypothesis import strategies as st
from seatwright.cards.blocks import blocks_of, put_together

from seatwright.cards.marks import marks_in_a_text, plain_reader, read_once, reader
from seatwright.cards.paper import PAPERS

BY_MARKDOWN_IT = plain_reader().use(marks_in_a_text)
OUR_WAY = plain_reader().use(marks_in_a_text).use(read_once)
_FRAME = re.compile(r'<div class="table"[^>]*><table>\n<colgroup></colgroup>\n')

# What begins or ends something in a text or a table, more often than chance would give it.
_LETTERS = st.one_of(st.sampled_from("\\`*_[]()<>&;!|:-~^#+=. \n\t1ab"), st.characters(exclude_categories=["C", "Z"]))
_PIECES = st.one_of(
    st.text(_LETTERS, max_size=8),
    st.sampled_from(
        ["**", "______", "[ ]", "\\|", "&amp;", "[a](b)", "[a]: b\n", "\n\n", "\n|---|:-:|\n", "| a |", "  \n"]
    ),
)
anything = st.lists(_PIECES, max_size=24).map("".join)
row = st.lists(st.text(_LETTERS.filter(lambda letter: letter != "\n"), max_size=12), max_size=4).map("|".join)
tables = st.tuples(st.sampled_from(["", "> ", "- "]), st.lists(row, max_size=4)).map(
    lambda given: f"{given[0]}| a | b |\n{' ' * len(given[0])}|:--|--:|\n" + "\n".join(given[1])
)


@settings(max_examples=400)
@given(markdown=st.one_of(anything, tables))
@example(markdown="a\\\nb  \nc")
@example(markdown="| &amp; | *a* | _a_ | `a` | \\* | [a](b) | [ ] | ______ |\n|--|--|--|--|--|--|--|--|\n")
@example(markdown="| a \\| b | `c\\|d` |\n|---|---|\n| \\\\| x |\n|\n||\n| 1 | 2 | 3 |\n> no row")
@example(markdown="[a]: b\n\n[a] and [a][a]\n\n| [a] |\n|---|\n")
def test_texts_and_tables_are_read_as_markdown_it_reads_them(markdown: str) -> None:
    ours = _FRAME.sub("<table>\n", OUR_WAY.render(markdown)).replace("</table></div>", "</table>")
    assert ours.replace(' scope="col">', ">") == BY_MARKDOWN_IT.render(markdown)


word = st.sampled_from(["C2", "**44.016 mm**", "not given", "[ ] C2", "______", "a - b", "**HOLD E1** why"])
paragraph = word.map(lambda text: ([text], ""))
bullets = st.lists(word, min_size=1, max_size=4).map(lambda texts: ([f"- {text}" for text in texts], "list"))
steps = st.lists(st.tuples(word, word), min_size=1, max_size=4).map(
    lambda texts: ([f"1. {one} [ ]\n\n    {two}" for one, two in texts], "steps")
)
table = st.lists(word, min_size=1, max_size=4).map(lambda texts: ([f"| {text} | 1 |" for text in texts], "table"))
HEADER = "| a | b |\n|---|---|"


def written(parts: list[tuple[list[str], str]], first: int = 1, apart: str = "\n") -> str:
    """A card. first: the number of its first step. apart: what stands between the items of a list."""
    found: list[str] = []
    for blocks, kind in parts:
        if kind == "steps":
            blocks = [block.replace("1.", f"{number}.", 1) for number, block in enumerate(blocks, first)]
            first += len(blocks)
        between = {"table": "\n", "list": apart, "steps": "\n\n"}.get(kind, "\n\n")
        found.append((f"{HEADER}\n" if kind == "table" else "") + between.join(blocks))
    return "\n\n".join(found) + "\n"


def cut(parts: list[tuple[list[str], str]], at: int) -> tuple[list[tuple[list[str], str]], int]:
    """The card without its first blocks, and the number that its next step has."""
    left, steps_before = list(parts), 0
    while left and at:
        blocks, kind = left[0]
        taken = min(at, len(blocks))
        steps_before += taken if kind == "steps" else 0
        at -= taken
        left[0:1] = [(blocks[taken:], kind)] if taken < len(blocks) else []
    return left, steps_before + 1


@given(
    parts=st.lists(st.one_of(paragraph, bullets, steps, table), min_size=1, max_size=5),
    at=st.integers(0, 6),
)
def test_the_rest_of_a_card_is_printed_as_if_it_stood_alone(parts: list[tuple[list[str], str]], at: int) -> None:
    paper = PAPERS["a5"]  # boxes to tick below each other: each item is a block
    # Two lists beside each other are one.
    parts = [part for index, part in enumerate(parts) if not index or not part[1] or part[1] != parts[index - 1][1]]
    whole = written(parts)
    blocks = blocks_of(reader().parse(whole), whole.split("\n"), paper, {})
    page = put_together(blocks[at:])
    rest, number = cut(parts, at)
    # On a page, the items of a list stand apart.
    alone = reader().render(written(rest, number, apart="\n\n")) if rest else ""
    assert reader().renderer.render(page, reader().options, {}) == alone
