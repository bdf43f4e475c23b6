"""`seatwright explain SLUG`: the entry of a message in the catalogue, grammar/messages.md."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from functools import cache

from seatwright.commands.jobs.outcome import Exit
from seatwright.commands.terminal.saying import complain
from seatwright.syntax.suggest import near
from seatwright.text.shipped import shipped


def explain_message(slug: str) -> Exit:
    """Print what a message looks like, what it means and what to do about it."""
    typed = slug.strip().lower()
    entry = entries().get(typed)
    if entry is not None:
        sys.stdout.write(entry)
        return Exit.DONE
    if os.path.lexists(slug) or "." in slug or "/" in slug:
        said = f"name a valve of {slug} as well, such as I1; or a message alone, such as bridge-thin"
    else:
        likely = near(typed, entries())[:4] or tuple(each for each in entries() if typed and typed in each)[:4]
        said = f"there is no message {slug}" + (f"; did you mean {' or '.join(likely)}?" if likely else "")
    complain("explain", said)
    return Exit.WRONG_USE


@cache
def entries() -> Mapping[str, str]:
    """Every entry of the catalogue by its slug, as plain text."""
    page = shipped("seatwright.grammar", "messages.md").decode("utf-8")
    found: dict[str, str] = {}
    for kind in page.split("\n## ")[1:]:
        heading, *of_kind = kind.split("\n### ")
        meaning = heading.partition("\n")[2].strip()
        for entry in of_kind:
            slug, _, body = entry.partition("\n")
            lines = [line for line in body.strip().split("\n") if not line.startswith("```")]
            found[slug] = "\n".join([slug, meaning, "", *lines]).rstrip() + "\n"
    return found
