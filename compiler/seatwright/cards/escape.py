"""Text of a job on its way into a card: it stays text, in Markdown and in HTML alike."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from markupsafe import Markup

# Read as structure wherever they stand. CommonMark lets every one of them be kept by a backslash.
_ANYWHERE = re.compile(r"[\\`*_\[\]<>&|~#$]")
# Read as structure only where a line begins: bullets, underlines of headings, the dashes and colons of a table.
_AT_THE_START = re.compile(r"[-+=:.)]")
# `2026.` and `4)` open a numbered list.
_NUMBERED = re.compile(r"(\d+)([.)])(?=\s|$)")
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff\ud800-\udfff]")
_KEPT = 4096  # texts: `not given`, `46.506` and their like stand on a card many times


class Markdown(Markup):
    """Markdown that we wrote. Whatever is put into it (`format`, `%`, `+`, `join`) is escaped, unless it is Markdown.

    >>> str(Markdown("**{}** to 5").format("3*4"))
    '**3\\\\*4** to 5'
    """

    __slots__ = ()

    @classmethod
    def escape(cls, s: Any, /) -> Markdown:
        """Text as Markdown that shows exactly that text; Markdown stays as it is."""
        if isinstance(s, Markup):
            return s if isinstance(s, cls) else cls(s)
        return _escaped(str(s))

    def format(self, *texts: Any) -> Markdown:  # type: ignore[override]
        """Each `{}` filled in; a text has no form of its own (`{:>3}`), as numbers of another Markup may have."""
        return str.__new__(Markdown, str.format(self, *map(Markdown.escape, texts)))


@lru_cache(_KEPT)
def _escaped(text: str) -> Markdown:
    return Markdown(for_markdown(text))


@lru_cache(_KEPT)
def for_markdown(text: str) -> str:
    """Markdown that shows the text as it is, wherever in a line it is put; white space counts as one space.

    >>> for_markdown("+ 0.001"), for_markdown("> 5"), for_markdown("2026."), for_markdown("44.02")
    ('\\\\+ 0.001', '\\\\> 5', '2026\\\\.', '44.02')
    """
    escaped = _ANYWHERE.sub(r"\\\g<0>", in_one_line(text))
    if _AT_THE_START.match(escaped):
        escaped = "\\" + escaped
    return _NUMBERED.sub(r"\1\\\2", escaped, count=1) if escaped[:1].isdigit() else escaped


def for_html(text: str) -> str:
    """HTML that shows the text as it is, in an element or in an attribute's quotes."""
    from html import escape  # with its table of entities: words of a card that stay on the screen need none

    return escape(in_one_line(text), quote=True)


def in_one_line(text: str) -> str:
    """What of a text can be seen: white space as one space, none at the ends, a mark for what cannot be printed.

    >>> visible("  a \\t b\\x1b ")
    'a b\\ufffd'
    """
    return _CONTROL.sub("\ufffd", " ".join(text.split()))
