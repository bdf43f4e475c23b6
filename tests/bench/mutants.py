"""Jobs, shop and engine files taken apart by the words of the language and put together wrongly: none may fall over.

`python tests/bench/mutants.py 30000`; `--seed N` starts elsewhere, `--seconds 170` ends in time. The other generator
(fuzz.py) spoils characters and knows no language; this one knows sections, fields, columns, units and kinds of value,
so that what it makes is often read and planned. Each mutant is read, planned and laid out on cards. What falls over or
takes longer than a second is printed with its seed, and the exit code is 1.
"""

from __future__ import annotations

import argparse
import random
import re
import signal
import sys
import time
import traceback
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from seatwright import documents, plan, read
from seatwright.job import Job
from seatwright.job.declarations import Field, sections
from seatwright.syntax.numbers import units

ROOT = Path(__file__).resolve().parents[2]
LONGEST = 1.0  # s of processor time for one mutant
_GIVEN_UP = 20
KINDS = ("job", "shop", "engine")
_WORD = re.compile(r'"(?:[^"]|"")*"?|#.*|[^\s"]+')
_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)")
_VALVE = re.compile(r"[IE][0-9]+[A-Z]?")
_STRANGE = (
    "\u0301", "\u200d", "\u202e", "\u2066", "\ufeff", "\u00ad", "\u3000", "٤", "４", "Ⅳ", "²", "½", "⅞", "−", "—", "’",
    "“", "″", "′", "µ", "μ", "Å", "ﬁ", "ß", "İ", "ı", "𝟘", "🙂", "e\u0301", "\x85", "\u2028", "\x0b", "\x1f", "\x7f",
)  # fmt: skip
_EXTREME = ("0", "-0", "-1", "1e9", "999999999", "0.0000001", "9/0", "1/999999999", "00.00", "1-1/2", "2 1/4")


@dataclass(slots=True)
class Part:
    """A section with its lines, each by its words; the first is its own line. word: "" above the first section."""

    word: str
    lines: list[list[str]] = field(default_factory=list)


@dataclass(slots=True)
class Tally:
    """What came of a run."""

    mutants: int = 0
    answers: Counter[str] = field(default_factory=Counter)
    slowest: float = 0.0
    wrong: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        came = ", ".join(f"{count:,} {what}" for what, count in self.answers.most_common())
        return "\n".join([f"{self.mutants:,} mutants: {came}; slowest {self.slowest:.2f} s", *self.wrong[:10]])


def declared_fields(kind: str) -> list[Field]:
    """Every field and column of a kind of file."""
    return [
        one
        for section in sections(kind)  # type: ignore[arg-type]
        for one in (*section.fields, *section.rows, *(each for head in section.headers for each in head.columns))
    ]


FIELDS = {kind: declared_fields(kind) for kind in KINDS}
WORDS = sorted({one.word for fields in FIELDS.values() for one in fields})
OPENINGS = sorted({section.opening for kind in KINDS for section in sections(kind)})  # type: ignore[arg-type]
SECTIONS = {kind: {section.word for section in sections(kind)} for kind in KINDS}  # type: ignore[arg-type]
EXAMPLES = sorted({one.example for fields in FIELDS.values() for one in fields if one.example})
UNITS = sorted({word for unit in units.unit_table().values() for word in unit.words})


def kind_of(name: str) -> str:
    """The kind of a file by its ending."""
    return {"shop": "shop", "engine": "engine"}.get(name.rpartition(".")[2], "job")


def taken_apart(text: str, kind: str) -> list[Part]:
    """A file by its sections, its lines by their words."""
    parts = [Part("")]
    for line in text.split("\n"):
        words = _WORD.findall(line)
        if words and words[0] in SECTIONS[kind] and not line.startswith(" "):
            parts.append(Part(words[0]))
        if words:
            parts[-1].lines.append(words)
    return parts


def together(parts: list[Part]) -> str:
    """The file of some parts."""
    return "".join("  ".join(words) + "\n" for part in parts for words in part.lines)


# ---- what is done to the parts ---------------------------------------------------------------------------------------


def _some_line(parts: list[Part], chance: random.Random) -> tuple[Part, int]:
    part = chance.choice([one for one in parts if one.lines])
    return part, chance.randrange(len(part.lines))


def _other_word(parts: list[Part], chance: random.Random) -> None:
    """The word of a field or column of another section in place of one."""
    part, at = _some_line(parts, chance)
    words = part.lines[at]
    words[0 if chance.random() < 0.6 else chance.randrange(len(words))] = chance.choice(WORDS)


def _words_exchanged(parts: list[Part], chance: random.Random) -> None:
    (one, here), (other, there) = _some_line(parts, chance), _some_line(parts, chance)
    a, b = chance.randrange(len(one.lines[here])), chance.randrange(len(other.lines[there]))
    one.lines[here][a], other.lines[there][b] = other.lines[there][b], one.lines[here][a]


def _cells_shifted(parts: list[Part], chance: random.Random) -> None:
    """A row, or all rows of a section, one column on."""
    part, at = _some_line(parts, chance)
    rows = part.lines[2:] if chance.random() < 0.3 else [part.lines[at]]
    step = chance.choice((1, -1))
    for words in rows:
        if len(words) > 2:
            words[1:] = [*words[1 + step :], *words[1 : 1 + step]] if step > 0 else [words[-1], *words[1:-1]]


def _column_taken_out(parts: list[Part], chance: random.Random) -> None:
    part, at = _some_line(parts, chance)
    width = len(part.lines[at])
    column = chance.randrange(width)
    kept = chance.random() < 0.5
    for words in part.lines:
        if len(words) == width and column < len(words) and not (kept and words is part.lines[at]):
            del words[column]
    part.lines[:] = [words for words in part.lines if words]


def _line_moved(parts: list[Part], chance: random.Random) -> None:
    part, at = _some_line(parts, chance)
    line = part.lines[at] if chance.random() < 0.3 else part.lines.pop(at)
    other = chance.choice(parts)
    other.lines.insert(chance.randrange(len(other.lines) + 1), list(line))


def _section_moved(parts: list[Part], chance: random.Random) -> None:
    part = chance.choice(parts)
    if chance.random() < 0.5:
        parts.remove(part)
    parts.insert(chance.randrange(len(parts) + 1), Part(part.word, [list(words) for words in part.lines]))


def _section_left_out(parts: list[Part], chance: random.Random) -> None:
    parts.remove(chance.choice(parts))
    if not parts:
        parts.append(Part("", [["units", "mm"]]))


def _section_made(parts: list[Part], chance: random.Random) -> None:
    """A section with fields of its own, each with its example or another's."""
    kind = chance.choice(KINDS)
    section = chance.choice(sections(kind))  # type: ignore[arg-type]
    part = Part(section.word, [_WORD.findall(section.opening)])
    if section.headers:
        header = chance.choice(section.headers)
        columns = [header.first, *chance.sample(header.columns, min(len(header.columns), chance.randrange(1, 5)))]
        part.lines.append([one.word for one in columns])
        for _ in range(chance.randrange(1, 4)):
            part.lines.append([_value(one, chance) for one in columns])
    for one in chance.sample(section.fields, min(len(section.fields), chance.randrange(6))):
        part.lines.append([one.word, *_WORD.findall(_value(one, chance))])
    if section.rows:
        part.lines.append([_value(one, chance) for one in section.rows])
    parts.insert(chance.randrange(1, len(parts) + 1), part)


def _value(one: Field, chance: random.Random) -> str:
    if one.choices and chance.random() < 0.5:
        return chance.choice(one.choices)
    return one.example if chance.random() < 0.8 else chance.choice(EXAMPLES)


def _of_one_valve(parts: list[Part], chance: random.Random) -> None:
    """A row of a table as a section of its own, a column a line."""
    tables = [part for part in parts if part.word in ("measured", "cut", "finished") and len(part.lines) > 2]
    if not tables:
        _section_made(parts, chance)
        return
    part = chance.choice(tables)
    header, row = part.lines[1], chance.choice(part.lines[2:])
    lines = [[column, cell] for column, cell in zip(header[1:], row[1:], strict=False)]
    if chance.random() < 0.4:
        chance.shuffle(lines)
    parts.append(Part(part.word, [[part.word, row[0], *part.lines[0][1:]], *lines]))
    if chance.random() < 0.7:
        part.lines.remove(row)


def _numbers(parts: list[Part], chance: random.Random, change: Callable[[str], str]) -> None:
    part, at = _some_line(parts, chance)
    words = part.lines[at]
    places = [place for place, word in enumerate(words) if _NUMBER.match(word)]
    if places:
        place = chance.choice(places)
        words[place] = change(words[place])


def _unit_changed(parts: list[Part], chance: random.Random) -> None:
    def other(word: str) -> str:
        figure = _NUMBER.match(word)
        assert figure is not None
        return figure[0] + chance.choice(("", " ")) + chance.choice(UNITS)

    _numbers(parts, chance, other)


def _figure_changed(parts: list[Part], chance: random.Random) -> None:
    def other(word: str) -> str:
        figure = _NUMBER.match(word)
        assert figure is not None
        if chance.random() < 0.3:
            return chance.choice(_EXTREME)
        scaled = float(figure[0]) * chance.choice((10, 0.1, -1, 25.4, 1 / 25.4, 2, 0.5, 1.001, 0.999, 1000))
        return f"{scaled:.6f}".rstrip("0") + word[figure.end() :]

    _numbers(parts, chance, other)


def _figure_near(parts: list[Part], chance: random.Random) -> None:
    """A figure a little off, or a tenth of itself: what is still read, and goes on to the cards."""

    def other(word: str) -> str:
        figure = _NUMBER.match(word)
        assert figure is not None
        places = len(figure[0].partition(".")[2])
        return (
            f"{float(figure[0]) * chance.choice((1.0005, 0.9995, 1.01, 0.98, 1.1, 0.9)):.{places}f}"
            + word[figure.end() :]
        )

    _numbers(parts, chance, other)


def _cell_emptied(parts: list[Part], chance: random.Random) -> None:
    part, at = _some_line(parts, chance)
    words = part.lines[at]
    if len(words) > 2:
        words[chance.randrange(1, len(words))] = "-"


def _field_left_out(parts: list[Part], chance: random.Random) -> None:
    part, at = _some_line(parts, chance)
    if at:
        del part.lines[at]


def _valve_changed(parts: list[Part], chance: random.Random) -> None:
    named = [(words, at) for part in parts for words in part.lines for at, one in enumerate(words) if _VALVE.match(one)]
    if named:
        words, at = chance.choice(named)
        words[at] = chance.choice((*(other[place] for other, place in named), "I9", "E12B", "e1", "all", "exhaust"))


def _line_says_more(parts: list[Part], chance: random.Random) -> None:
    """A section line, or another, with what only some take behind it."""
    part, at = _some_line(parts, chance)
    part.lines[0 if chance.random() < 0.7 else at] += _WORD.findall(chance.choice(
        ("2026-11-17", "at 22 C", "in mm", "in inch", "E1", "E1 I1", "reconditioned", '"manual"', "# remark", "to 9",
         "+/- 0.1", "= 1.5 in", "+0.02 -0.01", "most 3", "choose", "at -200 C", "1999-02-30", "none", "= 44 mm")
    ))  # fmt: skip


def _strange(parts: list[Part], chance: random.Random) -> None:
    part, at = _some_line(parts, chance)
    words = part.lines[at]
    place = chance.randrange(len(words))
    inside = chance.randrange(len(words[place]) + 1)
    words[place] = words[place][:inside] + chance.choice(_STRANGE) + words[place][inside:]


def _truncated(parts: list[Part], chance: random.Random) -> None:
    part, at = _some_line(parts, chance)
    words = part.lines[at]
    del words[chance.randrange(len(words)) + 1 :]
    words[-1] = words[-1][: chance.randrange(len(words[-1])) + 1]
    if chance.random() < 0.3:
        del part.lines[at + 1 :]


CHANGES: tuple[Callable[[list[Part], random.Random], None], ...] = (
    _other_word, _words_exchanged, _cells_shifted, _column_taken_out, _line_moved, _section_moved, _section_left_out,
    _section_made, _of_one_valve, _of_one_valve, _unit_changed, _unit_changed, _figure_changed, _figure_changed,
    _valve_changed, _figure_near, _figure_near, _figure_near, _cell_emptied, _cell_emptied, _field_left_out,
    _line_says_more, _strange, _truncated,
)  # fmt: skip


def mutant(files: dict[str, str], name: str, chance: random.Random) -> dict[str, str]:
    """Files with one to three changes, most of them in the job."""
    spoilt = name if chance.random() < 0.7 else chance.choice(sorted(files))
    parts = taken_apart(files[spoilt], kind_of(spoilt))
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        if not any(part.lines for part in parts):
            break
        chance.choice(CHANGES)(parts, chance)
    return {**files, spoilt: together(parts)}


# ---- running them ----------------------------------------------------------------------------------------------------


def whole_jobs() -> list[tuple[str, dict[str, str]]]:
    """Jobs to take apart, each with the files beside it: the demo jobs and those of the catalogue."""
    found = []
    for folder in (ROOT / "jobs", ROOT / "tests" / "messages"):
        for path in sorted(folder.rglob("*.seat")):
            beside = [each for each in sorted(path.parent.iterdir()) if each.suffix in (".shop", ".engine")]
            text = path.read_bytes().decode("utf-8", "replace")
            used = {each.name: each.read_text("utf-8", "replace") for each in beside if f'"{each.name}"' in text}
            files = {path.name: text, **used}
            # What has an error to begin with goes no further than that one.
            if _read(path.name, files) is not None:
                found.append((path.name, files))
    return found


def run(count: int, seed: int, seconds: float = 1e9) -> Tally:
    """Make and try so many mutants, or as many as the time allows."""
    jobs = whole_jobs()
    # Short jobs more often: a change says more in them, and more of them go by.
    weights = [sum(len(text) for text in files.values()) ** -0.8 for _, files in jobs]
    tally = Tally()
    signal.signal(signal.SIGALRM, _give_up)
    ends = time.monotonic() + seconds
    for number in range(count):
        if time.monotonic() > ends:
            break
        chance = random.Random(f"{seed} {number}")
        name, files = chance.choices(jobs, weights)[0]
        files = mutant(files, name, chance)
        tally.mutants += 1
        signal.alarm(_GIVEN_UP)
        began = time.process_time()
        try:
            tally.answers[_try(name, files)] += 1
        except Exception:
            tally.wrong.append(f"{seed} {number} {name}: {traceback.format_exc(limit=-3)}")
        finally:
            signal.alarm(0)
        took = time.process_time() - began
        tally.slowest = max(tally.slowest, took)
        if took > LONGEST:
            tally.wrong.append(f"{seed} {number} {name}: {took:.1f} s")
    return tally


def _read(name: str, files: dict[str, str]) -> Job | None:
    def load(path: str) -> bytes:
        if path not in files:
            raise FileNotFoundError(2, "No such file or directory")
        return files[path].encode("utf-8", "surrogatepass")

    return read(name, load)[0]


def _try(name: str, files: dict[str, str]) -> str:
    job = _read(name, files)
    if job is None:
        return "with errors"
    documents(plan(job))
    return "on cards"


def _give_up(*_: object) -> None:
    raise TimeoutError


def main() -> int:
    """Run from the command line."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("count", type=int, nargs="?", default=30_000)
    words.add_argument("--seed", type=int, default=1)
    words.add_argument("--seconds", type=float, default=1e9)
    given = words.parse_args()
    tally = run(given.count, given.seed, given.seconds)
    print(tally)
    return 1 if tally.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
