"""What `check --as json` says of a file, as an editor is to show it: worked out from its JSON and the files alone."""

from __future__ import annotations

import contextlib
import io
import json
import random
from pathlib import Path
from typing import Any

from seatwright.commands.check import How, check
from tests.editor.desk_of import line_of, units

ODD = ("µ", "½", "Ø", "″", "“", "𝛷", "🔧", "\u00a0", "\ufeff", "\t", '"', "#", ",", "-", ".", "0", "9", "x", " ", "\n")
_WORDS = ("mm", "in", "to", "valves", "measured", "insert choose", "41.02", "x-note", "hold E1", "cutter C1", "all")


def as_checked(path: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Every place of every message by the address of its file, sorted. path: in the folder that is worked in."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(io.StringIO()):
        check([path.name], How("json"), at_once=1)
    found: dict[str, list[tuple[Any, ...]]] = {}
    for said in json.loads(out.getvalue())["messages"]:
        kind = (f"seatwright {said['severity']}", said["slug"])
        whose = f"{' '.join(said['valves'])}: " if said["valves"] else ""
        help = f"\n{said['help']}" if said["help"] else ""
        _put(found, path, said, (*kind, f"{whose}{said['text']}{help}"))
        for related in said["related"]:
            if related["same"]:
                _put(found, path, related, (*kind, f"{related['text']}{help}"))
    return {address: sorted(rows) for address, rows in found.items()}


def _put(found: dict[str, list[tuple[Any, ...]]], job: Path, place: dict[str, Any], row: tuple[str, ...]) -> None:
    if place["file"] is None:
        found.setdefault(job.as_uri(), []).append((0, 0, 0, 0, *row))
        return
    file = job.parent / place["file"]
    try:
        text = file.read_bytes().decode("utf-8-sig")
    except (OSError, UnicodeDecodeError):
        text = ""
    where = []
    for line, column in ((place["line"], place["column"]), (place["end_line"], place["end_column"])):
        typed = line_of(text, line - 1) if text else ""
        where += [line - 1, units(typed[: column - 1])]
    found.setdefault(file.as_uri(), []).append((*where, *row))


def mutant(text: str, chance: random.Random) -> str:
    """A text with one to three slips: characters, words or lines lost, doubled, exchanged or put in."""
    for _ in range(chance.randint(1, 3)):
        start, end, put = edit(text, chance)
        text = text[:start] + put + text[end:]
    return text


def edit(text: str, chance: random.Random) -> tuple[int, int, str]:
    """One thing that hands do to a text: from where, up to where, and what is put there."""
    at = chance.randint(0, len(text))
    match chance.randint(0, 7):
        case 0:
            return at, min(at + chance.randint(1, 4), len(text)), ""
        case 1:
            return at, at, chance.choice(ODD)
        case 2:
            return at, at, f" {chance.choice(_WORDS)} "
        case 3:
            return at, at, f"\n{chance.choice(_WORDS)}\n"
        case 4:
            return at, min(at + 1, len(text)), chance.choice(ODD)
        case 5:
            end = text.find("\n", at) + 1 or len(text)
            return at, end, ""
        case 6:
            end = text.find("\n", at) + 1 or len(text)
            return end, end, text[at:end]
        case _:
            return at, min(at + 2, len(text)), text[at : at + 2][::-1]
