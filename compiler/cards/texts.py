"""The text of a paragraph, heading or cell as tokens.

A card is mostly short texts, many of them plain and many of them alike: `E1`, `______`, `**44.016 mm**`. A plain one is
a token as it stands, any other is read by Markdown's own rules, once for all cards on which it stands.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from markdown_it import MarkdownIt
from markdown_it.rules_core import StateCore, inline, text_join
from markdown_it.token import Token

# A text without any of these is plain: no rule that the reader of cards has switched on begins with another letter.
_MARK = re.compile(r"[\n\\`*_\[&]")
_KEPT = 4096  # texts, a few times what stands on the cards of a large job


def read_texts(state: StateCore) -> None:
    """The rule of Markdown that reads the texts of all blocks. Tokens of a text are shared: nothing may change them."""
    for token in state.tokens:
        if token.type != "inline":
            continue
        if _MARK.search(token.content) is None:
            token.children = [Token("text", "", 0, content=token.content)] if token.content else []
        elif "references" in state.env:
            token.children = _read(state.md, token.content, state.env["references"])
        else:
            token.children = list(_kept(state.md, token.content))


@lru_cache(_KEPT)
def _kept(markdown: MarkdownIt, text: str) -> Sequence[Token]:
    return tuple(_read(markdown, text, {}))


def _read(markdown: MarkdownIt, text: str, references: object) -> list[Token]:
    whole = Token("inline", "", 0, content=text)
    state = StateCore(text, markdown, {"references": references}, [whole])
    inline(state)
    text_join(state)
    return whole.children or []
