"""Every measured figure spoilt in the ways that fingers spoil one: how many move something at the machine unseen.

    python tests/bench/figure_slips.py [--heads 50] [--first-seed 1000] [--every N] [--wishes]

Each cell of `measured`, `cut`, `finished` and `trial` of the demo jobs and of worn heads made by seeds
(worn_heads.py) is typed tenfold, a tenth, in the other unit, halved, doubled, by a millimetre, a half and a tenth off,
with two digits swapped, with the wrong sign; with --wishes also the fields of the job and of its shop file. A slip is
caught by an error, hold or warning at its line or naming its valve. It is silent where there is none and something that
a card says to the machine changes. Where the spoilt figure is one that a sound head could show (`REAL`), no reading
could tell: those are counted apart. A sample is in tests/whole/test_figure_slips.py.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from itertools import pairwise
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).resolve().parent))

from worn_heads import ALONE, REAL, TOGETHER, Head

from seatwright.cards.as_text.as_printed import printed
from seatwright.job import read
from seatwright.job.typed.names import is_valve, valve_parts
from seatwright.planning.planner import plan
from seatwright.text import Message, Severity
from seatwright.told.printed_facts import subjects

JOBS = Path(__file__).resolve().parents[2] / "jobs"
TABLES = frozenset({"measured", "cut", "finished", "trial"})
KINDS = ("x10", "/10", "x25.4", "/25.4", "half", "double", "+1", "-1", "+.5", "-.5", "+.1", "-.1", "swapped", "sign")
_NUMBER = re.compile(r"-?[0-9]*\.?[0-9]+")
_OFF = {"+1": "1", "-1": "-1", "+.5": ".5", "-.5": "-.5", "+.1": ".1", "-.1": "-.1"}
_OFF_IN = {"+1": ".04", "-1": "-.04", "+.5": ".02", "-.5": "-.02", "+.1": ".004", "-.1": "-.004"}
_BY = {"x10": "10", "/10": ".1", "x25.4": "25.4", "/25.4": "0.03937007874", "half": ".5", "double": "2"}
_WEIGHS = frozenset({Severity.ERROR, Severity.HOLD, Severity.WARNING})

Files = dict[str, str]


@dataclass(frozen=True, slots=True)
class Place:
    """A figure of a file: where it stands, whose it is, mm. part: its table, or the section it is a field of."""

    file: str
    line: int  # from 1
    start: int
    end: int
    part: str
    column: str
    valve: str
    inch: bool
    mm: float


@dataclass(frozen=True, slots=True)
class Answer:
    """What came of one job. figures: what its cards say to the machine, None where nothing is written."""

    figures: dict[tuple[str, str, str], str] | None
    messages: tuple[Message, ...]


@dataclass(slots=True)
class Counts:
    """What came of all slips, by column and kind; outcome: caught, silent, unmoved, or as a true figure."""

    outcomes: dict[tuple[str, str], Counter[str]] = field(default_factory=lambda: defaultdict(Counter))
    silent: list[str] = field(default_factory=list)
    like_true: Counter[str] = field(default_factory=Counter)
    honest: int = 0
    flagged: list[str] = field(default_factory=list)

    def total(self, outcome: str) -> int:
        return sum(each[outcome] for each in self.outcomes.values())

    @property
    def slips(self) -> int:
        """All slips but those that no reading could tell from a true figure."""
        return sum(sum(each.values()) - each["like true"] for each in self.outcomes.values())

    @property
    def worst(self) -> tuple[float, str, str, int]:
        """The share, column and kind of the most silent ones, and of how many."""
        return max(
            (each["silent"] / told, column, kind, told)
            for (column, kind), each in self.outcomes.items()
            if (told := sum(each.values()) - each["like true"]) > 0
        )

    def __str__(self) -> str:
        columns = sorted({column for column, _ in self.outcomes})
        wide = max(map(len, columns))
        lines = [
            "per cent caught / silent while something at the machine moves, of those that can be told; = none can",
            " " * wide + "".join(f"{kind:>9}" for kind in KINDS),
        ]
        for column in columns:
            lines.append(f"{column:{wide}}" + "".join(self._cell(column, kind) for kind in KINDS))
        share, column, kind, of = self.worst
        lines += [
            f"{self.slips:,} slips that can be told: {self.total('caught'):,} caught, {self.total('silent'):,} silent "
            f"and moved ({100 * self.total('silent') / max(1, self.slips):.2f} %), "
            f"{self.total('unmoved'):,} move nothing",
            f"worst: {column} {kind}: {100 * share:.0f} % of {of}",
            f"{self.total('like true'):,} more are figures that a sound head could show:",
            *(f"  {count:6,}  {why}" for why, count in self.like_true.most_common()),
            f"{self.honest:,} honest cells, {len(self.flagged)} flagged by more than a notice "
            f"({100 * len(self.flagged) / max(1, self.honest):.2f} %)",
        ]
        return "\n".join(lines)

    def _cell(self, column: str, kind: str) -> str:
        each = self.outcomes.get((column, kind))
        if each is None:
            return f"{'':>9}"
        told = sum(each.values()) - each["like true"]
        if not told:
            return f"{'=':>9}"
        shares = f"{100 * each['caught'] / told:.0f}/{100 * each['silent'] / told:.0f}"
        return f"{shares:>9}"


def answer(name: str, files: Files) -> Answer:
    """What a job gives: its particulars as its cards print them, warnings left out, and all that was said."""
    job, messages = read(name, lambda path: files[path].encode("utf-8"))
    if job is None:
        return Answer(None, messages)
    made = plan(job)
    figures: dict[tuple[str, str, str], str] = {}
    for subject in subjects(made):
        for each in subject.particulars:
            path = each.paths[0] or each.paths[-1]
            if not path.startswith(("messages.", "not_checked.")):
                words = str(printed(made, each)) if each.form != "slug" else each.text
                figures[subject.kind, subject.name, path] = words
    return Answer(figures, (*messages, *made.messages))


def cells(name: str, text: str) -> Iterator[Place]:
    """The figures of the measured tables of a job, and of its trials."""
    whole_inch = re.search(r"^\s*units\s+inch", text, re.MULTILINE) is not None
    part, header, inch = "", [], whole_inch
    for number, raw in enumerate(text.split("\n"), start=1):
        line = raw.split("#")[0].rstrip()
        words = [(match.group(), match.start(), match.end()) for match in re.finditer(r'"[^"]*"|\S+', line)]
        if not words:
            continue
        first = words[0][0]
        if not raw.startswith(" ") and not is_valve(first) and first not in ("valve", "C1", "C2", "E2"):
            part, header = first, []
            inch = (whole_inch or "in inch" in line) and "in mm" not in line
        elif part == "trial" and len(words) == 5:
            for place in (2, 4):
                yield _place(name, number, words[place], part, words[place - 1][0], "", inch)
        elif part in TABLES and first == "valve":
            header = [word for word, _, _ in words]
        elif part in TABLES and len(words) == len(header) and is_valve(first):
            for word, column in zip(words[1:], header[1:], strict=True):
                is_figure = _NUMBER.fullmatch(word[0].split("/")[0]) is not None
                if is_figure and column not in ("insert", "cutter", "leak") and not column.startswith("x-"):
                    yield _place(name, number, word, part, column, first, inch)


def fields(name: str, text: str) -> Iterator[Place]:
    """The figures of the fields of a job or shop file, of its layout and spacing."""
    whole_inch = re.search(r"^\s*units\s+inch", text, re.MULTILINE) is not None
    part, header = "", []
    skipped = TABLES | {"job", "interference", "pilots", "inserts", "material", "alloy", "note", "use", "language"}
    for number, raw in enumerate(text.split("\n"), start=1):
        line = re.sub(r'"[^"]*"', lambda found: '"' + "_" * (len(found[0]) - 2) + '"', raw.split("#")[0]).rstrip()
        words = [(match.group(), match.start(), match.end()) for match in re.finditer(r"\S+", line)]
        if not words:
            continue
        first = words[0][0]
        if not raw.startswith(" ") and first != "valve" and not is_valve(first):
            part, header = first, []
            continue
        if part in skipped:
            continue
        if first in ("valve", "hole"):
            header = [word for word, _, _ in words]
            continue
        for place, word in enumerate(words[1:], start=1):
            if _NUMBER.fullmatch(word[0]):
                column = header[place] if header and place < len(header) else "distance" if part == "spacing" else first
                yield _place(name, number, word, part, f"{part} {column}", first if is_valve(first) else "", whole_inch)


def _place(name: str, line: int, word: tuple[str, int, int], part: str, column: str, valve: str, inch: bool) -> Place:
    one = word[0].split("/")[0]
    return Place(name, line, word[1], word[1] + len(one), part, column, valve, inch, float(one) * (25.4 if inch else 1))


def spoilt(digits: str, kind: str, inch: bool, turn: int = 0) -> str | None:
    """A figure as a slip types it, None where that kind leaves it as it is. turn: which two digits are swapped."""
    value = Decimal(digits)
    places = max(0, -int(value.as_tuple().exponent))
    if kind == "sign":
        return digits[1:] if digits.startswith("-") else f"-{digits}" if value else None
    if kind == "swapped":
        marks = [at for at, mark in enumerate(digits) if mark.isdigit()]
        pairs = [(a, b) for a, b in pairwise(marks) if digits[a] != digits[b]]
        if not pairs:
            return None
        one, other = pairs[turn % len(pairs)]
        made = list(digits)
        made[one], made[other] = made[other], made[one]
        return "".join(made)
    if kind in _BY:
        by = value * Decimal(_BY[kind])
        more = {"/10": 1, "half": 1, "x10": -1}.get(kind, 0)
        text = f"{by:.{max(0, places + more)}f}"
    else:
        text = f"{value + Decimal((_OFF_IN if inch else _OFF)[kind]):.{max(places, 3 if inch else 1)}f}"
    return text if Decimal(text) != value else None


def _said(messages: tuple[Message, ...]) -> frozenset[tuple[str, str, int]]:
    found = set()
    for message in messages:
        if message.severity in _WEIGHS:
            found.add((message.slug, "", message.span.line if message.span else 0))
            found |= {(message.slug, valve, 0) for valve in message.valves}
    return frozenset(found)


def outcome(place: Place, before: Answer, after: Answer) -> str:
    """caught, unmoved or silent. A message counts that was not there before, at the line or naming the valve."""
    new = _said(after.messages) - _said(before.messages)
    if not place.valve and place.part not in TABLES and new:
        return "caught"  # a wish is of many valves: what is said of any of them is said of it
    at_line = any(line == place.line for _, _, line in new)
    if at_line or any(valve == place.valve for _, valve, _ in new if valve):
        return "caught"
    # An error is read before anything else, wherever it stands.
    if after.figures is None:
        return "caught"
    if place.valve and any(
        message.severity in _WEIGHS and re.search(rf"\b{place.valve}\b", message.text)
        for message in set(after.messages) - set(before.messages)
    ):
        return "caught"
    return "unmoved" if after.figures == before.figures else "silent"


def true_band(place: Place, here: list[Place]) -> tuple[float, float, str] | None:
    """Between which figures a sound head could show this cell, and why; None for what cannot be told so."""
    real = REAL.get(place.column)
    if real is None:
        return None
    family = next((each for each in TOGETHER if place.column in each), frozenset())
    row = [each for each in here if each.valve == place.valve and each.part == place.part]
    beside = [each for each in row if each.column in family and each.column != place.column]
    if place.part == "trial":
        other = next(each for each in here if each.line == place.line and each.column != place.column)
        return other.mm + (0.006 if place.column == "bored" else -0.006) - real.under, other.mm + 0.026, real.why
    kind = valve_parts(place.valve)[::2] if place.valve else ("", "")

    def usual(column: str) -> list[float]:
        return [
            each.mm
            for each in here
            if each.column == column
            and each.part == place.part
            and each.valve not in ("", place.valve)
            and valve_parts(each.valve)[::2] == kind
        ]

    others = usual(place.column)
    alone = place.column in ("recession", "stem-height", "spring-height") and len(others) < 2
    if not others and (not beside or alone):
        # Nothing in the job is its like: another head could be so.
        return place.mm - 1.2, place.mm + 1.2, "the only one of its kind: another head is so"
    if not beside or alone:
        if place.column in ("recession", "stem-height", "spring-height"):
            real = ALONE
        middle = median(others)
        return middle - real.under, middle + real.over, real.why
    if len(others) >= 2:
        shifts = [each.mm - median(usual(each.column) or [each.mm]) for each in beside]
        return median(others) + min(shifts) - real.under, median(others) + max(shifts) + real.over, real.why
    sizes = [each.mm for each in beside]
    return min(sizes) - real.under, max(sizes) + real.over, real.why


def try_all(name: str, files: Files, places: list[Place], counts: Counts, every: int, shift: int = 0) -> None:
    """Spoil every N-th of these figures of a job, each in every way."""
    before = answer(name, files)
    if before.figures is None:
        raise SystemExit(f"{name}: {[message.text for message in before.messages if message.severity == 'error']}")
    measured = [place for place in places if place.valve and place.part in TABLES]
    counts.honest += len(measured)
    for message in before.messages:
        if message.slug in CHECKED and message.severity in _WEIGHS and message.span is not None:
            counts.flagged.append(f"{name}:{message.span.line} {message.text}")
    texts = {path: text.split("\n") for path, text in files.items()}
    for number, place in enumerate(places):
        for turn, kind in enumerate(KINDS):
            if (number * len(KINDS) + turn + shift) % every:
                continue
            line = texts[place.file][place.line - 1]
            made = spoilt(line[place.start : place.end], kind, place.inch, number)
            if made is None:
                continue
            lines = list(texts[place.file])
            lines[place.line - 1] = line[: place.start] + made + line[place.end :]
            after = answer(name, {**files, place.file: "\n".join(lines)})
            came = outcome(place, before, after)
            column = place.column if place.part != "finished" else f"finished {place.column}"
            if came == "silent":
                band = true_band(place, places) if place.part in TABLES else None
                mm = float(made) * (25.4 if place.inch else 1)
                if band is not None and band[0] - 1e-9 <= mm <= band[1] + 1e-9:
                    came = "like true"
                    counts.like_true[f"{column}: {band[2]}"] += 1
                else:
                    moved = [key for key, value in (after.figures or {}).items()
                             if before.figures.get(key) != value][:3]  # fmt: skip
                    counts.silent.append(f"{name}:{place.line} {column} {place.valve} {kind}: "
                                         f"{line[place.start : place.end]} => {made} moves {moved}")  # fmt: skip
            counts.outcomes[column, kind][came] += 1


CHECKED = frozenset({
    "unlike-the-others", "stem-loose", "depth-unlike-insert", "damage-inside", "throat-unlike", "place-unlike",
    "spacing-unlike", "read-unlike-bore", "height-unlike-list", "overcut-moved",
    "guide-length-odd", "guide-to-floor-odd", "stand-far",
})  # fmt: skip
"""The slugs of the checks that hold a figure against its like: what they say of an honest cell is a false alarm."""


def demo_jobs(counts: Counts, counts_wishes: Counts, *, every: int, wishes: bool) -> None:
    """The demo jobs with the shop files of their folder."""
    used = (*JOBS.glob("*.shop"), *JOBS.glob("engines/*.engine"))
    shops = {path.relative_to(JOBS).as_posix(): path.read_text("utf-8") for path in used}
    for path in sorted(JOBS.glob("*.seat")):
        text = path.read_text("utf-8")
        files = {path.name: text, **{name: shop for name, shop in shops.items() if f'use "{name}"' in text}}
        try_all(path.name, files, list(cells(path.name, text)), counts, every)
        if wishes:
            typed = [place for name, each in files.items() for place in fields(name, each)]
            try_all(path.name, files, typed, counts_wishes, every)


def made_job(head: Head, name: str, counts: Counts, *, every: int, shift: int) -> None:
    """One worn head. shift: with which of its slips to begin."""
    try_all(name, {name: head.job, "made.shop": head.shop}, list(cells(name, head.job)), counts, every, shift)


def main() -> int:
    """Run from the command line."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--heads", type=int, default=50)
    words.add_argument("--first-seed", type=int, default=1000)
    words.add_argument("--every", type=int, default=1, help="of the demo jobs' slips")
    words.add_argument("--every-made", type=int, default=7, help="of the made heads' slips")
    words.add_argument("--wishes", action="store_true")
    words.add_argument("--show", type=int, default=40, help="so many silent slips are listed")
    given = words.parse_args()
    counts, typed = Counts(), Counts()
    demo_jobs(counts, typed, every=given.every, wishes=given.wishes)
    for seed in range(given.first_seed, given.first_seed + given.heads):
        made_job(Head(seed), f"head-{seed}.seat", counts, every=given.every_made, shift=seed)
    print(counts)
    for line in (*counts.flagged, *counts.silent[: given.show]):
        print(line)
    if given.wishes:
        print("\nwishes and shop figures\n" + str(typed))
        for line in typed.silent[: given.show]:
            print(line)
    return 1 if counts.total("silent") > 0.03 * counts.slips else 0


if __name__ == "__main__":
    sys.exit(main())
