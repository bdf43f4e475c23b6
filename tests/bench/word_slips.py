"""Every word of the demo jobs deleted, doubled, or swapped with its neighbour: what comes of each.

No slip may end in a traceback, and none may change a figure of the plan without a message at its line, except where
what is left is itself valid and says something else. `python tests/bench/word_slips.py` runs all of them and prints
the counts and every silent change; `--every N` takes every N-th. A sample is in tests/whole/test_word_slips.py.
"""

from __future__ import annotations

import argparse
import re
import sys
import traceback
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from seatwright.job import read
from seatwright.planning.planner import plan
from seatwright.text import Message
from seatwright.told.derivation import named_figures

JOBS = Path(__file__).resolve().parents[2] / "jobs"
_WORD = re.compile(r'"(?:[^"]|"")*"|[^ \t#"]+|#.*')


@dataclass(frozen=True, slots=True)
class Slip:
    """One edit of a demo job: the line (from 1), how it read, how it reads."""

    job: str
    line: int
    kind: str
    before: str
    after: str
    text: str


@dataclass(slots=True)
class Counts:
    """What came of all slips. silent: figures changed and no message at the line, with what the edit was."""

    outcomes: Counter[str] = field(default_factory=Counter)
    crashes: list[str] = field(default_factory=list)
    silent: list[Slip] = field(default_factory=list)

    def __str__(self) -> str:
        total = sum(self.outcomes.values())
        lines = [f"{total:,} slips"] + [f"{count:7,} {what}" for what, count in self.outcomes.most_common()]
        return "\n".join(lines + self.crashes)


def slips(name: str) -> Iterator[Slip]:
    """Every word of a job deleted, doubled, swapped with the next on its line."""
    lines = (JOBS / name).read_text("utf-8").split("\n")
    for number, line in enumerate(lines):
        words = [match for match in _WORD.finditer(line) if not match.group().startswith("#")]
        for place, word in enumerate(words):
            edits = [("deleted", line[: word.start()] + line[word.end() :])]
            edits.append(("doubled", line[: word.end()] + " " + line[word.start() :]))
            if place + 1 < len(words):
                behind = words[place + 1]
                between = line[word.end() : behind.start()] or " "
                edits.append((
                    "swapped", line[: word.start()] + behind.group() + between + word.group() + line[behind.end() :]
                ))  # fmt: skip
            for kind, made in edits:
                if made != line:
                    text = "\n".join([*lines[:number], made, *lines[number + 1 :]])
                    yield Slip(name, number + 1, kind, line.strip(), made.strip(), text)


@cache
def _shops() -> dict[str, bytes]:
    used = (*JOBS.glob("*.shop"), *JOBS.glob("engines/*.engine"))
    return {path.relative_to(JOBS).as_posix(): path.read_bytes() for path in used}


def outcome(name: str, text: str) -> tuple[dict[str, float] | None, tuple[Message, ...]]:
    """The figures of the plan by valve and path, None where there is none; and all that was said."""

    def load(path: str) -> bytes:
        return text.encode("utf-8") if path == name else _shops()[path]

    job, messages = read(name, load)
    if job is None:
        return None, messages
    made = plan(job)
    figures = {f"{valve.name}.{path}": figure.value for valve in made.valves for path, figure in named_figures(valve)}
    figures |= {f"setting {one.number}.{path}": figure.value for one in made.settings
                for path, figure in named_figures(one)}  # fmt: skip
    return figures, (*messages, *made.messages)


def judge(slip: Slip, before: dict[str, float], said_before: frozenset[tuple[str, str]]) -> str:
    """What came of a slip."""
    figures, messages = outcome(slip.job, slip.text)
    here = [message for message in messages if message.span is not None and message.span.line == slip.line]
    if figures is None:
        errors = [message for message in messages if message.severity == "error"]
        at_line = any(message in here for message in errors)
        return "refused at the line" if at_line else "refused, at a line that it contradicts"
    if figures == before:
        return "no figure changes"
    if any((message.slug, message.text) not in said_before for message in here):
        return "said at the line"
    if any((message.slug, message.text) not in said_before for message in messages):
        return "said of the valve or head"
    return "silent"


def is_valid_otherwise(slip: Slip) -> bool:
    """Whether a slip that changes figures unseen left a line that is right and says something else.

    Two neighbours of one row or header exchanged, each a figure or name that its new place may hold: nothing in the
    file says that the guide is wider at its top than at its bottom, or which of two valves is which. A valve left out
    of a list of valves, and one part of a mixed number: the other part is a number as well.
    """
    before, after = (_WORD.findall(line) for line in (slip.before, slip.after))
    if slip.kind == "deleted":
        mixed = any(re.fullmatch(r"[0-9]+/[0-9]+", word) for word in before)
        return len(after) == len(before) - 1 and (before[0] == "valves" or mixed)
    if slip.kind != "swapped":
        return False
    apart = [place for place, (one, other) in enumerate(zip(before, after, strict=True)) if one != other]
    return sorted(before) == sorted(after) and len(apart) == 2 and apart[1] == apart[0] + 1


def run(every: int = 1) -> Counts:
    """All slips of all demo jobs, or every N-th."""
    counts = Counts()
    number = 0
    for path in sorted(JOBS.glob("*.seat")):
        figures, messages = outcome(path.name, path.read_text("utf-8"))
        assert figures is not None, path.name
        said = frozenset((message.slug, message.text) for message in messages)
        for slip in slips(path.name):
            number += 1
            if number % every:
                continue
            try:
                came = judge(slip, figures, said)
            except Exception:
                counts.crashes.append(f"{slip.job}:{slip.line} {slip.after!r}\n{traceback.format_exc(limit=-3)}")
                continue
            counts.outcomes[came] += 1
            if came == "silent":
                counts.silent.append(slip)
    return counts


def main() -> int:
    """Run from the command line."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--every", type=int, default=1)
    counts = run(words.parse_args().every)
    print(counts)
    left = [slip for slip in counts.silent if not is_valid_otherwise(slip)]
    print(f"{len(counts.silent) - len(left)} silent ones are valid lines that say something else; {len(left)} are not")
    for slip in counts.silent:
        print(f"silent: {slip.job}:{slip.line} {slip.kind}: {slip.before}  =>  {slip.after}")
    return 1 if counts.crashes or left else 0


if __name__ == "__main__":
    sys.exit(main())
