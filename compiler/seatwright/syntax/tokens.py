"""What the characters of a line are read as: tokens, and trees of those that belong together."""

from __future__ import annotations

from msgspec import Struct


class Token(Struct, frozen=True):
    """A terminal of the grammar and where it stands: from start_pos up to end_pos."""

    type: str
    value: str
    start_pos: int
    end_pos: int


class Tree(Struct, frozen=True):
    """What a rule of the grammar found; data: the rule's name."""

    data: str
    children: tuple[Token | Tree, ...]
