"""What our own rules read, markdown-it reads by its own: tables as texts, lines that begin in words, plain words."""

from __future__ import annotations

import re

from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from seatwright.cards.marks.reader import Block, blocks_of, taken_apart
from seatwright.cards.marks.tables import GridText

BY_ITSELF = MarkdownIt("commonmark").enable("table").disable(["image", "autolink", "html_block", "html_inline"])

starts = st.sampled_from(
    ["", "", "", "> ", ">", "- ", "* ", "+ ", "1. ", "2) ", "12. ", "  ", "    ", "\t", "# ", "- [ ] "]
)
cells = st.sampled_from(
    ["a", "b c", "", " ", "\\|", "\\\\|", "`x|y`", "**b**", "______", "~~~", "*s*", "é", "7", "\\", "-"]
)
rows = st.builds(
    lambda cells, first, last: first + " | ".join(cells) + last,
    st.lists(cells, max_size=4),
    st.sampled_from(["|", "| ", ""]),
    st.sampled_from(["|", " |", "", "  "]),
)
ruled = st.builds(
    lambda dashes, first, last: first + "|".join(dashes) + last,
    st.lists(st.sampled_from(["---", "-", ":--", ":-:", "--:", " -- ", "", ":"]), max_size=4),
    st.sampled_from(["|", "", " |", "||"]),
    st.sampled_from(["|", "", "| "]),
)
others = st.sampled_from(
    [
        "",
        "",
        "words",
        "Words | more",
        "***",
        "---",
        "===",
        "**bold** 3",
        "***loud***",
        "~~~",
        "```",
        "[a]: b",
        "<b>",
        "4. x",
        "a\\",
    ]
)
lines = st.builds(lambda start, again, line: start + again + line, starts, starts, rows | ruled | others)
tables = st.builds(
    lambda start, head, ruled, rows: [start + line for line in (head, ruled, *rows)],
    st.sampled_from(["", "> ", "    ", "  ", "> > "]),
    rows,
    ruled,
    st.lists(rows, max_size=3),
)
texts = st.lists(tables | st.lists(lines, max_size=3), max_size=4).map(lambda runs: "\n".join(map("\n".join, runs)))


@given(texts)
@example("| a | b |\n|---|--|\n| 1 |\n\n    | 2 \\| 3 | 4 | 5 |\nwords\n> after")
@example("- step\n\n    | a |\n    |-|\n    | b |\n2. | a |\n   |---|\n")
def test_the_blocks_are_those_that_markdown_it_reads(text: str) -> None:
    assert [read_off(block) for block in blocks_of(text)] == expected(text)


def unmarked(text: str) -> bool:
    return not any(mark in text for mark in ("___", "[ ]"))  # which are ours alone


@given(
    st.text(st.sampled_from("ab 1.,:;!<>()[]{}&\\`*_~#|\"'$%@/=+-^\n") | st.characters(), max_size=20).filter(unmarked)
)
@example("44.016 mm to http://a.b <x@y.z> a~~b~~ ![c](d) :e: (c) ... 'f'")
def test_the_text_of_a_block_is_taken_apart_as_markdown_it_does(text: str) -> None:
    (read,) = BY_ITSELF.parseInline(text.strip())
    theirs = [each for each in read.children or () if each.type != "text" or each.content]
    assert [(each.type, each.content) for each in taken_apart(read.content)] == [
        (each.type, each.content) for each in theirs
    ]


Read = tuple[object, ...]


def read_off(block: Block) -> Read:
    token = block.token
    if block.kind == "grid":
        return ("table", token.meta["grid"])
    return (block.kind, token.tag, token.markup, token.level, block.text, [read_off(each) for each in block.inside])


def expected(text: str) -> list[Read]:
    """The blocks as markdown-it gives them, each table put together from its tokens."""
    source, begun = text.split("\n"), [Block("", BY_ITSELF.parse("-")[0])]
    for token in BY_ITSELF.parse(text):
        if token.type == "inline":
            begun[-1].text = token.content
        elif token.nesting < 0:
            begun.pop()
        else:
            made = Block(token.type.removesuffix("_open"), token)
            begun[-1].inside.append(made)
            begun += [made] if token.nesting > 0 else []
    return [_expected(block, source) for block in begun[0].inside]


def _expected(block: Block, source: list[str]) -> Read:
    token = block.token
    if block.kind != "table":
        inside = [_expected(each, source) for each in block.inside]
        return (block.kind, token.tag, token.markup, token.level, block.text, inside)
    first, after = token.map or [0, 0]
    head, *bodies = block.inside
    return (
        "table",
        GridText(
            tuple(cell.text for cell in head.inside[0].inside),
            tuple(map(len, re.findall("-+", source[first + 1]))),
            tuple(tuple(cell.text for cell in row.inside) for body in bodies for row in body.inside),
            any("___" in line for line in source[first:after]),
        ),
    )
