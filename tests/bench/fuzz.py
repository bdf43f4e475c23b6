"""Spoilt jobs by the hundred thousand: none may end in a traceback, hang, or be answered with an unknown message.

`python tests/bench/fuzz.py 200000` ; `--seed N` starts elsewhere; the same seed gives the same inputs. What is wrong
is printed with its input, and the exit code is 1. A short run of it is in tests/whole/test_fuzz.py.
"""

from __future__ import annotations

import argparse
import random
import signal
import sys
import time
import traceback
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from seatwright.job import read
from seatwright.planning.planner import plan
from seatwright.text import Message, as_json, reading, sarif, terminal

ROOT = Path(__file__).resolve().parents[2]
SHORT = ROOT / "tests" / "messages"
LONGEST = 1.0  # s of processor time for one input
HANGS = 20  # s after which an input is given up

SCRAPS = (
    "", " ", "-", "--", "#", '"', "'", "=", ",", ";", ":", "|", "\t", "\u00a0", "\u200b", "\u202e", "\x1b[31m", "\x00",
    "1/0", "-5", "0", "9e9", "1e400", "inf", "nan", "44,1", "1.500,2", "1.2.3", "to", "+/-", "±", "+0.02", "-0.01",
    "in", "mm", "thou", '"', "°", "44°53'", "C", "F", "-300 C", "tir", "offset", "most", "least", "flush", "choose",
    "turned", "none", "I1", "E1", "I999", "x-y", "½", "Ø", "4" * 400, "." * 50, "(", ")", "{{ 7*7 }}", "<b>", "&amp;",
    "| a |", "../../x.shop", "measured", "valves", "head", "job", "use", "note", "cut", "finished", "spacing", "valve",
    "pocket-a", "insert", "interference", "2026-11-16", "16.11.2026", "at 24 C", "in inch", "in mm", "0.08-0.12",
    "2.0/2.1", "1 5/8", "-0", "+", "/", "\\", "é", "漢", "🙂", "e\u0301", "\r", "\u2028", "‑", "’", "“", "”",
)  # fmt: skip


@dataclass(slots=True)
class Counts:
    """What came of a run. answers: how many inputs gave a job, and how many only errors; wrong: what must not be."""

    inputs: int = 0
    answers: Counter[str] = field(default_factory=Counter)
    slugs: Counter[str] = field(default_factory=Counter)
    slowest: float = 0.0
    wrong: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        lines = [
            f"{self.inputs:,} inputs: {self.answers['job']:,} gave a job, {self.answers['errors']:,} only errors",
            f"{sum(self.slugs.values()):,} messages of {len(self.slugs)} kinds; slowest input {self.slowest:.2f} s",
            f"{len(self.wrong)} wrong",
        ]
        # What fell over comes before what is only unknown.
        return "\n".join(lines + sorted(self.wrong, key=lambda one: "Traceback" not in one)[:20])


class _Hangs(Exception):
    """An input took far too long."""


def seeds() -> list[tuple[str, dict[str, str]]]:
    """Jobs to spoil: those of the catalogue, which are short, and the demo jobs; each with its files."""
    found = []
    for folder in (SHORT, ROOT / "jobs"):
        others = sorted((*folder.glob("*.shop"), *folder.glob("*.engine"), *folder.glob("engines/*.engine")))
        shops = {path.relative_to(folder).as_posix(): path.read_text("utf-8", "replace") for path in others}
        for path in sorted(folder.glob("*.seat")):
            text = path.read_bytes().decode("utf-8", "replace")
            if len(text) < 9_000:
                used = {name: shop for name, shop in shops.items() if f'"{name}"' in text}
                found.append((path.name, {path.name: text, **used}))
    return found


def spoil(text: str, chance: random.Random) -> str:
    """A text with one to four mistakes of the kinds that hands, clipboards and disks make."""
    for _ in range(chance.choice((1, 1, 2, 4))):
        text = chance.choice(_SPOILERS)(text, chance)
    return text


def _character(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + chance.choice(SCRAPS) + text[at + chance.randrange(3) :]


def _word(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    words = lines[at].split(" ")
    place = chance.randrange(len(words))
    kind = chance.randrange(4)
    if kind == 0:
        del words[place]
    elif kind == 1:
        words.insert(place, words[place])
    elif kind == 2:
        words[place] = chance.choice(SCRAPS)
    else:
        other = chance.randrange(len(words))
        words[place], words[other] = words[other], words[place]
    lines[at] = " ".join(words)
    return "\n".join(lines)


def _line(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    kind = chance.randrange(4)
    if kind == 0:
        del lines[one]
    elif kind == 1:
        lines.insert(other, lines[one])
    elif kind == 2:
        lines[one], lines[other] = lines[other], lines[one]
    else:
        lines[one] += " " + lines[other].strip()
    return "\n".join(lines)


def _figure(text: str, chance: random.Random) -> str:
    places = [at for at, character in enumerate(text) if character.isdigit()]
    if not places:
        return text
    at = chance.choice(places)
    return text[:at] + chance.choice("0123456789.,-/OlE ") + text[at + 1 :]


def _cut_off(text: str, chance: random.Random) -> str:
    return text[: chance.randrange(len(text) + 1)]


_SPOILERS: tuple[Callable[[str, random.Random], str], ...] = (_word, _word, _word, _character, _line, _figure, _cut_off)


def run(count: int, seed: int, known: frozenset[str] | None = None, report: int = 0) -> Counts:
    """Spoil and read `count` jobs. known: the slugs that may come, where that is to be checked."""
    chance = random.Random(seed)
    start = seeds()
    # Short jobs more often: a mistake says more in them, and more of them go by.
    weights = [sum(len(text) for text in files.values()) ** -0.5 for _, files in start]
    counts = Counts()
    signal.signal(signal.SIGALRM, _give_up)
    for number in range(count):
        name, files = chance.choices(start, weights)[0]
        spoilt = chance.choice(list(files)) if chance.random() < 0.3 else name
        files = {**files, spoilt: spoil(files[spoilt], chance)}
        data = {path: text.encode("utf-8", "surrogatepass") for path, text in files.items()}
        counts.inputs += 1
        signal.alarm(HANGS)
        began = time.process_time()
        try:
            messages = _answer(name, data, counts)
            if known is not None and (strange := {message.slug for message in messages} - known):
                counts.wrong.append(f"{number}: unknown message {sorted(strange)} in {files[spoilt]!r}")
        except Exception:
            counts.wrong.append(f"{number}: {traceback.format_exc(limit=-4)}\n{spoilt}: {files[spoilt]!r}")
        took = time.process_time() - began
        signal.alarm(0)
        counts.slowest = max(counts.slowest, took)
        if took > LONGEST:
            counts.wrong.append(f"{number}: {took:.1f} s for {spoilt}: {files[spoilt]!r}")
        if report and counts.inputs % report == 0:
            print(counts, flush=True)
    return counts


def _answer(name: str, data: dict[str, bytes], counts: Counts) -> tuple[Message, ...]:
    job, messages = read(name, lambda path: _load(path, data))
    errors = any(message.severity == "error" for message in messages)
    assert (job is None) == errors, "a job and errors at once, or neither"
    if job is not None:
        messages = (*messages, *plan(job).messages)
    counts.answers["job" if job is not None else "errors"] += 1
    counts.slugs.update(message.slug for message in messages)
    found = (reading.read_source(path, content)[0] for path, content in data.items())
    sources = {source.path: source for source in found if source is not None}
    for message in messages:
        assert message.span is not None, message
        source = sources.get(message.span.file)
        assert source is None or 1 <= message.span.line <= len(source.as_typed()), message
    for text in (terminal.render(messages, sources), terminal.one_a_line(messages)):
        assert all(character.isprintable() or character == "\n" for character in text)
    as_json.render(messages)
    sarif.render(messages)
    return tuple(messages)


def _load(path: str, data: dict[str, bytes]) -> bytes:
    if path not in data:
        raise FileNotFoundError(2, "No such file or directory")
    return data[path]


def _give_up(number: int, frame: object) -> None:
    raise _Hangs


def main() -> int:
    """Run from the command line."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("count", type=int, nargs="?", default=200_000)
    words.add_argument("--seed", type=int, default=1)
    given = words.parse_args()
    known = frozenset(path.stem for path in SHORT.glob("*.txt"))
    counts = run(given.count, given.seed, known, report=10_000)
    print(counts)
    return 1 if counts.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
