"""The text of a paragraph, heading or cell as tokens.

A card is mostly short texts, many of them plain and many of them alike: `E1`, `______`, `**44.016 mm**`. A plain one is
a token as it stands, any other is read by Markdown's own rules, once for all cards on which it stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cached_property, lru_cache

from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.rules_core import StateCore, inline, text_join
from markdown_it.token import Token
from msgspec import Struct

ROW = "row"
"""The type of a token that is a row of a table; `cells` in its meta: first as typed, then each a Text."""
KEPT = 4096  # texts that are not read again, a few times what stands on the cards of a large job

# A text without any of these is plain: no rule that the reader of cards has switched on begins with another letter.
_MARK = re.compile(r"[\n\\`*_\[&]")


class Text(Struct, frozen=True, eq=False, dict=True):
    """A text as it was read. Its tokens are shared by all places where it stands: nothing may change them."""

    tokens: tuple[Token, ...]
    reader: MarkdownIt

    @cached_property
    def html(self) -> str:
        """It as HTML, inside an element."""
        renderer: RendererHTML = self.reader.renderer  # type: ignore[assignment]
        return renderer.renderInline(self.tokens, self.reader.options, {})

    @cached_property
    def written(self) -> bool:
        """Whether there is something to write or to tick."""
        return to_fill_in(self.tokens)

    @property
    def plain(self) -> str:
        """Its letters, without the marks."""
        return "".join([token.content for token in self.tokens])


def to_fill_in(text: Iterable[Token]) -> bool:
    """Whether there is something to write or to tick in a text."""
    return any(token.type in ("blank", "box") for token in text)


def read_texts(state: StateCore) -> None:
    """The rule of Markdown that reads the texts of all blocks."""
    # An address that is named elsewhere on the card gives a text a meaning that it has nowhere else.
    read = _read if "references" in state.env else _kept
    references = state.env.get("references")
    for token in state.tokens:
        if token.type == "inline":
            token.children = list(read(state.md, token.content, references).tokens)
        elif token.type == ROW:
            token.meta["cells"] = [read(state.md, cell, references) for cell in token.meta["cells"]]


def _read(markdown: MarkdownIt, text: str, references: object) -> Text:
    if not _MARK.search(text):
        return Text((Token("text", "", 0, content=text),) if text else (), markdown)
    whole = Token("inline", "", 0, content=text)
    state = StateCore(text, markdown, {"references": references} if references else {}, [whole])
    inline(state)
    text_join(state)
    return Text(tuple(whole.children or ()), markdown)


_kept = lru_cache(KEPT)(_read)
