"""White space as people type and paste it, outside texts and comments."""

from __future__ import annotations

import re

from seatwright.text.folding import DROPPED, fold
from seatwright.text.quoting import marks

BLANKS = " \t\u00a0\u1680\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B)))
"""Every character that is read as a blank."""

NOTHING = "".join(sorted(DROPPED))
"""Characters of no width, read as nothing; beside a blank they are white space too."""

WHITE = BLANKS + NOTHING
"""Every character that is white space at the end of a line, or beside a blank."""

_RUN = f"[{WHITE}]*[{BLANKS}][{WHITE}]*"


def trimmed(typed: str) -> str:
    """Without white space at either end."""
    return typed.strip(WHITE)


def single_spaced(typed: str) -> str:
    """With one blank for each run of white space. A character of no width inside a word stays."""
    if typed.isascii() and "  " not in typed and "\t" not in typed:
        return typed
    return re.sub(_RUN, " ", typed)


def bare(typed: str) -> str:
    """A line without the white space that means nothing, to compare two lines by.

    Texts and the comment stand in it as they do in the file; everywhere else a run of white space is one blank.
    """
    read, columns = fold(typed)
    found = marks(read)
    places = range(len(typed) + 1) if columns is None else [column - 1 for column in columns]
    parts: list[str] = []
    at = 0
    for start, end in found.texts:
        parts.append(single_spaced(typed[at : places[start]]))
        # The mark that closes a text may be followed by characters that are read as nothing.
        parts.append(typed[places[start] : places[end - 1] + 1])
        at = places[end - 1] + 1
    comment = places[found.comment]
    parts.append(single_spaced(typed[at:comment]))
    body, remark = trimmed("".join(parts)), typed[comment:].rstrip(BLANKS)
    return f"{body} {remark}" if body and remark else body + remark
