"""Whatever is typed, the reader says something and never falls over; each message has a place in a file."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from seatwright.job import read
from seatwright.text import Severity

JOBS = Path(__file__).parents[2] / "jobs"
FILES = {path.name: path.read_text("utf-8") for path in sorted(JOBS.iterdir()) if path.suffix in (".seat", ".shop")}
SEATS = sorted(name for name in FILES if name.endswith(".seat"))
BITS = (
    "mm",
    "in",
    "to",
    "+/-",
    "-",
    "0",
    "1/0",
    "1e9",
    "99999999999",
    '"',
    "#",
    "=",
    "°",
    "tir",
    "44,02",
    "I1",
    "E9Z",
    "valves",
    "measured",
    "head",
    "job",
    "x-y",
    "most",
    "choose",
    "none",
    "at",
    "2026-13-01",
    "\t",
    "±",
    "½",
    "-78.5 C",
    "kN",
    ".",
    "/",
)


@st.composite
def mutated(draw: st.DrawFn) -> dict[str, str]:
    """The demo files with some words swapped, doubled, dropped or replaced."""
    name = draw(st.sampled_from(SEATS))
    spoilt = draw(st.sampled_from([name, *(shop for shop in FILES if shop.endswith(".shop"))]))
    lines = FILES[spoilt].split("\n")
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        words = lines[at].split(" ")
        word = draw(st.integers(0, len(words) - 1))
        match draw(st.integers(0, 4)):
            case 0:
                words[word] = draw(st.sampled_from(BITS))
            case 1:
                words.insert(word, draw(st.sampled_from(BITS)))
            case 2:
                del words[word]
            case 3:
                lines.insert(at, lines[draw(st.integers(0, len(lines) - 1))])
            case _:
                words[word] += draw(st.text(max_size=3))
        lines[at] = " ".join(words)
    return {**FILES, spoilt: "\n".join(lines), "": name}


@settings(max_examples=150)
@given(mutated())
def test_a_spoilt_job_never_stops_the_reader(files: dict[str, str]) -> None:
    def load(path: str) -> bytes:
        if path not in files:
            raise FileNotFoundError(2, "No such file or directory")
        return files[path].encode("utf-8", "replace")

    job, messages = read(files[""], load)
    wrong = [message for message in messages if message.severity is Severity.ERROR]
    assert (job is None) == bool(wrong)
    for message in messages:
        assert message.span is not None
        assert message.span.line >= 1
        assert message.help[-1] in ".?"
    assert [message.place for message in messages] == sorted(message.place for message in messages)
