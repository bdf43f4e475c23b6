"""Tokens of Markdown in pieces: a block with all that is in it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markdown_it.token import Token


def pieces(tokens: Sequence[Token]) -> Iterator[Sequence[Token]]:
    """The blocks side by side, each with all that is in it."""
    start = 0
    while start < len(tokens):
        end = end_of(tokens, start)
        yield tokens[start:end]
        start = end


def end_of(tokens: Sequence[Token], start: int) -> int:
    """Where the block that begins at a token is over; what is never closed goes to the end."""
    depth = 0
    for index in range(start, len(tokens)):
        depth += tokens[index].nesting
        if depth <= 0:
            return index + 1
    return len(tokens)
